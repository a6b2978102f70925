package cutting

import (
	"context"
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// broken returns what broke in a plan.
func broken(t *testing.T, plan Plan) *Broken {
	t.Helper()
	var b *Broken
	if !errors.As(plan.Broken, &b) {
		t.Fatalf("broken: %v; nothing was found in %v, %d short, %v cm3, bound %v", plan.Broken, plan.Status, plan.Short, plan.DrawnCM3, plan.LowerBoundCM3)
	}
	return b
}

// withoutClaim fails unless the plan can be cut and nothing is claimed of it.
func withoutClaim(t *testing.T, job Job, plan Plan) {
	t.Helper()
	if plan.Status != Feasible || plan.LowerBoundCM3 != 0 || plan.Claim() != (Claim{}) {
		t.Errorf("%v, bound %v, %+v: something is claimed", plan.Status, plan.LowerBoundCM3, plan.Claim())
	}
	if err := Verify(job, plan); err != nil {
		t.Error(err)
	}
}

// A solver that takes what it has for proved is found out when it comes upon better,
// whatever the timber, and no bound above what is drawn is told on the way.
func TestFalseClaimsOfTheSearch(t *testing.T) {
	caught := 0
	for seed := range uint64(12) {
		job := randomJob(seed, 40, 60, 3)
		for name, c := range map[string]struct {
			lie  func(*solver)
			kind Contradiction
		}{
			"a bound": {func(s *solver) { s.bound = s.best.cost - s.best.cost/200 }, Undercut},
			"fewest":  {func(s *solver) { s.best, s.fewest = s.full.nothing(), s.full.nothing().missing > 0 }, Fewer},
		} {
			var liar *solver
			lied, short := int64(0), int32(0)
			plan, err := Solve(context.Background(), job, Options{
				Progress: func(p Progress) {
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
			if b.Kind != c.kind || b.Species != Needs(job)[0].Species || b.Found >= b.Claimed || !reflect.DeepEqual(b.Job, job) {
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
	job := randomJob(1, 17, 40, 1)
	s := newSolver(sortTimbers(job, Needs(job))[0], stopper{}, func(note) {}, nil)
	for range 3 {
		s.step()
	}
	s.raise(s.best.cost + 1)
	if a := s.answer(); a.broken == nil || a.broken.Kind != Undercut || a.proved || a.bound != 0 {
		t.Errorf("%+v, proved %v, bound %d", a.broken, a.proved, a.bound)
	}
	if s.step() {
		t.Error("it goes on from a contradiction")
	}
}

// What timbers answer is held against the plan, the first mistake told of.
func TestFalseAnswers(t *testing.T) {
	job := randomJob(2, 30, 60, 3)
	needs := Needs(job)
	timbers := sortTimbers(job, needs)
	var honest []answer
	for _, tm := range timbers {
		s := newSolver(tm, stopper{}, func(note) {}, nil)
		for s.step() {
		}
		honest = append(honest, s.answer())
	}
	plan, err := finish(job, needs, timbers, honest)
	if err != nil || plan.Broken != nil || plan.Status != Optimal || plan.Claim().Sure != Least {
		t.Fatalf("%v, %v, %v", err, plan.Broken, plan.Status)
	}
	last := len(timbers) - 1
	for name, c := range map[string]struct {
		lie  func(*answer)
		kind Contradiction
	}{
		"bound above":     {func(a *answer) { a.bound++ }, Undercut},
		"proved by less":  {func(a *answer) { a.bound-- }, NotTheLeast},
		"cost too small":  {func(a *answer) { a.cost -= 1000; a.bound = a.cost }, OtherDrawn},
		"cost too great":  {func(a *answer) { a.cost += 1000; a.bound = a.cost }, OtherDrawn},
		"broken on a way": {func(a *answer) { a.broken = &Broken{Kind: Fewer, Claimed: 2, Found: 1} }, Fewer},
	} {
		t.Run(name, func(t *testing.T) {
			answers := append([]answer(nil), honest...)
			c.lie(&answers[last])
			plan, err := finish(job, needs, timbers, answers)
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
	plan, err = finish(job, needs, timbers, honest)
	if err != nil || plan.Broken != nil || plan.Status != Feasible || plan.LowerBoundCM3 <= 0 || plan.LowerBoundCM3 > plan.DrawnCM3-4.9 {
		t.Errorf("%v, %v, %v, %v cm3, bound %v", err, plan.Broken, plan.Status, plan.DrawnCM3, plan.LowerBoundCM3)
	}
}

// A search that believes a piece to be longer than it is makes a plan that cannot be cut.
// There is none then, and the error says what is wrong with it and has the job.
func TestUnfitPlanIsNoPlan(t *testing.T) {
	job := handJob(rack.Piece{Length: 330 * mm, Width: 32 * mm, Thickness: 30 * mm}) // one of the two strips
	if plan := mustSolve(t, job); plan.Short != 1 {
		t.Fatalf("%d short", plan.Short)
	}
	plan, err := Solve(context.Background(), job, Options{tamper: func(all []*solver) {
		for _, s := range all {
			for i := range s.t.stocks {
				s.t.stocks[i].costs.span += 310 * mm
			}
		}
	}})
	var b *Broken
	if !errors.As(err, &b) || b.Kind != Unfit || b.Err == nil || !reflect.DeepEqual(b.Job, job) || !strings.Contains(b.Error(), b.Err.Error()) {
		t.Fatalf("%v", err)
	}
	if len(plan.Cuts) > 0 || plan.Status == Optimal {
		t.Errorf("a plan is given all the same: %+v", plan)
	}
}

// The ways out say that they are not sure where a claim broke on the way.
func TestWaysOutDoubt(t *testing.T) {
	w := &wayfinder{sure: true}
	first := &Broken{Kind: Fewer}
	w.doubt(nil)
	if !w.sure || w.broken != nil {
		t.Error("in doubt without a reason")
	}
	w.doubt(first)
	w.doubt(&Broken{Kind: Unfit})
	if w.sure || w.broken != error(first) {
		t.Errorf("sure %v, %v", w.sure, w.broken)
	}
}

// A plan from a part is held against the least from the whole.
func TestAgainstTheWhole(t *testing.T) {
	job := Job{Patterns: []Demand{{Stem: "p", Pattern: pattern.Pattern{Strips: make([]pattern.Strip, 4)}, Copies: 1}}}
	plan := func(status Status, drawn, bound float64) Plan {
		return Plan{Status: status, DrawnCM3: drawn, LowerBoundCM3: bound}
	}
	failed := plan(Feasible, 90, 0)
	failed.Broken = &Broken{Kind: Fewer}
	for name, c := range map[string]struct {
		p, least Plan
		status   Status
		bound    float64
		broken   bool
	}{
		"as little as the least":    {plan(Optimal, 100, 100), plan(Optimal, 100, 100), Optimal, 100, false},
		"a rounding above":          {plan(Optimal, 100+5e-6, 100), plan(Optimal, 100, 100), Optimal, 100 + 5e-6, false},
		"a rounding below":          {plan(Optimal, 100-5e-6, 100), plan(Optimal, 100, 100), Optimal, 100 - 5e-6, false},
		"more":                      {plan(Optimal, 110, 110), plan(Optimal, 100, 100), Feasible, 100, false},
		"above a bound":             {plan(Optimal, 110, 110), plan(Feasible, 120, 90), Feasible, 90, false},
		"less than the least":       {plan(Optimal, 99, 99), plan(Optimal, 100, 100), Feasible, 0, true},
		"less than a bound":         {plan(Optimal, 90-1e-6, 90), plan(Feasible, 120, 90), Feasible, 0, true},
		"the whole's claims broke":  {plan(Optimal, 100, 100), failed, Feasible, 0, true},
		"its own claims broke":      {failed, plan(Optimal, 90, 90), Feasible, 0, true},
		"of the whole nothing said": {plan(Optimal, 100, 100), plan(Feasible, 120, 0), Feasible, 0, false},
	} {
		got := Against(job, c.p, c.least)
		if got.Status != c.status || got.LowerBoundCM3 != c.bound || (got.Broken != nil) != c.broken || got.DrawnCM3 != c.p.DrawnCM3 {
			t.Errorf("%s: %v, bound %v, %v", name, got.Status, got.LowerBoundCM3, got.Broken)
		}
	}
}

// What is said to be the most above the least is never less than it is, and by less than
// a tenth of a percent more.
func TestClaimedAbove(t *testing.T) {
	for _, c := range []struct{ drawn, bound, want float64 }{
		{110, 100, 10}, {math.Nextafter(110, 200), 100, 10.1}, {100, 100, 0}, {math.Nextafter(100, 200), 100, 0.1},
		{1.1, 1, 10.1}, // the float beside 1.1 is above it
		{1.5, 1, 50}, {3000, 1000, 200},
	} {
		if got := (Plan{DrawnCM3: c.drawn, LowerBoundCM3: c.bound}).Claim(); got != (Claim{Bounded, c.want, c.bound}) {
			t.Errorf("%v above %v: %+v, want %v", c.drawn, c.bound, got, c.want)
		}
	}
	rng := rand.New(rand.NewPCG(7, 8))
	for range 20_000 {
		bound := math.Exp(rng.Float64()*20 - 5)
		drawn := bound * (1 + float64(rng.IntN(3000))/1000)
		if rng.IntN(2) == 0 {
			drawn = math.Nextafter(drawn, drawn*2)
		}
		pct := new(big.Rat).SetFloat64((Plan{DrawnCM3: drawn, LowerBoundCM3: bound}).Claim().AbovePct)
		tenths := new(big.Rat).Mul(pct, big.NewRat(10, 1))
		most := new(big.Rat).SetFrac64(int64(math.Round(f64(tenths))), 1000) // as it is printed
		least := new(big.Rat).Add(most, big.NewRat(1, 1))
		least.Mul(least, new(big.Rat).SetFloat64(bound))
		under := new(big.Rat).Add(most, big.NewRat(999, 1000))
		under.Mul(under, new(big.Rat).SetFloat64(bound))
		if d := new(big.Rat).SetFloat64(drawn); least.Cmp(d) < 0 || under.Cmp(d) >= 0 {
			t.Fatalf("%v above %v is said to be %v %% at most", drawn, bound, f64(pct))
		}
	}
}

func f64(r *big.Rat) float64 { f, _ := r.Float64(); return f }

// Each claim is worded once, and what is under a plan is rounded down.
func TestClaimsInWords(t *testing.T) {
	least := Claim{Sure: Least, UnderCM3: 2759.9}
	bounded := Claim{Sure: Bounded, AbovePct: 2.3, UnderCM3: 2759.9}
	for _, c := range []struct {
		claim             Claim
		short             bool
		few, all, underIs string
	}{
		{least, false, "the least (proved)", "the least, proved", "no plan draws under 2.75 dm3"},
		{least, true, "the least (proved)", "the least with so many short, proved", "no plan draws under 2.75 dm3"},
		{bounded, false, "at most 2.3 % above the least", "at most 2.3 % above the least: no plan draws under 2.75 dm3", "no plan draws under 2.75 dm3"},
		{bounded, true, "at most 2.3 % above the least", "at most 2.3 % above the least with so many short: no plan draws under 2.75 dm3", "no plan draws under 2.75 dm3"},
		{Claim{}, false, "not proved the least", "and nothing is proved of the least", ""},
		{Claim{}, true, "not proved the least", "and nothing is proved of the least with so many short", ""},
	} {
		if few, all, under := c.claim.String(), c.claim.Say(c.short, length.InMM), c.claim.Under(length.InMM); few != c.few || all != c.all || under != c.underIs {
			t.Errorf("%+v: %q, %q, %q", c.claim, few, all, under)
		}
	}
	if got := (Progress{DrawnCM3: 2800, LowerBoundCM3: 2759.9}).Say(length.InMM); got != "best 2.80 dm3, not under 2.75 dm3" {
		t.Error(got)
	}
	if got := (Progress{}).Say(length.InMM); got != "" {
		t.Error(got)
	}
}

// A plan with ten thousand cuts is checked like any other: sums of many volumes differ by
// their rounding, and pieces are found by name.
func TestVerifyManyCuts(t *testing.T) {
	job := handJob(rack.Piece{Length: 330*mm + 7, Width: 32*mm + 3, Thickness: 30*mm + 1})
	job.Rack.Pieces[0].Quantity = 10_000
	job.Patterns[0].Pattern.Strips = job.Patterns[0].Pattern.Strips[:1]
	job.Patterns[0].Copies = 10_000
	if plan := mustSolve(t, job); len(plan.Cuts) != 10_000 || plan.Status != Optimal {
		t.Errorf("%d cuts, %v", len(plan.Cuts), plan.Status)
	}
}

func BenchmarkVerify(b *testing.B) { // of 100 strips; budget: 1 ms
	job := randomJob(1, 100, 150, 4)
	plan, err := Solve(context.Background(), job, Options{Workers: 2})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := Verify(job, plan); err != nil {
			b.Fatal(err)
		}
	}
}
