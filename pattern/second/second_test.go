package second_test

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

const mm = length.Millimetre

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func read(t *testing.T, text string) pattern.Pattern {
	t.Helper()
	p, err := secondtest.Read(text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The worked glue-ups were laid by another program of ours, which tests convex pieces by
// points and shares no line with this one.
func TestWorkedGlueUps(t *testing.T) {
	cases, _, err := secondtest.Stored()
	if err != nil || len(cases) < 10 {
		t.Fatalf("%d cases, %v", len(cases), err)
	}
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			ups := second.Of(read(t, c.TOML), secondtest.Takes())
			if len(ups) != len(c.Answer.Second) {
				t.Fatalf("%d glue-ups", len(ups))
			}
			for i, want := range c.Answer.Second {
				sameGlueUp(t, ups[i], want)
			}
			sameCells(t, ups, c.Answer)
		})
	}
}

func sameGlueUp(t *testing.T, g second.GlueUp, want secondtest.Second) {
	t.Helper()
	if g.Lay.String() != want.Lay || g.Bars != want.Bars || g.Short != want.BarsShort || g.More != want.BarsMore {
		t.Errorf("%v: %d bars, %d short, %d more, want %+v", g.Lay, g.Bars, g.Short, g.More, want)
	}
	near(t, "angle", g.Degrees(), want.AngleDeg, 0)
	for _, l := range []struct {
		what string
		got  length.Length
		want float64
	}{
		{"pitch", g.Pitch, want.PitchMM}, {"left", g.Left, want.LeftMM}, {"length", g.Size.Length, want.LengthMM},
		{"width", g.Size.Width, want.WidthMM}, {"thickness", g.Size.Thickness, want.ThicknessMM},
	} {
		near(t, l.what, l.got.MM(), l.want, 1e-6)
	}
	for what, got := range map[string]float64{"board": g.Taken.Board, "flattened": g.Taken.Flattened, "trim": g.Taken.Trim,
		"kerf": g.Taken.Kerf, "left": g.Taken.Left} {
		near(t, what, got, want.TakenCM3[what], 1e-6)
	}
}

func sameCells(t *testing.T, ups []second.GlueUp, want secondtest.Answer) {
	t.Helper()
	g, _ := second.Last(ups)
	if len(g.Cells) != want.Cells {
		t.Fatalf("%d cells, want %d", len(g.Cells), want.Cells)
	}
	for i, w := range want.CellList {
		c := g.Cells[i]
		if c.Strip != w.Strip || c.Up.String() != w.Up || !slices.Equal(c.Bars[:len(ups)], w.Bars) || len(c.Points) != len(w.PointsMM) {
			t.Fatalf("cell %d: %+v, want %+v", i, c, w)
		}
		for k, p := range w.PointsMM {
			near(t, "x", c.Points[k].X.MM(), p[0], 3e-6)
			near(t, "y", c.Points[k].Y.MM(), p[1], 3e-6)
		}
	}
	for _, probe := range want.Probes {
		x, y := probe[0].(float64), probe[1].(float64)
		i := slices.IndexFunc(g.Cells, func(c second.Cell) bool { return c.Holds(x, y) })
		if i < 0 {
			t.Fatalf("nothing lies at %v, %v", x, y)
		}
		c := g.Cells[i]
		bars := probe[3].([]any)
		if float64(c.Strip) != probe[2] || c.Up.String() != probe[4] || float64(c.Bars[0]) != bars[0] ||
			len(bars) > 1 && float64(c.Bars[1]) != bars[1] {
			t.Errorf("at %v, %v: strip %d of bars %v, %v; want %v", x, y, c.Strip, c.Bars, c.Up, probe)
		}
	}
}

func TestBoardsOfASize(t *testing.T) {
	_, wanted, err := secondtest.Stored()
	if err != nil || len(wanted) < 2 {
		t.Fatalf("%d, %v", len(wanted), err)
	}
	for _, w := range wanted {
		size := second.Size{Length: length.FromMM(w.Want[0]), Width: length.FromMM(w.Want[1]), Thickness: length.FromMM(w.Want[2])}
		p := read(t, w.TOML)
		n, ok := second.For(p, size, w.Bars, secondtest.Takes())
		if !ok || n.Bars != w.Answer.Bars {
			t.Fatalf("%v: %+v", w.Want, n)
		}
		near(t, "bar", n.Bar.MM(), w.Answer.BarMM, 0)
		near(t, "thickness", n.Panel.Thickness.MM(), w.Answer.ThicknessMM, 0)
		near(t, "width", n.Panel.Width.MM(), w.Answer.WidthMM, 0)
		near(t, "length", n.Panel.Length.MM(), w.Answer.LengthMM, 0)
		near(t, "over length", n.OverLength.MM(), w.Answer.OverLengthMM, 0)
		near(t, "over width", n.OverWidth.MM(), w.Answer.OverWidthMM, 0)
		for i, one := range w.Answer.StripWidthsMM {
			near(t, "strip", n.Widths[i].MM(), one, 0)
		}
	}
}

