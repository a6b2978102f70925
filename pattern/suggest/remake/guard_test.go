package remake

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// drawAgain draws an ask to make a pattern again: few timbers for many, timber that lies
// near in colour, ready strips, faults, moisture that nobody measured, several copies.
func drawAgain(rng *rand.Rand) Request {
	a := randomAgain(rng)
	a.Answers, a.Copies = 1+rng.IntN(5), 1+rng.IntN(3)
	for i := range a.Rack.Pieces {
		p := &a.Rack.Pieces[i]
		if rng.IntN(3) == 0 { // more of a timber that is there, perhaps at another moisture
			p.Species = a.Rack.Pieces[rng.IntN(len(a.Rack.Pieces))].Species
		}
		if rng.IntN(4) == 0 { // one of the pattern itself
			p.Species = a.Pattern.Strips[rng.IntN(len(a.Pattern.Strips))].Species
		}
		p.Length += length.Length(rng.IntN(500)) * mm
		if rng.IntN(3) == 0 {
			at := length.Length(rng.IntN(int(p.Length/mm)-50)) * mm
			p.Faults = []rack.Fault{{From: at, To: at + 40*mm}}
		}
	}
	for i := range rng.IntN(3) {
		a.Rack.Strips = append(a.Rack.Strips, rack.Strip{ID: fmt.Sprint("S", i), Species: a.Rack.Pieces[rng.IntN(len(a.Rack.Pieces))].Species,
			Width: a.Pattern.Strips[rng.IntN(len(a.Pattern.Strips))].Width, Quantity: 1 + rng.IntN(3),
			Thickness: 24*mm + length.Length(rng.IntN(2)-1), Length: 320*mm + length.Length(rng.IntN(2)-1)})
	}
	return a
}

// everyWay returns how far each way of making a pattern again is from it, by its timbers.
// All are tried, and the whole panel is computed.
func everyWay(t *testing.T, r movement.Physics, a Request) map[string]float64 {
	t.Helper()
	var was, there []string
	for _, s := range a.Pattern.Strips {
		if !slices.Contains(was, s.Species) {
			was = append(was, s.Species)
		}
	}
	for _, e := range a.Rack.Entries() {
		if !slices.Contains(there, e.Species) {
			there = append(there, e.Species)
		}
	}
	ways := map[string]float64{}
	var try func(now []string)
	try = func(now []string) {
		if len(now) < len(was) {
			for _, key := range there {
				if !slices.Contains(now, key) {
					try(append(slices.Clone(now), key))
				}
			}
			return
		}
		p, away := a.Pattern, 0.0
		p.Strips = slices.Clone(p.Strips)
		for i := range p.Strips {
			s := &p.Strips[i]
			key := now[slices.Index(was, s.Species)]
			old, _ := r.Table().Get(s.Species)
			away += s.Width.MM() * species.Contrast(s.Colour.Or(old.ColourOiled), nowOf(r, a, key).ColourOiled)
			s.Species, s.Moisture, s.Rings, s.Colour = key, pattern.Reading{}, pattern.Rings{}, colour.Own{}
		}
		for i := 1; i < len(p.Strips); i++ {
			left, right := nowOf(r, a, p.Strips[i-1].Species), nowOf(r, a, p.Strips[i].Species)
			if left.Key != right.Key && left.Contrast(right) < r.Shop().Limits.Contrast {
				return
			}
		}
		job := cutting.Job{Rack: a.Rack, Shop: r.Shop(), Patterns: []cutting.Demand{{Stem: "p", Pattern: p, Copies: a.Copies}}}
		plan, err := solve.Plan(t.Context(), job, solve.Options{})
		if err != nil || plan.Short > 0 && plan.Status != cutting.Optimal {
			t.Fatalf("%v, %v: a job as small as this is proved", err, plan.Status)
		}
		if plan.Short == 0 && keepsTo(r, a, job, plan) {
			ways[strings.Join(now, " ")] = away
		}
	}
	try(nil)
	return ways
}

// againClaims reports what an answer claims that is not so.
func againClaims(r movement.Physics, ask Request, a Result, ways map[string]float64) error {
	away := []float64{}
	for _, w := range ways {
		away = append(away, w)
	}
	slices.Sort(away)
	seen := map[string]bool{}
	for i, s := range a.Answers {
		var now []string
		for _, t := range ask.Pattern.Strips {
			if key := s.Timbers[t.Species]; !slices.Contains(now, key) {
				now = append(now, key)
			}
		}
		key := strings.Join(now, " ")
		w, there := ways[key]
		switch {
		case !there || seen[key]:
			return fmt.Errorf("way %d, %s, is none, or comes twice: %v", i+1, key, seen[key])
		case math.Abs(w-s.ColourDistance) > 1e-6:
			return fmt.Errorf("way %d says it is %v away, it is %v", i+1, s.ColourDistance, w)
		case a.Status == suggest.Optimal && w > away[i]+awayWithin:
			return fmt.Errorf("way %d is %v away, the next best %v", i+1, w, away[i])
		}
		seen[key] = true
		if err := cutting.Verify(ask.Job(r, s), s.Plan); err != nil || s.Plan.Short > 0 {
			return fmt.Errorf("way %d: %d short, %w", i+1, s.Plan.Short, err)
		}
	}
	n := len(a.Answers)
	switch {
	case a.Status == suggest.Optimal && (n == 0 || n != min(ask.Answers, len(ways))), a.Status == suggest.Infeasible && len(ways) > 0,
		(a.Status == suggest.Infeasible || a.Status == suggest.Open) != (n == 0):
		return fmt.Errorf("%v with %d ways of %d, %d asked for", a.Status, n, len(ways), ask.Answers)
	case a.Broken != nil:
		return fmt.Errorf("it finds fault with itself: %w", a.Broken)
	}
	return nil
}

// TestGuardAgain is TestGuard for patterns made again.
func TestGuardAgain(t *testing.T) {
	asks := 66
	switch {
	case os.Getenv("ODDMENTS_NIGHTLY") != "":
		asks = 450
	case testing.Short():
		asks = 12
	}
	r, rng := physics(), rand.New(rand.NewPCG(21, 43))
	var proved, none, answers int
	for n := range asks {
		ask := drawAgain(rng)
		ways := everyWay(t, r, ask)
		a, err := Again(t.Context(), r, ask, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := againClaims(r, ask, a, ways); err != nil {
			t.Errorf("ask %d: %v\n%+v", n, err, ask)
		}
		if a.Status == suggest.Optimal || a.Status == suggest.Infeasible {
			proved++
		} else if ask.Level == pattern.TooMuch {
			t.Errorf("ask %d: %v where any level is allowed", n, a.Status)
		}
		if a.Status == suggest.Infeasible {
			none++
		}
		answers += len(a.Answers)
		looks := rng.IntN(30)
		stop := func() bool { looks--; return looks < 0 }
		early, err := newMatcher(r, ask, stop).seek(t.Context(), suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		early.uphold(r, ask)
		if err := againClaims(r, ask, early, ways); err != nil {
			t.Errorf("ask %d, stopped: %v\n%+v", n, err, ask)
		}
	}
	t.Logf("%-34s %4d asks, %4d proved, %4d of these infeasible; %4d ways", "made again", asks, proved, none, answers)
	if proved < asks*2/3 || none == asks || answers < asks/2 {
		t.Errorf("%d of %d asks are proved, %d of these infeasible", proved, asks, none)
	}
}
