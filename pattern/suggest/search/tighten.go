package search

import (
	"math"
	"slices"

	"example.com/oddments/pattern/suggest"
)

// A target is what layouts are weighed by, and what else they must keep to.
type target struct {
	alpha int64 // what a unit of contrast counts, 0 or 1
	use   int64 // what a nanometre of use-first width counts, 0 or 1
	least int64 // use-first width that there must be, nanometres; 0: any
}

// prices are the multipliers of a bound. All are 0 or more.
type prices struct {
	first, plain  []float64 // of a strip of each kind
	fewest, most  float64   // of a strip, for the range of their number
	use           float64   // of a nanometre of use-first width
	budget        []float64
	span, budgets []float64 // scales: of widths, of budgets
}

func (p *prices) clone() *prices {
	q := *p
	q.first, q.plain, q.budget = slices.Clone(p.first), slices.Clone(p.plain), slices.Clone(p.budget)
	return &q
}

func newPrices(w *walk) *prices {
	p := &prices{first: make([]float64, w.k), plain: make([]float64, w.k), budget: make([]float64, len(w.budgets))}
	mean := 0.0
	for _, width := range w.width {
		mean += float64(width) / float64(w.k)
	}
	p.span = []float64{max(mean, 1)}
	for _, b := range w.budgets {
		mean, n := 0.0, 0.0
		for _, t := range b.takes {
			if t > 0 {
				mean, n = mean+float64(t), n+1
			}
		}
		p.budgets = append(p.budgets, max(mean/max(n, 1), 1))
	}
	return p
}

// set makes b the bound at prices p. Every rounding goes the way that keeps it one: prices
// of kinds and of the number of strips are whole on both sides, so that they cancel out;
// of budgets and use-first width what a strip is charged is rounded down and what all of
// it is credited with up, and one unit more. That one makes up for the error of the
// strips' products: under 2^-52 of dearest each, for at most 10,000 strips. A budget may
// be far greater than what a layout takes, so the error of its own product is added.
func (p *prices) set(w *walk, b *bound, t target) {
	b.alpha, b.konst = t.alpha, 0
	if b.first == nil {
		b.first, b.plain = make([]int64, w.k), make([]int64, w.k)
	}
	any := int64(math.Round(p.fewest)) - int64(math.Round(p.most))
	b.konst += int64(math.Round(p.most))*int64(w.hi) - int64(math.Round(p.fewest))*int64(w.lo)
	use := t.least > 0 && p.use > 0
	if use {
		b.konst -= int64(math.Floor(p.use*float64(t.least))) - 1
	}
	for i, bud := range w.budgets {
		if p.budget[i] > 0 {
			credit := p.budget[i] * float64(bud.most)
			b.konst += int64(math.Ceil(credit+credit*1e-15)) + 1
		}
	}
	for k := range w.k {
		first, plain := int64(math.Round(p.first[k])), int64(math.Round(p.plain[k]))
		b.konst += first*int64(w.first[k]) + plain*int64(w.count[k]-w.first[k])
		shared := any
		for i, bud := range w.budgets {
			if p.budget[i] > 0 && bud.takes[k] > 0 {
				shared -= int64(math.Floor(p.budget[i] * float64(bud.takes[k])))
			}
		}
		b.plain[k] = shared - plain
		b.first[k] = shared - first + t.use*w.width[k]
		if use {
			b.first[k] += int64(math.Ceil(p.use*float64(w.width[k]))) + 1
		}
	}
}

// slope is how the bound changes with each price, for a best walk of counts.
type slope struct {
	first, plain      []float64
	fewest, most, use float64
	budget            []float64
	square            float64
}

