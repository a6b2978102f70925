package solve

import (
	"cmp"
	"slices"
)

// A pool is a set of kinds and ready strips that can stand in for one another and
// for no others. As many kinds' strips as can be are served from it; which ones is
// open, and by the exchange property of matchings the best choice at given prices
// is a greedy one: the sets of strips that can be served together are the independent sets
// of a matroid, a transversal one (Edmonds and Fulkerson 1965), so taking strips in the
// order of their prices, each where it still can be served, gives the set of greatest worth
// among those with most strips (Edmonds 1971, "Matroids and the greedy algorithm"). That a
// strip can be served besides those chosen is found by one chain of moves, since a matching
// that has no augmenting chain from a strip cannot be extended by it (Berge 1957). Some
// kinds' numbers fixed, the rest is such a matroid again, the contraction by them.
type pool struct {
	kinds []int32
	lying []int32
	size  int32 // strips that it serves, always
}

// serves reports whether a ready strip of l may stand in for a strip of k.
func (l *lying) serves(k *kind) bool {
	return l.Width == k.Width && l.Length >= k.Length && l.Thickness >= k.Glued && shows(l.Rings, k.Rings)
}

// addPools parts kinds and ready strips into pools.
func (t *timber) addPools() {
	pooled := make([]bool, len(t.lying))
	for i := range t.lying {
		p := pool{}
		var add func(l int)
		add = func(l int) {
			if pooled[l] {
				return
			}
			pooled[l] = true
			p.lying = append(p.lying, int32(l))
			for k := range t.kinds {
				if !t.lying[l].serves(&t.kinds[k]) || slices.Contains(p.kinds, int32(k)) {
					continue
				}
				p.kinds = append(p.kinds, int32(k))
				for other := range t.lying {
					if t.lying[other].serves(&t.kinds[k]) {
						add(other)
					}
				}
			}
		}
		if add(i); len(p.kinds) == 0 {
			continue
		}
		slices.Sort(p.kinds)
		slices.Sort(p.lying)
		f := t.flow(&p)
		for _, k := range p.kinds {
			p.size += f.serve(k, t.want[k])
		}
		t.pools = append(t.pools, p)
	}
	slices.SortFunc(t.pools, func(a, b pool) int { return cmp.Compare(a.lying[len(a.lying)-1], b.lying[len(b.lying)-1]) })
}

// A flow hands ready strips of a pool to kinds.
type flow struct {
	t     *timber
	p     *pool
	spare []int32   // of each of the pool's ready strips
	given [][]int32 // of each of them, to each of the timber's kinds
	seen  []bool    // each of them, by the chain of moves that is looked for
}

func (t *timber) flow(p *pool) *flow {
	f := &flow{t: t, p: p, seen: make([]bool, len(p.lying))}
	for _, l := range p.lying {
		f.spare = append(f.spare, int32(len(t.lying[l].items)))
		f.given = append(f.given, make([]int32, len(t.kinds)))
	}
	return f
}

// serve hands up to n ready strips more to kind k, moving others where that makes
// room, and returns how many it could.
func (f *flow) serve(k, n int32) (done int32) {
	for done < n {
		clear(f.seen)
		more := f.augment(k, n-done)
		if more == 0 {
			break
		}
		done += more
	}
	return done
}

// augment finds a chain of moves that frees up to most ready strips for kind k.
func (f *flow) augment(k, most int32) int32 {
	for i, l := range f.p.lying {
		if f.seen[i] || !f.t.lying[l].serves(&f.t.kinds[k]) {
			continue
		}
		f.seen[i] = true
		freed := min(most, f.spare[i])
		f.spare[i] -= freed
		for _, other := range f.p.kinds {
			if freed == 0 && f.given[i][other] > 0 {
				freed = f.augment(other, min(most, f.given[i][other]))
				f.given[i][other] -= freed
			}
		}
		if freed > 0 {
			f.given[i][k] += freed
			return freed
		}
	}
	return 0
}

// richest returns the choice of p's strips that is worth most at prices, and its
// worth, among those in which the first len(fixed) kinds get just that many; false
// where there is none.
func (t *timber) richest(p *pool, prices []int64, fixed []int32) (take, int64, bool) {
	f := t.flow(p)
	counts := make([]int32, len(t.kinds))
	total := int32(0)
	for i, n := range fixed {
		if f.serve(p.kinds[i], n) < n {
			return nil, 0, false
		}
		counts[p.kinds[i]] = n
		total += n
	}
	free := slices.Clone(p.kinds[len(fixed):])
	slices.SortStableFunc(free, func(a, b int32) int { return cmp.Compare(prices[b], prices[a]) })
	for _, k := range free {
		counts[k] = f.serve(k, t.want[k])
		total += counts[k]
	}
	if total < p.size {
		return nil, 0, false
	}
	c := takeOf(counts)
	return c, c.worth(prices), true
}

// choices tells found of every choice of p's strips worth at least floor, until it
// gives false.
func (t *timber) choices(p *pool, prices []int64, floor int64, found func(take, int64) bool) bool {
	var fixed []int32
	var next func() bool
	next = func() bool {
		c, worth, ok := t.richest(p, prices, fixed)
		if !ok || worth < floor {
			return true
		}
		if len(fixed) == len(p.kinds) {
			return found(c, worth)
		}
		most := min(p.size, t.want[p.kinds[len(fixed)]])
		for n := most; n >= 0; n-- {
			fixed = append(fixed, n)
			ok := next()
			fixed = fixed[:len(fixed)-1]
			if !ok {
				return false
			}
		}
		return true
	}
	return next()
}

// handOut returns, for each of the timber's ready strips, how many go to each kind,
// when p serves c: those that come first in the timber's order serve first.
func (t *timber) handOut(p *pool, c take) [][]int32 {
	given := make([][]int32, len(t.lying))
	for i := range given {
		given[i] = make([]int32, len(t.kinds))
	}
	open := make([]int32, len(t.kinds))
	c.addTo(open)
	var seen []bool
	var place func(l int32) bool
	place = func(l int32) bool {
		for _, k := range p.kinds {
			if seen[k] || !t.lying[l].serves(&t.kinds[k]) {
				continue
			}
			seen[k] = true
			if open[k] > 0 {
				open[k]--
				given[l][k]++
				return true
			}
			for _, other := range p.lying {
				if given[other][k] > 0 && other != l && place(other) {
					given[other][k]--
					given[l][k]++
					return true
				}
			}
		}
		return false
	}
	for _, l := range p.lying {
		for range t.lying[l].items {
			seen = make([]bool, len(t.kinds))
			if !place(l) {
				break
			}
		}
	}
	return given
}
