package solve

import (
	"cmp"
	"slices"
	"sync/atomic"

	"example.com/oddments/pattern/cutting/solve/sections"
)

// candidates lists every column within allowance of the bound of d: no solution
// that costs at most d.bound + allowance has another. It gives false when there are
// more than most or the work was stopped.
//
// Why: what a solution costs beyond the bound is a sum with no part below 0. Each column
// adds its excess, how much less it is worth than the best its stock could do; each piece
// left unused adds what its stock could do, which counts as 0 at least; each pool likewise;
// each strip short adds what its charge is above its price. So a column with more excess
// than the allowance is in no solution within it. Of columns of one stock with the same
// strips the one with least excess serves for all: put in the place of another it leaves
// the solution one, at no more.
func (p *problem) candidates(pr *pricer, d *dual, allowance int64, most int) ([]column, bool) {
	l := &lister{p: p, d: d, allowance: allowance, lists: make([][]column, len(p.avail))}
	l.room.Store(int64(most))
	if p.free { // how many each stock leaves counts for the next
		l.work(pr)
	} else {
		pr.together(l.work)
	}
	if l.failed.Load() || pr.stop.Stopped() {
		return nil, false
	}
	all := slices.Concat(l.lists...)
	for n := range p.handed() {
		ok := p.t.ready.Choices(n, d.prices, d.pools[n]-allowance, func(c sections.Take, worth int64) bool {
			all = append(all, column{stock: int32(-1 - n), take: c, excess: d.pools[n] - worth})
			return len(all) <= most && !pr.stop.Stopped()
		})
		if !ok {
			return nil, false
		}
	}
	for n, strips := range p.strips {
		for _, c := range p.wayColumns(n) {
			if c.excess = d.groups[n] - c.gain(d.prices, d.sigma); strips > 0 && c.excess <= allowance {
				all = append(all, c)
			}
		}
	}
	return all, true
}

// A lister lists the columns of one stock after another, by as many pricers as there
// are.
type lister struct {
	p         *problem
	d         *dual
	allowance int64
	next      atomic.Int32
	room      atomic.Int64 // for more columns
	failed    atomic.Bool  // there were more, or the work was stopped
	lists     [][]column   // of each stock
}

func (l *lister) work(pr *pricer) {
	for !l.failed.Load() {
		n := int(l.next.Add(1)) - 1
		if n >= len(l.lists) {
			return
		}
		if l.p.avail[n] > 0 && !l.list(pr, n) {
			l.failed.Store(true)
		}
	}
}

// list lists the columns of stock n; false says that it did not get all.
func (l *lister) list(pr *pricer, n int) bool {
	var all []column
	var index sections.TakeIndex
	floor := l.d.stocks[n] - l.allowance
	missed := pr.each(n, l.d.prices, l.p.want, floor, func(worth, cost int64, chosen []int32) int64 {
		t := pr.scratchOf(n, chosen)
		i, fresh := index.Find(t)
		excess := l.d.stocks[n] - worth
		if fresh {
			all = append(all, column{stock: int32(n), take: slices.Clone(t), sections: slices.Clone(chosen), cost: cost, excess: excess})
			if l.room.Add(-1) < 0 {
				l.failed.Store(true)
			}
		} else if have := &all[i]; excess < have.excess {
			have.sections, have.cost, have.excess = slices.Clone(chosen), cost, excess
		}
		if l.failed.Load() {
			return 1 << 62
		}
		return floor
	})
	if missed >= floor || l.failed.Load() || pr.stop.Stopped() {
		return false
	}
	if l.p.free {
		kept := fullest(all, pr.stop)
		l.room.Add(int64(len(all) - len(kept)))
		all = kept
	}
	l.lists[n] = all
	return true
}

// fullest leaves out columns of one stock that another covers: where only strips
// short count they are never needed, for there a solution may hold more strips than are
// wanted. The other in its place leaves no more strips short and takes a piece of the same
// stock; and it is worth no less, prices not being below 0, so it is within the allowance
// wherever the one it covers is.
func fullest(columns []column, stop sections.Stopper) []column {
	slices.SortFunc(columns, func(a, b column) int {
		return cmp.Or(cmp.Compare(b.take.Strips(), a.take.Strips()), cmp.Compare(a.excess, b.excess))
	})
	var kept []column
	for _, c := range columns {
		if stop.Stopped() {
			return nil
		}
		if !slices.ContainsFunc(kept, func(k column) bool { return k.take.Covers(c.take) }) {
			kept = append(kept, c)
		}
	}
	return kept
}

