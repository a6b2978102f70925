package search

import (
	"context"
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// fewTries is how many plans may fall short where a layout is wanted soon.
const fewTries = 12

// mostWithout is how many timbers are left out in turn.
const mostWithout = 8

// A quickSearch finds layouts that take little work, so that there are some long before the
// best of a large pile is. They keep to all that is asked for, and nothing is proved of
// them: they come in only where the search itself proved less than was asked for, behind
// what it proved, and show where a proof is wrong (uphold).
type quickSearch struct {
	search *search
	found  []suggest.Layout
	far    []suggest.Request // still to be answered, once there is a best
}

// findSoon begins: to use up from pieces, with the greatest contrast from what is marked
// alone, and from all of the rack; where that is in vain, in strips of one width, at
// last with more work.
func (s *search) findSoon(ctx context.Context) *quickSearch {
	h := &quickSearch{search: s, far: s.farAsks()}
	if s.ask.Join.On() { // with strips in pieces there is no less than without
		h.answer(ctx, s.ask.Whole(), quick)
		if !s.Gives() { // what cannot be had whole can be in pieces, and so is not only given
			h.found = slices.DeleteFunc(h.found, suggest.Layout.Given)
		}
	}
	if s.ask.Aim != suggest.UseUp || len(s.ask.Widths) == 0 || len(s.contrasts) == 0 || s.tooWide() {
		return h
	}
	all := s.ask
	all.Aim = suggest.Contrast
	marked := only(all, func(_ string, first bool) bool { return first })
	if len(all.Have) == 0 || len(marked.Have) > 0 { // without names the rack's own would serve
		h.answer(ctx, marked, quickest)
	}
	h.answer(ctx, all, quickest)
	for _, how := range []thoroughness{quickest, thorough} {
		for _, width := range s.ask.Widths {
			one := all
			if one.Widths = []length.Length{width}; len(h.found) == 0 {
				h.answer(ctx, one, how)
			}
		}
	}
	return h
}

// answer adds the layouts of an ask that are found with little work, or with next to
// none.
func (h *quickSearch) answer(ctx context.Context, a suggest.Request, how thoroughness) {
	s := h.search
	other, err := newSearch(s.physics, a, s.stop)
	if err != nil || s.stop.stopped() {
		return
	}
	other.looked, other.tries, other.thorough = allowance+1, fewTries, how
	other.doubts = s.doubts
	for _, l := range other.layouts(ctx, suggest.Options{}).Layouts {
		if s.ask.Aim == suggest.UseUp && l.SmallestContrast < s.ask.LeastContrast {
			continue
		}
		l.Proved = false
		l.LeastOfTimber = false // it was planned from a part of the rack
		h.found = append(h.found, l)
	}
}

// answerFar answers what is still to be answered.
func (h *quickSearch) answerFar(ctx context.Context) {
	for _, a := range h.far {
		h.answer(ctx, a, quickest)
	}
	h.far = nil
}

// farAsks returns, where layouts are to differ by a good deal, the ask without each
// timber in turn.
func (s *search) farAsks() []suggest.Request {
	if s.ask.Differ <= suggest.DefaultDiffer || s.ask.Layouts < 2 {
		return nil
	}
	var species []string
	for _, k := range s.Kinds {
		held := slices.ContainsFunc(s.ask.Pinned, func(p suggest.Pin) bool { return p.Strip.Species == k.Strip.Species })
		if !held && !slices.Contains(species, k.Strip.Species) {
			species = append(species, k.Strip.Species)
		}
	}
	var out []suggest.Request
	for _, key := range species[:min(mostWithout, len(species))] {
		without := only(s.ask, func(species string, _ bool) bool { return species != key })
		if without.Aim, without.Layouts = suggest.Contrast, min(2, s.ask.Layouts); len(s.ask.Have) == 0 || len(without.Have) > 0 {
			out = append(out, without)
		}
	}
	return out
}

// only returns the ask with that part of its timber that serves.
func only(a suggest.Request, serves func(species string, first bool) bool) suggest.Request {
	a.Have = slices.DeleteFunc(slices.Clone(a.Have), func(h suggest.ReadyStrips) bool { return !serves(h.Species, h.UseFirst) })
	a.Rack.Pieces = slices.DeleteFunc(slices.Clone(a.Rack.Pieces), func(p rack.Piece) bool { return !serves(p.Species, p.UseFirst) })
	a.Rack.Strips = slices.DeleteFunc(slices.Clone(a.Rack.Strips), func(t rack.Strip) bool { return !serves(t.Species, t.UseFirst) })
	return a
}

// fillUp adds layouts to an answer until it has as many as were asked for: the best of
// them first, as long as they differ enough from those that it has.
func fillUp(a *suggest.Result, ask suggest.Request, others []suggest.Layout) {
	others = slices.Clone(others)
	slices.SortStableFunc(others, ask.Aim.Compare)
	all := slices.Clone(a.Layouts)
	for _, l := range others {
		if len(all) < ask.Layouts && !slices.ContainsFunc(all, func(have suggest.Layout) bool { return suggest.Apart(have, l) < ask.Differ }) {
			all = append(all, l)
		}
	}
	if len(all) == len(a.Layouts) {
		return
	}
	proved := len(all)
	if i := slices.IndexFunc(all, func(l suggest.Layout) bool { return !l.Proved }); i >= 0 {
		proved = i
	}
	if !a.PlansProved { // one that was passed over for its plan may have come with another
		for i, l := range all[:proved] {
			if slices.ContainsFunc(all[proved:], func(o suggest.Layout) bool { return ask.Aim.Compare(o, l) < 0 }) {
				proved = i
				break
			}
		}
	}
	slices.SortStableFunc(all[proved:], ask.Aim.Compare)
	for i := range all[proved:] {
		all[proved+i].Proved = false
	}
	a.Layouts = all
	if a.Status == suggest.Open {
		a.Status = suggest.Feasible
	}
}
