package search

import "slices"

// heldMost is how many layouts that were come upon are held on to.
const heldMost = 500

// noteWalk holds on to a walk of n, if it is a layout: nothing is proved by that, but a
// layout there is. The walk keeps to neighbours, pins and symmetry, and whoever calls has
// counted that there is as much of each kind; what a bound prices is looked at here:
// number, budgets, and the width to the nanometre.
func (s *search) noteWalk(n int, kinds []int32) {
	w := s.problems[n]
	f := &found{kinds: kinds}
	counts := f.counts(w.k)
	width := int64(0)
	for k, n := range counts {
		width += int64(n) * w.width[k]
		f.use += int64(min(int(n), w.first[k])) * w.width[k]
	}
	for i := 1; i < len(kinds); i++ {
		f.sum += s.matrix.contrast[s.matrix.at(int(kinds[i-1]), int(kinds[i]))]
	}
	keeps := s.inFull()
	if len(kinds) >= w.lo && len(kinds) <= w.hi && width >= w.wlo && width <= w.whi && !w.overdrawn(counts) && (keeps == nil || keeps(kinds)) {
		s.hold(f)
	}
}

// hold holds on to a layout.
func (s *search) hold(f *found) {
	if f != nil && len(s.held) < heldMost && !slices.ContainsFunc(s.held, func(o *found) bool { return slices.Equal(o.kinds, f.kinds) }) {
		s.held = append(s.held, f)
	}
}

// holding returns a layout that was come upon with at least such a contrast and such a
// use-first width: of these the one with the greatest smallest contrast; or nil.
//
// What is held was found to be a layout of the ask, whichever search it came from: bounds
// and passes of other targets keep to the same conditions, or to more. So it shows that
// there is one. What changes from layout to layout is looked at anew: whether it differs
// enough, and whether it holds counts that no plan yields, or has an order that none does.
func (s *search) holding(least, use int64) *found {
	var best *found
	most := least - 1
	dead := s.cutFilter()
	for _, f := range s.held {
		units, _ := s.smallest(f)
		if units <= most || f.use < use || s.refuses(f.kinds) {
			continue
		}
		counts := f.counts(s.plain)
		if s.differs(counts) && !(dead != nil && slices.ContainsFunc(f.kinds, func(k int32) bool { return dead(counts, int(k)) })) {
			best, most = f, units
		}
	}
	return best
}
