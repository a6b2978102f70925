package outline

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Two knots with one place between them, to the nanometre; a knot that touches the
// rectangle's edge takes nothing, one a nanometre nearer takes the first place.
func TestKnotsExactly(t *testing.T) {
	p, cut := panel(500*mm, 54*mm, 2), habits()
	cut.EndMargin = 0
	rectangle := []pattern.Product{{Shape: Rectangle, Length: 100 * mm, Width: 50 * mm, Count: 1}}
	for _, c := range []struct {
		name   string
		avoids []pattern.Avoid
		from   length.Length
	}{
		{"none", nil, 0},
		// Blocked from below 0 to 70 and from 70 to 190.
		{"one place between", []pattern.Avoid{knot(60*mm, 27*mm, 10*mm), knot(180*mm, 27*mm, 10*mm)}, 70 * mm},
		{"a nanometre closer", []pattern.Avoid{knot(60*mm, 27*mm, 10*mm), knot(180*mm-1, 27*mm, 10*mm)}, 190*mm - 1},
		{"touches an edge", []pattern.Avoid{knot(50*mm, 62*mm, 10*mm)}, 0},
		// Root of 10 000 000^2 - 9 999 999^2 is 4472.1: 50 + 0.004473 past the end.
		{"a nanometre in", []pattern.Avoid{knot(50*mm, 62*mm-1, 10*mm)}, 50*mm + 4473},
		{"touches an end", []pattern.Avoid{knot(110*mm, 27*mm, 10*mm)}, 0},
		{"a nanometre into an end", []pattern.Avoid{knot(110*mm-1, 27*mm, 10*mm)}, 120*mm - 1},
	} {
		layout, err := Lay(p, 0, rectangle, c.avoids, cut)
		if err != nil {
			t.Fatal(err)
		}
		if at := layout.Placed[0]; at.From != c.from || at.BindingStrip != map[bool]int{true: 1}[c.from == 0] {
			t.Errorf("%s: at %v bound by strip %d, want %v", c.name, at.From, at.BindingStrip, c.from)
		}
	}
}

// Of 105 staggered rounds on a panel 30 longer than they need each may slide by 30,
// those in the shifted rows too, which the later ones beside them hold.
func TestStaggeredSlide(t *testing.T) {
	layout := lay(t, panel(1030*mm, 1000*mm, 10), Cut{}, pattern.Product{Shape: Round, Diameter: 100 * mm})
	if len(layout.Placed) != 105 {
		t.Fatalf("%d rounds, want 105", len(layout.Placed))
	}
	for _, p := range layout.Placed {
		if p.Slide != 30*mm {
			t.Errorf("copy %d in row %d slides by %v", p.Copy, p.Row, p.Slide)
		}
	}
}

// A strip that begins beyond the band bounds what is left.
func TestLeftBeginsWhereAllStripsDo(t *testing.T) {
	p := panel(500*mm, 300*mm, 5)
	p.Strips[4].Start, p.Strips[4].Length = 400*mm, 90*mm
	layout := lay(t, p, habits(), pattern.Product{Shape: Rectangle, Length: 100 * mm, Width: 160 * mm, Count: 1, Centre: pattern.Centre{Strip: 2}})
	if want := (Left{From: 400 * mm, Length: 90 * mm, Width: 300 * mm}); layout.Left != want {
		t.Errorf("left %+v, want %+v", layout.Left, want)
	}
}

// A round of 80 fits a panel of 100 by 100 but for a knot in its middle: that is said,
// and not that the panel is too short.
func TestKnotInTheWay(t *testing.T) {
	p := panel(100*mm, 100*mm, 4)
	round := pattern.Product{Shape: Round, Diameter: 80 * mm, Count: 1}
	for _, c := range []struct {
		avoids  []pattern.Avoid
		long    length.Length
		avoided bool
		missing int
	}{
		{nil, 100 * mm, false, 0},
		{[]pattern.Avoid{knot(50*mm, 50*mm, 4*mm)}, 100 * mm, true, 1},
		{nil, 60 * mm, false, 1},
		{[]pattern.Avoid{knot(30*mm, 50*mm, 4*mm)}, 60 * mm, false, 1},
	} {
		p.Panel.Length = c.long
		layout, err := Lay(p, 0, []pattern.Product{round}, c.avoids, habits())
		if err != nil {
			t.Fatal(err)
		}
		if n := len(layout.NotPlaced); n != c.missing || n > 0 && layout.NotPlaced[0].Avoided != c.avoided {
			t.Errorf("with %v in %v: %+v", c.avoids, c.long, layout.NotPlaced)
		}
	}
}

// Of 100 products of 10,000 copies each, which have room on a panel of 20 m by 2 m, as
// many are placed as one panel may have, and the others are said not to be.
func TestMostPlaced(t *testing.T) {
	p := panel(20*length.Metre, 2*length.Metre, 1)
	products := make([]pattern.Product, 100)
	for i := range products {
		products[i] = pattern.Product{Shape: Round, Diameter: length.Millimetre, Count: MaxCopies}
	}
	l, err := Lay(p, 0, products, nil, Cut{})
	if err != nil {
		t.Fatal(err)
	}
	missing := 0
	for _, n := range l.NotPlaced {
		if !n.Full {
			t.Errorf("of product %d %d are not placed, and not for the limit", n.Product, n.Copies)
		}
		missing += n.Copies
	}
	if len(l.Placed) != MaxPlaced || missing != 100*MaxCopies-MaxPlaced || l.Full != 1 {
		t.Errorf("%d placed, %d not, full at product %d", len(l.Placed), missing, l.Full)
	}
	// As many as fit are no more either, and those that are placed before are counted.
	l, err = Lay(p, 0, []pattern.Product{{Shape: Round, Diameter: length.Millimetre, Count: MaxPlaced - 3}, {Shape: Round, Diameter: length.Millimetre}}, nil, Cut{})
	if err != nil || len(l.Placed) != MaxPlaced || l.Full != 2 || len(l.NotPlaced) != 0 {
		t.Errorf("%v: %d placed, %v not, full at product %d", err, len(l.Placed), l.NotPlaced, l.Full)
	}
	// So many and no more are all placed.
	l, err = Lay(p, 0, []pattern.Product{{Shape: Round, Diameter: length.Millimetre, Count: MaxPlaced}}, nil, Cut{})
	if err != nil || len(l.Placed) != MaxPlaced || l.Full != 0 {
		t.Errorf("%v: %d placed, full at product %d", err, len(l.Placed), l.Full)
	}
	// Holes count too: 4 blocks of 2500 have 10,000 of them.
	drilled := pattern.Product{Shape: Block, Length: 19 * length.Metre, Width: 20 * mm, Hole: mm, Holes: 2500, HoleDepth: 5 * mm, Count: 6}
	if l, err = Lay(p, 0, []pattern.Product{drilled}, nil, Cut{}); err != nil || len(l.Placed) != 4 || len(l.NotPlaced) != 1 || !l.NotPlaced[0].Full {
		t.Errorf("%v: %d blocks placed, not placed %v", err, len(l.Placed), l.NotPlaced)
	}
}
