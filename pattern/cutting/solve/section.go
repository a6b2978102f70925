package solve

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A section is one way to use a section of a cross: which strips come out of it,
// and the most of slabs and rips that go back then.
type section struct {
	along  int16 // place of its length in the timber's lengths
	side   bool
	take   take
	credit float64 // cubic centimetres of slabs and rips that go back
	plain  bool    // found among the plain ways
}

// A scope says how thoroughly the ways to use a section are looked for.
type scope int

const (
	everyWay  scope = iota // all there are
	someWays               // stacks of some slices only: what crowds of ways leave room for
	plainWays              // one kind on a slice; single slices, then stacks of the fullest
)

// mostPlain is how many plain ways of one cross, length and side are told: a first plan
// needs no more.
const mostPlain = 250

// A sectionEnumerator finds the ways to use a section of one cross and length.
type sectionEnumerator struct {
	t     *timber
	x     cross
	along int

	placement

	mixed   int // kinds on a slice, at most
	scope   scope
	crowded bool    // stacks are built from some of the slices only
	only    int     // slices of the stacks that count; 0: any number
	left    []int32 // strips that may be taken, of each kind
	steps   *int    // slices that may still be laid on piles
	stop    stopper
	emit    func(*way) bool
	stack   []slicing
	taken   []int32
	done    bool
	partial bool // not every way was told
	short   bool // since there was no room for all piles of slices
}

// A placement is how a section lies on the saw.
type placement struct {
	side          bool
	across, depth length.Length // usable, along the slices' width and through the stack
	credited      bool          // slabs and rips of this length may go back
	resaws        bool          // it may be parted into slices
	groups        []sliceGroup
}

// A sliceGroup is the ways to rip slices of one thickness.
type sliceGroup struct {
	sawn  length.Length
	kinds []int32
	ways  []slicing
}

// A way is one way to use a section.
type way struct {
	side   bool
	counts []int32          // strips of each kind
	stack  func() []slicing // its slices
	slab   length.Length    // thickness that goes back; 0: nothing
	credit float64          // cubic centimetres of slab and rips
}

// A slicing is one way to rip a slice.
type slicing struct {
	sawn length.Length
	take take
	rest length.Length // width not used, and a kerf
	rip  length.Length // that goes back; 0: nothing
}

// ways tells s.emit of every way to yield some of the strips in want, of ways with the
// same strips the best at least, until that returns false or steps are over. It reports
// whether none was left out for want of room, or since the search was for some only.
// What emit is told is its own only until it returns.
func (s *sectionEnumerator) ways(want []int32) bool {
	t, x := s.t, s.x
	s.left = slices.Clone(want)
	s.taken = make([]int32, len(t.kinds))
	s.credited = t.lengths[s.along] >= t.shop.Keep.Length
	if x.planed {
		s.turn(false, x.width, x.thickness)
		return !s.partial
	}
	across, depth := x.width-t.shop.Allowance.Truing, x.thickness-t.shop.Allowance.Truing
	s.turn(false, across, depth)
	if across != depth || x.rings.Known() {
		s.turn(true, depth, across)
	}
	return !s.partial
}

// turn finds the ways with the section lying one way.
func (s *sectionEnumerator) turn(side bool, across, depth length.Length) {
	if s.done || across <= 0 || depth <= 0 {
		return
	}
	s.side, s.across, s.depth, s.only = side, across, depth, 0
	height := s.t.shop.Machine.BandsawHeight
	s.resaws = !s.x.planed && (height <= 0 || across <= height)
	s.group()
	if s.x.planed {
		for _, g := range s.groups {
			for _, w := range g.ways {
				s.push(w)
				s.tell(0)
				s.pop(w)
			}
		}
		return
	}
	if s.scope == plainWays {
		s.plain()
		return
	}
	if !s.crowded {
		s.grow()
		return
	}
	for i, most := range stackedBy {
		s.only = i + 1
		for g := range s.groups {
			ways := s.groups[g].ways
			s.groups[g].ways = ways[:min(len(ways), max(1, most/len(s.groups)))]
		}
		s.pile(0, 0, 0)
	}
}

