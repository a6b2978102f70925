// Package outline lays the products that are cut from a glued panel: rounds,
// rectangles and blocks in rows, on a panel whose strips may end raggedly.
//
// Along is measured from the datum end, across from edge A, the left edge of strip 1.
// Products stand in rows, never "as many as fit": a mixed or turned arrangement can
// hold more.
//
// All of it is exact. A product's edges lie on whole nanometres. The half chord of a
// round within a strip is a square root: it is taken by integers and rounded away
// from what is allowed, so that a product never fits by rounding and an edge lies
// less than a nanometre from its exact earliest place. A centre is that of the
// edges, rounded down where the size is an odd number of nanometres.
package outline

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern/length"
)

// A Shape says what a product looks like from above. The zero value is a Round.
type Shape int

// The shapes.
const (
	Round     Shape = iota
	Rectangle       // its length lies along the grain
	Block           // a rectangle with a row of holes
)

// Shapes lists every shape.
func Shapes() []Shape { return []Shape{Round, Rectangle, Block} }

// String gives round, rectangle or block.
func (s Shape) String() string {
	switch s {
	case Round:
		return "round"
	case Rectangle:
		return "rectangle"
	case Block:
		return "block"
	default:
		return fmt.Sprintf("shape(%d)", int(s))
	}
}

// ParseShape reads round, rectangle or block.
func ParseShape(s string) (Shape, error) {
	for _, shape := range Shapes() {
		if s == shape.String() {
			return shape, nil
		}
	}
	return Round, fmt.Errorf("shape %q: must be round, rectangle or block", s)
}

// A BevelSide says which edges of a product are bevelled. The zero value is Under.
type BevelSide int

// The sides.
const (
	Under BevelSide = iota
	Top
	Both
)

// BevelSides lists every side.
func BevelSides() []BevelSide { return []BevelSide{Under, Top, Both} }

// String gives under, top or both.
func (b BevelSide) String() string {
	switch b {
	case Under:
		return "under"
	case Top:
		return "top"
	case Both:
		return "both"
	default:
		return fmt.Sprintf("bevel side(%d)", int(b))
	}
}

// ParseBevelSide reads under, top or both.
func ParseBevelSide(s string) (BevelSide, error) {
	for _, side := range BevelSides() {
		if s == side.String() {
			return side, nil
		}
	}
	return Under, fmt.Errorf("bevel side %q: must be under, top or both", s)
}

// A Centre says what the middle row of a product lies on. At most one of Strip and
// Joint is above 0; the zero value is the middle of the panel. Where the panel holds
// an even number of rows there is no middle row, and they lie about the middle of the
// panel.
type Centre struct {
	Strip int // from 1
	Joint int // from 1, lying right of strip Joint
}

// String gives panel, strip 3 or joint 3.
func (c Centre) String() string {
	switch {
	case c.Strip > 0:
		return fmt.Sprintf("strip %d", c.Strip)
	case c.Joint > 0:
		return fmt.Sprintf("joint %d", c.Joint)
	default:
		return "panel"
	}
}

// ParseCentre reads panel, strip N or joint N.
func ParseCentre(s string) (Centre, error) {
	word, number, _ := strings.Cut(s, " ")
	n, err := strconv.Atoi(number)
	switch {
	case s == "panel":
		return Centre{}, nil
	case word == "strip" && err == nil && n > 0:
		return Centre{Strip: n}, nil
	case word == "joint" && err == nil && n > 0:
		return Centre{Joint: n}, nil
	default:
		return Centre{}, fmt.Errorf("centre %q: must be panel, strip N or joint N", s)
	}
}

// A Product is one kind of thing that is cut from a panel.
type Product struct {
	Shape     Shape
	Diameter  length.Length // of a round
	Length    length.Length // of others, along the grain
	Width     length.Length // of others, across the grain
	Count     int           // 0: as many as the rows hold, for the last product only
	Centre    Centre
	Bevel     length.Length // depth, at 45 degrees; 0: none
	BevelSide BevelSide
	Hole      length.Length // of a block: diameter
	Holes     int           // of a block
	HoleDepth length.Length // of a block
}

// Along gives the product's size along the grain.
func (p Product) Along() length.Length {
	if p.Shape == Round {
		return p.Diameter
	}
	return p.Length
}

// Across gives the product's size across the grain.
func (p Product) Across() length.Length {
	if p.Shape == Round {
		return p.Diameter
	}
	return p.Width
}

// An Avoid is a knot or shake on the glued panel that no product may take in: a
// circle about a point. A product may touch it.
type Avoid struct{ Along, Across, Radius length.Length }

// Cut says how products are set out and cut.
type Cut struct {
	EndMargin  length.Length // from a strip's end
	SideMargin length.Length // from edge A and the edge opposite
	Gap        length.Length // between products: the cutter and the web that holds
	Cutter     length.Length // the router cutter's diameter
	Bush       length.Length // the guide bush's outside diameter; 0: none
	Pass       length.Length // depth of one pass
	Base       length.Length // how far the last pass goes into the sacrificial board
}

// Default gives the settings to start from: habits of the trade (common practice, no
// source), but for the pass, the eighth of an inch of tool manuals.
func Default() Cut {
	const mm = length.Millimetre
	return Cut{EndMargin: 5 * mm, SideMargin: 2 * mm, Gap: 16 * mm, Cutter: 12 * mm, Bush: 30 * mm, Pass: 3 * mm, Base: 1 * mm}
}
