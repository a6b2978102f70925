package search

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/stock"
)

// A search is one ask at work.
type search struct {
	ask     suggest.Request // its aim is not Auto
	physics movement.Physics
	stop    stopper
	lose    func() bool // in tests
	doubts  *doubts

	*stock.Stock          // with couples behind all other kinds
	plain        int      // how many kinds are no couples
	couples      []couple // what those behind them are
	matrix       *matrix
	contrasts    []int64 // of kinds that may lie side by side, ascending
	floor        int64   // the least of them
	problems     []*pathProblem
	width        reach
	unsure       bool // what is said to loosen is not proved the least
	bounds       boundStore
	work
	memory
}

// work is how much a search does, and how much it has done.
type work struct {
	thorough thoroughness
	looked   int // partial layouts so far
	tries    int // plans that may fall short before the search for layouts ends
	open     map[sought]bool
}

// memory is what a search has come upon.
type memory struct {
	held       []*found  // layouts that were come upon, whatever they differ from
	failures   []failure // counts that no plan yields
	refused    []refusal // strips that no plan yields where they lie
	plansShort int       // plans that fell short
	priors     [][]int   // counts by class of the layouts so far
	top        *pick     // the one that bounds all layouts
}

// A sought thing is a layout with so much contrast and use-first width.
type sought struct{ least, use int64 }

// errStopped says that the work was stopped before there was a search.
var errStopped = errors.New("the work was stopped")

// newSearch prepares the search for an ask; errStopped where stop said so on the way.
func newSearch(r movement.Physics, a suggest.Request, stop stopper) (*search, error) {
	a.Aim = a.AimFor(r.Shop())
	s := &search{ask: a, physics: r, stop: stop, doubts: &doubts{}, bounds: newBoundStore(), work: work{tries: failuresMost, open: map[sought]bool{}}}
	if s.Stock = stock.New(r, a, stop.stopped); s.Stock == nil {
		return nil, errStopped
	}
	if err := s.tooNarrow(); err != nil {
		return nil, err
	}
	if a.Aim == suggest.Contrast {
		for i := range s.Kinds {
			s.Kinds[i].First = 0
		}
	}
	if s.matrix = s.newMatrix(); s.matrix == nil {
		return nil, errStopped
	}
	s.addCouples()
	s.problems = bothBricks(s.newWalks(), a.Join.How)
	there := map[int64]bool{}
	for i := range s.Kinds {
		if stop.stopped() {
			return nil, errStopped
		}
		for j := i; j < len(s.Kinds); j++ {
			if s.beside(i, j) {
				there[s.matrix.contrast[s.matrix.at(i, j)]] = true
			}
		}
	}
	if s.contrasts = slices.Sorted(maps.Keys(there)); len(s.contrasts) > 0 {
		s.floor = s.contrasts[0]
	}
	return s, nil
}

// narrowest is how many of the narrowest strips may go into a panel: a bound has as many
// widths to tell apart.
const narrowest = 20_000

// tooNarrow refuses strips that no saw cuts for such a panel.
func (s *search) tooNarrow() error {
	_, most := s.ask.Limits()
	least := most/narrowest + 1
	for _, k := range s.Kinds {
		if k.Strip.Width < least {
			return fmt.Errorf("a strip %s wide in a panel of %s: must be %s or more to be laid out", k.Strip.Width, s.ask.Width, least)
		}
	}
	return nil
}

// beside reports whether kinds i and j may lie side by side.
func (s *search) beside(i, j int) bool { return s.matrix.beside[s.matrix.at(i, j)] }

// madeOf returns the variety of strip t, which has one.
func (s *search) madeOf(t pattern.Strip) int {
	return slices.Index(s.Made, s.ask.VarietyOf(s.physics, t))
}

func (s *search) graphOf(least int64) *graph {
	g, ok := s.bounds.graphs[least]
	if !ok {
		g = s.graph(least)
		s.bounds.graphs[least] = g
	}
	return g
}

// tally returns the counts by class of counts by kind.
//
// Why a search proves: every layout of the ask is a walk of s.walks (newWalks), in the
// graph of all lines that are allowed (beside); contrasts are those that two kinds beside
// each other may have, so that a layout's smallest contrast is one of them.
func (s *search) tally(counts []uint16) []int {
	out := make([]int, len(s.Classes))
	for i, n := range counts {
		out[s.Kinds[i].Class] += int(n)
	}
	return out
}

