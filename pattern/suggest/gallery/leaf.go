package gallery

import (
	"context"
	"slices"

	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/suggest/stock"
)

// leaf takes a whole walk as the best so far, where it is a layout and worth more. It
// reports whether to go on.
func (s *seek) leaf(ctx context.Context, f *fold, steps []int, counts []uint16) bool {
	g := s.g
	classes := f.unfold(steps)
	sum := int64(0)
	for i := 1; i < len(classes); i++ {
		sum += g.contrast(classes[i-1], classes[i])
	}
	if s.worth == byContrast && sum <= s.above || !g.lie(classes) || !s.fits(classes, counts) {
		return true
	}
	use, worth := int64(0), sum
	for t := range g.timbers {
		if g.wide(t, counts) == 0 {
			continue
		}
		y := g.of(ctx, t, s.own(t, counts, classes))
		if !y.ok {
			if !y.proved {
				s.open = s.most * 1000
			}
			return true
		}
		if use += y.use; !y.proved && s.worth == byUse {
			s.open = max(s.open, s.firsts())
		} else if !y.proved && s.use > 0 {
			s.open = max(s.open, sum)
		}
	}
	if s.worth == byUse {
		worth = use
	}
	if use < s.use || worth <= s.above {
		return true
	}
	if g.ask.Join.On() {
		var sure bool
		if classes, sure = g.order(ctx, classes); classes == nil {
			if !sure {
				s.open = max(s.open, worth)
			}
			return !s.stop()
		}
	}
	l, sure := g.realise(ctx, s, classes, counts, use)
	if g.ask.Join.On() && l == nil && use > 0 { // wherever strips lay, so much could be used up
		least := s.use
		if s.worth == byUse {
			least = max(least, s.above+1)
		}
		if l, sure = g.realise(ctx, s, classes, counts, least); l == nil {
			sure = false
		} else if s.worth == byUse {
			s.open, worth = max(s.open, worth), int64(l.UseFirst)
		}
	}
	if l == nil {
		if !sure {
			s.open = max(s.open, worth)
		}
		return !s.stop()
	}
	l.Sum, s.best, s.above = sum, l, worth
	if s.worth == byUse {
		s.above += s.unit() - 1 // to use more is to use that much more
	}
	return true
}

// fits reports whether strips do all that the walk did not look after: how different they
// look, by how many strips they differ, what shares timbers have, and the look itself.
func (s *seek) fits(classes []int, counts []uint16) bool {
	g := s.g
	seen := make([]look.Strip, len(classes))
	for i, c := range classes {
		seen[i] = g.seen[c]
	}
	if !g.rules.Is(s.look, seen) {
		return false
	}
	wide := look.Width(seen)
	for _, like := range s.shared {
		if sum := g.alike(like, counts); 2*sum > int64(wide) {
			return false
		}
	}
	for _, share := range g.ask.AtMost {
		if t := slices.IndexFunc(g.timbers, func(t timber) bool { return t.key == share.Species }); t >= 0 &&
			100*float64(g.wide(t, counts)) > share.Pct*float64(wide) {
			return false
		}
	}
	for _, b := range s.before {
		if look.Apart(seen, b, g.tells) < g.ask.ApartPct {
			return false
		}
	}
	return g.ask.ApartPct > 0 || !slices.ContainsFunc(s.priors, func(p []suggest.Placed) bool {
		strips := make([]suggest.Placed, len(classes))
		for i, c := range classes {
			strips[i] = suggest.Placed{Species: g.classes[c].Species, Width: g.classes[c].Width}
		}
		return suggest.Apart(suggest.Layout{Strips: strips}, suggest.Layout{Strips: p}) < g.ask.Differ
	})
}

// own returns counts without the pinned strips that are only given.
func (s *seek) own(t int, counts []uint16, classes []int) []uint16 {
	out := counts
	for _, p := range s.g.ask.Pinned {
		if c := classes[p.Place-1]; s.g.given(p) && s.g.classes[c].timber == t {
			out = slices.Clone(out)
			out[c]--
		}
	}
	return out
}

// given reports whether a pinned strip is only given.
func (g *goods) given(p suggest.Pin) bool {
	made := g.ask.VarietyOf(g.physics, p.Strip)
	return slices.ContainsFunc(g.stock.Kinds, func(k stock.Kind) bool { return k.Given && g.stock.Made[k.Made] == made })
}
