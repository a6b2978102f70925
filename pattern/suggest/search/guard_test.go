package search

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// The guard: families of random asks made to be nasty, each compared with a search that
// tries all (exhaustive_test.go).

// A family draws asks of one kind.
type family struct {
	name string
	draw func(g *nasty)
}

// A nasty ask in the making: its kinds are drawn from these.
type nasty struct {
	*rand.Rand
	table  *species.Table
	ask    suggest.Request
	keys   []string
	widths []length.Length
	rings  []pattern.Rings
	wet    []pattern.Reading
	row    []int // planted: of the strips named
	kinds  int
	counts int // of a kind, at most
}

func (g *nasty) of(values ...length.Length) length.Length { return values[g.IntN(len(values))] }

// have names ready strips on the spot.
func (g *nasty) have() {
	for i := range g.kinds {
		g.ask.Have = append(g.ask.Have, suggest.ReadyStrips{Species: g.keys[g.IntN(len(g.keys))], Width: g.of(g.widths...),
			Rings: g.rings[g.IntN(len(g.rings))], Moisture: g.wet[g.IntN(len(g.wet))], Count: 1 + g.IntN(g.counts),
			UseFirst: g.IntN(3) == 0, Source: fmt.Sprint("h", i+1)})
	}
}

// plant makes the width that of a row of n of the strips named, or a little beside it,
// mostly: else hardly anything could be had. The row is its own mirror image where that
// is asked for.
func (g *nasty) plant(n int) {
	if g.row = nil; g.IntN(5) == 0 {
		return
	}
	left := make([]int, len(g.ask.Have))
	for i, h := range g.ask.Have {
		left[i] = h.Count
	}
	row := make([]int, n)
	for i := range row {
		if row[i] = g.IntN(len(left)); g.ask.Symmetric && n-1-i < i {
			row[i] = row[n-1-i]
		}
		if left[row[i]]--; left[row[i]] < 0 {
			g.ask.Have[row[i]].Count++
		}
	}
	var width length.Length
	for _, i := range row {
		width += g.ask.Have[i].Width
	}
	g.row, g.ask.Width = row, max(1, width+g.ask.Tolerance*length.Length(g.IntN(3)-1))
	g.ask.Strips[0], g.ask.Strips[1] = min(n, g.ask.Strips[0]), max(n, g.ask.Strips[1])
}

// pieces lays rough pieces on the rack and asks for strips of two widths at most.
func (g *nasty) pieces() {
	g.widths = []length.Length{20 * mm, 30 * mm}[g.IntN(2):]
	g.ask.Widths, g.ask.Thickness, g.ask.Length = g.widths, 20*mm, 300*mm
	g.ask.Strips = [2]int{2, 4}
	g.keys = g.keys[:2]
	for i := range 2 + g.IntN(3) {
		g.ask.Rack.Pieces = append(g.ask.Rack.Pieces, rack.Piece{ID: fmt.Sprint("p", i+1), Species: g.keys[g.IntN(len(g.keys))],
			Length: length.Length(340+g.IntN(400)) * mm, Width: length.Length(24+g.IntN(60)) * mm, Thickness: length.Length(23+g.IntN(40)) * mm,
			Quantity: 1, Planed: g.IntN(6) == 0, Rings: g.rings[g.IntN(len(g.rings))], Moisture: g.wet[g.IntN(len(g.wet))], UseFirst: g.IntN(3) == 0})
	}
}

// ready lays ready strips on the rack that are nearly too short or too thin, and some
// that are.
func (g *nasty) ready() {
	sh := shoptest.Roomy()
	for i := range 2 + g.IntN(4) {
		g.ask.Rack.Strips = append(g.ask.Rack.Strips, rack.Strip{ID: fmt.Sprint("s", i+1), Species: g.keys[g.IntN(len(g.keys))],
			Width: g.of(g.widths...), Rings: g.rings[g.IntN(len(g.rings))], Quantity: 1 + g.IntN(g.counts), UseFirst: g.IntN(3) == 0,
			Length:    g.ask.Length + sh.Allowance.Length + g.of(-1, 0, 0, 1, 20*mm),
			Thickness: sh.Glued(g.ask.Thickness) + g.of(-1, 0, 0, 1, 2*mm)})
	}
}

