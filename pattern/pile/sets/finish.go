package sets

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
)

// set tells of boards, without a plan.
func (s *search) set(boards []*board) Set {
	score := s.score(boards)
	out := Set{Made: s.made(boards), Short: score.short, Worth: score.worth, UseFirstCM3: score.first, Rounds: s.rounds, Late: s.late}
	out.Bound, out.Plan.Broken = s.most(score.worth)
	ordered := slices.Clone(boards)
	slices.SortStableFunc(ordered, func(a, b *board) int {
		return cmp.Or(cmp.Compare(a.Want, b.Want), cmp.Compare(b.Copies(), a.Copies()))
	})
	taken := map[string]bool{}
	for _, b := range ordered {
		if b.held {
			taken[b.Stem] = true
		}
	}
	for _, b := range ordered {
		p := b.Panel
		for n := 1; p.Stem == ""; n++ {
			if stem := fmt.Sprintf("%s-%d", s.Wants[p.Want].ID, n); !taken[stem] && !(s.Taken != nil && s.Taken(stem)) {
				p.Stem, taken[stem] = stem, true
			}
		}
		p.Pattern.Name = p.Stem
		out.Panels = append(out.Panels, p)
	}
	return out
}

// finish plans the best set as a whole. Where a lot gives not all after all, the latest
// panel of it is left out.
func (s *search) finish(ctx context.Context) (Set, error) {
	boards := slices.Clone(s.best)
	for {
		out := s.set(boards)
		if len(boards) == 0 {
			out.Plan = cutting.Plan{Status: cutting.Optimal, Missing: []cutting.Missing{}, Ready: []cutting.Ready{}, Cuts: []cutting.Cut{}}
			return out, nil
		}
		out.Panels = copied(out.Panels)
		plan, lot := s.plan(ctx, out.Panels)
		if lot < 0 {
			plan.Broken = cmp.Or(plan.Broken, out.Plan.Broken)
			out.Plan = plan
			return out, s.complete(&out)
		}
		last := len(boards) - 1 // what was judged rounded cannot be cut as it is: seldom
		for last > 0 && len(boards[last].needs[lot]) == 0 {
			last--
		}
		boards = slices.Delete(boards, last, last+1)
	}
}

// copied returns panels whose strips may be written to.
func copied(panels []Panel) []Panel {
	out := slices.Clone(panels)
	for i := range out {
		out[i].Pattern.Strips = slices.Clone(out[i].Pattern.Strips)
	}
	return out
}

// named returns the job of panels in which each lot is a species of its own, so that each strip
// comes from the timber that its panel counts on.
func (s *search) named(panels []Panel) cutting.Job {
	job := s.Job(panels)
	by := map[lotKey]string{}
	for _, l := range s.lots {
		by[l.lotKey] = l.name
	}
	var named rack.Rack
	for _, p := range job.Rack.Pieces {
		p.Species = by[keyOf(p.Species, p.Rings, p.Moisture, p.UseFirst, p.Colour)]
		named.Pieces = append(named.Pieces, p)
	}
	for _, r := range job.Rack.Strips {
		r.Species = by[keyOf(r.Species, r.Rings, r.Moisture, r.UseFirst, r.Colour)]
		named.Strips = append(named.Strips, r)
	}
	job.Rack = named
	for i, p := range panels {
		strips := slices.Clone(p.Pattern.Strips)
		for n, lot := range p.lots {
			if lot >= 0 {
				strips[n].Species = s.lots[lot].name
			}
		}
		job.Patterns[i].Pattern.Strips = strips
	}
	return job
}

// complete says where strips come from, and claims of the plan no more than is so: parted by
// lots, it is the least of its timber alone.
func (s *search) complete(out *Set) error {
	job := s.Job(out.Panels)
	sources := booking.Sources(job, out.Plan)
	for i := range out.Panels {
		p := &out.Panels[i]
		p.Sources = make([]string, len(p.Pattern.Strips))
		for n := range p.Sources {
			ref := cutting.Ref{Pattern: p.Stem, Copy: 1, Strip: n + 1}
			if p.Pattern.Strips[n].Joints.Len() > 0 {
				ref.Piece = 1
			}
			p.Sources[n] = sources[ref].ID
		}
	}
	if len(s.lots) > len(s.Rack.Species()) {
		out.Plan.Status, out.Plan.LowerBoundCM3 = cutting.Feasible, 0
	}
	return cutting.Verify(job, out.Plan)
}
