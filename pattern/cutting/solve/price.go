package solve

import (
	"math"
	"slices"

	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
)

// A column is one way to use a piece of a stock, or, where stock is below 0, one way
// to hand out the ready strips of pool -1-stock, or behind the pools the way of one strip
// of a group.
type column struct {
	stock    int32
	take     sections.Take
	sections []int32 // places in the sections of the stock's cross
	cost     int64
	way      int32 // of a strip in a group
	short    int32 // that strip is short
	excess   int64 // what it costs above the best its stock could do, at some prices
}

// A pricer finds the columns of a stock that are worth most: the prices of their
// strips less their cost. It is used by one goroutine.
type pricer struct {
	t      *timber
	budget // of the stock that is worked on
	// free leaves costs out: what counts is strips alone.
	free bool
	// nodes bounds the work on one stock, in sections chosen; 0: no bound.
	nodes int
	// relaxes says to bound also what stocks are worth whose cross is not whole;
	// it takes long.
	relaxes bool
	relax   sections.Relaxer

	bulk     []float64 // volume of each kind, the scale on which a section's worth is shared out
	theta    []float64
	left     []int32
	pack     packing
	scratch  sections.Take
	counts   []int32 // of the strips of each kind in scratch
	tallying sections.Tallying
	without  parts // that are left out

	idle  *idleWorkers // that may help; nil: none
	mates []*pricer
}

func newPricer(t *timber, stop sections.Stopper) *pricer {
	p := &pricer{t: t, budget: budget{stop: stop}, theta: make([]float64, len(t.Kinds)), left: make([]int32, len(t.Kinds)), counts: make([]int32, len(t.Kinds))}
	p.tallying = sections.NewTallying(t.Want)
	for _, k := range t.Kinds {
		p.bulk = append(p.bulk, max(1e-6, length.VolumeCM3(k.Length, k.Across, k.Sawn)))
	}
	return p
}

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

func (p *pricer) takeOf(n int, chosen []int32) sections.Take {
	return slices.Clone(p.scratchOf(n, chosen))
}

// scratchOf returns the strips of the sections chosen, until it is asked again.
func (p *pricer) scratchOf(n int, chosen []int32) sections.Take {
	clear(p.counts)
	for _, s := range chosen {
		p.t.Sections[p.t.stocks[n].cross][s].Take.AddTo(p.counts)
	}
	p.scratch = p.scratch[:0]
	for k, count := range p.counts {
		if count > 0 {
			p.scratch = append(p.scratch, sections.Part{Kind: int32(k), Count: count})
		}
	}
	return p.scratch
}

// each tells found of the columns of stock n worth at least floor, not always each
// once; found returns the floor from there on. What each returns is what a column that was not looked
// at may be worth at most; MinInt64 where all were.
func (p *pricer) each(n int, prices []int64, left []int32, floor int64, found func(worth, cost int64, chosen []int32) int64) int64 {
	copy(p.left, left)
	p.steps = math.MaxInt
	if p.nodes > 0 {
		p.steps = p.nodes * scans
	}
	missed := int64(math.MinInt64)
	w := &packSearch{p: p, k: &p.pack, s: &p.t.stocks[n], floor: floor, found: found}
	w.sections = p.t.Sections[w.s.cross]
	for _, keeps := range []bool{true, false} {
		if w.prepare(keeps, prices) && !w.through(0, 0, w.k.span, w.k.base, w.k.shared, p.tallying.Left(p.left)) {
			missed = max(missed, int64(w.k.top())+sections.SlackUnits)
		}
	}
	if !p.t.Whole[w.s.cross] {
		if !p.relaxes {
			return unknown
		}
		missed = max(missed, p.relax.Worth(&p.t.Catalogue, w.s.cross, &w.s.costs, p.free, prices, left))
	}
	return missed
}

// scans is how many options are looked at, more or less, for each that is chosen.
const scans = 16
