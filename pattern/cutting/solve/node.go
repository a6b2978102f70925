package solve

import (
	"math/bits"

	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/lp"
)

// mostRounds bounds the pricing of one node.
const mostRounds = 60

// A relaxation is the linear program of a node: pieces may be crosscut in several ways,
// each in part, and sections cut so. Its rows are the kinds, the openings and the slots.
// It only serves to find prices; what they prove is computed in whole numbers.
type relaxation struct {
	b     *brancher
	n     *node
	lp    *lp.Program
	chops [][]int // of each opening: the program's column of each chop; 0: none
	live  []bool  // of each slot: an allowed chop has sections of it
	top   []int64 // of each slot: the worth of its best cut at the prices tried last
	cut   []int32 // and that cut; below 0: none, it is left empty
}

// openingRow and slotRow return the rows of an opening and a slot.
func (b *brancher) openingRow(i int) int32 { return int32(len(b.p.want) + i) }

func (b *brancher) slotRow(s int32) int32 { return int32(len(b.p.want)+len(b.openings)) + s }

// bare returns a relaxation without its program.
func (b *brancher) bare(n *node) *relaxation {
	m := &relaxation{b: b, n: n, live: make([]bool, len(b.slots)), top: make([]int64, len(b.slots)), cut: make([]int32, len(b.slots))}
	for i, o := range b.openings {
		for c := range o.chops {
			for a, count := range o.chops[c].counts {
				if n.allows(i, c) && count > 0 {
					m.live[o.slots[a]] = true
				}
			}
		}
	}
	return m
}

// allows reports whether opening i may be chopped in way c.
func (n *node) allows(i, c int) bool { return n.allowed[i]>>c&1 != 0 }

// relax raises the bound of a node, and takes away the chops with which nothing can be
// better than the best: where the bound with that chop alone for its piece is as high.
func (b *brancher) relax(n *node) *relaxation {
	m := b.bare(n)
	m.start()
	center := n.prices
	for range mostRounds {
		m.lp.Solve(b.stop.Stopped)
		if b.stop.Stopped() {
			return m
		}
		own := make([]int64, len(b.p.want))
		for k := range own {
			own[k] = sections.Units(m.lp.Price(k))
		}
		added := false
		if center != nil {
			mixed := make([]int64, len(own))
			for k := range mixed {
				mixed[k] = mix(center[k], own[k])
			}
			if m.price(mixed); m.raise(mixed) {
				center = mixed
			}
			added = m.grow(own)
		}
		if !added {
			if m.price(own); m.raise(own) {
				center = own
			}
			added = m.grow(own)
		}
		if b.ceil(n.bound) >= b.best || !added && !m.raisePenalties() {
			break
		}
	}
	return m
}

// start sets up the program, with the cuts that others have taken up.
func (m *relaxation) start() {
	b, n := m.b, m.n
	must := 10 * float64(b.best) / sections.PerCM3
	var right, costs []float64
	for k, want := range b.p.want {
		each := b.p.t.Kinds[k]
		right, costs = append(right, float64(want)), append(costs, penalty*1.5*max(1, length.VolumeCM3(each.Length, each.Across, each.Sawn)))
	}
	for i := range b.openings {
		cost := must
		if n.allows(i, 0) {
			cost = 0
		}
		right, costs = append(right, 1), append(costs, cost)
	}
	for _, s := range b.slots {
		cost := 0.0
		if s.must {
			cost = must
		}
		right, costs = append(right, 0), append(costs, cost)
	}
	m.lp = lp.New(right, costs)
	for k := range b.p.want { // too many of a kind cost nothing: prices are not below 0
		m.lp.Add(lp.Column{At: []int32{int32(k)}, By: []float64{-1}})
	}
	for i, o := range b.openings {
		m.chops = append(m.chops, make([]int, len(o.chops)))
		for c := 1; c < len(o.chops); c++ {
			if n.allows(i, c) {
				m.chops[i][c] = m.lp.Add(b.chopColumn(i, c))
			}
		}
	}
	for s, live := range m.live {
		for _, c := range b.slots[s].pool {
			if live {
				m.add(int32(s), c)
			}
		}
	}
}

func (b *brancher) chopColumn(i, c int) lp.Column {
	o := &b.openings[i]
	column := lp.Column{Cost: float64(o.chops[c].cost) / sections.PerCM3, At: []int32{b.openingRow(i)}, By: []float64{1}}
	for a, count := range o.chops[c].counts {
		if count > 0 {
			column.At, column.By = append(column.At, b.slotRow(o.slots[a])), append(column.By, -float64(count))
		}
	}
	return column
}

// of returns the strips of cut c.
func (sl *slot) of(c int, kinds int) []int32 { return sl.counts[c*kinds : (c+1)*kinds] }

// at returns what cut c is worth at prices, its credit included.
func (sl *slot) at(c int, prices []int64) int64 {
	worth := sl.worth[c]
	for k, count := range sl.of(c, len(prices)) {
		worth += int64(count) * prices[k]
	}
	return worth
}

