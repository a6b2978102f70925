package solve

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
)

// plainly lists the best worth of each set of strips that a piece of stock n yields and that is
// worth at least floor: sections one after another, with no bound but the highest worth a
// length.
func plainly(p *pricer, n int, prices []int64, left []int32, floor int64) map[string]int64 {
	found := map[string]int64{}
	s := &p.t.stocks[n]
	all := p.t.Sections[s.cross]
	left = slices.Clone(left)
	for _, keeps := range []bool{true, false} {
		base, span := -s.costs.All, s.costs.Span
		if keeps {
			base, span = -s.costs.Open, s.costs.Keeping
		}
		if p.free {
			base = 0
		}
		worth := func(sec *sections.Section) int64 {
			w := sec.Take.Worth(prices)
			if !p.free {
				w += s.costs.Credited(sec)
				if keeps {
					w -= s.costs.Along[sec.Along]
				}
			}
			return w
		}
		rate := 0.0
		for i := range all {
			rate = max(rate, float64(worth(&all[i]))/float64(s.costs.Steps[all[i].Along]))
		}
		var from func(i int, room length.Length, sum int64, chosen []int32)
		from = func(i int, room length.Length, sum int64, chosen []int32) {
			if tail := span-room <= s.costs.Keeping; len(chosen) > 0 && sum >= floor && (p.free || keeps == tail) {
				t := fmt.Sprint(p.takeOf(n, chosen))
				if have, ok := found[t]; !ok || sum > have {
					found[t] = sum
				}
			}
			if float64(sum)+rate*float64(room) < float64(floor)-1 {
				return
			}
			for ; i < len(all); i++ {
				sec := &all[i]
				if step := s.costs.Steps[sec.Along]; step <= room && sec.Take.Within(left) {
					sec.Take.SubtractFrom(left)
					from(i, room-step, sum+worth(sec), append(chosen, int32(i)))
					sec.Take.AddTo(left)
				}
			}
		}
		if !p.free || !keeps {
			from(0, span, base, nil)
		}
	}
	return found
}

// The columns of a stock are those that are found without bounds.
func TestRoomsLeaveNothingOut(t *testing.T) {
	for seed := range uint64(120) {
		job := tinyJob(seed)
		if seed%4 == 0 {
			job = solvetest.RandomJob(seed, 16, 12, 2)
		}
		for _, tm := range sortTimbers(job, cutting.Choices(job)) {
			tm.ListAll(tm.small(), sections.Stopper{})
			p := tm.full()
			for n := range tm.stocks {
				for _, free := range []bool{false, true} {
					if tm.Whole[tm.stocks[n].cross] {
						roomsLeaveNothingOut(t, seed, p, n, free)
					}
				}
			}
		}
	}
}

func roomsLeaveNothingOut(t *testing.T, seed uint64, p *problem, n int, free bool) {
	t.Helper()
	tm := p.t
	pr := newPricer(tm, sections.Stopper{})
	pr.free = free
	prices := p.guess(pr)
	_, best := pr.best(n, prices, tm.Want, -1<<60)
	floor := best - max(best, -best)/4
	found := map[string]int64{}
	pr.each(n, prices, tm.Want, floor, func(worth, cost int64, chosen []int32) int64 {
		c := pr.takeOf(n, chosen)
		if got := c.Worth(prices) - cost; !free && got != worth || !c.Within(tm.Want) {
			t.Fatalf("job %d, stock %d: %v is worth %d, told %d", seed, n, c, got, worth)
		}
		h := fmt.Sprint(c)
		if have, ok := found[h]; !ok || worth > have {
			found[h] = worth
		}
		return floor
	})
	if want := plainly(pr, n, prices, tm.Want, floor); !maps.Equal(found, want) {
		t.Fatalf("job %d, stock %d, free %v: %d columns, want %d, or other worths", seed, n, free, len(found), len(want))
	}
}
