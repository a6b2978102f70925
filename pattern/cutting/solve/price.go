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

	bulk  []float64 // volume of each kind, the scale on which a section's worth is shared out
	theta []float64
	left  []int32
	packs [2]packing
	// keys and sorted are there to sort options.
	keys   []uint64
	sorted []option
	// scratch holds a take, counts the strips of each kind in it.
	scratch take
	counts  []int32
	rooms   rooms
	relax   relaxer
	// relaxes says to bound also what stocks are worth whose cross is not whole;
	// it takes long.
	relaxes bool
	spent   int
	pace

	tallying tallying
	// once says that the floor does not move, and that of packings with the same
	// strips only the best need be told.
	once     bool
	spreader spreader

	hands *idleWorkers // that may help; nil: none
	mates []*pricer
}

// A pace says how a pricer goes through the packings of a stock.
type pace struct {
	easy    int   // options looked at before tables of rooms are made
	long    int   // and after that before alike packings are told apart
	without parts // that are left out
}

func newPricer(t *timber, stop stopper) *pricer {
	p := &pricer{t: t, stop: stop, pace: pace{easy: easy, long: long}, theta: make([]float64, len(t.kinds)), left: make([]int32, len(t.kinds)), counts: make([]int32, len(t.kinds))}
	p.relax.p = p
	order := make([]int32, 0, len(t.kinds))
	for i, k := range t.kinds {
		order = append(order, int32(i))
		p.bulk = append(p.bulk, max(1e-6, length.VolumeCM3(k.Length, k.Across, k.Sawn)))
	}
	p.tallying = newTallying(t.want, order)
	return p
}

// A packing is the choice of sections for a piece whose tail goes back, or for one
// whose tail does not.
type packing struct {
	keeps   bool
	span    length.Length
	base    int64 // worth of the piece before its sections
	options []option
	share   [2][]float64 // upper bounds: at most length times rate, and share for each strip
	rate    [2]float64
	root    [2]float64
}

