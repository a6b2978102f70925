package export

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/species"
)

func TestListOfExports(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range Exports() {
		if seen[e.Ending] || e.What == "" || e.Write == nil {
			t.Errorf("%s: stands twice, or lacks something", e.Ending)
		}
		seen[e.Ending] = true
		if got, ok := For(e.Kind, "a/B"+strings.ToUpper(e.Ending)); !ok || got.Ending != e.Ending {
			t.Errorf("For does not find %s in capitals", e.Ending)
		}
	}
	if _, ok := For(Picture, "trivet.html"); ok {
		t.Error("a sheet's ending is no picture's")
	}
	if _, ok := For(Picture, "svg"); ok {
		t.Error("a name without an ending has no form")
	}
}

// The same job gives the same bytes.
func TestDeterminism(t *testing.T) {
	j := jobFor(t, lantern(round(290*mm, 2)))
	for _, e := range Exports() {
		if !bytes.Equal(written(t, e.Ending, j), written(t, e.Ending, j)) {
			t.Errorf("%s differs from itself", e.Ending)
		}
	}
}

// elements reads XML strictly and gives the names of its elements, and all its text.
func elements(t *testing.T, data []byte) (names map[string]int, text string) {
	t.Helper()
	names = map[string]int{}
	d := xml.NewDecoder(bytes.NewReader(data))
	var b strings.Builder
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return names, b.String()
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch k := token.(type) {
		case xml.StartElement:
			names[k.Name.Local]++
			b.WriteByte(' ') // cells stand apart
			for _, a := range k.Attr {
				if strings.HasPrefix(strings.ToLower(a.Name.Local), "on") {
					t.Errorf("attribute %s of <%s> would act", a.Name.Local, k.Name.Local)
				}
			}
		case xml.CharData:
			b.Write(k)
		}
	}
}

func TestSVGIsTextAndWellFormed(t *testing.T) {
	names, text := elements(t, written(t, ".svg", jobFor(t, lantern(round(290*mm, 2)))))
	text = strings.Join(strings.Fields(text), " ") // a caption may take several lines
	for _, want := range []string{"Lantern pair", "hard maple", "black walnut", "round 290 mm, 22 mm thick, bevel 8 mm underneath", "200 mm", "Colours are approximate; oiled."} {
		if !strings.Contains(text, want) {
			t.Errorf("the text lacks %q", want)
		}
	}
	if names["title"] != 1 || names["desc"] != 1 || names["text"] < 5 || names["circle"] == 0 {
		t.Errorf("elements: %v", names)
	}
}

func TestSVGOfHostileText(t *testing.T) {
	data := written(t, ".svg", jobFor(t, hostile()))
	names, text := elements(t, data)
	if names["script"] > 0 || names["img"] > 0 {
		t.Errorf("text became elements: %v", names)
	}
	if !strings.Contains(text, `</title><script>alert("1")</script> & ' ]]>`) {
		t.Errorf("the name does not stand there as text: %q", text[:200])
	}
	for _, r := range []string{"\u202e", "\u202c", "\u200f", "\x1b", "\x00"} {
		if bytes.Contains(data, []byte(r)) {
			t.Errorf("%q came through", r)
		}
	}
}

// drawn returns a picture in pixels with its page and scale.
func drawn(t *testing.T, j Job) (image.Image, page, float64) {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(written(t, ".png", j)))
	if err != nil {
		t.Fatal(err)
	}
	pg, err := pageOf(j, 0)
	if err != nil {
		t.Fatal(err)
	}
	return img, pg, float64(j.Look.width()) / pg.wide
}

func rgb(c color.Color) species.RGB {
	r, g, b, _ := c.RGBA()
	return species.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}
}

// A third or more of what is sampled of a strip has its own colour to the bit, and nothing
// there stands off it by more than its grain does.
func TestColoursOfStrips(t *testing.T) {
	for _, raw := range []bool{false, true} {
		j := jobFor(t, lantern(round(290*mm, 1)))
		j.Look.Raw = raw
		for i := range j.Work.Pattern.Strips {
			s := &j.Work.Pattern.Strips[i]
			timber, _ := j.Physics.Table().Get(s.Species)
			s.Colour = colour.OwnOf(timber.ColourOiled.Lighter(float64(i % 3)))
		}
		img, pg, scale := drawn(t, j)
		at := pg.ops[firstWood(t, pg)].(woodOp)
		for i, s := range j.Work.Pattern.Strips {
			timber, _ := j.Physics.Table().Get(s.Species)
			want := s.Colour.RGB
			if raw {
				want = want.Lab().Plus(timber.ColourOiled.Lab(), timber.Colour.Lab()).RGB()
			}
			exact, all := 0, 0
			for x := 400.0; x < 424; x++ { // where no outline is drawn
				y := 23*float64(i) + 3 + math.Mod(7*x, 17)
				got := rgb(img.At(int((x+at.at.x)*scale), int((y+at.at.y)*scale)))
				if all++; got == want {
					exact++
				}
				if off := species.Contrast(got, want); off > 11 {
					t.Errorf("raw %v, strip %d at %g, %g: %v stands %.1f off %v", raw, i+1, x, y, got, off, want)
				}
			}
			if 3*exact < all {
				t.Errorf("raw %v, strip %d: %d of %d samples are %v", raw, i+1, exact, all, want)
			}
		}
	}
}

