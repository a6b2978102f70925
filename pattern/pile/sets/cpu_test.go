package sets

import (
	"context"
	"fmt"
	"os"
	"syscall"
	"testing"
	"time"
)

func cpu() float64 {
	var u syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}

func TestCPU(t *testing.T) {
	budget := 6.0
	fmt.Sscan(os.Getenv("CPU"), &budget)
	if os.Getenv("CPU") == "" {
		t.Skip()
	}
	sum := 0.0
	for n := 1; n <= racks; n++ {
		if one := os.Getenv("ONE"); one != "" && one != fmt.Sprint(n) {
			continue
		}
		r := rackOf(t, n)
		ctx, cancel := context.WithCancel(t.Context())
		start := cpu()
		go func() {
			for ctx.Err() == nil && cpu()-start < budget {
				time.Sleep(20 * time.Millisecond)
			}
			cancel()
		}()
		first := 0.0
		best := 0.0
		set, err := Find(ctx, r, Options{Tell: func(Set) {
			best = cpu() - start
			if first == 0 {
				first = best
			}
		}})
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		base := []float64{152, 492, 339, 766, 1043, 827, 695, 1138, 1950, 1615}[n-1]
		sum += set.Worth / base
		t.Logf("%2d worth %5.0f (%.3f of base) bound %5.0f gap %3.0f first %.2f best %.1f all %.1f rounds %d panels %d used %.0f", n, set.Worth, set.Worth/base, set.Bound, 100*(set.Bound/set.Worth-1), first, best, cpu()-start, set.Rounds, len(set.Panels), usedPct(t, r, set))
	}
	t.Logf("mean %.4f", sum/racks)
}
