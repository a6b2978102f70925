package solve

import (
	"cmp"
	"math"
	"slices"

	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
)

// A packSearch goes through the packings of a stock: its pieces that keep their tails, or those
// that do not, filled with sections one after another.
type packSearch struct {
	p        *pricer
	k        *packing
	s        *stock
	sections []sections.Section
	floor    int64 // what a packing must be worth
	found    func(worth, cost int64, chosen []int32) int64
	chosen   []int32
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
	ranks   []rank
	lengthBound
}

// An option is a section with its worth in a packing.
type option struct {
	section int32
	step    length.Length
	worth   int64
	adds    [2]float64 // to either bound: its worth above the share of its strips
	tally   sections.Tally
}

// lengthCells is into how many steps the room along a piece is parted for a bound on
// what still fits. Lengths are rounded down to steps, so that it stays one.
const lengthCells = 512

// A lengthBound bounds a packing more closely than its rates do, which count every remnant of
// the length as if it could be used: for each room that is left it knows what sections
// of whole lengths may still add. Options of one length stand together.
//
// Why that is a bound: a packing is worth its base and the sum of its options' worth. Let
// each strip have a share, not below 0, and let what is left to take pay its share first:
// then the base and all shares, and for each option its worth less its strips' shares, is
// no less than the worth, since no kind is taken more often than is left. An option of a
// length adds no more than the best of that length does, as often as the length fits: the
// tables are the most of that for so much room, an unbounded knapsack. Rooms are rounded
// down to cells and so are lengths, which never makes fewer of them fit. Options chosen
// later come from the same group or from those after it, and a table counts just these.
type lengthBound struct {
	cell   length.Length
	groups []lengthGroup
	shared [2]float64 // what a packing without sections is worth, and the share of all strips
}

// A lengthGroup is a packing's options of one length.
type lengthGroup struct {
	step    length.Length
	options []option     // those that add most come first
	most    [2][]float64 // of each number of cells of room: what this group and those after it may add
}

// prepare sets the packing up; false says that nothing in it reaches the floor. An option
// that alone brings a bound below the floor is in no packing that reaches it: with the
// option chosen, the bound is what it is at the root less what the option falls behind it.
func (w *packSearch) prepare(keeps bool, prices []int64) bool {
	p, k, costs := w.p, w.k, &w.s.costs
	k.keeps, k.base, k.span = keeps, -costs.All, costs.Span
	if p.free {
		k.base = 0
		if keeps {
			return false
		}
	} else if keeps {
		k.base, k.span = -costs.Open, costs.Keeping
	}
	k.options = k.options[:0]
	rate := 0.0
	for i, sec := range w.sections {
		step := costs.Steps[sec.Along]
		if step > k.span || !sec.Take.Within(p.left) {
			continue
		}
		worth := sec.Take.Worth(prices)
		if !p.free {
			worth += costs.Credited(&sec)
			if keeps {
				worth -= costs.Along[sec.Along]
			}
		}
		rate = max(rate, float64(worth)/float64(step))
		k.options = append(k.options, option{section: int32(i), step: step, worth: worth})
	}
	floor := float64(w.floor)
	if len(k.options) == 0 || float64(k.base)+rate*float64(k.span)+sections.SlackUnits < floor {
		return false
	}
	if w.bound(rate); min(k.root[0], k.root[1])+sections.SlackUnits < floor {
		return false
	}
	k.options = slices.DeleteFunc(k.options, func(o option) bool {
		step := float64(o.step)
		return min(k.root[0]-k.rate[0]*step+o.adds[0], k.root[1]-k.rate[1]*step+o.adds[1])+sections.SlackUnits < floor
	})
	w.arrange()
	return len(k.options) > 0
}

// rates are the shares of the highest worth a length that are tried as the price of
// length in a bound; the rest of each section's worth is laid on its strips.
var rates = [...]float64{1, 0.9, 0.75, 0.5, 0.25, 0}