func firstWood(t *testing.T, pg page) int {
	t.Helper()
	for i, o := range pg.ops {
		if _, ok := o.(woodOp); ok {
			return i
		}
	}
	t.Fatal("no wood is drawn")
	return 0
}

// The edge of a round lies within half a pixel of the true circle, that of an oval within
// a pixel of the ellipse: what is nearer the middle is wood, what is further off is paper.
func TestOutlines(t *testing.T) {
	for _, c := range []struct {
		product pattern.Product
		within  float64 // pixels
		off     func(dx, dy, rx, ry float64) float64
	}{
		{pattern.Product{Shape: outline.Round, Diameter: 290 * mm, Count: 1}, 0.5,
			func(dx, dy, rx, _ float64) float64 { return math.Hypot(dx, dy) - rx }},
		{pattern.Product{Shape: outline.Oval, Length: 340 * mm, Width: 220 * mm, Count: 1}, 1,
			func(dx, dy, rx, ry float64) float64 { // by how fast the ellipse's own form rises there
				return (dx*dx/(rx*rx) + dy*dy/(ry*ry) - 1) / (2 * math.Hypot(dx/(rx*rx), dy/(ry*ry)))
			}},
	} {
		for _, width := range []int{300, 1600} {
			j := jobFor(t, lantern(c.product))
			j.Look = Look{Product: 1, Width: width}
			img, pg, scale := drawn(t, j)
			o := pg.ops[firstWood(t, pg)].(woodOp)
			a := o.in.moved(o.at)
			cx, cy, rx, ry := (a.x0+a.x1)/2*scale, (a.y0+a.y1)/2*scale, (a.x1-a.x0)/2*scale, (a.y1-a.y0)/2*scale
			inside, outside := 0, 0
			for y := int(cy - ry - 3); y < int(cy+ry+3); y++ {
				for x := int(cx - rx - 3); x < int(cx+rx+3); x++ {
					off := c.off(float64(x)+0.5-cx, float64(y)+0.5-cy, rx, ry)
					got := rgb(img.At(x, y))
					switch {
					case off < -c.within && got.Lightness() > 90:
						t.Fatalf("%s, width %d: pixel %d, %d lies %.2f within and is %v", c.product.Shape, width, x, y, -off, got)
					case off < -c.within:
						inside++
					case off > c.within && off < 3 && got != paper:
						t.Fatalf("%s, width %d: pixel %d, %d lies %.2f outside and is %v", c.product.Shape, width, x, y, off, got)
					case off > c.within:
						outside++
					}
				}
			}
			if want := math.Pi * rx * ry; math.Abs(float64(inside)-want) > 0.03*c.within/0.5*want || outside == 0 {
				t.Errorf("%s, width %d: %d pixels within, the outline has %.0f", c.product.Shape, width, inside, want)
			}
		}
	}
}

func TestSizes(t *testing.T) {
	j := jobFor(t, lantern(round(290*mm, 2)))
	for _, width := range []int{1, 2, 17, 8000} {
		j.Look.Width = width
		data := written(t, ".png", j)
		c, err := png.DecodeConfig(bytes.NewReader(data))
		if err != nil || c.Width != width || c.Height < 1 || float64(c.Height) > mostHigh*float64(width)+1 {
			t.Errorf("width %d: %d x %d, %v", width, c.Width, c.Height, err)
		}
	}
	j.Look.Width = 0
	if c, err := png.DecodeConfig(bytes.NewReader(written(t, ".png", j))); err != nil || c.Width != DefaultWidth {
		t.Errorf("without a width: %d, %v", c.Width, err)
	}
}