// A candidate is a column that may be part of a solution, with its excess at hand.
type candidate struct {
	excess int64
	tally  sections.Tally
	*column
}

// A search goes through the ways to put candidates together, kind by kind: those
// with the first kind not yet met, in the order of their excess.
//
// Why it meets every solution within its allowance: kinds are met one after another in a fixed
// order. The first that is not met yet is met by candidates that hold it, and then, for
// what is left, by strips short. Those hold no earlier kind, which are all met, so they
// stand in this kind's bucket; and since their order in a solution is free they are tried
// in that of the bucket only, each from the one before it on. Where a solution may hold too
// many strips a candidate stands in the bucket of each of its kinds instead. A branch is
// left only where a bound says that its excess goes over what is known to be of use: the
// allowance at first, then less than the best solution has.
type search struct {
	p       *problem
	d       *dual
	order   []int32       // kinds, those in the fewest candidates first
	buckets [][]candidate // of each place in order: the candidates whose first kind stands there
	rest    [][]float64
	last    *lastKindBound
	place   []int // of each kind in order

	tallying sections.Tallying // the last kinds in order find room first

	partSolution

	budget
	useful int64 // the most excess that is still of use
	best   *solution
	ended  bool // its budget is over
}

// A partSolution is what is chosen so far, and what is left.
type partSolution struct {
	left   []int32
	tally  sections.Tally // of left
	avail  []int32
	strips []int32 // of each group, whose ways are still to be chosen
	pools  []bool  // handed out
	shorts []int32
	spare  int32 // strips that may still be short
	chosen []*column
}

// prove looks for a solution that costs at most d.bound + allowance, and for the
// best of them. done false says that it had to end before all was looked at.
func (p *problem) prove(pr *pricer, d *dual, columns []column, allowance int64, e effort) (best *solution, done bool) {
	s := &search{p: p, d: d, budget: budget{e.nodes, pr.stop}, useful: allowance}
	s.left, s.avail, s.strips = slices.Clone(p.want), slices.Clone(p.avail), slices.Clone(p.strips)
	s.pools, s.shorts = make([]bool, p.handed()), make([]int32, len(p.want))
	s.spare = p.short
	if p.fine > 0 {
		s.spare = 1 << 30
	}
	s.arrange(columns)
	if !p.free && pr.without&lastKinds == 0 { // where candidates may hold too many strips, that would not hold
		s.last = newLastKindBound(s, e.sets)
	}
	if pr.stop.Stopped() { // perhaps before all was arranged
		return nil, false
	}
	s.from(0, 0, 0)
	return s.best, !s.ended
}

// arrange sorts the candidates into buckets.
func (s *search) arrange(columns []column) {
	n := len(s.p.want)
	in := make([]int, n)
	for _, c := range columns {
		for _, q := range c.take {
			in[q.Kind]++
		}
	}
	for k := range n {
		s.order = append(s.order, int32(k))
	}
	slices.SortStableFunc(s.order, func(a, b int32) int { return cmp.Compare(in[a], in[b]) })
	place := make([]int, n)
	s.place = place
	for i, k := range s.order {
		place[k] = i
	}
	last := slices.Clone(s.order)
	slices.Reverse(last)
	s.tallying = sections.TallyingInOrder(s.p.want, last)
	s.tally = s.tallying.Left(s.left)
	s.buckets = make([][]candidate, n)
	for i := range columns {
		if len(columns[i].take) == 0 {
			continue // see complete
		}
		if !s.p.free && !columns[i].take.Within(s.p.want) {
			continue // ready strips that are not wanted here fit nowhere, and no tally holds them
		}
		c := candidate{columns[i].excess, s.tallying.Of(columns[i].take), &columns[i]}
		first := n
		for _, q := range c.take {
			first = min(first, place[q.Kind])
			if s.p.free { // it may be taken for any of its kinds
				s.buckets[place[q.Kind]] = append(s.buckets[place[q.Kind]], c)
			}
		}
		if !s.p.free {
			s.buckets[first] = append(s.buckets[first], c)
		}
	}
	for _, b := range s.buckets {
		if s.stop.Stopped() {
			return
		}
		slices.SortFunc(b, func(x, y candidate) int { return cmp.Compare(x.excess, y.excess) })
	}
	s.floors()
}

