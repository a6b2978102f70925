// Package sections lists the ways to saw a section of a piece: which strips come out of it,
// what goes back, and what that costs.
//
// Sets of strips are held as takes, and compared by tallies.
package sections

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// A Catalogue lists the ways to saw a section of each cross that a timber has. What is asked
// is stated first: the shop, the kinds of strips, their lengths and the crosses.
type Catalogue struct {
	Shop    shop.Shop
	Kinds   []cutting.Strip // what alike strips share; the Ref is the first one's
	Want    []int32         // strips asked of each kind
	Lengths []length.Length // that sections may have, the longest first
	Crosses []Cross

	Sections [][]Section // of each cross
	Whole    []bool      // of each cross: sections holds every one there is
	crowded  []bool      // of each cross: only some ways were looked for
	scratch  []int32     // to list them with
}

// A Cross is the cross-section of a piece, with what it shows.
type Cross struct {
	Width, Thickness length.Length
	Planed           bool
	Rings            pattern.Rings
	Longest          length.Length // section of any of its pieces
}

// A Section is one way to use a section of a cross: which strips come out of it,
// and the most of slabs and rips that go back then.
type Section struct {
	Along  int16 // place of its length in the timber's lengths
	Side   bool
	Take   Take
	credit float64 // cubic centimetres of slabs and rips that go back
	plain  bool    // found among the plain ways
}

// AddCross adds a cross and returns its place.
func (c *Catalogue) AddCross(x Cross) int {
	c.Crosses = append(c.Crosses, x)
	c.Sections, c.Whole, c.crowded = append(c.Sections, nil), append(c.Whole, false), append(c.crowded, false)
	return len(c.Crosses) - 1
}

// numbers returns so many 0, its own until it is asked again; they are to be 0 again then.
func (c *Catalogue) numbers(n int) []int32 {
	if len(c.scratch) < n {
		c.scratch = make([]int32, n)
	}
	return c.scratch[:n]
}

// ringsWithin is how far, in degrees, rings may lie from those asked for.
const ringsWithin = 15

// Shows reports whether timber recorded as showing rings may serve where asked is
// asked for. Rings are a wish, so timber that nobody has looked at serves any strip.
func Shows(rings, asked pattern.Rings) bool {
	if !asked.Known() || !rings.Known() {
		return true
	}
	apart := rings.Degrees() - asked.Degrees()
	return -ringsWithin <= apart && apart <= ringsWithin
}

// Find returns the place of the section of cross n with this length and take.
func (c *Catalogue) Find(n int, along int16, want Take) (int32, bool) {
	if len(want) == 0 {
		return 0, false
	}
	for i, s := range c.Sections[n] {
		if s.Along == along && slices.Equal(s.Take, want) {
			return int32(i), true
		}
	}
	return 0, false
}

// Keep returns the place of a section of cross n, which is added where the list lacks it.
func (c *Catalogue) Keep(n int, s Section) int32 {
	if i, ok := c.Find(n, s.Along, s.Take); ok && c.Sections[n][i].credit >= s.credit {
		return i
	}
	c.Sections[n] = append(c.Sections[n], s)
	return int32(len(c.Sections[n]) - 1)
}
