package solve

import (
	"math"

	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/lp"
)

// A master is the linear relaxation of a problem over the columns found so far. Its
// prices give lower bounds that hold whatever columns are still missing.
type master struct {
	p       *problem
	lp      *lp.Program
	pricer  *pricer
	columns []column
	places  []int // of each column in the program
	over    int   // the program's first column for too many strips of a kind
	best    dual

	stockRow    []int32 // of each stock; 0: none yet
	center      []int64 // prices towards which the program's are moved
	centerSigma int64
	cut         bool // the last pricing hit its limit
	partial     bool // a stock has more ways to be cut than are listed
	relaxes     bool // this round bounds them
	hasty       bool // the limit of the pricing is raised but a little
}

// relaxEvery is in how many rounds one gives a bound where that takes long.
const relaxEvery = 8

// pricingNodes bounds the work on one stock in one round, at first.
const pricingNodes = 4_000

// worthAdding is how much, in units, a column must gain for the relaxation to take
// it up: more than its own rounding.
const worthAdding = 100

// The program's rows: kinds, pools, the strips short where their number is given,
// and stocks in the order in which they first have a column.
func (m *master) kindRow(k int) int32 { return int32(k) }

func (m *master) poolRow(n int) int32 { return int32(len(m.p.want) + n) }

func (m *master) shortRow() int32 { return int32(len(m.p.want) + m.p.handed()) }

func (m *master) groupRow(n int) int32 {
	row := m.shortRow() + int32(n)
	if m.counts() {
		row++
	}
	return row
}

// counts reports whether the number of strips short is given, and so has a row.
func (m *master) counts() bool { return m.p.fine == 0 && m.p.short > 0 }

// stockPrice returns the program's price of a piece of stock n.
func (m *master) stockPrice(n int) int64 {
	if m.stockRow[n] == 0 {
		return 0
	}
	return max(0, sections.Units(-m.lp.Price(int(m.stockRow[n]))))
}

func newMaster(p *problem, pr *pricer) *master {
	m := &master{p: p, pricer: pr, stockRow: make([]int32, len(p.avail))}
	var right, costs []float64
	guess := p.guess(pr)
	for k, n := range p.want {
		unmet := penalty * float64(guess[k]) / sections.PerCM3
		if p.fine > 0 && p.shortable() {
			unmet = float64(p.fine) / sections.PerCM3
		}
		right, costs = append(right, float64(n)), append(costs, unmet)
	}
	for range p.handed() {
		right, costs = append(right, 1), append(costs, 1e6)
	}
	if m.counts() {
		right, costs = append(right, float64(p.short)), append(costs, 0)
	}
	for _, strips := range p.strips {
		right, costs = append(right, float64(strips)), append(costs, 1e6)
	}
	m.lp = lp.New(right, costs)
	if m.counts() && p.shortable() {
		for k := range p.want {
			m.lp.Add(lp.Column{At: []int32{m.kindRow(k), m.shortRow()}, By: []float64{1, 1}})
		}
	}
	m.over = m.lp.Columns()
	for k := range p.want {
		m.lp.Add(lp.Column{Cost: m.lp.Cost(k) / 8, At: []int32{m.kindRow(k)}, By: []float64{-1}})
	}
	m.best.bound = math.MinInt64
	for n, avail := range p.avail {
		m.partial = m.partial || avail > 0 && !p.t.Whole[p.t.stocks[n].cross]
	}
	if !p.charged() || p.fine > 0 && !p.free {
		m.center = p.guess(pr)
	}
	for n, strips := range p.strips {
		for _, c := range p.wayColumns(n) {
			if strips > 0 {
				m.add(c)
			}
		}
	}
	return m
}

// add puts a column into the relaxation.
func (m *master) add(c column) {
	lc := lp.Column{Cost: float64(c.cost) / sections.PerCM3}
	if m.p.free {
		lc.Cost = 0
	}
	if c.short > 0 && m.p.fine > 0 {
		lc.Cost += float64(m.p.fine) / sections.PerCM3
	}
	if c.short > 0 && m.counts() {
		lc.At, lc.By = append(lc.At, m.shortRow()), append(lc.By, 1)
	}
	for _, q := range c.take {
		lc.At, lc.By = append(lc.At, m.kindRow(int(q.Kind))), append(lc.By, float64(q.Count))
	}
	row := m.poolRow(int(-1 - c.stock))
	if n := m.p.t.groupOf(&c); n >= 0 {
		row = m.groupRow(n)
	}
	if n := c.stock; n >= 0 {
		if m.stockRow[n] == 0 {
			m.stockRow[n] = int32(m.lp.AddRow(float64(m.p.avail[n]), 0))
		}
		row = m.stockRow[n]
	}
	lc.At, lc.By = append(lc.At, row), append(lc.By, 1)
	m.columns = append(m.columns, c)
	m.places = append(m.places, m.lp.Add(lc))
}

// run generates columns until the bound is as high as the relaxation can bring it,
// or rounds are over, or a bound of at least enough is proved.
func (m *master) run(rounds int, enough int64) {
	m.pricer.nodes = pricingNodes
	defer func() { m.pricer.nodes = 0 }()
	for n := range rounds {
		m.relaxes = n%relaxEvery == 0
		m.lp.Solve(m.pricer.stop.Stopped)
		if m.pricer.stop.Stopped() {
			return
		}
		added := m.round()
		if m.best.bound >= enough || m.pricer.stop.Stopped() {
			return
		}
		if !added && !m.raisePenalties() {
			return
		}
	}
}

