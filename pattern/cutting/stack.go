package cutting

import "example.com/oddments/pattern/length"

// mostStacked bounds the ways to lay one slice more on a stack that one search looks at,
// as so many for each way of which the quota says that it may be told.
const mostStacked = 24

// ripUnits is how many units a cubic centimetre of rips counts while stacks are
// compared: a thousand to one of cost, so that what is rounded there moves no cost.
const ripUnits = 1000 * perCM3

// grow tells the stacks of slices, of those with the same strips and the same thickness
// left the one whose rips bring most. Nothing is lost by that. What may still be laid
// on a stack depends on the strips and the thickness left alone, and so does the slab
// that stays; the rips of slices laid later add the same to both. So of two stacks
// alike in these, whatever is made of the poorer one is made of the richer one at no
// less. Slices are laid in the order of their groups, which reaches every stack, since
// the order of slices changes neither what fits nor what goes back.
func (s *sawyer) grow() {
	var order []int32
	for _, g := range s.groups {
		order = append(order, g.kinds...)
	}
	want := make([]int32, len(s.left))
	for _, k := range order {
		want[k] = s.left[k]
	}
	g := stackGrower{s: s, want: want, tallying: newTallying(want, order), waste: s.t.shop.Kerf.Resaw + s.t.shop.Allowance.Cleaning}
	if !g.tallying.whole { // too many kinds to tell stacks apart by a tally
		s.pile(0, 0, 0)
		return
	}
	l := s.t.lengths[s.along]
	for i, group := range s.groups {
		g.from = append(g.from, len(g.ways))
		for _, w := range group.ways {
			g.ways = append(g.ways, laidSlice{w, g.tallying.of(w.take), int64(ripUnits*length.VolumeCM3(w.rip, w.sawn, l) + 0.5)})
		}
		if i == len(s.groups)-1 {
			g.from = append(g.from, len(g.ways))
		}
	}
	g.run()
}

// A laidSlice is a slicing with what it takes and what its rip brings, in ripUnits.
type laidSlice struct {
	slicing
	tally tally
	worth int64
}

// A stackGrower grows the stacks of a sawyer's section slice by slice.
type stackGrower struct {
	s        *sawyer
	want     []int32 // strips that may be taken, of the kinds that the section can yield
	tallying tallying
	waste    length.Length // between two slices
	ways     []laidSlice   // group by group
	from     []int         // of each group: its first way, and at the end their number
	spreader spreader
}

func (g *stackGrower) run() {
	sp := &g.spreader
	sp.all = append(sp.all[:0], partial{left: g.tallying.left(g.want), room: g.s.depth + g.waste, parent: -1})
	for from := 0; from < len(sp.all); {
		to := len(sp.all)
		sp.start(to)
		for n := from; n < to; n++ {
			if !g.extend(int32(n)) || len(sp.all) > mostSpread {
				g.s.partial = true
				return
			}
		}
		for n := to; n < len(sp.all) && !g.s.done; n++ {
			g.tell(int32(n))
		}
		if g.s.done || !g.s.resaws {
			return
		}
		from = to
	}
}

// extend lays each slice that may follow on stack n. It returns false when that has been
// done too often.
func (g *stackGrower) extend(n int32) bool {
	at := g.spreader.all[n]
	for group := int(at.group); group < len(g.s.groups); group++ {
		room := at.room - g.s.groups[group].sawn - g.waste
		if room < 0 {
			continue
		}
		for i := g.from[group]; i < g.from[group+1]; i++ {
			w := &g.ways[i]
			if g.s.steps--; g.s.steps < 0 {
				return false
			}
			left, ok := at.left.less(w.tally, g.tallying.guard)
			if !ok {
				continue
			}
			g.spreader.add(partial{left: left, room: room, worth: at.worth + w.worth, parent: n, section: int32(i), group: int32(group)})
		}
	}
	return true
}

// tell hands stack n to the sawyer.
func (g *stackGrower) tell(n int32) {
	s := g.s
	clear(s.taken)
	s.stack = s.stack[:0]
	at := g.spreader.all[n]
	for ; n >= 0 && g.spreader.all[n].parent >= 0; n = g.spreader.all[n].parent {
		w := &g.ways[g.spreader.all[n].section]
		s.stack = append(s.stack, w.slicing)
		w.take.back(s.taken)
	}
	var slab length.Length
	if rest := at.room - g.waste; s.resaws && s.credited && rest >= s.t.shop.Keep.Thickness && rest > 0 {
		slab = rest
	}
	credit := length.VolumeCM3(slab, s.across, s.t.lengths[s.along]) + float64(at.worth)/ripUnits
	s.done = !s.emit(&way{side: s.side, counts: s.taken, stack: s.stack, slab: slab, credit: credit})
	s.stack = s.stack[:0]
	clear(s.taken)
}
