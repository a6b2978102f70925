package solve

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
)

// wideJob asks for so many widths from boards so wide that the ways to rip a slice
// cannot be listed.
func wideJob(boards int) cutting.Job {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 400 * mm, Thickness: 20 * mm}}
	for i := range 60 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "oak", Width: length.Length(18+i%12) * mm})
	}
	job := cutting.Job{Patterns: []cutting.Demand{{Stem: "wide", Pattern: p, Copies: 1}}, Shop: shoptest.Roomy()}
	for i := range boards {
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{
			ID: string(rune('a' + i)), Species: "oak", Length: length.Length(700+230*i) * mm, Width: length.Length(280+11*i) * mm, Thickness: length.Length(30+5*i) * mm, Quantity: 1,
		})
	}
	return job
}

// Where a cross has too many ways to list them the plan is complete but not proved,
// and its bound, though far, is one.
func TestTooManyWaysToList(t *testing.T) {
	job := wideJob(4)
	tm := sortTimbers(job, cutting.Choices(job))[0]
	s := newSolver(tm, sections.Stopper{}, func(note) {}, nil)
	s.step() // plain ways
	s.step() // all of them
	if tm.Whole[0] {
		t.Fatal("the ways can be listed: the job is too small for this test")
	}
	for range 4 { // a relaxation, and once more where fewer turn out to be short
		s.step()
	}
	plan, err := finish(job, cutting.Choices(job), []*timber{tm}, []answer{s.answer()})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%v, %d short, %v cm3, bound %v", plan.Status, plan.Short, plan.DrawnCM3, plan.LowerBoundCM3)
	strips := 0.0 // no plan takes less than the strips themselves
	for _, n := range cutting.Needs(job) {
		strips += length.VolumeCM3(n.Length, n.Across, n.Sawn)
	}
	if plan.Short > 0 || plan.Status != cutting.Feasible || plan.LowerBoundCM3 < strips/2 {
		t.Errorf("%v, %d short, %v cm3, bound %v; the strips alone are %v", plan.Status, plan.Short, plan.DrawnCM3, plan.LowerBoundCM3, strips)
	}
}

// The relaxed bound is never below what a column is worth.
func TestRelaxedBoundHolds(t *testing.T) {
	for seed := range uint64(200) {
		job := tinyJob(seed)
		for _, tm := range sortTimbers(job, cutting.Choices(job)) {
			tm.ListAll(false, sections.Stopper{})
			p := newPricer(tm, sections.Stopper{})
			for _, free := range []bool{false, true} {
				p.free = free
				prices := tm.full().guess(p)
				for n := range tm.stocks {
					c, worth := p.best(n, prices, tm.Want, -1<<60)
					if bound := p.relax.Worth(&tm.Catalogue, tm.stocks[n].cross, &tm.stocks[n].costs, free, prices, tm.Want); c != nil && bound < worth {
						t.Errorf("job %d, stock %d, free %v: bound %d, a column is worth %d", seed, n, free, bound, worth)
					}
				}
			}
		}
	}
}
