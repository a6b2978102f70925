package pileview

import (
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/tui/screen"
)

// sheet has the sheet for the bench of all panels written, when they are planned.
func (s Screen) sheet(ctx screen.Context) (screen.Screen, []screen.Request) {
	if _, no := s.chosen(ctx); no != nil {
		return s, no
	}
	if why := s.stale(ctx); why != "" {
		return s, []screen.Request{screen.Refuse(why)}
	}
	if !s.now.found.whole {
		return s.planned(Screen.write, ctx)
	}
	return s, s.write(ctx)
}

// write has the sheet of a set that is planned written.
func (s Screen) write(ctx screen.Context) []screen.Request {
	f := s.now.found
	ask := sets.Request{Rack: ctx.Rack, Physics: ctx.Physics}
	return []screen.Request{screen.ExportSet{Job: ask.Job(f.set.Panels), Plan: f.set.Plan, Wants: f.wants}}
}
