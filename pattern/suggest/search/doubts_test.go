package search

import (
	"errors"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// A plan that draws less than what is proved that every plan does is told of, and nothing
// is claimed of it, whatever was proved of it in its own timber.
func TestPlanUnderTheLeast(t *testing.T) {
	r := physics()
	a := suggest.New(60*mm, 22*mm, 450*mm)
	a.Widths, a.Strips, a.Layouts, a.Tolerance, a.Aim = []length.Length{30 * mm}, [2]int{2, 2}, 1, 0, suggest.Contrast
	for _, species := range []string{"black_walnut", "hard_maple"} {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: species, Species: species, Length: 700 * mm, Width: 60 * mm, Thickness: 34 * mm, Quantity: 1})
	}
	answer := solved(t, r, a)
	l := &answer.Layouts[0]
	if answer.Broken != nil || l.Plan.Broken != nil || l.Plan.Claim().Sure != cutting.Least || !l.LeastOfTimber {
		t.Fatalf("%v, %v, %+v", answer.Broken, l.Plan.Broken, l.Plan.Claim())
	}
	l.Plan.DrawnCM3 -= 0.01
	err := settle(t.Context(), &answer, a, r)
	var broken *cutting.Broken
	if !errors.As(err, &broken) || broken.Kind != cutting.Undercut || len(broken.Job.Patterns) != 1 || len(broken.Job.Rack.Pieces) != 2 {
		t.Fatalf("%v", err)
	}
	if l.Plan.Broken != err || l.Plan.Claim().Sure != cutting.Unproved || l.Plan.Status != cutting.Feasible || l.LeastOfTimber || answer.Sure(*l) == suggest.AllProved {
		t.Errorf("%v, %+v, %v", l.Plan.Broken, l.Plan.Claim(), l.LeastOfTimber)
	}
}

// A plan that cannot be cut is none: everything counts as short, and nothing as proved.
// Any other error is one.
func TestNoPlan(t *testing.T) {
	unfit := &cutting.Broken{Kind: cutting.Unfit, Err: errors.New("too wide")}
	if plan, ok := suggest.NoPlan(7, unfit); !ok || plan.Short != 7 || plan.Status != cutting.Feasible || plan.Broken != error(unfit) {
		t.Errorf("%v, %+v", ok, plan)
	}
	if plan, ok := suggest.NoPlan(7, errors.New("an id is there twice")); ok || plan.Short != 0 {
		t.Errorf("%v, %+v", ok, plan)
	}
	var d doubts
	d.note(nil)
	d.note(unfit)
	d.note(errors.New("later"))
	if d.first != error(unfit) {
		t.Errorf("the first is %v", d.first)
	}
}
