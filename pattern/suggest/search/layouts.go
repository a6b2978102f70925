package search

import (
	"context"
	"math"
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
)

// failuresMost is how many plans may fall short before the search for layouts ends.
const failuresMost = 400

// layouts seeks every layout that is asked for.
func (s *search) layouts(ctx context.Context, opt suggest.Options) suggest.Result {
	a := s.inOrder(ctx, opt)
	order(&a)
	return a
}

// order puts the layouts that are not proved, which come last, in order among
// themselves. Where one changes its place, what stands before it is no longer what it
// was proved against.
func order(a *suggest.Result) {
	from := slices.IndexFunc(a.Layouts, func(l suggest.Layout) bool { return !l.Proved })
	if from < 0 {
		return
	}
	rest := a.Layouts[from:]
	better := a.Aim.Compare
	if slices.IsSortedFunc(rest, better) {
		return
	}
	slices.SortStableFunc(rest, better)
	for i := range rest {
		rest[i].Proved = false
	}
}

// inOrder seeks them one after the other. Each is the best of those that differ enough
// from the ones before, as far as that was proved. One whose plan falls short is passed
// over, its counts kept in mind, and another sought; where it is not proved that every
// plan of it falls short, the answer is not proved either (PlansProved). That there are
// no more is proved where the last pick is.
func (s *search) inOrder(ctx context.Context, opt suggest.Options) suggest.Result {
	a := suggest.Result{Status: suggest.Optimal, Aim: s.ask.Aim, Layouts: []suggest.Layout{}, PlansProved: true}
	last := pick{}
	s.unlike()
	for len(a.Layouts) < s.ask.Layouts {
		p := s.next(last)
		if p.layout == nil {
			s.close(&a, p)
			return a
		}
		last = p
		l, ok, proved := s.layout(p), true, true
		if len(s.ask.Widths) > 0 {
			l, ok, proved = s.planned(ctx, p)
		}
		if ok {
			a.Layouts = append(a.Layouts, l)
		}
		if ok || !proved {
			s.noteTop(p)
		}
		doubt(&a, p.proved && proved)
		if ok {
			s.priors = append(s.priors, s.tally(p.layout.counts(s.plain)))
		} else {
			a.PlansProved = a.PlansProved && proved
			if s.plansShort >= s.tries || s.stop.stopped() {
				p.proved = false
				s.close(&a, p)
				return a
			}
		}
		s.tell(opt, a)
	}
	return a
}

// unlike counts the layouts that every answer is to differ from, before any other.
func (s *search) unlike() {
	for _, strips := range s.ask.Unlike {
		counts := make([]int, len(s.Classes))
		for _, p := range strips {
			counts[slices.Index(s.Classes, p.Kind())]++
		}
		s.priors = append(s.priors, counts)
	}
}

// doubt makes the answer Feasible where a pick is not proved.
func doubt(a *suggest.Result, proved bool) {
	if !proved && a.Status == suggest.Optimal {
		a.Status = suggest.Feasible
	}
}

// noteTop remembers the pick that bounds all layouts: the first one that is handed out,
// or passed over without proof that it cannot be. Whatever was passed over before is
// proved to be no layout, so that all there are come under its bound.
func (s *search) noteTop(p pick) {
	if s.top == nil {
		s.top = &p
	}
}

// boundBeside returns what no layout exceeds, where first is the first one handed out.
// What the top pick proved of the smallest contrast is so of layouts with as much
// use-first width as it has, and what it proved of the sum of those with as much of
// both. The first layout may have less: then layouts with as much as that are more of
// them, and only what is so of all layouts bounds these.
func (s *search) boundBeside(first suggest.Layout) *suggest.Bound {
	p := *s.top
	if f := p.layout; f != nil {
		units, _ := s.smallest(f)
		lessUse := s.ask.Aim == suggest.UseUp && int64(first.UseFirst) < f.use
		if lessUse {
			p.least = s.contrasts[len(s.contrasts)-1]
		}
		if lessUse || int64(math.Round(first.SmallestContrast*suggest.PerContrast)) < units {
			p.sum = s.sumBound()
		}
	}
	return p.bound()
}

func (s *search) tell(opt suggest.Options, a suggest.Result) {
	if opt.Progress != nil {
		opt.Progress(suggest.Progress{Layouts: len(a.Layouts), Wanted: s.ask.Layouts, Tried: s.plansShort, Found: slices.Clip(a.Layouts)})
	}
}

// close settles an answer for which there is no next layout, or none was found.
func (s *search) close(a *suggest.Result, p pick) {
	s.noteTop(p)
	doubt(a, p.proved)
	if len(a.Layouts) > 0 {
		return
	}
	if a.Status == suggest.Optimal {
		a.Status = suggest.Infeasible
	} else {
		a.Status = suggest.Open
	}
}

// counts returns how many strips of each of n kinds a layout has.
func (f *found) counts(n int) []uint16 {
	out := make([]uint16, n)
	for _, k := range f.kinds {
		out[k]++
	}
	return out
}

// layout hands out a pick, with ready strips in their places.
func (s *search) layout(p pick) suggest.Layout {
	l := suggest.Layout{Proved: p.proved, Sum: p.layout.sum, Most: suggest.Merit{Use: length.Length(p.use), Least: p.least, Sum: p.sum}, SmallestContrast: math.Inf(1)}
	handed := make([]int, len(s.Kinds))
	for i, k := range p.layout.kinds {
		kind := &s.Kinds[k]
		placed := suggest.Placed{Species: kind.Strip.Species, Width: kind.Strip.Width, Rings: kind.Strip.Rings,
			Moisture: kind.Strip.Moisture, Pinned: s.pinnedAt(i + 1)}
		placed.Source, placed.UseFirst = kind.Hand(handed[k])
		if kind.Timber >= 0 {
			placed.UseFirst = kind.First > 0
		}
		handed[k]++
		l.Width += placed.Width
		if placed.UseFirst {
			l.UseFirst += placed.Width
		}
		l.Strips = append(l.Strips, placed)
		if i > 0 {
			c := s.matrix.exact[s.matrix.at(int(p.layout.kinds[i-1]), int(k))]
			l.SmallestContrast, l.TotalContrast = min(l.SmallestContrast, c), l.TotalContrast+c
		}
	}
	l.Level = suggest.LevelOf(s.physics, s.ask.Pattern(l))
	return l
}

// pinnedAt reports whether the maker a strip there.
func (s *search) pinnedAt(place int) bool {
	return slices.ContainsFunc(s.ask.Pinned, func(p suggest.Pin) bool { return p.Place == place })
}
