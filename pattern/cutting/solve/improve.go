package solve

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"sync/atomic"
)

// small returns the best solution of p that costs less than most, found with little
// effort; nil where none was found.
func (p *problem) small(pr *pricer, seed []column, most int64) *solution {
	m := newMaster(p, pr)
	for _, c := range seed {
		m.add(c)
	}
	m.hasty = true
	m.run(40, most)
	if pr.stop.Stopped() || m.best.bound >= most {
		return nil
	}
	var best *solution
	if s, ok := p.greedy(pr, m.best.prices); ok && (p.fine > 0 || s.missing <= p.short) && p.value(&s) < most {
		best, most = &s, p.value(&s)
	}
	for allowance := (most - m.best.bound) / 8; m.best.bound < most; allowance = 2*allowance + 1 {
		allowance = min(allowance, most-m.best.bound-1)
		s, done := p.pass(pr, &m.best, allowance, light())
		if s != nil {
			best, most = s, p.value(s)
		}
		if s != nil || !done || m.best.bound+allowance >= most-1 {
			break
		}
	}
	return best
}

// part returns the problem that is left when the columns kept stay as they are.
func (p *problem) part(kept []column, pools bool) *problem {
	q := *p
	q.want, q.avail = slices.Clone(p.want), slices.Clone(p.avail)
	q.pools = pools && p.pools
	for _, c := range kept {
		c.take.SubtractFrom(q.want)
		if n := p.t.groupOf(&c); n >= 0 {
			if q.strips == nil || &q.strips[0] == &p.strips[0] {
				q.strips = slices.Clone(p.strips)
			}
			q.strips[n]--
			q.short -= c.short
		}
		if c.stock >= 0 {
			q.avail[c.stock]--
		}
	}
	return &q
}

// join returns the solution of p that keeps columns and meets the rest as rest does.
func (p *problem) join(kept []column, rest *solution) *solution {
	s := &solution{columns: append(slices.Clone(kept), rest.columns...), short: rest.short}
	if s.count(); rest.missing >= noPlan { // of some strips no way was found
		s.missing = noPlan
	}
	return s
}

// dive rounds the relaxation of m: again and again it keeps the columns that are
// used most and solves the relaxation of what is left.
func (p *problem) dive(pr *pricer, m *master) *solution {
	prices := m.best.prices
	var kept []column
	if !p.t.joined() {
		kept = p.handOut(prices)
	}
	for !pr.stop.Stopped() {
		q := p.part(kept, p.t.joined())
		if !slices.ContainsFunc(q.want, func(n int32) bool { return n > 0 }) && q.open() == 0 {
			break
		}
		next := newMaster(q, pr)
		for _, c := range m.columns {
			if c.stock >= 0 && q.avail[c.stock] > 0 && c.take.Within(q.want) { // ways are there
				next.add(c)
			}
		}
		m = next
		m.run(15, 1<<62)
		more := m.used(q)
		if len(more) == 0 {
			break
		}
		kept = append(kept, more...)
		prices = m.best.prices
	}
	if pr.stop.Stopped() {
		return nil
	}
	rest, ok := p.part(kept, p.t.joined()).greedy(pr, prices)
	if !ok {
		return nil
	}
	return p.join(kept, &rest)
}

// used returns columns that the relaxation uses nearly whole, or else the one that it
// uses most; together they fit q.
func (m *master) used(q *problem) []column {
	amounts := m.lp.Amounts()
	x, order := make([]float64, len(m.columns)), make([]int, len(m.columns))
	for i := range order {
		x[i], order[i] = amounts[m.places[i]], i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(x[b], x[a]) })
	left, avail, strips := slices.Clone(q.want), slices.Clone(q.avail), slices.Clone(q.strips)
	var more []column
	for _, i := range order {
		c := m.columns[i]
		if x[i] < 1e-6 || len(more) > 0 && x[i] < 0.8 {
			break
		}
		n := q.t.groupOf(&c)
		switch {
		case !c.take.Within(left):
		case n >= 0 && strips[n] > 0 && (c.short == 0 || x[i] > 0.8):
			c.take.SubtractFrom(left)
			strips[n]--
			more = append(more, c)
		case c.stock >= 0 && avail[c.stock] > 0:
			c.take.SubtractFrom(left)
			avail[c.stock]--
			more = append(more, c)
		}
	}
	return more
}

