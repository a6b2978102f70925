package solve

import (
	"slices"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
)

// An answer is what solving a timber gave.
type answer struct {
	solution
	bound  int64 // no solution with so few strips short costs less
	proved bool  // no solution has fewer strips short, or costs less
	broken *cutting.Broken
}

// A note is how far a timber is.
type note struct {
	short       int32
	cost, bound int64
	done        bool
}

// columnRounds bounds the pricing of one relaxation. It and the efforts below are
// counts, not times, so that the same job gives the same plan.
const columnRounds = 400

// An effort bounds one pass of the search for a proof: the columns listed, the steps
// of the search, and the sets of last strips kept in mind.
type effort struct{ columns, nodes, sets int }

// The efforts, from a few pieces planned anew to the last try.
func light() effort { return effort{2_000, 20_000, 1 << 10} }

func even() effort { return effort{30_000, 400_000, 1 << 17} }

func hard() effort { return effort{400_000, 12_000_000, 1 << 21} }

// A solver works on one timber, step by step, so that timbers can take turns.
type solver struct {
	t    *timber
	stop sections.Stopper
	tell func(note)
	pr   *pricer

	full   *problem
	best   solution
	bound  int64
	fewest bool // best.missing is proved the fewest
	proved bool
	broken *cutting.Broken // the first claim that did not hold

	without parts

	idle   *idleWorkers
	steps  int
	target *problem // least drawn with best.missing short
	grain  int64    // what its costs are multiples of
	m      *master  // its relaxation
	loose  *master  // the relaxation in which only strips short count
	stuck  int      // rounds of improving in a row without a gain
}

func newSolver(t *timber, stop sections.Stopper, tell func(note), h *idleWorkers) *solver {
	s := &solver{t: t, stop: stop, tell: tell, idle: h, full: t.full(), pr: newPricer(t, stop)}
	s.pr.idle = h
	s.best = s.full.nothing()
	return s
}

func (s *solver) post(done bool) { s.tell(note{s.best.missing, s.best.cost, s.bound, done}) }

// gap returns how far the best solution may be from the best there is; before there
// is a bound it is as wide as can be.
func (s *solver) gap() int64 {
	if s.m == nil {
		return 1 << 62
	}
	return s.best.cost - s.bound
}

// step does the next piece of work and reports whether there is more to do.
func (s *solver) step() bool {
	s.steps++
	switch s.steps {
	case 1:
		s.quick()
	case 2:
		s.start()
	case 3:
		s.leastDrawn()
	case 4:
		if s.without&diving == 0 {
			s.take(s.target.dive(s.pr, s.m))
		}
		s.raise(s.bound)
	default:
		s.refine()
	}
	if s.target != nil && s.best.missing < s.target.short {
		s.steps = 2 // fewer strips are short than that was for
	}
	more := !s.proved && s.stuck < 2 && !s.stop.Stopped()
	if !more {
		s.post(true)
	}
	return more
}

// nothing leaves everything short that ready strips do not serve.
func (p *problem) nothing() solution {
	if p.t.joined() {
		n := solution{short: make([]int32, len(p.want))}
		for i, strips := range p.strips {
			for range strips {
				n.columns = append(n.columns, p.t.groups[i].columns[len(p.t.groups[i].ways)])
			}
		}
		n.count()
		return n
	}
	n := solution{short: slices.Clone(p.want), columns: p.handOut(make([]int64, len(p.want)))}
	for _, c := range n.columns {
		c.take.SubtractFrom(n.short)
	}
	n.missing = total(n.short)
	return n
}

// take keeps a solution that is better than the best so far.
func (s *solver) take(n *solution) bool {
	if n == nil || n.missing > s.best.missing || n.missing == s.best.missing && n.cost >= s.best.cost {
		return false
	}
	s.accepts(n)
	if n.missing < s.best.missing {
		s.bound = 0
	}
	s.best = *n
	s.post(false)
	return true
}

// quick finds a first solution from plain ways alone, so that there is one soon.
func (s *solver) quick() {
	s.t.ListPlain(s.stop)
	if first, ok := s.full.greedy(s.pr, s.full.guess(s.pr)); ok {
		s.take(&first)
	}
}

