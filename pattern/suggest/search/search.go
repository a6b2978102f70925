package search

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// A search is one ask at work.
type search struct {
	ask       suggest.Request // its aim is not Auto
	physics   movement.Physics
	kinds     []kind // couples behind all others
	plain     int    // how many of them are no couples
	classes   []suggest.Kind
	matrix    *matrix
	timbers   []string          // what kinds are cut from, as plans name it
	isFirst   []bool            // of these: what is marked use first
	marked    []mark            // of these
	marks     map[string]bool   // what is marked use first, by id, once it was asked for
	named     map[string]string // sources of ready strips named on the spot, by what plans call them
	rack      rack.Rack         // what plans take from: its species are those names
	budgets   []budget
	wide      []length.Length // of each timber: no strips from it are wider together
	lots      [][]lot         // of each timber
	ready     [][]rack.Strip  // of each timber
	laid      map[stack]int   // places of lots
	needs     map[length.Length]cutting.Strip
	walks     []*walk
	contrasts []int64 // of kinds that may lie side by side, ascending
	stop      stopper

	lose     func() bool // in tests
	hasty    bool        // little work will do
	hastier  bool        // a glance at each thing sought will do
	weighed  bool        // it was found out whether
	ruledOut bool        // no layout can be as wide as is asked for
	unsure   bool        // what is said to loosen is not proved the least
	top      *pick       // the one that bounds all layouts
	looked   int         // partial layouts so far
	tries    int         // plans that may fall short before the search for layouts ends
	floor    int64       // least contrast that the graph with all allowed lines has
	bounds   map[boundKey]*tight
	heavy    []boundKey // of these, those with kept kinds, the latest last
	graphs   map[int64]*graph
	failures []failure // counts that no plan yields
	fell     int       // plans that fell short
	priors   [][]int   // counts by class of the layouts so far
	open     map[sought]bool
	held     []*found // layouts that were come upon, whatever they differ from
	doubts   *doubts
}

// A sought thing is a layout with so much contrast and use-first width.
type sought struct{ least, use int64 }

// errStopped says that the work was stopped before there was a search.
var errStopped = errors.New("the work was stopped")

// newSearch prepares the search for an ask; errStopped where stop said so on the way.
func newSearch(r movement.Physics, a suggest.Request, stop stopper) (*search, error) {
	if stop.stopped() {
		return nil, errStopped
	}
	s := &search{ask: a, physics: r, stop: stop, tries: failuresMost, bounds: map[boundKey]*tight{}, graphs: map[int64]*graph{}, named: map[string]string{},
		laid: map[stack]int{}, needs: map[length.Length]cutting.Strip{}, open: map[sought]bool{}, doubts: &doubts{}}
	s.ask.Aim = a.AimFor(r.Shop())
	var ks *kinds
	if len(a.Widths) > 0 {
		ks = s.yield()
	} else {
		ks = gather(r, a, stop)
	}
	if stop.stopped() {
		return nil, errStopped // not all kinds are there
	}
	pin(r, a, ks)
	for i := range s.budgets { // what is only pinned takes of no timber
		takes := s.budgets[i].takes
		s.budgets[i].takes = append(takes, make([]int64, len(ks.list)-len(takes))...)
	}
	for _, strips := range a.Unlike {
		for _, p := range strips {
			ks.class(a.KindOf(r, p.Strip()))
		}
	}
	s.kinds, s.classes = ks.list, ks.classes
	s.addCouples()
	if err := s.tooNarrow(); err != nil {
		return nil, err
	}
	var err error
	if s.matrix, err = newMatrix(r, a, s.kinds, stop); err != nil {
		return nil, err
	}
	if s.ask.Aim == suggest.Contrast {
		for i := range s.kinds {
			s.kinds[i].first = 0
		}
	}
	s.walks = s.newWalks()
	there := map[int64]bool{}
	for i := range s.kinds {
		if stop.stopped() {
			return nil, errStopped
		}
		for j := i; j < len(s.kinds); j++ {
			if s.beside(i, j) {
				there[s.matrix.contrast[s.matrix.at(i, j)]] = true
			}
		}
	}
	s.contrasts = slices.Sorted(maps.Keys(there))
	return s, nil
}

// narrowest is how many of the narrowest strips may go into a panel: a bound has as many
// widths to tell apart.
const narrowest = 20_000

