package solve

import (
	"cmp"
	"math"
	"slices"

	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
)

// Branching proves the plan of a timber of few pieces outright (branch.go, node.go,
// fill.go).
//
// A plan is seen as two choices: how each piece is crosscut, its chop, and what is sawn
// from each of the sections, their cuts. At given prices of strips a piece is then worth
// the sum of what its sections are, so that its best use is had from the lists of
// sections by going through them once, without packing any piece. The bound that follows
// counts pieces as opened in part, which makes it weak where few strips fill a piece.
// Branching takes that away: a node holds the chops that each piece may still have, and is
// parted until each has one. What is left then is to fill given sections with just the
// strips wanted, and that is searched through.
//
// The bound of a node holds at any prices. A plan that it allows takes just the strips
// wanted. So it costs what these are worth, and for each piece the cost of its chop less
// what its sections are worth: their strips at the same prices, and their credit. No
// section is worth more than the best of its list, since the list is whole. So a piece
// comes to no less than the least over its allowed chops, and the sum of these and of the
// worth of the strips wanted is a bound.
//
// Ready strips and strips short are sections too, of a piece that costs nothing and is
// always opened: the one may be any choice of its pool, the other any set of strips, at a
// fine each that is more than all timber.

// The limits within which branching is tried. They are counts, not times, so that the same
// job gives the same plan.
const (
	mostOpenings = 24
	mostChops    = 64
	mostGiven    = 20_000 // choices of a pool, and sets of strips short
	mostNodes    = 3_000
	mostPriced   = 1_000_000_000 // counts of strips in cuts gone through to find the best
	mostFilled   = 300_000_000   // steps of filling sections
)

// A chop is one way to crosscut a piece. A chop with room for a section is one of that
// section too: to leave it empty costs nothing more.
type chop struct {
	cost   int64         // of the piece, before credits
	counts []int32       // sections from each of the opening's slots
	used   length.Length // by them and their crosscuts
}

// An opening is a piece that may be opened, with its chops. The first leaves it alone.
type opening struct {
	stock int32 // as in a column; noStock: strips short
	slots []int32
	chops []chop
}

// noStock stands for strips short.
const noStock = math.MinInt32

// A slot is sections with the same cuts: of one cross and length, charged alike.
type slot struct {
	cross, along int
	must         bool    // it may not be left empty
	counts       []int32 // strips of each kind, cut after cut
	worth        []int64 // credit of each cut
	sections     []int32 // of each cut: its place in the cross's sections
	pool         []int32 // cuts that linear programs have taken up
	pooled       map[int32]bool
}

// A brancher holds what its nodes share.
type brancher struct {
	p        *problem
	budget   // of filling sections
	openings []opening
	slots    []slot
	grain    int64 // what all costs are multiples of
	fine     int64 // of a strip short, a multiple too
	best     int64 // what a solution must cost less than, fines included
	work     int   // of mostPriced: what is left
	sure     bool  // all lists are whole, so that bounds hold
	take     func(*solution)
	nodes    []*node
}

// A node is the chops that each piece may still have, and what is known of it.
type node struct {
	allowed []uint64 // of each opening: a bit for each chop
	bound   int64    // no solution that it allows costs less
	prices  []int64  // that prove it
}

// small reports whether the timber has few enough pieces for branching.
func (t *timber) small() bool {
	pieces := 0
	for i := range t.stocks {
		pieces += len(t.stocks[i].items)
	}
	return pieces <= mostOpenings
}

