package pattern_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

func TestWordsOfProducts(t *testing.T) {
	for _, s := range pattern.Shapes() {
		if back, err := pattern.ParseShape(s.String()); err != nil || back != s {
			t.Errorf("%v reads back as %v, %v", s, back, err)
		}
	}
	for _, s := range pattern.BevelSides() {
		if back, err := pattern.ParseBevelSide(s.String()); err != nil || back != s {
			t.Errorf("%v reads back as %v, %v", s, back, err)
		}
	}
	for _, c := range []pattern.Centre{{}, {Strip: 1}, {Joint: 12}, {Strip: pattern.MaxStrips}} {
		if back, err := pattern.ParseCentre(c.String()); err != nil || back != c {
			t.Errorf("%v reads back as %v, %v", c, back, err)
		}
	}
	for _, word := range []string{"", "oval", "strip", "strip 0", "strip -1", "joint x", "panel 1", "strip 1 2", "strip 10001", "joint 99999999999999999999"} {
		if _, err := pattern.ParseShape(word); err == nil {
			t.Errorf("shape %q was read", word)
		}
		if _, err := pattern.ParseBevelSide(word); err == nil {
			t.Errorf("bevel side %q was read", word)
		}
		if c, err := pattern.ParseCentre(word); err == nil {
			t.Errorf("centre %q was read as %v", word, c)
		}
	}
}

// Each case spoils one value of a product that is right; the key is the one to put
// right. The bounds stand in the cases themselves.
func TestMisfits(t *testing.T) {
	const mm = length.Millimetre
	round := pattern.Product{Diameter: 100 * mm, Count: 1, Bevel: 8 * mm}
	block := pattern.Product{Shape: pattern.ShapeBlock, Length: 200 * mm, Width: 60 * mm, Hole: 40 * mm, Holes: 5, HoleDepth: 18 * mm}
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
		{"no depth", block, func(p *pattern.Product) { p.HoleDepth = 0 }, "hole_depth"},
		{"a hole too many", block, func(p *pattern.Product) { p.Holes = 6 }, "holes"},
		{"holes wider than the block", block, func(p *pattern.Product) { p.Holes, p.Hole = 1, 60*mm+1 }, "hole"},
		{"deeper than any panel", block, func(p *pattern.Product) { p.HoleDepth = 2000*mm + 1 }, "hole_depth"},
		{"a rectangle with a hole depth", block, func(p *pattern.Product) { p.Shape, p.Hole, p.Holes = pattern.ShapeRectangle, 0, 0 }, "hole_depth"},
		{"no shape", block, func(p *pattern.Product) { p.Shape, p.Hole, p.Holes, p.HoleDepth = 9, 0, 0, 0 }, "shape"},
		{"no side", round, func(p *pattern.Product) { p.BevelSide = 7 }, "bevel_side"},
		{"two centres", round, func(p *pattern.Product) { p.Centre = pattern.Centre{Strip: 1, Joint: 1} }, "centre"},
		{"too many", round, func(p *pattern.Product) { p.Count = 10_001 }, "count"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.do(&c.p)
			got := c.p.Misfits()
			if c.key == "" && len(got) == 0 {
				return
			}
			if len(got) != 1 || got[0].Key != c.key || got[0].Text == "" {
				t.Errorf("%+v, want one of %q", got, c.key)
			}
		})
	}
}

func TestCentreInWords(t *testing.T) {
	for c, want := range map[pattern.Centre]string{{}: "panel", {Strip: 6}: "strip 6", {Joint: 6}: "glue line 6|7"} {
		if got := c.Words(); got != want {
			t.Errorf("%+v is %q, want %q", c, got, want)
		}
	}
}
