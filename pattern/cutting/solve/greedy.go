package solve

// greedyNodes bounds the work on one stock at one step of a greedy choice.
const greedyNodes = 3_000

// greedy fills p piece by piece, always with the column that is worth most at
// prices; ready strips are handed out first, at the same prices. What no column
// yields stays short. It gives false when it was stopped.
func (p *problem) greedy(pr *pricer, prices []int64) (solution, bool) {
	s := solution{short: make([]int32, len(p.want))}
	left := append([]int32(nil), p.want...)
	for n := range p.handed() {
		c, _, _ := p.t.richest(&p.t.pools[n], prices, nil)
		s.columns = append(s.columns, column{stock: int32(-1 - n), take: c})
		c.subtractFrom(left)
	}
	limit := pr.nodes
	pr.nodes = greedyNodes
	defer func() { pr.nodes = limit }()
	avail := append([]int32(nil), p.avail...)
	offers := make([]*column, len(avail))
	fresh := make([]bool, len(avail))
	for {
		best, worth := -1, int64(0)
		for n := range avail {
			if avail[n] == 0 {
				continue
			}
			if !fresh[n] || offers[n] != nil && !offers[n].take.within(left) {
				offers[n], _ = pr.best(n, prices, left, -1<<60)
				fresh[n] = true
				if pr.stop.stopped() {
					return s, false
				}
			}
			if c := offers[n]; c != nil && (best < 0 || c.take.worth(prices)-c.cost > worth) {
				best, worth = n, c.take.worth(prices)-c.cost
			}
		}
		if best < 0 {
			break
		}
		s.columns = append(s.columns, *offers[best])
		s.cost += offers[best].cost
		offers[best].take.subtractFrom(left)
		avail[best]--
	}
	for k, n := range left {
		s.short[k] = n
		s.missing += n
	}
	return s, true
}

// guess returns prices to start from: what each strip's timber costs, with as much
// again for what is lost beside it.
func (p *problem) guess(pr *pricer) []int64 {
	prices := make([]int64, len(p.want))
	for k, bulk := range pr.bulk {
		prices[k] = max(1, units(1.5*bulk))
	}
	return prices
}
