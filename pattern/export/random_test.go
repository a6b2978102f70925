package export

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/png"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/species"
)

// randomPanel draws a panel of strips of all widths, some with a length of their own, and
// with products of every shape.
func randomPanel(rng *rand.Rand) pattern.Pattern {
	of := func(lo, hi int) length.Length { return length.Length(10*lo+rng.IntN(10*(hi-lo)+1)) * mm / 10 }
	keys := []string{"hard_maple", "black_walnut", "black_cherry", "white_ash", "padauk"}
	p := pattern.Pattern{Name: "Random", Panel: pattern.Panel{Length: of(200, 1200), Thickness: of(10, 50), Make: pattern.Make(rng.IntN(2))}}
	for range 1 + rng.IntN(30) {
		s := pattern.Strip{Species: keys[rng.IntN(len(keys))], Width: of(5, 60), Turned: rng.IntN(2) == 0, Over: rng.IntN(2) == 0,
			Rings: []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter()}[rng.IntN(4)]}
		if rng.IntN(4) == 0 {
			s.Length, s.Start = of(50, 400), of(0, 200)
		}
		p.Strips = append(p.Strips, s)
	}
	for range rng.IntN(4) {
		product := []pattern.Product{
			{Shape: outline.Round, Diameter: of(20, 300)},
			{Shape: outline.Rectangle, Length: of(40, 300), Width: of(20, 150)},
			{Shape: outline.Oval, Length: of(80, 300), Width: of(40, 80)},
		}[rng.IntN(3)]
		product.Count, product.Bevel = 1+rng.IntN(3), of(0, 4)
		p.Products = append(p.Products, product)
	}
	return p
}

// A bar is a rectangle of a picture in SVG.
type bar struct {
	X, Y, Width, Height float64
	Fill                string
}

// firstBars returns the rectangles of the panel's wood, in the order they are drawn in, and
// the picture's own sides.
func firstBars(t *testing.T, svg []byte) (bars []bar, wide, high float64) {
	t.Helper()
	var doc struct {
		ViewBox string `xml:"viewBox,attr"`
		Defs    struct {
			Groups []struct {
				ID     string `xml:"id,attr"`
				Groups []struct {
					Rects []struct {
						X      float64 `xml:"x,attr"`
						Y      float64 `xml:"y,attr"`
						Width  float64 `xml:"width,attr"`
						Height float64 `xml:"height,attr"`
						Fill   string  `xml:"fill,attr"`
					} `xml:"rect"`
				} `xml:"g"`
			} `xml:"g"`
		} `xml:"defs"`
	}
	if err := xml.Unmarshal(svg, &doc); err != nil {
		t.Fatal(err)
	}
	var x, y float64
	if _, err := fmt.Sscan(doc.ViewBox, &x, &y, &wide, &high); err != nil || x != 0 || y != 0 {
		t.Fatalf("viewBox %q: %v", doc.ViewBox, err)
	}
	for _, g := range doc.Defs.Groups {
		if g.ID == "owood" && len(g.Groups) > 0 {
			for _, r := range g.Groups[0].Rects {
				bars = append(bars, bar(r))
			}
		}
	}
	return bars, wide, high
}

// In the picture strips lie as they lie on the bench: each from where the one before ends,
// as wide and as long as it is sawn, in one colour for each timber; and the picture in
// pixels is the same one.
func TestStripsOfRandomPanels(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 90))
	own, copies := 0, 0
	for n := range 60 {
		p := randomPanel(rng)
		j := jobFor(t, p)
		j.Look.Raw, j.Look.Width = rng.IntN(2) == 0, 40+rng.IntN(200)
		copies += len(j.Work.Layout.Placed)
		bars, wide, high := firstBars(t, written(t, ".svg", j))
		if len(bars) != len(p.Strips) {
			t.Fatalf("panel %d: %d strips are drawn of %d", n, len(bars), len(p.Strips))
		}
		mm := func(l length.Length) float64 { return float64(l) / float64(length.Millimetre) }
		near := func(a, b float64) bool { return math.Abs(a-b) <= 0.011 } // figures have two places
		colours, at := map[string]string{}, length.Length(0)
		for i, s := range p.Strips {
			b := bars[i]
			along := p.StripLength(s, j.Physics.Shop().Allowance.Length)
			if !near(b.X, mm(s.Start)) || !near(b.Width, mm(along)) || !near(b.Y, mm(at)) || !near(b.Height, mm(s.Width)) {
				t.Errorf("panel %d: strip %d is drawn at %v, it lies %v along and %v across, %v by %v", n, i+1, b, s.Start, at, along, s.Width)
			}
			timber, _ := j.Physics.Table().Get(s.Species)
			fill, err := species.ParseRGB(b.Fill)
			if off := species.Contrast(fill, faceOf(timber, colour.Own{}, j.Look.Raw)); err != nil || off > 4 {
				t.Errorf("panel %d: a board of %s is %s, %.1f off", n, s.Species, b.Fill, off)
			}
			if i > 0 && p.Strips[i-1].Species == s.Species && bars[i-1].Fill == b.Fill {
				t.Errorf("panel %d: strips %d and %d, of one timber, are one board", n, i, i+1)
			}
			colours[s.Species] = b.Fill
			at += s.Width
			if s.Length > 0 {
				own++
			}
		}
		for a, one := range colours {
			for b, other := range colours {
				if a != b && one == other {
					t.Errorf("panel %d: %s and %s are both %s", n, a, b, one)
				}
			}
		}
		c, err := png.DecodeConfig(bytes.NewReader(written(t, ".png", j)))
		if err != nil || c.Width != j.Look.Width || math.Abs(float64(c.Height)-float64(c.Width)*high/wide) > 1 {
			t.Errorf("panel %d: %d by %d pixels, the drawing is %v by %v: %v", n, c.Width, c.Height, wide, high, err)
		}
	}
	if own < 50 || copies < 50 {
		t.Errorf("only %d strips with a length of their own, %d copies", own, copies)
	}
}

// The sheet of any panel has the width of every strip.
func TestSheetOfRandomPanels(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 91))
	for n := range 25 {
		p := randomPanel(rng)
		sheet := string(written(t, ".html", jobFor(t, p)))
		for _, s := range p.Strips {
			if width := s.Width.Format(length.InMM); !strings.Contains(sheet, width) {
				t.Errorf("panel %d: no strip of %s on its sheet", n, width)
			}
		}
	}
}
