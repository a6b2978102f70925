package solve

import (
	"slices"

	"example.com/oddments/pattern/cutting/solve/sections"
)

// greedyNodes bounds the work on one stock at one step of a greedy choice.
const greedyNodes = 3_000

// greedy fills p piece by piece, always with the column that is worth most at
// prices; ready strips are handed out first, at the same prices. What no column
// yields stays short. It gives false when it was stopped.
func (p *problem) greedy(pr *pricer, prices []int64) (solution, bool) {
	if p.open() > 0 {
		return p.choose(pr, prices)
	}
	left := slices.Clone(p.want)
	s := solution{short: left, columns: p.handOut(prices)}
	for _, c := range s.columns {
		c.take.SubtractFrom(left)
	}
	limit := pr.nodes
	pr.nodes = greedyNodes
	defer func() { pr.nodes = limit }()
	avail := slices.Clone(p.avail)
	offers := make([]*column, len(avail))
	fresh := make([]bool, len(avail))
	for {
		best, worth := -1, int64(0)
		for n := range avail {
			if avail[n] == 0 {
				continue
			}
			if !fresh[n] || offers[n] != nil && !offers[n].take.Within(left) {
				offers[n], _ = pr.best(n, prices, left, -1<<60)
				fresh[n] = true
				if pr.stop.Stopped() {
					return s, false
				}
			}
			if c := offers[n]; c != nil && (best < 0 || c.take.Worth(prices)-c.cost > worth) {
				best, worth = n, c.take.Worth(prices)-c.cost
			}
		}
		if best < 0 {
			break
		}
		s.columns = append(s.columns, *offers[best])
		s.cost += offers[best].cost
		offers[best].take.SubtractFrom(left)
		avail[best]--
	}
	if s.missing = total(left); p.t.joined() && slices.ContainsFunc(left, func(n int32) bool { return n != 0 }) {
		s.missing = noPlan // pieces are not short or too many, strips are short
	}
	return s, true
}

// guess returns prices to start from: what each strip's timber costs, with as much
// again for what is lost beside it.
func (p *problem) guess(pr *pricer) []int64 {
	prices := make([]int64, len(p.want))
	for k, bulk := range pr.bulk {
		prices[k] = max(1, sections.Units(1.5*bulk))
	}
	return prices
}