// newBrancher returns a brancher for the whole timber, of which a solution with so many
// strips short is known; nil where it has too many pieces, chops or choices.
func newBrancher(p *problem, missing int32, stop sections.Stopper, take func(*solution)) *brancher {
	b := &brancher{p: p, budget: budget{mostFilled, stop}, take: take, grain: p.grain(), work: mostPriced, sure: true}
	if !p.t.small() || !sections.NewTallying(p.want).Whole {
		return nil
	}
	type key struct {
		cross, along int
		credit       float64
	}
	at := map[key]int32{}
	for n, avail := range p.avail {
		s := &p.t.stocks[n]
		b.fine += int64(avail) * s.costs.All
		if avail == 0 || len(p.t.Sections[s.cross]) == 0 {
			continue
		}
		o := opening{stock: int32(n)}
		for along := range p.t.Lengths {
			k := key{s.cross, along, s.costs.Credit}
			i, ok := at[k]
			if !ok {
				i = int32(len(b.slots))
				at[k] = i
				b.slots = append(b.slots, b.sawn(s, along))
			}
			o.slots = append(o.slots, i)
		}
		b.sure = b.sure && p.t.Whole[s.cross]
		if o.chops = b.chops(s, o.slots); len(o.chops) > mostChops {
			return nil
		}
		for range avail {
			b.openings = append(b.openings, o)
		}
	}
	for n, strips := range p.strips {
		for _, c := range p.t.groups[n].columns {
			b.fine += int64(strips) * c.cost
		}
	}
	b.fine += b.grain - b.fine%b.grain
	for n := range p.handed() {
		if !b.give(int32(-1-n), b.ready(n), 1) {
			return nil
		}
	}
	for n, strips := range p.strips {
		b.give(p.t.groupStock(n), b.waysOf(n, missing), strips)
	}
	if missing > 0 && !p.t.joined() && !b.give(noStock, b.missed(missing), 1) {
		return nil
	}
	return b
}

// sawn returns the slot of the sections of a length from pieces like s.
func (b *brancher) sawn(s *stock, along int) slot {
	sl := slot{cross: s.cross, along: along, pooled: map[int32]bool{}}
	for i := range b.p.t.Sections[s.cross] {
		if sec := &b.p.t.Sections[s.cross][i]; int(sec.Along) == along && sec.Take.Within(b.p.want) {
			sl.add(sec.Take, len(b.p.want), s.costs.Credited(sec))
			sl.sections = append(sl.sections, int32(i))
		}
	}
	return sl
}

// add adds a cut.
func (sl *slot) add(t sections.Take, kinds int, worth int64) {
	at := len(sl.counts)
	sl.counts = append(sl.counts, make([]int32, kinds)...)
	t.AddTo(sl.counts[at:])
	sl.worth = append(sl.worth, worth)
}

// give adds openings that are always there, with one section each from a slot. It reports
// whether its cuts are not too many.
func (b *brancher) give(stock int32, sl slot, openings int32) bool {
	sl.must, sl.pooled = true, map[int32]bool{}
	b.slots = append(b.slots, sl)
	for range openings {
		b.openings = append(b.openings, opening{stock: stock, slots: []int32{int32(len(b.slots) - 1)}, chops: []chop{{counts: []int32{0}}, {counts: []int32{1}}}})
	}
	return len(sl.worth) <= mostGiven
}

// waysOf returns the slot of the ways of a strip of group n; short among them where any is.
func (b *brancher) waysOf(n int, missing int32) (sl slot) {
	g := &b.p.t.groups[n]
	for _, c := range g.columns {
		if c.short == 0 || missing > 0 {
			sl.add(c.take, len(b.p.want), -c.cost-b.fine*int64(c.short))
		}
	}
	return sl
}

// ready returns the slot of a pool's choices.
func (b *brancher) ready(pool int) (sl slot) {
	kinds := len(b.p.want)
	b.p.t.ready.Choices(pool, make([]int64, kinds), 0, func(c sections.Take, _ int64) bool {
		sl.add(c, kinds, 0)
		return len(sl.worth) <= mostGiven && !b.stop.Stopped()
	})
	return sl
}

