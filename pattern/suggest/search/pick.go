package search

import (
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/stock"
)

// A pick is the next layout, with what is known of it.
type pick struct {
	layout *found
	proved bool  // it is the best, or there is none
	use    int64 // most use-first width that a layout may have
	least  int64 // greatest smallest contrast that one with as much may have
	sum    int64 // greatest sum that one with as much of both may have
}

// next seeks the best layout that differs from those before by enough; last is the
// one before, or the zero pick. Use-first width comes first, then the smallest
// contrast, then the sum of contrasts.
//
// Each phase holds the one before to what it found, so the pick is the best in that
// order where each is proved: none has more use-first width; none with as much has a
// greater smallest contrast; none with as much of both has a greater sum. Where nothing
// may lie beside anything, or the width is out of reach, there is none.
func (s *search) next(last pick) pick {
	p := pick{proved: true}
	if len(s.contrasts) == 0 || len(s.problems) == 0 || s.tooWide() {
		return p
	}
	var f *found
	if s.ask.Aim == suggest.UseUp && slices.ContainsFunc(s.Kinds, func(k stock.Kind) bool { return k.First > 0 }) {
		f = s.mostUse(&p, last)
	} else {
		f, p.proved = s.find(s.floor, 0, s.efforts())
	}
	if f == nil {
		if p.least = s.contrasts[len(s.contrasts)-1]; !p.proved {
			p.sum = s.sumBound()
		}
		return p
	}
	t := target{alpha: 1, least: f.use}
	f = s.greatestLeast(&p, f, t, last)
	least, _ := s.smallest(f)
	o := s.maximise(least, t, f, s.ceiling())
	p.layout, p.sum = o.best, o.most
	p.proved = p.proved && o.done
	return p
}

// ceiling returns more than any sum of contrasts comes to.
func (s *search) ceiling() int64 {
	most := 0
	for _, w := range s.problems {
		most = max(most, w.hi)
	}
	return int64(most) * s.contrasts[len(s.contrasts)-1]
}

// mostUse seeks a layout with the most use-first width: first what the bound allows,
// then by halving what is left, with little work; then it is proved that one step more
// cannot be. Use-first width comes in multiples of unit, since every strip that counts
// is one wide; so what rules out at leaves at less one unit, and nothing lies between.
func (s *search) mostUse(p *pick, last pick) *found {
	high, unit := s.useCeiling(last)
	f, _ := s.find(s.floor, high, s.leastEfforts())
	if f == nil {
		var done bool
		if f, done = s.find(s.floor, 0, s.efforts()); f == nil {
			p.use, p.proved = high, done
			return nil
		}
	}
	for open := high; f.use+unit < open && !s.stop.stopped(); {
		at := f.use + max(unit, (open-f.use)/2/unit*unit)
		g, done := s.find(s.floor, at, s.leastEfforts())
		if g != nil {
			f = g
			continue
		}
		if open = at; done {
			high = min(high, at-unit)
		}
	}
	for f.use < high && !s.stop.stopped() {
		g, done := s.find(s.floor, f.use+unit, s.efforts())
		if g == nil {
			if done {
				high = f.use
			}
			break
		}
		f = g
	}
	p.use, p.proved = max(high, f.use), f.use >= high
	return f
}

// useCeiling returns the most use-first width that there may be, and what widths of it
// are multiples of: no more than bounds of all walks allow, than there is, and than the
// pick before could have had. That one was sought among all that may come now: what
// differs from more layouts, or holds none of more failures, is less.
func (s *search) useCeiling(last pick) (high, unit int64) {
	all := int64(0)
	for _, k := range s.Kinds[:s.plain] {
		if k.First > 0 {
			unit = gcd(unit, int64(k.Strip.Width))
			all += int64(k.Strip.Width) * int64(k.First)
		}
	}
	high = s.boundOfAll(target{use: 1}, all)
	if last.layout != nil {
		high = min(high, last.use) // what differs from more layouts cannot have more
	}
	return high / unit * unit, unit
}

// greatestLeast seeks a layout with the greatest smallest contrast, by halving the
// contrasts that it may be; f is one to start from.
//
// A layout has the contrast at low, and none has that at high or a greater one: what is
// sought at a contrast is a layout whose lines all have as much. Between the two it is
// open what there is, from open on; only where high is next to low is it proved. What
// the pick before had at most, with as much use-first width, bounds this one, if that
// was proved: it was sought among all that may come now.
func (s *search) greatestLeast(p *pick, f *found, t target, last pick) *found {
	units, _ := s.smallest(f)
	low, _ := slices.BinarySearch(s.contrasts, units) // a layout has it
	high := len(s.contrasts)                          // none has it
	open := len(s.contrasts)                          // none from here on, or it is not known
	try := func(at int) {
		g, done := s.find(s.contrasts[at], t.least, s.efforts())
		switch {
		case g != nil:
			units, _ := s.smallest(g)
			f = g
			low, _ = slices.BinarySearch(s.contrasts, units)
		case done:
			high, open = min(high, at), min(open, at)
		default:
			open = at
		}
	}
	if last.layout != nil && last.layout.use == f.use && last.proved {
		at, _ := slices.BinarySearch(s.contrasts, last.least)
		high, open = min(high, at+1), min(open, at+1)
		if at > low {
			try(at)
		}
	}
	for low+1 < open && !s.stop.stopped() {
		try((low + open) / 2)
	}
	if s.stop.stopped() {
		open = low + 1
	}
	p.least = s.contrasts[max(low, high-1)]
	if high > low+1 {
		p.proved = false
	}
	return f
}

// sumBound returns what no layout's sum of contrasts exceeds, with whatever lines are
// allowed.
func (s *search) sumBound() int64 { return s.boundOfAll(target{alpha: 1}, s.ceiling()) }

// boundOfAll returns what no layout is worth more than for t, of which known is known: the
// greatest of the bounds of the walks, where there is one for each.
func (s *search) boundOfAll(t target, known int64) int64 {
	most := int64(0)
	for n := range s.problems {
		b := s.boundOf(n, s.floor, t, infeasible, infeasible, sharp)
		if b == nil {
			return known
		}
		most = max(most, b.all())
	}
	return min(most, known)
}

// bound hands out what is known of a pick that is not proved.
func (p pick) bound() *suggest.Bound {
	return &suggest.Bound{
		UseFirst:         length.Length(max(0, p.use)),
		SmallestContrast: float64(p.least) / suggest.PerContrast,
		TotalContrast:    float64(max(0, p.sum)) / suggest.PerContrast,
	}
}
