package solve

import (
	"context"
	"fmt"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
)

// TestParts solves families of jobs with one part of the search after another switched
// off, and prints what testdata/parts.md holds. It takes minutes, so it runs only where
// ODDMENTS_PARTS names families.
func TestParts(t *testing.T) {
	want := os.Getenv("ODDMENTS_PARTS")
	if want == "" {
		t.Skip("ODDMENTS_PARTS names no family")
	}
	fams := map[string]func() []cutting.Job{
		"batches": func() (jobs []cutting.Job) {
			for n := range uint64(48) {
				jobs = append(jobs, solvetest.RandomJob(n*5/3, 100, 150, 3+int(n%3)))
			}
			return jobs
		},
		"large": func() (jobs []cutting.Job) {
			for n := range uint64(3) {
				jobs = append(jobs, solvetest.RandomJob(n, 350, 500, 4))
			}
			return jobs
		},
		"one": func() (jobs []cutting.Job) {
			for n := range uint64(24) {
				jobs = append(jobs, solvetest.RandomJob(n, 60, 60, 1))
			}
			return jobs
		},
		"tight": func() (jobs []cutting.Job) {
			fs := families()
			f := fs[len(fs)-1]
			draw := f.draw
			f.draw = func(g *nasty) {
				draw(g)
				g.most, g.pieces, g.kinds = 60+g.rng.IntN(120), 25+g.rng.IntN(12), 2+g.rng.IntN(2)
			}
			for n := range 24 {
				jobs = append(jobs, drawNasty(f, uint64(n)))
			}
			return jobs
		},
		"chunky": func() (jobs []cutting.Job) {
			for n := range uint64(24) {
				jobs = append(jobs, chunkyJob(n))
			}
			return jobs
		},
		"nasty": func() (jobs []cutting.Job) {
			for _, f := range families() {
				for n := range 5 {
					jobs = append(jobs, drawNasty(f, uint64(f.from+n)))
				}
			}
			return jobs
		},
	}
	for _, row := range []struct {
		name string
		off  parts
	}{{"nothing", 0}, {"branching", branching}, {"last kinds", lastKinds}, {"improving", improving}, {"diving", diving}} {
		for _, name := range strings.Split(want, ",") {
			unproved := 0
			start := cpuUsed()
			worst := time.Duration(0)
			drawn := 0.0
			for _, job := range fams[name]() {
				at := cpuUsed()
				ctx, cancel := context.WithTimeout(context.Background(), 60*time.Second)
				plan, err := Plan(ctx, job, Options{without: row.off})
				cancel()
				if err != nil {
					t.Fatal(err)
				}
				if plan.Status != cutting.Optimal {
					unproved++
				}
				drawn += plan.DrawnCM3 + 1e6*float64(plan.Short)
				worst = max(worst, cpuUsed()-at)
			}
			fmt.Printf("%-10s %-30s %7.2f s  worst %6.2f  unproved %d drawn %.0f\n", name, row.name, (cpuUsed() - start).Seconds(), worst.Seconds(), unproved, drawn)
		}
	}
}

func cpuUsed() time.Duration {
	var u syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano())
}
