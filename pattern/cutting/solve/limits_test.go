package solve

import (
	"fmt"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
)

// Whatever can be cut keeps to every limit, and draws no less than any floor.
func TestLimitsHold(t *testing.T) {
	const most = 3
	fitting, tight := 0, 0
	for seed := range uint64(8) {
		job := cutting.Job{}
		for n := range 2 {
			one := solvetest.RandomJob(seed*10+uint64(n), 4, 4, 1)
			job.Rack, job.Shop = one.Rack, one.Shop
			job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprint("p", n), Pattern: one.Patterns[0].Pattern, Copies: most})
		}
		limits, release, err := NewLimits(t.Context(), job)
		if err != nil {
			t.Fatal(err)
		}
		var all []Limit
		var floors []Floor
		for a := range 2*most + 1 {
			for b := range 2*most + 1 {
				if l, ok := limits.Break([]float64{float64(a) / 2, float64(b) / 2}); ok {
					if l.Slack([]int{most, most}) >= 0 && l.Slack([]int{(a + 1) / 2, (b + 1) / 2}) >= 0 {
						t.Errorf("seed %d: %+v is not broken by %d and %d halves", seed, l, a, b)
					}
					all = append(all, l)
				}
				if a%2+b%2 == 0 {
					floors = append(floors, limits.Floor([]int{a / 2, b / 2}))
				}
			}
		}
		release()
		for a := range most + 1 {
			for b := range most + 1 {
				if a+b == 0 {
					continue
				}
				of := job
				of.Patterns = []cutting.Demand{job.Patterns[0], job.Patterns[1]}
				of.Patterns[0].Copies, of.Patterns[1].Copies = max(1, a), max(1, b)
				if a == 0 {
					of.Patterns = of.Patterns[1:]
				} else if b == 0 {
					of.Patterns = of.Patterns[:1]
				}
				plan, err := Plan(t.Context(), of, Options{})
				if err != nil {
					t.Fatal(err)
				}
				if plan.Short > 0 {
					continue
				}
				fitting++
				for _, l := range all {
					if l.Slack([]int{a, b}) < 0 {
						t.Errorf("seed %d: %d and %d can be cut and break %+v", seed, a, b, l)
					}
				}
				for _, f := range floors {
					if least := f.Of([]int{a, b}); least > plan.DrawnCM3+1e-6 {
						t.Errorf("seed %d: %d and %d draw %g, and a floor says %g", seed, a, b, plan.DrawnCM3, least)
					} else if least > 0.9*plan.DrawnCM3 {
						tight++
					}
				}
			}
		}
	}
	if fitting < 20 || tight < fitting/2 {
		t.Errorf("only %d choices fit, %d floors near", fitting, tight)
	}
}