// pin holds strips at so many places: mostly of kinds that can be had, now and then one
// that is only given.
func (g *nasty) pin(n int) {
	for range n {
		place := 1 + g.IntN(g.ask.Strips[1])
		s := pattern.Strip{Species: "padauk", Width: g.of(g.widths...)}
		if len(g.ask.Have) > 0 && g.IntN(4) > 0 {
			h := g.ask.Have[g.IntN(len(g.ask.Have))]
			if place <= len(g.row) && g.IntN(5) > 0 {
				h = g.ask.Have[g.row[place-1]]
			}
			s = pattern.Strip{Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture}
		}
		if !slices.ContainsFunc(g.ask.Pinned, func(p suggest.Pin) bool { return p.Place == place }) {
			g.ask.Pinned = append(g.ask.Pinned, suggest.Pin{Place: place, Strip: s})
		}
	}
}

// families lists them; what is the same in all stands in drawAsk.
func families() []family {
	symmetric := func(g *nasty) {
		g.ask.Symmetric, g.counts = true, 5
		g.ask.Strips = [2]int{2 + g.IntN(4), 6 + g.IntN(2)}
		g.have()
		g.plant(3 + g.IntN(5))
	}
	return []family{
		{"symmetric", symmetric},
		{"symmetric, one number of strips", func(g *nasty) {
			symmetric(g)
			n := 3 + g.IntN(5)
			g.plant(n)
			g.ask.Strips = [2]int{n, n}
		}},
		{"symmetric, pinned", func(g *nasty) { symmetric(g); g.pin(1 + g.IntN(2)) }},
		{"symmetric, pinned where it mirrors", func(g *nasty) {
			symmetric(g)
			n := 3 + g.IntN(5)
			g.plant(n)
			g.ask.Strips = [2]int{n, n + g.IntN(2)}
			g.pin(1)
			p := g.ask.Pinned[0]
			if p.Place = n + 1 - p.Place; p.Place >= 1 && p.Place != g.ask.Pinned[0].Place {
				g.ask.Pinned = append(g.ask.Pinned, p)
			}
		}},
		{"symmetric, from pieces with marks", func(g *nasty) {
			g.pieces()
			g.ask.Symmetric, g.ask.Aim, g.ask.LeastContrast = true, suggest.UseUp, float64(g.IntN(4))
			g.rings, g.wet = g.rings[:1], g.wet[:1]
			for i := range g.ask.Rack.Pieces {
				p := &g.ask.Rack.Pieces[i]
				p.Species, p.UseFirst, p.Rings, p.Moisture = g.keys[g.IntN(2)], i%2 == 0, pattern.Rings{}, pattern.Reading{}
			}
			g.ask.Strips = [2]int{2, 5}
			g.ready()
		}},
		{"no twins", func(g *nasty) { g.ask.NoTwins, g.keys = true, g.keys[:3]; g.have() }},
		{"least contrast near what is there", func(g *nasty) {
			g.ask.Aim = suggest.UseUp
			g.have()
			x, _ := g.table.Get(g.ask.Have[0].Species)
			y, _ := g.table.Get(g.ask.Have[1].Species)
			g.ask.LeastContrast = max(0, x.Contrast(y)+[]float64{-1e-6, -1e-7, 0, 0, math.SmallestNonzeroFloat64, 1e-9, 1e-7, 1e-6}[g.IntN(8)])
		}},
		{"tolerance 0", func(g *nasty) {
			g.ask.Tolerance, g.widths = 0, []length.Length{15 * mm, 20 * mm, 25 * mm}
			g.ask.Width = length.Length(60+5*g.IntN(12)) * mm
			g.have()
		}},
		{"large tolerance", func(g *nasty) {
			g.ask.Tolerance, g.kinds = length.Length(40+g.IntN(120))*mm, 4
			g.ask.Strips[1] = 5
			g.have()
		}},
		{"mixed widths", func(g *nasty) { // too fine for cells of their own
			g.widths = []length.Length{15*mm + 1, 19*mm + 13, 25*mm - 7, 30500*length.Micrometre + 3, 41 * mm}
			g.ask.Tolerance = g.of(0, 1, 1*mm, 5*mm)
			g.have()
			g.plant(3 + g.IntN(4))
		}},
		{"widths from a list", func(g *nasty) { g.pieces() }},
		{"pieces with faults", func(g *nasty) {
			g.pieces()
			for i := range g.ask.Rack.Pieces {
				p := &g.ask.Rack.Pieces[i]
				p.Length, p.Width = length.Length(700+g.IntN(500))*mm, length.Length(50+g.IntN(60))*mm
				for range 1 + g.IntN(2) {
					at := length.Length(g.IntN(int(p.Length / mm)))
					p.Faults = append(p.Faults, rack.Fault{From: at * mm, To: (at + 5 + length.Length(g.IntN(60))) * mm})
				}
				if g.IntN(3) > 0 {
					at := length.Length(15 + g.IntN(int(p.Width/mm)-15))
					p.Faults = append(p.Faults, rack.Fault{Along: true, From: at * mm, To: (at + 1 + length.Length(g.IntN(8))) * mm})
				}
			}
		}},
		{"pieces with rings", func(g *nasty) {
			g.rings = nil
			for _, degrees := range []float64{0, 10, 15, 37, 40, 50, 80, 90} {
				rings, err := pattern.RingsAt(degrees)
				if err != nil {
					panic(err)
				}
				g.rings = append(g.rings, rings)
			}
			g.rings, g.wet = append(g.rings, pattern.Rings{}, pattern.Rings{}), g.wet[:1]
			g.pieces()
			g.ask.Level = pattern.Level(g.IntN(3))
		}},
		{"edge strips", func(g *nasty) { g.pieces(); g.ask.Make = pattern.MakeEdge }},
		{"pieces and ready strips", func(g *nasty) { g.pieces(); g.ready() }},
		{"ready strips just long enough", func(g *nasty) { g.ready() }},
		{"use first", func(g *nasty) {
			g.ask.Aim, g.ask.LeastContrast = suggest.UseUp, float64(g.IntN(8))
			g.have()
			for i := range g.ask.Have {
				g.ask.Have[i].UseFirst = g.IntN(3) > 0
			}
		}},
		{"many alike", func(g *nasty) {
			g.keys, g.counts, g.kinds = g.keys[:3], 9, 4
			g.ask.Strips[1] = 7
			g.have()
		}},
		{"few kinds, many strips", func(g *nasty) {
			g.kinds, g.counts, g.widths = 2+g.IntN(2), 9, []length.Length{12 * mm, 13 * mm, 17 * mm}
			g.ask.Strips = [2]int{2, 9}
			g.have()
		}},
		{"unlike earlier layouts", func(g *nasty) {
			g.have()
			for range 1 + g.IntN(2) {
				var strips []suggest.Placed
				for range 3 + g.IntN(2) {
					h := g.ask.Have[g.IntN(len(g.ask.Have))]
					strips = append(strips, suggest.Placed{Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture})
				}
				if g.IntN(3) == 0 {
					strips[0] = suggest.Placed{Species: "padauk", Width: 33 * mm}
				}
				g.ask.Unlike = append(g.ask.Unlike, strips)
			}
			g.ask.Differ = 1 + g.IntN(4)
		}},
		{"far apart", func(g *nasty) { g.ask.Differ, g.ask.Layouts = 2+g.IntN(4), 6; g.have() }},
		{"levels", func(g *nasty) {
			g.ask.Level = pattern.Level(g.IntN(2))
			g.wet = []pattern.Reading{{}, pattern.Read(8), pattern.Read(8.5), pattern.Read(9.5), pattern.Read(11)}
			if g.IntN(2) == 0 {
				g.ask.Moisture, g.ask.Flattened = pattern.Read(9), pattern.Read(8)
			}
			g.have()
		}},
		{"inches", func(g *nasty) {
			const sixteenth = length.Inch / 16
			g.widths = []length.Length{9 * sixteenth, 12 * sixteenth, 13 * sixteenth, 16 * sixteenth, length.Inch / 64 * 55}
			g.ask.Width, g.ask.Tolerance = length.Length(40+g.IntN(30))*sixteenth, g.of(0, sixteenth, 2*sixteenth, length.Inch/64)
			g.have()
			g.plant(3 + g.IntN(4))
		}},
		{"pinned", func(g *nasty) { g.have(); g.plant(3 + g.IntN(4)); g.pin(1 + g.IntN(3)) }},
	}
}