// An option is a section with its worth in a packing.
type option struct {
	section int32
	step    length.Length
	worth   int64
	over    [2]float64 // how far it falls behind either bound
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
		p.t.sections[p.t.stocks[n].cross][s].take.back(p.counts)
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
// once, and with once set perhaps only the best of those with the same strips; found gives the floor from there on. What it gives back is what a column
// that was not looked at may be worth at most; MinInt64 where all were.
func (p *pricer) each(n int, prices []int64, left []int32, floor int64, found func(worth, cost int64, chosen []int32) int64) int64 {
	copy(p.left, left)
	p.spent = 0
	missed := int64(math.MinInt64)
	w := &walk{p: p, n: n, floor: floor, found: found}
	for i := range p.packs {
		k := &p.packs[i]
		if !p.prepare(k, n, i == 0, prices, floor) {
			continue
		}
		w.k = k
		w.limit = p.spent + p.easy
		if w.from(0, k.span, k.base, k.root) {
			continue
		}
		top := min(k.root[0], k.root[1])
		if !p.overBudget() && p.without&roomTables == 0 {
			p.rooms.arrange(k, p.t.sections[p.t.stocks[n].cross], &p.tallying)
			if top = min(top, p.rooms.top(k.span)); w.all() {
				continue
			}
		}
		missed = max(missed, int64(top)+slackUnits)
	}
	if s := &p.t.stocks[n]; !p.t.whole[s.cross] {
		if !p.relaxes {
			return unknown
		}
		missed = max(missed, p.relax.worth(s, prices, left))
	}
	return missed
}

// prepare sets k up; false says that nothing in it reaches floor. An option that alone
// brings a bound below the floor is in no packing that reaches it: with the option chosen,
// the bound is what it is at the root less what the option falls behind it.
func (p *pricer) prepare(k *packing, n int, keeps bool, prices []int64, floor int64) bool {
	s := &p.t.stocks[n]
	k.keeps, k.base, k.span = keeps, -s.costs.all, s.costs.span
	if p.free {
		k.base = 0
		if keeps {
			return false
		}
	} else if keeps {
		k.base, k.span = -s.costs.open, s.costs.keeping
	}
	k.options = k.options[:0]
	rate := 0.0
	for i, sec := range p.t.sections[s.cross] {
		step := s.costs.steps[sec.along]
		if step > k.span || !sec.take.within(p.left) {
			continue
		}
		worth := sec.take.worth(prices)
		if !p.free {
			worth += s.costs.credited(&sec)
			if keeps {
				worth -= s.costs.along[sec.along]
			}
		}
		rate = max(rate, float64(worth)/float64(step))
		k.options = append(k.options, option{section: int32(i), step: step, worth: worth})
	}
	if len(k.options) == 0 || float64(k.base)+rate*float64(k.span)+slackUnits < float64(floor) {
		return false
	}
	p.bound(k, n, rate)
	if min(k.root[0], k.root[1])+slackUnits < float64(floor) {
		return false
	}
	options := k.options[:0]
	for _, o := range k.options {
		if k.root[0]-o.over[0]+slackUnits >= float64(floor) && k.root[1]-o.over[1]+slackUnits >= float64(floor) {
			options = append(options, o)
		}
	}
	k.options = options
	p.sort(k)
	return len(k.options) > 0
}

// keyBits is how many of the last bits of a key to sort by say which option it is of:
// more than a cross may have sections.
const keyBits = 20

// sort puts the options of k in the order in which they fall behind the first bound,
// alike ones as they stand. How far they do is rounded down a little for that, which
// leaves the bound one.
func (p *pricer) sort(k *packing) {
	p.keys = p.keys[:0]
	for i := range k.options {
		o := &k.options[i]
		key := math.Float64bits(o.over[0])
		if key>>63 == 0 {
			key |= 1 << 63
		} else {
			key = ^key
		}
		if key &^= 1<<keyBits - 1; key>>63 == 1 {
			o.over[0] = math.Float64frombits(key &^ (1 << 63))
		} else {
			o.over[0] = math.Float64frombits(^key)
		}
		p.keys = append(p.keys, key|uint64(uint32(i)))
	}
	slices.Sort(p.keys)
	p.sorted = p.sorted[:0]
	for _, key := range p.keys {
		p.sorted = append(p.sorted, k.options[key&(1<<keyBits-1)])
	}
	k.options, p.sorted = p.sorted, k.options
}

// rates are the shares of the highest worth a length that are tried as the price of
// length in a bound; the rest of each section's worth is laid on its strips.
var rates = [...]float64{1, 0.9, 0.75, 0.5, 0.25, 0}

// bound finds the two tightest upper bounds on what k is worth.
//
// At a rate a length, a share of each strip is laid down so that no option is worth more
// than its length at the rate and its strips' shares. Then a packing, which takes no more
// length than there is and no kind more often than is left, is worth at most its base, all
// the length at the rate and all strips left at their shares. An option falls behind by
// what its own length and strips come to above its worth, which is not below 0, so the
// bound falls by that with each option chosen.
func (p *pricer) bound(k *packing, n int, top float64) {
	sections := p.t.sections[p.t.stocks[n].cross]
	for i := range k.share {
		if k.share[i] == nil {
			k.share[i] = make([]float64, len(p.t.kinds))
		}
		k.root[i] = math.Inf(1)
	}
	for _, r := range rates {
		rate := r * top
		clear(p.theta)
		for _, o := range k.options {
			rest := float64(o.worth) - rate*float64(o.step)
			if rest <= 0 {
				continue
			}
			bulk := 0.0
			for _, q := range sections[o.section].take {
				bulk += float64(q.count) * p.bulk[q.kind]
			}
			rest /= bulk
			for _, q := range sections[o.section].take {
				p.theta[q.kind] = max(p.theta[q.kind], rest)
			}
		}
		root := float64(k.base) + rate*float64(k.span)
		for i, theta := range p.theta {
			root += float64(p.left[i]) * theta * p.bulk[i]
		}
		at := 0
		if k.root[0] <= root {
			at = 1
		} else {
			k.root[1], k.rate[1] = k.root[0], k.rate[0]
			k.share[0], k.share[1] = k.share[1], k.share[0]
		}
		if root < k.root[at] {
			k.root[at], k.rate[at] = root, rate
			for i, theta := range p.theta {
				k.share[at][i] = theta * p.bulk[i]
			}
		}
	}
	for i := range k.options {
		o := &k.options[i]
		for b := range o.over {
			o.over[b] = k.rate[b]*float64(o.step) - float64(o.worth)
			for _, q := range sections[o.section].take {
				o.over[b] += float64(q.count) * k.share[b][q.kind]
			}
		}
	}
}

// A walk chooses sections one after another.
type walk struct {
	p      *pricer
	k      *packing
	n      int
	floor  int64
	limit  int // of what the pricer may have spent
	found  func(worth, cost int64, chosen []int32) int64
	chosen []int32
}

// scans is how many options are looked at, more or less, for each that is chosen.
const scans = 16

// from adds each option from the i-th on to what is chosen; top is what either
// bound still allows. It gives false when the work was cut short.
func (w *walk) from(i int, room length.Length, worth int64, top [2]float64) bool {
	p, k := w.p, w.k
	sections := p.t.sections[p.t.stocks[w.n].cross]
	for ; i < len(k.options); i++ {
		o := &k.options[i]
		if p.countAndCheck() || p.spent > w.limit {
			return false
		}
		if top[0]-o.over[0]+slackUnits < float64(w.floor) {
			return true
		}
		if o.step > room || top[1]-o.over[1]+slackUnits < float64(w.floor) || !sections[o.section].take.within(p.left) {
			continue
		}
		sections[o.section].take.from(p.left)
		w.chosen = append(w.chosen, o.section)
		now := worth + o.worth
		if now >= w.floor {
			w.tell(room-o.step, now)
		}
		ok := w.from(i, room-o.step, now, [2]float64{top[0] - o.over[0], top[1] - o.over[1]})
		w.chosen = w.chosen[:len(w.chosen)-1]
		sections[o.section].take.back(p.left)
		if !ok {
			return false
		}
	}
	return true
}

// overBudget reports whether the work on a stock must end.
func (p *pricer) overBudget() bool {
	return p.nodes > 0 && p.spent > p.nodes*scans || p.stop.stopped()
}

// countAndCheck counts an option looked at and reports whether the work must end.
func (p *pricer) countAndCheck() bool {
	p.spent++
	return p.nodes > 0 && p.spent > p.nodes*scans || p.spent%8192 == 0 && p.stop.stopped()
}

// tell hands a column over. One that keeps its tail is found in the packing for it.
func (w *walk) tell(room length.Length, worth int64) {
	s := &w.p.t.stocks[w.n]
	if w.p.free {
		w.floor = w.found(worth, 0, w.chosen)
		return
	}
	if !w.k.keeps && w.k.span-room <= s.costs.keeping {
		return
	}
	w.floor = w.found(worth, w.p.t.cost(s, w.chosen), w.chosen)
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
