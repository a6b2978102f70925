package outline

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Rectangle is the name of what has four corners; its length lies along the grain.
const Rectangle pattern.ShapeName = "rectangle"

// sawOrTurn says what to do with what is small; common practice, no source.
const sawOrTurn = "saw or turn it, or use a hole saw, and keep hands clear"

// A rectangle has its length along the grain.
type rectangle struct{ along, across length.Length }

func (rectangle) Name() pattern.ShapeName    { return Rectangle }
func (rectangle) Also() []string             { return []string{"rect", "square", "board"} }
func (rectangle) Takes() []Taken             { return []Taken{lengthwise(), widthwise()} }
func (rectangle) Drilled() bool              { return false }
func (rectangle) Of(p pattern.Product) Shape { return rectangle{p.Length, p.Width} }

func (r rectangle) Size() (along, across length.Length)     { return r.along, r.across }
func (r rectangle) Sizes() []length.Length                  { return []length.Length{r.along, r.across} }
func (rectangle) Resized(along, across length.Length) Shape { return rectangle{along, across} }

func (r rectangle) Chord(length.Length) length.Length { return r.along }

func (r rectangle) Keep(diameter, twice length.Length) (length.Length, bool) {
	off := max(0, twice-r.across)
	if off > 0 && off >= diameter {
		return 0, false
	}
	return r.along + ceilSqrtDiff(diameter, off), true
}

func (rectangle) Apart(length.Length) (length.Length, bool) { return 0, false }

func (r rectangle) Half(in, _ float64) float64 { return r.along.MM()/2 - in }

func (r rectangle) Area(in, from, to float64) float64 {
	across := min(to, r.across.MM()-in) - max(from, in)
	return max(0, across) * (r.along.MM() - 2*in)
}

func (r rectangle) Perimeter(twice length.Length) float64 {
	return 2*(r.along+r.across).MM() + math.Pi*twice.MM()
}

func (r rectangle) Surface(t float64) float64 {
	a, b := r.along.MM(), r.across.MM()
	return 2 * (a*b + a*t + b*t)
}

func (r rectangle) Bevelled(c float64) float64 {
	a, b := r.along.MM(), r.across.MM()
	return (a+b)*c*c - 4*c*c*c/3
}

func (rectangle) Diameter() length.Length { return 0 }

func (rectangle) Edge() string { return "edges" }

func (rectangle) Small() string { return sawOrTurn }

func (rectangle) Sawn() (how, mind string) { return "", "" }

func (rectangle) Template(length.Length, length.Length, length.Unit) string { return "" }

func (r rectangle) Label(t length.Length, u length.Unit) string {
	return fmt.Sprintf("%s x %s x %s", r.along.With(u), r.across.With(u), t.With(u))
}

func (r rectangle) Draw(x, y float64, pen Pen) {
	pen.Rectangle(x, y, x+r.along.MM(), y+r.across.MM())
}
