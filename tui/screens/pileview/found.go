package pileview

import (
	"context"
	"fmt"
	"slices"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/pile"
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/screen"
)

// A found is a set of panels as it is looked at.
type found struct {
	have   bool
	wants  []orders.Want // that it was sought for
	rack   int           // revision of the rack, and of the workshop
	shop   int
	set    sets.Set
	levels []pattern.Level // of each panel
	used   []pile.Used     // of each timber
	left   []sets.Left
	whole  bool // it is planned: used is what the plan takes
	late   bool // the time or the maker ended the search
}

// of returns a set as it is looked at while it has no plan.
func (f found) of(ask sets.Request, set sets.Set) found {
	f.have, f.set, f.whole, f.left, f.levels = true, set, false, nil, nil
	f.used = sets.InStrips(ask, set.Panels)
	for _, p := range set.Panels {
		f.levels = append(f.levels, suggest.LevelOf(ask.Physics, p.Pattern))
	}
	return f
}

// without returns a set without one of its panels.
func (f found) without(i int, ctx screen.Context) found {
	return f.of(sets.Request{Wants: f.wants, Rack: ctx.Rack, Physics: ctx.Physics}, f.set.Without(i, f.wants))
}

// made returns how many products of a want a set has; false: it was not sought for.
func (f found) made(w orders.Want) (int, bool) {
	i := slices.IndexFunc(f.wants, func(o orders.Want) bool { return o.ID == w.ID })
	if !f.have || i < 0 {
		return 0, false
	}
	return f.set.Made[i], true
}

// An answer is what a search comes to.
type answer struct {
	found found
	told  *mistake.Withdrawn // a claim that broke; nil: none did
	err   error
}

// A seeking is what is sought, and what the search goes by.
type seeking struct {
	ask    sets.Request
	found  found // what is known of it before
	only   bool  // the panels that are held are the set, and are only planned
	beside screen.Beside
}

// run seeks the best set, and reports better ones as they are found.
func (s seeking) run(ctx context.Context, _ <-chan time.Time, report func(found)) answer {
	taken := map[string]bool{}
	if s.beside.Files != nil {
		saved, err := s.beside.Files.Patterns(s.ask.Physics.Table())
		if err != nil {
			return answer{err: err}
		}
		for _, one := range saved {
			taken[one.Stem] = true
		}
	}
	s.ask.Taken = func(stem string) bool { return taken[stem] }
	set, err := s.beside.Solve.Set(ctx, s.ask, sets.Options{Held: s.only, Tell: func(set sets.Set) { report(s.found.of(s.ask, set)) }})
	if err != nil {
		told, err := s.beside.Unfit(err, mistake.None, s.ask.Job(set.Panels))
		return answer{told: told, err: err}
	}
	if s.only {
		set.Bound = s.found.set.Bound
	}
	out := s.found.of(s.ask, set)
	out.late = set.Late || ctx.Err() != nil || s.only && s.found.late
	if out.used, out.left, err = sets.After(s.ask, set); err != nil {
		return answer{err: fmt.Errorf("what is left on the rack: %w", err)}
	}
	out.whole = true
	return answer{found: out, told: s.beside.Tell(set.Plan.Broken, mistake.Plan, s.ask.Job(set.Panels), "")}
}