// tooNarrow refuses strips that no saw cuts for such a panel.
func (s *search) tooNarrow() error {
	least := (s.ask.Width+s.ask.Tolerance)/narrowest + 1
	for _, k := range s.kinds {
		if k.strip.Width < least {
			return fmt.Errorf("a strip %s wide in a panel of %s: must be %s or more to be laid out", k.strip.Width, s.ask.Width, least)
		}
	}
	return nil
}

// beside reports whether kinds i and j may lie side by side.
func (s *search) beside(i, j int) bool {
	at := s.matrix.at(i, j)
	if s.matrix.level[at] > s.ask.Level ||
		s.ask.NoTwins && s.kinds[i].strip.Species == s.kinds[j].strip.Species {
		return false
	}
	return s.ask.Aim == suggest.Contrast || s.matrix.exact[at] >= s.ask.LeastContrast
}

// classOf returns the class of strip t, which has one.
func (s *search) classOf(t pattern.Strip) int {
	return slices.Index(s.classes, s.ask.KindOf(s.physics, t))
}

func (s *search) graphOf(least int64) *graph {
	g, ok := s.graphs[least]
	if !ok {
		g = s.graph(least)
		s.graphs[least] = g
	}
	return g
}

// tally returns the counts by class of counts by kind.
//
// Why a search proves: every layout of the ask is a walk of s.walks (newWalks), in the
// graph of all lines that are allowed (beside); contrasts are those that two kinds beside
// each other may have, so that a layout's smallest contrast is one of them.
func (s *search) tally(counts []uint16) []int {
	out := make([]int, len(s.classes))
	for i, n := range counts {
		out[s.kinds[i].class] += int(n)
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

// The efforts: to find a layout soon, to find a better one, to prove, to prove at last;
// between the first two that where little work will do.
func glance() effort  { return effort{48, 100_000, sharp} }
func look() effort    { return effort{6_000, 300_000, strong} }
func browse() effort  { return effort{1_000, 200_000, strong} }
func study() effort   { return effort{5_000, 1_000_000, stronger} }
func exhaust() effort { return effort{80_000, 8_000_000, strongest} }

// allowance is how many partial layouts one ask may take with more than a look, and
// stepsOfLook how many steps of a bound take as long as one of these.
const (
	allowance   = 8_000_000
	stepsOfLook = 400
)

// efforts returns those to go through for one thing sought after a glance, the least first.
func (s *search) efforts() []effort {
	if s.hastier {
		return nil
	}
	if s.hasty {
		return []effort{browse()}
	}
	if s.looked > allowance {
		return []effort{look()}
	}
	return []effort{look(), study(), exhaust()}
}

// leastEffort returns the first of these alone.
func (s *search) leastEffort() []effort {
	all := s.efforts()
	return all[:min(1, len(all))]
}

func (s *search) job(n int, least int64, t target, e effort) job {
	return job{w: s.walks[n], g: s.graphOf(least), target: t, wide: e.wide, budget: e.looks,
		accept: s.differs, dead: s.deadCounts(), stop: s.stop, looked: &s.looked}
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
	out := outcome{best: known, most: nothing, done: true}
	for n := range s.walks {
		o := s.climb(n, least, t, out.best, ceiling)
		out.best, out.most, out.done = o.best, max(out.most, o.most), out.done && o.done
	}
	if out.best != nil {
		out.most = max(out.most, out.best.value(t))
	}
	return out
}

// climb is maximise for walk n. Most is at each moment the least of what was proved: what
// is known of all walks (ceiling), the bound, and what passes looked through. A layout
// worth that much is the best. Passes seek what is worth more than the best so far, and
// more of nothing else, so that one that is done and empty leaves the best as it is.
func (s *search) climb(n int, least int64, t target, known *found, ceiling int64) outcome {
	value := func(f *found) int64 {
		if f == nil {
			return nothing
		}
		return f.value(t)
	}
	b := s.boundOf(n, least, t, value(known), value(known)+1, sharp)
	if b == nil {
		return outcome{known, ceiling, false}
	}
	out := outcome{best: known, most: min(b.all(), ceiling)}
	var needs []need
	try := func(floor int64, e effort) (*found, bool) {
		j := s.job(n, least, t, e)
		needs[0].least = max(floor, value(out.best)+1, nothing+1)
		j.needs = needs
		f, done := j.pass()
		if f != nil {
			out.best = f
			s.hold(f)
		}
		return f, done
	}
	for i, e := range append([]effort{glance()}, s.efforts()...) {
		if b = s.boundOf(n, least, t, value(out.best), value(out.best)+1, e.bound); b == nil || s.stop.stopped() {
			return out
		}
		if out.most = min(out.most, b.all()); out.most <= value(out.best) {
			out.done = true
			return out
		}
		needs = append([]need{{b, 0}}, s.useNeed(n, least, t, e.bound)...)
		if e.bound >= stronger || i > 0 && len(s.budgets) > 0 { // budgets lead astray who ranks loosely
			s.prove(&out, value, try, e)
		} else if _, done := try(nothing, e); done {
			out.most, out.done = min(out.most, value(out.best)), true
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
func (s *search) prove(out *outcome, value func(*found) int64, try func(int64, effort) (*found, bool), e effort) {
	step := int64(suggest.PerContrast / 4)
	if v := value(out.best); v > nothing {
		step = max(1, (out.most-v)/8)
	}
	for !s.stop.stopped() {
		if out.most <= value(out.best) {
			out.done = true
			return
		}
		floor := max(out.most-step, value(out.best)+1)
		if floor < 0 {
			floor = nothing
		}
		f, done := try(floor, e)
		switch {
		case !done && f == nil:
			return
		case !done:
			continue
		case f != nil:
			out.most = value(f)
		case floor == nothing:
			out.most = nothing
		default:
			out.most = floor - 1
		}
		step *= 3
	}
}

// useNeed returns the need that partial layouts can still hold as much use-first width
// as t asks for, with lines of at least the contrast least.
//
// A need prunes what cannot have as much use-first width as a layout must have (whole);
// where there is no bound for it, nothing is pruned.
func (s *search) useNeed(n int, least int64, t target, how strength) []need {
	if t.least == 0 {
		return nil
	}
	b := s.boundOf(n, least, target{use: 1}, nothing, t.least, how)
	if b == nil {
		return nil
	}
	return []need{{b, t.least}}
}

// find seeks any layout whose lines have at least the contrast least, with so much
// use-first width; after a glance with the efforts of hard. done says that none is
// proof that there is none.
//
// None is proof where each walk gave one: its bound is below what any layout is worth
// (which is 0 or more), or below the width asked for, or a pass that was not cut short
// came to no layout. What was sought in vain before is not sought harder, but then none
// is no proof either.
func (s *search) find(least, use int64, hard []effort) (best *found, done bool) {
	if f := s.holding(least, use); f != nil {
		return f, true
	}
	done = true
	what := sought{least, use}
	if s.open[what] { // all work was in vain before, with fewer conditions
		hard = nil
	}
	for n := range s.walks {
		f, ok := s.findIn(n, least, use, hard)
		if f != nil {
			return f, true
		}
		done = done && ok
	}
	if !done && len(hard) > 1 {
		s.open[what] = true
	}
	return nil, done
}

func (s *search) findIn(n int, least, use int64, hard []effort) (*found, bool) {
	t := target{alpha: 1, least: use}
	rank := s.boundOf(n, least, t, nothing, 0, loose)
	if rank == nil || rank.all() < 0 {
		return nil, rank != nil
	}
	for i, e := range append([]effort{glance()}, hard...) {
		needs, can := s.canNeeds(n, least, use, e.bound)
		if !can {
			return nil, true
		}
		if f := s.holding(least, use); f != nil { // bounds come upon layouts
			return f, true
		}
		if e.bound >= stronger || i > 0 && len(s.budgets) > 0 { // budgets lead astray who ranks loosely
			if rank = s.boundOf(n, least, t, nothing, 0, e.bound); rank == nil || rank.all() < 0 {
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

// canNeeds returns the needs that a layout with so much contrast and use-first width may
// still come of a partial one; false where none may at all.
func (s *search) canNeeds(n int, least, use int64, how strength) (needs []need, can bool) {
	t := target{use: 1}
	if use == 0 {
		if how < strong {
			return nil, true
		}
		t.use = 0
	}
	b := s.boundOf(n, least, t, nothing, use, how)
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
