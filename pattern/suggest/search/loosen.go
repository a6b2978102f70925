package search

import (
	"context"
	"math"
	"slices"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
)

// trialsMost is how many plans one condition is tried with.
const trialsMost = 12

// loosen finds by which one condition alone a layout could be had. Where the time is
// short a tolerance that would do comes first, and that nothing less would comes last.
//
// What is said would do was found: a trial is the search for a layout of an ask that
// differs in one condition. What is not said, or that nothing less would do, is proved
// only where every trial that was in vain was: unsure is set by any that was not.
func (s *search) loosen(ctx context.Context) *suggest.Relaxation {
	out := &suggest.Relaxation{}
	add := func(of suggest.Condition, a suggest.Request) {
		out.Ways = append(out.Ways, suggest.Loosening{Condition: of, Request: a})
	}
	n := narrowing{none: s.ask.Tolerance}
	var any bool // whether a layout of any width can be had
	if n.reached, any = s.tolerate(ctx, pattern.MaxAcross); any {
		s.narrow(ctx, &n, true)
	}
	a := s.ask
	for a.Level++; a.Level <= pattern.TooMuch; a.Level++ {
		if s.trial(ctx, a) != nil {
			add(suggest.OfLevel, a)
			break
		}
	}
	a = s.ask
	if a.Aim == suggest.UseUp {
		var ok bool
		if a.LeastContrast, ok = s.greatestFloor(ctx); ok {
			add(suggest.OfLeastContrast, a)
		}
	}
	if a = s.ask; a.Symmetric {
		if a.Symmetric = false; s.trial(ctx, a) != nil {
			add(suggest.OfSymmetry, a)
		}
	}
	if a = s.ask; a.NoTwins {
		if a.NoTwins = false; s.trial(ctx, a) != nil {
			add(suggest.OfNoTwins, a)
		}
	}
	if any {
		if s.narrow(ctx, &n, false); n.reached > s.ask.Tolerance { // else it is not the tolerance that stands in the way
			a = s.ask
			a.Tolerance = n.reached
			out.Ways = slices.Insert(out.Ways, 0, suggest.Loosening{Condition: suggest.OfTolerance, Request: a})
		}
	}
	out.Proved = !s.unsure && !s.stop.stopped()
	return out
}

// loosenWithin is loosen for so long at most; 0: as long as ctx lasts.
func (s *search) loosenWithin(ctx context.Context, most time.Duration) *suggest.Relaxation {
	if most == 0 {
		return s.loosen(ctx)
	}
	soon, cancel := context.WithTimeout(ctx, most)
	defer cancel()
	defer context.AfterFunc(soon, s.stop.end)()
	out := s.loosen(soon)
	out.Brief = soon.Err() != nil && ctx.Err() == nil
	return out
}

// A trial is a layout that could be had, with what it was found by.
type trial struct {
	search *search
	layout *found
}

// trial returns any layout of a, which has the strips of the search's own ask; nil where
// none was found.
func (s *search) trial(ctx context.Context, a suggest.Request) *trial {
	other, err := newSearch(s.physics, a, s.stop)
	if err != nil || len(other.contrasts) == 0 {
		s.unsure = s.unsure || err != nil
		return nil
	}
	other.failures, other.thorough = s.failures, quick
	other.doubts = s.doubts
	if s.ask.Join.On() { // in a panel of another width strips have other ways
		other.failures = nil
	}
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
		s.learn(other) // the rack is the same
	}
	s.unsure = true
	return nil
}

// learn takes over which counts fail, where that is so of panels of any width.
func (s *search) learn(from *search) {
	if !s.ask.Join.On() {
		s.failures = from.failures
	}
}

// cuts reports whether the rack yields a layout, and whether that it does not is proved.
func (s *search) cuts(ctx context.Context, f *found) (ok, proved bool) {
	if len(s.ask.Widths) == 0 {
		return true, true
	}
	t := s.try(ctx, f)
	return t.plan.Short == 0, t.sure
}

// greatestFloor returns the greatest least contrast that would do; false where none was
// found.
func (s *search) greatestFloor(ctx context.Context) (floor float64, ok bool) {
	a := s.ask
	a.LeastContrast = 0
	for range trialsMost {
		t := s.trial(ctx, a)
		if t == nil {
			return 0, false
		}
		p := pick{proved: true}
		f := t.search.greatestLeast(&p, t.layout, target{}, pick{})
		ok, proved := t.search.cuts(ctx, f)
		s.unsure = s.unsure || !p.proved || !ok && !proved
		if ok {
			_, floor := t.search.smallest(f)
			return floor, floor < s.ask.LeastContrast
		}
		s.learn(t.search)
	}
	s.unsure = true
	return 0, false
}

// A narrowing is what is known of the tolerance: one that would do, and one that would not.
type narrowing struct{ reached, none length.Length }

// tolerate returns how far from the target a layout is that the tolerance lets in.
func (s *search) tolerate(ctx context.Context, tolerance length.Length) (away length.Length, ok bool) {
	a := s.ask
	a.Tolerance = tolerance
	t := s.trial(ctx, a)
	if t == nil {
		return 0, false
	}
	for _, k := range t.layout.kinds {
		away += t.search.Kinds[k].Strip.Width
	}
	away -= a.Width
	return max(away, -away), true
}

// narrow seeks the least tolerance that would do: layouts that are tried come ever
// closer to the target, until there is none closer, or where soon is set until one try
// was in vain.
//
// A layout that is away from the target by so much is one at every greater tolerance, so
// what was found in vain at one is so at all that are smaller. Widths of layouts are
// multiples of what all widths are multiples of, and nearer tries only distances that
// they can be away; so that when no such distance is left between the two, what is
// reached is the least.
func (s *search) narrow(ctx context.Context, n *narrowing, soon bool) {
	for n.none+1 < n.reached && !s.stop.stopped() {
		at := s.nearer(n.none, n.reached)
		if at >= n.reached {
			return
		}
		if away, ok := s.tolerate(ctx, at); ok {
			n.reached = away
		} else if n.none = at; soon {
			return
		}
	}
}

// nearer halves the way from none to reached, in steps of what widths differ by. Where
// layouts are too narrow it halves by the ratio of widths, since narrow ones are soon found.
func (s *search) nearer(none, reached length.Length) length.Length {
	var unit int64
	for _, k := range s.Kinds {
		unit = gcd(unit, int64(k.Strip.Width))
	}
	if unit == 0 { // a panel so wide alone has strips, since products lie otherwise on it
		return reached
	}
	// Widths of layouts are multiples of the unit, so their distances from the target
	// leave one of two rests.
	rest := int64(s.ask.Width) % unit
	middle, best := int64(none+reached)/2, int64(reached)
	if narrow, wide := s.ask.Width-reached, s.ask.Width-none; narrow > 0 {
		middle = int64(s.ask.Width) - int64(math.Sqrt(float64(narrow)*float64(wide)))
	}
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
