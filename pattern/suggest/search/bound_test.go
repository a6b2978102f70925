package search

import (
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
)

// A bound is never below the best layout, whichever kinds are kept, and with all kinds
// kept it is that layout's worth to the unit. The best is found by trying all.
func TestBoundAgainstAllLayouts(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 4))
	r := physics()
	exact, symmetric, pinned, none := 0, 0, 0, 0
	for n := range 250 {
		ask := randomAsk(rng)
		ask.Strips = [2]int{2, 7} // the number of strips is priced, so it must not bind
		ask.Symmetric = rng.IntN(3) == 0
		stop, release := stopAt(t.Context())
		s, err := newSearch(r, ask, stop)
		if err != nil {
			t.Fatal(err)
		}
		if len(s.problems) != 1 || s.problems[0].hi < s.most() {
			release()
			continue
		}
		w := s.problems[0]
		target := target{alpha: int64(rng.IntN(2)), use: int64(rng.IntN(2))}
		best := bestWorth(r, ask, target)
		if _, b := w.tightening(s.graphOf(0), target, infeasible, stop).relax(); b.all() < best {
			t.Fatalf("case %d: bound %d at the prices of the relaxed walk, a layout is worth %d\n%+v", n, b.all(), best, ask)
		}
		for _, keep := range [][]int{nil, {rng.IntN(w.k)}, upTo(w.k)} {
			x := w.tightening(s.graphOf(0), target, infeasible, stop)
			met := false
			x.walked = func(kinds []int32) { met = true; checkWalked(t, s, kinds) }
			x.run(keep, infeasible, 30)
			got := x.best.all()
			if got < best {
				t.Fatalf("case %d keep %v: bound %d, a layout is worth %d\n%+v", n, keep, got, best, ask)
			}
			if len(keep) < w.k || w.lo > 2 || coarse(w) || len(s.couples) > 0 { // couples have budgets, whose prices are rounded
				continue
			}
			if exact++; got != best {
				t.Fatalf("case %d: bound %d with all kinds kept, the best is worth %d\n%+v", n, got, best, ask)
			}
			if best > infeasible && !met {
				t.Fatalf("case %d: the best walk has no more of a kind than there is, and was not told of", n)
			}
			if ask.Symmetric {
				symmetric++
			}
			if len(ask.Pinned) > 0 {
				pinned++
			}
			if best == infeasible {
				none++
			}
		}
		release()
	}
	t.Logf("%d exact: %d symmetric, %d pinned, %d without a layout", exact, symmetric, pinned, none)
	if exact < 120 || symmetric < 25 || pinned < 10 || none < 30 || exact-none < 60 {
		t.Error("too few cases of one sort")
	}
}

// bestWorth returns what the best of all layouts counts for t.
func bestWorth(r movement.Physics, ask suggest.Request, t target) int64 {
	every := newLookAll(r, ask)
	best := int64(infeasible)
	every.seen = func([]int) {}
	every.pairs = func(l []int) { // a bound knows nothing of levels in full
		w := every.worth(l)
		best = max(best, t.alpha*w.sum+t.use*int64(w.use))
	}
	every.run()
	return best
}

func upTo(n int) []int {
	var out []int
	for i := range n {
		out = append(out, i)
	}
	return out
}

// coarse reports whether cells are wider than what widths are multiples of.
func coarse(w *pathProblem) bool {
	unit := int64(0)
	for _, width := range w.width {
		unit = gcd(unit, width)
	}
	return w.whi/unit > finest
}

// checkWalked looks whether kinds may lie in this order.
func checkWalked(t *testing.T, s *search, kinds []int32) {
	t.Helper()
	for i := 1; i < len(kinds); i++ {
		if !s.beside(int(kinds[i-1]), int(kinds[i])) {
			t.Fatalf("kinds %d and %d lie side by side in %v", kinds[i-1], kinds[i], kinds)
		}
	}
	for i := range kinds {
		if s.ask.Symmetric && s.Kinds[kinds[i]].Class != s.Kinds[kinds[len(kinds)-1-i]].Class {
			t.Fatalf("%v is not symmetric", kinds)
		}
	}
}
