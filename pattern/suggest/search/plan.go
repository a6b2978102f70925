package search

import (
	"context"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/suggest"
)

// A failure is counts of kinds that the timber they are cut from does not yield. As
// many or more of them it does not yield either: a plan of more strips is one of fewer,
// with some of them left. Timbers are cut apart from one another, so what is short of
// one is so whatever is cut from others. Where the plan was not proved to fall short
// the failure is none, and counts all the same, so that the search gets on: then nothing
// that follows is claimed to be proved among all layouts (PlansProved).
type failure struct {
	timber int
	counts []uint16
}

// cutFilter returns what reports whether counts, of which the last was of kind, hold a
// failure; nil where there is none.
func (s *search) cutFilter() func(counts []uint16, kind int) bool {
	if len(s.failures) == 0 {
		return nil
	}
	if s.plain < len(s.Kinds) {
		apart := make([]uint16, s.plain)
		return func(counts []uint16, kind int) bool {
			if len(counts) > s.plain {
				counts = s.apartCounts(counts, apart)
			}
			if c, two := s.coupleOf(kind); two {
				return s.cannotBeCut(counts, c.left) || s.cannotBeCut(counts, c.right)
			}
			return s.cannotBeCut(counts, kind)
		}
	}
	return s.cannotBeCut
}

// cannotBeCut reports whether counts, of which the last was of kind, hold a failure.
func (s *search) cannotBeCut(counts []uint16, kind int) bool {
	for _, f := range s.failures {
		if f.timber != s.Kinds[kind].Timber {
			continue
		}
		holds := true
		for i, n := range f.counts {
			if counts[i] < n {
				holds = false
				break
			}
		}
		if holds {
			return true
		}
	}
	return false
}

// planned plans how a pick is cut and gives the layout with its plan. Where the plan
// falls short it keeps that in mind, and says whether it is proved that every plan does.
func (s *search) planned(ctx context.Context, p pick) (l suggest.Layout, ok, proved bool) {
	t := s.try(ctx, p.layout)
	if t.plan.Short > 0 {
		return l, false, t.sure
	}
	p.layout = t.layout
	l = s.layout(p)
	place := func(strip int) int { return t.places[strip-1] }
	if s.ask.Join.On() {
		if t.plan = s.cut(ctx, l.Lay(t.job, t.plan, place)); t.plan.Short > 0 {
			s.plansShort++
			s.giveUp(ctx, p.layout)
			return l, false, false
		}
	}
	plan := suggest.Renumbered(t.plan, place)
	l.Plan = &plan
	seen := slices.Clone(l.Strips)
	s.Name(&l)
	alone(&l)
	if s.keepsLevel(&l) {
		return l, true, true
	}
	s.plansShort++
	for i := range seen { // counts of the timber that served are tried no more, and nothing is proved
		if k := p.layout.kinds[i]; seen[i].Rings != l.Strips[i].Rings {
			s.failures = append(s.failures, s.failing(p.layout.counts(s.plain), s.Kinds[k].Timber))
			break
		}
	}
	return l, false, false
}

// keepsLevel reports whether a layout that is planned keeps to the level asked for: timber
// whose rings nobody knows may serve where others were counted on.
func (s *search) keepsLevel(l *suggest.Layout) bool {
	p := s.ask.Pattern(*l)
	l.Level = suggest.LevelOf(s.physics, p)
	level := l.Level
	for i := 1; i < len(p.Strips); i++ {
		level = max(level, suggest.LineLevel(s.physics, s.ask, p.Strips[i-1], p.Strips[i]))
	}
	return level <= s.ask.Level
}

// A tried layout is one with how it is cut.
type tried struct {
	layout *found // as it can be cut: where strips may be in pieces, it or its mirror image
	job    cutting.Job
	plan   cutting.Plan
	places []int // of the plan's strips in the layout
	sure   bool  // where the plan is short: so is every other
}

// try plans how a layout is cut, and keeps in mind what falls short.
func (s *search) try(ctx context.Context, f *found) tried {
	if s.ask.Join.On() {
		return s.join(ctx, f)
	}
	t := s.statement(f)
	if t.plan = s.cut(ctx, t.job); t.plan.Short > 0 {
		s.plansShort++
		var lacking []failure
		for at, timber := range s.Timbers {
			if slices.ContainsFunc(t.plan.Missing, func(m cutting.Missing) bool { return m.Species == timber.Name }) {
				lacking = append(lacking, s.failing(f.counts(s.plain), at))
			}
		}
		if t.sure = t.plan.Status == cutting.Optimal; t.sure {
			s.fail(ctx, lacking)
		} else {
			s.failures = append(s.failures, lacking...)
		}
	}
	return t
}

