package stock

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/suggest"
)

// Name gives each strip of a layout the source that its plan takes it from, of a strip in pieces
// that of the first one; it is use-first where all of it is, and shows rings that nobody knows
// where some of it does.
func (s *Stock) Name(l *suggest.Layout) {
	for ref, id := range l.Plan.Served() {
		at := &l.Strips[ref.Strip-1]
		if ref.Piece <= 1 {
			at.Source = s.Source(id)
		}
		if at.UseFirst = true; s.Unseen[id] {
			at.Rings = pattern.Rings{}
		}
	}
	for ref, id := range l.Plan.Served() {
		at := &l.Strips[ref.Strip-1]
		at.UseFirst = at.UseFirst && s.First[id]
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
