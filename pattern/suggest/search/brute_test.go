package search

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// lookAll looks at every layout there is, by code of its own.
type lookAll struct {
	ask   suggest.Request
	r     movement.Physics
	kinds []suggest.ReadyStrips // each kind once; Count and firsts together
	first []int
	seen  func(layout []int)
	pairs func(layout []int) // sees those too that keep to the level by pairs alone
	level map[[2]int]pattern.Level
}

func (a *lookAll) moisture(h suggest.ReadyStrips) float64 {
	return h.Moisture.Or(a.ask.Moisture.Or(a.r.Shop().Air.EquilibriumPct()))
}

func newLookAll(r movement.Physics, ask suggest.Request) *lookAll {
	a := &lookAll{ask: ask, r: r, level: map[[2]int]pattern.Level{}}
	for _, h := range ask.Have {
		at := slices.IndexFunc(a.kinds, func(k suggest.ReadyStrips) bool {
			return k.Species == h.Species && k.Width == h.Width && k.Rings == h.Rings && a.moisture(k) == a.moisture(h)
		})
		if at < 0 {
			at = len(a.kinds)
			k := h
			k.Count = 0
			a.kinds, a.first = append(a.kinds, k), append(a.first, 0)
		}
		a.kinds[at].Count += h.Count
		if h.UseFirst {
			a.first[at] += h.Count
		}
	}
	for i := range a.kinds {
		for j := range a.kinds {
			a.level[[2]int{i, j}] = a.lineLevel(a.kinds[i], a.kinds[j])
		}
	}
	return a
}

// through returns the free change through the thickness, as design section 5 has it.
func (a *lookAll) through(h suggest.ReadyStrips, from, to float64) float64 {
	s, _ := a.r.Table().Get(h.Species)
	angle := h.Rings.Degrees() * math.Pi / 180
	c := s.CR*math.Cos(angle)*math.Cos(angle) + s.CT*math.Sin(angle)*math.Sin(angle)
	return movement.FreeChange(c, s.FSP(), from, to)
}

func (a *lookAll) lineLevel(x, y suggest.ReadyStrips) pattern.Level {
	limits := a.r.Shop().Limits
	mx, my := a.moisture(x), a.moisture(y)
	level := movement.LevelOf(math.Abs(mx-my), limits.MoisturePct)
	k := (movement.Relief(x.Width, a.ask.Thickness) + movement.Relief(y.Width, a.ask.Thickness)) / 2
	if x.Species == y.Species && x.Rings == y.Rings && mx == my {
		return level
	}
	for _, season := range movement.Seasons() {
		to := a.r.EquilibriumPct(season)
		s := math.Abs(a.through(x, mx, to) - a.through(y, my, to))
		h := math.Abs(a.through(x, a.ask.Flattened.Or(mx), to) - a.through(y, a.ask.Flattened.Or(my), to))
		level = max(level, movement.LevelOf(100*s, limits.StrainPct),
			movement.LevelOf(500*k*a.ask.Thickness.MM()*h, limits.StepUM))
	}
	return level
}

func (a *lookAll) contrast(i, j int) float64 {
	x, _ := a.r.Table().Get(a.kinds[i].Species)
	y, _ := a.r.Table().Get(a.kinds[j].Species)
	return species.Contrast(x.ColourOiled, y.ColourOiled)
}

// run calls seen with every layout that keeps to all conditions.
func (a *lookAll) run() {
	left := make([]int, len(a.kinds))
	for i, k := range a.kinds {
		left[i] = k.Count
	}
	a.grow(nil, left, 0)
}

func (a *lookAll) grow(layout []int, left []int, width length.Length) {
	if width > a.ask.Width+a.ask.Tolerance || len(layout) > a.ask.Strips[1] {
		return
	}
	if len(layout) >= a.ask.Strips[0] && width >= a.ask.Width-a.ask.Tolerance && a.whole(layout) {
		a.seen(layout)
	}
	for k := range a.kinds {
		if left[k] == 0 || len(layout) > 0 && !a.beside(layout[len(layout)-1], k) {
			continue
		}
		left[k]--
		a.grow(append(layout, k), left, width+a.kinds[k].Width)
		left[k]++
	}
}

