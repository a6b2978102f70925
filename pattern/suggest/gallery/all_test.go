package gallery

import (
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// byDayOrNight returns how many cases to try.
func byDayOrNight(day, night int) int {
	if os.Getenv("ODDMENTS_NIGHTLY") != "" {
		return night
	}
	return day
}

// every tries all rows of ready strips that a request allows, from the statement alone.
type every struct {
	r    movement.Physics
	ask  suggest.Request
	look look.Look
	have []suggest.ReadyStrips
	seen func([]suggest.Placed)
}

func (e *every) grow(row []suggest.Placed, left []int, wide length.Length) {
	least, most := e.ask.Limits()
	if wide > most || len(row) > e.ask.Strips[1] {
		return
	}
	if len(row) >= e.ask.Strips[0] && wide >= least && e.whole(row, wide) {
		e.seen(row)
	}
	for i, h := range e.have {
		next := suggest.Placed{Species: h.Species, Width: h.Width, Rings: h.Rings, UseFirst: h.UseFirst}
		if left[i] == 0 || len(row) > 0 && !e.beside(row[len(row)-1], next) {
			continue
		}
		left[i]--
		e.grow(append(row, next), left, wide+h.Width)
		left[i]++
	}
}

func (e *every) contrast(a, b suggest.Placed) float64 {
	x, _ := e.r.Table().Get(a.Species)
	y, _ := e.r.Table().Get(b.Species)
	return x.Contrast(y)
}

func (e *every) beside(a, b suggest.Placed) bool {
	floor := e.ask.LeastContrast
	if e.look == look.Fade {
		floor = min(4, floor)
	}
	return suggest.LineLevel(e.r, e.ask, a.Strip(), b.Strip()) <= e.ask.Level && !(e.ask.NoTwins && a.Species == b.Species) &&
		(e.ask.Aim != suggest.UseUp || e.contrast(a, b) >= floor)
}

func (e *every) whole(row []suggest.Placed, wide length.Length) bool {
	of := map[string]length.Length{}
	for _, p := range row {
		of[p.Species] += p.Width
	}
	if n := len(of); n < e.ask.Timbers[0] || e.ask.Timbers[1] > 0 && n > e.ask.Timbers[1] {
		return false
	}
	for _, key := range e.ask.With {
		if of[key] == 0 {
			return false
		}
	}
	for _, s := range e.ask.AtMost {
		if 100*of[s.Species].MM() > s.Pct*wide.MM() {
			return false
		}
	}
	return e.ask.Rules(e.r).Is(e.look, suggest.Seen(e.r, row)) && suggest.LevelOf(e.r, e.ask.Pattern(suggest.Layout{Strips: row})) <= e.ask.Level
}

func (e *every) merit(row []suggest.Placed) suggest.Merit {
	m := suggest.Merit{Least: math.MaxInt64}
	for i, p := range row {
		if p.UseFirst && e.ask.Aim == suggest.UseUp {
			m.Use += p.Width
		}
		if i > 0 {
			c := int64(math.Round(e.contrast(row[i-1], p) * suggest.PerContrast))
			m.Least, m.Sum = min(m.Least, c), m.Sum+c
		}
	}
	return m
}

// fresh reports whether the two timbers that each row before has most of, and those that look
// like them, make up half of a row at most.
func (e *every) fresh(row []suggest.Placed, before [][]suggest.Placed) bool {
	told := suggest.Told(e.r)
	for _, b := range before {
		of := map[string]length.Length{}
		for _, p := range b {
			of[p.Species] += p.Width
		}
		most := slices.Sorted(maps.Keys(of))
		slices.SortStableFunc(most, func(x, y string) int { return int(of[y] - of[x]) })
		like, wide := length.Length(0), length.Length(0)
		for _, p := range row {
			wide += p.Width
			if slices.ContainsFunc(most[:min(2, len(most))], func(key string) bool { return key == p.Species || !told(key, p.Species) }) {
				like += p.Width
			}
		}
		if 2*like > wide {
			return false
		}
	}
	return true
}

// smallAsk asks for the looks of a few ready strips.
func smallAsk(rng *rand.Rand) suggest.Request {
	keys := []string{"black_walnut", "hard_maple", "white_oak", "sapele", "purpleheart"}
	widths := []length.Length{8 * mm, 12 * mm, 20 * mm, 25 * mm}
	a := suggest.New(length.Length(70+rng.IntN(60))*mm, 22*mm, 400*mm)
	a.Tolerance, a.Strips = length.Length(3+rng.IntN(9))*mm, [2]int{3 + rng.IntN(2), 6 + rng.IntN(2)}
	a.Level = pattern.Level(1 + rng.IntN(2))
	a.Aim, a.LeastContrast = []suggest.Aim{suggest.Contrast, suggest.UseUp}[rng.IntN(2)], float64(rng.IntN(12))
	a.NoTwins = rng.IntN(4) == 0
	rings := []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsQuarter()}
	for range 4 + rng.IntN(2) {
		a.Have = append(a.Have, suggest.ReadyStrips{Species: keys[rng.IntN(len(keys))], Width: widths[rng.IntN(4)],
			Rings: rings[rng.IntN(3)], Count: 1 + rng.IntN(3), UseFirst: rng.IntN(3) == 0, Source: string(rune('a' + len(a.Have)))})
	}
	switch rng.IntN(6) {
	case 0:
		a.Timbers = [2]int{2 + rng.IntN(2), 3 + rng.IntN(2)}
	case 1:
		a.With = []string{a.Have[0].Species}
	case 2:
		a.AtMost = []suggest.Share{{Species: a.Have[0].Species, Pct: float64(20 + rng.IntN(40))}}
	}
	all := look.Looks()
	a.Looks, a.ApartPct = []look.Look{all[rng.IntN(7)], all[rng.IntN(7)]}, float64(10*rng.IntN(5))
	a.Layouts, a.Differ, a.Vary = 2, 1, rng.IntN(3) == 0
	return a
}

