package gallery

import (
	"context"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
)

// nodesUse is how many walks are followed to prove how much use-first width there can be.
const nodesUse = 40_000

// A found layout is the best of a look, or none, with what is known of it.
type found struct {
	layout *suggest.Layout
	proved bool          // it is the best, or there is none
	most   suggest.Merit // no layout is worth more
}

// solve seeks the best layout.
func (s *seek) solve(ctx context.Context) found {
	floor := int64(-1)
	if c := s.g.ask.Floor(s.look); c >= 0 {
		floor = units(c)
	}
	all := s.contrasts(floor)
	if len(all) == 0 {
		return found{proved: true}
	}
	if s.g.ask.Aim == suggest.UseUp && s.firsts() > 0 {
		return s.useUp(ctx, all)
	}
	for _, least := range []int64{all[0], all[len(all)-1]} { // so that there is something soon
		s.any = true
		_, none := s.seekAt(ctx, least, nil, nodesMost/4, brief())
		if s.any = false; s.best != nil {
			out := found{}
			out.layout, out.most.Least, out.most.Sum, out.proved = s.mostContrast(ctx, all)
			return out
		}
		if none && least == all[len(all)-1] && !s.stop() {
			return found{proved: true}
		}
	}
	return s.oneByOne(ctx, all)
}

// oneByOne tries one contrast after the other, the greatest first, with much work on each.
func (s *seek) oneByOne(ctx context.Context, all []int64) found {
	out := found{proved: true}
	for _, least := range all {
		most, done := s.seekAt(ctx, least, nil, nodesMost, thorough())
		if !done && out.most.Least == 0 {
			out.most.Least = least
		}
		out.proved = out.proved && done
		if s.best != nil {
			out.layout, out.most.Least, out.most.Sum = s.best, max(out.most.Least, least), most
			break
		}
		if s.stop() {
			out.proved = false
			break
		}
	}
	return out
}

// seekAt seeks the layout of the greatest sum, with lines of at least such a contrast, that is
// worth more than best. It returns what none is worth more than, and whether that is proved
// to be what the best is worth, or that there is none.
func (s *seek) seekAt(ctx context.Context, least int64, best *suggest.Layout, nodes int, e effort) (most int64, done bool) {
	s.worth, s.best, s.nodes, s.effort, s.open = byContrast, best, nodes, e, never
	if s.above = int64(s.g.ask.Strips[0]-1)*least - 1; best != nil {
		s.above = best.Sum
	}
	most, done = s.maximise(ctx, least)
	return max(most, s.above), done && s.open <= s.above
}

// useUp seeks the layout of the most use-first width, and of those with as much the one of
// most contrast. It begins with what the best walks by use-first width come to, with little
// work on each, and with more contrast for that; and then proves or finds more.
func (s *seek) useUp(ctx context.Context, all []int64) found {
	floor := all[len(all)-1]
	first := min(s.most, s.firsts())
	most, sure := s.mostUse(ctx, floor, nil, brief())
	if s.best == nil && !sure {
		s.use = 0
		if _, none := s.seekAt(ctx, floor, nil, nodesMost/4, thorough()); s.best == nil && none {
			return found{proved: true}
		}
	}
	if s.best != nil && !sure && int64(s.best.UseFirst) < most {
		most, sure = s.mostUse(ctx, floor, s.best, thorough())
	}
	out := found{layout: s.best, proved: sure, most: suggest.Merit{Use: length.Length(min(most, first)), Least: all[0]}}
	if s.best == nil {
		return out
	}
	s.use = int64(s.best.UseFirst)
	out.layout, out.most.Least, out.most.Sum, sure = s.mostContrast(ctx, all)
	out.most.Use = max(out.most.Use, out.layout.UseFirst)
	out.proved = out.proved && sure
	return out
}

// mostUse seeks a layout with more use-first width than best has. It returns what none has
// more than, and whether the best so far has as much, or there is none.
func (s *seek) mostUse(ctx context.Context, least int64, best *suggest.Layout, e effort) (most int64, sure bool) {
	s.worth, s.best, s.use, s.nodes, s.effort, s.open, s.above = byUse, best, 0, nodesUse, e, never, -1
	if best != nil {
		s.above = int64(best.UseFirst) + s.unit() - 1
	}
	most, sure = s.maximise(ctx, least)
	most = max(most, s.open)
	return most - most%s.unit(), sure && s.open <= s.above
}

// mostContrast seeks the layout of the most contrast that uses as much as the best so far. It
// tries the contrasts by halves first, so that there is something good soon, and proves
// then that none beyond is possible. It returns what no line and no sum is above.
func (s *seek) mostContrast(ctx context.Context, all []int64) (best *suggest.Layout, least, sum int64, sure bool) {
	best = s.best
	at := s.at(all, best)
	none := 0 // so many of the contrasts are proved to be too great
	for from := 0; from < at && !s.stop(); {
		try := (from + at) / 2
		s.any = true
		_, done := s.seekAt(ctx, all[try], nil, nodesMost/4, brief())
		if s.any = false; s.best != nil {
			best, at = s.best, s.at(all, s.best)
			continue
		}
		if from = try + 1; done {
			none = from
		}
	}
	sum, sure = s.seekAt(ctx, all[at], best, nodesMost/4, brief())
	best = s.best
	for ; none < at && !s.stop(); none++ {
		most, done := s.seekAt(ctx, all[none], nil, nodesMost, thorough())
		if s.best != nil {
			return s.best, all[none], most, done
		}
		if !done {
			break
		}
	}
	if !sure && !s.stop() {
		sum, sure = s.seekAt(ctx, all[at], best, nodesMost, thorough())
		best = s.best
	}
	return best, all[min(none, at)], sum, sure && none >= at
}

// at returns the place of the contrast that a layout's lines have at least.
func (s *seek) at(all []int64, l *suggest.Layout) int {
	for i, c := range all {
		if units(l.SmallestContrast) >= c {
			return i
		}
	}
	return len(all) - 1
}