// random returns a pattern with so many second glue-ups.
func random(rng *rand.Rand, ups int) pattern.Pattern {
	p := pattern.Pattern{Panel: pattern.Panel{
		Length: length.Length(400+rng.IntN(1200)) * mm, Thickness: length.Length(12+rng.IntN(30)) * mm}}
	for range 1 + rng.IntN(14) {
		p.Strips = append(p.Strips, pattern.Strip{Width: length.Length(8000+rng.IntN(40000)) * length.Micrometre,
			Species: []string{"a", "b", "c"}[rng.IntN(3)]})
	}
	for i := range ups {
		s := pattern.Second{Lay: pattern.LayFlat, Angle: pattern.Square, Bar: length.Length(15000+rng.IntN(40000)) * length.Micrometre}
		if i == 0 && rng.IntN(2) == 0 {
			s.Lay = pattern.LayEnd
		} else if rng.IntN(2) == 0 {
			s.Angle = float64(20 + rng.IntN(70))
		}
		for range rng.IntN(4) {
			s.Turned = append(s.Turned, rng.IntN(2) == 0)
			s.Over = append(s.Over, rng.IntN(2) == 0)
			s.Shift = append(s.Shift, []pattern.Shift{{}, {By: length.Length(rng.IntN(30)) * mm}, {Step: pattern.ShiftHalf}, {Step: pattern.ShiftStrip}}[rng.IntN(4)])
		}
		if rng.IntN(3) == 0 {
			s.Trim = length.Length(rng.IntN(4000)) * length.Micrometre
		}
		if rng.IntN(4) == 0 {
			s.Bars = 1 + rng.IntN(30)
		}
		p.Seconds = append(p.Seconds, s)
	}
	return p
}

// Whatever is cut goes somewhere, and the cells fill the board: exactly where cuts are
// square, else but for the rounding of their corners.
func TestAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 1))
	boards := [4]int{}
	for n := range 400 {
		p := random(rng, 1+n%3)
		ups := second.Of(p, secondtest.Takes())
		for i, g := range ups {
			taken := g.Taken.Board + g.Taken.Flattened + g.Taken.Trim + g.Taken.Kerf + g.Taken.Left
			near(t, "timber", taken, g.From.CM3(), 1e-9*(1+g.From.CM3()))
			if i > 0 && (g.From.Length != ups[i-1].Size.Width || g.From.Width != ups[i-1].Size.Length) {
				t.Fatalf("glue-up %d cuts %v, the one before it gives %v", i+1, g.From, ups[i-1].Size)
			}
			if g.Size.Length == 0 {
				if len(g.Cells) > 0 {
					t.Fatal("cells of no board")
				}
				continue
			}
			boards[i]++
			fills(t, g, !slices.ContainsFunc(p.Seconds[:i+1], pattern.Second.Mitred))
		}
	}
	if boards[0] < 200 || boards[1] < 100 || boards[2] < 30 {
		t.Errorf("only %v boards came of it", boards)
	}
}

func fills(t *testing.T, g second.GlueUp, square bool) {
	t.Helper()
	var area float64
	for i, c := range g.Cells {
		area += c.AreaMM2()
		least, most := c.Box()
		if least.X < 0 || least.Y < 0 || most.X > g.Size.Length || most.Y > g.Size.Width || c.AreaMM2() <= 0 {
			t.Fatalf("cell %d %+v does not lie in %v", i, c, g.Size)
		}
		near(t, "length of a vector", math.Hypot(c.Across.X, c.Across.Y), 1, 1e-12)
		near(t, "length of the other", math.Hypot(c.Along.X, c.Along.Y), 1, 1e-12)
		near(t, "their angle", c.Across.X*c.Along.X+c.Across.Y*c.Along.Y, 0, 1e-12)
	}
	whole := g.Size.Length.MM() * g.Size.Width.MM()
	rounding := 1e-9 * whole
	if !square {
		rounding = 1e-3 + 1e-8*whole
	}
	near(t, "area of the cells", area, whole, rounding)
	// Every point of the board lies in one cell, and only one but for outlines.
	for x := 0.37; x < g.Size.Length.MM(); x += 23.7 {
		for y := 0.41; y < g.Size.Width.MM(); y += 19.3 {
			n := 0
			for _, c := range g.Cells {
				if c.Holds(x, y) {
					n++
				}
			}
			if n == 0 || n > 3 {
				t.Fatalf("%d cells at %v, %v", n, x, y)
			}
		}
	}
}

