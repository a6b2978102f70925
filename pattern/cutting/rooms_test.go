package cutting

import (
	"testing"
)

// With the tables of rooms from the first option on the same columns are listed as
// without them: they leave out nothing that reaches the floor.
func TestRoomsLeaveNothingOut(t *testing.T) {
	for seed := range uint64(120) {
		job := tinyJob(seed)
		if seed%4 == 0 {
			job = randomJob(seed, 16, 12, 2)
		}
		for _, tm := range sortTimbers(job, Needs(job)) {
			tm.listAll(stopper{})
			p := tm.full()
			for _, free := range []bool{false, true} {
				var lists [2]map[int]map[uint64]int64
				for i, easy := range []int{1 << 30, -1} {
					pr := newPricer(tm, stopper{})
					pr.easy, pr.free = easy, free
					prices := p.guess(pr)
					lists[i] = map[int]map[uint64]int64{}
					for n := range tm.stocks {
						if !tm.whole[tm.stocks[n].cross] {
							continue
						}
						_, best := pr.best(n, prices, tm.want, -1<<60)
						found := map[uint64]int64{}
						floor := best - max(best, -best)/4
						pr.each(n, prices, tm.want, floor, func(worth, _ int64, chosen []int32) int64 {
							h := pr.takeOf(n, chosen).hash()
							if have, ok := found[h]; !ok || worth > have {
								found[h] = worth
							}
							return floor
						})
						found[0] = best
						lists[i][n] = found
					}
				}
				for n, want := range lists[0] {
					for h, worth := range want {
						if got, ok := lists[1][n][h]; !ok || got != worth {
							t.Fatalf("job %d, stock %d, free %v: %d for a column worth %d", seed, n, free, got, worth)
						}
					}
					if len(want) != len(lists[1][n]) {
						t.Fatalf("job %d, stock %d, free %v: %d columns, want %d", seed, n, free, len(lists[1][n]), len(want))
					}
				}
			}
		}
	}
}

// A search that remembers what it went through in vain finds what one that does not
// finds, also with ready strips to hand out and with strips short.
func TestFailedStatesAreNoSolutions(t *testing.T) {
	known := 0
	for seed := range uint64(300) {
		job := tinyJob(seed)
		if seed%3 == 0 {
			job = randomJob(seed, 20, 14, 1)
		}
		for _, tm := range sortTimbers(job, Needs(job)) {
			tm.listAll(stopper{})
			p := tm.full()
			pr := newPricer(tm, stopper{})
			first, _ := p.greedy(pr, p.guess(pr))
			p.short = first.missing
			m := newMaster(p, pr, stopper{})
			m.run(columnRounds, first.cost+1)
			allowance := first.cost - m.best.bound
			columns, ok := p.candidates(pr, &m.best, allowance, 4_000)
			if !ok || allowance < 0 {
				continue
			}
			plain, done := p.prove(&m.best, columns, allowance, effort{0, 300_000, 1, 1 << 30}, stopper{})
			again, same := p.prove(&m.best, columns, allowance, effort{0, 300_000, 1, 0}, stopper{})
			if !done || !same {
				continue
			}
			known++
			if (plain == nil) != (again == nil) || plain != nil && plain.cost != again.cost {
				t.Errorf("job %d: %+v with states remembered, %+v without", seed, again, plain)
			}
		}
	}
	if known < 200 {
		t.Errorf("only %d searches were compared", known)
	}
}
