package outline

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
)

func TestCheckRefuses(t *testing.T) {
	p := panel(500*mm, 300*mm, 5)
	round, block := pattern.Product{Shape: Round, Diameter: 100 * mm, Count: 1}, pattern.Product{Shape: Block, Length: 200 * mm, Width: 60 * mm, Count: 1}
	with := func(p pattern.Product, change func(*pattern.Product)) []pattern.Product {
		change(&p)
		return []pattern.Product{p}
	}
	for _, c := range []struct {
		says     string
		products []pattern.Product
		avoids   []pattern.Avoid
		cut      Cut
	}{
		{"product 1: count 0: must be 1 or more", []pattern.Product{{Shape: Round, Diameter: 100 * mm}, round}, nil, Cut{}},
		{"product 1: diameter: 0 mm across: must be 1 mm", []pattern.Product{{Shape: Round}}, nil, Cut{}},
		{"product 1: length: 0 mm along: must be 1 mm", []pattern.Product{{Shape: Rectangle, Width: 50 * mm}}, nil, Cut{}},
		{`shape: "kite": must be`, with(round, func(p *pattern.Product) { p.Shape = "kite" }), nil, Cut{}},
		{"count: -1: must be", with(round, func(p *pattern.Product) { p.Count = -1 }), nil, Cut{}},
		{"centre strip 6: must be a strip of the 5", with(round, func(p *pattern.Product) { p.Centre.Strip = 6 }), nil, Cut{}},
		{"centre joint 5: must be a joint of the 4", with(round, func(p *pattern.Product) { p.Centre.Joint = 5 }), nil, Cut{}},
		{"centre: must be panel, one strip", with(round, func(p *pattern.Product) { p.Centre = pattern.Centre{Strip: 1, Joint: 1} }), nil, Cut{}},
		{"bevel: 50 mm: must be 0 to less than half", with(round, func(p *pattern.Product) { p.Bevel = 50 * mm }), nil, Cut{}},
		{"bevel_side: bevel side(7): must be", with(round, func(p *pattern.Product) { p.BevelSide = 7 }), nil, Cut{}},
		{"holes: a round has no holes", with(round, func(p *pattern.Product) { p.Holes = 1 }), nil, Cut{}},
		{"holes: -1 of 20 mm: must fit the length", with(block, func(p *pattern.Product) { p.Holes, p.Hole, p.HoleDepth = -1, 20*mm, mm }), nil, Cut{}},
		{"hole: 70 mm: must be above 0, up to the width of 60 mm", with(block, func(p *pattern.Product) { p.Holes, p.Hole, p.HoleDepth = 2, 70*mm, mm }), nil, Cut{}},
		{"avoid 1: radius -1 mm", nil, []pattern.Avoid{{Radius: -mm}}, Cut{}},
		{"avoid 2: -1 mm along", nil, []pattern.Avoid{{}, {Along: -mm}}, Cut{}},
		{"gap -1 mm: must be", nil, nil, Cut{Gap: -mm}},
	} {
		err := Check(p, c.products, c.avoids, c.cut)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, want %q", err, c.says)
		}
		if _, lay := Lay(p, 0, c.products, c.avoids, c.cut); lay == nil {
			t.Errorf("laid in spite of %v", err)
		}
	}
	if err := Check(p, []pattern.Product{round, block, {Shape: Round, Diameter: 50 * mm}}, []pattern.Avoid{knot(30*mm, 40*mm, 5*mm)}, habits()); err != nil {
		t.Error(err)
	}
}
