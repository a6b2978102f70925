package solve

import (
	"context"
	"math"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/lp"
)

// Limits say how many copies of several patterns one rack can give together, of each timber by
// itself. What they say holds for every number of copies up to those of their job.
type Limits struct {
	limits []*limit
	stop   sections.Stopper
}

// A Limit is what every choice of copies that the rack can give keeps to: the sum of By times
// the copies of each demand is at most Most. All are whole numbers, without a tolerance.
type Limit struct {
	Species string
	By      []int64
	Most    int64
}

// Slack returns how much copies leave of the limit; below 0 they break it.
func (l Limit) Slack(copies []int) int64 {
	left := l.Most
	for d, by := range l.By {
		left -= by * int64(copies[d])
	}
	return left
}

// A Floor is what every choice of copies draws at least, in cubic centimetres: the sum of By
// times the copies of each demand, less Less.
type Floor struct {
	By   []float64
	Less float64
}

// Of returns the floor of so many copies.
func (f Floor) Of(copies []int) float64 {
	cm3 := -f.Less
	for d, by := range f.By {
		cm3 += by * float64(copies[d])
	}
	return max(0, cm3)
}

// limit is the linear program of one timber with the ways to cut it that are known.
type limit struct {
	t           *timber
	pr          *pricer
	per         [][]int32 // of each demand: strips of each kind in one copy
	free, drawn []column  // where costs are left out, and where they count
}

// limitRounds bounds the pricing for one answer.
const limitRounds = 40

// NewLimits gathers the ways to cut the rack of a job for its patterns, whose copies are the
// most that are asked about. It ends soon after ctx does, and then says less.
func NewLimits(ctx context.Context, job cutting.Job) (*Limits, func() bool, error) {
	if err := job.Check(); err != nil {
		return nil, nil, err
	}
	stop, release := sections.StopWith(ctx)
	choices := cutting.Choices(job)
	ls := &Limits{stop: stop}
	for _, t := range sortTimbers(job, choices) {
		if t.joined() {
			continue // of strips in pieces nothing is said here: the plan itself says it
		}
		t.ListPlain(stop)
		t.ListAll(t.small(), stop)
		l := &limit{t: t, pr: newPricer(t, stop), per: make([][]int32, len(job.Patterns))}
		place := map[string]int{}
		for d, demand := range job.Patterns {
			l.per[d], place[demand.Stem] = make([]int32, len(t.Kinds)), d
		}
		for k, at := range t.needs {
			for _, n := range at {
				if ref := choices[n].Ref; ref.Copy == 1 {
					l.per[place[ref.Pattern]][k]++
				}
			}
		}
		ls.limits = append(ls.limits, l)
	}
	return ls, release, nil
}

// Break returns a limit that copies break, which may be parts of whole ones; none where the
// linear relaxation of the cutting gives them all.
func (ls *Limits) Break(copies []float64) (Limit, bool) {
	for _, l := range ls.limits {
		if ls.stop.Stopped() {
			break
		}
		if broken, ok := l.breaks(copies); ok {
			return broken, true
		}
	}
	return Limit{}, false
}

// Floor returns a floor of what is drawn, as high as can be had for these copies.
func (ls *Limits) Floor(copies []int) Floor {
	f := Floor{By: make([]float64, len(copies))}
	at := make([]float64, len(copies))
	for d, n := range copies {
		at[d] = float64(n)
	}
	for _, l := range ls.limits {
		prices, less, ok := l.dearest(at)
		if !ok || ls.stop.Stopped() {
			continue
		}
		for d := range copies {
			f.By[d] += float64(l.of(d, prices)) / sections.PerCM3
		}
		f.Less += float64(less) / sections.PerCM3
	}
	return f
}

// of returns what one copy of demand d is worth at prices.
func (l *limit) of(d int, prices []int64) (worth int64) {
	for k, n := range l.per[d] {
		worth += int64(n) * prices[k]
	}
	return worth
}

// at returns what all copies are worth at prices.
func (l *limit) at(copies []float64, prices []int64) (worth float64) {
	for d, n := range copies {
		worth += n * float64(l.of(d, prices))
	}
	return worth
}

// breaks looks for prices at which copies are worth more than all that the rack gives can be:
// the prices of the linear program that leaves as little unmet as it can.
func (l *limit) breaks(copies []float64) (Limit, bool) {
	var best Limit
	most := 1e-6 // of what is unmet, by volume
	l.prices(copies, true, func(prices []int64, stock int64) bool {
		worth := l.at(copies, prices)
		if over := worth/float64(max(1, stock)) - 1; over > most {
			most = over
			best = Limit{Species: l.t.species, Most: stock, By: make([]int64, len(copies))}
			for d := range copies {
				best.By[d] = l.of(d, prices)
			}
		}
		return true
	})
	return best, best.By != nil
}