// relist lists the sections anew, and gives those of the best solution their places in
// the new lists.
func (s *solver) relist() {
	old := slices.Clone(s.t.Sections)
	if s.t.ListAll(s.t.small(), s.stop); s.stop.Stopped() {
		copy(s.t.Sections, old)
		return
	}
	s.pr = newPricer(s.t, s.stop)
	s.pr.idle, s.pr.without = s.idle, s.without
	best := solution{short: s.best.short}
	for _, c := range s.best.columns {
		if c.stock >= 0 {
			stock := &s.t.stocks[c.stock]
			c.sections = slices.Clone(c.sections)
			for i, n := range c.sections {
				c.sections[i] = s.t.Keep(stock.cross, old[stock.cross][n])
			}
			c.cost = stock.costs.Cost(s.t.Sections[stock.cross], c.sections)
		}
		best.columns = append(best.columns, c)
	}
	best.count()
	s.best = best
}

// start lists all ways, and finds how few strips must be short.
func (s *solver) start() {
	if s.relist(); s.stop.Stopped() {
		return
	}
	if s.t.small() && s.best.missing == 0 {
		s.branch()
	}
	if s.proved || s.stop.Stopped() {
		return
	}
	if first, ok := s.full.greedy(s.pr, s.full.guess(s.pr)); ok {
		s.take(&first)
	}
	if s.t.small() && s.best.missing > 0 {
		s.branch()
	}
	if s.best.missing == 0 {
		s.fewest = true
	} else if !s.fewest {
		s.fewestShort(even(), 1)
	}
}

// branch proves the timber outright, if it can be.
func (s *solver) branch() {
	if s.without&branching != 0 {
		return
	}
	b := newBrancher(s.full, s.best.missing, s.stop, func(n *solution) { s.take(n) })
	if b == nil || s.stop.Stopped() {
		return
	}
	s.fewest = s.fewest || s.best.missing == 0
	raise := func(low int64) {
		if rest := low - b.fine*int64(s.best.missing); rest >= 0 {
			s.fewest = true
			s.raise(b.ceil(rest))
		}
	}
	raise(b.run(b.value(&s.best), raise))
}

// fewestShort finds how few strips can be short, if that can be had with effort e.
func (s *solver) fewestShort(e effort, rounds int) {
	p := s.fined()
	if s.fewest = s.best.missing == 0; s.fewest || s.stop.Stopped() {
		return
	}
	if s.bounded(); s.fewest || s.stop.Stopped() {
		return
	}
	for n := 0; n < rounds && !s.fewest; n++ {
		s.improve(p, uint64(n+s.steps))
		s.fewest = s.loose.best.bound > int64(s.best.missing-1)*oneStrip
	}
	if s.fewest || s.stop.Stopped() {
		return
	}
	fewer := int64(s.best.missing-1) * oneStrip
	s.pr.free = true
	best, done := s.loose.p.pass(s.pr, &s.loose.best, fewer-s.loose.best.bound, e)
	s.pr.free = false
	if best != nil {
		if s.t.joined() {
			s.take(s.full.trimWays(best))
		} else {
			trimmed := s.full.trim(best)
			s.take(&trimmed)
		}
	}
	// What is left of it without the strips that it has too many of must be as complete.
	s.fewest = done && (best == nil || s.best.missing <= best.missing)
}

// bounded finds a lower bound of strips short.
func (s *solver) bounded() {
	s.pr.free = true
	defer func() { s.pr.free = false }()
	if s.loose == nil {
		p := *s.full
		p.free, p.fine = true, oneStrip
		s.loose = newMaster(&p, s.pr)
		for _, c := range s.best.columns {
			s.loose.add(c)
		}
		s.loose.run(columnRounds, int64(s.best.missing-1)*oneStrip+1)
	}
	s.fewest = s.loose.best.bound > int64(s.best.missing-1)*oneStrip
}

// fined returns the problem in which each strip short costs more than any piece does,
// and looks for solutions of it.
func (s *solver) fined() *problem {
	p := *s.full
	for i := range s.t.stocks {
		p.fine = max(p.fine, 2*s.t.stocks[i].costs.All)
	}
	each := p.fine
	for _, g := range s.t.groups {
		for _, w := range g.ways { // each piece of a strip may open another
			p.fine = max(p.fine, int64(len(w.pieces))*each+w.cost)
		}
	}
	if p.fine == 0 { // there are no pieces, or they cost nothing
		p.fine = oneStrip
	}
	m := newMaster(&p, s.pr)
	for _, c := range s.best.columns {
		m.add(c)
	}
	m.run(columnRounds/4, p.value(&s.best))
	if s.stop.Stopped() {
		return &p
	}
	if next, ok := p.greedy(s.pr, m.best.prices); ok {
		s.take(&next)
	}
	s.take(p.dive(s.pr, m))
	return &p
}