// drawAsk draws an ask of a family.
func drawAsk(f family, table *species.Table, seed uint64) suggest.Request {
	g := &nasty{table: table, Rand: rand.New(rand.NewPCG(seed, 43)), kinds: 4 + rand.New(rand.NewPCG(seed, 44)).IntN(2), counts: 3,
		widths: []length.Length{15 * mm, 20 * mm, 25 * mm, 30500 * length.Micrometre},
		rings:  []pattern.Rings{{}, {}, pattern.RingsFlat(), pattern.RingsQuarter()},
		wet:    []pattern.Reading{{}, {}, {}, pattern.Read(9), pattern.Read(9.5)},
		keys:   []string{"black_walnut", "hard_maple", "white_oak", "sapele", "black_cherry", "european_beech"}}
	g.Shuffle(len(g.keys), func(i, j int) { g.keys[i], g.keys[j] = g.keys[j], g.keys[i] })
	g.ask = suggest.New(length.Length(60+g.IntN(60))*mm, 22*mm, 400*mm)
	g.ask.Tolerance = length.Length(g.IntN(12)) * mm
	g.ask.Strips = [2]int{2 + g.IntN(2), 4 + g.IntN(3)}
	g.ask.Level = pattern.Level(1 + g.IntN(2))
	g.ask.Aim = suggest.Aim(g.IntN(3))
	g.ask.LeastContrast = float64(g.IntN(14))
	g.ask.NoTwins, g.ask.Layouts, g.ask.Differ = g.IntN(5) == 0, 1+g.IntN(4), 1+g.IntN(3)
	f.draw(g)
	return g.ask
}

