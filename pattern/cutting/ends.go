package cutting

// ends is what the last kinds of a search cost at least in excess, for each set of
// strips that may be left of them, when pieces could be used again and again. It is
// reckoned as it is asked for.
type ends struct {
	s     *search
	from  int     // the first place that it knows
	size  []int   // of each place: how many sets there are of what lies after it
	least []int64 // of each set, by its number: what it costs at least
	sure  []bool  // of each set: it costs just that
}

// newEnds covers as many of the last kinds as there is room for.
func newEnds(s *search, room int) *ends {
	e := &ends{s: s, from: len(s.order), size: make([]int, len(s.order))}
	sets := 1
	for e.from > 0 {
		more := int(s.p.want[s.order[e.from-1]]) + 1
		if sets > room/more {
			break
		}
		e.from--
		e.size[e.from] = sets
		sets *= more
	}
	e.least, e.sure = make([]int64, sets), make([]bool, sets)
	e.sure[0] = true
	return e
}

// above reports whether what is left from place on costs more excess than limit.
func (e *ends) above(place int, limit int64) bool {
	n := 0
	for p := place; p < len(e.s.order); p++ {
		n += int(max(0, e.s.left[e.s.order[p]])) * e.size[p]
	}
	return limit < 0 || e.reckon(place, n, limit) > limit
}

// reckon finds the least of set n, or that it is above limit. What the search has
// left stands for n while its candidates are tried.
func (e *ends) reckon(place, n int, limit int64) int64 {
	if known := e.least[n]; known > limit || e.sure[n] {
		return known
	}
	s := e.s
	if s.tired() {
		return 0
	}
	for s.left[s.order[place]] <= 0 {
		place++
	}
	kind := s.order[place]
	best := limit + 1
	sure := false
	for i := range s.buckets[place] {
		c := &s.buckets[place][i]
		if c.excess >= best {
			break
		}
		if !c.take.within(s.left) {
			continue
		}
		step := 0
		for _, q := range c.take {
			s.left[q.kind] -= q.count
			step += int(q.count) * e.size[s.place[q.kind]]
		}
		if rest := e.reckon(place, n-step, best-1-c.excess); c.excess+rest < best {
			best, sure = c.excess+rest, true
		}
		c.take.back(s.left)
	}
	if s.p.charged() {
		count := s.left[kind]
		each := s.d.sigma - s.d.prices[kind]
		if more := int64(count) * each; more < best {
			s.left[kind] = 0
			if rest := e.reckon(place, n-int(count)*e.size[place], best-1-more); more+rest < best {
				best, sure = more+rest, true
			}
			s.left[kind] = count
		}
	}
	if s.ended {
		return 0
	}
	e.least[n], e.sure[n] = best, sure
	return best
}
