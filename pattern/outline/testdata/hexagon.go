package outline

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Hexagon is the name of a shape that the program does not have: a test builds it with
// this file and a line in the list, and with nothing else.
const Hexagon pattern.ShapeName = "hexagon"

// A hexagon has two sides along the grain and points before and behind; it is given by
// its width from side to side.
type hexagon struct{ across length.Length }

func (hexagon) Name() pattern.ShapeName    { return Hexagon }
func (hexagon) Also() []string             { return []string{"honeycomb"} }
func (hexagon) Takes() []Taken             { return []Taken{widthwise()} }
func (hexagon) Drilled() bool              { return false }
func (hexagon) Of(p pattern.Product) Shape { return hexagon{p.Width} }

// Size returns twice the width by the root of 3 along, rounded up.
func (h hexagon) Size() (along, across length.Length) {
	return length.Length(math.Ceil(2 * float64(h.across) / math.Sqrt(3))), h.across
}

func (h hexagon) Sizes() []length.Length              { return []length.Length{h.across} }
func (hexagon) Resized(_, across length.Length) Shape { return hexagon{across} }

func (h hexagon) Chord(twice length.Length) length.Length {
	return length.Length(math.Ceil((2*float64(h.across) - float64(twice)) / math.Sqrt(3)))
}

// Keep is that of the rectangle round it.
func (h hexagon) Keep(diameter, twice length.Length) (length.Length, bool) {
	along, across := h.Size()
	return rectangle{along, across}.Keep(diameter, twice)
}

func (hexagon) Apart(length.Length) (length.Length, bool) { return 0, false }

func (h hexagon) Half(in, off float64) float64 {
	if off = math.Abs(off); off > h.across.MM()/2-in {
		return 0
	}
	return (h.across.MM() - 2*in - off) / math.Sqrt(3)
}

func (h hexagon) Area(in, from, to float64) float64 {
	w := h.across.MM()
	below := func(y float64) float64 { // from the middle line up to y
		at := min(math.Abs(y), w/2-in)
		return math.Copysign(2*((w-2*in)*at-at*at/2)/math.Sqrt(3), y)
	}
	return max(0, below(to-w/2)-below(from-w/2))
}

func (h hexagon) Perimeter(twice length.Length) float64 {
	return 2*math.Sqrt(3)*h.across.MM() + math.Pi*twice.MM()
}

func (h hexagon) Surface(t float64) float64 {
	return 2*h.Area(0, 0, h.across.MM()) + h.Perimeter(0)*t
}

func (h hexagon) Bevelled(c float64) float64 { return BevelMM3(h, c, 0, h.across.MM()) }

func (hexagon) Diameter() length.Length { return 0 }

func (hexagon) Edge() string { return "six edges" }

func (hexagon) Small() string { return "saw it on a sled" }

func (hexagon) Sawn() (how, mind string) {
	return "saw its six sides with the mitre gauge at 60 degrees", "clamp it to the gauge"
}

func (hexagon) Template(_, across length.Length, u length.Unit) string {
	return fmt.Sprintf("step the side of %s round a circle six times", length.FromMM(across.MM()/math.Sqrt(3)).With(u))
}

func (h hexagon) Label(t length.Length, u length.Unit) string {
	return fmt.Sprintf("hexagon, %s from side to side, %s thick", h.across.With(u), t.With(u))
}

func (h hexagon) Draw(x, y float64, pen Pen) {
	along, across := h.Size()
	a, b := along.MM(), across.MM()
	pen.Polygon([][2]float64{{x + a, y + b/2}, {x + 3*a/4, y + b}, {x + a/4, y + b}, {x, y + b/2}, {x + a/4, y}, {x + 3*a/4, y}})
}
