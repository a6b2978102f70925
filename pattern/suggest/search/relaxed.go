package search

import (
	"math"

	"example.com/oddments/pattern/lp"
	"example.com/oddments/pattern/suggest"
)

// A relaxed walk is the walk as a linear program: how many strips of each kind there are
// and how often each two kinds lie side by side, in parts, where every strip has two
// neighbours but for the two at the edges. Its own prices are close to the best that a
// bound can have; no bound depends on how well it was solved, for a bound holds at any
// prices that are 0 or more, and relax hands out no others. What it leaves out, like pins
// and symmetry, or takes for less than it is, like couples, costs tightness alone.
type relaxed struct {
	w       *pathProblem
	p       *lp.Program
	right   []float64
	costs   []float64 // of each row's first column
	columns []lp.Column
	t       target
	g       *graph
	scales  []float64 // of budgets

	ends, fewest, most, narrow, wide, use int // rows
	first, plain, budget                  []int
}

// missed is what a part costs by which a relaxed walk misses what it must keep to, in
// contrast and in millimetres: more than any part can bring.
const missed = 1e4

// perPart is how many units of value the programs count as one: a contrast of 1, and a
// millimetre of width.
const perPart = suggest.PerContrast

// relax returns the prices of the relaxed walk, at the scales of p. Pins and symmetry it
// knows nothing of.
func (w *pathProblem) relax(g *graph, t target, p *prices, stop stopper) *prices {
	r := &relaxed{w: w, g: g, t: t, scales: p.scale[p.budget(0):]}
	r.rows()
	r.strips()
	r.neighbours()
	r.p = lp.New(r.right, r.costs)
	for _, c := range r.columns {
		r.p.Add(c)
	}
	r.p.Solve(stop.stopped)
	out := p.clone()
	price := func(row int, sign float64) float64 {
		v := sign * r.p.Price(row)
		if math.IsNaN(v) {
			return 0 // any price makes a bound
		}
		return min(dearest/perPart, max(0, v))
	}
	units := func(row int) float64 { return price(row, -1) * perPart }
	for k := range w.k {
		out.of[p.first(k)], out.of[p.plain(k)] = units(r.first[k]), units(r.plain[k])
	}
	out.of[p.most()], out.of[p.fewest()] = units(r.most), price(r.fewest, 1)*perPart
	out.of[p.use()] = 0
	if t.least > 0 {
		out.of[p.use()] = price(r.use, 1)
	}
	for i, row := range r.budget {
		out.of[p.budget(i)] = units(row) / r.scales[i]
	}
	return out
}

// row adds a row: that of what is most, or where exact what is to be met.
func (r *relaxed) row(right float64, exact bool) int {
	cost := 0.0
	if exact {
		cost = missed
	}
	r.right, r.costs = append(r.right, max(0, right)), append(r.costs, cost)
	return len(r.right) - 1
}

// least adds a row for what is to be reached.
func (r *relaxed) least(right float64) int {
	at := r.row(right, true)
	r.columns = append(r.columns, lp.Column{At: []int32{int32(at)}, By: []float64{-1}})
	return at
}

func (r *relaxed) rows() {
	w := r.w
	for range w.k {
		r.row(0, true) // two neighbours each
	}
	r.ends = r.row(2, true)
	r.most, r.fewest = r.row(float64(w.hi), false), r.least(float64(w.lo))
	r.wide, r.narrow = r.row(parts(w.whi), false), r.least(parts(w.wlo))
	if r.t.least > 0 {
		r.use = r.least(parts(r.t.least))
	}
	for k := range w.k {
		r.first = append(r.first, r.row(float64(w.first[k]), false))
		r.plain = append(r.plain, r.row(float64(w.count[k]-w.first[k]), false))
	}
	for i, b := range w.budgets {
		r.budget = append(r.budget, r.row(float64(b.Most)/r.scales[i], false))
	}
}

func parts(nm int64) float64 { return float64(nm) / perPart }

// strips adds the strips of each kind, those to use first and the others.
func (r *relaxed) strips() {
	for k := range r.w.k {
		wide := parts(r.w.width[k])
		for _, first := range []bool{true, false} {
			c := lp.Column{}
			put := func(row int, by float64) { c.At, c.By = append(c.At, int32(row)), append(c.By, by) }
			put(k, -2)
			put(r.most, 1)
			put(r.fewest, 1)
			put(r.wide, wide)
			put(r.narrow, wide)
			if first {
				c.Cost -= float64(r.t.use) * wide
				put(r.first[k], 1)
				if r.t.least > 0 {
					put(r.use, wide)
				}
			} else {
				put(r.plain[k], 1)
			}
			for i, b := range r.w.budgets {
				if b.Takes[k] > 0 {
					put(r.budget[i], float64(b.Takes[k])/r.scales[i])
				}
			}
			r.columns = append(r.columns, c)
		}
		r.columns = append(r.columns, lp.Column{At: []int32{int32(k), int32(r.ends)}, By: []float64{1, 1}})
	}
}

// neighbours adds the pairs of kinds that may lie side by side.
func (r *relaxed) neighbours() {
	for i := range r.w.k {
		for _, j32 := range r.g.next[i] {
			j := int(j32)
			cost := -float64(r.t.alpha) * float64(r.g.worth[i*r.w.k+j]) / perPart
			switch {
			case i == j:
				r.columns = append(r.columns, lp.Column{Cost: cost, At: []int32{int32(i)}, By: []float64{2}})
			case i < j:
				r.columns = append(r.columns, lp.Column{Cost: cost, At: []int32{int32(i), j32}, By: []float64{1, 1}})
			}
		}
	}
}