// floors finds, for each place in the order, what a strip still missing there and
// beyond costs in excess at least, when the candidates before that place are over.
//
// A candidate's excess is shared out over its strips evenly. Whatever meets a strip from a
// place on is a candidate of that place or a later one, whose share is no less than the
// least of any that holds its kind, or it is short at its charge. So the sum of these
// floors over the strips still missing is no more than the excess that will be added; and
// the excess of pieces left unused comes on top.
func (s *search) floors() {
	n := len(s.order)
	s.rest = make([][]float64, n+1)
	least := make([]float64, len(s.p.want))
	for k := range least {
		least[k] = 1e18
		if s.p.shortable() {
			least[k] = float64(s.d.sigma - s.d.prices[k])
		}
	}
	s.rest[n] = slices.Clone(least)
	for i := n - 1; i >= 0; i-- {
		for _, c := range s.buckets[i] {
			share := float64(c.excess) / float64(c.take.Strips())
			for _, q := range c.take {
				least[q.Kind] = min(least[q.Kind], share)
			}
		}
		s.rest[i] = slices.Clone(least)
	}
}

// from goes on at a place in the order, with its candidates from the i-th on.
func (s *search) from(place, i int, excess int64) {
	for place < len(s.order) && s.left[s.order[place]] <= 0 {
		place, i = place+1, 0
	}
	if place == len(s.order) {
		s.complete()
		return
	}
	if s.last != nil && place >= s.last.from {
		if s.last.above(place, s.useful-excess) {
			return
		}
	} else if i == 0 && s.hopeless(place, excess) {
		return
	}
	if s.over() {
		return
	}
	kind := s.order[place]
	for ; i < len(s.buckets[place]) && !s.ended; i++ {
		c := &s.buckets[place][i]
		if excess+c.excess > s.useful {
			break
		}
		less, ok := s.tally.Less(c.tally, s.tallying.Guard)
		if !ok && !s.p.free || !s.fits(c.column) {
			continue
		}
		tally := s.tally
		s.tally = less
		s.use(c.column, 1)
		s.chosen = append(s.chosen, c.column)
		s.from(place, i, excess+c.excess)
		s.chosen = s.chosen[:len(s.chosen)-1]
		s.use(c.column, -1)
		s.tally = tally
	}
	if n := s.left[kind]; s.p.shortable() && n <= s.spare && !s.ended {
		tally := s.tally
		s.left[kind], s.shorts[kind], s.spare = 0, n, s.spare-n
		s.tally = s.tallying.Left(s.left)
		s.from(place+1, 0, excess+int64(n)*(s.d.sigma-s.d.prices[kind]))
		s.left[kind], s.shorts[kind], s.spare = n, 0, s.spare+n
		s.tally = tally
	}
}

// over counts a step and reports whether the work must end.
func (s *search) over() bool {
	s.ended = s.ended || s.spend()
	return s.ended
}

// hopeless reports whether the strips still missing cost more excess than is left.
func (s *search) hopeless(place int, excess int64) bool {
	sum := 0.0
	for _, k := range s.order[place:] {
		if n := s.left[k]; n > 0 {
			sum += float64(n) * s.rest[place][k]
		}
	}
	return float64(excess)+sum > float64(s.useful)+sections.SlackUnits
}

func (s *search) fits(c *column) bool {
	if n := s.p.t.groupOf(c); n >= 0 {
		if s.strips[n] == 0 || c.short > s.spare {
			return false
		}
	} else if c.stock < 0 {
		if s.pools[-1-c.stock] {
			return false
		}
	} else if s.avail[c.stock] == 0 {
		return false
	}
	return s.p.free || s.tallying.Whole || c.take.Within(s.left)
}

func (s *search) use(c *column, by int32) {
	if n := s.p.t.groupOf(c); n >= 0 {
		s.strips[n] -= by
		s.spare -= by * c.short
	} else if c.stock < 0 {
		s.pools[-1-c.stock] = by > 0
	} else {
		s.avail[c.stock] -= by
	}
	for _, q := range c.take {
		s.left[q.Kind] -= by * q.Count
	}
}

// complete keeps what is chosen if it is the best so far.
func (s *search) complete() {
	if !s.p.free && !s.p.t.joined() && slices.Contains(s.pools, false) {
		return
	}
	best := &solution{short: slices.Clone(s.shorts)}
	for _, c := range s.chosen {
		best.columns = append(best.columns, *c)
	}
	for n, strips := range s.strips {
		for ; strips > 0; strips-- {
			c := s.p.plain(n)
			if c == nil {
				return
			}
			best.columns = append(best.columns, *c)
		}
	}
	best.count()
	excess := s.p.value(best) - s.d.bound
	if excess > s.useful {
		return
	}
	s.useful, s.best = excess-1, best
}
