package outline

import (
	"testing"

	"example.com/oddments/pattern"
)

// Each case spoils one value of a product that is right; the key is the one to put
// right. The bounds stand in the cases themselves.
func TestMisfits(t *testing.T) {
	round := pattern.Product{Shape: Round, Diameter: 100 * mm, Count: 1, Bevel: 8 * mm}
	block := pattern.Product{Shape: Block, Length: 200 * mm, Width: 60 * mm, Hole: 40 * mm, Holes: 5, HoleDepth: 18 * mm}
	oval := pattern.Product{Shape: Oval, Length: 340 * mm, Width: 220 * mm, Count: 1, Bevel: 8 * mm}
	for _, c := range []struct {
		name string
		p    pattern.Product
		do   func(*pattern.Product)
		key  string
	}{
		{"a round", round, func(*pattern.Product) {}, ""},
		{"a block that its holes fill", block, func(*pattern.Product) {}, ""},
		{"a block not drilled yet", block, func(p *pattern.Product) { p.Hole, p.Holes, p.HoleDepth = 0, 0, 0 }, ""},
		{"holes as wide as the block", block, func(p *pattern.Product) { p.Holes, p.Hole = 3, 60*mm }, ""},
		{"the smallest", round, func(p *pattern.Product) { p.Diameter, p.Bevel = 1*mm, mm/2-1 }, ""},
		{"bevels that meet", round, func(p *pattern.Product) { p.Bevel = 50 * mm }, "bevel"},
		{"smaller", round, func(p *pattern.Product) { p.Diameter, p.Bevel = 1*mm-1, 0 }, "diameter"},
		{"wider than any panel", round, func(p *pattern.Product) { p.Diameter = 2000*mm + 1 }, "diameter"},
		{"a round with a length", round, func(p *pattern.Product) { p.Length = 3 * mm }, "length"},
		{"a round with a width", round, func(p *pattern.Product) { p.Width = 3 * mm }, "width"},
		{"a round with holes", round, func(p *pattern.Product) { p.Holes = 3 }, "holes"},
		{"a block with a diameter", block, func(p *pattern.Product) { p.Diameter = 3 * mm }, "diameter"},
		{"no width", block, func(p *pattern.Product) { p.Width, p.Hole, p.Holes, p.HoleDepth = 0, 0, 0, 0 }, "width"},
		{"longer than any panel", block, func(p *pattern.Product) { p.Length = 20_000*mm + 1 }, "length"},
		{"no hole", block, func(p *pattern.Product) { p.Hole = 0 }, "hole"},
		{"candles without holes", block, func(p *pattern.Product) { p.Hole, p.Holes, p.HoleDepth, p.For = 0, 0, 0, pattern.ForCandles }, "for"},
		{"candles in a round", round, func(p *pattern.Product) { p.For = pattern.ForCandles }, "for"},
		{"no depth", block, func(p *pattern.Product) { p.HoleDepth = 0 }, "hole_depth"},
		{"a hole too many", block, func(p *pattern.Product) { p.Holes = 6 }, "holes"},
		{"holes wider than the block", block, func(p *pattern.Product) { p.Holes, p.Hole = 1, 60*mm+1 }, "hole"},
		{"deeper than any panel", block, func(p *pattern.Product) { p.HoleDepth = 2000*mm + 1 }, "hole_depth"},
		{"a rectangle with a hole depth", block, func(p *pattern.Product) { p.Shape, p.Hole, p.Holes = Rectangle, 0, 0 }, "hole_depth"},
		{"no shape", block, func(p *pattern.Product) { p.Shape, p.Hole, p.Holes, p.HoleDepth = "kite", 0, 0, 0 }, "shape"},
		{"an oval", oval, func(*pattern.Product) {}, ""},
		{"an oval longer across", oval, func(p *pattern.Product) { p.Length, p.Width = p.Width, p.Length }, ""},
		{"an oval with a diameter", oval, func(p *pattern.Product) { p.Diameter = 3 * mm }, "diameter"},
		{"an oval wider than any panel", oval, func(p *pattern.Product) { p.Width = 2000*mm + 1 }, "width"},
		{"an oval with holes", oval, func(p *pattern.Product) { p.Holes = 3 }, "holes"},
		{"an oval whose bevels meet", oval, func(p *pattern.Product) { p.Bevel = 110 * mm }, "bevel"},
		{"no side", round, func(p *pattern.Product) { p.BevelSide = 7 }, "bevel_side"},
		{"two centres", round, func(p *pattern.Product) { p.Centre = pattern.Centre{Strip: 1, Joint: 1} }, "centre"},
		{"too many", round, func(p *pattern.Product) { p.Count = 10_001 }, "count"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.do(&c.p)
			got := Misfits(c.p)
			if c.key == "" && len(got) == 0 {
				return
			}
			if len(got) != 1 || got[0].Key != c.key || got[0].Text == "" {
				t.Errorf("%+v, want one of %q", got, c.key)
			}
		})
	}
}