// missed returns the slot of the sets of at most so many strips.
func (b *brancher) missed(most int32) (sl slot) {
	counts := make([]int32, len(b.p.want))
	var from func(k int, left int32)
	from = func(k int, left int32) {
		if len(sl.worth) > mostGiven {
			return
		}
		if k == len(counts) {
			sl.counts = append(sl.counts, counts...)
			sl.worth = append(sl.worth, -b.fine*int64(most-left))
			return
		}
		for n := int32(0); n <= min(left, b.p.want[k]); n++ {
			counts[k] = n
			from(k+1, left-n)
		}
		counts[k] = 0
	}
	from(0, most)
	return sl
}

// chops lists the ways to crosscut a piece of s. Of those that leave no tail to keep, and
// so cost as much as the whole piece, only those serve to which no section can be added.
func (b *brancher) chops(s *stock, slots []int32) []chop {
	counts := make([]int32, len(slots))
	chops := []chop{{counts: slices.Clone(counts)}}
	var from func(along int, used length.Length, cost int64)
	from = func(along int, used length.Length, cost int64) {
		switch {
		case len(chops) > mostChops:
		case along < len(slots):
			cuts := len(b.slots[slots[along]].worth)
			for n := int32(0); used <= s.costs.Span && (n == 0 || cuts > 0); n++ {
				counts[along] = n
				from(along+1, used, cost)
				used, cost = used+s.costs.Steps[along], cost+s.costs.Along[along]
			}
			counts[along] = 0
		case used > 0 && used <= s.costs.Keeping:
			chops = append(chops, chop{cost: s.costs.Open + cost, counts: slices.Clone(counts), used: used})
		case used > 0:
			for a, step := range s.costs.Steps {
				if used+step <= s.costs.Span && len(b.slots[slots[a]].worth) > 0 {
					return
				}
			}
			chops = append(chops, chop{cost: s.costs.All, counts: slices.Clone(counts), used: used})
		}
	}
	from(0, 0, 0)
	return chops
}

// ceil returns the least that a solution can cost which costs at least bound.
func (b *brancher) ceil(bound int64) int64 {
	return ceil(bound, b.grain)
}

// run looks for the best solution that costs less than best, fines included, hands each
// better one to take, and tells raise of the bound as it rises. The bound that it returns
// is the last: nothing costs less that was not handed over. Where a list is not whole there
// is no bound, and it is 0.
func (b *brancher) run(best int64, raise func(int64)) int64 {
	b.best = best
	if !b.sure {
		raise = func(int64) {}
	}
	root := &node{bound: -unknown}
	for _, o := range b.openings {
		allowed := uint64(math.MaxUint64) >> (64 - len(o.chops))
		if o.stock < 0 {
			allowed = 2
		}
		root.allowed = append(root.allowed, allowed)
	}
	b.nodes = append(b.nodes, root)
	unsolved := int64(math.MaxInt64) // the least bound of nodes that could not be
	for n := 0; len(b.nodes) > 0; n++ {
		at := slices.MinFunc(b.nodes, func(x, y *node) int { return cmp.Compare(x.bound, y.bound) })
		low := min(at.bound, unsolved)
		if b.ceil(low) >= b.best {
			break
		}
		raise(low)
		if n >= mostNodes || b.work < 0 || unsolved == low {
			unsolved = low
			break
		}
		b.nodes = slices.DeleteFunc(b.nodes, func(n *node) bool { return n == at })
		if !b.open(at) {
			unsolved = min(unsolved, at.bound)
		}
		if b.stop.Stopped() {
			unsolved = low
			break
		}
	}
	if !b.sure {
		return 0
	}
	return max(0, min(b.best, unsolved))
}

// open raises the bound of a node and parts it, or solves it. It returns false where it
// could not.
func (b *brancher) open(n *node) bool {
	m := b.relax(n)
	if b.stop.Stopped() || b.ceil(n.bound) >= b.best {
		return true
	}
	at, some := m.part()
	if some == 0 {
		return b.fill(n)
	}
	for _, side := range [...]uint64{some, n.allowed[at] &^ some} {
		child := &node{allowed: slices.Clone(n.allowed), bound: n.bound, prices: n.prices}
		child.allowed[at] = side
		b.nodes = append(b.nodes, child)
	}
	return true
}