// plain tells the single slices, then stacks of the fullest.
func (s *sectionEnumerator) plain() {
	s.partial = true
	emit, told := s.emit, 0
	s.emit = func(w *way) bool {
		told++
		return emit(w) && told < mostPlain
	}
	s.only = 1
	s.pile(0, 0, 0)
	for _, g := range s.groups {
		slices.SortStableFunc(g.ways, func(a, b slicing) int { return cmp.Compare(a.rest, b.rest) })
	}
	s.done, s.only, told = false, 0, 0
	s.pile(0, 0, 0)
	s.done, s.emit = false, emit
}

// stackedBy is from how many ways to rip slices stacks of one, two, three ... slices
// are built where not all can be.
var stackedBy = [...]int{400, 60, 20, 12, 9, 7}

// group finds the slices. Where they are too many to build stacks from, it keeps
// those that use most of the width, some of each width over, and strips by themselves.
func (s *sectionEnumerator) group() {
	s.groups = s.sort(s.t.lengths[s.along])
	ways := 0
	for i := range s.groups {
		g := &s.groups[i]
		if s.mixed = len(g.kinds); s.scope == plainWays {
			s.mixed = 1
		}
		for ; ; s.mixed = min(s.mixed-1, 3) {
			g.ways = g.ways[:0]
			if s.rip(g, 0, 0, s.across+s.t.shop.Kerf.Rip) || s.mixed == 1 {
				break
			}
			s.partial = true
		}
		ways += len(g.ways)
	}
	s.crowded = s.scope == someWays || ways > maxSlices
	if !s.crowded || s.scope == plainWays {
		return
	}
	s.partial = true
	rng := rand.New(rand.NewPCG(uint64(s.across), uint64(s.along)))
	for i := range s.groups {
		g := &s.groups[i]
		rng.Shuffle(len(g.ways), func(a, b int) { g.ways[a], g.ways[b] = g.ways[b], g.ways[a] })
		slices.SortStableFunc(g.ways, func(a, b slicing) int {
			return cmp.Compare(a.rest/(2*length.Millimetre), b.rest/(2*length.Millimetre))
		})
		most := max(1, maxStacked/len(s.groups))
		var plain []slicing
		for _, w := range g.ways[min(most, len(g.ways)):] {
			if len(w.take) == 1 || w.take.strips() <= 2 {
				plain = append(plain, w)
			}
		}
		kept := max(min(most, len(g.ways))-len(plain), min(most, len(g.ways))/2)
		g.ways = append(g.ways[:kept], plain...)
	}
}

// sort finds the thicknesses of slices in a section l long, the thickest first, and
// the kinds of strips that they yield.
func (s *sectionEnumerator) sort(l length.Length) []sliceGroup {
	var groups []sliceGroup
	for i, k := range s.t.kinds {
		rings := s.x.rings
		if s.side != (k.Make == pattern.MakeEdge) {
			rings = rings.Rolled()
		}
		sawn := k.Sawn
		if s.x.planed {
			sawn = s.x.thickness
			if k.Least > sawn {
				continue
			}
		}
		if over := l - k.Length; over < 0 || over > s.t.shop.Allowance.OverLength ||
			k.Across > s.across || sawn > s.depth || !shows(rings, k.Rings) {
			continue
		}
		at := slices.IndexFunc(groups, func(g sliceGroup) bool { return g.sawn == sawn })
		if at < 0 {
			at = len(groups)
			groups = append(groups, sliceGroup{sawn: sawn})
		}
		groups[at].kinds = append(groups[at].kinds, int32(i))
	}
	slices.SortFunc(groups, func(a, b sliceGroup) int { return cmp.Compare(b.sawn, a.sawn) })
	return groups
}

