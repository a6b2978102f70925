package outline

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// Shapes lists the shapes in the order in which they are named. A new one is a file
// with its type, and a line here: everything that is told of a product asks its shape.
func Shapes() []Shape { return []Shape{round{}, rectangle{}, block{}, oval{}} }

// A Shape is what a product looks like from above, of some size: it bulges everywhere
// or is straight, and both its middle lines part it into mirror images. Laying relies
// on that. The methods have no defaults, so that a shape without a figure of its own
// does not build and cannot give another's.
type Shape interface {
	Kind
	Extent
	Footprint
	Figures
	Sayings
	// Draw draws the outline with the corner of what it fills at x along and y across, mm.
	Draw(x, y float64, pen Pen)
}

// A Kind is what a shape is called and made of, whatever its size.
type Kind interface {
	// Name returns the word that stands in files and is typed.
	Name() pattern.ShapeName
	// Also lists other words that it may be typed with.
	Also() []string
	// Takes lists the sizes that it is given by, in the order in which they are typed.
	Takes() []Taken
	// Drilled reports whether it may have a row of holes along its middle.
	Drilled() bool
	// Of returns the shape with the sizes of p.
	Of(p pattern.Product) Shape
}

// An Extent is how large a shape is.
type Extent interface {
	// Size returns the rectangle that it fills: along the grain, and across.
	Size() (along, across length.Length)
	// Sizes returns the sizes that it is given by, as many as Takes lists.
	Sizes() []length.Length
	// Resized returns the shape that fills a rectangle of another size.
	Resized(along, across length.Length) Shape
}

// A Footprint is what a shape takes up when it is laid, in whole nanometres. What is not
// exact is rounded to the side of what is forbidden.
type Footprint interface {
	// Chord returns the length along the grain within the shape, on a line half of twice
	// away from its middle, rounded up; twice is 0 up to its size across.
	Chord(twice length.Length) length.Length
	// Keep says how far along from the middle of a circle of some diameter the shape's
	// own must keep so that they touch at most, where the middles lie half of twice apart
	// across. What it gives is doubled too, and at least what is needed. No keep is
	// needed where they cannot meet.
	Keep(diameter, twice length.Length) (keep length.Length, meets bool)
	// Apart returns how far apart the rows lie, middle to middle, when every other one is
	// shifted by half of a copy and the gap, rounded up, so that no copies come closer
	// than gap. False: such rows gain nothing.
	Apart(gap length.Length) (length.Length, bool)
}

// Figures are what is computed from a shape, in millimetres.
type Figures interface {
	// Half returns half the length along the grain within the shape, in mm off all round,
	// on a line off away from its middle.
	Half(in, off float64) float64
	// Area returns the square millimetres of the shape, in mm off all round, between two
	// lines across; these are measured from the edge of the whole shape.
	Area(in, from, to float64) float64
	// Perimeter returns the length of a line round the shape that runs half of twice
	// outside it.
	Perimeter(twice length.Length) float64
	// Surface returns the square millimetres of both faces and the edge of a piece t thick.
	Surface(t float64) float64
	// Bevelled returns the cubic millimetres that a bevel of 45 degrees, c deep, takes off
	// one edge.
	Bevelled(c float64) float64
	// Diameter returns the diameter of what is a disc, which the seasons make out of round;
	// 0 for what never was one.
	Diameter() length.Length
}

// Sayings are the words that a shape has of its own.
type Sayings interface {
	// Edge names its edge.
	Edge() string
	// Small says what to do where it is too small to hold under a router.
	Small() string
	// Sawn says how it is cut out without a router, and what to mind there; empty where
	// the workshop's usual ways serve.
	Sawn() (how, mind string)
	// Template says how the outline of a template is drawn that is so large, along and
	// across, for this shape; empty where compasses or a square serve.
	Template(along, across length.Length, u length.Unit) string
	// Label returns the size of a piece t thick as it stands on its label.
	Label(t length.Length, u length.Unit) string
}

// A Pen draws one outline; all is in mm.
type Pen interface {
	Rectangle(x0, y0, x1, y1 float64)
	Circle(x0, y0, x1, y1 float64) // that fills the square
	Polygon(points [][2]float64)   // without hollows, one way round
}

