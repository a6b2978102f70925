package outline

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Round is the name of a disc.
const Round pattern.ShapeName = "round"

// A round is a disc.
type round struct{ diameter length.Length }

func (round) Name() pattern.ShapeName    { return Round }
func (round) Also() []string             { return []string{"disc", "disk", "circle"} }
func (round) Takes() []Taken             { return []Taken{diameter()} }
func (round) Drilled() bool              { return false }
func (round) Of(p pattern.Product) Shape { return round{p.Diameter} }

func (r round) Size() (along, across length.Length)     { return r.diameter, r.diameter }
func (r round) Sizes() []length.Length                  { return []length.Length{r.diameter} }
func (round) Resized(along, across length.Length) Shape { return round{along} }

func (r round) Chord(twice length.Length) length.Length { return ceilSqrtDiff(r.diameter, twice) }

func (r round) Keep(diameter, twice length.Length) (length.Length, bool) {
	if twice >= r.diameter+diameter {
		return 0, false
	}
	return ceilSqrtDiff(r.diameter+diameter, twice), true
}

// Rows lie a copy and a gap times half the root of 3 apart.
func (r round) Apart(gap length.Length) (length.Length, bool) {
	pitch := r.diameter + gap
	return ceilHalf(ceilSqrtDiff(2*pitch, pitch)), true
}

func (r round) Half(in, off float64) float64 {
	radius := r.diameter.MM()/2 - in
	return math.Sqrt(max(0, radius*radius-off*off))
}

func (r round) Area(in, from, to float64) float64 {
	width := r.diameter.MM()
	return DiscMM2(width/2-in, from-width/2, to-width/2)
}

func (r round) Perimeter(twice length.Length) float64 { return math.Pi * (r.diameter + twice).MM() }

func (r round) Surface(t float64) float64 {
	d := r.diameter.MM()
	return math.Pi * d * (d/2 + t)
}

func (r round) Bevelled(c float64) float64 {
	return math.Pi * (r.diameter.MM()/2*c*c - c*c*c/3)
}

func (r round) Diameter() length.Length { return r.diameter }

func (round) Edge() string { return "rim" }

func (round) Small() string { return sawOrTurn }

func (round) Sawn() (how, mind string) { return "", "" }

func (round) Template(length.Length, length.Length, length.Unit) string { return "" }

func (r round) Label(t length.Length, u length.Unit) string {
	return fmt.Sprintf("%s round, %s thick", r.diameter.With(u), t.With(u))
}

func (r round) Draw(x, y float64, pen Pen) {
	pen.Circle(x, y, x+r.diameter.MM(), y+r.diameter.MM())
}

// DiscMM2 returns the area of a disc about 0 between two lines across it.
func DiscMM2(radius, from, to float64) float64 {
	under := func(u float64) float64 {
		u = max(-radius, min(radius, u))
		return u*math.Sqrt(radius*radius-u*u) + radius*radius*math.Asin(u/radius)
	}
	return max(0, under(to)-under(from))
}
