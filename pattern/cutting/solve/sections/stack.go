package sections

import (
	"example.com/oddments/pattern/length"
)

// stepsAWay is how many slices may be laid on piles to find the ways of a cross, for each
// way of which its quota says that it may be told.
const stepsAWay = 24

// ripUnits is how many units a cubic centimetre of rips counts while stacks are
// compared: a thousand to one of cost, so that what is rounded there moves no cost.
const ripUnits = 1000 * PerCM3

// grow tells the stacks of slices, of those with the same strips and as many slices of
// each thickness the one whose rips bring most. Nothing is lost by that, since what fits
// and what slab stays depends on the slices alone.
//
// Each kind of strip is cut from slices of one thickness. So a stack is a pile of slices
// of each thickness, the piles share no kinds, and whatever piles are not too thick
// together make a stack, whose strips and rips are those of its piles.
//
// Where there are too many kinds to tell piles apart by a tally, stacks are told one by one.
func (s *sectionEnumerator) grow() {
	var order []int32
	for _, g := range s.groups {
		order = append(order, g.kinds...)
	}
	g := &stackGrower{s: s, want: make([]int32, len(s.left)), waste: s.c.between()}
	for _, k := range order {
		g.want[k] = s.left[k]
	}
	if g.tallying = TallyingInOrder(g.want, order); !g.tallying.Whole {
		s.pile(0, 0, 0)
		return
	}
	for n := range s.groups {
		if !g.pile(n) {
			s.partial, s.short = true, true
			return
		}
	}
	g.chosen = make([]int32, len(g.piles))
	g.combine(0, s.depth+g.waste, 0, false)
	clear(s.taken)
}

// A stackGrower grows the stacks of a sectionEnumerator's section.
type stackGrower struct {
	s        *sectionEnumerator
	want     []int32 // strips that may be taken, of the kinds that the section can yield
	tallying Tallying
	waste    length.Length // between two slices
	piles    []pile        // of each thickness
	chosen   []int32       // of each thickness: the last slice of the pile in the stack
}

// A pile is all piles of slices of one thickness, as their last slices.
type pile struct {
	slices []lastSlice
	from   []int // of each number of slices: the first pile, and at the end their number
}

// A lastSlice is the last one of a pile, the best of those with the same strips.
type lastSlice struct {
	left  Tally
	place int32 // of the strips of the pile among all sets of strips
	worth int64 // of the rips of all slices, in ripUnits
	below int32 // the pile that it lies on
	way   int32 // how it is ripped; below 0: the pile is empty
}

// A ripWay is a way to rip a slice.
type ripWay struct {
	tally Tally
	step  int32 // from the place of a set of strips to that with its own
	worth int64 // of its rip, in ripUnits
}

// mostSets bounds the sets of strips of one thickness, and mostPiles the piles of it that are
// held at once: some 50 MB.
const (
	mostSets  = 1 << 22
	mostPiles = 1 << 20
)

// pile grows the piles of the n-th thickness, slice by slice. Of piles of as many slices
// with the same strips it goes on from the one whose rips bring most, since whatever is
// laid on another may be laid on that one. It returns false where they were too many.
func (g *stackGrower) pile(n int) bool {
	s, group := g.s, &g.s.groups[n]
	steps, sets := make(map[int32]int32, len(group.kinds)), int32(1)
	for _, k := range group.kinds {
		if steps[k] = sets; int64(sets)*int64(g.want[k]+1) > mostSets {
			return false
		}
		sets *= g.want[k] + 1
	}
	ways := make([]ripWay, len(group.ways))
	for i, w := range group.ways {
		ways[i] = ripWay{tally: g.tallying.Of(w.Take), worth: int64(ripUnits*length.VolumeCM3(w.Rip, w.Sawn, s.c.Lengths[s.along]) + 0.5)}
		for _, q := range w.Take {
			ways[i].step += q.Count * steps[q.Kind]
		}
	}
	p := pile{slices: []lastSlice{{left: g.tallying.Left(g.want), way: -1}}, from: []int{0, 1}}
	at := s.c.numbers(int(sets))
	done := true
	for room := s.depth - group.sawn; done && room >= 0; room -= group.sawn + g.waste {
		below := len(p.slices)
		if done = g.lay(&p, ways, at); len(p.slices) == below {
			break
		}
		for _, last := range p.slices[below:] {
			at[last.place] = 0
		}
		if p.from = append(p.from, len(p.slices)); !s.resaws {
			break
		}
	}
	g.piles = append(g.piles, p)
	return done
}

// lay lays each way on the latest piles; at holds 0 for each set of strips, and then the
// pile with it, counted from 1. It returns false where there were too many.
func (g *stackGrower) lay(p *pile, ways []ripWay, at []int32) bool {
	from, to := p.from[len(p.from)-2], p.from[len(p.from)-1]
	for n := from; n < to; n++ {
		if *g.s.steps -= len(ways); *g.s.steps < 0 || len(p.slices) > mostPiles || n%64 == 0 && g.s.stop.Stopped() {
			return false
		}
		below := p.slices[n]
		for i := range ways {
			w := &ways[i]
			left, ok := below.left.Less(w.tally, g.tallying.Guard)
			if !ok {
				continue
			}
			place, worth := below.place+w.step, below.worth+w.worth
			switch have := at[place]; {
			case have == 0:
				p.slices = append(p.slices, lastSlice{left, place, worth, int32(n), int32(i)})
				at[place] = int32(len(p.slices))
			case worth > p.slices[have-1].worth:
				p.slices[have-1] = lastSlice{left, place, worth, int32(n), int32(i)}
			}
		}
	}
	return true
}

// combine puts piles from the n-th thickness on together, in what room is left, and
// tells of each stack; laid says that there is a slice already.
func (g *stackGrower) combine(n int, room length.Length, worth int64, laid bool) {
	s := g.s
	if n == len(g.piles) {
		if laid {
			g.tell(room, worth)
		}
		return
	}
	p, group := &g.piles[n], &s.groups[n]
	for count := range len(p.from) - 1 {
		if room < 0 || count > 0 && laid && !s.resaws {
			return
		}
		for i := p.from[count]; i < p.from[count+1] && !s.done; i++ {
			at := &p.slices[i]
			for _, k := range group.kinds {
				s.taken[k] = g.want[k] - g.tallying.Count(at.left, k)
			}
			g.chosen[n] = int32(i)
			g.combine(n+1, room, worth+at.worth, laid || count > 0)
		}
		room -= group.sawn + g.waste
	}
}

// tell hands a stack to the enumerator.
func (g *stackGrower) tell(room length.Length, worth int64) {
	s := g.s
	slab := s.slabLeft(room)
	credit := length.VolumeCM3(slab, s.across, s.c.Lengths[s.along]) + float64(worth)/ripUnits
	s.done = !s.emit(&way{side: s.side, counts: s.taken, stack: g.stack, slab: slab, credit: credit})
}

// stack returns the slices of the stack that is chosen.
func (g *stackGrower) stack() []Slicing {
	var stack []Slicing
	for n, i := range g.chosen {
		slices := g.piles[n].slices
		for at := slices[i]; at.way >= 0; at = slices[at.below] {
			stack = append(stack, g.s.groups[n].ways[at.way])
		}
	}
	return stack
}