// trim returns a solution of a free problem without the strips that it has too many of.
func (p *problem) trim(over *solution) solution {
	s := p.nothing()
	for _, c := range over.columns {
		if c.stock < 0 {
			i := slices.IndexFunc(s.columns, func(have column) bool { return have.stock == c.stock })
			s.columns[i].take.AddTo(s.short)
			c.take.SubtractFrom(s.short)
			s.columns[i] = c
		}
	}
	p.trimPieces(&s, over)
	return s
}

// trimPieces adds the pieces of over to s, cut to the strips that s has short.
func (p *problem) trimPieces(s, over *solution) {
	for _, c := range over.columns {
		if c.stock < 0 {
			continue
		}
		stock := &p.t.stocks[c.stock]
		kept := column{stock: c.stock}
		counts := make([]int32, len(p.want))
		for _, n := range c.sections {
			sec := &p.t.Sections[stock.cross][n]
			var less sections.Take
			for _, q := range sec.Take {
				if count := min(q.Count, s.short[q.Kind]); count > 0 {
					less = append(less, sections.Part{Kind: q.Kind, Count: count})
				}
			}
			if n, ok := p.t.Find(stock.cross, sec.Along, less); ok {
				kept.sections = append(kept.sections, n)
				less.SubtractFrom(s.short)
				less.AddTo(counts)
			}
		}
		if kept.take = sections.TakeOf(counts); kept.take != nil {
			kept.cost = stock.costs.Cost(p.t.Sections[stock.cross], kept.sections)
			s.columns = append(s.columns, kept)
		}
	}
	s.count()
}

// leastDrawn finds the least that a solution as complete as the best one draws, if
// that can be had with little effort.
func (s *solver) leastDrawn() {
	p := *s.full
	p.short = s.best.missing
	s.target, s.grain = &p, p.grain()
	s.m = newMaster(s.target, s.pr)
	for _, c := range s.best.columns {
		s.m.add(c)
	}
	s.m.run(columnRounds, s.best.cost)
	s.raise(s.m.best.bound)
	if s.m.partial {
		s.raise(s.m.shaved())
	}
	if s.proved || s.stop.Stopped() {
		return
	}
	if next, ok := s.target.greedy(s.pr, s.m.best.prices); ok {
		s.take(&next)
	}
	s.passes(even())
}

// refine improves the solution for a while; when that brings nothing more it tries
// for a proof.
func (s *solver) refine() {
	before := s.best.cost
	if !s.fewest && s.stuck == 0 {
		missing := s.best.missing
		if s.fewestShort(hard(), 4); s.best.missing < missing || s.stop.Stopped() {
			return
		}
	}
	if s.passes(hard()); s.best.cost < before {
		s.stuck = 0
		return
	}
	if s.proved || s.stop.Stopped() {
		return
	}
	if s.improve(s.target, uint64(s.steps)); s.best.cost < before {
		s.stuck = 0
		return
	}
	s.stuck++
}

// raise puts the bound up.
func (s *solver) raise(bound int64) {
	if s.target != nil && s.target.fine == 0 {
		bound = ceil(bound, s.grain)
	}
	if !s.believes(bound) {
		return
	}
	if bound > s.bound {
		s.bound = min(bound, s.best.cost)
		s.post(false)
	}
	s.proved = s.fewest && s.bound >= s.best.cost
}

// passes searches with a rising allowance above the relaxation's bound: a pass
// without a solution proves the bound plus its allowance and one more, costs being whole.
// A pass that looked at everything and found a solution proves it the best, for the search
// goes on below each that it finds until there is none.
func (s *solver) passes(e effort) {
	p, m := s.target, s.m
	s.raise(s.bound)
	low := max(s.bound, m.best.bound)
	for allowance := low - m.best.bound + (s.best.cost-low)/16; !s.proved && !s.stop.Stopped(); {
		// what is all but as far as there is to go, goes all the way
		if most := s.best.cost - m.best.bound - 1; allowance > most-most/8 {
			allowance = most
		}
		best, done := p.pass(s.pr, &m.best, allowance, e)
		s.take(best)
		if !done || s.best.missing < p.short {
			return
		}
		if best != nil {
			s.raise(s.best.cost)
			return
		}
		s.raise(m.best.bound + allowance + 1)
		allowance = 2*allowance + 1
	}
}

// pass looks for the best solution that costs at most d.bound + allowance. done
// says that all of them were looked at.
func (p *problem) pass(pr *pricer, d *dual, allowance int64, e effort) (best *solution, done bool) {
	columns, ok := p.candidates(pr, d, allowance, e.columns)
	if !ok {
		return nil, false
	}
	best, done = p.prove(pr, d, columns, allowance, e)
	return best, done
}