// dearest returns the prices that prove most of what copies draw, and what the stock takes
// off that.
func (l *limit) dearest(copies []float64) (best []int64, less int64, ok bool) {
	floor := 0.0
	l.prices(copies, false, func(prices []int64, stock int64) bool {
		if cost := l.at(copies, prices) - float64(stock); cost > floor {
			floor, best, less = cost, prices, stock
		}
		return true
	})
	return best, less, best != nil
}

// prices generates columns for copies, and tells try the prices that were bounded and what all
// stock and ready strips are worth at them at most, until try has enough or nothing is gained.
func (l *limit) prices(copies []float64, free bool, try func(prices []int64, stock int64) bool) {
	l.pr.free, l.pr.nodes, l.pr.relaxes = free, pricingNodes, true
	defer func() { l.pr.free, l.pr.nodes, l.pr.relaxes = false, 0, false }()
	m := l.program(copies, free)
	var center []int64
	for range limitRounds {
		m.lp.Solve(l.pr.stop.Stopped)
		own := make([]int64, len(l.t.Kinds))
		for k := range own {
			own[k] = max(0, sections.Units(m.lp.Price(k)))
		}
		tried := own
		if center != nil {
			tried = make([]int64, len(own))
			for k := range own {
				tried[k] = mix(center[k], own[k])
			}
		}
		added, stock := m.round(tried, own)
		if center != nil && !added {
			tried = own
			added, stock = m.round(own, own)
		}
		if l.pr.stop.Stopped() {
			return
		}
		if stock < unknown && !try(tried, stock) || !added {
			return
		}
		center = tried
	}
}

// A limitProgram is the linear program of a limit for some copies. Its rows are the kinds,
// the stocks and the pools of ready strips.
type limitProgram struct {
	*limit
	lp   *lp.Program
	free bool
}

// program sets the linear program up with the columns that are known. What is unmet costs its
// volume where costs are left out, else so much that nothing is left unmet that can be had.
func (l *limit) program(copies []float64, free bool) *limitProgram {
	var right, costs []float64
	for k := range l.t.Kinds {
		n, cost := 0.0, l.pr.bulk[k]
		for d, c := range copies {
			n += c * float64(l.per[d][k])
		}
		if !free {
			cost *= 1e3
		}
		right, costs = append(right, n), append(costs, cost)
	}
	for i := range l.t.stocks {
		right, costs = append(right, float64(len(l.t.stocks[i].items))), append(costs, 0)
	}
	for range l.t.ready.Pools() {
		right, costs = append(right, 1), append(costs, 0)
	}
	m := &limitProgram{limit: l, lp: lp.New(right, costs), free: free}
	for k := range l.t.Kinds {
		m.lp.Add(lp.Column{At: []int32{int32(k)}, By: []float64{-1}})
	}
	for _, c := range *m.known() {
		m.lp.Add(m.column(c))
	}
	return m
}

// known returns the list of columns of this sort.
func (m *limitProgram) known() *[]column {
	if m.free {
		return &m.limit.free
	}
	return &m.limit.drawn
}

// row returns the row of a stock, or, below 0, of a pool.
func (m *limitProgram) row(stock int32) int32 {
	if stock < 0 {
		return int32(len(m.t.Kinds)+len(m.t.stocks)) - 1 - stock
	}
	return int32(len(m.t.Kinds)) + stock
}

func (m *limitProgram) column(c column) lp.Column {
	var out lp.Column
	if !m.free {
		out.Cost = float64(c.cost) / sections.PerCM3
	}
	for _, q := range c.take {
		out.At, out.By = append(out.At, q.Kind), append(out.By, float64(q.Count))
	}
	out.At, out.By = append(out.At, m.row(c.stock)), append(out.By, 1)
	return out
}

// round prices every stock and pool once at prices, adds the columns that gain at the
// program's own, and returns what all are worth at most: the Lagrangian bound of the problem.
func (m *limitProgram) round(prices, own []int64) (added bool, stock int64) {
	take := func(c column, worth int64) {
		if worth > sections.Units(-m.lp.Price(int(m.row(c.stock))))+worthAdding {
			m.lp.Add(m.column(c))
			*m.known() = append(*m.known(), c)
			added = true
		}
	}
	for n := range m.t.stocks {
		c, bound := m.pr.best(n, prices, m.t.Want, 0)
		if pieces := int64(len(m.t.stocks[n].items)); bound > (math.MaxInt64/4-stock)/max(1, pieces) {
			stock = unknown
		} else {
			stock += pieces * bound
		}
		if c == nil {
			continue
		}
		cost := c.cost
		if m.free {
			cost = 0
		}
		take(*c, c.take.Worth(own)-cost)
	}
	for n := range m.t.ready.Pools() {
		c, worth := m.t.ready.Richest(n, prices, m.t.Want)
		stock += worth
		take(column{stock: int32(-1 - n), take: c}, c.Worth(own))
	}
	return added, min(stock, unknown)
}
