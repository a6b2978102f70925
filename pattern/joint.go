package pattern

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern/length"
)

// A Joint is where two pieces of one strip meet end to end, dry: from the far end of the
// one to the near end of the other, measured from the datum end. Where they touch the two
// are the same.
type Joint struct{ From, To length.Length }

// String returns the joint as a file has it: 296-311 mm, or 552 mm where pieces touch.
func (j Joint) String() string {
	if j.From == j.To {
		return j.From.String()
	}
	return strings.TrimSuffix(j.From.String(), " mm") + "-" + j.To.String()
}

// ParseJointIn reads a joint; numbers without a unit are in u, and a unit behind the
// second number holds for both.
func ParseJointIn(s string, u length.Unit) (Joint, error) {
	texts := []string{s}
	if from, to, apart := strings.Cut(s, "-"); apart {
		texts = []string{from, to}
	}
	meant, err := length.Together(texts, u)
	var ends []length.Length
	for _, text := range meant {
		if err == nil {
			var at length.Length
			at, err = length.ParseIn(text, u)
			ends = append(ends, at)
		}
	}
	switch {
	case err != nil:
		return Joint{}, fmt.Errorf("joint %q: %w; write it like 296-311 mm, or 552 mm where pieces touch", s, err)
	case len(ends) == 2 && ends[0] >= ends[1]:
		return Joint{}, fmt.Errorf("joint %q: it must end beyond its start; where pieces touch it is one number", s)
	}
	return Joint{ends[0], ends[len(ends)-1]}, nil
}

// Joints are those of one strip from the datum end on, packed so that strips compare; All
// lists them, and no joints are "".
type Joints string

// JointsOf returns joints as they are listed.
func JointsOf(list ...Joint) Joints {
	packed := make([]byte, 0, 16*len(list))
	for _, j := range list {
		packed = binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(packed, uint64(j.From)), uint64(j.To))
	}
	return Joints(packed)
}

// Len returns how many there are.
func (j Joints) Len() int { return len(j) / 16 }

// All lists them.
func (j Joints) All() []Joint {
	var out []Joint
	for at := 0; at < len(j); at += 16 {
		ends := []byte(j[at : at+16])
		out = append(out, Joint{length.Length(binary.BigEndian.Uint64(ends)), length.Length(binary.BigEndian.Uint64(ends[8:]))})
	}
	return out
}

// String lists the joints, parted by commas.
func (j Joints) String() string {
	texts := make([]string, j.Len())
	for i, one := range j.All() {
		texts[i] = one.String()
	}
	return strings.Join(texts, ", ")
}

// Moved returns the joints so much further from the datum end.
func (j Joints) Moved(by length.Length) Joints {
	list := j.All()
	for i := range list {
		list[i].From, list[i].To = list[i].From+by, list[i].To+by
	}
	return JointsOf(list...)
}

// within returns those joints that lie between two places of a strip.
func (j Joints) within(start, end length.Length) Joints {
	var kept []Joint
	for _, one := range j.All() {
		if start < one.From && one.To < end {
			kept = append(kept, one)
		}
	}
	return JointsOf(kept...)
}

// Mirrored returns the joints of a strip with such ends turned end for end where it lies.
func (j Joints) Mirrored(start, end length.Length) Joints {
	list := j.All()
	slices.Reverse(list)
	for i, one := range list {
		list[i] = Joint{start + end - one.To, start + end - one.From}
	}
	return JointsOf(list...)
}

// SlideTo lays the near end of the strip at start; its joints go with it.
func (s *Strip) SlideTo(start length.Length) {
	s.Joints = s.Joints.Moved(start - s.Start)
	s.Start = start
}

// jointEnds returns between what places a strip may be parted: within its own ends, and
// within the finished panel, for what it is longer than that is trimmed off.
func (p Pattern) jointEnds(s Strip) (start, end length.Length) {
	return s.Start, s.Start + cmp.Or(s.Length, p.Panel.Length)
}

// Fit takes away joints that a strip of p is too short for.
func (p Pattern) Fit(s *Strip) {
	start, end := p.jointEnds(*s)
	s.Joints = s.Joints.within(start, end)
}

// CheckJoints reports what keeps its joints from parting a strip of p: they ascend, with a
// piece between each two, and lie inside.
func (p Pattern) CheckJoints(s Strip) error {
	start, end := p.jointEnds(s)
	last := start
	for i, j := range s.Joints.All() {
		switch {
		case i > 0 && j.From <= last:
			return fmt.Errorf("joint %v: must lie beyond the one before it, with a piece between them", j)
		case j.From <= start || j.To >= end:
			return fmt.Errorf("joint %v: must lie inside the strip, which is from %v to %v", j, start, end)
		}
		last = j.To
	}
	return nil
}

// ParseJointsIn reads joints that are parted by commas, or none; numbers without a unit
// are in u.
func ParseJointsIn(s string, u length.Unit) (Joints, error) {
	if s = strings.TrimSpace(s); s == "" || s == "none" {
		return "", nil
	}
	var list []Joint
	for part := range strings.SplitSeq(s, ",") {
		one, err := ParseJointIn(strings.TrimSpace(part), u)
		if err != nil {
			return "", err
		}
		list = append(list, one)
	}
	return JointsOf(list...), nil
}

// A StripPiece is one of the pieces that a strip is laid from, or the whole strip.
type StripPiece struct{ Start, Length length.Length }

// End returns how far its far end lies from the datum end.
func (p StripPiece) End() length.Length { return p.Start + p.Length }

// PiecesOf returns the pieces of a strip, datum end first; allowance is as in StripLength.
func (p Pattern) PiecesOf(s Strip, allowance length.Length) []StripPiece {
	from, end := s.Start, s.Start+p.StripLength(s, allowance)
	var out []StripPiece
	for _, j := range s.Joints.within(from, end).All() {
		out = append(out, StripPiece{from, j.From - from})
		from = j.To
	}
	return append(out, StripPiece{from, end - from})
}

// Joints returns how many joints the strips have together.
func (p Pattern) Joints() (n int) {
	for _, s := range p.Strips {
		n += s.Joints.Len()
	}
	return n
}

// PieceName says which piece of which strip it is, as it is chalked: 4a; piece counts from
// 1, and a strip in one piece has 0.
func PieceName(strip, piece int) string {
	name := fmt.Sprint(strip)
	if piece == 0 {
		return name
	}
	letters := ""
	for n := piece; n > 0; n = (n - 1) / 26 {
		letters = string(rune('a'+(n-1)%26)) + letters
	}
	return name + letters
}