// slopeAt computes the slope and leaves out what a price of 0 cannot follow.
func (p *prices) slopeAt(w *walk, b *bound, t target, counts []int) *slope {
	s := &slope{first: make([]float64, w.k), plain: make([]float64, w.k), budget: make([]float64, len(w.budgets))}
	add := func(price, d float64) float64 {
		if price <= 0 && d > 0 {
			return 0
		}
		s.square += d * d
		return d
	}
	strips, used := 0, 0.0
	for k, n := range counts {
		strips += n
		x1, x2 := 0, n
		switch {
		case b.stride[k] > 0:
			x1 = w.firsts(k, 0, n)
			used += float64(x1) * float64(w.width[k])
			continue
		case w.pair[k]:
			x1, x2 = n/2, n/2
		case w.first[k] > 0 && (w.first[k] == w.count[k] || b.first[k] >= b.plain[k]):
			x1, x2 = n, 0
		}
		used += float64(x1) * float64(w.width[k])
		s.first[k] = add(p.first[k], float64(w.first[k]-x1))
		s.plain[k] = add(p.plain[k], float64(w.count[k]-w.first[k]-x2))
	}
	s.fewest = add(p.fewest, float64(strips-w.lo))
	s.most = add(p.most, float64(w.hi-strips))
	if t.least > 0 {
		s.use = add(p.use, (used-float64(t.least))/p.span[0])
	}
	for i, bud := range w.budgets {
		left := float64(bud.most)
		for k, n := range counts {
			left -= float64(n) * float64(bud.takes[k])
		}
		s.budget[i] = add(p.budget[i], left/p.budgets[i])
	}
	return s
}

// dearest keeps prices where sums of them fit.
const dearest = 4e10

// move follows the slope down by step.
func (p *prices) move(s *slope, step float64) {
	to := func(price, d float64) float64 { return min(dearest, max(0, price-step*d)) }
	for k := range p.first {
		p.first[k], p.plain[k] = to(p.first[k], s.first[k]), to(p.plain[k], s.plain[k])
	}
	p.fewest, p.most = to(p.fewest, s.fewest), to(p.most, s.most)
	p.use = to(p.use*p.span[0], s.use) / p.span[0]
	for i := range p.budget {
		p.budget[i] = to(p.budget[i]*p.budgets[i], s.budget[i]) / p.budgets[i]
	}
}

// How long prices are sought: so many rounds, or so many steps of walks.
const (
	roundsMost  = 150
	roundsFew   = 40
	roundsLeast = 20
	roundsKept  = 16 // each time that more kinds are kept
	roundsLate  = 4  // the same, where a round takes long
	roundSteps  = 60_000_000
)

// sizeMost bounds the values of one table.
const sizeMost = 4_000_000

// A tightening seeks the prices that give the least bound for t.
type tightening struct {
	w      *walk
	g      *graph
	t      target
	known  int64 // what a layout is worth that has been found, or nothing
	stop   stopper
	steps  int64 // of walks, so far
	edges  int
	prices *prices
	base   *prices // the best with no kept kinds
	best   *bound
	at     *prices       // of best
	walked func([]int32) // is told of best walks that have no more of a kind than there is
	over   []float64     // of each kind: by how much best walks had more of it than there is
}

func (w *walk) tightening(g *graph, t target, known int64, stop stopper) *tightening {
	x := &tightening{w: w, g: g, t: t, known: known, stop: stop, edges: 1, prices: newPrices(w), over: make([]float64, w.k)}
	for _, next := range g.next {
		x.edges += len(next)
	}
	x.at = x.prices.clone()
	return x
}

// cost returns how many steps one round takes with so many states.
func (x *tightening) cost(states int) int64 {
	return int64(x.w.depths()) * int64(x.w.chi+1) * int64(x.edges) * int64(states)
}

