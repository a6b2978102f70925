package suggest

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

func strips(codes string) []pattern.Strip {
	keys := map[rune]string{'w': "black_walnut", 'm': "hard_maple", 's': "sapele"}
	var out []pattern.Strip
	for _, c := range codes {
		out = append(out, pattern.Strip{Species: keys[c], Width: 20 * mm})
	}
	return out
}

// Rows that differ, worked out by hand.
func TestCompare(t *testing.T) {
	wide := strips("wm")
	wide[1].Width = 21 * mm
	flat, quarter, unknown := strips("w"), strips("w"), strips("w")
	flat[0].Rings, quarter[0].Rings = pattern.RingsFlat(), pattern.RingsQuarter()
	for _, c := range []struct {
		name     string
		was, now []pattern.Strip
		want     []Change
	}{
		{"alike", strips("wms"), strips("wms"), nil},
		{"one other", strips("wms"), strips("wmm"), []Change{{3, 3}}},
		{"one more", strips("wms"), strips("wmws"), []Change{{0, 3}}},
		{"one gone at the edge", strips("wms"), strips("ms"), []Change{{1, 0}}},
		{"shifted by one", strips("wmsmw"), strips("mwmsmw"), []Change{{0, 1}}},
		{"another width", strips("wm"), wide, []Change{{2, 2}}},
		{"other rings", flat, quarter, []Change{{1, 1}}},
		{"rings nobody knows", flat, unknown, nil},
		{"from nothing", nil, strips("wm"), []Change{{0, 1}, {0, 2}}},
	} {
		if got := Compare(c.was, c.now); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// What is not named as changed is alike, strip by strip, and there are never more
// changes than in comparing place by place.
func TestCompareIsWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	for range 500 {
		row := func() []pattern.Strip {
			var codes []rune
			for range rng.IntN(9) {
				codes = append(codes, []rune("wms")[rng.IntN(3)])
			}
			return strips(string(codes))
		}
		was, now := row(), row()
		changes := Compare(was, now)
		placed := max(len(was), len(now))
		for i := range min(len(was), len(now)) {
			if alike(was[i], now[i]) {
				placed--
			}
		}
		if len(changes) > placed {
			t.Fatalf("%v to %v: %d changes, place by place %d", was, now, len(changes), placed)
		}
		var left, right []pattern.Strip
		for i, s := range was {
			if !slices.ContainsFunc(changes, func(c Change) bool { return c.Was == i+1 }) {
				left = append(left, s)
			}
		}
		for j, s := range now {
			if !slices.ContainsFunc(changes, func(c Change) bool { return c.Now == j+1 }) {
				right = append(right, s)
			}
		}
		if !slices.Equal(left, right) {
			t.Fatalf("%v to %v by %v: %v stay of one and %v of the other", was, now, changes, left, right)
		}
	}
}

// Taking a layout changes the strips and nothing else; those that stay where they are
// keep their own length and their pin.
func TestTake(t *testing.T) {
	p := pattern.Pattern{Name: "n", Notes: "x", Panel: pattern.Panel{Length: 300 * mm, Thickness: 20 * mm, Width: 60 * mm},
		Products: []pattern.Product{{}}, Strips: strips("wms")}
	p.Strips[1].Pinned, p.Strips[1].Length, p.Strips[1].Turned = true, 250*mm, true
	p.Strips[2].Length = 240 * mm
	before := slices.Clone(p.Strips)
	var l Layout
	for _, s := range strips("smww") {
		l.Strips = append(l.Strips, Placed{Species: s.Species, Width: s.Width})
	}
	l.Strips[3].Pinned = true
	got := New(80*mm, 20*mm, 300*mm).Take(p, l)
	if got.Name != p.Name || got.Notes != p.Notes || got.Panel != p.Panel || len(got.Products) != 1 {
		t.Errorf("more than the strips changed: %+v", got)
	}
	if len(got.Strips) != 4 || got.Strips[1] != p.Strips[1] || got.Strips[2].Length != 0 || !got.Strips[3].Pinned || got.Strips[0].Species != "sapele" {
		t.Errorf("strips %+v", got.Strips)
	}
	if !slices.Equal(p.Strips, before) {
		t.Error("the pattern that was handed in has changed")
	}
}

// What a layout is summed up by, counted by hand: three strips of maple, two of walnut,
// of 100 mm 40 use first.
func TestSummary(t *testing.T) {
	a := New(100*mm, 20*mm, 300*mm)
	l := Layout{Width: 100 * mm, UseFirst: 40 * mm}
	for i, s := range strips("mwmwm") {
		l.Strips = append(l.Strips, Placed{Species: s.Species, Width: s.Width, Source: []string{"M-1", "W-1"}[i%2]})
	}
	l.Strips[4].Source = "M-2"
	s := a.Summary(physics(), l)
	if !slices.Equal(s.Timbers, []Amount{{"hard_maple", 3}, {"black_walnut", 2}}) || s.FirstPct != 40 || !s.Mirror {
		t.Errorf("%+v", s)
	}
	if !slices.Equal(s.Needs, []Need{{"M-1", 2}, {"W-1", 2}, {"M-2", 1}}) {
		t.Errorf("needs %+v", s.Needs)
	}
	if len(s.Lines) != 4 || s.Worst.Line < 1 {
		t.Errorf("%d lines, the worst %+v", len(s.Lines), s.Worst)
	}
	for _, line := range s.Lines {
		if line.Level > s.Worst.Level {
			t.Errorf("line %d is %v, the worst is said to be %v", line.Line, line.Level, s.Worst.Level)
		}
	}
	l.Strips[4].Width = 21 * mm
	if a.Summary(physics(), l).Mirror {
		t.Error("with one strip wider it is still a mirror image")
	}
}

// Counted by hand: 20 stands three times, 30 and 25 twice, 15 once; the pinned 40
// comes besides.
func TestUsualWidths(t *testing.T) {
	var p pattern.Pattern
	for _, w := range []length.Length{15, 30, 20, 25, 20, 40, 25, 30, 20} {
		p.Strips = append(p.Strips, pattern.Strip{Species: "sapele", Width: w * mm})
	}
	p.Strips[5].Pinned = true
	ready := rack.Rack{Strips: []rack.Strip{{Width: 33 * mm, Quantity: 1}, {Width: 18 * mm, Quantity: 4}}}
	for _, c := range []struct {
		name string
		p    pattern.Pattern
		r    rack.Rack
		s    shop.Standing
		want []length.Length
	}{
		{"of the pattern", p, ready, shop.Standing{}, []length.Length{20 * mm, 25 * mm, 30 * mm, 40 * mm}},
		{"of a draft: what lies ready, and common ones", pattern.Pattern{}, ready, shop.Standing{}, []length.Length{18 * mm, 20 * mm, 25 * mm, 30 * mm, 33 * mm, 40 * mm}},
		{"of nothing", pattern.Pattern{}, rack.Rack{}, shop.Standing{}, []length.Length{20 * mm, 25 * mm, 30 * mm, 40 * mm}},
		{"what a piece is wide enough for", pattern.Pattern{}, rack.Rack{Pieces: []rack.Piece{{Width: 27 * mm}}}, shop.Standing{}, []length.Length{20 * mm, 25 * mm}},
		{"standing, and of the pinned strip", p, ready, shop.Standing{28 * mm, 17 * mm}, []length.Length{17 * mm, 28 * mm, 40 * mm}},
		{"standing", pattern.Pattern{}, ready, shop.Standing{40 * mm}, []length.Length{40 * mm}},
	} {
		if got := UsualWidths(c.p, c.r, c.s, length.InMM); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	pins := Pins(p)
	if len(pins) != 1 || pins[0].Place != 6 || pins[0].Strip.Width != 40*mm || pins[0].Strip.Pinned {
		t.Errorf("pins %+v", pins)
	}
	if MarkedFirst(ready) || !MarkedFirst(rack.Rack{Pieces: []rack.Piece{{UseFirst: true}}}) {
		t.Error("what is marked use first is not told")
	}
}

// Strips that differ in rings or moisture alone are alike: layouts that differ in no more are no
// two layouts.
func TestRingsAndMoistureMakeNoKind(t *testing.T) {
	strip := func(species string, r pattern.Rings, m float64) Placed {
		return Placed{Species: species, Width: 25 * length.Millimetre, Rings: r, Moisture: pattern.Read(m)}
	}
	a := Layout{Strips: []Placed{strip("sapele", pattern.RingsFlat(), 8), strip("wenge", pattern.RingsFlat(), 8), strip("sapele", pattern.RingsFlat(), 8)}}
	b := Layout{Strips: []Placed{strip("sapele", pattern.RingsQuarter(), 9), strip("wenge", pattern.RingsRift(), 10), strip("sapele", pattern.Rings{}, 11)}}
	if n := Apart(a, b); n != 0 {
		t.Errorf("they differ by %d strips", n)
	}
	b.Strips[1].Species = "hard_maple"
	if n := Apart(a, b); n != 1 {
		t.Errorf("with one of another timber they differ by %d strips", n)
	}
}
