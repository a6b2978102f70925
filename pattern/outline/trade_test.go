package outline

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

const mm = length.Millimetre

// panel returns n alike strips in a panel so long and wide, without allowance.
func panel(long, wide length.Length, n int) pattern.Pattern {
	p := pattern.Pattern{Panel: pattern.Panel{Length: long, Thickness: 22 * mm}}
	for _, w := range wide.Split(n) {
		p.Strips = append(p.Strips, pattern.Strip{Species: "hard_maple", Width: w})
	}
	return p
}

// habits are the cutting habits of a workshop without a shop file; package work holds
// them to these.
func habits() Cut {
	return Cut{EndMargin: 5 * mm, SideMargin: 2 * mm, Gap: 16 * mm, Cutter: 12 * mm, Bush: 30 * mm, Pass: 3 * mm, Base: 1 * mm}
}

func knot(along, across, radius length.Length) pattern.Avoid {
	return pattern.Avoid{Along: along, Across: across, Radius: radius}
}

func lay(t testing.TB, p pattern.Pattern, cut Cut, products ...pattern.Product) Layout {
	t.Helper()
	layout, err := Lay(p, 0, products, nil, cut)
	if err != nil {
		t.Fatal(err)
	}
	return layout
}

// A round of 320 whose centre lies on the strip that binds it needs its centre half
// its diameter and the end margin from that strip's end, and two side margins more
// than its diameter across: common practice, no source. Makers mark it at 162 to 163,
// with an end margin of 2 or 3.
func TestLargeRound(t *testing.T) {
	round := pattern.Product{Shape: Round, Diameter: 320 * mm, Count: 1}
	for _, c := range []struct {
		name                string
		wide, margin, along length.Length
		placed              int
	}{
		{"the default margin", 325 * mm, 5 * mm, 165 * mm, 1},
		{"marked at 162", 325 * mm, 2 * mm, 162 * mm, 1},
		{"marked at 163", 325 * mm, 3 * mm, 163 * mm, 1},
		{"the margins exactly", 324 * mm, 5 * mm, 165 * mm, 1},
		{"a nanometre too narrow", 324*mm - 1, 5 * mm, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := panel(800*mm, c.wide, 13)
			for i := range p.Strips {
				if i != 6 { // strip 7 is the short one, under the middle
					p.Strips[i].Length, p.Strips[i].Start = 900*mm, 0
				} else {
					p.Strips[i].Start, p.Strips[i].Length = 40*mm, 760*mm
				}
			}
			cut := habits()
			cut.EndMargin = c.margin
			got := lay(t, p, cut, round)
			if len(got.Placed) != c.placed {
				t.Fatalf("%d placed, want %d", len(got.Placed), c.placed)
			}
			if c.placed == 0 {
				if n := got.NotPlaced; len(n) != 1 || n[0].Copies != 1 || n[0].TooNarrow != 1 || n[0].TooShort != 0 {
					t.Errorf("not placed %+v, want one, a nanometre too narrow", n)
				}
				return
			}
			if at := got.Placed[0]; at.Along-40*mm != c.along || at.BindingStrip != 7 || at.Across != c.wide/2 {
				t.Errorf("stands at %v from strip 7's end, across %v, bound by strip %d", at.Along-40*mm, at.Across, at.BindingStrip)
			}
		})
	}
}

// A panel of 800 gives two rounds of 320 (common practice, no source): 5 + 320 + 16 +
// 320 + 5 = 666, so each may slide by 134.
func TestTwoRounds(t *testing.T) {
	got := lay(t, panel(800*mm, 325*mm, 13), habits(), pattern.Product{Shape: Round, Diameter: 320 * mm})
	if len(got.Placed) != 2 {
		t.Fatalf("%d rounds, want 2", len(got.Placed))
	}
	for i, along := range []length.Length{165 * mm, 501 * mm} {
		p := got.Placed[i]
		if p.Along != along || p.Slide != 134*mm || p.Copy != i+1 {
			t.Errorf("round %d: copy %d at %v, slide %v", i+1, p.Copy, p.Along, p.Slide)
		}
	}
	if one, two := got.Placed[0].BindingStrip, got.Placed[1].BindingStrip; one != 7 || two != 0 {
		t.Errorf("bound by strips %d and %d, want 7 and none", one, two)
	}
	if want := (Left{From: 661 * mm, Length: 139 * mm, Width: 325 * mm}); got.Left != want {
		t.Errorf("left %+v, want %+v", got.Left, want)
	}
	if n := len(got.NotPlaced); n != 0 {
		t.Errorf("%d not placed where the rows were to be filled", n)
	}
}

