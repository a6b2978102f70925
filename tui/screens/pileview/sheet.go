package pileview

import (
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/tui/screen"
)

// sheet has the sheet for the bench of all panels written.
func (s Screen) sheet(ctx screen.Context) []screen.Request {
	if _, no := s.chosen(ctx); no != nil {
		return no
	}
	if why := s.stale(ctx); why != "" {
		return []screen.Request{screen.Refuse(why)}
	}
	f := s.now.found
	if !f.whole {
		return say("this set has no plan yet: %s searches again, or %s plans it", ctx.Keys.KeyOf(pileSearch), ctx.Keys.KeyOf(pileTake))
	}
	ask := sets.Request{Rack: ctx.Rack, Physics: ctx.Physics}
	return []screen.Request{screen.ExportSet{Job: ask.Job(f.set.Panels), Plan: f.set.Plan, Wants: f.wants}}
}
