// Package sets says what a whole pile of timber becomes when the panels are free: which
// products, how many of each, from panels of which strips, so that all of them can be cut from
// the rack together and are worth most.
//
// The rack is parted into lots: timber of one species that shows the same rings, has the same
// moisture, mark and colour. A panel is drawn as a walk from strip to strip with prices on
// lots, lower where slices of the set have room, in which the level and the contrast of
// neighbours hold by pairs, and then held to the whole statement. A set is filled panel by panel, the planner's first steps judging lot by
// lot what can be cut; then panels are taken out and others drawn in their places, again and
// again. All of it is counted in steps and not in time, so that the same input gives the same
// set unless its context ended the work. The finished set is planned in full.
package sets

import (
	"context"
	"fmt"
	"slices"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
)

// A Request is what is asked.
type Request struct {
	Wants   []orders.Want
	Rack    rack.Rack
	Physics movement.Physics
	Hold    []Panel           // panels that stay as they are
	Taken   func(string) bool // whether a stem is taken; nil: none is
}

// A Panel is one panel of a set.
type Panel struct {
	Want    int    // its place among the wants
	Stem    string // the want's id and a number
	Pattern pattern.Pattern
	Sources []string // of each strip: the id on the rack

	lots []int // of each strip: the lot that it comes from
}

// Copies returns how many products the panel holds.
func (p Panel) Copies() int { return p.Pattern.Products[0].Count }

// A Set is panels that can all be cut from the rack together. The goal, in this order: the
// fewest products wanting of the least; the greatest worth; the most use-first timber in
// strips; the least drawn.
type Set struct {
	Panels []Panel
	Made   []int // products of each want
	Short  int   // products wanting of the least
	Worth  float64
	// Bound is what no set is worth more than.
	Bound       float64
	UseFirstCM3 float64 // of use-first timber, in finished strips
	Plan        cutting.Plan
	Rounds      int  // of the search
	Late        bool // its context ended the search: more time may bring a better set
}

// Job returns the job of cutting all panels.
func (r Request) Job(panels []Panel) cutting.Job {
	job := cutting.Job{Rack: r.Rack, Shop: r.Physics.Shop()}
	for _, p := range panels {
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: p.Stem, Pattern: p.Pattern, Copies: 1})
	}
	return job
}

// Status says whether no set is worth more: proved where the set is worth what the bound says,
// as where all that is asked for is made.
func (s Set) Status() cutting.Status {
	const same = 1e-9
	if s.Plan.Broken == nil && s.Short == 0 && s.Bound <= s.Worth*(1+same) {
		return cutting.Optimal
	}
	return cutting.Feasible
}

// Options are how a set is sought.
type Options struct {
	Rounds int       // of taking out and drawing anew at most; 0: as many as are usual
	Tell   func(Set) // is told each better set, without its plan; nil: nobody
	Held   bool      // the panels that are held are the set: they are planned and nothing is sought

	tamper func(bound float64) float64 // for tests: what the bound says instead
}

// usualRounds is how often panels are taken out and others drawn; see testdata/racks.md for
// what it is worth.
const usualRounds = 1500

// Find returns the best set that was found. It ends soon after ctx does, with the best so far.
func Find(ctx context.Context, r Request, opt Options) (Set, error) {
	if err := r.check(); err != nil {
		return Set{}, err
	}
	if opt.Rounds == 0 {
		opt.Rounds = usualRounds
	}
	searching, cancel := withReserve(ctx)
	defer cancel()
	s := newSearch(searching, r, opt)
	if opt.Held {
		s.hold()
		s.best, s.ceiling = s.boards, s.newCeiling()
	} else {
		s.run()
		s.late = searching.Err() != nil
		s.useFirst(ctx)
	}
	return s.finish(ctx)
}

func (r Request) check() error {
	ids := map[string]bool{}
	for _, w := range r.Wants {
		if ids[w.ID] {
			return fmt.Errorf("%s: two wants have this id", w.ID)
		}
		ids[w.ID] = true
		for _, wrong := range slices.Concat(w.Wrongs(), w.TooLong(r.Physics.Shop().Cut)) {
			return fmt.Errorf("%s: %s %s", w.ID, wrong.Key, wrong.Text)
		}
	}
	return r.Job(r.Hold).Check()
}

// Of the time there is, so much is kept for the plan of what was found: a part of it, but no
// more than so long.
const (
	reservePart = 8
	reserveMost = time.Second
)

func withReserve(ctx context.Context) (context.Context, context.CancelFunc) {
	deadline, timed := ctx.Deadline()
	if !timed {
		return context.WithCancel(ctx)
	}
	left := time.Until(deadline)
	return context.WithDeadline(ctx, deadline.Add(-min(reserveMost, left/reservePart)))
}
