package export

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

func ovalOf(bevel pattern.Product) pattern.Product {
	bevel.Shape, bevel.Length, bevel.Width, bevel.Count = outline.Oval, 340*mm, 220*mm, 1
	return bevel
}

// A bevel is light at its upper left and dark at its lower right, and no wider than it
// is deep, also where opposite sides meet.
func TestBevelOfOval(t *testing.T) {
	for _, product := range []pattern.Product{
		ovalOf(pattern.Product{Bevel: 8 * mm, BevelSide: pattern.BevelTop}),
		{Shape: outline.Oval, Length: 340 * mm, Width: 40 * mm, Count: 1, Bevel: 15 * mm, BevelSide: pattern.BevelTop},
	} {
		p := lantern(product)
		for i := range p.Strips {
			p.Strips[i].Species = "hard_maple"
		}
		p.Products[0].Bevel = 0
		plain := jobFor(t, p)
		p.Products = []pattern.Product{product}
		bevelled := jobFor(t, p)
		plain.Look, bevelled.Look = Look{Product: 1, Width: 900}, Look{Product: 1, Width: 900}
		before, pg, scale := drawn(t, plain)
		after, _, _ := drawn(t, bevelled)
		o := pg.ops[firstWood(t, pg)].(woodOp)
		a := o.in.moved(o.at)
		shape := outline.ShapeOf(product)
		lit, shaded, most := 0, 0, 0.0
		for y := int(a.y0 * scale); y < int(a.y1*scale); y++ {
			for x := int(a.x0 * scale); x < int(a.x1*scale); x++ {
				change := rgb(after.At(x, y)).Lightness() - rgb(before.At(x, y)).Lightness()
				if change == 0 {
					continue
				}
				dx, dy := (float64(x)+0.5)/scale-(a.x0+a.x1)/2, (float64(y)+0.5)/scale-(a.y0+a.y1)/2
				if half := shape.Half(product.Bevel.MM(), math.Abs(dy)+2/scale); math.Abs(dx) < half-2/scale {
					t.Fatalf("%v mm wide: %.1f, %.1f lies %.1f mm within the bevel and is lit", product.Width.MM(), dx, dy, half-math.Abs(dx))
				}
				if change > 0 {
					lit++
				} else {
					shaded++
				}
				// Deep within, the rim that is nearest is not the one outward.
				towards := dx/math.Pow(product.Length.MM(), 2) + dy/math.Pow(product.Width.MM(), 2)
				if product.Bevel < 10*mm && (change > 0) != (towards < 0) {
					t.Fatalf("%v mm wide: %.1f, %.1f is changed by %v", product.Width.MM(), dx, dy, change)
				}
				most = max(most, math.Abs(change))
			}
		}
		if most > 40 {
			t.Errorf("%v mm wide: a pixel is changed by %v: sides lie over one another", product.Width.MM(), most)
		}
		ring := (shape.Area(0, 0, 1e4) - shape.Area(product.Bevel.MM(), 0, 1e4)) * scale * scale
		if float64(lit+shaded) < 0.6*ring || lit == 0 || shaded == 0 {
			t.Errorf("%v mm wide: %d pixels lit and %d shaded of %.0f", product.Width.MM(), lit, shaded, ring)
		}
	}
}

// The vector picture cuts the oval out by its own outline, and the sheet says how to draw
// and cut it, with the cautions at their steps.
func TestOvalInPictureAndSheet(t *testing.T) {
	j := jobFor(t, lantern(ovalOf(pattern.Product{Bevel: 8 * mm, BevelSide: pattern.BevelTop})))
	svg := written(t, ".svg", j)
	names, _ := elements(t, svg)
	if names["circle"] != 0 || !bytes.Contains(svg, []byte(`<clipPath id="oc2"><path d="M`)) {
		t.Errorf("elements %v: an oval is no circle", names)
	}
	_, text := elements(t, written(t, ".html", j))
	text = strings.Join(strings.Fields(text), " ")
	last := 0
	for _, want := range []string{
		"oval 340 mm x 220 mm, 22 mm thick, bevel 8 mm on top; 1 from a panel",
		"to draw product 1 draw both axes; set two nails on the long one, along the grain, each 129.6 mm from the middle",
		"Draw the template: draw both axes; set two nails on the long one, along the grain, each 125.4 mm",
		"Rout round a template of 322 x 202 mm",
		"a router makes fine dust",
		"Or without a template: saw it outside the line on a bandsaw",
		"no lathe, no circle jig",
		"Sand the rim at grit 120",
	} {
		at := strings.Index(text[last:], want)
		if at < 0 {
			t.Fatalf("the sheet lacks %q behind what comes before it", want)
		}
		last += at
	}
	if strings.Contains(text, "turn it") {
		t.Error("the sheet has an oval turned")
	}
	if rules, ok := work.OutOfRoundLine(j.Physics, j.Work, j.Work.Layout.Placed[0], j.Unit); ok {
		t.Errorf("an oval is never round: %q", rules)
	}
}