// run goes up to most rounds with so many kept kinds, from the best prices so far. It
// ends early once the bound is below enough. It reports false where it was stopped.
//
// No round can make a bound wrong, only looser: each sets prices that are 0 or more
// (move), whatever walk they are drawn from, and computes the table at them anew. The best
// table so far is held on to.
func (x *tightening) run(keep []int, enough int64, most int) bool {
	p := x.at.clone()
	for _, k := range keep {
		p.first[k], p.plain[k] = 0, 0
	}
	before := x.best // of fewer kept kinds
	x.best = nil
	next := &bound{}
	next.keep(x.w, keep)
	counts := make([]int, x.w.k)
	clear(x.over)
	pace, stuck := 1.0, 0
	for round := 0; round < most && pace > 1e-3; round++ {
		p.set(x.w, next, x.t)
		x.w.tabulate(next, x.g, x.stop)
		if x.stop.stopped() {
			if x.best == nil {
				x.best = before
			}
			return false
		}
		x.steps += x.cost(next.states)
		now := next.all()
		if now == nothing {
			x.best, x.at = next, p
			return true
		}
		kinds := x.w.trace(next, x.g, counts)
		if x.note(counts) {
			x.walked(kinds)
		}
		s := p.slopeAt(x.w, next, x.t, counts)
		if x.best == nil || now < x.best.all() {
			if x.best == nil {
				x.best = &bound{}
				x.best.keep(x.w, keep)
			}
			x.best, next = next, x.best
			x.at = p.clone()
			stuck = 0
		} else if stuck++; stuck >= 6 {
			pace, stuck = pace/2, 0
		}
		if x.best.all() < enough || s.square == 0 {
			break
		}
		aim := float64(x.known)
		if x.known == nothing {
			aim = float64(now) - max(math.Abs(float64(now))/20, suggest.PerContrast)
		}
		p.move(s, pace*max(float64(now)-aim, 1)/s.square)
	}
	return true
}

// note remembers of which kinds a best walk had more than there is. It reports whether
// there is none.
//
// What note reports is what come asks for: of no kind more than there is.
func (x *tightening) note(counts []int) bool {
	within := true
	for k := range x.over {
		over := max(0, counts[k]-x.w.count[k])
		x.over[k] = 0.8*x.over[k] + float64(over)
		within = within && over == 0
	}
	return within
}

// start seeks prices with no kept kinds. Where kinds share timber, those that are sought
// step by step may stay far off, and then those of the relaxed walk serve.
func (x *tightening) start(enough int64, most int) {
	var eased *bound
	var p *prices
	if len(x.w.budgets) > 0 && x.w.k <= easeMost {
		if p, eased = x.ease(); eased == nil || eased.all() < enough {
			x.best, x.at = eased, p
			return
		}
	}
	x.run(nil, enough, max(roundsLeast, int(min(int64(most), roundSteps/x.cost(1)))))
	x.base = x.at
	if eased != nil && !x.stop.stopped() && eased.all() < x.best.all()-x.best.all()/200 {
		x.best, x.at = eased, p
	}
}

// easeMost is of how many kinds the relaxed walk is solved: of more it takes longer than
// the search that it is to help.
const easeMost = 100

// ease returns the bound at the prices of the relaxed walk, or nil where it was stopped.
func (x *tightening) ease() (*prices, *bound) {
	p, b := x.w.relax(x.g, x.t, x.prices, x.stop), &bound{}
	b.keep(x.w, nil)
	p.set(x.w, b, x.t)
	x.w.tabulate(b, x.g, x.stop)
	x.steps += x.cost(1)
	if x.stop.stopped() {
		return p, nil
	}
	return p, b
}

// keepMore keeps more kinds, those that best walks had too many of, as long as there
// are at most so many states, the bound is not below enough and more kinds help.
func (x *tightening) keepMore(states int, enough int64) {
	for x.best != nil && x.best.all() >= enough {
		keep := x.worst(states)
		if len(keep) == len(x.best.kept) {
			return
		}
		before := 1
		for _, k := range keep {
			before *= x.w.steps(k) + 1
		}
		if !x.run(keep, enough, max(roundsLate, int(min(roundsKept, roundSteps/x.cost(before))))) {
			return
		}
	}
}

// worst returns the kept kinds with up to two more.
func (x *tightening) worst(states int) []int {
	var keep []int
	all := 1
	for _, k := range x.best.kept {
		keep = append(keep, k.kind)
		all *= k.most + 1
	}
	for range 2 {
		worst := -1
		for k, over := range x.over {
			fits := all*(x.w.steps(k)+1) <= states && x.w.size(all*(x.w.steps(k)+1)) <= sizeMost
			if over > 1e-6 && fits && !slices.Contains(keep, k) && (worst < 0 || over > x.over[worst]) {
				worst = k
			}
		}
		if worst >= 0 {
			keep = append(keep, worst)
			all *= x.w.steps(worst) + 1
		}
	}
	return keep
}
