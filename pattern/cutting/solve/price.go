package solve

import (
	"math"
	"slices"
	"sync/atomic"

	"example.com/oddments/pattern/length"
)

// A stopper says when to end.
type stopper struct{ flag *atomic.Bool }

func (s stopper) stopped() bool { return s.flag != nil && s.flag.Load() }

// A column is one way to use a piece of a stock, or, where stock is below 0, one way
// to hand out the ready strips of pool -1-stock.
type column struct {
	stock    int32
	take     take
	sections []int32 // places in the sections of the stock's cross
	cost     int64
	excess   int64 // what it costs above the best its stock could do, at some prices
}

// A pricer finds the columns of a stock that are worth most: the prices of their
// strips less their cost. It is used by one goroutine.
type pricer struct {
	t    *timber
	stop stopper
	// free leaves costs out: what counts is strips alone.
	free bool
	// nodes bounds the work on one stock, in sections chosen; 0: no bound.
	nodes int
	spent int // of it, in options looked at
	// relaxes says to bound also what stocks are worth whose cross is not whole;
	// it takes long.
	relaxes bool
	relax   relaxer

	bulk     []float64 // volume of each kind, the scale on which a section's worth is shared out
	theta    []float64
	left     []int32
	pack     packing
	scratch  take
	counts   []int32 // of the strips of each kind in scratch
	tallying tallying
	without  parts // that are left out

	hands *idleWorkers // that may help; nil: none
	mates []*pricer
}

func newPricer(t *timber, stop stopper) *pricer {
	p := &pricer{t: t, stop: stop, theta: make([]float64, len(t.kinds)), left: make([]int32, len(t.kinds)), counts: make([]int32, len(t.kinds))}
	p.relax.p = p
	order := make([]int32, 0, len(t.kinds))
	for i, k := range t.kinds {
		order = append(order, int32(i))
		p.bulk = append(p.bulk, max(1e-6, length.VolumeCM3(k.Length, k.Across, k.Sawn)))
	}
	p.tallying = newTallying(t.want, order)
	return p
}

// slackUnits keeps the float64 bounds on the far side of the whole numbers.
const slackUnits = 4

// unknown is what a column may be worth when nobody computed it.
const unknown = int64(1) << 61

// best returns the column of stock n worth most above floor at prices, with no more
// strips than left; nil where there is none. The bound is what no column exceeds:
// the best one's worth, or floor, or more where the work was cut short.
func (p *pricer) best(n int, prices []int64, left []int32, floor int64) (best *column, bound int64) {
	bound = floor
	cut := p.each(n, prices, left, floor+1, func(worth, cost int64, chosen []int32) int64 {
		best = &column{stock: int32(n), sections: slices.Clone(chosen), cost: cost}
		bound = max(bound, worth)
		return worth + 1
	})
	if best != nil {
		best.take = p.takeOf(n, best.sections)
	}
	return best, max(bound, cut)
}

func (p *pricer) takeOf(n int, chosen []int32) take { return slices.Clone(p.scratchOf(n, chosen)) }

// scratchOf returns the strips of the sections chosen, until it is asked again.
func (p *pricer) scratchOf(n int, chosen []int32) take {
	clear(p.counts)
	for _, s := range chosen {
		p.t.sections[p.t.stocks[n].cross][s].take.addTo(p.counts)
	}
	p.scratch = p.scratch[:0]
	for k, count := range p.counts {
		if count > 0 {
			p.scratch = append(p.scratch, part{int32(k), count})
		}
	}
	return p.scratch
}

// each tells found of the columns of stock n worth at least floor, not always each
// once; found returns the floor from there on. What each returns is what a column that was not looked
// at may be worth at most; MinInt64 where all were.
func (p *pricer) each(n int, prices []int64, left []int32, floor int64, found func(worth, cost int64, chosen []int32) int64) int64 {
	copy(p.left, left)
	p.spent = 0
	missed := int64(math.MinInt64)
	w := &packSearch{p: p, k: &p.pack, s: &p.t.stocks[n], floor: floor, found: found}
	w.sections = p.t.sections[w.s.cross]
	for _, keeps := range []bool{true, false} {
		if w.prepare(keeps, prices) && !w.through(0, 0, w.k.span, w.k.base, w.k.shared, p.tallying.left(p.left)) {
			missed = max(missed, int64(w.k.top())+slackUnits)
		}
	}
	if !p.t.whole[w.s.cross] {
		if !p.relaxes {
			return unknown
		}
		missed = max(missed, p.relax.worth(w.s, prices, left))
	}
	return missed
}

// scans is how many options are looked at, more or less, for each that is chosen.
const scans = 16

// countAndCheck counts an option looked at and reports whether the work must end.
func (p *pricer) countAndCheck() bool {
	p.spent++
	return p.nodes > 0 && p.spent > p.nodes*scans || p.spent%8192 == 0 && p.stop.stopped()
}

// credited returns what the leftovers of a section bring.
func (c *stockCosts) credited(s *section) int64 { return int64(s.credit*c.credit + 0.5) }

// cost returns what a piece of s costs when it is cut into these sections.
func (t *timber) cost(s *stock, chosen []int32) int64 {
	var used length.Length
	sum := int64(0)
	for _, n := range chosen {
		sec := &t.sections[s.cross][n]
		used += s.costs.steps[sec.along]
		sum += s.costs.along[sec.along] - s.costs.credited(sec)
	}
	if used <= s.costs.keeping {
		return s.costs.open + sum
	}
	for _, n := range chosen {
		sum -= s.costs.along[t.sections[s.cross][n].along]
	}
	return s.costs.all + sum
}
