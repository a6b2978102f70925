package solve

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
)

// TestBatchesInTime solves 240 batches of 100 strips from 150 pieces, eighty each of
// three, four and five timbers, and says how long each took to be proved. It takes
// minutes, so it runs only where ODDMENTS_BATCHES gives the first seed, for example 0;
// ODDMENTS_BATCHES_OUT names a file for the table. The budget on two cores: 1 s for
// most, 3 s for the worst. What fails is a batch that is not proved at all.
func TestBatchesInTime(t *testing.T) {
	first, err := strconv.ParseUint(os.Getenv("ODDMENTS_BATCHES"), 10, 32)
	if err != nil {
		t.Skip("ODDMENTS_BATCHES gives no seed to start from")
	}
	var took []time.Duration
	var table strings.Builder
	unproved := 0
	for n := range uint64(240) {
		seed, timbers := first+n/3, 3+int(n%3)
		job := solvetest.RandomJob(seed, 100, 150, timbers)
		ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
		start := time.Now()
		plan, err := Plan(ctx, job, Options{Workers: 2})
		took = append(took, time.Since(start))
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		if err := cutting.Verify(job, plan); err != nil {
			t.Errorf("seed %d, %d timbers: %v", seed, timbers, err)
		}
		line := fmt.Sprintf("%d\t%d\t%v\t%d\t%d\t%.6f\t%.6f", seed, timbers, plan.Status, took[n].Milliseconds(), plan.Short, plan.DrawnCM3, plan.LowerBoundCM3)
		fmt.Fprintln(&table, line)
		if plan.Status != cutting.Optimal {
			unproved++
			t.Errorf("not proved: %s", line)
		} else if took[n] > time.Second {
			t.Logf("over 1 s: %s", line)
		}
	}
	if name := os.Getenv("ODDMENTS_BATCHES_OUT"); name != "" {
		if err := os.WriteFile(name, []byte(table.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	slices.Sort(took)
	t.Logf("median %v, p95 %v, worst %v, %d of %d not proved", took[len(took)/2], took[len(took)*95/100], took[len(took)-1], unproved, len(took))
}
