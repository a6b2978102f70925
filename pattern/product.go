package pattern

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// The bounds of what is cut from a panel.
const (
	MinProduct  = 1 * length.Millimetre // a product's size, along and across
	MaxCopies   = 10_000                // copies of one product on a panel; holes in a block
	MaxProducts = 100                   // products listed in a pattern
	MaxAvoids   = 1_000
	MaxRadius   = 1 * length.Metre // of what products keep clear of
)

// A ShapeName names what a product looks like from above: one of the shapes that
// package outline lists.
type ShapeName string

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

// String returns under, top or both.
func (b BevelSide) String() string { return tell.Word(b, "bevel side", "under", "top", "both") }

// ParseBevelSide reads under, top or both.
func ParseBevelSide(s string) (BevelSide, error) {
	if b, ok := tell.Named(s, BevelSides()); ok {
		return b, nil
	}
	return BevelUnder, fmt.Errorf("bevel side %q: must be under, top or both", s)
}

// A Purpose is what the holes of a product are for, where the maker says so: cautions and
// care text go by it. The zero value says nothing.
type Purpose int

// The purposes.
const (
	AnyPurpose Purpose = iota
	ForCandles
)

// Purposes lists every purpose.
func Purposes() []Purpose { return []Purpose{AnyPurpose, ForCandles} }

// String returns candles, or nothing where nothing was said.
func (p Purpose) String() string { return tell.Word(p, "purpose", "", "candles") }

// ParsePurpose reads candles.
func ParsePurpose(s string) (Purpose, error) {
	if p, ok := tell.Named(s, Purposes()[1:]); ok {
		return p, nil
	}
	return AnyPurpose, fmt.Errorf("for %q: must be candles", s)
}

// A Centre says what the middle row of a product lies on. At most one of Strip and
// Joint is above 0; the zero value is the middle of the panel. Where the panel holds
// an even number of rows there is no middle row, and they lie about the middle of the
// panel.
type Centre struct {
	Strip int // from 1
	Joint int // from 1, lying right of strip Joint
}

// String returns panel, strip 3 or joint 3.
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
	Shape     ShapeName
	Diameter  length.Length // 0 where the shape has none, as the other two
	Length    length.Length // along the grain
	Width     length.Length // across the grain
	Count     int           // 0: as many as the rows hold, for the last product only
	Centre    Centre
	Bevel     length.Length // depth, at 45 degrees; 0: none
	BevelSide BevelSide
	Hole      length.Length // of a block: diameter
	Holes     int           // of a block
	HoleDepth length.Length // of a block
	For       Purpose       // of the holes
}

// An Avoid is a knot or shake on the glued panel that no product may take in: a
// circle about a point. A product may touch it.
type Avoid struct{ Along, Across, Radius length.Length }
