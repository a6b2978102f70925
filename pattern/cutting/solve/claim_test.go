package solve

import (
	"context"
	"errors"
	"reflect"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/rack"
)

// broken returns what broke in a plan.
func broken(t *testing.T, plan cutting.Plan) *cutting.Broken {
	t.Helper()
	var b *cutting.Broken
	if !errors.As(plan.Broken, &b) {
		t.Fatalf("broken: %v; nothing was found in %v, %d short, %v cm3, bound %v", plan.Broken, plan.Status, plan.Short, plan.DrawnCM3, plan.LowerBoundCM3)
	}
	return b
}

// withoutClaim fails unless the plan can be cut and nothing is claimed of it.
func withoutClaim(t *testing.T, job cutting.Job, plan cutting.Plan) {
	t.Helper()
	if plan.Status != cutting.Feasible || plan.LowerBoundCM3 != 0 || plan.Claim() != (cutting.Claim{}) {
		t.Errorf("%v, bound %v, %+v: something is claimed", plan.Status, plan.LowerBoundCM3, plan.Claim())
	}
	if err := cutting.Verify(job, plan); err != nil {
		t.Error(err)
	}
}

// A solver that takes what it has for proved is found out when it comes upon better,
// whatever the timber, and no bound above what is drawn is told on the way.
func TestFalseClaimsOfTheSearch(t *testing.T) {
	caught := 0
	for seed := range uint64(12) {
		job := solvetest.RandomJob(seed, 40, 60, 3)
		for name, c := range map[string]struct {
			lie  func(*solver)
			kind cutting.Contradiction
		}{
			"a bound": {func(s *solver) { s.bound = s.best.cost - s.best.cost/200 }, cutting.Undercut},
			"fewest":  {func(s *solver) { s.best, s.fewest = s.full.nothing(), s.full.nothing().missing > 0 }, cutting.Fewer},
		} {
			var liar *solver
			lied, short := int64(0), int32(0)
			plan, err := Plan(context.Background(), job, Options{
				Progress: func(p cutting.Progress) {
					if p.LowerBoundCM3 > p.DrawnCM3 {
						t.Errorf("told %+v", p)
					}
				},
				tamper: func(all []*solver) {
					liar = all[0]
					liar.step()
					c.lie(liar)
					lied, short = liar.bound, liar.best.missing
				}})
			if err != nil {
				t.Fatal(err)
			}
			if plan.Broken == nil {
				if name == "fewest" || liar.best.missing == short && liar.best.cost < lied {
					t.Errorf("seed %d, %s: nobody was told", seed, name)
				}
				continue // nothing better was come upon
			}
			caught++
			withoutClaim(t, job, plan)
			b := broken(t, plan)
			if b.Kind != c.kind || b.Species != cutting.Needs(job)[0].Species || b.Found >= b.Claimed || !reflect.DeepEqual(b.Job, job) {
				t.Errorf("seed %d, %s: %+v", seed, name, b.Error())
			}
		}
	}
	if caught < 16 {
		t.Errorf("%d lies were met: too few for a test", caught)
	}
}

// A bound above a solution that is there is no bound, whatever has proved it.
func TestBoundAboveASolution(t *testing.T) {
	job := solvetest.RandomJob(1, 17, 40, 1)
	s := newSolver(sortTimbers(job, cutting.Choices(job))[0], sections.Stopper{}, func(note) {}, nil)
	for range 3 {
		s.step()
	}
	s.raise(s.best.cost + 1)
	if a := s.answer(); a.broken == nil || a.broken.Kind != cutting.Undercut || a.proved || a.bound != 0 {
		t.Errorf("%+v, proved %v, bound %d", a.broken, a.proved, a.bound)
	}
	if s.step() {
		t.Error("it goes on from a contradiction")
	}
}

// What timbers answer is held against the plan, the first mistake told of.
func TestFalseAnswers(t *testing.T) {
	job := solvetest.RandomJob(2, 30, 60, 3)
	choices := cutting.Choices(job)
	timbers := sortTimbers(job, choices)
	var honest []answer
	for _, tm := range timbers {
		s := newSolver(tm, sections.Stopper{}, func(note) {}, nil)
		for s.step() {
		}
		honest = append(honest, s.answer())
	}
	plan, err := finish(job, choices, timbers, honest)
	if err != nil || plan.Broken != nil || plan.Status != cutting.Optimal || plan.Claim().Sure != cutting.Least {
		t.Fatalf("%v, %v, %v", err, plan.Broken, plan.Status)
	}
	last := len(timbers) - 1
	for name, c := range map[string]struct {
		lie  func(*answer)
		kind cutting.Contradiction
	}{
		"bound above":     {func(a *answer) { a.bound++ }, cutting.Undercut},
		"proved by less":  {func(a *answer) { a.bound-- }, cutting.NotTheLeast},
		"cost too small":  {func(a *answer) { a.cost -= 1000; a.bound = a.cost }, cutting.OtherDrawn},
		"cost too great":  {func(a *answer) { a.cost += 1000; a.bound = a.cost }, cutting.OtherDrawn},
		"broken on a way": {func(a *answer) { a.broken = &cutting.Broken{Kind: cutting.Fewer, Claimed: 2, Found: 1} }, cutting.Fewer},
	} {
		t.Run(name, func(t *testing.T) {
			answers := append([]answer(nil), honest...)
			c.lie(&answers[last])
			plan, err := finish(job, choices, timbers, answers)
			if err != nil {
				t.Fatal(err)
			}
			withoutClaim(t, job, plan)
			if b := broken(t, plan); b.Kind != c.kind || !reflect.DeepEqual(b.Job, job) || strings.Contains(b.Error(), "contradiction(") {
				t.Errorf("%v: %v", b.Kind, b)
			}
		})
	}
	// Without a proof, and with one of a smaller bound, nothing is wrong.
	honest[last].proved = false
	honest[last].bound -= 5_000_000
	plan, err = finish(job, choices, timbers, honest)
	if err != nil || plan.Broken != nil || plan.Status != cutting.Feasible || plan.LowerBoundCM3 <= 0 || plan.LowerBoundCM3 > plan.DrawnCM3-4.9 {
		t.Errorf("%v, %v, %v, %v cm3, bound %v", err, plan.Broken, plan.Status, plan.DrawnCM3, plan.LowerBoundCM3)
	}
}