// statement says what a layout takes of the timber.
func (s *search) statement(f *found) tried {
	t := tried{layout: f}
	for i, k := range f.kinds {
		if s.Kinds[k].Timber >= 0 {
			t.places = append(t.places, i+1)
		}
	}
	t.job = s.jobOf(f, func(i int) bool { return s.Kinds[f.kinds[i]].Timber >= 0 })
	return t
}

// jobOf returns the job of cutting those strips of a layout that keep says.
func (s *search) jobOf(f *found, keep func(i int) bool) cutting.Job {
	var strips []pattern.Strip
	for i, k := range f.kinds {
		if strips = append(strips, s.Kinds[k].Strip); s.Kinds[k].Timber >= 0 {
			strips[i] = s.asked(int(k))
		}
	}
	return s.ask.Cutting(s.physics.Shop(), s.Rack, strips, keep)
}

// asked returns a strip of a kind as a plan is asked for it.
func (s *search) asked(kind int) pattern.Strip {
	t := s.Kinds[kind].Strip
	t.Species = s.Timbers[s.Kinds[kind].Timber].Name
	return t
}

// cut plans how the strips of a job are cut.
func (s *search) cut(ctx context.Context, job cutting.Job) cutting.Plan { return s.cutIn(ctx, job, 0) }

// cutIn is cut in so many steps a timber; 0: until it is proved, or no more is to be gained.
func (s *search) cutIn(ctx context.Context, job cutting.Job, steps int) cutting.Plan {
	strips := job.Patterns[0].Pattern.Strips
	plan, err := solve.Plan(ctx, job, solve.Options{Steps: steps})
	if err != nil {
		var broken bool
		if plan, broken = suggest.NoPlan(len(strips), err); !broken {
			panic("search: a layout's own job is refused: " + err.Error()) // ids were looked at before
		}
	}
	s.doubts.note(plan.Broken)
	if s.lose != nil && s.lose() {
		plan = cutting.Plan{Short: len(strips)}
		for i, t := range strips {
			plan.Missing = append(plan.Missing, cutting.Missing{Ref: cutting.Ref{Pattern: suggest.Stem, Copy: 1, Strip: i + 1}, Species: t.Species})
		}
	}
	return plan
}

// fail keeps counts that a plan falls short of, as few of them as still do. Where strips may be
// in pieces only those that do wherever they lie are kept; it reports whether there are any.
func (s *search) fail(ctx context.Context, lacking []failure) (sure bool) {
	for _, f := range lacking {
		if s.ask.Join.On() && !s.failsAnywhere(ctx, f.counts) {
			continue
		}
		s.shrink(ctx, f.counts)
		s.failures, sure = append(s.failures, f), true
	}
	return sure
}

// failing returns a failure of the counts that are cut from a timber.
func (s *search) failing(counts []uint16, timber int) failure {
	f := failure{timber, make([]uint16, len(counts))}
	for i, n := range counts {
		if s.Kinds[i].Timber == timber {
			f.counts[i] = n
		}
	}
	return f
}

// shrink takes strips out of counts that fail as long as what is left is proved to
// fail too; a plan that is not proved ends it with the counts of before.
func (s *search) shrink(ctx context.Context, counts []uint16) {
	for i := range counts {
		for counts[i] > 0 && !s.stop.stopped() {
			counts[i]--
			if !s.fails(ctx, counts) {
				counts[i]++
				break
			}
		}
	}
}

// fails reports whether counts are proved to fail.
func (s *search) fails(ctx context.Context, counts []uint16) bool {
	if s.ask.Join.On() {
		return s.failsAnywhere(ctx, counts)
	}
	plan := s.cut(ctx, cutting.Job{Rack: s.Rack, Shop: s.physics.Shop(), Patterns: []cutting.Demand{
		{Stem: suggest.Stem, Pattern: pattern.Pattern{Panel: s.ask.Panel(), Strips: s.strips(counts)}, Copies: 1}}})
	return plan.Short > 0 && plan.Status == cutting.Optimal
}

// strips returns strips of such counts as a plan is asked for them.
func (s *search) strips(counts []uint16) (out []pattern.Strip) {
	for k, n := range counts {
		for range n {
			out = append(out, s.asked(k))
		}
	}
	return out
}
