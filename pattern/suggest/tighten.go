package suggest

import "math"

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

// set makes b the bound at prices p. Every rounding goes the way that keeps it one.
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
			b.konst += int64(math.Ceil(p.budget[i]*float64(bud.most))) + 1
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

// slopeAt reckons the slope and leaves out what a price of 0 cannot follow.
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
		if w.first[k] > 0 && (w.first[k] == w.count[k] || b.first[k] >= b.plain[k]) {
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
	roundSteps  = 60_000_000
)

// tighten seeks the prices that give the least bound. It ends early once the bound is
// below enough, or after most rounds. known is what a layout is worth that has been found, or nothing.
func (w *walk) tighten(g *graph, t target, known, enough int64, most int, stop stopper) *bound {
	edges := 0
	for _, next := range g.next {
		edges += len(next)
	}
	steps := int64(w.depths()) * int64(w.chi+1) * int64(edges+1)
	rounds := max(roundsLeast, int(min(int64(most), roundSteps/steps)))
	p := newPrices(w)
	best, next := (*bound)(nil), &bound{}
	counts := make([]int, w.k)
	pace, stuck := 1.0, 0
	for round := 0; round < rounds && pace > 1e-3; round++ {
		p.set(w, next, t)
		w.reckon(next, g, stop)
		if stop.stopped() {
			break
		}
		now := next.all()
		if now == nothing {
			return next
		}
		w.trace(next, g, counts)
		s := p.slopeAt(w, next, t, counts)
		if best == nil || now < best.all() {
			if best == nil {
				best = &bound{}
			}
			best, next = next, best
			stuck = 0
		} else if stuck++; stuck >= 6 {
			pace, stuck = pace/2, 0
		}
		if best.all() < enough || s.square == 0 {
			break
		}
		aim := float64(known)
		if known == nothing {
			aim = float64(now) - max(math.Abs(float64(now))/20, perContrast)
		}
		p.move(s, pace*max(float64(now)-aim, 1)/s.square)
	}
	return best
}
