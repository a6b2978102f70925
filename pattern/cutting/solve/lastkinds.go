package solve

import "example.com/oddments/pattern/cutting/solve/sections"

// A lastKindBound is what the last kinds of a search cost at least in excess, for each set of
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
type lastKindBound struct {
	s     *search
	from  int          // the first place that it knows
	size  []int        // of each place: how many sets there are of what lies after it
	lists [][]lastStep // of each place: what its candidates take, the cheapest of those that take the same
	least []int64      // of each set, by its number: what it costs at least
	sure  []bool       // of each set: it costs just that
}

// A lastStep is a candidate, of whatever stock.
type lastStep struct {
	excess int64
	tally  sections.Tally
	step   int // what its strips count in the number of a set
}

// newLastKindBound covers as many of the last kinds as there is room for.
func newLastKindBound(s *search, room int) *lastKindBound {
	b := &lastKindBound{s: s, from: len(s.order), size: make([]int, len(s.order))}
	sets := 1
	for b.from > 0 {
		more := int(s.p.want[s.order[b.from-1]]) + 1
		if sets > room/more || !s.tallying.Holds(s.order[b.from-1]) {
			break
		}
		b.from--
		b.size[b.from] = sets
		sets *= more
	}
	b.least, b.sure = make([]int64, sets), make([]bool, sets)
	b.sure[0] = true
	b.lists = make([][]lastStep, len(s.order))
	for place := b.from; place < len(s.order) && !s.stop.Stopped(); place++ {
		seen := map[sections.Tally]bool{}
		for _, c := range s.buckets[place] {
			if seen[c.tally] {
				continue
			}
			seen[c.tally] = true
			step := 0
			for _, q := range c.take {
				step += int(q.Count) * b.size[s.place[q.Kind]]
			}
			b.lists[place] = append(b.lists[place], lastStep{c.excess, c.tally, step})
		}
	}
	return b
}

// above reports whether what is left from place on costs more excess than limit. What is
// left of a kind below 0 cannot be: takes are within what is left.
func (b *lastKindBound) above(place int, limit int64) bool {
	if limit < 0 {
		return true
	}
	n := 0
	for p := place; p < len(b.s.order); p++ {
		n += int(max(0, b.s.left[b.s.order[p]])) * b.size[p]
	}
	return b.compute(place, n, limit, b.s.tally) > limit
}

// compute finds the least of set n, or that it is above limit; left is the tally of n.
func (b *lastKindBound) compute(place, n int, limit int64, left sections.Tally) int64 {
	if known := b.least[n]; known > limit || b.sure[n] {
		return known
	}
	s := b.s
	if s.over() {
		return 0
	}
	tallies := &s.tallying
	count := tallies.Count(left, s.order[place])
	for count == 0 {
		place++
		count = tallies.Count(left, s.order[place])
	}
	best := limit + 1
	sure := false
	guard := tallies.Guard
	list := b.lists[place]
	for i := range list {
		c := &list[i]
		if c.excess >= best {
			break
		}
		less, ok := left.Less(c.tally, guard)
		if !ok {
			continue
		}
		if rest := b.compute(place, n-c.step, best-1-c.excess, less); c.excess+rest < best {
			best, sure = c.excess+rest, true
		}
	}
	if s.p.shortable() {
		kind := s.order[place]
		if more := int64(count) * (s.d.sigma - s.d.prices[kind]); more < best {
			less := tallies.Without(left, kind, count)
			if rest := b.compute(place, n-int(count)*b.size[place], best-1-more, less); more+rest < best {
				best, sure = more+rest, true
			}
		}
	}
	if s.ended {
		return 0
	}
	b.least[n], b.sure[n] = best, sure
	return best
}