// A Taken is one size that a shape is given by.
type Taken struct {
	Key     string // of the value, as the file and who types calls it
	In      func(*pattern.Product) *length.Length
	Way     string // along or across, where it is measured
	Most    length.Length
	Example string // as it may stand in a file
	Wanted  string // what is said where it is still to come
}

// diameter, lengthwise and widthwise are the sizes that a product has room for.
func diameter() Taken {
	return Taken{"diameter", func(p *pattern.Product) *length.Length { return &p.Diameter },
		"across", pattern.MaxAcross, `"290 mm"`, "the diameter"}
}

func lengthwise() Taken {
	return Taken{"length", func(p *pattern.Product) *length.Length { return &p.Length },
		"along", pattern.MaxLength, `"400 mm"`, "the length along the grain, then the width"}
}

func widthwise() Taken {
	return Taken{"width", func(p *pattern.Product) *length.Length { return &p.Width },
		"across", pattern.MaxAcross, `"300 mm"`, "the width across the grain"}
}

// ShapeOf returns the shape of p in its size. The shape that p names must be listed: what
// is read, typed or edited is checked for that.
func ShapeOf(p pattern.Product) Shape {
	s, err := ShapeNamed(string(p.Shape))
	if err != nil {
		panic(fmt.Sprintf("outline: %v", err))
	}
	return s.Of(p)
}

// ShapeNamed returns the shape that is called so, without a size, or says which there are.
func ShapeNamed(name string) (Shape, error) {
	for _, s := range Shapes() {
		if name == string(s.Name()) {
			return s, nil
		}
	}
	return nil, fmt.Errorf("shape %s", noShape(name))
}

// noShape says what a shape must be that is called otherwise.
func noShape(name string) string { return fmt.Sprintf("%q: must be %s", name, ShapeWords(nil)) }

// shapeTyped returns the shape that a word stands for, of one or of several.
func shapeTyped(word string) (Shape, bool) {
	for _, s := range Shapes() {
		for _, w := range append(s.Also(), string(s.Name())) {
			if w == word || w+"s" == word {
				return s, true
			}
		}
	}
	return nil, false
}

// ShapeWords names the shapes, each worded by as, or plain: round, rectangle, block or oval.
func ShapeWords(as func(name string) string) string {
	var names []string
	for _, s := range Shapes() {
		name := string(s.Name())
		if as != nil {
			name = as(name)
		}
		names = append(names, name)
	}
	return tell.List(names, "or")
}

// SizeText returns sizes as one writes them, each by with: 240 mm x 160 mm.
func SizeText(sizes []length.Length, with func(length.Length) string) string {
	texts := make([]string, len(sizes))
	for i, l := range sizes {
		texts[i] = with(l)
	}
	return strings.Join(texts, " x ")
}

// VolumeDM3 returns the volume of one product as it is cut out, in cubic decimetres.
func VolumeDM3(p pattern.Product, thickness length.Length) float64 {
	const mm3 = 1e6 // in a cubic decimetre
	shape := ShapeOf(p)
	_, across := shape.Size()
	return shape.Area(0, 0, across.MM()) * thickness.MM() / mm3
}

// bevelSlices is into how many slices a bevel is cut for its volume between two lines
// (Simpson's rule, so it is even).
const bevelSlices = 64

// BevelMM3 returns the cubic millimetres that a bevel of 45 degrees, c deep, takes off one
// edge of s between two lines across, by Simpson's rule over its depth.
func BevelMM3(s Shape, c, from, to float64) float64 {
	return c*s.Area(0, from, to) - simpson(bevelSlices, 0, c, func(in float64) float64 { return s.Area(in, from, to) })
}

// simpson returns the area under f between low and high by Simpson's rule in n slices; n is
// even.
func simpson(n int, low, high float64, f func(float64) float64) float64 {
	sum := 0.0
	for i := range n + 1 {
		weight := 2 + 2*float64(i%2)
		if i == 0 || i == n {
			weight = 1
		}
		sum += weight * f(low+(high-low)*float64(i)/float64(n))
	}
	return sum * ((high - low) / (3 * float64(n)))
}
