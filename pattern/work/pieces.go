package work

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// PieceLines says of each strip in several pieces where they lie, and how much room each
// joint has between what is cut out.
func PieceLines(j Job, allowance length.Length, u length.Unit) []Line {
	var out []Line
	for i, s := range j.Pattern.Strips {
		if s.Joints.Len() == 0 {
			continue
		}
		text := joints.Way(j.Pattern.PiecesOf(s, allowance)).Text(i+1, u)
		for _, joint := range s.Joints.All() {
			text += "; joint " + jointPlace(j, i, joint, u)
		}
		out = append(out, Line{What: fmt.Sprintf("strip %d", i+1), Text: text})
	}
	return out
}

// jointPlace says between what a joint of strip i, from 0, lies, and how far it may move.
func jointPlace(j Job, i int, joint pattern.Joint, u length.Unit) string {
	before, behind, ok := room(j.Layout, i, joint)
	if !ok {
		return "at " + JointText(joint, u) + ", beside all that is cut out"
	}
	text := fmt.Sprintf("between %s and %s", before.copy, behind.copy)
	if before.free == behind.free {
		return fmt.Sprintf("%s, %s free each way", text, before.free.With(u))
	}
	return fmt.Sprintf("%s, %s free towards the datum end, %s beyond", text, before.free.With(u), behind.free.With(u))
}

// A neighbour is the copy on one side of a joint, and how far the joint may move to it.
type neighbour struct {
	copy string
	free length.Length
}

// room finds what lies before and behind a joint of strip i, from 0; false where there is
// nothing on one side.
func room(l outline.Layout, i int, joint pattern.Joint) (before, behind neighbour, ok bool) {
	for _, s := range l.Stretches {
		switch {
		case s.Strip != i+1:
		case s.To <= joint.From:
			before = neighbour{copyAt(l, s.To), joint.From - s.To}
		case s.From >= joint.To && behind.copy == "":
			behind = neighbour{copyAt(l, s.From), s.From - joint.To}
		}
	}
	return before, behind, before.copy != "" && behind.copy != ""
}

// copyAt names the copy whose centre lies nearest to the end of a stretch.
func copyAt(l outline.Layout, end length.Length) (name string) {
	least := length.Length(-1)
	for _, at := range l.Placed {
		if away := max(at.Along-end, end-at.Along); least < 0 || away < least {
			least, name = away, fmt.Sprintf("%s %d", at.Shape, at.Copy)
		}
	}
	return name
}
