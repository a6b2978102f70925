package search

import (
	"context"
	"slices"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
)

// Where strips may be in pieces, what one takes depends on its place. So a layout that cannot be
// cut says little of others of as many strips of each kind: only where a plan of such strips
// wherever they lie is short too do these counts fail. Else it is kept in mind which strips of
// it fail where they lie, and other orders are tried, so that a proof stays one.

// A refusal is strips that cannot be cut together where they lie, in a layout so wide.
type refusal struct {
	width  int64
	strips []laidKind // from left to right
	of     failure    // its counts
}

// A laidKind is a strip by its kind and its place.
type laidKind struct {
	kind int32
	at   int64 // where it begins
	odd  bool  // its number
}

// laid returns the strips of a layout with their places, and how wide it is.
func (s *search) laid(kinds []int32) (strips []laidKind, width int64) {
	for i, k := range kinds {
		strips = append(strips, laidKind{k, width, i%2 == 0})
		width += int64(s.Kinds[k].Strip.Width)
	}
	return strips, width
}

// refuses reports whether a layout has strips that cannot be cut together where they lie.
func (s *search) refuses(kinds []int32) bool {
	if len(s.refused) == 0 {
		return false
	}
	strips, width := s.laid(kinds)
	return slices.ContainsFunc(s.refused, func(r refusal) bool {
		return r.width == width && !slices.ContainsFunc(r.strips, func(one laidKind) bool { return !slices.Contains(strips, one) })
	})
}

// stepsMost is how many steps the planner takes to find whether strips can be cut, and
// joinedSteps how many to cut them with little.
const (
	stepsMost   = 40
	joinedSteps = 4
)

// attempt looks whether a job can be cut, as one of the two bricks or at all, and whether that it
// cannot is proved.
func (s *search) attempt(ctx context.Context, job cutting.Job) (plan cutting.Plan, fits, sure bool) {
	if s.lose != nil && s.lose() {
		return plan, false, false
	}
	sure = true
	for _, side := range job.Sides() {
		a := solve.Try(ctx, side, stepsMost)
		s.doubts.note(a.Broken)
		if a.Fits {
			return a.Plan, true, true
		}
		sure = sure && a.Sure
	}
	return plan, false, sure
}

// join plans how a layout is cut whose strips may be in pieces, as it is or mirrored: that is the
// same layout, but products may lie otherwise on it. Where it cannot be cut it keeps that in mind.
func (s *search) join(ctx context.Context, f *found) tried {
	layouts := []*found{f}
	if len(s.ask.Pinned) == 0 {
		back := *f
		back.kinds = slices.Clone(back.kinds)
		slices.Reverse(back.kinds)
		layouts = append(layouts, &back)
	}
	sure := true
	for _, f := range layouts {
		t := s.statement(f)
		plan, fits, proved := s.attempt(ctx, t.job)
		if fits {
			if t.plan = s.cutIn(ctx, t.job, joinedSteps); t.plan.Short > 0 {
				t.plan = plan
			}
			return t
		}
		sure = sure && proved
	}
	s.plansShort++
	t := tried{layout: f, plan: cutting.Plan{Short: 1}, sure: s.fail(ctx, s.lacking(ctx, f))}
	if t.sure {
		return t
	}
	t.sure = sure
	for _, f := range layouts {
		if sure && !s.refuse(ctx, f) {
			t.sure = false
		}
	}
	if !t.sure {
		s.giveUp(ctx, f)
	}
	return t
}

// of returns what reports whether a strip of a layout is cut from a timber.
func (s *search) of(f *found, timber int) func(i int) bool {
	return func(i int) bool { return s.Kinds[f.kinds[i]].Timber == timber }
}

// lacking returns the counts of every timber that a layout falls short of by itself.
func (s *search) lacking(ctx context.Context, f *found) (out []failure) {
	counts := f.counts(s.plain)
	for at := range s.Timbers {
		lacks := s.failing(counts, at)
		if slices.Max(append(lacks.counts, 0)) == 0 {
			continue
		}
		if _, fits, _ := s.attempt(ctx, s.jobOf(f, s.of(f, at))); !fits {
			out = append(out, lacks)
		}
	}
	return out
}

// ordersMost is in how many orders the same strips of a timber are tried: the rest is given up
// then.
const ordersMost = 8

// refuse keeps in mind which strips of a layout cannot be cut where they lie: of one timber that
// falls short by itself as few as still do, else all. False where so many orders of as many were
// refused that no more are to be tried.
func (s *search) refuse(ctx context.Context, f *found) bool {
	strips, width := s.laid(f.kinds)
	keep := make([]bool, len(strips))
	fails := func() bool {
		_, fits, sure := s.attempt(ctx, s.jobOf(f, func(i int) bool { return keep[i] }))
		return !fits && sure
	}
	r := refusal{width: width, strips: strips, of: failure{-1, f.counts(s.plain)}}
	for _, lacks := range s.lacking(ctx, f) {
		for i := range keep {
			keep[i] = s.of(f, lacks.timber)(i)
		}
		if !fails() {
			continue
		}
		r.strips, r.of = nil, lacks
		for i := range keep {
			if was := keep[i]; was && !s.stop.stopped() {
				if keep[i] = false; !fails() {
					keep[i] = true
				}
			}
			if keep[i] {
				r.strips = append(r.strips, strips[i])
			}
		}
		break
	}
	alike := 0
	for _, o := range s.refused {
		if o.of.timber == r.of.timber && slices.Equal(o.of.counts, r.of.counts) {
			alike++
		}
	}
	s.refused = append(s.refused, r)
	return alike < 2*ordersMost // a layout and its mirror image
}

// giveUp keeps the counts of every timber that a layout falls short of where it lies, or where
// none does of all, as if they failed wherever they lie.
func (s *search) giveUp(ctx context.Context, f *found) {
	lacking := s.lacking(ctx, f)
	for at := range s.Timbers {
		if lacks := s.failing(f.counts(s.plain), at); len(lacking) == 0 && slices.Max(append(lacks.counts, 0)) > 0 {
			s.failures = append(s.failures, lacks)
		}
	}
	s.failures = append(s.failures, lacking...)
}

// failsAnywhere reports whether counts are proved to fail wherever their strips lie.
func (s *search) failsAnywhere(ctx context.Context, counts []uint16) bool {
	job, known := s.Anywhere(s.Rack, s.strips(counts))
	if !known {
		return false
	}
	_, fits, sure := s.attempt(ctx, job)
	return !fits && sure
}