// bound finds the two tightest upper bounds on what k is worth.
//
// At a rate a length, a share of each strip is laid down so that no option is worth more
// than its length at the rate and its strips' shares. Then a packing, which takes no more
// length than there is and no kind more often than is left, is worth at most its base, all
// the length at the rate and all strips left at their shares. With an option chosen the bound
// falls by what its length and strips come to above its worth, which is not below 0.
func (w *packSearch) bound(top float64) {
	p, k := w.p, w.k
	for i := range k.share {
		if k.share[i] == nil {
			k.share[i] = make([]float64, len(p.t.Kinds))
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
			for _, q := range w.sections[o.section].Take {
				bulk += float64(q.Count) * p.bulk[q.Kind]
			}
			rest /= bulk
			for _, q := range w.sections[o.section].Take {
				p.theta[q.Kind] = max(p.theta[q.Kind], rest)
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
		for b := range o.adds {
			o.adds[b] = float64(o.worth)
			for _, q := range w.sections[o.section].Take {
				o.adds[b] -= float64(q.Count) * k.share[b][q.Kind]
			}
		}
	}
}

// arrange groups the options, and makes the tables.
func (w *packSearch) arrange() {
	k := w.k
	groups := k.groups[:0]
	for _, first := range k.mostFirst() {
		o := &k.options[first.option]
		at := slices.IndexFunc(groups, func(g lengthGroup) bool { return g.step == o.step })
		if at < 0 {
			at = len(groups)
			groups = slices.Grow(groups, 1)[:at+1]
			groups[at].step, groups[at].options = o.step, groups[at].options[:0]
		}
		o.tally = w.p.tallying.Of(w.sections[o.section].Take)
		groups[at].options = append(groups[at].options, *o)
	}
	slices.SortFunc(groups, func(a, b lengthGroup) int { return cmp.Compare(b.step, a.step) })
	k.groups, k.cell = groups, max(1, k.span/lengthCells)
	cells := int(k.span/k.cell) + 1
	for i := len(groups) - 1; i >= 0; i-- {
		g := &groups[i]
		for b := range g.most {
			table := slices.Grow(g.most[b][:0], cells)[:cells]
			clear(table)
			if i+1 < len(groups) {
				copy(table, groups[i+1].most[b])
			}
			best := 0.0
			for _, o := range g.options {
				best = max(best, o.adds[b])
			}
			step := int(g.step / k.cell)
			for c := step; best > 0 && c < cells; c++ {
				table[c] = max(table[c], table[c-step]+best)
			}
			g.most[b] = table
		}
	}
	for b := range k.shared {
		k.shared[b] = k.root[b] - k.rate[b]*float64(k.span)
	}
}

// A rank is an option with what it is put in order by.
type rank struct {
	adds   float64
	option int32
}

// mostFirst returns the options in the order of what they add, alike ones as they stand.
func (k *packing) mostFirst() []rank {
	k.ranks = k.ranks[:0]
	for i := range k.options {
		k.ranks = append(k.ranks, rank{k.options[i].adds[0], int32(i)})
	}
	slices.SortFunc(k.ranks, func(a, b rank) int {
		switch {
		case a.adds > b.adds:
			return -1
		case a.adds < b.adds:
			return 1
		default:
			return int(a.option - b.option)
		}
	})
	return k.ranks
}

// top bounds what the whole packing is worth.
func (k *packing) top() float64 {
	c := int(k.span / k.cell)
	return min(k.shared[0]+k.groups[0].most[0][c], k.shared[1]+k.groups[0].most[1][c])
}

// through adds each option from the i-th of group g on to what is chosen; sum is what
// that comes to in either bound, without the room. It gives false when the work was
// cut short.
func (w *packSearch) through(g, i int, room length.Length, worth int64, sum [2]float64, left sections.Tally) bool {
	p, k := w.p, w.k
	guard, whole := p.tallying.Guard, p.tallying.Whole
	for ; g < len(k.groups); g, i = g+1, 0 {
		group := &k.groups[g]
		if group.step > room {
			continue
		}
		c := int((room - group.step) / k.cell)
		rest := [2]float64{sum[0] + group.most[0][c] + sections.SlackUnits, sum[1] + group.most[1][c] + sections.SlackUnits}
		for ; i < len(group.options); i++ {
			o := &group.options[i]
			if p.spend() {
				return false
			}
			if rest[0]+o.adds[0] < float64(w.floor) {
				break
			}
			if rest[1]+o.adds[1] < float64(w.floor) {
				continue
			}
			less, ok := left.Less(o.tally, guard)
			if !ok || !whole && !w.sections[o.section].Take.Within(p.left) {
				continue
			}
			if !whole {
				w.sections[o.section].Take.SubtractFrom(p.left)
			}
			w.chosen = append(w.chosen, o.section)
			now := worth + o.worth
			if now >= w.floor {
				w.tell(room-group.step, now)
			}
			ok = w.through(g, i, room-group.step, now, [2]float64{sum[0] + o.adds[0], sum[1] + o.adds[1]}, less)
			w.chosen = w.chosen[:len(w.chosen)-1]
			if !whole {
				w.sections[o.section].Take.AddTo(p.left)
			}
			if !ok {
				return false
			}
		}
	}
	return true
}

// tell hands a column over. One that keeps its tail is found in the packing for it.
func (w *packSearch) tell(room length.Length, worth int64) {
	switch {
	case w.p.free:
		w.floor = w.found(worth, 0, w.chosen)
	case w.k.keeps || w.k.span-room > w.s.costs.Keeping:
		w.floor = w.found(worth, w.s.costs.Cost(w.p.t.Sections[w.s.cross], w.chosen), w.chosen)
	}
}