func (a *lookAll) beside(i, j int) bool {
	return a.level[[2]int{i, j}] <= a.ask.Level &&
		!(a.ask.NoTwins && a.kinds[i].Species == a.kinds[j].Species) &&
		(a.ask.Aim != suggest.UseUp || a.contrast(i, j) >= a.ask.LeastContrast)
}

func (a *lookAll) whole(layout []int) bool {
	for i, j := 0, len(layout)-1; a.ask.Symmetric && i < j; i, j = i+1, j-1 {
		x, y := a.kinds[layout[i]], a.kinds[layout[j]] // which may be of timbers with and without a mark
		if x.Species != y.Species || x.Width != y.Width {
			return false
		}
	}
	for _, p := range a.ask.Pinned {
		if p.Place > len(layout) {
			return false
		}
		k := a.kinds[layout[p.Place-1]]
		if k.Species != p.Strip.Species || k.Width != p.Strip.Width || k.Rings != p.Strip.Rings ||
			a.moisture(k) != a.moisture(suggest.ReadyStrips{Moisture: p.Strip.Moisture}) {
			return false
		}
	}
	if a.pairs != nil {
		a.pairs(layout)
	}
	p := pattern.Pattern{Panel: a.ask.Panel()}
	for _, k := range layout {
		h := a.kinds[k]
		p.Strips = append(p.Strips, pattern.Strip{Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture})
	}
	return suggest.LevelOf(a.r, p) <= a.ask.Level
}

// A worth is what layouts are ranked by.
type worth struct {
	use        length.Length
	least, sum int64
}

func (w worth) better(v worth) bool {
	if w.use != v.use {
		return w.use > v.use
	}
	if w.least != v.least {
		return w.least > v.least
	}
	return w.sum > v.sum
}

func (a *lookAll) worth(layout []int) worth {
	w := worth{least: math.MaxInt64}
	used := make([]int, len(a.kinds))
	for i, k := range layout {
		if used[k]++; a.ask.Aim == suggest.UseUp && used[k] <= a.first[k] {
			w.use += a.kinds[k].Width
		}
		if i > 0 {
			c := int64(math.Round(a.contrast(layout[i-1], k) * 1e6))
			w.least, w.sum = min(w.least, c), w.sum+c
		}
	}
	return w
}

// counts returns how many strips there are of each kind to the eye.
func (a *lookAll) counts(layout []int) []int {
	c := make([]int, len(a.kinds))
	for _, k := range layout {
		c[slices.IndexFunc(a.kinds, func(o suggest.ReadyStrips) bool {
			return o.Species == a.kinds[k].Species && o.Width == a.kinds[k].Width
		})]++
	}
	return c
}

func apart(a, b []int) int {
	sum := 0
	for i := range a {
		sum += max(a[i]-b[i], b[i]-a[i])
	}
	return (sum + 1) / 2
}

// of finds the kinds of a layout that was handed out.
func (a *lookAll) of(t *testing.T, l suggest.Layout) []int {
	t.Helper()
	var out []int
	for _, s := range l.Strips {
		at := slices.IndexFunc(a.kinds, func(k suggest.ReadyStrips) bool {
			return k.Species == s.Species && k.Width == s.Width && k.Rings == s.Rings &&
				a.moisture(k) == a.moisture(suggest.ReadyStrips{Moisture: s.Moisture})
		})
		if at < 0 {
			t.Fatalf("layout has a strip that cannot be had: %+v", s)
		}
		out = append(out, at)
	}
	return out
}

