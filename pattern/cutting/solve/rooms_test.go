package solve

import (
	"fmt"
	"maps"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
)

// With the tables of rooms from the first option on the same columns are listed as
// without them, and so they are where only the best of those with the same strips are
// gone on from: that leaves out nothing that reaches the floor.
func TestRoomsLeaveNothingOut(t *testing.T) {
	for seed := range uint64(120) {
		job := tinyJob(seed)
		if seed%4 == 0 {
			job = solvetest.RandomJob(seed, 16, 12, 2)
		}
		for _, tm := range sortTimbers(job, cutting.Needs(job)) {
			tm.listAll(stopper{})
			p := tm.full()
			for _, free := range []bool{false, true} {
				var lists [4]map[int]map[string]int64
				for i, easy := range []int{1 << 30, -1, -1, 30} {
					pr := newPricer(tm, stopper{})
					pr.easy, pr.free = easy, free
					if i == 3 {
						pr.long = 10
					}
					prices := p.guess(pr)
					lists[i] = map[int]map[string]int64{}
					for n := range tm.stocks {
						if !tm.whole[tm.stocks[n].cross] {
							continue
						}
						_, best := pr.best(n, prices, tm.want, -1<<60)
						found := map[string]int64{}
						floor := best - max(best, -best)/4
						pr.once = i >= 2
						pr.each(n, prices, tm.want, floor, func(worth, cost int64, chosen []int32) int64 {
							c := pr.takeOf(n, chosen)
							if got := c.worth(prices) - cost; !free && got != worth || !c.within(tm.want) {
								t.Fatalf("job %d, stock %d, list %d: %v is worth %d, told %d", seed, n, i, c, got, worth)
							}
							h := fmt.Sprint(c)
							if have, ok := found[h]; !ok || worth > have {
								found[h] = worth
							}
							return floor
						})
						pr.once = false
						found[""] = best
						lists[i][n] = found
					}
				}
				for n, want := range lists[0] {
					for i, list := range lists[1:] {
						if !maps.Equal(list[n], want) {
							t.Fatalf("job %d, stock %d, free %v, list %d: %d columns, want %d, or other worths", seed, n, free, i+1, len(list[n]), len(want))
						}
					}
				}
			}
		}
	}
}
