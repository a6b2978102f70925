package search

import (
	"context"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// Work on rough pieces that ends long before anything is proved hands out what was
// found soon: whole plans, in order, within the bound, and nothing said to be proved.
func TestFoundSoonIsHandedOut(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	r := movement.New(species.Builtin(), demo.Shop)
	a := suggest.New(300*mm, 22*mm, 450*mm)
	a.Widths, a.Rack, a.Layouts = []length.Length{20 * mm, 25 * mm}, demo.Rack, 1
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	answer, err := Solve(ctx, r, a, suggest.Options{Progress: func(p suggest.Progress) {
		if len(p.Found) > 0 {
			stop()
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	if answer.Status != suggest.Feasible || answer.Bound == nil || len(answer.Layouts) != 1 {
		t.Fatalf("%v, bound %v, %d layouts", answer.Status, answer.Bound, len(answer.Layouts))
	}
	for i, l := range answer.Layouts {
		if job := a.Job(r, l); l.Proved || l.Plan == nil || l.Plan.Short > 0 || cutting.Verify(job, *l.Plan) != nil {
			t.Errorf("layout %d: proved %v, plan %+v", i+1, l.Proved, l.Plan)
		}
		if i > 0 && l.UseFirst > answer.Layouts[i-1].UseFirst {
			t.Errorf("layout %d uses %v first, the one before %v", i+1, l.UseFirst, answer.Layouts[i-1].UseFirst)
		}
		if l.UseFirst > answer.Bound.UseFirst {
			t.Errorf("layout %d uses %v first, above the bound %v", i+1, l.UseFirst, answer.Bound.UseFirst)
		}
	}
}