func randomAsk(rng *rand.Rand) suggest.Request {
	keys := []string{"black_walnut", "hard_maple", "white_oak", "sapele", "ash_european", "black_cherry", "european_beech"}
	table := species.Builtin()
	keys = slices.DeleteFunc(keys, func(k string) bool { _, ok := table.Get(k); return !ok })
	widths := []length.Length{15 * mm, 20 * mm, 25 * mm, 30500 * length.Micrometre}
	if rng.IntN(20) == 0 { // too fine for cells of their own
		widths = []length.Length{15*mm + 1, 3 * length.Inch / 4, 25 * mm, 30500*length.Micrometre + 7}
	}
	rings := []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsQuarter()}
	a := suggest.New(length.Length(60+rng.IntN(60))*mm, 22*mm, 400*mm)
	a.Tolerance = length.Length(rng.IntN(15)) * mm
	a.Strips = [2]int{2 + rng.IntN(2), 4 + rng.IntN(4)}
	a.Level = pattern.Level(min(2, rng.IntN(5)))
	a.Aim = []suggest.Aim{suggest.Contrast, suggest.UseUp}[rng.IntN(2)]
	a.LeastContrast = float64(rng.IntN(14))
	a.Symmetric, a.NoTwins = rng.IntN(4) == 0, rng.IntN(4) == 0
	a.Layouts, a.Differ = 1+rng.IntN(4), 1+rng.IntN(3)
	for range 3 + rng.IntN(3) {
		h := suggest.ReadyStrips{Species: keys[rng.IntN(len(keys))], Width: widths[rng.IntN(len(widths))],
			Rings: rings[rng.IntN(3)], Count: 1 + rng.IntN(3), UseFirst: rng.IntN(2) == 0, Source: "r"}
		if rng.IntN(3) == 0 {
			h.Moisture = pattern.Read(float64(8 + rng.IntN(3)))
		}
		a.Have = append(a.Have, h)
	}
	for range max(0, rng.IntN(5)-2) {
		h := a.Have[rng.IntN(len(a.Have))]
		place := 1 + rng.IntN(a.Strips[1])
		if !slices.ContainsFunc(a.Pinned, func(p suggest.Pin) bool { return p.Place == place }) {
			a.Pinned = append(a.Pinned, suggest.Pin{Place: place, Strip: pattern.Strip{Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture}})
		}
	}
	return a
}

