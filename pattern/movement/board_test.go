package movement

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/second/secondtest"
)

// worked reads the worked glue-ups with their patterns.
func worked(t *testing.T) (cases []secondtest.Case, patterns []pattern.Pattern) {
	t.Helper()
	cases, _, err := secondtest.Stored()
	if err != nil || len(cases) < 10 {
		t.Fatalf("%d cases, %v", len(cases), err)
	}
	for _, c := range cases {
		p, err := secondtest.Read(c.TOML)
		if err != nil {
			t.Fatal(err)
		}
		patterns = append(patterns, p)
	}
	return cases, patterns
}

// The figures of the worked glue-ups come of another program of ours.
func TestWorkedBoards(t *testing.T) {
	cases, patterns := worked(t)
	for i, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			f := physics().Of(patterns[i])
			for k, want := range c.Answer.Seasons {
				near1(t, "length change", f.Seasons[k].LengthChangeMM, want.LengthChangeMM, 1e-6)
				near1(t, "width change", f.Seasons[k].WidthChangeMM, want.WidthChangeMM, 1e-6)
				along, across := f.Board.Change(Season(k))
				near1(t, "a round of 100", 100*(across-along), want.Round100MM, 1e-6)
			}
			sameBoard(t, f.Board, c.Answer)
			for k, want := range c.Answer.Timber {
				near1(t, "timber", f.Timber[k].FinishedCM3, want.FinishedCM3, 1e-3)
				near1(t, "mass", f.Timber[k].MassKg, want.MassKg, 1e-6)
			}
		})
	}
}

func sameBoard(t *testing.T, b *Board, want secondtest.Answer) {
	t.Helper()
	near1(t, "bow", b.BowMM, want.Board.BowMM, 1e-6)
	near1(t, "zigzag", b.ZigzagMM, want.Board.ZigzagMM, 1e-6)
	if b.Up().EndGrain != want.Board.EndGrain || b.Rows != (want.Board.AlongPct != nil) || b.RowLevel.String() != want.Board.RowLevel {
		t.Errorf("end grain %v, rows %v at %v", b.Up().EndGrain, b.Rows, b.RowLevel)
	}
	if b.Rows {
		sameRow(t, b.Along, want.Board.AlongPct, want.Board.AlongMostPct, want.Board.AlongFromMM, want.Board.AlongToMM)
		sameRow(t, b.Across, want.Board.AcrossPct, want.Board.AcrossMostPct, want.Board.AcrossFromMM, want.Board.AcrossToMM)
	}
	if len(b.Lines) != len(want.BarLines) {
		t.Fatalf("%d bar lines, want %d", len(b.Lines), len(want.BarLines))
	}
	for i, w := range want.BarLines {
		l := b.Lines[i]
		if l.Second != w.Second || l.Line != w.Line || l.Season.String() != w.Season || l.Level.String() != w.Level ||
			l.Settled != w.Settled || l.Borderline != w.Borderline || !l.Known {
			t.Errorf("%+v, want %+v", l, w)
		}
		near1(t, "cell", l.CellPct, w.CellPct, 1e-6)
		near1(t, "cell scatter", l.CellPM, w.CellPMPct, 1e-6)
		near1(t, "least", l.LeastPct, w.LeastPct, 1e-6)
		near1(t, "most", l.MostPct, w.MostPct, 1e-6)
		near1(t, "slope", l.SlopeDeg, w.SlopeDeg, 1e-6)
		if w.StepUM != nil {
			near1(t, "step", l.StepUM, *w.StepUM, 1e-5)
		} else if l.StepUM != 0 {
			t.Errorf("end grain steps %v", l.StepUM)
		}
	}
}

func sameRow(t *testing.T, r Row, pct, most, from, to *float64) {
	t.Helper()
	near1(t, "row", r.Pct, *pct, 1e-6)
	near1(t, "row at most", r.MostPct, *most, 1e-6)
	near1(t, "row from", r.From.MM(), *from, 1e-6)
	near1(t, "row to", r.To.MM(), *to, 1e-6)
}

