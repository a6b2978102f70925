package solve

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
)

// comparedJobs are boards of 13 to 20 strips, then batches of several boards, each
// with racks of 10 to 40 pieces of one to three timbers. The seeds count up: no job
// is chosen for how it comes out.
func comparedJobs() []cutting.Job {
	var jobs []cutting.Job
	for _, timbers := range []int{1, 2, 3} {
		for _, pieces := range []int{10, 20, 30, 40} {
			n := len(jobs)
			jobs = append(jobs, solvetest.RandomJob(uint64(n), 13+n*7/11, pieces, timbers))
		}
	}
	for _, strips := range []int{30, 45, 60} {
		for _, timbers := range []int{2, 3} {
			jobs = append(jobs, solvetest.RandomJob(uint64(len(jobs)), strips, 40, timbers))
		}
	}
	return jobs
}

// pieces returns how many pieces, and clear parts of them, a program has.
func pieces(p *program) int {
	n := 0
	for _, avail := range p.avail {
		n += avail
	}
	return n
}

// TestWritePrograms writes jobs as integer programs into the directory that
// ODDMENTS_PROGRAMS names, for testdata/compare-solvers.sh, with what Solve makes
// of each and its shortest time of three on one core in ours.tsv. Where strips stay
// short there are two programs: how few, and the least drawn with so few.
func TestWritePrograms(t *testing.T) {
	dir := os.Getenv("ODDMENTS_PROGRAMS")
	if dir == "" {
		t.Skip("ODDMENTS_PROGRAMS names no directory to write to")
	}
	var table strings.Builder
	write := func(name string, text []byte) {
		if err := os.WriteFile(filepath.Join(dir, name), text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for i, job := range comparedJobs() {
		var plan cutting.Plan
		var least time.Duration
		for n := range 3 {
			start := time.Now()
			var err error
			if plan, err = Plan(context.Background(), job, Options{}); err != nil {
				t.Fatal(err)
			}
			if took := time.Since(start); n == 0 || took < least {
				least = took
			}
		}
		if err := cutting.Verify(job, plan); err != nil {
			t.Errorf("job %d: %v", i+1, err)
		}
		p := newProgram(job)
		sums := map[string]int{"ready": len(plan.Ready)}
		name := fmt.Sprintf("job%02d", i+1)
		if plan.Short > 0 {
			write(name+"-short.lp", p.write("short", sums))
		}
		sums["short"] = plan.Short
		write(name+"-drawn.lp", p.write("drawn", sums))
		fmt.Fprintf(&table, "%s\t%d\t%d\t%v\t%.6f\t%d\t%.9f\n", name, len(p.choices), pieces(p), plan.Status,
			float64(least.Nanoseconds())/1e6, plan.Short, plan.DrawnCM3)
		t.Logf("%s: %d strips, %d pieces, %d columns, %v, %v, %d short, %.4f cm3", name, len(p.choices), pieces(p), len(p.columns),
			plan.Status, least, plan.Short, plan.DrawnCM3)
	}
	write("ours.tsv", []byte(table.String()))
}