// A panel whose strips lie the other way round gives the board the other way round, and
// bars laid in the other order give the board from its other end.
func TestMirrored(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 2))
	for range 100 {
		p := random(rng, 1)
		s := &p.Seconds[0]
		s.Angle, s.Shift, s.Over = pattern.Square, nil, nil
		ups := second.Of(p, secondtest.Takes())
		g := ups[0]
		if g.Size.Length == 0 {
			continue
		}
		mirrored := p
		mirrored.Strips = slices.Clone(p.Strips)
		slices.Reverse(mirrored.Strips)
		other := second.Of(mirrored, secondtest.Takes())[0]
		alike(t, g, other, len(p.Strips), false)
		back := p
		back.Seconds = slices.Clone(p.Seconds)
		turned := make([]bool, g.Bars)
		for i := range turned {
			turned[i] = s.TurnedAt(g.Bars - 1 - i)
		}
		back.Seconds[0].Turned = turned
		alike(t, g, second.Of(back, secondtest.Takes())[0], 0, true)
	}
}

// alike holds each cell of a against the one of b that lies mirrored: across, where strips
// is their number, or along.
func alike(t *testing.T, a, b second.GlueUp, strips int, along bool) {
	t.Helper()
	for _, c := range a.Cells {
		least, most := c.Box()
		x, y := (least.X+most.X).MM()/2, (least.Y+most.Y).MM()/2
		strip := c.Strip
		if along {
			x = a.Size.Length.MM() - x
		} else {
			y, strip = a.Size.Width.MM()-y, strips+1-strip
		}
		i := slices.IndexFunc(b.Cells, func(c second.Cell) bool { return c.Holds(x, y) })
		if i < 0 || b.Cells[i].Strip != strip || math.Abs(b.Cells[i].AreaMM2()-c.AreaMM2()) > 1e-9 {
			t.Fatalf("%+v has nothing like it at %v, %v", c, x, y)
		}
	}
}

func chequer(strips, bars int) pattern.Pattern {
	p := pattern.Pattern{Panel: pattern.Panel{Length: length.Length(bars) * 45 * mm, Thickness: 25 * mm}}
	for i := range strips {
		p.Strips = append(p.Strips, pattern.Strip{Species: []string{"hard_maple", "black_walnut"}[i%2], Width: 25 * mm})
	}
	p.Seconds = []pattern.Second{{Bar: 41 * mm, Bars: bars, Turned: []bool{false, true}}}
	return p
}

func TestWhatIsNotLaid(t *testing.T) {
	p := chequer(300, 100)
	g := second.Of(p, secondtest.Takes())[0]
	if !g.Unlaid || g.Cells != nil || g.Size.Length != 2500*mm {
		t.Errorf("30000 cells: %d cells, %v, %v", len(g.Cells), g.Unlaid, g.Size)
	}
	p = chequer(4, 5)
	p.Panel.Length = 40 * mm
	p.Seconds = append(p.Seconds, pattern.Second{Lay: pattern.LayFlat, Bar: 20 * mm})
	for _, g := range second.Of(p, secondtest.Takes()) {
		if g.Bars != 0 || g.Size != (second.Size{}) || g.Cells != nil || g.Contacts() != nil || g.Misses(0, mm) != nil || g.Joints() != nil {
			t.Errorf("out of a panel that gives no bar comes %+v", g)
		}
	}
	if got := second.Of(pattern.Pattern{Seconds: p.Seconds}, secondtest.Takes()); len(got) != 2 || got[0].Bars != 0 {
		t.Errorf("out of no strips comes %+v", got)
	}
	if _, ok := second.Last(nil); ok {
		t.Error("a board of no glue-up")
	}
}

// A strip that ends early leaves that much less to cut bars from.
func TestShortStripsShortenThePanel(t *testing.T) {
	p := chequer(4, 10)
	p.Strips[1].Start, p.Strips[2].Length = 15*mm, 400*mm
	g := second.Of(p, secondtest.Takes())[0]
	// From 15 mm to 400 mm, less the 20 mm that squaring takes.
	if g.From.Length != 365*mm || g.Bars != 8 || g.Short != 2 {
		t.Errorf("%v long: %d bars, %d short", g.From.Length, g.Bars, g.Short)
	}
}

