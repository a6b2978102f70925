package sections

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

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
	c     *Catalogue
	cross int
	along int

	placement

	mixed   int // kinds on a slice, at most
	scope   scope
	crowded bool    // stacks are built from some of the slices only
	only    int     // slices of the stacks that count; 0: any number
	left    []int32 // strips that may be taken, of each kind
	steps   *int    // slices that may still be laid on piles
	stop    Stopper
	emit    func(*way) bool
	stack   []Slicing
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
	ways  []Slicing
}

// A way is one way to use a section.
type way struct {
	side   bool
	counts []int32          // strips of each kind
	stack  func() []Slicing // its slices
	slab   length.Length    // thickness that goes back; 0: nothing
	credit float64          // cubic centimetres of slab and rips
}

// A Slicing is one way to rip a slice.
type Slicing struct {
	Sawn length.Length
	Take Take
	rest length.Length // width not used, and a kerf
	Rip  length.Length // that goes back; 0: nothing
}

// placements returns how a section of a cross, l long, can lie on the saw.
func (c *Catalogue) placements(x *Cross, l length.Length) []placement {
	if x.Planed {
		return c.lying(nil, x, false, x.Width, x.Thickness, l)
	}
	across, depth := x.Width-c.Shop.Allowance.Truing, x.Thickness-c.Shop.Allowance.Truing
	ways := c.lying(nil, x, false, across, depth, l)
	if across != depth || x.Rings.Known() {
		ways = c.lying(ways, x, true, depth, across, l)
	}
	return ways
}

// lying adds one of these to ways, if there is room for anything.
func (c *Catalogue) lying(ways []placement, x *Cross, side bool, across, depth, l length.Length) []placement {
	if across <= 0 || depth <= 0 {
		return ways
	}
	height := c.Shop.Machine.BandsawHeight
	p := placement{side: side, across: across, depth: depth, credited: l >= c.Shop.Keep.Length}
	p.resaws = !x.Planed && (height <= 0 || across <= height)
	p.groups = c.thicknesses(x, &p, l)
	return append(ways, p)
}

// between is what is lost of the depth between two slices.
func (c *Catalogue) between() length.Length { return c.Shop.Kerf.Resaw + c.Shop.Allowance.Cleaning }

// ways tells s.emit of every way to yield some of the strips in want, of ways with the
// same strips the best at least, until that returns false or steps are over. It reports
// whether none was left out for want of room, or since the search was for some only.
// What emit is told is its own only until it returns.
func (s *sectionEnumerator) ways(want []int32) bool {
	c := s.c
	s.left = slices.Clone(want)
	s.taken = make([]int32, len(c.Kinds))
	for _, p := range c.placements(&c.Crosses[s.cross], c.Lengths[s.along]) {
		if s.placement, s.only = p, 0; !s.done {
			s.place()
		}
	}
	return !s.partial
}