// What a pattern may be at its extremes can be drawn.
func TestExtremes(t *testing.T) {
	many := lantern()
	for len(many.Strips) < 500 {
		many.Strips = append(many.Strips, many.Strips[:min(13, 500-len(many.Strips))]...)
	}
	long := lantern()
	long.Panel.Length, long.Strips = 20*length.Metre, []pattern.Strip{{Species: "black_cherry", Width: 1}}
	wideStrips := lantern()
	wideStrips.Panel.Length = 1 * mm
	for i := range wideStrips.Strips {
		wideStrips.Strips[i].Width = 2 * length.Metre
	}
	none := lantern(round(2*length.Metre, 1))
	products := lantern()
	for range 100 {
		products.Products = append(products.Products, pattern.Product{Shape: outline.Round, Diameter: 3 * mm, Count: 1})
	}
	holes := lantern(pattern.Product{Shape: outline.Block, Length: 400 * mm, Width: 95 * mm, Count: 1, Bevel: 3 * mm,
		BevelSide: pattern.BevelBoth, Hole: 40 * mm, Holes: 3, HoleDepth: 18 * mm})
	strange := lantern()
	strange.Strips[0].Species = "moon_wood"
	for name, p := range map[string]pattern.Pattern{
		"500 strips": many, "a strip of a nanometre": long, "strips of two metres": wideStrips, "a product that does not fit": none,
		"a draft": {Name: "Draft", Panel: pattern.Panel{Length: 300 * mm, Thickness: 20 * mm}}, "nothing": {},
		"a hundred products": products, "a block with holes": holes, "an unknown timber": strange,
	} {
		t.Run(name, func(t *testing.T) {
			j := jobFor(t, p)
			for _, width := range []int{1, 40, 900} {
				j.Look.Width = width
				elements(t, written(t, ".svg", j))
				if c, err := png.DecodeConfig(bytes.NewReader(written(t, ".png", j))); err != nil || c.Width != width {
					t.Errorf("width %d: %v, %v", width, c.Width, err)
				}
			}
		})
	}
}

func TestOneProduct(t *testing.T) {
	p := lantern(round(290*mm, 1), round(600*mm, 1))
	j := jobFor(t, p)
	for product, want := range map[int]error{1: nil, 2: ErrNoPlace, 3: ErrNoProduct, -1: ErrNoProduct} {
		j.Look.Product = product
		if err := writeSVG(io.Discard, j); !errors.Is(err, want) {
			t.Errorf("product %d: %v, want %v", product, err, want)
		}
	}
	j = jobFor(t, lantern())
	j.Look.Product = 1 // the finished panel is the product
	if err := writeSVG(io.Discard, j); err != nil {
		t.Error(err)
	}
}

// The bar is as long as it says, in either unit.
func TestScaleBar(t *testing.T) {
	for _, c := range []struct {
		most float64
		unit length.Unit
		mm   float64
		text string
	}{
		{120, length.InMM, 100, "100 mm"},
		{19, length.InMM, 10, "10 mm"},
		{2100, length.InMM, 2000, "2000 mm"},
		{120, length.InInches, 76.2, "3 in"},
		{9, length.InInches, 6.35, "1/4 in"},
		{310, length.InInches, 304.8, "12 in"},
	} {
		if mm, text := scaleBar(c.most, c.unit); math.Abs(mm-c.mm) > 1e-9 || text != c.text {
			t.Errorf("at most %g: %g mm, %q; want %g, %q", c.most, mm, text, c.mm, c.text)
		}
	}
}

func benchmarkPNG(b *testing.B, p pattern.Pattern, width int) {
	j := jobFor(b, p)
	j.Look.Width = width
	for b.Loop() {
		if err := writePNG(io.Discard, j); err != nil {
			b.Fatal(err)
		}
	}
}

// Budget: 300 ms for a picture 4000 pixels wide, and 1 s for the widest. That is why lines,
// rounds and inks are drawn by hand: of the 0.6 s that the widest took, image/png needs
// 0.24 s to pack its 256 inks; packing the same picture as RGBA alone takes it 5 s, and
// the grain of one panel by golang.org/x/image/vector, each line in a mask of its own,
// another 0.6 s.
func BenchmarkPNG4000(b *testing.B)         { benchmarkPNG(b, lantern(round(290*mm, 2)), 4000) }
func BenchmarkPNG4000Strips60(b *testing.B) { benchmarkPNG(b, manyStrips(60), 4000) }
func BenchmarkPNG8000(b *testing.B)         { benchmarkPNG(b, lantern(round(290*mm, 2)), MaxWidth) }

func manyStrips(n int) pattern.Pattern {
	p := lantern(round(290*mm, 4))
	for len(p.Strips) < n {
		p.Strips = append(p.Strips, p.Strips[0], p.Strips[1])
	}
	p.Strips = p.Strips[:n]
	for i := range p.Strips {
		p.Strips[i].Width = 10 * mm
	}
	return p
}

// The customer sees no dashed lines on the panel unless they are asked for.
func TestMarksAreAskedFor(t *testing.T) {
	j := jobFor(t, lantern(round(290*mm, 2)))
	if page := string(written(t, ".svg", j)); strings.Contains(page, "stroke-dasharray") || strings.Contains(page, "dashed") {
		t.Error("lines are dashed that nobody asked for")
	}
	j.Look.Marks = true
	if page := string(written(t, ".svg", j)); !strings.Contains(page, "stroke-dasharray") || !strings.Contains(page, "dashed") {
		t.Error("no marks where they are asked for")
	}
}
