package solve

import (
	"cmp"
	"math/bits"
	"slices"

	"example.com/oddments/pattern/cutting/solve/sections"
)

// A filling is one cut of a slot that may be part of a solution.
type filling struct {
	tally  sections.Tally
	excess int64 // what it is worth less than the best cut of its slot
	cut    int32 // below 0: the section is left empty
}

// mostPartials bounds the partial fillings held at once: some 150 MB.
const mostPartials = 1 << 22

// A partial is a filling of some sections, the best of those that leave the same strips.
type partial struct {
	left   sections.Tally
	worth  int64 // less by the excess of its cuts
	parent int32 // the partial it was made from; -1: none
	cut    int32 // that was added to it
}

// partials holds them, section after section.
type partials struct {
	all []partial
	at  map[sections.Tally]int32 // places in all of those of the latest section
}

// start begins with the next section.
func (s *partials) start() {
	if s.at == nil {
		s.at = map[sections.Tally]int32{}
	}
	clear(s.at)
}

// add keeps x unless there is one as good.
func (s *partials) add(x partial) {
	n, known := s.at[x.left]
	if !known {
		s.at[x.left] = int32(len(s.all))
		s.all = append(s.all, x)
	} else if x.worth > s.all[n].worth {
		s.all[n] = x
	}
}

// A filler fills given sections with just the strips wanted.
//
// What a solution of a node costs beyond the node's bound is the excess of its cuts, taken
// together, where each opening has one chop. So cuts with more excess than the best
// solution leaves room for are not needed.
type filler struct {
	b        *brancher
	n        *node
	tallying sections.Tallying
	top      []int64          // of each slot
	slots    []int32          // of each section to be filled, alike ones together
	lists    [][]filling      // of each section, those of least excess first
	room     []sections.Tally // of each section: what it and those after it can take of each kind
	partials partials
}

// fill searches a node, each of whose openings has one chop, for the best solution. Excess
// is allowed little by little, so that the lists stay short. It returns false where that
// took too long.
func (b *brancher) fill(n *node) bool {
	m := b.bare(n)
	m.price(n.prices)
	bound, _ := m.bound(n.prices)
	f := &filler{b: b, n: n, top: m.top, tallying: sections.NewTallying(b.p.want)}
	for i, o := range b.openings {
		for a, count := range o.chops[n.chop(i)].counts {
			for range count {
				f.slots = append(f.slots, o.slots[a])
			}
		}
	}
	most := b.best - 1 - bound
	for allowance := most / 1024; ; allowance = 2*allowance + 1 {
		allowance = min(allowance, most)
		done, found := f.within(allowance)
		if !done || found || allowance == most {
			return done
		}
		n.bound = max(n.bound, bound+allowance+1)
	}
}

// chop returns the one chop that opening i has.
func (n *node) chop(i int) int { return bits.TrailingZeros64(n.allowed[i]) }

// within looks for the best solution within allowance of the node's bound.
func (f *filler) within(allowance int64) (done, found bool) {
	if len(f.slots) == 0 {
		return true, false
	}
	lists := map[int32][]filling{}
	for _, s := range f.slots {
		if lists[s] == nil {
			lists[s] = f.list(s, allowance)
		}
	}
	slices.SortStableFunc(f.slots, func(x, y int32) int {
		return cmp.Or(cmp.Compare(len(lists[x]), len(lists[y])), cmp.Compare(x, y))
	})
	f.lists, f.room = f.lists[:0], make([]sections.Tally, len(f.slots))
	for _, s := range f.slots {
		f.lists = append(f.lists, lists[s])
	}
	kinds := len(f.b.p.want)
	room := make([]int32, kinds)
	for i := len(f.slots) - 1; i >= 0; i-- {
		most := make([]int32, kinds)
		for _, c := range f.lists[i] {
			if c.cut >= 0 {
				for k, count := range f.b.slots[f.slots[i]].of(int(c.cut), kinds) {
					most[k] = max(most[k], count)
				}
			}
		}
		for k := range room {
			room[k] = min(room[k]+most[k], f.b.p.want[k])
		}
		f.room[i] = f.tallying.Left(room)
	}
	return f.run(allowance)
}

// list lists the cuts of slot s within allowance of the best, leaving it empty among them
// where that may be.
func (f *filler) list(s int32, allowance int64) []filling {
	sl := &f.b.slots[s]
	list := []filling{}
	if !sl.must && f.top[s] <= allowance {
		list = append(list, filling{excess: f.top[s], cut: -1})
	}
	for c := range sl.worth {
		if excess := f.top[s] - sl.at(c, f.n.prices); excess <= allowance {
			list = append(list, filling{f.tallying.Counted(sl.of(c, len(f.n.prices))), excess, int32(c)})
		}
	}
	slices.SortFunc(list, func(x, y filling) int { return cmp.Or(cmp.Compare(x.excess, y.excess), cmp.Compare(x.cut, y.cut)) })
	return list
}

