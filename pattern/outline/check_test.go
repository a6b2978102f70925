package outline

import (
	"strings"
	"testing"
)

func TestCheckRefuses(t *testing.T) {
	p := panel(500*mm, 300*mm, 5)
	round, block := Product{Diameter: 100 * mm, Count: 1}, Product{Shape: Block, Length: 200 * mm, Width: 60 * mm, Count: 1}
	with := func(p Product, change func(*Product)) []Product { change(&p); return []Product{p} }
	for _, c := range []struct {
		says     string
		products []Product
		avoids   []Avoid
		cut      Cut
	}{
		{"product 1: count 0: must be 1 or more", []Product{{Diameter: 100 * mm}, round}, nil, Cut{}},
		{"product 1: 0 mm across: must be 1 mm", []Product{{}}, nil, Cut{}},
		{"product 1: length 0 mm: must be 1 mm", []Product{{Shape: Rectangle, Width: 50 * mm}}, nil, Cut{}},
		{"shape(9): must be", with(round, func(p *Product) { p.Shape = 9 }), nil, Cut{}},
		{"count -1: must be", with(round, func(p *Product) { p.Count = -1 }), nil, Cut{}},
		{"centre strip 6: must be a strip of the 5", with(round, func(p *Product) { p.Centre.Strip = 6 }), nil, Cut{}},
		{"centre joint 5: must be a joint of the 4", with(round, func(p *Product) { p.Centre.Joint = 5 }), nil, Cut{}},
		{"centre: must be panel, one strip", with(round, func(p *Product) { p.Centre = Centre{1, 1} }), nil, Cut{}},
		{"bevel 50 mm: must be 0 to less than half", with(round, func(p *Product) { p.Bevel = 50 * mm }), nil, Cut{}},
		{"bevel side(7): must be", with(round, func(p *Product) { p.BevelSide = 7 }), nil, Cut{}},
		{"holes in a round", with(round, func(p *Product) { p.Holes = 1 }), nil, Cut{}},
		{"must be 0 or more", with(block, func(p *Product) { p.Holes = -1 }), nil, Cut{}},
		{"3 holes of 70 mm: must lie within", with(block, func(p *Product) { p.Holes, p.Hole = 3, 70*mm }), nil, Cut{}},
		{"avoid 1: radius -1 mm", nil, []Avoid{{Radius: -mm}}, Cut{}},
		{"avoid 2: -1 mm along", nil, []Avoid{{}, {Along: -mm}}, Cut{}},
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
	if err := Check(p, []Product{round, block, {Diameter: 50 * mm}}, []Avoid{{30 * mm, 40 * mm, 5 * mm}}, Default()); err != nil {
		t.Error(err)
	}
}

func TestWords(t *testing.T) {
	for _, s := range Shapes() {
		if back, err := ParseShape(s.String()); err != nil || back != s {
			t.Errorf("%v reads back as %v, %v", s, back, err)
		}
	}
	for _, s := range BevelSides() {
		if back, err := ParseBevelSide(s.String()); err != nil || back != s {
			t.Errorf("%v reads back as %v, %v", s, back, err)
		}
	}
	for _, word := range []string{"", "oval", "strip", "strip 0", "strip -1", "joint x", "panel 1", "strip 1 2"} {
		if _, err := ParseShape(word); err == nil {
			t.Errorf("shape %q was read", word)
		}
		if _, err := ParseBevelSide(word); err == nil {
			t.Errorf("bevel side %q was read", word)
		}
		if c, err := ParseCentre(word); err == nil {
			t.Errorf("centre %q was read as %v", word, c)
		}
	}
}
