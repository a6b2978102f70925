package cutting_test

import (
	"context"
	"errors"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

const mm = length.Millimetre

func mustSolve(t *testing.T, job cutting.Job) cutting.Plan {
	t.Helper()
	plan, err := solve.Plan(context.Background(), job, solve.Options{Workers: 2})
	if err := errors.Join(err, plan.Broken, cutting.Verify(job, plan)); err != nil {
		t.Fatal(err)
	}
	return plan
}

// A plan with ten thousand cuts is checked like any other: sums of many volumes differ by
// their rounding, and pieces are found by name.
func TestVerifyManyCuts(t *testing.T) {
	job := solvetest.HandJob(rack.Piece{Length: 330*mm + 7, Width: 32*mm + 3, Thickness: 30*mm + 1})
	job.Rack.Pieces[0].Quantity = 10_000
	job.Patterns[0].Pattern.Strips = job.Patterns[0].Pattern.Strips[:1]
	job.Patterns[0].Copies = 10_000
	if plan := mustSolve(t, job); len(plan.Cuts) != 10_000 || plan.Status != cutting.Optimal {
		t.Errorf("%d cuts, %v", len(plan.Cuts), plan.Status)
	}
}

func BenchmarkVerify(b *testing.B) { // of 100 strips; budget: 1 ms
	job := solvetest.RandomJob(1, 100, 150, 4)
	plan, err := solve.Plan(context.Background(), job, solve.Options{Workers: 2})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := cutting.Verify(job, plan); err != nil {
			b.Fatal(err)
		}
	}
}

func TestVerifyFindsWhatIsWrong(t *testing.T) {
	job := solvetest.HandJob(rack.Piece{Length: 900 * mm, Width: 90 * mm, Thickness: 45 * mm})
	job.Rack.Strips = []rack.Strip{{ID: "r", Species: "oak", Width: 25 * mm, Thickness: 24 * mm, Length: 300 * mm, Quantity: 1}}
	for name, spoil := range map[string]func(*cutting.Plan){
		"tail":          func(p *cutting.Plan) { p.Cuts[0].Tail++ },
		"slab":          func(p *cutting.Plan) { p.Cuts[0].Sections[0].SlabLeft-- },
		"rip":           func(p *cutting.Plan) { p.Cuts[0].Sections[0].Slices[0].RipLeft = 0 },
		"thickness":     func(p *cutting.Plan) { p.Cuts[0].Sections[0].Slices[0].Thickness++ },
		"section":       func(p *cutting.Plan) { p.Cuts[0].Sections[0].Length++ },
		"turned":        func(p *cutting.Plan) { p.Cuts[0].Sections[0].Side = !p.Cuts[0].Sections[0].Side },
		"copy":          func(p *cutting.Plan) { p.Cuts[0].Copy = 2 },
		"piece":         func(p *cutting.Plan) { p.Cuts[0].Piece = "B" },
		"opened twice":  func(p *cutting.Plan) { p.Cuts = append(p.Cuts, p.Cuts[0]) },
		"no sections":   func(p *cutting.Plan) { p.Cuts[0].Sections = nil },
		"served twice":  func(p *cutting.Plan) { p.Ready[0].For = p.Cuts[0].Sections[0].Slices[0].Strips[0] },
		"unknown strip": func(p *cutting.Plan) { p.Ready[0].For.Strip = 9 },
		"unknown ready": func(p *cutting.Plan) { p.Ready[0].ID = "x" },
		"ready copy":    func(p *cutting.Plan) { p.Ready[0].Copy = 2 },
		"not served":    func(p *cutting.Plan) { p.Ready = nil },
		"short":         func(p *cutting.Plan) { p.Short = 1 },
		"drawn":         func(p *cutting.Plan) { p.DrawnCM3 += 1e-3 },
		"gone":          func(p *cutting.Plan) { p.GoneCM3 -= 1e-3 },
		"bound":         func(p *cutting.Plan) { p.LowerBoundCM3-- },
		"missing species": func(p *cutting.Plan) {
			p.Missing = []cutting.Missing{{Ref: p.Ready[0].For, Species: "ash"}}
			p.Ready = nil
			p.Short = 1
		},
	} {
		plan := mustSolve(t, job)
		spoil(&plan)
		if err := cutting.Verify(job, plan); err == nil {
			t.Errorf("%s: spoilt plan passes", name)
		}
	}
}
