package suggest

import (
	"context"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
)

// trialsMost is how many plans one condition is tried with.
const trialsMost = 12

// loosen finds by which one condition alone a layout could be had.
func (s *search) loosen(ctx context.Context) *Loosen {
	out := &Loosen{Level: s.leastLevel(ctx)}
	if s.ask.Aim == UseUp {
		out.LeastContrast = s.greatestFloor(ctx)
	}
	if s.ask.Symmetric {
		a := s.ask
		a.Symmetric = false
		out.Symmetric = s.trial(ctx, a) != nil
	}
	if s.ask.NoTwins {
		a := s.ask
		a.NoTwins = false
		out.NoTwins = s.trial(ctx, a) != nil
	}
	out.Tolerance = s.leastTolerance(ctx)
	out.Proved = !s.unsure && !s.stop.stopped()
	return out
}

// A trial is a layout that could be had, with what it was found by.
type trial struct {
	search *search
	layout *found
}

// trial gives any layout of a, which has the strips of the search's own ask; nil where
// none was found.
func (s *search) trial(ctx context.Context, a Ask) *trial {
	other, err := newSearch(s.reckoner, a, s.stop)
	if err != nil || len(other.contrasts) == 0 {
		s.unsure = s.unsure || err != nil
		return nil
	}
	other.floor, other.failures, other.hasty = other.contrasts[0], s.failures, true
	for range trialsMost {
		f, done := other.find(other.floor, 0, other.efforts())
		if f == nil {
			s.unsure = s.unsure || !done
			return nil
		}
		ok, proved := other.cuts(ctx, f)
		if ok {
			return &trial{other, f}
		}
		s.unsure = s.unsure || !proved
		s.failures = other.failures // the rack is the same
	}
	s.unsure = true
	return nil
}

// cuts reports whether the rack yields a layout, and whether that it does not is proved.
func (s *search) cuts(ctx context.Context, f *found) (ok, proved bool) {
	if len(s.ask.Widths) == 0 {
		return true, true
	}
	plan, _ := s.try(ctx, f)
	return plan.Short == 0, plan.Status == cutting.Optimal
}

func (s *search) leastLevel(ctx context.Context) *pattern.Level {
	for _, level := range pattern.Levels() {
		if level <= s.ask.Level {
			continue
		}
		a := s.ask
		a.Level = level
		if s.trial(ctx, a) != nil {
			return &level
		}
	}
	return nil
}

// greatestFloor gives the greatest least contrast that would do.
func (s *search) greatestFloor(ctx context.Context) *float64 {
	a := s.ask
	a.LeastContrast = 0
	for range trialsMost {
		t := s.trial(ctx, a)
		if t == nil {
			return nil
		}
		p := pick{proved: true}
		f := t.search.greatestLeast(&p, t.layout, target{}, pick{})
		ok, proved := t.search.cuts(ctx, f)
		s.unsure = s.unsure || !p.proved || !ok && !proved
		if ok {
			_, floor := t.search.smallest(f)
			return &floor
		}
		s.failures = t.search.failures
	}
	s.unsure = true
	return nil
}

// leastTolerance gives the least tolerance that would do: the widths of layouts that
// are tried come ever closer to the target, until there is none closer.
func (s *search) leastTolerance(ctx context.Context) *length.Length {
	a := s.ask
	a.Tolerance = pattern.MaxAcross
	t := s.trial(ctx, a)
	if t == nil {
		return nil
	}
	away := func(t *trial) length.Length {
		sum := -a.Width
		for _, k := range t.layout.kinds {
			sum += t.search.kinds[k].strip.Width
		}
		return max(sum, -sum)
	}
	reached := away(t)
	for none := s.ask.Tolerance; none+1 < reached && !s.stop.stopped(); {
		at := nearer(t.search, none, reached)
		if at >= reached {
			break
		}
		a.Tolerance = at
		if closer := s.trial(ctx, a); closer != nil {
			reached = away(closer)
		} else {
			none = at
		}
	}
	return &reached
}

// nearer halves the way from none to reached, in steps of what widths differ by.
func nearer(s *search, none, reached length.Length) length.Length {
	var unit int64
	for _, k := range s.kinds {
		unit = gcd(unit, int64(k.strip.Width))
	}
	// Widths of layouts are multiples of the unit, so their distances from the target
	// leave one of two rests.
	rest := int64(s.ask.Width) % unit
	middle, best := int64(none+reached)/2, int64(reached)
	for _, low := range [...]int64{rest, (unit - rest) % unit} {
		at := (middle-low)/unit*unit + low
		for _, at := range [...]int64{at - unit, at, at + unit} {
			if at > int64(none) && at < int64(reached) && abs(at-middle) < abs(best-middle) {
				best = at
			}
		}
	}
	return length.Length(best)
}

func abs(x int64) int64 { return max(x, -x) }