func TestAgainstAllLayouts(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	r := physics()
	cases, none, several, symmetric := byDayOrNight(70, 220), 0, 0, 0
	for n := range cases {
		ask := randomAsk(rng)
		answer, err := Solve(t.Context(), r, ask, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		all := newLookAll(r, ask)
		var layouts [][]int
		all.seen = func(l []int) { layouts = append(layouts, slices.Clone(l)) }
		all.run()
		var prior [][]int
		next := func() (best worth, any bool) {
			for _, l := range layouts {
				c := all.counts(l)
				if slices.ContainsFunc(prior, func(p []int) bool { return apart(c, p) < ask.Differ }) {
					continue
				}
				if w := all.worth(l); !any || w.better(best) {
					best, any = w, true
				}
			}
			return best, any
		}
		for i, l := range answer.Layouts {
			got := all.of(t, l)
			if !slices.ContainsFunc(layouts, func(o []int) bool { return slices.Equal(o, got) }) {
				t.Fatalf("case %d layout %d is no layout: %v\n%+v", n, i+1, got, ask)
			}
			best, _ := next()
			if w := all.worth(got); w != best {
				t.Fatalf("case %d layout %d is worth %v, the best %v\n%+v", n, i+1, w, best, ask)
			}
			c := all.counts(got)
			for _, p := range prior {
				if apart(c, p) < ask.Differ {
					t.Fatalf("case %d layout %d differs too little", n, i+1)
				}
			}
			prior = append(prior, c)
		}
		want := suggest.Optimal
		if len(layouts) == 0 {
			want = suggest.Infeasible
			none++
			checkLoosen(t, n, r, ask, answer)
		}
		if answer.Status != want {
			t.Fatalf("case %d: %v, want %v\n%+v", n, answer.Status, want, ask)
		}
		if _, more := next(); more && len(answer.Layouts) < ask.Layouts {
			t.Fatalf("case %d: %d layouts, there are more\n%+v", n, len(answer.Layouts), ask)
		}
		if len(answer.Layouts) > 1 {
			several++
		}
		if ask.Symmetric && len(answer.Layouts) > 0 {
			symmetric++
		}
	}
	t.Logf("%d cases: %d without a layout, %d with several, %d symmetric", cases, none, several, symmetric)
	if none < cases/5 || several < cases/5 || symmetric < cases/25 {
		t.Error("too few cases of one sort")
	}
}

// checkLoosen looks whether what is said to do would do, and what is milder would not.
func checkLoosen(t *testing.T, n int, r movement.Physics, ask suggest.Request, answer suggest.Result) {
	t.Helper()
	there := func(a suggest.Request) bool {
		all := newLookAll(r, a)
		any := false
		all.seen = func([]int) { any = true }
		all.run()
		return any
	}
	l := answer.Loosen
	if l == nil {
		t.Fatalf("case %d: infeasible, and nothing to loosen", n)
	}
	if !l.Proved {
		t.Fatalf("case %d: what would do is not proved\n%+v", n, ask)
	}
	a := ask
	a.Tolerance = pattern.MaxAcross
	switch wide, ok := loosened(l, suggest.OfTolerance); {
	case !ok:
		if there(a) {
			t.Fatalf("case %d: some tolerance would do\n%+v", n, ask)
		}
	default:
		a.Tolerance = wide.Tolerance
		if !there(a) {
			t.Fatalf("case %d: tolerance %v would not do", n, a.Tolerance)
		}
		if a.Tolerance--; there(a) {
			t.Fatalf("case %d: less than tolerance %v would do\n%+v", n, wide.Tolerance, ask)
		}
	}
	var level *pattern.Level
	for lv := ask.Level + 1; lv <= pattern.TooMuch && level == nil; lv++ {
		a = ask
		if a.Level = lv; there(a) {
			level = &lv
		}
	}
	if worse, ok := loosened(l, suggest.OfLevel); ok != (level != nil) || ok && *level != worse.Level {
		t.Fatalf("case %d: level %v would do, said %v", n, level, worse.Level)
	}
	checkFloor(t, n, ask, l, there)
	a = ask
	a.Symmetric = false
	if _, ok := loosened(l, suggest.OfSymmetry); ok != (ask.Symmetric && there(a)) {
		t.Fatalf("case %d: symmetric: said %v", n, ok)
	}
	a = ask
	a.NoTwins = false
	if _, ok := loosened(l, suggest.OfNoTwins); ok != (ask.NoTwins && there(a)) {
		t.Fatalf("case %d: twins: said %v", n, ok)
	}
}

// loosened returns the request with a condition loosened as an answer says.
func loosened(l *suggest.Relaxation, of suggest.Condition) (suggest.Request, bool) {
	for _, way := range l.Ways {
		if way.Condition == of {
			return way.Request, true
		}
	}
	return suggest.Request{}, false
}

func checkFloor(t *testing.T, n int, ask suggest.Request, l *suggest.Relaxation, there func(suggest.Request) bool) {
	t.Helper()
	a := ask
	a.LeastContrast = 0
	switch less, ok := loosened(l, suggest.OfLeastContrast); {
	case ask.Aim != suggest.UseUp:
		if ok {
			t.Fatalf("case %d: a floor without one", n)
		}
	case !ok:
		if there(a) {
			t.Fatalf("case %d: some floor would do", n)
		}
	default:
		if a.LeastContrast = less.LeastContrast; !there(a) {
			t.Fatalf("case %d: floor %v would not do", n, a.LeastContrast)
		}
		if a.LeastContrast += 2e-6; there(a) {
			t.Fatalf("case %d: more than floor %v would do", n, less.LeastContrast)
		}
	}
}