// Each layout of a gallery is the best of its look of those that look different enough from
// the one before, and what is left out cannot be had.
func TestAgainstAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 30))
	r := physics()
	cases := byDayOrNight(150, 900)
	with, unproved := map[look.Look]int{}, 0
	for n := range cases {
		ask := smallAsk(rng)
		got, err := Solve(t.Context(), r, ask, suggest.Options{LoosenFor: 1})
		if err != nil || got.Broken != nil {
			t.Fatalf("case %d: %v, %v\n%+v", n, err, got.Broken, ask)
		}
		if got.Status == suggest.Feasible || got.Status == suggest.Open {
			unproved++
			continue
		}
		var before [][]suggest.Placed
		for i, l := range ask.Looks {
			e := &every{r: r, ask: ask, look: l, have: ask.Have}
			var best, other suggest.Merit
			any, others := false, false
			e.seen = func(row []suggest.Placed) {
				for _, b := range before {
					if look.Apart(suggest.Seen(r, row), suggest.Seen(r, b), suggest.Told(r)) < ask.ApartPct ||
						ask.ApartPct == 0 && suggest.Apart(suggest.Layout{Strips: row}, suggest.Layout{Strips: b}) < ask.Differ {
						return
					}
				}
				m := e.merit(row)
				if !any || m.Compare(best) > 0 {
					best, any = m, true
				}
				if e.fresh(row, before) && (!others || m.Compare(other) > 0) {
					other, others = m, true
				}
			}
			left := make([]int, len(ask.Have))
			for j, h := range ask.Have {
				left[j] = h.Count
			}
			e.grow(nil, left, 0)
			if ask.Vary && others && (ask.Aim != suggest.UseUp || other.Use > 0 || best.Use == 0) {
				best = other
			}
			if !any {
				if !slices.ContainsFunc(got.LeftOut, func(o suggest.LeftOut) bool { return o.Look == l && o.Proved }) {
					t.Fatalf("case %d: there is no %v, left out %v\n%+v", n, l, got.LeftOut, ask)
				}
				continue
			}
			if len(got.Layouts) <= len(before) {
				t.Fatalf("case %d: no layout of look %d, %v; the best is worth %v\n%+v", n, i+1, l, best, ask)
			}
			layout := got.Layouts[len(before)]
			if m := e.merit(layout.Strips); layout.Look != l || m != best || !e.whole(layout.Strips, layout.Width) {
				t.Fatalf("case %d: look %d, %v, is worth %v, the best %v\n%+v\n%+v", n, i+1, layout.Look, m, best, layout.Strips, ask)
			}
			with[l]++
			before = append(before, layout.Strips)
		}
	}
	t.Logf("%d cases, %d not proved, layouts by look %v", cases, unproved, with)
	if unproved > cases/10 {
		t.Error("too many are not proved")
	}
	for _, l := range look.Looks() {
		if with[l] == 0 {
			t.Errorf("no layout is %v", l)
		}
	}
}

// A search that is stopped on its way, wherever that is, calls nothing proved that is not, and
// no look impossible that can be had.
func TestStoppedOnItsWay(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 30))
	proved := 0
	for n := range byDayOrNight(5, 150) {
		ask := smallAsk(rng)
		ask.Aim = ask.AimFor(physics().Shop())
		for _, l := range look.Looks() {
			seek := func(calls int) found {
				g := newGoods(physics(), ask, func() bool { return false })
				s, ok := g.newSeek(l, func() bool { calls--; return calls < 0 })
				if !ok {
					return found{proved: true}
				}
				return s.solve(t.Context())
			}
			whole := seek(math.MaxInt)
			if !whole.proved {
				continue
			}
			worth := func(f found) suggest.Merit {
				if f.layout == nil {
					return suggest.Merit{}
				}
				return (&every{r: physics(), ask: ask}).merit(f.layout.Strips)
			}
			for calls := 1; calls < 400; calls += 1 + calls/8 + rng.IntN(4) {
				got := seek(calls)
				if got.proved && (got.layout == nil) != (whole.layout == nil) || got.proved && worth(got) != worth(whole) {
					t.Fatalf("case %d, %v, stopped after %d looks at the clock: proved to be worth %v, it is %v\n%+v", n, l, calls, worth(got), worth(whole), ask)
				}
				if got.proved {
					proved++
				}
				if use := worth(whole).Use; !got.proved && whole.layout != nil && got.layout != nil && got.most.Use < use {
					t.Fatalf("case %d, %v, after %d: at most %v is said, %v is possible", n, l, calls, got.most.Use, use)
				}
			}
		}
	}
	if proved == 0 {
		t.Error("nothing was proved before the stop")
	}
}