// differs reports whether counts differ from every layout so far by enough strips:
// half the sum of count differences, rounded up.
//
// It goes by counts alone, so that layouts of the same counts stand or fall together, and
// a pass may take one for all of them.
func (s *search) differs(counts []uint16) bool {
	if len(s.priors) == 0 {
		return true
	}
	mine := s.tally(counts)
	for _, prior := range s.priors {
		sum := 0
		for i, n := range mine {
			sum += max(n-prior[i], prior[i]-n)
		}
		if (sum+1)/2 < s.ask.Differ {
			return false
		}
	}
	return true
}

// An effort is how much one pass may take.
type effort struct {
	wide, looks int
	bound       strength
}

// The efforts, by how many partial layouts they look at.
func effort100k() effort { return effort{48, 100_000, sharp} }           // finds a layout soon
func effort200k() effort { return effort{1_000, 200_000, strong} }       // where little work will do
func effort300k() effort { return effort{6_000, 300_000, strong} }       // finds a better one
func effort1M() effort   { return effort{5_000, 1_000_000, stronger} }   // proves
func effort8M() effort   { return effort{80_000, 8_000_000, strongest} } // proves at last

// allowance is how many partial layouts one ask may take beyond the least efforts, and
// stepsOfLook how many steps of a bound take as long as one of these.
const (
	allowance   = 8_000_000
	stepsOfLook = 400
)

// A thoroughness says which efforts a search goes through.
type thoroughness int

const (
	thorough thoroughness = iota // all of them
	quick                        // little work will do
	quickest                     // the least will do
)

// efforts returns those to go through for one thing sought, the least first.
func (s *search) efforts() []effort {
	switch {
	case s.thorough == quickest:
		return []effort{effort100k()}
	case s.thorough == quick:
		return []effort{effort100k(), effort200k()}
	case s.looked > allowance:
		return []effort{effort100k(), effort300k()}
	default:
		return []effort{effort100k(), effort300k(), effort1M(), effort8M()}
	}
}

// leastEfforts returns the first two of these.
func (s *search) leastEfforts() []effort {
	all := s.efforts()
	return all[:min(2, len(all))]
}

func (s *search) job(n int, least int64, t target, e effort) job {
	return job{w: s.problems[n], g: s.graphOf(least), target: t, wide: e.wide, budget: e.looks,
		accept: s.differs, keeps: s.inFull(), dead: s.cutFilter(), stop: s.stop, looked: &s.looked}
}

// inFull returns what reports whether a layout's lines, computed in full, are at most at
// the level asked for, and whether its order was not refused; nil where every layout will do.
func (s *search) inFull() func(kinds []int32) bool {
	if s.ask.Level >= pattern.TooMuch && len(s.refused) == 0 {
		return nil
	}
	return func(kinds []int32) bool {
		if s.refuses(kinds) {
			return false
		}
		p := pattern.Pattern{Panel: s.ask.Panel()}
		for _, k := range kinds {
			p.Strips = append(p.Strips, s.Kinds[k].Strip)
		}
		return s.ask.Level >= pattern.TooMuch || suggest.LevelOf(s.physics, p) <= s.ask.Level
	}
}

// An outcome is what a search for one layout came to.
type outcome struct {
	best *found
	most int64 // no layout is worth more
	done bool  // best is proved the best, or that there is none
}

// maximise seeks the layout that is worth most for t, and more than known where that is
// not nil. ceiling is what is proved already.
func (s *search) maximise(least int64, t target, known *found, ceiling int64) outcome {
	out := outcome{best: known, most: infeasible, done: true}
	for n := range s.problems {
		o := s.climb(n, least, t, out.best, ceiling)
		out.best, out.most, out.done = o.best, max(out.most, o.most), out.done && o.done
	}
	out.most = max(out.most, out.best.value(t))
	return out
}

// climb is maximise for walk n. Most is at each moment the least of what was proved: what
// is known of all walks (ceiling), the bound, and what passes looked through. A layout
// worth that much is the best. Passes seek what is worth more than the best so far, and
// more of nothing else, so that one that is done and empty leaves the best as it is.
func (s *search) climb(n int, least int64, t target, known *found, ceiling int64) outcome {
	b := s.boundOf(n, least, t, known.value(t), known.value(t)+1, sharp)
	if b == nil {
		return outcome{known, ceiling, false}
	}
	out := outcome{best: known, most: min(b.all(), ceiling)}
	var needs []need
	try := func(floor int64, e effort) (*found, bool) {
		j := s.job(n, least, t, e)
		needs[0].least = max(floor, out.best.value(t)+1, infeasible+1)
		j.needs = needs
		f, done := j.pass()
		if f != nil {
			out.best = f
			s.hold(f)
		}
		return f, done
	}
	for i, e := range s.efforts() {
		if b = s.boundOf(n, least, t, out.best.value(t), out.best.value(t)+1, e.bound); b == nil || s.stop.stopped() {
			return out
		}
		if out.most = min(out.most, b.all()); out.most <= out.best.value(t) {
			out.done = true
			return out
		}
		needs = []need{{b, 0}}
		if t.least > 0 {
			more, _ := s.useNeeds(n, least, t.least, e.bound)
			needs = append(needs, more...)
		}
		if e.bound >= stronger || i > 0 && len(s.Budgets) > 0 { // budgets lead astray who ranks loosely
			s.prove(&out, t, try, e)
		} else if _, done := try(infeasible, e); done {
			out.most, out.done = min(out.most, out.best.value(t)), true
		}
		if out.done {
			return out
		}
	}
	return out
}

