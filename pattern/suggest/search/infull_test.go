package search

import (
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// A layout keeps its level both by pairs and in full. Narrow strips move a good deal more
// at an edge, or beside their like, than two by two; what is best of those that keep both
// is found and proved all the same.
func TestLevelIsKeptInFull(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 23))
	sh := shoptest.Roomy()
	sh.Limits.StepUM = shop.Limit{Care: 12, Much: 25}
	r := movement.New(species.Builtin(), sh)
	cases, dearer, none := byDayOrNight(200, 800), 0, 0
	for n := range cases {
		ask := randomAsk(rng)
		for i := range ask.Have {
			ask.Have[i].Width = length.Length(4+3*rng.IntN(3)) * mm
			ask.Have[i].Moisture = pattern.Reading{}
		}
		ask.Pinned, ask.Level, ask.Layouts = nil, pattern.Level(rng.IntN(2)), 1
		ask.Width, ask.Strips = length.Length(20+rng.IntN(20))*mm, [2]int{2, 7}
		answer, err := Solve(t.Context(), r, ask, suggest.Options{LoosenFor: 1})
		if err != nil {
			t.Fatal(err)
		}
		all := newLookAll(r, ask)
		var best, pairs worth
		any, anyPairs := false, false
		all.pairs = func(l []int) {
			if w := all.worth(l); !anyPairs || w.better(pairs) {
				pairs, anyPairs = w, true
			}
		}
		all.seen = func(l []int) {
			if w := all.worth(l); !any || w.better(best) {
				best, any = w, true
			}
		}
		all.run()
		if any != (len(answer.Layouts) == 1) || answer.Status == suggest.Feasible || answer.Status == suggest.Open {
			t.Fatalf("case %d: a layout there is: %v, answer %v\n%+v", n, any, answer.Status, ask)
		}
		if any && all.worth(all.of(t, answer.Layouts[0])) != best {
			t.Fatalf("case %d: worth %v, the best %v\n%+v", n, all.worth(all.of(t, answer.Layouts[0])), best, ask)
		}
		if any && pairs.better(best) {
			dearer++
		}
		if anyPairs && !any {
			none++
		}
	}
	t.Logf("%d cases: in %d a better layout keeps to the level by pairs alone, in %d any", cases, dearer, none)
	if dearer < cases/60 || none < cases/60 {
		t.Error("too few cases of one sort")
	}
}
