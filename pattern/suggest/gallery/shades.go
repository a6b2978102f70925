package gallery

import (
	"context"
	"maps"
	"slices"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// Shades are classes of near colours that boards of one timber have of their own, each named
// as a timber of its own (species.Shade): to a search they are timbers that move alike and
// look apart.
type shades struct {
	limit float64                  // what joins a class lies within
	of    map[string][]species.RGB // founders, by timber
	asked suggest.Request
}

// shaded parts the timbers of a request by the colours on its rack, and reports whether there
// is anything to part. In the order of the rack an entry with a colour joins the first class
// whose founder is near, else founds one; entries without a colour stay the timber. A timber
// that a wish names, or any where timbers are counted, is not parted: the wish is about all
// of it.
func shaded(r movement.Physics, a suggest.Request) (s shades, any bool) {
	const part = 2 // of the contrast below which neighbours look like one strip
	s = shades{limit: r.Shop().Limits.Contrast / part, of: map[string][]species.RGB{}, asked: a}
	if a.Timbers != [2]int{} || len(a.Have) > 0 {
		return s, false
	}
	for _, e := range a.Rack.Entries() {
		if _, near := s.class(e.Species, e.Colour); e.Colour.Known && !near && !named(a, e.Species) {
			s.of[e.Species] = append(s.of[e.Species], e.Colour.RGB)
		}
	}
	return s, len(s.of) > 0
}

// named reports whether a wish is about a timber.
func named(a suggest.Request, key string) bool {
	return slices.Contains(a.With, key) || slices.ContainsFunc(a.AtMost, func(s suggest.Share) bool { return s.Species == key })
}

// class returns what a strip or piece of a timber with a colour is called, and false where
// that is the timber itself.
func (s shades) class(key string, own colour.Own) (name string, ok bool) {
	if !own.Known {
		return key, false
	}
	for i, founder := range s.of[key] {
		if species.Contrast(founder, own.RGB) <= s.limit {
			return species.Shade(key, i+1), true
		}
	}
	return key, false
}

// physics returns r with the shades among its timbers.
func (s shades) physics(r movement.Physics) movement.Physics {
	var all []species.Species
	for _, key := range slices.Sorted(maps.Keys(s.of)) {
		timber, _ := r.Table().Get(key)
		for i, founder := range s.of[key] {
			timber.Key, timber.ColourOiled = species.Shade(key, i+1), founder
			all = append(all, timber)
		}
	}
	return movement.New(r.Table().WithShades(all), r.Shop())
}

// request returns what is asked, with the rack and strips by their shades.
func (s shades) request() suggest.Request {
	a := s.asked
	a.Rack = rack.Rack{Pieces: slices.Clone(a.Rack.Pieces), Strips: slices.Clone(a.Rack.Strips)}
	for i, p := range a.Rack.Pieces {
		a.Rack.Pieces[i].Species, _ = s.class(p.Species, p.Colour)
	}
	for i, r := range a.Rack.Strips {
		a.Rack.Strips[i].Species, _ = s.class(r.Species, r.Colour)
	}
	a.Pinned = slices.Clone(a.Pinned)
	for i, p := range a.Pinned {
		a.Pinned[i].Strip.Species, _ = s.class(p.Strip.Species, p.Strip.Colour)
	}
	a.Unlike = slices.Clone(a.Unlike)
	for i, strips := range a.Unlike {
		a.Unlike[i] = slices.Clone(strips)
		for k, p := range strips {
			a.Unlike[i][k].Species, _ = s.class(p.Species, p.Colour)
		}
	}
	return a
}

// layouts returns layouts by their timbers, each strip with its founder's colour. A plan that
// is the least of the shades is so of what the layout counts on, and not of all plans.
func (s shades) layouts(found []suggest.Layout) []suggest.Layout {
	out := slices.Clone(found)
	for i, l := range out {
		out[i].Strips = slices.Clone(l.Strips)
		for k, p := range l.Strips {
			if key, n := species.TimberOf(p.Species); n > 0 {
				out[i].Strips[k].Species, out[i].Strips[k].Colour = key, colour.OwnOf(s.of[key][n-1])
			}
		}
		if l.Plan != nil {
			plan := *l.Plan
			out[i].LeastOfTimber = l.LeastOfTimber || plan.Claim().Sure == cutting.Least
			plan.Status, plan.LowerBoundCM3 = cutting.Feasible, 0
			out[i].Plan = &plan
		}
	}
	return out
}

// solve solves what is asked by shades.
func (s shades) solve(ctx context.Context, r movement.Physics, opt suggest.Options) (suggest.Result, error) {
	if tell := opt.Progress; tell != nil {
		opt.Progress = func(p suggest.Progress) {
			p.Found = s.layouts(p.Found)
			tell(p)
		}
	}
	answer, err := layOut(ctx, s.physics(r), s.request(), opt)
	answer.Layouts = s.layouts(answer.Layouts)
	if answer.Loosen != nil {
		loosen := *answer.Loosen
		loosen.Ways = slices.Clone(loosen.Ways)
		for i := range loosen.Ways {
			to := &loosen.Ways[i].Request
			to.Rack, to.Pinned, to.Unlike = s.asked.Rack, s.asked.Pinned, s.asked.Unlike
		}
		answer.Loosen = &loosen
	}
	return answer, err
}
