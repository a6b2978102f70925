package edit

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Turn turns the chosen strip end for end. Its start is mirrored about the middle
// of the panel as glued up, so that on a ragged panel its ends change sides:
//
//	start' = panel length + a.Length - start - length at glue-up
//
// A start that would fall outside 0 to pattern.MaxStart stops there, so turning
// twice is no change only where nothing stopped it.
func Turn(s State, a Allowances) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		if err := a.check(); err != nil {
			return err
		}
		p := s.Pattern
		start := p.Panel.Length + a.Length - strip.Start - p.StripLength(*strip, a.Length)
		far := strip.Start + p.StripLength(*strip, a.Length)
		strip.Joints = strip.Joints.Mirrored(strip.Start, far)
		strip.SlideTo(min(max(start, 0), pattern.MaxStart))
		strip.Turned = !strip.Turned
		strip.Bark = strip.Bark.Turned()
		return nil
	})
}

// TurnOver turns the chosen strip over about its length: its other face is up, its
// ends stay where they are.
func TurnOver(s State) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		strip.Over = !strip.Over
		strip.Bark = strip.Bark.Over()
		return nil
	})
}

// Roll rolls the chosen strip a quarter turn, as Rolled has it.
func Roll(s State, a Allowances) (State, error) {
	strip, _, err := Rolled(s.Pattern, s.Selected, a)
	if err != nil {
		return s, err
	}
	return s.swapOut(1, strip), nil
}

// Rolled returns strip index of p, from 0, rolled a quarter turn about its length
// before gluing, and what is planed off it for that.
//
// Before gluing a strip w wide is t + a.Flattening thick, t the panel's thickness.
// Rolled, its width stands upright: it must be at least t + a.Flattening, and what
// it has above that is planed off. Its old faces become its edges and are jointed
// anew: it is then t + a.Flattening - a.Jointing wide. The rings turn with it, and the
// bark side clockwise.
func Rolled(p pattern.Pattern, index int, a Allowances) (pattern.Strip, length.Length, error) {
	strip, err := milled(p, index, a)
	if err != nil {
		return strip, 0, err
	}
	number := index + 1
	if p.Panel.Thickness <= 0 {
		return strip, 0, refuse("the panel has no thickness yet: set it before strip %d is rolled", number)
	}
	glued := p.Panel.Thickness + a.Flattening
	if strip.Width < glued {
		return strip, 0, refuse("strip %d is %v wide: rolled it would need %v, the panel's %v and %v to flatten it",
			number, strip.Width, glued, p.Panel.Thickness, a.Flattening)
	}
	width := glued - a.Jointing
	if width <= 0 || width > pattern.MaxAcross {
		return strip, 0, refuse("strip %d rolled would be %v wide, %v thick less %v of jointing: must be above 0, up to %v",
			number, width, glued, a.Jointing, pattern.MaxAcross)
	}
	planed := strip.Width - glued
	strip.Width = width
	strip.Lay(strip.Grain().Rolled())
	return strip, planed, nil
}

// milled returns strip index of p, from 0, to be milled with such allowances.
func milled(p pattern.Pattern, index int, a Allowances) (pattern.Strip, error) {
	strip, err := State{Pattern: p, Selected: index}.chosen()
	if err == nil {
		err = a.check()
	}
	return strip, err
}

// Split rips the chosen strip in two, as Halves has it; the left part is chosen.
func Split(s State, a Allowances) (State, error) {
	if err := s.room(); err != nil {
		return s, err
	}
	left, right, _, err := Halves(s.Pattern, s.Selected, a)
	if err != nil {
		return s, err
	}
	return s.swapOut(1, left, right), nil
}

// Halves returns the two parts of strip index of p, from 0, ripped down its middle,
// and the width lost. The cut takes a.Rip; each part has one new edge, and the two
// together are one strip's worth of edges to joint: a.Jointing. So
//
//	left + right + lost = width, lost = a.Rip + a.Jointing
//
// to the nanometre; the parts are equal, and where an odd nanometre is left over it
// is the left part's. All else is the strip's, its pin too.
func Halves(p pattern.Pattern, index int, a Allowances) (left, right pattern.Strip, lost length.Length, err error) {
	strip, err := milled(p, index, a)
	if err != nil {
		return strip, strip, 0, err
	}
	lost = a.Rip + a.Jointing
	parts := (strip.Width - lost).Split(2)
	if parts[1] <= 0 {
		return strip, strip, 0, refuse("strip %d is %v wide: the cut takes %v and its jointing %v, which leaves no two strips",
			index+1, strip.Width, a.Rip, a.Jointing)
	}
	left, right = strip, strip
	left.Width, right.Width = parts[0], parts[1]
	return left, right, lost, nil
}

// Join glues the chosen strip and its right neighbour into one that is as wide as
// both. They must be alike in timber, rings, bark side and heart, moisture, own length,
// start, ends and faces. What a Split took is not given back: undo does that. The strip is pinned
// where either was.
func Join(s State) (State, error) {
	strip, err := s.chosen()
	if err != nil {
		return s, err
	}
	if s.Selected == len(s.Pattern.Strips)-1 {
		return s, refuse("strip %d is at the right edge: there is none to join it with", s.number())
	}
	other := s.Pattern.Strips[s.Selected+1]
	if what := unlike(strip, other); what != "" {
		return s, refuse("strips %d and %d differ in %s: only strips alike in all but width are joined",
			s.number(), s.number()+1, what)
	}
	strip.Width += other.Width
	strip.Pinned = strip.Pinned || other.Pinned
	if strip.Width > pattern.MaxAcross {
		return s, refuse("strips %d and %d joined would be %v wide: must be %v at most",
			s.number(), s.number()+1, strip.Width, pattern.MaxAcross)
	}
	return s.swapOut(2, strip), nil
}

// unlike says what keeps two strips from being one, or nothing.
func unlike(a, b pattern.Strip) string {
	for _, differs := range []struct {
		is   bool
		what string
	}{
		{a.Species != b.Species, "timber"}, {a.Rings != b.Rings, "rings"}, {a.Grain() != b.Grain(), "bark side"}, {a.Moisture != b.Moisture, "moisture"}, {a.Colour != b.Colour, "colour"},
		{a.Length != b.Length, "length"}, {a.Start != b.Start, "start"}, {a.Joints != b.Joints, "joints"},
		{a.Turned != b.Turned, "which end is where"}, {a.Over != b.Over, "which face is up"},
	} {
		if differs.is {
			return differs.what
		}
	}
	return ""
}
