// Package evenings says which panels of a set are glued in which evening, with the clamps and the
// time at hand, in the fewest evenings.
//
// A glue-up is what is spread and clamped in one go, within the glue's open time; several stand
// one after the other in an evening. Its clamps stay on overnight, so that all of an evening's
// glue-ups share the clamps at hand. What is glued of glued parts has an evening of its own behind
// theirs: it waits until they have cured. Clamps are whole, times whole seconds; they are
// estimates, and the glue maker's sheet goes before them.
package evenings

import (
	"cmp"
	"slices"
)

// A Request is what is to be glued, and with what.
type Request struct {
	Panels   []Panel // in the order in which they are wanted
	Clamps   int     // at hand; 0: not said, and then each evening has one glue-up
	Seconds  int     // of an evening; 0: not said, and then time is no bound
	Handling int     // seconds of a glue-up beside spreading
	Wait     int     // days from gluing parts to gluing what is made of them
}

// A Panel is one panel of the set: what is glued in each round, of which each needs an evening
// behind those of the round before. Without rounds there is nothing to glue.
type Panel struct {
	Rounds [][]GlueUp
	// Slow says that a single glue line takes longer to spread than the glue stays open: then
	// there are no rounds, and no evening is said.
	Slow bool
}

// A GlueUp is what is spread and clamped in one go.
type GlueUp struct {
	Panel, Round int // places in the request, from 0
	Kind         Kind
	Second       int // number of the second glue-up; 0: the panel itself
	From, To     int // a part: its first and last strip, or bar
	Joints       int
	Spread       int // seconds
	Clamps       int // 0: not known
}

// A Kind says what of a panel is glued.
type Kind int

// The kinds.
const (
	Whole    Kind = iota // all of it
	Part                 // some of its strips, or bars
	Together             // its parts
)

// A Schedule is what to glue in which evening. No other has fewer evenings than Least; among those
// with as few, that is sought in which the first panel's glue-ups come earliest, then the second's,
// and so on.
type Schedule struct {
	Evenings []Evening
	Least    int
}

// Proved reports whether no schedule has fewer evenings.
func (s Schedule) Proved() bool { return s.Least == len(s.Evenings) }

// An Evening is what is glued in it, in the order of the request.
type Evening struct {
	Day     int // the first that it can be, from 1
	GlueUps []GlueUp
	Clamps  int // on at its end; 0: not known
	Seconds int
}

// alone reports whether a glue-up has an evening to itself: it takes more than there is, or nobody
// knows how many clamps it takes or are at hand.
func (r Request) alone(g GlueUp) bool {
	return r.Clamps == 0 || g.Clamps == 0 || g.Clamps > r.Clamps || r.Seconds > 0 && g.Spread+r.Handling > r.Seconds
}

// Solve returns the schedule of a request.
func Solve(r Request) Schedule {
	p := newPacker(r)
	if len(p.tasks) == 0 {
		return Schedule{}
	}
	at, least := p.fewest()
	return p.schedule(closed(p.inOrder(at)), least)
}

// closed leaves no evening without a glue-up.
func closed(at []int) []int {
	used := slices.Compact(slices.Sorted(slices.Values(at)))
	out := make([]int, len(at))
	for i, e := range at {
		out[i], _ = slices.BinarySearch(used, e)
	}
	return out
}

// schedule tells of glue-ups in their evenings.
func (p *packer) schedule(at []int, least int) Schedule {
	out := Schedule{Evenings: make([]Evening, 1+slices.Max(at)), Least: least}
	for i, t := range p.tasks {
		e := &out.Evenings[at[i]]
		e.GlueUps = append(e.GlueUps, t.GlueUp)
		e.Clamps += t.Clamps
		e.Seconds += t.Spread + p.Handling
	}
	waits := make([][]int, len(out.Evenings)) // the evenings that each must wait for
	for i := range p.tasks {
		for _, k := range p.before(i) {
			waits[at[i]] = append(waits[at[i]], at[k])
		}
	}
	day := 0
	for e := range out.Evenings {
		day++
		for _, before := range waits[e] {
			day = max(day, out.Evenings[before].Day+p.Wait)
		}
		out.Evenings[e].Day = day
	}
	return out
}

// newPacker lists the glue-ups of a request, each with what it takes of an evening.
func newPacker(r Request) *packer {
	p := &packer{Request: r, steps: mostSteps, roomy: room{max(1, r.Clamps), cmp.Or(r.Seconds, 1)}}
	for i, panel := range r.Panels {
		for round, all := range panel.Rounds {
			for _, g := range all {
				g.Panel, g.Round = i, round
				t := task{GlueUp: g, takes: room{g.Clamps, 0}, behind: len(panel.Rounds) - 1 - round}
				if r.Seconds > 0 {
					t.takes.seconds = g.Spread + r.Handling
				}
				if r.alone(g) {
					t.takes = p.roomy
				}
				p.tasks = append(p.tasks, t)
			}
		}
	}
	p.order = sorted(p.tasks)
	return p
}