func TestTurnsAlike(t *testing.T) {
	even, odd := chequer(4, 5), chequer(5, 5)
	for name, c := range map[string]struct {
		p    pattern.Pattern
		want bool
	}{"both ends alike": {odd, true}, "light at one end": {even, false}} {
		if got := second.Of(c.p, secondtest.Takes())[0].TurnsAlike; got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
	odd.Seconds[0].Turned = nil
	if second.Of(odd, secondtest.Takes())[0].TurnsAlike {
		t.Error("no bar is turned, and turning is said to do nothing")
	}
}

func TestMisses(t *testing.T) {
	p := chequer(4, 5)
	for by, want := range map[length.Length]int{0: 0, 50 * length.Micrometre: 0, mm: 4, 2 * mm: 4, 3 * mm: 0, 24 * mm: 4, 25 * mm: 0} {
		p.Seconds[0].Shift = []pattern.Shift{{}, {By: by}}
		if got := second.Of(p, secondtest.Takes())[0].Misses(mm/10, 2*mm); len(got) != want {
			t.Errorf("shifted by %v: lines %v", by, got)
		}
	}
}

// A bar mitred at 45 degrees is s longer on one side; over puts that to the other end.
func TestJoints(t *testing.T) {
	p := chequer(4, 40)
	s := &p.Seconds[0]
	*s = pattern.Second{Lay: pattern.LayFlat, Bar: 40 * mm, Bars: 3, Angle: 45, Over: []bool{false, true}}
	g := second.Of(p, secondtest.Takes())[0]
	slanted := length.FromMM(100 * math.Sqrt2)
	for _, l := range g.Joints() {
		near(t, "chevron", l.MM(), slanted.MM(), 1e-6)
	}
	s.Over = nil
	for _, l := range second.Of(p, secondtest.Takes())[0].Joints() {
		near(t, "all one way", l.MM(), slanted.MM()-40, 1e-6)
	}
	cuts := g.Cuts()
	near(t, "second cut", cuts[1].MM(), 43.2*math.Sqrt2, 1e-6)
	near(t, "slope", g.SlopeDegrees(0), 45, 1e-9)
}

// What a board of a size needs gives that board, and a tenth less does not.
func TestNeedsGiveTheBoard(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 3))
	takes := secondtest.Takes()
	for range 200 {
		p := random(rng, 1)
		p.Seconds[0].Bars = 0
		want := second.Size{Length: length.Length(150+rng.IntN(300)) * mm, Width: length.Length(120+rng.IntN(300)) * mm,
			Thickness: length.Length(15+rng.IntN(25)) * mm}
		n, ok := second.For(p, want, rng.IntN(2)*(4+rng.IntN(10)), takes)
		if !ok {
			t.Fatal("nothing is needed")
		}
		made := p
		made.Panel.Length, made.Panel.Thickness = n.Panel.Length, n.Panel.Thickness
		made.Strips = slices.Clone(p.Strips)
		for i := range made.Strips {
			made.Strips[i].Width = n.Widths[i]
		}
		made.Seconds = slices.Clone(p.Seconds)
		made.Seconds[0].Bar = n.Bar
		g := second.Of(made, takes)[0]
		if g.Bars != n.Bars || g.Size.Thickness != want.Thickness || g.Size.Length != want.Length+n.OverLength ||
			g.Size.Width != want.Width+n.OverWidth || n.OverLength < 0 || n.OverWidth < 0 {
			t.Fatalf("%+v of %v: %d bars, %v", n, want, g.Bars, g.Size)
		}
		made.Panel.Length -= mm / 10
		if short := second.Of(made, takes)[0]; short.Bars != n.Bars-1 {
			t.Fatalf("a tenth shorter the panel gives %d bars of %d", short.Bars, n.Bars)
		}
	}
	if _, ok := second.For(random(rng, 2), second.Size{}, 0, takes); ok {
		t.Error("two glue-ups have needs")
	}
}

// Budget: 60 strips and 40 bars are laid, with their neighbours, in 2 ms, of the 5 ms that
// laying and computing have together.
func BenchmarkLay60x40(b *testing.B) {
	p := chequer(60, 40)
	for b.Loop() {
		second.Of(p, secondtest.Takes())[0].Contacts()
	}
}