// Worked examples of rows and staggered rows: common practice, no source; counted by
// floor((L - 2 m + g)/(D + g)) a row and, staggered, rows half the root of 3 apart.
func TestRowsAgainstStaggered(t *testing.T) {
	for _, c := range []struct {
		name                          string
		long, wide, across, gap, side length.Length
		straight, staggered           int
	}{
		{"30 against 29 on a small panel", 1200 * mm, 400 * mm, 100 * mm, 14 * mm, 10 * mm, 30, 29},
		{"100 against 105 on a large one", 1000 * mm, 1000 * mm, 100 * mm, 0, 0, 100, 105},
		{"large rounds in one row", 1000 * mm, 320 * mm, 280 * mm, 14 * mm, 10 * mm, 3, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			cut := Cut{EndMargin: c.side, SideMargin: c.side, Gap: c.gap}
			p, round := panel(c.long, c.wide, 10), pattern.Product{Shape: Round, Diameter: c.across}
			f := newFrame(p, 0, nil, cut)
			straight := f.straight(round)
			staggered, _ := f.staggered(round)
			straight.fill(MaxCopies, -far)
			staggered.fill(MaxCopies, -far)
			if len(straight.places) != c.straight || len(staggered.places) != c.staggered {
				t.Errorf("%d straight and %d staggered, want %d and %d",
					len(straight.places), len(staggered.places), c.straight, c.staggered)
			}
			got := lay(t, p, cut, round)
			if want := max(c.straight, c.staggered); len(got.Placed) != want || got.Bands[0].Staggered != (c.staggered > c.straight) {
				t.Errorf("%d placed, staggered %v", len(got.Placed), got.Bands[0].Staggered)
			}
			p.Strips[0].Start = 1
			if ragged := lay(t, p, cut, round); ragged.Bands[0].Staggered {
				t.Error("staggered rows on a ragged panel")
			}
		})
	}
	// Enough straight places for the count: they are easier to cut.
	if got := lay(t, panel(1000*mm, 1000*mm, 10), Cut{}, pattern.Product{Shape: Round, Diameter: 100 * mm, Count: 100}); got.Bands[0].Staggered {
		t.Error("100 asked for stand in straight rows, yet they are staggered")
	}
}

// Yield of the large rounds: 3 discs of 280 out of 1000 x 320 are 57.7 percent (worked
// example, arithmetic).
func TestYield(t *testing.T) {
	cut := Cut{EndMargin: 10 * mm, SideMargin: 10 * mm, Gap: 14 * mm}
	n := len(lay(t, panel(1000*mm, 320*mm, 8), cut, pattern.Product{Shape: Round, Diameter: 280 * mm}).Placed)
	if yield := float64(n) * 3.14159265 * 140 * 140 / (1000 * 320); yield < 0.5765 || yield > 0.5775 {
		t.Errorf("yield %.4f, want 0.577", yield)
	}
}

// A round on a ragged panel, by hand: strips of 60, radius 100 about the middle of
// strip 3 of 5. Strip 3 takes 100, strips 2 and 4 begin 30 off: root of 9100 is
// 95.394, strips 1 and 5 begin 90 off: root of 1900 is 43.589.
func TestOneRowOnARaggedPanel(t *testing.T) {
	p := panel(500*mm, 300*mm, 5)
	p.Strips[4].Start, p.Strips[4].Length = 100*mm, 400*mm
	cut := habits()
	got := lay(t, p, cut, pattern.Product{Shape: Round, Diameter: 200 * mm, Count: 1, Centre: pattern.Centre{Strip: 3}}).Placed[0]
	// Strip 5 binds: 100 + 43.588989... + 5, rounded up to the nanometre.
	if got.Along != 148_588_990 || got.BindingStrip != 5 {
		t.Errorf("stands at %v, bound by strip %d", got.Along, got.BindingStrip)
	}
	if want := 500*mm - 100*mm - 5*mm - 148_588_990; got.Slide != want {
		t.Errorf("slide %v, want %v", got.Slide, want)
	}
}

func TestOwnLengthsByHand(t *testing.T) {
	p := panel(500*mm, 300*mm, 5)
	layout := lay(t, p, habits(), pattern.Product{Shape: Round, Diameter: 200 * mm, Count: 1, Centre: pattern.Centre{Strip: 3}})
	// The centre stands at 105; the half chords are those of the test above.
	want := []OwnLength{
		{1, 56_411_010, 97_177_980}, {2, 4_606_079, 200_787_842}, {3, 0, 210 * mm}, {4, 4_606_079, 200_787_842}, {5, 56_411_010, 97_177_980},
	}
	for i, own := range layout.OwnLengths {
		if own != want[i] {
			t.Errorf("%+v, want %+v", own, want[i])
		}
	}
}

// An odd number of nanometres has no middle on the grid, and still fits exactly.
func TestOddSizesFitExactly(t *testing.T) {
	d := 11*length.Inch + length.Inch/64 // 279,796,875 nm
	if d%2 == 0 {
		t.Fatal("the case is not odd")
	}
	cut := habits()
	p := panel(d+2*cut.EndMargin, d+2*cut.SideMargin, 1)
	for _, product := range []pattern.Product{{Shape: Round, Diameter: d, Count: 1}, {Shape: Rectangle, Length: d, Width: d, Count: 1}} {
		got := lay(t, p, cut, product)
		if len(got.Placed) != 1 || got.Placed[0].From != cut.EndMargin || got.Placed[0].Side != cut.SideMargin || got.Placed[0].Slide != 0 {
			t.Errorf("%v: %+v", product.Shape, got.Placed)
		}
		product.Count = 2
		if got := lay(t, p, cut, product); len(got.NotPlaced) != 1 || got.NotPlaced[0].Copies != 1 || got.NotPlaced[0].TooShort != d+cut.Gap {
			t.Errorf("%v: the second: %+v", product.Shape, got.NotPlaced)
		}
	}
}