// How many asks of each family are compared: in short mode, else, and in nightly mode.
const (
	guardShort   = 4
	guardAsks    = 22
	guardNightly = 150
)

// byDayOrNight returns one of two numbers of cases: what the guard compares too is tried on
// fewer by day.
func byDayOrNight(day, night int) int {
	if os.Getenv("ODDMENTS_NIGHTLY") != "" {
		return night
	}
	return day
}

// TestGuard answers the asks of every family and compares each answer with what trying
// all finds: worked on to the end, twice stopped on the way, and where there are plans
// with some of them lost, for then bounds are handed out. ODDMENTS_NIGHTLY=1 takes five
// times as many asks.
func TestGuard(t *testing.T) {
	asks := guardAsks
	switch {
	case os.Getenv("ODDMENTS_NIGHTLY") != "":
		asks = guardNightly
	case testing.Short():
		asks = guardShort
	}
	r := physics()
	for _, f := range families() {
		t.Run(f.name, func(t *testing.T) { guardFamily(t, r, f, asks) })
	}
}

func guardFamily(t *testing.T, r movement.Physics, f family, asks int) {
	var proved, none, layouts, bounds int
	for n := range asks {
		ask := drawAsk(f, r.Table(), uint64(n))
		e, rng := newExhaustive(r, ask), rand.New(rand.NewPCG(uint64(n), 45))
		look := func(how string, after int64, h hooks) (suggest.Result, int64) {
			stop, asked := counting(t, after)
			answer, err := solveUntil(t.Context(), r, ask, suggest.Options{}, h, stop)
			if err != nil {
				t.Fatalf("ask %d%s: %v\n%+v", n, how, err, ask)
			}
			if err := e.claims(t, answer); err != nil {
				t.Errorf("ask %d%s: %v\n%+v", n, how, err, ask)
			}
			return answer, asked()
		}
		answer, all := look("", math.MaxInt64, hooks{})
		if answer.Status == suggest.Optimal || answer.Status == suggest.Infeasible {
			proved++
		}
		if answer.Status == suggest.Infeasible {
			none++
		}
		layouts += len(answer.Layouts)
		for range 2 {
			if early, _ := look(", stopped", rng.Int64N(all), hooks{}); early.Bound != nil {
				bounds++
			}
		}
		if len(ask.Widths) > 0 {
			if less, _ := look(", with plans lost", math.MaxInt64, hooks{lose: func() bool { return rng.IntN(3) == 0 }}); less.Bound != nil {
				bounds++
			}
		}
	}
	t.Logf("%-34s %4d asks, %4d proved, %4d of these infeasible; %4d layouts; %4d bounds where less is done", f.name, asks, proved, none, layouts, bounds)
	if proved < asks {
		t.Errorf("%d of %d asks are not proved", asks-proved, asks)
	}
}

