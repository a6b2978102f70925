package search

import (
	"context"
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
)

// What is found soon keeps to all that is asked for, its plan is whole, it is never
// better than the best, and it says that nothing is proved of it.
func TestFoundSoonKeepsTheRules(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 7))
	r := physics()
	soon := 0
	for n := range byDayOrNight(100, 300) {
		a := randomRough(rng)
		if rng.IntN(4) == 0 {
			a.Pinned = []suggest.Pin{{Place: 1, Strip: pattern.Strip{Species: "hard_maple", Width: 30 * mm}}}
		}
		if n%2 == 0 {
			a = randomAsk(rng)
		}
		a.Aim, a.Differ = []suggest.Aim{suggest.UseUp, suggest.Contrast}[rng.IntN(2)], 1+rng.IntN(4)
		best, err := Solve(t.Context(), r, a, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithCancel(t.Context())
		stop, release := stopAt(ctx)
		s, err := newSearch(r, a, stop)
		if err != nil {
			t.Fatal(err)
		}
		got, early := suggest.Result{Status: suggest.Open}, s.findSoon(ctx)
		early.answerFar(ctx)
		fillUp(&got, a, early.found)
		release()
		cancel()
		if len(got.Layouts) > 0 && (len(best.Layouts) == 0 || got.Status != suggest.Feasible) {
			t.Fatalf("case %d: %d layouts (%v) where the search says %v", n, len(got.Layouts), got.Status, best.Status)
		}
		for i, l := range got.Layouts {
			soon++
			if l.Proved || a.Aim.Compare(l, best.Layouts[0]) < 0 && best.Layouts[0].Proved {
				t.Fatalf("case %d: %+v is better than the best, or says that it is proved: %+v\n%+v", n, l, best, a)
			}
			checkRules(t, a, l)
			for _, other := range got.Layouts[:i] {
				if suggest.Apart(l, other) < a.Differ {
					t.Fatalf("case %d: two layouts differ by %d strips", n, suggest.Apart(l, other))
				}
			}
		}
	}
	if soon < 30 {
		t.Fatalf("only %d layouts were found soon", soon)
	}
}

// checkRules looks whether a layout keeps to what is asked for.
func checkRules(t *testing.T, a suggest.Request, l suggest.Layout) {
	t.Helper()
	var width length.Length
	p := a.Pattern(l)
	for i, s := range p.Strips {
		width += s.Width
		if i == 0 {
			continue
		}
		if a.NoTwins && s.Species == p.Strips[i-1].Species {
			t.Fatalf("twins in %+v", l.Strips)
		}
		if suggest.LineLevel(physics(), a, p.Strips[i-1], s) > a.Level {
			t.Fatalf("line %d is too bad in %+v", i, l.Strips)
		}
	}
	n := len(l.Strips)
	if width != l.Width || width < a.Width-a.Tolerance || width > a.Width+a.Tolerance || n < a.Strips[0] || n > a.Strips[1] ||
		a.Aim == suggest.UseUp && l.SmallestContrast < a.LeastContrast || a.Symmetric && !l.Mirror() {
		t.Fatalf("%+v breaks what is asked for: %+v", l, a)
	}
	for _, pin := range a.Pinned {
		if s := l.Strips[pin.Place-1]; s.Species != pin.Strip.Species || s.Width != pin.Strip.Width {
			t.Fatalf("strip %d is %+v, pinned is %+v", pin.Place, s, pin.Strip)
		}
	}
	if len(a.Widths) > 0 && (l.Plan == nil || l.Plan.Short > 0 || l.Plan.Status == cutting.Optimal && len(l.Plan.Cuts) > 0) {
		t.Fatalf("plan %+v", l.Plan)
	}
}

// Where layouts are to differ by a good deal, those without one timber or another are
// there soon, and stand behind what the search itself finds.
func TestFarApart(t *testing.T) {
	a := suggest.New(300*mm, 22*mm, 450*mm)
	a.Widths, a.Aim, a.Differ = []length.Length{20 * mm, 25 * mm}, suggest.Contrast, 6
	a.Rack = pileOfPieces(12)
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	answer, err := Solve(ctx, physics(), a, suggest.Options{Progress: func(p suggest.Progress) {
		if p.Layouts > 0 { // what comes further is long in coming
			cancel()
		}
	}})
	if err != nil || answer.Status != suggest.Feasible || len(answer.Layouts) < 3 || !answer.Layouts[0].Proved {
		t.Fatalf("%d layouts, %v, %v", len(answer.Layouts), answer.Status, err)
	}
	for i, l := range answer.Layouts {
		for _, other := range answer.Layouts[:i] {
			if got := suggest.Apart(l, other); got < a.Differ {
				t.Errorf("two layouts differ by %d strips", got)
			}
		}
		if i > 1 && a.Aim.Compare(answer.Layouts[i-1], l) > 0 {
			t.Errorf("layout %d is better than the one before it", i+1)
		}
	}
}

// A large pile gives layouts at its first word, long before its best is proved, and
// what is ended then still has them.
func TestFirstWordHasLayouts(t *testing.T) {
	a := suggest.New(300*mm, 22*mm, 450*mm)
	a.Widths = []length.Length{17 * mm, 20 * mm, 25 * mm, 31 * mm}
	pile := pileOfPieces(14)
	a.Rack = pile
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	first := -1
	answer, err := Solve(ctx, physics(), a, suggest.Options{Progress: func(p suggest.Progress) {
		if first < 0 {
			first = len(p.Found)
			cancel()
		}
	}})
	if err != nil || first < 1 || len(answer.Layouts) < first || answer.Status != suggest.Feasible {
		t.Errorf("first word %d layouts, then %d: %v, %v", first, len(answer.Layouts), answer.Status, err)
	}
	for _, l := range answer.Layouts {
		checkRules(t, a, l)
	}
}
