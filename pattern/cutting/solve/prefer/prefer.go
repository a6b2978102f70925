// Package prefer lets timber that was looked at serve, of timber alike in all else: no part
// of any proof, and the plan draws the same.
package prefer

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/rack"
)

// Recorded lets timber that was looked at and shows what is asked for serve in the
// place of timber that nobody has looked at, where both are alike in all else: the plan
// draws the same. It is no part of any proof.
func Recorded(job cutting.Job, plan *cutting.Plan) {
	p := preference{asked: cutting.NeedsOf(job, *plan), taken: map[copyOf]bool{}}
	for _, r := range plan.Ready {
		p.taken[copyOf{r.ID, r.Copy}] = true
	}
	for _, c := range plan.Cuts {
		p.taken[copyOf{c.Piece, c.Copy}] = true
	}
	for i := range plan.Ready {
		p.ready(job.Rack.Strips, &plan.Ready[i])
	}
	var clear []rack.Clear
	place := map[string]int{}
	for _, piece := range job.Rack.Pieces {
		for _, c := range piece.Clear() {
			place[c.ID] = len(clear)
			clear = append(clear, c)
		}
	}
	for i := range plan.Cuts {
		p.cut(clear, clear[place[plan.Cuts[i].Piece]], &plan.Cuts[i])
	}
	slices.SortStableFunc(plan.Cuts, func(a, b cutting.Cut) int {
		return cmp.Compare(place[a.Piece], place[b.Piece])
	})
}

// copyOf is one of several pieces, or ready strips, alike.
type copyOf struct {
	id   string
	copy int
}

// A preference is what is asked for, and what of the rack is taken.
type preference struct {
	asked map[cutting.Ref]cutting.Strip
	taken map[copyOf]bool
}

// take takes the first copy of n that is free, in the place of another one.
func (p *preference) take(id string, n int, now copyOf) (copyOf, bool) {
	for i := range n {
		if c := (copyOf{id, i + 1}); !p.taken[c] {
			delete(p.taken, now)
			p.taken[c] = true
			return c, true
		}
	}
	return now, false
}

func (p *preference) ready(lying []rack.Strip, r *cutting.Ready) {
	asked := p.asked[r.For]
	at := slices.IndexFunc(lying, func(s rack.Strip) bool { return s.ID == r.ID })
	if !asked.Rings.Known() || lying[at].Rings.Known() {
		return
	}
	for _, s := range lying {
		if !s.Rings.Known() || s.Species != asked.Species || s.Width != asked.Width || s.Length < asked.Length || s.Thickness < asked.Glued || !sections.Shows(s.Rings, asked.Rings) {
			continue
		}
		if c, ok := p.take(s.ID, s.Quantity, copyOf{r.ID, r.Copy}); ok {
			r.ID, r.Copy = c.id, c.copy
			return
		}
	}
}

func (p *preference) cut(clear []rack.Clear, now rack.Clear, c *cutting.Cut) {
	if now.Rings.Known() || !p.wants(*c) {
		return
	}
	for _, o := range clear {
		alike := o.Species == now.Species && o.Length == now.Length && o.Width == now.Width && o.Thickness == now.Thickness &&
			o.Planed == now.Planed && o.UseFirst == now.UseFirst
		if !alike || !o.Rings.Known() || !p.serves(o.Rings, *c) {
			continue
		}
		if other, ok := p.take(o.ID, o.Quantity, copyOf{c.Piece, c.Copy}); ok {
			c.Piece, c.Copy = other.id, other.copy
			return
		}
	}
}

// wants reports whether a strip of a cut asks for rings.
func (p *preference) wants(c cutting.Cut) bool {
	for ref := range c.Strips() {
		if p.asked[ref].Rings.Known() {
			return true
		}
	}
	return false
}

// serves reports whether timber with such rings shows what every strip of a cut asks for.
func (p *preference) serves(rings pattern.Rings, c cutting.Cut) bool {
	for _, s := range c.Sections {
		for _, sl := range s.Slices {
			for _, ref := range sl.Strips {
				asked := p.asked[ref]
				lies := rings
				if s.Side != (asked.Make == pattern.MakeEdge) {
					lies = lies.Rolled()
				}
				if !sections.Shows(lies, asked.Rings) {
					return false
				}
			}
		}
	}
	return true
}