// board returns one of the strips with second glue-ups.
func boardOf(strips []pattern.Strip, ups ...pattern.Second) pattern.Pattern {
	p := panelOf(strips...)
	p.Panel.Length, p.Seconds = 900*mm, ups
	return p
}

func of(species string, rings pattern.Rings) pattern.Strip {
	return pattern.Strip{Species: species, Width: 25 * mm, Rings: rings}
}

// By hand: mitred at 45 degrees and mirrored, two timbers meet at their tips, which lean
// by f sin a cos a each way.
func TestChevronByHand(t *testing.T) {
	maple, walnut := of("hard_maple", pattern.RingsFlat()), of("black_walnut", pattern.RingsFlat())
	r := physics()
	f := r.Of(boardOf([]pattern.Strip{maple, walnut, maple, walnut, maple, walnut},
		pattern.Second{Lay: pattern.LayFlat, Bar: 40 * mm, Angle: 45, Over: []bool{false, true}}))
	swing := r.EquilibriumPct(Humid) - 8
	near1(t, "tips", f.Board.Lines[0].CellPct, 100*(0.00353-0.00274)*swing/2, 1e-9)
	near1(t, "zigzag of the timber that moves more", f.Board.ZigzagMM, 40*0.00353*swing, 1e-9)
	if l := f.Board.Lines[0]; !l.Cuts() || l.Butts() || l.Season != Humid {
		t.Errorf("%+v", l)
	}
	// One timber alone lengthens alike along the mitre: nothing strains.
	f = r.Of(boardOf([]pattern.Strip{maple, maple, maple}, pattern.Second{Lay: pattern.LayFlat, Bar: 40 * mm, Angle: 45, Over: []bool{false, true}}))
	near1(t, "one timber", f.Board.Lines[0].CellPct, 0, 1e-9)
}

// Square bars of long grain meet end to end.
func TestEndToEnd(t *testing.T) {
	f := physics().Of(boardOf([]pattern.Strip{of("hard_maple", pattern.RingsFlat())}, pattern.Second{Lay: pattern.LayFlat, Bar: 60 * mm}))
	if l := f.Board.Lines[0]; !l.Butts() || math.Abs(l.SlopeDeg-90) > 1e-9 || f.Board.Rows {
		t.Errorf("%+v", l)
	}
	if along, _ := f.Board.Change(Humid); along != 0 {
		t.Errorf("along the grain the board changes by %v", along)
	}
}

// The strip lines of a board of end grain have no step; those of a flat one have that of
// the board's thickness and of the moisture at the last glue-up.
func TestStripLinesOfBoards(t *testing.T) {
	strips := []pattern.Strip{of("hard_maple", pattern.RingsFlat()), of("hard_maple", pattern.RingsQuarter())}
	r := physics()
	panel := r.Of(panelOf(strips...)).Lines[0]
	end := r.Of(boardOf(strips, pattern.Second{Bar: 41 * mm})).Lines[0]
	if end.StepUM != 0 || end.StepPM != 0 || end.MostUM != 0 || end.StrainPct != panel.StrainPct || end.Level != LevelOf(end.StrainPct, r.shop.Limits.StrainPct) {
		t.Errorf("end grain: %+v", end)
	}
	p := boardOf(strips, pattern.Second{Lay: pattern.LayFlat, Bar: 60 * mm, Angle: 45, Moisture: pattern.Read(9)})
	flat := r.Of(p).Lines[0]
	thin := panelOf(strips...)
	thin.Panel.Thickness, thin.Panel.Flattened = 19*mm, pattern.Read(9)
	if want := r.Of(thin).Lines[0]; flat.StepUM != want.StepUM || flat.StrainPct != panel.StrainPct {
		t.Errorf("flat: %+v, want the step of %+v", flat, want)
	}
}