// place finds the ways with the section lying one way.
func (s *sectionEnumerator) place() {
	s.group()
	switch {
	case s.c.Crosses[s.cross].Planed:
		for _, g := range s.groups {
			for _, w := range g.ways {
				s.push(w)
				s.tell(0)
				s.pop(w)
			}
		}
	case s.scope == plainWays:
		s.plain()
	case !s.crowded:
		s.grow()
	default:
		for i, most := range stackedBy {
			s.only = i + 1
			for g := range s.groups {
				ways := s.groups[g].ways
				s.groups[g].ways = ways[:min(len(ways), max(1, most/len(s.groups)))]
			}
			s.pile(0, 0, 0)
		}
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
		slices.SortStableFunc(g.ways, func(a, b Slicing) int { return cmp.Compare(a.rest, b.rest) })
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
	ways := 0
	for i := range s.groups {
		g := &s.groups[i]
		if s.mixed = len(g.kinds); s.scope == plainWays {
			s.mixed = 1
		}
		for ; ; s.mixed = min(s.mixed-1, 3) {
			g.ways = g.ways[:0]
			if s.rip(g, 0, 0, s.across+s.c.Shop.Kerf.Rip) || s.mixed == 1 {
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
		slices.SortStableFunc(g.ways, func(a, b Slicing) int {
			return cmp.Compare(a.rest/(2*length.Millimetre), b.rest/(2*length.Millimetre))
		})
		most := max(1, maxStacked/len(s.groups))
		var plain []Slicing
		for _, w := range g.ways[min(most, len(g.ways)):] {
			if len(w.Take) == 1 || w.Take.Strips() <= 2 {
				plain = append(plain, w)
			}
		}
		kept := max(min(most, len(g.ways))-len(plain), min(most, len(g.ways))/2)
		g.ways = append(g.ways[:kept], plain...)
	}
}

// thicknesses finds those of slices in a section l long, the greatest first, and the kinds
// of strips that they yield.
func (c *Catalogue) thicknesses(x *Cross, p *placement, l length.Length) []sliceGroup {
	var groups []sliceGroup
	for i, k := range c.Kinds {
		rings := x.Rings
		if p.side != (k.Make == pattern.MakeEdge) {
			rings = rings.Rolled()
		}
		sawn := k.Sawn
		if x.Planed {
			sawn = x.Thickness
			if k.Least > sawn {
				continue
			}
		}
		if over := l - k.Length; over < 0 || over > c.Shop.Allowance.OverLength ||
			k.Across > p.across || sawn > p.depth || !Shows(rings, k.Rings) {
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
	step := s.c.Kinds[k].Across + s.c.Shop.Kerf.Rip
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
	w := Slicing{Sawn: g.sawn, rest: room}
	for _, k := range g.kinds[:n+1] {
		if s.taken[k] > 0 {
			w.Take = append(w.Take, Part{k, s.taken[k]})
		}
	}
	w.Rip = s.ripLeft(room)
	g.ways = append(g.ways, w)
}

// ripLeft returns the width that goes back where so much room for strips is left; 0:
// nothing.
func (s *sectionEnumerator) ripLeft(room length.Length) length.Length {
	if left := room - s.c.Shop.Kerf.Rip; s.credited && left >= s.c.Shop.Keep.Width && left > 0 {
		return left
	}
	return 0
}

// slabLeft returns the thickness that goes back where so much room for slices is left; 0:
// nothing.
func (s *sectionEnumerator) slabLeft(room length.Length) length.Length {
	if left := room - s.c.between(); s.resaws && s.credited && left >= s.c.Shop.Keep.Thickness && left > 0 {
		return left
	}
	return 0
}

// pile adds slices to the stack, from the way on that stands at (g, w), with sawn
// thickness and resawing kerfs already used.
func (s *sectionEnumerator) pile(g, w int, used length.Length) {
	for ; g < len(s.groups); g, w = g+1, 0 {
		sawn := s.groups[g].sawn
		if used+sawn > s.depth {
			continue
		}
		for ; w < len(s.groups[g].ways) && !s.done; w++ {
			way := s.groups[g].ways[w]
			if !way.Take.Within(s.left) {
				continue
			}
			s.push(way)
			s.tell(s.slabLeft(s.depth - used - sawn))
			if s.resaws && (s.only == 0 || len(s.stack) < s.only) {
				s.pile(g, w, used+sawn+s.c.between())
			}
			s.pop(way)
		}
	}
}

func (s *sectionEnumerator) push(w Slicing) {
	s.stack = append(s.stack, w)
	w.Take.SubtractFrom(s.left)
	w.Take.AddTo(s.taken)
}

func (s *sectionEnumerator) pop(w Slicing) {
	s.stack = s.stack[:len(s.stack)-1]
	w.Take.AddTo(s.left)
	w.Take.SubtractFrom(s.taken)
}

// tell hands the stack as it stands to emit.
func (s *sectionEnumerator) tell(slab length.Length) {
	if s.done || s.only > 0 && len(s.stack) != s.only {
		return
	}
	l := s.c.Lengths[s.along]
	credit := length.VolumeCM3(slab, s.across, l)
	for _, w := range s.stack {
		credit += length.VolumeCM3(w.Rip, w.Sawn, l)
	}
	s.done = !s.emit(&way{side: s.side, counts: s.taken, stack: s.stacked, slab: slab, credit: credit})
}

func (s *sectionEnumerator) stacked() []Slicing { return slices.Clone(s.stack) }
