package edit_test

import (
	"slices"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

func round(diameter length.Length, count int) pattern.Product {
	return pattern.Product{Shape: outline.Round, Diameter: diameter, Count: count}
}

func add(p pattern.Product) move {
	return func(s edit.State) (edit.State, error) { return edit.AddProduct(s, p) }
}

func set(i int, p pattern.Product) move {
	return func(s edit.State) (edit.State, error) { return edit.SetProduct(s, i, p) }
}

// nth makes a move on entry i of a list.
func nth(f func(edit.State, int) (edit.State, error), i int) move {
	return func(s edit.State) (edit.State, error) { return f(s, i) }
}

func TestProducts(t *testing.T) {
	s := must(t, four(), add(round(290*mm, 2)), add(round(80*mm, 0)))
	want := []pattern.Product{round(290*mm, 2), round(80*mm, 0)}
	if !slices.Equal(s.Pattern.Products, want) {
		t.Fatalf("%+v", s.Pattern.Products)
	}
	larger := round(300*mm, 1)
	larger.Centre = pattern.Centre{Strip: 4}
	if got := must(t, s, set(0, larger)).Pattern.Products; got[0] != larger || s.Pattern.Products[0] != want[0] {
		t.Errorf("changed to %+v, before %+v", got, s.Pattern.Products)
	}
	swapped := must(t, s, set(1, round(80*mm, 3)), nth(edit.ProductSooner, 1)).Pattern.Products
	if swapped[0] != round(80*mm, 3) || swapped[1] != want[0] {
		t.Errorf("nearer the datum end: %+v", swapped)
	}
	if got := must(t, s, nth(edit.DropProduct, 0)).Pattern.Products; len(got) != 1 || got[0] != want[1] {
		t.Errorf("without the first: %+v", got)
	}
}

func TestProductsRefuse(t *testing.T) {
	listed := must(t, four(), add(round(290*mm, 2)), add(round(80*mm, 0)))
	onStrip := func(c pattern.Centre) pattern.Product {
		p := round(60*mm, 1)
		p.Centre = c
		return p
	}
	most := four()
	most.Pattern.Products = slices.Repeat([]pattern.Product{round(20*mm, 1)}, pattern.MaxProducts)
	checkRefused(t, []refused{
		{"what cannot be", four(), add(pattern.Product{Shape: outline.Round, Count: 1}), "product 1: diameter"},
		{"what has no shape", four(), add(pattern.Product{Count: 1}), "product 1: shape"},
		{"behind one that fills", listed, add(round(20*mm, 1)), "product 2 fills the rows"},
		{"the first fills", listed, set(0, round(20*mm, 0)), "product 1 fills the rows"},
		{"carried before one that fills", listed, nth(edit.ProductSooner, 1), "product 1 fills the rows"},
		{"nearer than the first", listed, nth(edit.ProductSooner, 0), "at the datum end already"},
		{"on strip 5 of 4", four(), add(onStrip(pattern.Centre{Strip: 5})), "the panel has 4 strips"},
		{"on joint 4 of 3", four(), add(onStrip(pattern.Centre{Joint: 4})), "the panel has 3 joints"},
		{"none such", listed, nth(edit.DropProduct, 2), "there is no product 3; listed so far: 2"},
		{"none such to change", listed, set(-1, round(20*mm, 1)), "there is no product 0"},
		{"too many", most, add(round(20*mm, 1)), "a pattern lists 100 at most"},
	})
}

// A centre whose strip has gone since does not keep other products from being changed.
func TestLostCentreIsNoBar(t *testing.T) {
	p := round(60*mm, 1)
	p.Centre = pattern.Centre{Strip: 4}
	s := must(t, four(), add(p), edit.LayAside)
	if got := must(t, s, add(round(20*mm, 1))).Pattern.Products; len(got) != 2 {
		t.Errorf("%+v", got)
	}
}

func avoid(f func(edit.State, int, pattern.Avoid) (edit.State, error), i int, a pattern.Avoid) move {
	return func(s edit.State) (edit.State, error) { return f(s, i, a) }
}

func mark(a pattern.Avoid) move {
	return func(s edit.State) (edit.State, error) { return edit.AddAvoid(s, a) }
}

func TestKnots(t *testing.T) {
	one, two := pattern.Avoid{Along: 210 * mm, Across: 96 * mm, Radius: 8 * mm}, pattern.Avoid{Along: 20 * mm, Across: 30 * mm}
	s := must(t, four(), mark(one), mark(two))
	if got := s.Pattern.Avoids; !slices.Equal(got, []pattern.Avoid{one, two}) {
		t.Fatalf("%+v", got)
	}
	if got := must(t, s, nth(edit.DropAvoid, 0)).Pattern.Avoids; !slices.Equal(got, []pattern.Avoid{two}) {
		t.Errorf("without the first: %+v", got)
	}
	if got := must(t, s, avoid(edit.SetAvoid, 1, one)).Pattern.Avoids; !slices.Equal(got, []pattern.Avoid{one, one}) {
		t.Errorf("the second changed: %+v", got)
	}
	many := four()
	many.Pattern.Avoids = make([]pattern.Avoid, pattern.MaxAvoids)
	checkRefused(t, []refused{
		{"before the panel", s, mark(pattern.Avoid{Along: -1}), "knot, along"},
		{"beside it", s, mark(pattern.Avoid{Across: -1}), "knot, across"},
		{"too large", s, mark(pattern.Avoid{Radius: pattern.MaxRadius + 1}), "knot, radius"},
		{"none such", s, nth(edit.DropAvoid, 2), "there is no knot 3; marked so far: 2"},
		{"none such to change", s, avoid(edit.SetAvoid, -1, one), "there is no knot 0"},
		{"too many", many, mark(one), "1000 at most"},
	})
}

func lays(list ...edit.Laid) move {
	return func(s edit.State) (edit.State, error) {
		return edit.ByID()["short-ends"].Do(s, edit.Args{Laid: list})
	}
}

// One move lays several strips as a plan has them, and one undo brings them back.
func TestLaid(t *testing.T) {
	s := four()
	s.Pattern.Strips[1].Length = 300 * mm
	h := edit.NewHistory(s)
	apart := pattern.JointsOf(pattern.Joint{From: 140 * mm, To: 150 * mm})
	next := must(t, s, lays(edit.Laid{Strip: 1, Start: 40 * mm, Length: 200 * mm}, edit.Laid{Strip: 2, Length: 300 * mm, Joints: apart}))
	if a, b := next.Pattern.Strips[0], next.Pattern.Strips[1]; a.Start != 40*mm || a.Length != 200*mm || b.Length != 300*mm || b.Joints != apart {
		t.Errorf("%+v, %+v", a, b)
	}
	h = h.Do("short ends", next)
	if back, label, ok := h.Undo(); !ok || label != "short ends" || !back.Now().Alike(s) {
		t.Errorf("undone %q: %+v", label, back.Now())
	}
	checkRefused(t, []refused{
		{"a joint outside", s, lays(edit.Laid{Strip: 2, Start: 145 * mm, Length: 300 * mm, Joints: apart}), "inside the strip"},
		{"no such strip", s, lays(edit.Laid{Strip: 5, Length: 1}), "there is no strip 5"},
		{"nothing", s, lays(), "no strip draws less"},
		{"none", s, lays(edit.Laid{Strip: 0, Length: 1}), "there is no strip 0"},
		{"a start too far", s, lays(edit.Laid{Strip: 2, Start: pattern.MaxStart + 1, Length: 1}), "start"},
	})
}

func written(m pattern.Made) move {
	return func(s edit.State) (edit.State, error) { return edit.AddMade(s, m) }
}

func TestMade(t *testing.T) {
	day := pattern.Date{Year: 2026, Month: time.November, Day: 25}
	one := pattern.Made{Date: day, Copies: 4, Width: 299500 * length.Micrometre, Minutes: 310, Note: "oiled twice"}
	two := pattern.Made{Date: day, Copies: 1}
	s := must(t, four(), written(one), written(two))
	if got := s.Pattern.Made; !slices.Equal(got, []pattern.Made{one, two}) {
		t.Fatalf("%+v", got)
	}
	if got := must(t, s, nth(edit.DropMade, 0)).Pattern.Made; !slices.Equal(got, []pattern.Made{two}) {
		t.Errorf("%+v", got)
	}
	change := func(s edit.State) (edit.State, error) { return edit.SetMade(s, 1, one) }
	if got := must(t, s, change).Pattern.Made; !slices.Equal(got, []pattern.Made{one, one}) || s.Pattern.Made[1] != two {
		t.Errorf("%+v, before %+v", got, s.Pattern.Made)
	}
	with := func(f func(*pattern.Made)) move {
		m := one
		f(&m)
		return written(m)
	}
	checkRefused(t, []refused{
		{"no day", s, with(func(m *pattern.Made) { m.Date.Month = 13 }), "a day of the calendar"},
		{"no copy", s, with(func(m *pattern.Made) { m.Copies = 0 }), "must be 1 to 10000"},
		{"years", s, with(func(m *pattern.Made) { m.Minutes = pattern.MaxMinutes + 1 }), "minutes"},
		{"wide", s, with(func(m *pattern.Made) { m.Width = -1 }), "width"},
		{"thick", s, with(func(m *pattern.Made) { m.Thickness = pattern.MaxAcross + 1 }), "thickness"},
		{"two lines", s, with(func(m *pattern.Made) { m.Note = "a\nb" }), "note"},
		{"none such", s, nth(edit.DropMade, 2), "there is no batch 3; written down so far: 2"},
		{"wrong change", s, func(s edit.State) (edit.State, error) { return edit.SetMade(s, 0, pattern.Made{}) }, "a day of the calendar"},
	})
}
