package pattern

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern/length"
)

// The bounds of what is cut from a panel.
const (
	MinProduct  = 1 * length.Millimetre // a product's size, along and across
	MaxCopies   = 10_000                // copies of one product on a panel; holes in a block
	MaxProducts = 100                   // products listed in a pattern
	MaxAvoids   = 1_000
	MaxRadius   = 1 * length.Metre // of what products keep clear of
)

// A Shape says what a product looks like from above. The zero value is a round.
type Shape int

// The shapes.
const (
	ShapeRound     Shape = iota
	ShapeRectangle       // its length lies along the grain
	ShapeBlock           // a rectangle with a row of holes
)

// Shapes lists every shape.
func Shapes() []Shape { return []Shape{ShapeRound, ShapeRectangle, ShapeBlock} }

// String gives round, rectangle or block.
func (s Shape) String() string {
	switch s {
	case ShapeRound:
		return "round"
	case ShapeRectangle:
		return "rectangle"
	case ShapeBlock:
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
	return ShapeRound, fmt.Errorf("shape %q: must be round, rectangle or block", s)
}

// A BevelSide says which edges of a product are bevelled. The zero value is the
// underside's.
type BevelSide int

// The sides.
const (
	BevelUnder BevelSide = iota
	BevelTop
	BevelBoth
)

// BevelSides lists every side.
func BevelSides() []BevelSide { return []BevelSide{BevelUnder, BevelTop, BevelBoth} }

// String gives under, top or both.
func (b BevelSide) String() string {
	switch b {
	case BevelUnder:
		return "under"
	case BevelTop:
		return "top"
	case BevelBoth:
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
	return BevelUnder, fmt.Errorf("bevel side %q: must be under, top or both", s)
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

// Words is String with a joint named by the strips that it lies between: glue line 3|4.
func (c Centre) Words() string {
	if c.Joint > 0 && c.Strip == 0 {
		return fmt.Sprintf("glue line %d|%d", c.Joint, c.Joint+1)
	}
	return c.String()
}

// ParseCentre reads panel, strip N or joint N. Whether there is such a strip or joint
// depends on the panel.
func ParseCentre(s string) (Centre, error) {
	word, number, _ := strings.Cut(s, " ")
	n, err := strconv.Atoi(number)
	ok := err == nil && n > 0 && n <= MaxStrips
	switch {
	case s == "panel":
		return Centre{}, nil
	case word == "strip" && ok:
		return Centre{Strip: n}, nil
	case word == "joint" && ok:
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
	if p.Shape == ShapeRound {
		return p.Diameter
	}
	return p.Length
}

// Across gives the product's size across the grain.
func (p Product) Across() length.Length {
	if p.Shape == ShapeRound {
		return p.Diameter
	}
	return p.Width
}

// An Avoid is a knot or shake on the glued panel that no product may take in: a
// circle about a point. A product may touch it.
type Avoid struct{ Along, Across, Radius length.Length }

// A Misfit is one value of a product that does not go with the others.
type Misfit struct {
	Key  string // of the value, as the file calls it
	Text string // what is wrong, and what would be right
}

// Misfits lists what in p cannot be, whatever panel it is cut from. A product without
// any can be saved.
func (p Product) Misfits() []Misfit {
	var out []Misfit
	refuse := func(bad bool, key, format string, args ...any) {
		if bad {
			out = append(out, Misfit{key, fmt.Sprintf(format, args...)})
		}
	}
	alongKey, acrossKey := "length", "width"
	if p.Shape == ShapeRound {
		alongKey, acrossKey = "diameter", "diameter"
		refuse(p.Length != 0, "length", "a round has none: must be its diameter alone")
		refuse(p.Width != 0, "width", "a round has none: must be its diameter alone")
	} else {
		refuse(p.Diameter != 0, "diameter", "a %v has none: must be its length and width", p.Shape)
	}
	along, across := p.Along(), p.Across()
	refuse(p.Shape < ShapeRound || p.Shape > ShapeBlock, "shape", "%v: must be round, rectangle or block", p.Shape)
	refuse(alongKey != acrossKey && (along < MinProduct || along > MaxLength), alongKey,
		"%v along: must be %v to %v", along, length.Length(MinProduct), length.Length(MaxLength))
	refuse(across < MinProduct || across > MaxAcross, acrossKey,
		"%v across: must be %v to %v", across, length.Length(MinProduct), length.Length(MaxAcross))
	refuse(p.Count < 0 || p.Count > MaxCopies, "count", "%d: must be 0 to %d", p.Count, MaxCopies)
	refuse(p.Centre.Strip < 0 || p.Centre.Joint < 0 || p.Centre.Strip > 0 && p.Centre.Joint > 0, "centre",
		"must be panel, one strip or one joint")
	sized := along >= MinProduct && across >= MinProduct
	refuse(p.Bevel < 0 || sized && 2*p.Bevel >= min(along, across), "bevel",
		"%v: must be 0 to less than half of %v", p.Bevel, min(along, across))
	refuse(p.BevelSide < BevelUnder || p.BevelSide > BevelBoth, "bevel_side", "%v: must be under, top or both", p.BevelSide)
	return append(out, p.holeMisfits()...)
}

func (p Product) holeMisfits() []Misfit {
	given := []struct {
		key string
		is  bool
	}{{"hole", p.Hole != 0}, {"holes", p.Holes != 0}, {"hole_depth", p.HoleDepth != 0}}
	var out []Misfit
	drilled := p.Hole != 0 || p.Holes != 0 || p.HoleDepth != 0
	for _, g := range given {
		switch {
		case g.is && p.Shape != ShapeBlock:
			out = append(out, Misfit{g.key, fmt.Sprintf("a %v has no holes: must be a block", p.Shape)})
		case !g.is && drilled && p.Shape == ShapeBlock:
			out = append(out, Misfit{g.key, "missing: a row of holes is hole, holes and hole_depth together"})
		}
	}
	switch {
	case len(out) > 0 || !drilled:
	case p.Hole < 0 || p.Hole > p.Width:
		out = append(out, Misfit{"hole", fmt.Sprintf("%v: must be above 0, up to the width of %v", p.Hole, p.Width)})
	case p.Holes < 0 || p.Holes > MaxCopies || length.Length(p.Holes)*p.Hole > p.Length:
		out = append(out, Misfit{"holes", fmt.Sprintf("%d of %v: must lie within the length of %v", p.Holes, p.Hole, p.Length)})
	case p.HoleDepth < 0 || p.HoleDepth > MaxAcross:
		out = append(out, Misfit{"hole_depth", fmt.Sprintf("%v: must be above 0, up to %v", p.HoleDepth, length.Length(MaxAcross))})
	}
	return out
}