func TestCentres(t *testing.T) {
	p := panel(1000*mm, 300*mm, 6)
	for _, c := range []struct {
		name   string
		centre pattern.Centre
		across length.Length // of the products
		first  length.Length // row that holds, its centre
		rows   int
	}{
		{"panel", pattern.Centre{}, 200 * mm, 150 * mm, 1},
		{"strip", pattern.Centre{Strip: 3}, 200 * mm, 125 * mm, 1},
		{"joint", pattern.Centre{Joint: 4}, 180 * mm, 200 * mm, 1},
		{"an even number has no middle row", pattern.Centre{Strip: 3}, 100 * mm, 92 * mm, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := lay(t, p, habits(), pattern.Product{Shape: Rectangle, Length: 50 * mm, Width: c.across, Count: 1, Centre: c.centre})
			if got.Placed[0].Across != c.first || got.Bands[0].Rows != c.rows {
				t.Errorf("centre at %v in %d rows, want %v in %d", got.Placed[0].Across, got.Bands[0].Rows, c.first, c.rows)
			}
			back, err := pattern.ParseCentre(c.centre.String())
			if err != nil || back != c.centre {
				t.Errorf("%v reads back as %v, %v", c.centre, back, err)
			}
		})
	}
	// Strip 1's middle lies 25 from edge A: a round of 200 about it is 77 off the panel.
	got := lay(t, p, habits(), pattern.Product{Shape: Round, Diameter: 200 * mm, Count: 1, Centre: pattern.Centre{Strip: 1}})
	if len(got.Placed) != 0 || got.NotPlaced[0].TooNarrow != 77*mm {
		t.Errorf("%+v", got)
	}
}

// Two rows, two copies a row: the earliest places of all rows, the lowest first.
func TestCopiesAreNumberedByPlace(t *testing.T) {
	p := panel(500*mm, 220*mm, 4)
	p.Strips[0].Start, p.Strips[0].Length = 30*mm, 470*mm
	got := lay(t, p, habits(), pattern.Product{Shape: Rectangle, Length: 200 * mm, Width: 90 * mm, Count: 3},
		pattern.Product{Shape: Block, Length: 50 * mm, Width: 40 * mm, Hole: 20 * mm, Holes: 1, HoleDepth: 10 * mm})
	want := []Placed{
		{Product: 1, Copy: 1, Row: 2, Shape: Rectangle, Along: 105 * mm, Across: 163 * mm, From: 5 * mm, Side: 118 * mm, BindingStrip: 3},
		{Product: 1, Copy: 2, Row: 1, Shape: Rectangle, Along: 135 * mm, Across: 57 * mm, From: 35 * mm, Side: 12 * mm, Slide: 186 * mm, BindingStrip: 1},
		{Product: 1, Copy: 3, Row: 2, Shape: Rectangle, Along: 321 * mm, Across: 163 * mm, From: 221 * mm, Side: 118 * mm},
	}
	for i, w := range want {
		if got.Placed[i] != w {
			t.Errorf("copy %d: %+v, want %+v", i+1, got.Placed[i], w)
		}
	}
	// The band ends at 421, and may not slide into the blocks behind 437, four rows of
	// them.
	block := got.Placed[3]
	if block.From != 437*mm || block.BindingStrip != 0 || block.Slide != 8*mm || got.Bands[1].Rows != 4 || len(got.Placed) != 7 {
		t.Errorf("block %+v in %+v, %d placed", block, got.Bands, len(got.Placed))
	}
}

func TestStillOut(t *testing.T) {
	p := panel(600*mm, 220*mm, 4)
	products := []pattern.Product{{Shape: Round, Diameter: 200 * mm, Count: 2}, {Shape: Rectangle, Length: 90 * mm, Width: 90 * mm, Count: 1}}
	products[1].Count = 0
	layout := lay(t, p, habits(), products[:1]...)
	// 421 + 16 to 595: room for 158, one rectangle in each of two rows and no round.
	got := RemainingCopies(p, 0, products, nil, habits(), layout)
	if len(got) != 2 || got[0] != (Remaining{1, 0}) || got[1] != (Remaining{2, 2}) {
		t.Errorf("still out %+v", got)
	}
	// Nothing laid: the whole panel is left.
	if got := RemainingCopies(p, 0, products, nil, habits(), Layout{}); got[0].Copies != 2 {
		t.Errorf("still out of the whole panel %+v", got)
	}
}

func TestDraft(t *testing.T) {
	layout, err := Lay(pattern.Pattern{}, 0, []pattern.Product{{Shape: Round, Diameter: 100 * mm, Count: 1}}, nil, habits())
	if err != nil || len(layout.Placed) != 0 || len(layout.NotPlaced) != 1 || layout.Left != (Left{}) {
		t.Errorf("%+v, %v", layout, err)
	}
}
