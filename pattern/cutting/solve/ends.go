package solve

// ends is what the last kinds of a search cost at least in excess, for each set of
// strips that may be left of them, when pieces could be used again and again. It is
// computed as it is asked for.
//
// Why that is a bound: where all kinds before a place are met, a candidate that may still
// be chosen has none of them, so it stands in the bucket of a later place, and what is left
// is one of the sets. Whatever completes it is a sequence of such candidates and strips
// short, taking the kinds in their order; compute tries each first step there is. It leaves
// out only what would forbid one or cost more: how many pieces of a stock there are, the
// strips short that are to spare, and the excess of pieces left unused. A number found
// while something cheaper was at hand is the limit asked for and one more: it says that the
// set costs more than that limit, and only a number marked sure is taken for what it costs.
type ends struct {
	s     *search
	from  int     // the first place that it knows
	size  []int   // of each place: how many sets there are of what lies after it
	lists [][]end // of each place: what its candidates take, the cheapest of those that take the same
	least []int64 // of each set, by its number: what it costs at least
	sure  []bool  // of each set: it costs just that
}

// An end is a candidate, of whatever stock.
type end struct {
	excess int64
	tally  tally
	step   int // what its strips count in the number of a set
}

// newEnds covers as many of the last kinds as there is room for.
func newEnds(s *search, room int) *ends {
	e := &ends{s: s, from: len(s.order), size: make([]int, len(s.order))}
	sets := 1
	for e.from > 0 {
		more := int(s.p.want[s.order[e.from-1]]) + 1
		if sets > room/more || s.tallying.places[s.order[e.from-1]].word < 0 {
			break
		}
		e.from--
		e.size[e.from] = sets
		sets *= more
	}
	e.least, e.sure = make([]int64, sets), make([]bool, sets)
	e.sure[0] = true
	e.lists = make([][]end, len(s.order))
	for place := e.from; place < len(s.order) && !s.stop.stopped(); place++ {
		seen := map[tally]bool{}
		for _, c := range s.buckets[place] {
			if seen[c.tally] {
				continue
			}
			seen[c.tally] = true
			step := 0
			for _, q := range c.take {
				step += int(q.count) * e.size[s.place[q.kind]]
			}
			e.lists[place] = append(e.lists[place], end{c.excess, c.tally, step})
		}
	}
	return e
}

// above reports whether what is left from place on costs more excess than limit. What is
// left of a kind below 0 cannot be: takes are within what is left.
func (e *ends) above(place int, limit int64) bool {
	if limit < 0 {
		return true
	}
	n := 0
	for p := place; p < len(e.s.order); p++ {
		n += int(max(0, e.s.left[e.s.order[p]])) * e.size[p]
	}
	return e.compute(place, n, limit, e.s.tally) > limit
}

// compute finds the least of set n, or that it is above limit; left is the tally of n.
func (e *ends) compute(place, n int, limit int64, left tally) int64 {
	if known := e.least[n]; known > limit || e.sure[n] {
		return known
	}
	s := e.s
	if s.countAndCheck() {
		return 0
	}
	tallies := &s.tallying
	count := tallies.count(left, s.order[place])
	for count == 0 {
		place++
		count = tallies.count(left, s.order[place])
	}
	best := limit + 1
	sure := false
	guard := tallies.guard
	list := e.lists[place]
	for i := range list {
		c := &list[i]
		if c.excess >= best {
			break
		}
		less, ok := left.less(c.tally, guard)
		if !ok {
			continue
		}
		if rest := e.compute(place, n-c.step, best-1-c.excess, less); c.excess+rest < best {
			best, sure = c.excess+rest, true
		}
	}
	if s.p.charged() {
		kind := s.order[place]
		if more := int64(count) * (s.d.sigma - s.d.prices[kind]); more < best {
			less := left
			less[tallies.places[kind].word] -= uint64(uint32(count)) << tallies.places[kind].shift
			if rest := e.compute(place, n-int(count)*e.size[place], best-1-more, less); more+rest < best {
				best, sure = more+rest, true
			}
		}
	}
	if s.ended {
		return 0
	}
	e.least[n], e.sure[n] = best, sure
	return best
}
