package booking

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/fill"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/worksteps"
)

// With fills what is gone, the strips and what goes back come to what was gone and went back
// before, to 1e-6 cm3, and the booked rack holds just that; a fill is of a slice that has room
// for it, of the slice's own thickness, and named at its rip step. What the plan counts stays.
func TestFillConserves(t *testing.T) {
	fills, rips, offered := 0, 0, 0
	for seed := range uint64(60) {
		job := solvetest.BenchJob(seed)
		job.Shop.Cut.Shortest = 150 * mm
		job.Shop.Standing = [8]length.Length{20 * mm, 30 * mm}
		plan := planned(t, job)
		drawn, gone, before := plan.DrawnCM3, plan.GoneCM3, backCM3(job, plan)
		ask := fill.Ask{Widths: fill.Kinds()[seed%2], Saved: []pattern.Pattern{job.Patterns[0].Pattern}, Rips: seed%3 == 0}
		plan.Fills = fill.Of(job, plan, ask)
		asked := cutting.NeedsOf(job, plan)
		sum := 0.0
		for _, f := range plan.Fills {
			s, sl := f.In(plan)
			if !f.Made {
				offered++
				if !f.InsteadOfRip || ask.Rips {
					t.Errorf("job %d: %+v is only offered", seed, f)
				}
				continue
			}
			fills++
			sum += f.CM3
			if f.InsteadOfRip {
				rips++
			}
			own := asked[sl.Strips[0]]
			p, _ := job.Rack.Get(strings.Split(f.Piece, "/")[0])
			if clear := clearOf(t, p.Piece, f.Piece); f.Takes-job.Shop.Kerf.Rip > fill.Left(job.Shop, clear, *s, *sl, asked) || s.Length < 150*mm ||
				!clear.Planed && f.Glued != own.Glued && !f.Edge {
				t.Errorf("job %d: %+v of a slice of %v", seed, f, own)
			}
		}
		after := fill.GoneCM3(plan)
		if was, now := gone+before, after+sum+backCM3(job, plan); math.Abs(was-now) > 1e-6 {
			t.Errorf("job %d: gone and back %.9f cm3, with the fill %.9f", seed, was, now)
		}
		if plan.DrawnCM3 != drawn || plan.GoneCM3 != gone || !ask.Rips && after > gone+1e-9 {
			t.Errorf("job %d: counted %v of %v, gone %v of %v", seed, plan.DrawnCM3, drawn, after, gone)
		}
		if err := cutting.Verify(job, plan); err != nil {
			t.Errorf("job %d: %v", seed, err)
		}
		booked, _ := booked(t, job, plan)
		_, besides := goneBy(job, plan)
		other, _ := new(big.Float).Quo(new(big.Float).SetInt(besides), big.NewFloat(1e21)).Float64()
		if was, now := volumeOf(job.Rack), volumeOf(booked)+after+other; math.Abs(was-now) > 1e-6 {
			t.Errorf("job %d: %.9f cm3 on the rack, then %.9f with what is gone", seed, was, now)
		}
		readBack(t, seed, booked)
		for _, by := range worksteps.Bys() {
			steps := strings.Join(worksteps.Steps(by, job, plan, func(key string) string { return key }, length.InMM), "\n")
			if named := strings.Contains(steps, "for the rack"); named != (sum > 0) {
				t.Errorf("job %d, by %v: fills of %v cm3, named %t in\n%s", seed, by, sum, named, steps)
			}
		}
	}
	if fills < 30 || rips < 5 || offered < 20 {
		t.Errorf("the jobs are too tame: %d fills, %d instead of a spare width, %d offered", fills, rips, offered)
	}
}

func clearOf(t *testing.T, p rack.Piece, id string) rack.Piece {
	t.Helper()
	for _, c := range p.Clear() {
		if c.ID == id {
			return c.Piece
		}
	}
	t.Fatalf("no clear part %s", id)
	return rack.Piece{}
}

func backCM3(job cutting.Job, plan cutting.Plan) (sum float64) {
	for _, d := range worksteps.Details(job, plan) {
		for _, l := range d.Back {
			sum += l.Piece.VolumeCM3()
		}
	}
	return sum
}

func volumeOf(r rack.Rack) (sum float64) {
	for _, key := range r.Species() {
		sum += r.VolumeCM3(key)
	}
	return sum
}