// prove runs passes with a falling threshold: one without a layout proves that none is
// worth as much, so that most falls below the threshold. One that found a layout, and
// looked at all that its own needs let in, has raised the threshold above what it found
// as it went: then none is worth more than that. How far the threshold falls each time is
// a matter of time alone.
func (s *search) prove(out *outcome, t target, try func(int64, effort) (*found, bool), e effort) {
	step := int64(suggest.PerContrast / 4)
	if v := out.best.value(t); v > infeasible {
		step = max(1, (out.most-v)/8)
	}
	for !s.stop.stopped() {
		if out.most <= out.best.value(t) {
			out.done = true
			return
		}
		floor := max(out.most-step, out.best.value(t)+1)
		if floor < 0 {
			floor = infeasible
		}
		f, done := try(floor, e)
		switch {
		case !done && f == nil:
			return
		case !done:
			continue
		case f != nil:
			out.most = f.value(t)
		case floor == infeasible:
			out.most = infeasible
		default:
			out.most = floor - 1
		}
		step *= 3
	}
}

// find seeks any layout whose lines have at least the contrast least, with so much
// use-first width. done says that none is
// proof that there is none.
//
// None is proof where each walk gave one: its bound is below what any layout is worth
// (which is 0 or more), or below the width asked for, or a pass that was not cut short
// came to no layout. What was sought in vain before is not sought harder, but then none
// is no proof either.
func (s *search) find(least, use int64, efforts []effort) (best *found, done bool) {
	if f := s.holding(least, use); f != nil {
		return f, true
	}
	done = true
	what := sought{least, use}
	if s.open[what] { // all work was in vain before, with fewer conditions
		efforts = efforts[:1]
	}
	for n := range s.problems {
		f, ok := s.findIn(n, least, use, efforts)
		if f != nil {
			return f, true
		}
		done = done && ok
	}
	if !done && len(efforts) > 2 {
		s.open[what] = true
	}
	return nil, done
}

func (s *search) findIn(n int, least, use int64, efforts []effort) (*found, bool) {
	t := target{alpha: 1, least: use}
	rank := s.boundOf(n, least, t, infeasible, 0, loose)
	if rank == nil || rank.all() < 0 {
		return nil, rank != nil
	}
	for i, e := range efforts {
		needs, can := s.useNeeds(n, least, use, e.bound)
		if !can {
			return nil, true
		}
		if f := s.holding(least, use); f != nil { // bounds come upon layouts
			return f, true
		}
		if e.bound >= stronger || i > 0 && len(s.Budgets) > 0 { // budgets lead astray who ranks loosely
			if rank = s.boundOf(n, least, t, infeasible, 0, e.bound); rank == nil || rank.all() < 0 {
				return nil, rank != nil
			}
		}
		j := s.job(n, least, t, e)
		j.needs, j.any = append([]need{{rank, 0}}, needs...), true
		if f, done := j.pass(); f != nil || done {
			s.hold(f)
			return f, true
		}
		if s.stop.stopped() {
			break
		}
	}
	return nil, false
}

// useNeeds returns the needs that a layout with so much contrast and use-first width may
// still come of a partial one; false where none may at all. A need prunes what cannot have
// as much use-first width as a layout must have (whole); where there is no bound for it,
// nothing is pruned.
func (s *search) useNeeds(n int, least, use int64, how strength) (needs []need, can bool) {
	t := target{use: 1}
	if use == 0 {
		if how < strong {
			return nil, true
		}
		t.use = 0
	}
	b := s.boundOf(n, least, t, infeasible, use, how)
	if b == nil {
		return nil, true
	}
	return []need{{b, use}}, b.all() >= use
}

// smallest returns the smallest contrast of a layout, in units and not rounded.
func (s *search) smallest(f *found) (units int64, exact float64) {
	units, exact = math.MaxInt64, math.Inf(1)
	for i := 1; i < len(f.kinds); i++ {
		at := s.matrix.at(int(f.kinds[i-1]), int(f.kinds[i]))
		units, exact = min(units, s.matrix.contrast[at]), min(exact, s.matrix.exact[at])
	}
	return units, exact
}
