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
	group := make([]int, len(t.kinds)) // of each kind: 1 and up; 0: none
	lyingGroup := make([]int, len(t.lying))
	for i := range t.lying {
		at := i + 1
		for j := range t.kinds {
			if !t.lying[i].serves(&t.kinds[j]) {
				continue
			}
			if old := group[j]; old != 0 && old != at {
				for k := range group {
					if group[k] == old {
						group[k] = at
					}
				}
				for k := range lyingGroup {
					if lyingGroup[k] == old {
						lyingGroup[k] = at
					}
				}
			}
			group[j], lyingGroup[i] = at, at
		}
	}
	for g := 1; g <= len(t.lying); g++ {
		p := pool{}
		for j, at := range group {
			if at == g {
				p.kinds = append(p.kinds, int32(j))
			}
		}
		for i, at := range lyingGroup {
			if at == g {
				p.lying = append(p.lying, int32(i))
			}
		}
		if len(p.kinds) == 0 {
			continue
		}
		f := t.flow(&p)
		for _, k := range p.kinds {
			p.size += f.serve(k, t.want[k])
		}
		t.pools = append(t.pools, p)
	}
}

// A flow hands ready strips of a pool to kinds.
type flow struct {
	t     *timber
	p     *pool
	spare []int32   // of each of the pool's ready strips
	given [][]int32 // of each of them, to each of the timber's kinds
	from  []int32   // scratch: the kind a ready strip was reached from
	queue []int32
}

func (t *timber) flow(p *pool) *flow {
	f := &flow{t: t, p: p, from: make([]int32, len(p.lying))}
	for _, l := range p.lying {
		f.spare = append(f.spare, int32(len(t.lying[l].items)))
		f.given = append(f.given, make([]int32, len(t.kinds)))
	}
	return f
}

// serve hands up to n ready strips more to kind k, moving others where that makes
// room, and gives how many it could.
func (f *flow) serve(k, n int32) int32 {
	done := int32(0)
	for done < n {
		pushed := f.augment(k, n-done)
		if pushed == 0 {
			break
		}
		done += pushed
	}
	return done
}

// augment finds one chain of moves that frees a ready strip for kind k.
func (f *flow) augment(k, most int32) int32 {
	for i := range f.from {
		f.from[i] = -1
	}
	f.queue = append(f.queue[:0], k)
	via := map[int32]int32{k: -1} // of each kind reached: the ready strip it could give up
	for n := 0; n < len(f.queue); n++ {
		at := f.queue[n]
		for i, l := range f.p.lying {
			if f.from[i] >= 0 || !f.t.lying[l].serves(&f.t.kinds[at]) {
				continue
			}
			f.from[i] = at
			if f.spare[i] > 0 {
				return f.shift(int32(i), via, most)
			}
			for _, other := range f.p.kinds {
				if _, seen := via[other]; !seen && f.given[i][other] > 0 {
					via[other] = int32(i)
					f.queue = append(f.queue, other)
				}
			}
		}
	}
	return 0
}

// shift moves along the chain that ends at ready strip i.
func (f *flow) shift(i int32, via map[int32]int32, most int32) int32 {
	push := min(most, f.spare[i])
	for at := i; ; {
		back := via[f.from[at]]
		if back < 0 {
			break
		}
		push = min(push, f.given[back][f.from[at]])
		at = back
	}
	f.spare[i] -= push
	for at := i; ; {
		k := f.from[at]
		f.given[at][k] += push
		back := via[k]
		if back < 0 {
			return push
		}
		f.given[back][k] -= push
		at = back
	}
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
	c.back(open)
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