// claims reports what an answer claims that is not so.
func (e *exhaustive) claims(t *testing.T, a suggest.Result) error {
	t.Helper()
	if a.Aim != e.ask.Aim {
		return fmt.Errorf("aim %v, it is %v", a.Aim, e.ask.Aim)
	}
	var before []map[string]int
	for _, strips := range e.ask.Unlike {
		counts := map[string]int{}
		for _, p := range strips {
			counts[e.class(p.Strip())]++
		}
		before = append(before, counts)
	}
	if a.Bound != nil && len(a.Layouts) > 0 {
		row, err := e.row(a.Layouts[0])
		if err != nil {
			return fmt.Errorf("layout 1: %w", err)
		}
		if err := e.bounded(t, a.Bound, e.worth(row), before); err != nil {
			return err
		}
	}
	for i, l := range a.Layouts {
		row, err := e.row(l)
		if err != nil {
			return fmt.Errorf("layout %d: %w", i+1, err)
		}
		counts := make([]int, len(e.sorts))
		for _, k := range row {
			counts[k]++
		}
		mine := &bundle{counts, e.worth(row)}
		if !e.apart(mine, before) {
			return fmt.Errorf("layout %d differs too little", i+1)
		}
		best, any := e.next(t, before)
		switch {
		case !any || mine.worth.better(best):
			return fmt.Errorf("layout %d is worth %v, the best of all %v", i+1, mine.worth, best)
		case l.Proved && a.PlansProved && mine.worth != best:
			return fmt.Errorf("layout %d is worth %v and proved, the best of all is worth %v", i+1, mine.worth, best)
		}
		if err := e.figures(l, mine.worth); err != nil {
			return fmt.Errorf("layout %d: %w", i+1, err)
		}
		if err := e.planned(t, l); err != nil {
			return fmt.Errorf("layout %d: its plan: %w", i+1, err)
		}
		before = append(before, e.byClass(counts))
	}
	_, more := e.next(t, before)
	proved := !slices.ContainsFunc(a.Layouts, func(l suggest.Layout) bool { return !l.Proved })
	switch {
	case a.Status == suggest.Optimal && (!proved || more && len(a.Layouts) < e.ask.Layouts || len(a.Layouts) == 0):
		return fmt.Errorf("optimal with %d layouts of %d; there are more: %v", len(a.Layouts), e.ask.Layouts, more)
	case a.Status == suggest.Infeasible && (more || len(a.Layouts) > 0):
		return fmt.Errorf("infeasible, there are layouts")
	case a.Status == suggest.Open && len(a.Layouts) > 0 || a.Status == suggest.Feasible && len(a.Layouts) == 0:
		return fmt.Errorf("%v with %d layouts", a.Status, len(a.Layouts))
	case (a.Status == suggest.Feasible) != (a.Bound != nil):
		return fmt.Errorf("%v with bound %v", a.Status, a.Bound)
	case a.Broken != nil:
		return fmt.Errorf("it finds fault with itself: %w", a.Broken)
	}
	return nil
}

// bounded holds a bound against all layouts, and beside the first one handed out.
func (e *exhaustive) bounded(t *testing.T, b *suggest.Bound, first worth, unlike []map[string]int) error {
	t.Helper()
	most := worth{use: b.UseFirst, least: int64(math.Round(b.SmallestContrast * 1e6)), sum: int64(math.Round(b.TotalContrast * 1e6))}
	if e.ask.Aim == suggest.Contrast {
		most.use = 0
	}
	for _, o := range e.ranked {
		w := o.worth
		above := w.better(most) || w.use > most.use || w.use >= first.use && (w.least > most.least || w.least >= first.least && w.sum > most.sum)
		if above && e.apart(o, unlike) && e.there(t, o.counts) {
			return fmt.Errorf("bound %+v beside %v, there is %v", *b, first, w)
		}
	}
	return nil
}

// figures compares what a layout says of itself.
func (e *exhaustive) figures(l suggest.Layout, w worth) error {
	units := func(x float64) int64 { return int64(math.Round(x * 1e6)) }
	if units(l.SmallestContrast) != w.least || abs(units(l.TotalContrast)-w.sum) > int64(len(l.Strips)) || e.ask.Aim == suggest.UseUp && l.UseFirst != w.use {
		return fmt.Errorf("says %v, %v, %v and is worth %v", l.UseFirst, l.SmallestContrast, l.TotalContrast, w)
	}
	return nil
}

// planned holds a layout's plan against one that is made anew.
func (e *exhaustive) planned(t *testing.T, l suggest.Layout) error {
	t.Helper()
	if len(e.ask.Widths) == 0 {
		if l.Plan != nil {
			return fmt.Errorf("there is one")
		}
		return nil
	}
	if l.Plan == nil || l.Plan.Short > 0 {
		return fmt.Errorf("it is not whole")
	}
	if l.Given() {
		return nil // the job asks for what is given too
	}
	job := e.ask.Job(e.r, l)
	if err := cutting.Verify(job, *l.Plan); err != nil {
		return err
	}
	least, err := solve.Plan(t.Context(), job, solve.Options{})
	if err != nil {
		return err
	}
	if l.Plan.LowerBoundCM3 > least.DrawnCM3+near || l.Plan.Status == cutting.Optimal && l.Plan.DrawnCM3 > least.DrawnCM3+near {
		return fmt.Errorf("%v, %v drawn, bound %v; one draws %v", l.Plan.Status, l.Plan.DrawnCM3, l.Plan.LowerBoundCM3, least.DrawnCM3)
	}
	return nil
}
