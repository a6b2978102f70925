package solve

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
)

// chunkyJob draws a job in which few large strips fill each piece: 20 to 50 strips of
// few kinds from 8 to 10 pieces, of which two to four serve.
func chunkyJob(seed uint64) cutting.Job {
	rng := rand.New(rand.NewPCG(seed, 77))
	of := func(values ...length.Length) length.Length { return values[rng.IntN(len(values))] }
	sh := shoptest.Roomy()
	sh.Kerf = shop.Kerf{Rip: mm * 32 / 10, Crosscut: mm * 32 / 10, Resaw: mm * 12 / 10}
	sh.Allowance = shop.Allowance{Truing: 2 * mm, Cleaning: mm * 8 / 10, Planing: 2 * mm, Jointing: mm, Flattening: 2 * mm, EndTrim: 10 * mm, OverLength: of(0, 40*mm)}
	sh.Keep = shop.Keep{Length: 250 * mm, Width: 20 * mm, Thickness: 12 * mm}
	sh.Draw = shop.Draw{UseFirstPct: 60, ReturnedPct: 70, TailsPct: 100, OpenedCM3: 20}
	sh.Machine.BandsawHeight = 300 * mm
	job := cutting.Job{Shop: sh}
	want := 20 + rng.IntN(31)
	long := of(280*mm, 320*mm, 430*mm)
	strips := 0
	for n := 0; n < 2; n++ {
		p := pattern.Pattern{Panel: pattern.Panel{Length: long, Thickness: of(15*mm, 18*mm, 20*mm, 22*mm)}}
		kinds := 1 + rng.IntN(3)
		if n == 1 {
			kinds = 3 + rng.IntN(3)
		} else if rng.IntN(3) == 0 {
			p.Panel.Make = pattern.MakeEdge
		}
		for i := range kinds {
			s := pattern.Strip{Species: "oak", Width: length.Length(13+rng.IntN(13)) * mm}
			if rng.IntN(3) == 0 {
				s.Length = long * 7 / 8
			}
			count := 3 + rng.IntN(7)
			if n == 1 && i == kinds-1 {
				count = max(3, min(9, want-strips))
			}
			for range min(count, want-strips) {
				p.Strips = append(p.Strips, s)
				strips++
			}
		}
		if len(p.Strips) > 0 {
			job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprintf("p%d", n+1), Pattern: p, Copies: 1})
		}
	}
	for i := range 8 + rng.IntN(3) {
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{
			ID: fmt.Sprintf("r%d", i+1), Species: "oak", Quantity: 1,
			Length: long + length.Length(20+rng.IntN(800))*mm, Width: of(90*mm, 120*mm, 150*mm, 180*mm, 200*mm),
			Thickness: of(41*mm, 52*mm, 65*mm, 77*mm, 90*mm), UseFirst: rng.IntN(4) == 0,
		})
	}
	return job
}

// Jobs of few large strips a piece are all proved. Their bounds are weak and their ways to
// be cut very many, so that only branching does it.
func TestChunkyJobs(t *testing.T) {
	jobs := 5 // beside those of the guard
	switch {
	case os.Getenv("ODDMENTS_NIGHTLY") != "":
		jobs = 200
	case testing.Short():
		jobs = 4
	}
	unproved := 0
	for seed := range uint64(jobs) {
		job := chunkyJob(seed)
		plan, err := Plan(context.Background(), job, Options{Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		if err := cutting.Verify(job, plan); err != nil {
			t.Errorf("job %d: %v", seed, err)
		}
		if plan.Status != cutting.Optimal {
			t.Logf("job %d: %d strips short, %.6f cm3 drawn, bound %.6f", seed, plan.Short, plan.DrawnCM3, plan.LowerBoundCM3)
			unproved++
		}
	}
	// Of the two hundred one has more ways to be cut than are listed.
	t.Logf("%d of %d jobs proved", jobs-unproved, jobs)
	if unproved > jobs/100 {
		t.Errorf("%d of %d jobs are not proved", unproved, jobs)
	}
}

// BenchmarkChunky proves the hardest of the first two hundred: of very many sections (88,
// 113), of ways to pile slices (101, 163, 184), of fillings (45). The budget on one core
// is 5 s each.
func BenchmarkChunky(b *testing.B) {
	for _, seed := range []uint64{2, 14, 45, 88, 101, 113, 163, 184} {
		b.Run(fmt.Sprintf("job_%d", seed), func(b *testing.B) {
			job := chunkyJob(seed)
			for b.Loop() {
				if plan, err := Plan(context.Background(), job, Options{}); err != nil || plan.Status != cutting.Optimal {
					b.Fatal(plan.Status, err)
				}
			}
		})
	}
}
