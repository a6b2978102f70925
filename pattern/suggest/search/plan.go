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
	plan, places := s.try(ctx, p.layout)
	if plan.Short > 0 {
		return l, false, plan.Status == cutting.Optimal
	}
	plan = suggest.Renumbered(plan, func(strip int) int { return places[strip-1] })
	l = s.layout(p)
	l.Plan = &plan
	seen := slices.Clone(l.Strips)
	s.name(&l)
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

// try plans how a layout is cut, and keeps in mind what falls short; places are the
// plan's strips in the layout.
func (s *search) try(ctx context.Context, f *found) (plan cutting.Plan, places []int) {
	var strips []pattern.Strip
	for i, k := range f.kinds {
		if s.Kinds[k].Timber >= 0 {
			strips, places = append(strips, s.asked(int(k))), append(places, i+1)
		}
	}
	if plan = s.cut(ctx, strips); plan.Short > 0 {
		s.plansShort++
		s.fail(ctx, f, plan)
	}
	return plan, places
}

// asked returns a strip of a kind as a plan is asked for it.
func (s *search) asked(kind int) pattern.Strip {
	t := s.Kinds[kind].Strip
	t.Species = s.Timbers[s.Kinds[kind].Timber].Name
	return t
}

// cut plans how strips are cut.
func (s *search) cut(ctx context.Context, strips []pattern.Strip) cutting.Plan {
	plan, err := solve.Plan(ctx, cutting.Job{Rack: s.Rack, Shop: s.physics.Shop(), Patterns: []cutting.Demand{
		{Stem: suggest.Stem, Pattern: pattern.Pattern{Panel: s.ask.Panel(), Strips: strips}, Copies: 1}}}, solve.Options{})
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

// fail keeps the counts of every timber that a plan is short of, as few of them as
// still fail.
func (s *search) fail(ctx context.Context, layout *found, plan cutting.Plan) {
	counts := layout.counts(s.plain)
	for at, t := range s.Timbers {
		if !slices.ContainsFunc(plan.Missing, func(m cutting.Missing) bool { return m.Species == t.Name }) {
			continue
		}
		f := s.failing(counts, at)
		if plan.Status == cutting.Optimal {
			s.shrink(ctx, f.counts)
		}
		s.failures = append(s.failures, f)
	}
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
			var strips []pattern.Strip
			for k, n := range counts {
				for range n {
					strips = append(strips, s.asked(k))
				}
			}
			if plan := s.cut(ctx, strips); plan.Short == 0 || plan.Status != cutting.Optimal {
				counts[i]++
				break
			}
		}
	}
}

// name gives each strip of a layout the source that its plan takes it from.
func (s *search) name(l *suggest.Layout) {
	for ref, id := range l.Plan.Served() {
		at := &l.Strips[ref.Strip-1]
		if at.Source, at.UseFirst = s.Source(id), s.First[id]; s.Unseen[id] {
			at.Rings = pattern.Rings{}
		}
	}
	for i := range l.Plan.Ready {
		l.Plan.Ready[i].ID = s.Source(l.Plan.Ready[i].ID)
	}
	l.UseFirst = 0
	for _, p := range l.Strips {
		if p.UseFirst {
			l.UseFirst += p.Width
		}
	}
}
