package solve

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// A catalogue lists the ways to saw a section of each cross that a timber has. What is asked
// is stated first: the shop, the kinds of strips, their lengths and the crosses.
type catalogue struct {
	shop    shop.Shop
	kinds   []cutting.Strip // what alike strips share; the Ref is the first one's
	want    []int32         // strips asked of each kind
	lengths []length.Length // that sections may have, the longest first
	crosses []cross

	sections [][]section // of each cross
	whole    []bool      // of each cross: sections holds every one there is
	crowded  []bool      // of each cross: only some ways were looked for
	scratch  []int32     // to list them with
}

// A cross is the cross-section of a piece, with what it shows.
type cross struct {
	width, thickness length.Length
	planed           bool
	rings            pattern.Rings
	longest          length.Length // section of any of its pieces
}

// A section is one way to use a section of a cross: which strips come out of it,
// and the most of slabs and rips that go back then.
type section struct {
	along  int16 // place of its length in the timber's lengths
	side   bool
	take   take
	credit float64 // cubic centimetres of slabs and rips that go back
	plain  bool    // found among the plain ways
}

// addCross adds a cross and returns its place.
func (c *catalogue) addCross(x cross) int {
	c.crosses = append(c.crosses, x)
	c.sections, c.whole, c.crowded = append(c.sections, nil), append(c.whole, false), append(c.crowded, false)
	return len(c.crosses) - 1
}

// numbers returns so many 0, its own until it is asked again; they are to be 0 again then.
func (c *catalogue) numbers(n int) []int32 {
	if len(c.scratch) < n {
		c.scratch = make([]int32, n)
	}
	return c.scratch[:n]
}

// ringsWithin is how far, in degrees, rings may lie from those asked for.
const ringsWithin = 15

// shows reports whether timber recorded as showing rings may serve where asked is
// asked for.
func shows(rings, asked pattern.Rings) bool {
	if !asked.Known() {
		return true
	}
	if !rings.Known() {
		return false
	}
	apart := rings.Degrees() - asked.Degrees()
	return -ringsWithin <= apart && apart <= ringsWithin
}

// find returns the place of the section of cross n with this length and take.
func (c *catalogue) find(n int, along int16, want take) (int32, bool) {
	if len(want) == 0 {
		return 0, false
	}
	for i, s := range c.sections[n] {
		if s.along == along && slices.Equal(s.take, want) {
			return int32(i), true
		}
	}
	return 0, false
}

// keep returns the place of a section of cross n, which is added where the list lacks it.
func (c *catalogue) keep(n int, s section) int32 {
	if i, ok := c.find(n, s.along, s.take); ok && c.sections[n][i].credit >= s.credit {
		return i
	}
	c.sections[n] = append(c.sections[n], s)
	return int32(len(c.sections[n]) - 1)
}