// penalty is how many times the guess of its price a strip unmet costs at first.
// Starting low keeps prices near what they can be at all.
const penalty = 3

// raisePenalties raises the penalties that the program still pays, and the limit of the
// pricing; it reports whether there was anything to raise.
func (m *master) raisePenalties() bool {
	pressed := false
	most := 256 * pricingNodes
	if m.p.free || m.hasty { // without costs very many columns are alike
		most = 8 * pricingNodes
	}
	x := m.lp.Amounts()
	for k := range m.p.want {
		for _, n := range []int{k, m.over + k} {
			if (n != k || m.p.fine == 0 || !m.p.shortable()) && x[n] > 1e-7 && m.lp.Cost(n) < 1e7 {
				m.lp.SetCost(n, m.lp.Cost(n)*8)
				pressed = true
			}
		}
	}
	if m.cut && m.pricer.nodes < most {
		m.pricer.nodes *= 8
		pressed = true
	}
	m.lp.Reprice()
	return pressed
}

// prices returns the program's prices in whole units, none above what a strip short
// is charged at.
func (m *master) prices() ([]int64, int64) {
	prices := make([]int64, len(m.p.want))
	sigma := int64(0)
	if m.p.fine > 0 {
		sigma = m.p.fine
	} else if m.p.short > 0 {
		sigma = max(0, sections.Units(-m.lp.Price(int(m.shortRow()))))
	}
	for k := range prices {
		prices[k] = sections.Units(m.lp.Price(k))
		if m.p.shortable() {
			prices[k] = min(prices[k], sigma)
		}
		if m.p.free {
			prices[k] = max(prices[k], 0)
		}
	}
	return prices, sigma
}

// inward is how far prices are first moved from the program's towards the best so
// far: the program's own swing widely before there are enough columns.
const inward = 0.6

// round prices every stock and pool once; it reports whether a column was added.
func (m *master) round() bool {
	prices, sigma := m.prices()
	if m.center != nil {
		mixed := make([]int64, len(prices))
		for k := range mixed {
			mixed[k] = mix(m.center[k], prices[k])
		}
		if m.price(mixed, mix(m.centerSigma, sigma), prices, false) || m.pricer.stop.Stopped() {
			return true
		}
	}
	return m.price(prices, sigma, prices, true)
}

func mix(center, at int64) int64 { return at + int64(inward*float64(center-at)) }

// price prices every stock and pool once, and adds the columns found that gain at
// the program's own prices. With own set the two are the same, and columns that do
// not gain are not looked for.
func (m *master) price(prices []int64, sigma int64, program []int64, own bool) bool {
	d := dual{prices: prices, sigma: sigma, stocks: make([]int64, len(m.p.avail))}
	added := false
	m.cut = false
	m.pricer.relaxes = m.relaxes || own
	defer func() { m.pricer.relaxes = false }()
	for n, avail := range m.p.avail {
		if avail == 0 || m.pricer.stop.Stopped() {
			continue
		}
		gain := m.stockPrice(n)
		floor := int64(0)
		if own {
			floor = gain
		}
		c, bound := m.pricer.best(n, prices, m.p.want, floor)
		d.stocks[n] = bound
		m.cut = m.cut || m.pricer.steps < 0
		if c != nil && c.take.Worth(program)-c.cost > gain+worthAdding {
			m.add(*c)
			added = true
		}
	}
	for n := range m.p.handed() {
		c, worth := m.p.t.ready.Richest(n, prices, m.p.want)
		d.pools = append(d.pools, worth)
		if c.Worth(program) > sections.Units(-m.lp.Price(int(m.poolRow(n))))+worthAdding {
			m.add(column{stock: int32(-1 - n), take: c})
			added = true
		}
	}
	if m.pricer.stop.Stopped() || m.partial && !m.pricer.relaxes {
		return added
	}
	m.p.priceGroups(&d)
	m.p.setBound(&d)
	if d.bound > m.best.bound {
		m.best = d
		m.center, m.centerSigma = d.prices, d.sigma
	}
	return added
}

// shaved returns the best bound at prices below those of m: where not all ways are
// listed the program's own are too high, since there are better ways than it knows.
func (m *master) shaved() int64 {
	best := m.best.bound
	m.pricer.relaxes, m.pricer.nodes = true, greedyNodes
	defer func() { m.pricer.relaxes, m.pricer.nodes = false, 0 }()
	for percent := int64(95); percent >= 50 && !m.pricer.stop.Stopped(); percent -= 5 {
		d := dual{sigma: m.best.sigma * percent / 100, stocks: make([]int64, len(m.p.avail))}
		for _, price := range m.best.prices {
			d.prices = append(d.prices, price*percent/100)
		}
		for n, avail := range m.p.avail {
			if avail > 0 {
				_, d.stocks[n] = m.pricer.best(n, d.prices, m.p.want, 0)
			}
		}
		for n := range m.p.handed() {
			_, worth := m.p.t.ready.Richest(n, d.prices, m.p.want)
			d.pools = append(d.pools, worth)
		}
		m.p.priceGroups(&d)
		if m.p.setBound(&d); !m.pricer.stop.Stopped() {
			best = max(best, d.bound)
		}
	}
	return best
}