// A board whose strips lie the other way round moves alike, and what unknown rings may do
// takes in what is figured.
func TestBoardProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 7))
	r := physics()
	lines := 0
	for range 150 {
		p := randomPanel(rng, 1+rng.IntN(10))
		p.Panel.Length = 700 * mm
		s := pattern.Second{Lay: pattern.Lay(rng.IntN(2)), Bar: length.Length(20+rng.IntN(30)) * mm}
		if s.Lay == pattern.LayFlat {
			s.Angle = float64(45 + rng.IntN(46))
		} else if rng.IntN(2) == 0 {
			s.Turned = []bool{false, true}
		}
		if rng.IntN(3) == 0 {
			s.Moisture = pattern.Read(9)
		}
		p.Seconds = []pattern.Second{s}
		f := r.Of(p)
		b := f.Board
		if !b.Known {
			if f.Seasons[Dry].LengthChangeMM != 0 || f.Seasons[Dry].Known {
				t.Fatal("changes of a board without figures")
			}
			continue
		}
		if b.Rows && (b.Along.MostPct < b.Along.Pct-1e-9 || b.Across.MostPct < b.Across.Pct-1e-9) {
			t.Fatalf("rows: %+v, %+v", b.Along, b.Across)
		}
		for _, l := range b.Lines {
			lines++
			if l.MostPct < l.CellPct-1e-9 || l.LeastPct > l.MostPct || l.CellPM < 0 || l.StepUM < 0 {
				t.Fatalf("%+v", l)
			}
		}
		if s.Mitred() {
			continue
		}
		mirrored := p
		mirrored.Strips = slices.Clone(p.Strips)
		slices.Reverse(mirrored.Strips)
		m := r.Of(mirrored)
		for _, season := range Seasons() {
			x, y := b.Change(season)
			mx, my := m.Board.Change(season)
			near1(t, "length", mx, x, 1e-12)
			near1(t, "width", my, y, 1e-12)
		}
		for i, l := range b.Lines {
			near1(t, "mirrored line", m.Board.Lines[i].CellPct, l.CellPct, 1e-9)
		}
		near1(t, "mirrored rows", m.Board.Along.Pct, b.Along.Pct, 1e-9)
	}
	if lines < 300 {
		t.Errorf("only %d lines were looked at", lines)
	}
}

// Nothing is said of what is not laid, and of no board there is nothing to say.
func TestBoardsWithoutFigures(t *testing.T) {
	r := physics()
	if r.Of(panelOf(of("hard_maple", pattern.RingsFlat()))).Board != nil {
		t.Error("a board without a second glue-up")
	}
	plum := boardOf([]pattern.Strip{of("plum", pattern.RingsFlat()), of("hard_maple", pattern.RingsFlat())}, pattern.Second{Bar: 41 * mm})
	if b := r.Of(plum).Board; b.Known || b.Lines[0].Known || b.BowMM != 0 {
		t.Errorf("plum has no figure: %+v", b.Lines[0])
	}
	many := boardOf(slices.Repeat([]pattern.Strip{of("hard_maple", pattern.RingsFlat())}, 700), pattern.Second{Bar: 20 * mm, Bars: 30})
	if b := r.Of(many).Board; !b.Up().Unlaid || b.Known || len(b.Lines) != 29 || b.Lines[0].Known {
		t.Errorf("21,000 cells: %d lines", len(b.Lines))
	}
	none := boardOf([]pattern.Strip{of("hard_maple", pattern.RingsFlat())}, pattern.Second{Bar: 2000 * mm})
	f := r.Of(none)
	if f.Board.Up().Size != (second.Size{}) || len(f.Board.Lines) != 0 || f.Timber[0].FinishedCM3 != 0 || f.Timber[0].MassKg != 0 {
		t.Errorf("no board: %+v", f.Timber)
	}
}

// Budget: 60 strips and 40 bars are laid and computed within 5 ms.
func BenchmarkBoard60x40(b *testing.B) {
	p := randomPanel(rand.New(rand.NewPCG(7, 8)), 80)
	p.Strips = p.Strips[:60]
	p.Panel.Length = 40 * 45 * mm
	p.Seconds = []pattern.Second{{Bar: 41 * mm, Bars: 40, Turned: []bool{false, true}, Shift: []pattern.Shift{{}, {Step: pattern.ShiftHalf}}}}
	r := physics()
	for b.Loop() {
		r.Of(p)
	}
}
