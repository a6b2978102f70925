package solve

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern/length"
)

// roomCells is into how many steps the room along a piece is parted for a bound on
// what still fits. Lengths are rounded down to steps, so that it stays one.
const roomCells = 512

// easy is how many options are looked at before the tables of rooms are worth making.
const easy = 8192

// rooms bounds a packing more closely than its rates do, which count every remnant of
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
type rooms struct {
	cell   length.Length
	groups []roomGroup
	base   [2]float64 // what a packing without sections is worth, and the share of all strips
}

// A roomGroup is a packing's options of one length.
type roomGroup struct {
	step    length.Length
	options []roomOption // those that add most come first
	most    [2][]float64 // of each number of cells of room: what this group and those after it may add
}

// A roomOption is an option with what it adds to either bound: its worth above the
// share of its strips.
type roomOption struct {
	adds    [2]float64
	tally   tally
	worth   int64
	section int32
}

// arrange makes the tables of k, for sections of its stock.
func (r *rooms) arrange(k *packing, sections []section, tallies *tallying) {
	r.cell = max(1, k.span/roomCells)
	groups := r.groups[:0]
	for _, o := range k.options {
		at := slices.IndexFunc(groups, func(g roomGroup) bool { return g.step == o.step })
		if at < 0 {
			at = len(groups)
			if groups = slices.Grow(groups, 1)[:at+1]; groups[at].options != nil {
				groups[at].options = groups[at].options[:0]
			}
			groups[at].step = o.step
		}
		option := roomOption{section: o.section, worth: o.worth, tally: tallies.of(sections[o.section].take)}
		for b := range option.adds {
			option.adds[b] = k.rate[b]*float64(o.step) - o.over[b]
		}
		groups[at].options = append(groups[at].options, option)
	}
	slices.SortFunc(groups, func(a, b roomGroup) int { return cmp.Compare(b.step, a.step) })
	for i := range groups {
		slices.SortFunc(groups[i].options, func(a, b roomOption) int {
			return cmp.Or(cmp.Compare(b.adds[0], a.adds[0]), cmp.Compare(a.section, b.section))
		})
	}
	r.groups = groups
	cells := int(k.span/r.cell) + 1
	for b := range r.base {
		r.base[b] = k.root[b] - k.rate[b]*float64(k.span)
		for i := len(groups) - 1; i >= 0; i-- {
			g := &groups[i]
			table := slices.Grow(g.most[b][:0], cells)[:cells]
			if i == len(groups)-1 {
				clear(table)
			} else {
				copy(table, groups[i+1].most[b])
			}
			best := 0.0
			for _, o := range g.options {
				best = max(best, o.adds[b])
			}
			step := int(g.step / r.cell)
			for c := step; best > 0 && c < cells; c++ {
				table[c] = max(table[c], table[c-step]+best)
			}
			g.most[b] = table
		}
	}
}

// top bounds what the whole packing is worth.
func (r *rooms) top(span length.Length) float64 {
	c := int(span / r.cell)
	return min(r.base[0]+r.groups[0].most[0][c], r.base[1]+r.groups[0].most[1][c])
}

// through adds each option from the i-th of group g on to what is chosen; sum is what
// that comes to in either bound, without the room. It gives false when the work was
// cut short.
func (w *walk) through(g, i int, room length.Length, worth int64, sum [2]float64, left tally) bool {
	p, r := w.p, &w.p.rooms
	guard, whole := p.tallying.guard, p.tallying.whole
	sections := p.t.sections[p.t.stocks[w.n].cross]
	for ; g < len(r.groups); g, i = g+1, 0 {
		group := &r.groups[g]
		if group.step > room {
			continue
		}
		c := int((room - group.step) / r.cell)
		rest := [2]float64{sum[0] + group.most[0][c] + slackUnits, sum[1] + group.most[1][c] + slackUnits}
		for ; i < len(group.options); i++ {
			o := &group.options[i]
			if p.countAndCheck() || p.spent > w.limit {
				return false
			}
			if rest[0]+o.adds[0] < float64(w.floor) {
				break
			}
			if rest[1]+o.adds[1] < float64(w.floor) {
				continue
			}
			less, ok := left.less(o.tally, guard)
			if !ok || !whole && !sections[o.section].take.within(p.left) {
				continue
			}
			if !whole {
				sections[o.section].take.from(p.left)
			}
			w.chosen = append(w.chosen, o.section)
			now := worth + o.worth
			if now >= w.floor {
				w.tell(room-group.step, now)
			}
			ok = w.through(g, i, room-group.step, now, [2]float64{sum[0] + o.adds[0], sum[1] + o.adds[1]}, less)
			w.chosen = w.chosen[:len(w.chosen)-1]
			if !whole {
				sections[o.section].take.back(p.left)
			}
			if !ok {
				return false
			}
		}
	}
	return true
}
