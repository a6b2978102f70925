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

// prices are the multipliers of a bound, all 0 or more: of a use-first strip of each kind,
// of another strip of each, and behind these of a strip for the fewest and for the most
// there may be, of a nanometre of use-first width, and of each budget.
type prices struct {
	k     int
	of    []float64
	scale []float64 // of each: how much of it counts as one when prices move
}

// Places among prices.
func (p *prices) first(kind int) int { return kind }
func (p *prices) plain(kind int) int { return p.k + kind }
func (p *prices) fewest() int        { return 2 * p.k }
func (p *prices) most() int          { return 2*p.k + 1 }
func (p *prices) use() int           { return 2*p.k + 2 }
func (p *prices) budget(i int) int   { return 2*p.k + 3 + i }

func (p *prices) clone() *prices { return &prices{p.k, slices.Clone(p.of), p.scale} }

func newPrices(w *pathProblem) *prices {
	n := 2*w.k + 3 + len(w.budgets)
	p := &prices{k: w.k, of: make([]float64, n), scale: make([]float64, n)}
	for i := range p.scale {
		p.scale[i] = 1
	}
	mean := 0.0
	for _, width := range w.width {
		mean += float64(width) / float64(w.k)
	}
	p.scale[p.use()] = max(mean, 1)
	for i, b := range w.budgets {
		mean, n := 0.0, 0.0
		for _, t := range b.Takes {
			if t > 0 {
				mean, n = mean+float64(t), n+1
			}
		}
		p.scale[p.budget(i)] = max(mean/max(n, 1), 1)
	}
	return p
}

// set makes b the bound at prices p. Every rounding goes the way that keeps it one: prices
// of kinds and of the number of strips are whole on both sides, so that they cancel out;
// of budgets and use-first width what a strip is charged is rounded down and what all of
// it is credited with up, and one unit more. That one makes up for the error of the
// strips' products: under 2^-52 of dearest each, for at most 10,000 strips. A budget may
// be far greater than what a layout takes, so the error of its own product is added.
func (p *prices) set(w *pathProblem, b *bound, t target) {
	round := func(at int) int64 { return int64(math.Round(p.of[at])) }
	fewest, most, use := round(p.fewest()), round(p.most()), p.of[p.use()]
	b.alpha, b.constant = t.alpha, most*int64(w.hi)-fewest*int64(w.lo)
	if b.first == nil {
		b.first, b.plain = make([]int64, w.k), make([]int64, w.k)
	}
	if t.least == 0 {
		use = 0
	}
	if use > 0 {
		b.constant -= int64(math.Floor(use*float64(t.least))) - 1
	}
	for i, bud := range w.budgets {
		if price := p.of[p.budget(i)]; price > 0 {
			credit := price * float64(bud.Most)
			b.constant += int64(math.Ceil(credit+credit*1e-15)) + 1
		}
	}
	for k := range w.k {
		first, plain := round(p.first(k)), round(p.plain(k))
		b.constant += first*int64(w.first[k]) + plain*int64(w.count[k]-w.first[k])
		shared := fewest - most
		for i, bud := range w.budgets {
			if price := p.of[p.budget(i)]; price > 0 && bud.Takes[k] > 0 {
				shared -= int64(math.Floor(price * float64(bud.Takes[k])))
			}
		}
		b.plain[k] = shared - plain
		b.first[k] = shared - first + t.use*w.width[k]
		if use > 0 {
			b.first[k] += int64(math.Ceil(use*float64(w.width[k]))) + 1
		}
	}
}

// slope returns how the bound changes with each price, for a best walk of counts, and its
// square; what a price of 0 cannot follow is left out.
func (p *prices) slope(w *pathProblem, b *bound, t target, counts []int) (of []float64, square float64) {
	of = make([]float64, len(p.of))
	add := func(at int, d float64) {
		if d /= p.scale[at]; p.of[at] > 0 || d <= 0 {
			of[at] = d
			square += d * d
		}
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
			x1 = w.firsts(k, 0, n)
			x2 = n - x1
		case w.first[k] > 0 && (w.first[k] == w.count[k] || b.first[k] >= b.plain[k]):
			x1, x2 = n, 0
		}
		used += float64(x1) * float64(w.width[k])
		add(p.first(k), float64(w.first[k]-x1))
		add(p.plain(k), float64(w.count[k]-w.first[k]-x2))
	}
	add(p.fewest(), float64(strips-w.lo))
	add(p.most(), float64(w.hi-strips))
	if t.least > 0 {
		add(p.use(), used-float64(t.least))
	}
	for i, bud := range w.budgets {
		left := float64(bud.Most)
		for k, n := range counts {
			left -= float64(n) * float64(bud.Takes[k])
		}
		add(p.budget(i), left)
	}
	return of, square
}

// dearest keeps prices where sums of them fit.
const dearest = 4e10

// move follows the slope down by step.
func (p *prices) move(slope []float64, step float64) {
	for i, d := range slope {
		p.of[i] = min(dearest, max(0, p.of[i]*p.scale[i]-step*d)) / p.scale[i]
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
	w      *pathProblem
	g      *graph
	t      target
	known  int64 // what a layout is worth that has been found, or infeasible
	stop   stopper
	steps  int64 // of walks, so far
	edges  int
	prices *prices
	base   *prices // the best with no kept kinds
	best   *bound
	at     *prices       // of best
	walked func([]int32) // is told of best walks that have no more of a kind than there is
	over   []float64     // of each kind: by how much best walks had more of it than there is
	sharp  bool          // it was sought as sharp as prices make it
	kept   strength      // how far kinds were kept
}

func (w *pathProblem) tightening(g *graph, t target, known int64, stop stopper) *tightening {
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
		p.of[p.first(k)], p.of[p.plain(k)] = 0, 0
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
		table := x.w.fillTable(next, x.g, x.stop)
		if x.stop.stopped() {
			if x.best == nil {
				x.best = before
			}
			return false
		}
		x.steps += x.cost(next.states)
		now := next.all()
		if now == infeasible {
			x.best, x.at = next, p
			return true
		}
		kinds := table.trace(counts)
		if x.note(counts) {
			x.walked(kinds)
		}
		slope, square := p.slope(x.w, next, x.t, counts)
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
		if x.best.all() < enough || square == 0 {
			break
		}
		aim := float64(x.known)
		if x.known == infeasible {
			aim = float64(now) - max(math.Abs(float64(now))/20, suggest.PerContrast)
		}
		p.move(slope, pace*max(float64(now)-aim, 1)/square)
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
	var relaxed *bound
	var p *prices
	if len(x.w.budgets) > 0 && x.w.k <= relaxMost {
		if p, relaxed = x.relax(); relaxed == nil || relaxed.all() < enough {
			x.best, x.at = relaxed, p
			return
		}
	}
	x.run(nil, enough, max(roundsLeast, int(min(int64(most), roundSteps/x.cost(1)))))
	x.base = x.at
	if relaxed != nil && !x.stop.stopped() && relaxed.all() < x.best.all()-x.best.all()/200 {
		x.best, x.at = relaxed, p
	}
}

// relaxMost is of how many kinds the relaxed walk is solved: of more it takes longer than
// the search that it is to help.
const relaxMost = 100

// relax returns the bound at the prices of the relaxed walk, or nil where it was stopped.
func (x *tightening) relax() (*prices, *bound) {
	p, b := x.w.relax(x.g, x.t, x.prices, x.stop), &bound{}
	b.keep(x.w, nil)
	p.set(x.w, b, x.t)
	x.w.fillTable(b, x.g, x.stop)
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
	keep, all := slices.Clone(x.best.kept), x.best.states
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