// rip lists the ways to rip a slice of g with at most mixed kinds, from the n-th kind
// on, with strips of so many kinds already in and strips and kerfs in room. It gives
// false when they are too many.
func (s *sectionEnumerator) rip(g *sliceGroup, n, kinds int, room length.Length) bool {
	if n == len(g.kinds) {
		return true
	}
	if len(g.ways) > maxSlices {
		return false
	}
	k := g.kinds[n]
	defer func() { s.taken[k] = 0 }()
	if !s.rip(g, n+1, kinds, room) {
		return false
	}
	if kinds == s.mixed {
		return true
	}
	step := s.t.kinds[k].Across + s.t.shop.Kerf.Rip
	for count := int32(1); count <= s.left[k] && step <= room; count++ {
		room -= step
		s.taken[k] = count
		s.slice(g, n, room)
		if !s.rip(g, n+1, kinds+1, room) {
			return false
		}
	}
	return true
}

// slice puts down the strips taken as a way to rip a slice of g; n is the last kind
// among them.
func (s *sectionEnumerator) slice(g *sliceGroup, n int, room length.Length) {
	w := slicing{sawn: g.sawn, rest: room}
	for _, k := range g.kinds[:n+1] {
		if s.taken[k] > 0 {
			w.take = append(w.take, part{k, s.taken[k]})
		}
	}
	w.rip = s.ripLeft(room)
	g.ways = append(g.ways, w)
}

// ripLeft returns the width that goes back where so much room for strips is left; 0:
// nothing.
func (s *sectionEnumerator) ripLeft(room length.Length) length.Length {
	if left := room - s.t.shop.Kerf.Rip; s.credited && left >= s.t.shop.Keep.Width && left > 0 {
		return left
	}
	return 0
}

// pile adds slices to the stack, from the way on that stands at (g, w), with sawn
// thickness and resawing kerfs already used.
func (s *sectionEnumerator) pile(g, w int, used length.Length) {
	waste := s.t.shop.Kerf.Resaw + s.t.shop.Allowance.Cleaning
	for ; g < len(s.groups); g, w = g+1, 0 {
		sawn := s.groups[g].sawn
		if used+sawn > s.depth {
			continue
		}
		for ; w < len(s.groups[g].ways) && !s.done; w++ {
			way := s.groups[g].ways[w]
			if !way.take.within(s.left) {
				continue
			}
			s.push(way)
			var slab length.Length
			if rest := s.depth - used - sawn - waste; s.resaws && s.credited && rest >= s.t.shop.Keep.Thickness && rest > 0 {
				slab = rest
			}
			s.tell(slab)
			if s.resaws && (s.only == 0 || len(s.stack) < s.only) {
				s.pile(g, w, used+sawn+waste)
			}
			s.pop(way)
		}
	}
}

func (s *sectionEnumerator) push(w slicing) {
	s.stack = append(s.stack, w)
	w.take.subtractFrom(s.left)
	w.take.addTo(s.taken)
}

func (s *sectionEnumerator) pop(w slicing) {
	s.stack = s.stack[:len(s.stack)-1]
	w.take.addTo(s.left)
	w.take.subtractFrom(s.taken)
}

// tell hands the stack as it stands to emit.
func (s *sectionEnumerator) tell(slab length.Length) {
	if s.done || s.only > 0 && len(s.stack) != s.only {
		return
	}
	l := s.t.lengths[s.along]
	credit := length.VolumeCM3(slab, s.across, l)
	for _, w := range s.stack {
		credit += length.VolumeCM3(w.rip, w.sawn, l)
	}
	s.done = !s.emit(&way{side: s.side, counts: s.taken, stack: s.stacked, slab: slab, credit: credit})
}

func (s *sectionEnumerator) stacked() []slicing { return slices.Clone(s.stack) }
