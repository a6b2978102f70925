package suggest

import (
	"sync/atomic"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

// Work on rough pieces that ends before anything is proved hands out its drafts: whole
// plans, in order, far enough apart, and nothing said to be proved.
func TestDraftsAreHandedOut(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	r := movement.New(species.Builtin(), demo.Shop)
	a := New(300*mm, 22*mm, 450*mm)
	a.Widths, a.Rack, a.Layouts = []length.Length{20 * mm, 25 * mm}, demo.Rack, 3
	flag := new(atomic.Bool)
	s, err := newSearch(r, a, stopper{flag})
	if err != nil {
		t.Fatal(err)
	}
	drafts := s.drafts(t.Context())
	if len(drafts) != 3 || len(s.priors) != 0 || s.hasty {
		t.Fatalf("%d drafts, %d priors", len(drafts), len(s.priors))
	}
	flag.Store(true)
	answer := Answer{Status: Optimal, Aim: s.ask.Aim, Layouts: []Layout{}}
	s.close(&answer, s.next(pick{}), drafts)
	answer.order()
	if answer.Status != Feasible || answer.Bound == nil || len(answer.Layouts) == 0 {
		t.Fatalf("%v, bound %v, %d layouts", answer.Status, answer.Bound, len(answer.Layouts))
	}
	for i, l := range answer.Layouts {
		job := s.ask.Job(r, l)
		if l.Proved || l.Plan == nil || l.Plan.Short > 0 || cutting.Verify(job, *l.Plan) != nil {
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