// add takes a cut into the program.
func (m *relaxation) add(s, c int32) {
	sl := &m.b.slots[s]
	column := lp.Column{Cost: -float64(sl.worth[c]) / sections.PerCM3, At: []int32{m.b.slotRow(s)}, By: []float64{1}}
	for k, count := range sl.of(int(c), len(m.b.p.want)) {
		if count > 0 {
			column.At, column.By = append(column.At, int32(k)), append(column.By, float64(count))
		}
	}
	m.lp.Add(column)
}

// price finds the best cut of each slot at prices.
func (m *relaxation) price(prices []int64) {
	for s, live := range m.live {
		sl := &m.b.slots[s]
		m.top[s], m.cut[s] = 0, -1
		if !live {
			continue
		}
		m.b.work -= len(sl.counts)
		for c := range sl.worth {
			if worth := sl.at(c, prices); worth > m.top[s] || sl.must && m.cut[s] < 0 {
				m.top[s], m.cut[s] = worth, int32(c)
			}
		}
	}
}

// value returns what opening i comes to when it is chopped in way c, at the prices tried
// last.
func (m *relaxation) value(i, c int) int64 {
	o := &m.b.openings[i]
	value := o.chops[c].cost
	for a, count := range o.chops[c].counts {
		value -= int64(count) * m.top[o.slots[a]]
	}
	return value
}

// bound returns the bound that prices prove, which were tried last, and the least that each
// opening comes to.
func (m *relaxation) bound(prices []int64) (bound int64, least []int64) {
	for k, want := range m.b.p.want {
		bound += int64(want) * prices[k]
	}
	for i, o := range m.b.openings {
		least = append(least, unknown)
		for c := range o.chops {
			if m.n.allows(i, c) {
				least[i] = min(least[i], m.value(i, c))
			}
		}
		bound += least[i]
	}
	return bound, least
}

// raise raises the bound of the node by the prices tried last, and reports whether it rose.
func (m *relaxation) raise(prices []int64) bool {
	b, n := m.b, m.n
	bound, least := m.bound(prices)
	for i, o := range b.openings {
		for c := range o.chops {
			if n.allows(i, c) && b.ceil(bound-least[i]+m.value(i, c)) >= b.best {
				n.allowed[i] &^= 1 << c
				if column := m.chops[i][c]; column > 0 {
					m.lp.SetCost(column, 1e7)
				}
			}
		}
		if n.allowed[i] == 0 { // nothing is left of the node
			n.bound = b.best
			return true
		}
	}
	if bound <= n.bound {
		return false
	}
	n.bound, n.prices = bound, prices
	return true
}

// grow takes the best cuts into the program that gain at its own prices. It reports whether
// there was one.
func (m *relaxation) grow(own []int64) bool {
	added := false
	for s, c := range m.cut {
		sl := &m.b.slots[s]
		if c < 0 || sl.pooled[c] {
			continue
		}
		if sl.at(int(c), own) > sections.Units(-m.lp.Price(int(m.b.slotRow(int32(s)))))+worthAdding {
			sl.pooled[c] = true
			sl.pool = append(sl.pool, c)
			m.add(int32(s), c)
			added = true
		}
	}
	return added
}

// raisePenalties raises what strips unmet cost, where the program leaves some.
func (m *relaxation) raisePenalties() bool {
	pressed := false
	x := m.lp.Amounts()
	for k := range m.b.p.want {
		if x[k] > 1e-7 && m.lp.Cost(k) < 10*float64(m.b.best)/sections.PerCM3 {
			m.lp.SetCost(k, 8*m.lp.Cost(k))
			pressed = true
		}
	}
	m.lp.Reprice()
	return pressed
}

// part says by which opening to part the node, and which of its chops go to one side; none
// where each has one only. The program uses an opening in part: best one that it half
// opens, else one that it crosscuts in several ways, parted at the length that it uses.
// Where it does neither, what it does goes to one side.
func (m *relaxation) part() (at int, some uint64) {
	x := m.lp.Amounts()
	best := -1.0
	for i := range m.b.openings {
		if bits.OnesCount64(m.n.allowed[i]) < 2 {
			continue
		}
		if score, side := m.side(i, x); score > best {
			at, some, best = i, side, score
		}
	}
	return at, some
}

// side returns how much it helps to part the node by opening i, and how to.
func (m *relaxation) side(i int, x []float64) (score float64, side uint64) {
	o, allowed := &m.b.openings[i], m.n.allowed[i]
	opened, used, most, top := 0.0, 0.0, 0.0, 0
	for c, column := range m.chops[i] {
		if column == 0 || !m.n.allows(i, c) {
			continue
		}
		opened, used = opened+x[column], used+x[column]*float64(o.chops[c].used)
		if x[column] > most {
			most, top = x[column], c
		}
	}
	scale := 1.0
	if o.stock >= 0 {
		scale = float64(m.b.p.t.stocks[o.stock].costs.All)
	}
	const whole = 1e-3
	if opened > whole && opened < 1-whole && m.n.allows(i, 0) {
		return scale * (1 + min(opened, 1-opened)), 1
	}
	for c := range o.chops {
		if float64(o.chops[c].used) < used+0.5 {
			side |= allowed & (1 << c)
		}
	}
	if most < 1-whole && side != 0 && side != allowed {
		return scale * (1 - most), side
	}
	if side = 1 << top; !m.n.allows(i, top) {
		side = allowed & -allowed
	}
	return scale * 1e-6, side
}