// A search that believes a piece to be longer than it is makes a plan that cannot be cut.
// There is none then, and the error says what is wrong with it and has the job.
func TestUnfitPlanIsNoPlan(t *testing.T) {
	job := solvetest.HandJob(rack.Piece{Length: 330 * mm, Width: 32 * mm, Thickness: 30 * mm}) // one of the two strips
	if plan := mustSolve(t, job); plan.Short != 1 {
		t.Fatalf("%d short", plan.Short)
	}
	plan, err := Plan(context.Background(), job, Options{tamper: func(all []*solver) {
		for _, s := range all {
			for i := range s.t.stocks {
				s.t.stocks[i].costs.Span += 310 * mm
			}
		}
	}})
	var b *cutting.Broken
	if !errors.As(err, &b) || b.Kind != cutting.Unfit || b.Err == nil || !reflect.DeepEqual(b.Job, job) || !strings.Contains(b.Error(), b.Err.Error()) {
		t.Fatalf("%v", err)
	}
	if len(plan.Cuts) > 0 || plan.Status == cutting.Optimal {
		t.Errorf("a plan is given all the same: %+v", plan)
	}
}

// A plan from a part is held against the least from the whole.
func TestAgainstTheWhole(t *testing.T) {
	job := cutting.Job{Patterns: []cutting.Demand{{Stem: "p", Pattern: pattern.Pattern{Strips: make([]pattern.Strip, 4)}, Copies: 1}}}
	plan := func(status cutting.Status, drawn, bound float64) cutting.Plan {
		return cutting.Plan{Status: status, DrawnCM3: drawn, LowerBoundCM3: bound}
	}
	failed := plan(cutting.Feasible, 90, 0)
	failed.Broken = &cutting.Broken{Kind: cutting.Fewer}
	for name, c := range map[string]struct {
		p, least cutting.Plan
		status   cutting.Status
		bound    float64
		broken   bool
	}{
		"as little as the least":    {plan(cutting.Optimal, 100, 100), plan(cutting.Optimal, 100, 100), cutting.Optimal, 100, false},
		"a rounding above":          {plan(cutting.Optimal, 100+5e-6, 100), plan(cutting.Optimal, 100, 100), cutting.Optimal, 100 + 5e-6, false},
		"a rounding below":          {plan(cutting.Optimal, 100-5e-6, 100), plan(cutting.Optimal, 100, 100), cutting.Optimal, 100 - 5e-6, false},
		"more":                      {plan(cutting.Optimal, 110, 110), plan(cutting.Optimal, 100, 100), cutting.Feasible, 100, false},
		"above a bound":             {plan(cutting.Optimal, 110, 110), plan(cutting.Feasible, 120, 90), cutting.Feasible, 90, false},
		"less than the least":       {plan(cutting.Optimal, 99, 99), plan(cutting.Optimal, 100, 100), cutting.Feasible, 0, true},
		"less than a bound":         {plan(cutting.Optimal, 90-1e-6, 90), plan(cutting.Feasible, 120, 90), cutting.Feasible, 0, true},
		"the whole's claims broke":  {plan(cutting.Optimal, 100, 100), failed, cutting.Feasible, 0, true},
		"its own claims broke":      {failed, plan(cutting.Optimal, 90, 90), cutting.Feasible, 0, true},
		"of the whole nothing said": {plan(cutting.Optimal, 100, 100), plan(cutting.Feasible, 120, 0), cutting.Feasible, 0, false},
	} {
		got := Against(job, c.p, c.least)
		if got.Status != c.status || got.LowerBoundCM3 != c.bound || (got.Broken != nil) != c.broken || got.DrawnCM3 != c.p.DrawnCM3 {
			t.Errorf("%s: %v, bound %v, %v", name, got.Status, got.LowerBoundCM3, got.Broken)
		}
	}
}
