package outline

import (
	"math"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// sized returns a product of each shape, of about 200 mm by what it is given by.
func sized() []pattern.Product {
	var out []pattern.Product
	for _, s := range Shapes() {
		p := pattern.Product{Shape: s.Name(), Count: 1}
		for i, t := range s.Takes() {
			*t.In(&p) = length.Length(200-70*i) * mm
		}
		out = append(out, p)
	}
	return out
}

// A tracer is a pen that keeps the outline as a polygon.
type tracer struct{ points [][2]float64 }

func (t *tracer) Rectangle(x0, y0, x1, y1 float64) {
	t.points = [][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

func (t *tracer) Circle(x0, y0, x1, y1 float64) {
	for i := range 3600 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 1800)
		t.points = append(t.points, [2]float64{(x0+x1)/2 + cos*(x1-x0)/2, (y0+y1)/2 + sin*(y1-y0)/2})
	}
}

func (t *tracer) Polygon(points [][2]float64) { t.points = points }

// traced returns the area and the perimeter of what a shape draws, and the rectangle that
// it fills.
func traced(s Shape) (area, round float64, low, high [2]float64) {
	var pen tracer
	s.Draw(30, 50, &pen)
	low, high = pen.points[0], pen.points[0]
	for i, a := range pen.points {
		b := pen.points[(i+1)%len(pen.points)]
		area += (a[0]*b[1] - b[0]*a[1]) / 2
		round += math.Hypot(b[0]-a[0], b[1]-a[1])
		for k := range a {
			low[k], high[k] = min(low[k], a[k]), max(high[k], a[k])
		}
	}
	return math.Abs(area), round, low, high
}

// The figures of every shape agree with one another and with what it draws; a polygon's
// sides cut off a little of what bulges.
func TestFiguresOfEveryShape(t *testing.T) {
	for _, p := range sized() {
		s := ShapeOf(p)
		name := string(s.Name())
		along, across := s.Size()
		a, b := along.MM(), across.MM()
		near := func(what string, got, want, by float64) {
			t.Helper()
			if math.Abs(got-want) > by*want {
				t.Errorf("%s: %s %v, want %v", name, what, got, want)
			}
		}
		if bad := Misfits(p); len(bad) > 0 {
			t.Fatalf("%s: %+v", name, bad)
		}
		area, round, low, high := traced(s)
		near("drawn from", low[0]+low[1], 80, 1e-9)
		near("drawn along", high[0]-low[0], a, 1e-9)
		near("drawn across", high[1]-low[1], b, 1e-9)
		near("area", s.Area(0, 0, b), area, 3e-4)
		near("perimeter", s.Perimeter(0), round, 3e-4)
		near("perimeter outside", s.Perimeter(20*mm), s.Perimeter(0)+20*math.Pi, 1e-9)
		near("surface", s.Surface(22), 2*s.Area(0, 0, b)+22*s.Perimeter(0), 1e-9)
		near("bevel", s.Bevelled(5), BevelMM3(s, 5, 0, b), 1e-4)
		for _, in := range []float64{0, 5} {
			const parts = 20_000
			sum := 0.0
			for i := range parts {
				y := in + (float64(i)+0.5)/parts*(b-2*in)
				sum += 2 * s.Half(in, y-b/2) * (b - 2*in) / parts
			}
			near("area by chords", s.Area(in, 0, b), sum, 1e-5)
			near("both halves", s.Area(in, 0, b/3)+s.Area(in, b/3, b), s.Area(in, 0, b), 1e-5)
		}
		for i := range 20 {
			twice := across * length.Length(i) / 20
			exact := 2 * s.Half(0, twice.MM()/2)
			if got := s.Chord(twice).MM(); got < exact-1e-6 || got > exact+3e-6 {
				t.Errorf("%s: chord %v, %v off, want %v", name, got, twice, exact)
			}
		}
		if again := s.Resized(along, across); again != s {
			t.Errorf("%s: %+v resized to its own size is %+v", name, s, again)
		}
		if s.Label(20*mm, length.InMM) == "" || s.Edge() == "" || s.Small() == "" {
			t.Errorf("%s lacks words", name)
		}
	}
}

// No two shapes go by one word, and none by a word that says something else.
func TestWordsOfShapes(t *testing.T) {
	of := map[string]pattern.ShapeName{"fill": "", "count": "", "bevel": "", "under": "", "top": "", "both": "", "centre": "", "hole": "", "holes": "", "x": "", "by": ""}
	for _, s := range Shapes() {
		if back, err := ShapeNamed(string(s.Name())); err != nil || back.Name() != s.Name() {
			t.Errorf("%s is found as %v, %v", s.Name(), back, err)
		}
		for _, w := range append(s.Also(), string(s.Name())) {
			if other, ok := of[w]; ok {
				t.Errorf("%q is %s, and %q too", w, s.Name(), other)
			}
			of[w] = s.Name()
		}
	}
	for _, name := range []string{"", "kite", "Round", "disc"} {
		if s, err := ShapeNamed(name); err == nil {
			t.Errorf("%q is the name of %v", name, s)
		}
	}
	if got, want := ShapeWords(tell.A), "a round, a rectangle, a block or an oval"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