// run goes from section to section. Of partial fillings that leave the same strips it goes
// on from the one with least excess: whatever completes another completes that one too, at
// no more. Alike sections may be filled in the order of their cuts' excess, and then the
// next of so many takes at most its share of the excess that is left: no more is tried.
func (f *filler) run(allowance int64) (done, found bool) {
	sp := &f.partials
	sp.all = append(sp.all[:0], partial{left: f.tallying.Left(f.b.p.want), parent: -1})
	from := 0
	for i := range len(f.slots) - min(2, len(f.slots)) {
		alike := int64(0)
		for _, s := range f.slots[i:] {
			if s == f.slots[i] {
				alike++
			}
		}
		to := len(sp.all)
		sp.start()
		for n := from; n < to; n++ {
			at := sp.all[n]
			for j := range f.lists[i] {
				c := &f.lists[i][j]
				if c.excess > (allowance+at.worth)/alike {
					break
				}
				if f.over() {
					return false, false
				}
				left, ok := at.left.Less(c.tally, f.tallying.Guard)
				if ok && f.fits(i+1, left) {
					sp.add(partial{left: left, worth: at.worth - c.excess, parent: int32(n), cut: c.cut})
				}
			}
		}
		from = to
	}
	return f.end(from, allowance)
}

// over counts a step and reports whether the work must end.
func (f *filler) over() bool {
	return f.b.spend() || len(f.partials.all) > mostPartials
}

// end fills the last two sections, or the only one, for each partial filling from on: each
// cut of the one is tried, and that of the last looked up.
func (f *filler) end(from int, allowance int64) (done, found bool) {
	last := len(f.slots) - 1
	index := make(map[sections.Tally]int32, len(f.lists[last])) // of each set of strips: the cut with least excess, counted from 1
	for i, c := range f.lists[last] {
		if index[c.tally] == 0 {
			index[c.tally] = int32(i) + 1
		}
	}
	before := []filling{{}}
	if last > 0 {
		before = f.lists[last-1]
	}
	for n := from; n < len(f.partials.all); n++ {
		at := &f.partials.all[n]
		for i := range before {
			c := &before[i]
			if c.excess > allowance+at.worth {
				break
			}
			if f.over() {
				return false, found
			}
			left, ok := at.left.Less(c.tally, f.tallying.Guard)
			if !ok || !f.fits(last, left) {
				continue
			}
			other := index[f.unguarded(left)]
			if other == 0 {
				continue
			}
			end := &f.lists[last][other-1]
			if excess := c.excess + end.excess - at.worth; excess <= allowance {
				allowance, found = excess-1, true
				cuts := []int32{c.cut, end.cut}
				if last == 0 {
					cuts = cuts[1:]
				}
				f.found(int32(n), cuts...)
			}
		}
	}
	return true, found
}

// unguarded returns what is left without the guards.
func (f *filler) unguarded(left sections.Tally) sections.Tally {
	return sections.Tally{left[0] &^ f.tallying.Guard[0], left[1] &^ f.tallying.Guard[1]}
}

// fits reports whether the sections from the i-th on can take what is left of each kind.
func (f *filler) fits(i int, left sections.Tally) bool {
	_, ok := f.room[i].Less(f.unguarded(left), f.tallying.Guard)
	return ok
}

// found hands over a filling: partial n, and the cuts of the last sections.
func (f *filler) found(n int32, last ...int32) {
	if s := f.solution(n, last); f.b.value(s) < f.b.best {
		f.b.best = f.b.value(s)
		f.b.take(s)
	}
}

// value returns what a solution costs, fines included.
func (b *brancher) value(s *solution) int64 { return s.cost + b.fine*int64(s.missing) }

// solution writes down a filling.
func (f *filler) solution(n int32, last []int32) *solution {
	cuts := map[int32][]int32{} // of each slot
	at := len(f.slots) - len(last)
	for i, cut := range last {
		cuts[f.slots[at+i]] = append(cuts[f.slots[at+i]], cut)
	}
	for at--; at >= 0; at-- {
		p := &f.partials.all[n]
		cuts[f.slots[at]] = append(cuts[f.slots[at]], p.cut)
		n = p.parent
	}
	s := &solution{short: make([]int32, len(f.b.p.want))}
	for i := range f.b.openings {
		f.write(s, i, cuts)
	}
	return s
}

// write puts opening i into a solution, and takes its cuts out of those of the slots.
func (f *filler) write(s *solution, i int, cuts map[int32][]int32) {
	b, o := f.b, &f.b.openings[i]
	c := column{stock: o.stock}
	if n := b.p.t.groupOf(&c); n >= 0 && o.stock != noStock {
		have := cuts[o.slots[0]]
		c = b.p.t.groups[n].columns[have[len(have)-1]]
		cuts[o.slots[0]] = have[:len(have)-1]
		s.columns = append(s.columns, c)
		s.cost += c.cost
		s.missing += c.short
		return
	}
	counts := make([]int32, len(s.short))
	for a, count := range o.chops[f.n.chop(i)].counts {
		sl := &b.slots[o.slots[a]]
		for range count {
			have := cuts[o.slots[a]]
			cut := have[len(have)-1]
			cuts[o.slots[a]] = have[:len(have)-1]
			if cut < 0 {
				continue
			}
			for k, n := range sl.of(int(cut), len(counts)) {
				counts[k] += n
			}
			if o.stock >= 0 {
				c.sections = append(c.sections, sl.sections[cut])
			}
		}
	}
	c.take = sections.TakeOf(counts)
	switch {
	case o.stock == noStock:
		s.short = counts
		s.missing += int32(c.take.Strips())
		return
	case o.stock >= 0 && c.take == nil:
		return
	case o.stock >= 0:
		stock := &b.p.t.stocks[o.stock]
		c.cost = stock.costs.Cost(b.p.t.Sections[stock.cross], c.sections)
	}
	s.columns = append(s.columns, c)
	s.cost += c.cost
}