// tries is how many times one round of improving plans a few pieces anew; so many are
// made ready at a time.
const (
	tries   = 60
	atATime = 6
)

// A try is a few pieces of a solution to be planned anew.
type try struct {
	rest       *problem
	open, kept []column
	cost       int64     // of those open, with the fines of the whole
	after      rand.PCG  // the chances that come after it
	better     *solution // of rest
}

// improve plans a few pieces of the best solution anew, again and again. Tries are
// made at the same time where workers are idle; the first that gains counts, as if they
// were made one after another.
func (s *solver) improve(p *problem, round uint64) {
	if s.without&improving != 0 {
		return
	}
	chance := rand.NewPCG(round, 17)
	for n := 0; n < tries && !s.proved && !s.stop.Stopped(); {
		var ready []try
		for range min(atATime, tries-n) {
			ready = append(ready, s.try(p, chance))
		}
		var next, gains atomic.Int32
		gains.Store(int32(len(ready)))
		s.pr.together(func(pr *pricer) {
			for {
				i := next.Add(1) - 1
				if i >= gains.Load() || s.stop.Stopped() {
					return
				}
				t := &ready[i]
				if t.better = t.rest.small(pr, t.open, t.cost); t.better != nil {
					for first := gains.Load(); i < first && !gains.CompareAndSwap(first, i); first = gains.Load() {
					}
				}
			}
		})
		first := int(gains.Load())
		if n += first + 1; first == len(ready) {
			n--
			continue
		}
		t := &ready[first]
		*chance = t.after
		s.take(p.join(t.kept, t.better))
		s.raise(s.bound)
	}
}

// try chooses what to plan anew.
func (s *solver) try(p *problem, chance *rand.PCG) try {
	rng := rand.New(chance)
	open, kept, pools := s.pick(rng, 2+rng.IntN(max(1, min(5, len(s.best.columns)/3))))
	t := try{open: open, kept: kept, rest: p.part(kept, pools)}
	t.cost = p.fine * int64(total(s.best.short))
	for _, c := range open {
		t.cost += c.cost + p.fine*int64(c.short)
	}
	for n := range t.rest.avail {
		if t.rest.avail[n] == p.avail[n] && rng.IntN(2) == 0 {
			t.rest.avail[n] = 0
		}
	}
	for _, c := range open {
		if c.stock >= 0 {
			t.rest.avail[c.stock] = max(1, t.rest.avail[c.stock])
		}
	}
	t.after = *chance
	return t
}

// pick parts the best solution's columns into some that are opened up, one and
// others that share kinds with it, and those kept. All ready strips are handed out
// anew or none are.
func (s *solver) pick(rng *rand.Rand, count int) (open, kept []column, pools bool) {
	pools = s.full.handed() > 0 && rng.IntN(3) == 0
	var rest, ways []column
	for _, c := range s.best.columns {
		switch {
		case c.stock >= 0:
			rest = append(rest, c)
		case s.t.groupOf(&c) >= 0:
			ways = append(ways, c)
		case pools:
			open = append(open, c)
		default:
			kept = append(kept, c)
		}
	}
	if len(ways) > 0 { // some strips choose anew, and all that are short
		few := rng.IntN(3) * count
		for _, i := range rng.Perm(len(ways)) {
			if ways[i].short > 0 || few > 0 {
				open, few = append(open, ways[i]), few-1
			} else {
				kept = append(kept, ways[i])
			}
		}
	}
	if len(rest) == 0 {
		return open, kept, pools
	}
	first := rest[rng.IntN(len(rest))]
	near := make([]float64, len(s.t.Kinds))
	for _, q := range first.take {
		near[q.Kind] = 1
	}
	type scored struct {
		column
		score float64
	}
	all := make([]scored, len(rest))
	for i, c := range rest {
		all[i] = scored{c, 1.5 * rng.Float64()}
		for _, q := range c.take {
			all[i].score += near[q.Kind] / float64(len(c.take))
		}
	}
	slices.SortStableFunc(all, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	for i, c := range all {
		if i < count {
			open = append(open, c.column)
		} else {
			kept = append(kept, c.column)
		}
	}
	return open, kept, pools
}
