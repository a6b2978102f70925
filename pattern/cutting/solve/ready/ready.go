// Package ready hands out the ready strips of one timber: which kinds of strips they can
// serve together, and which of them serve best at given prices.
package ready

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// Strips are the ready strips of one timber, parted into pools that are handed out each by
// itself, and what is asked of them.
type Strips struct {
	kinds []cutting.Strip
	want  []int32 // strips asked of each kind
	lying []alike
	pools []pool
	loose bool // how many strips are asked for is open, and a pool may serve fewer than it can
}

// An alike is ready strips that are alike.
type alike struct {
	rack.Strip
	copies []Handed
}

// A Handed is one ready strip, and the kind that it serves.
type Handed struct {
	ID   string
	Copy int
	Kind int32
}

// New returns the ready strips of a rack that can serve some of these kinds, of each of which
// so many are wanted, or, where loose, so many at most.
func New(r rack.Rack, species string, kinds []cutting.Strip, want []int32, loose bool) *Strips {
	s := &Strips{kinds: kinds, want: want, loose: loose}
	s.addLying(r, species)
	s.addPools()
	return s
}

// Pools returns how many pools there are.
func (s *Strips) Pools() int { return len(s.pools) }

// addLying gathers alike ready strips, in the order in which they are best used:
// those to use first, then the shortest, then the thinnest, then as the rack has them.
func (s *Strips) addLying(r rack.Rack, species string) {
	type key struct {
		width, thickness, length length.Length
		rings                    pattern.Rings
		useFirst                 bool
	}
	at := map[key]int{}
	for _, strip := range r.Strips {
		if strip.Species != species {
			continue
		}
		k := key{strip.Width, strip.Thickness, strip.Length, strip.Rings, strip.UseFirst}
		i, ok := at[k]
		if !ok {
			i = len(s.lying)
			at[k] = i
			s.lying = append(s.lying, alike{Strip: strip})
		}
		for n := range strip.Quantity {
			s.lying[i].copies = append(s.lying[i].copies, Handed{ID: strip.ID, Copy: n + 1})
		}
	}
	slices.SortStableFunc(s.lying, func(a, b alike) int {
		if a.UseFirst != b.UseFirst {
			if a.UseFirst {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(a.Length, b.Length), cmp.Compare(a.Thickness, b.Thickness))
	})
}

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
func (l *alike) serves(k *cutting.Strip) bool {
	return l.Width == k.Width && l.Length >= k.Length && l.Thickness >= k.Glued && sections.Shows(l.Rings, k.Rings)
}

// addPools parts kinds and ready strips into pools.
func (s *Strips) addPools() {
	pooled := make([]bool, len(s.lying))
	for i := range s.lying {
		p := pool{}
		var add func(l int)
		add = func(l int) {
			if pooled[l] {
				return
			}
			pooled[l] = true
			p.lying = append(p.lying, int32(l))
			for k := range s.kinds {
				if !s.lying[l].serves(&s.kinds[k]) || slices.Contains(p.kinds, int32(k)) {
					continue
				}
				p.kinds = append(p.kinds, int32(k))
				for other := range s.lying {
					if s.lying[other].serves(&s.kinds[k]) {
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
		f := s.flow(&p)
		for _, k := range p.kinds {
			if !s.loose {
				p.size += f.serve(k, s.want[k])
			}
		}
		s.pools = append(s.pools, p)
	}
	slices.SortFunc(s.pools, func(a, b pool) int { return cmp.Compare(a.lying[len(a.lying)-1], b.lying[len(b.lying)-1]) })
}

// A flow hands ready strips of a pool to kinds.
type flow struct {
	s     *Strips
	p     *pool
	spare []int32   // of each of the pool's ready strips
	given [][]int32 // of each of them, to each of the timber's kinds
	seen  []bool    // each of them, by the chain of moves that is looked for
}

func (s *Strips) flow(p *pool) *flow {
	f := &flow{s: s, p: p, seen: make([]bool, len(p.lying))}
	for _, l := range p.lying {
		f.spare = append(f.spare, int32(len(s.lying[l].copies)))
		f.given = append(f.given, make([]int32, len(s.kinds)))
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
		if f.seen[i] || !f.s.lying[l].serves(&f.s.kinds[k]) {
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

// Richest returns the choice of a pool's strips that is worth most at prices, and its worth;
// where loose, of no more than left.
func (s *Strips) Richest(pool int, prices []int64, left []int32) (sections.Take, int64) {
	c, worth, _ := s.richest(&s.pools[pool], prices, left, nil)
	return c, worth
}

// richest is Richest among the choices in which the first len(fixed) kinds get just that
// many; false where there is none.
func (s *Strips) richest(p *pool, prices []int64, left, fixed []int32) (sections.Take, int64, bool) {
	if !s.loose {
		left = s.want
	}
	f := s.flow(p)
	counts := make([]int32, len(s.kinds))
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
		if s.loose && prices[k] < 0 {
			break // it is worth more to serve fewer
		}
		counts[k] = f.serve(k, max(0, left[k]))
		total += counts[k]
	}
	if total < p.size {
		return nil, 0, false
	}
	c := sections.TakeOf(counts)
	return c, c.Worth(prices), true
}

// Choices tells found of every choice of a pool's strips worth at least floor, until it
// gives false.
func (s *Strips) Choices(pool int, prices []int64, floor int64, found func(sections.Take, int64) bool) bool {
	p, fixed := &s.pools[pool], []int32(nil)
	var next func() bool
	next = func() bool {
		c, worth, ok := s.richest(p, prices, s.want, fixed)
		if !ok || worth < floor {
			return true
		}
		if len(fixed) == len(p.kinds) {
			return found(c, worth)
		}
		most := s.want[p.kinds[len(fixed)]]
		if !s.loose {
			most = min(p.size, most)
		}
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

// HandOut returns the ready strips that go to each kind when a pool serves c: those that are
// best used first serve first.
func (s *Strips) HandOut(pool int, c sections.Take) []Handed {
	p := &s.pools[pool]
	given := make([][]int32, len(s.lying))
	for i := range given {
		given[i] = make([]int32, len(s.kinds))
	}
	open := make([]int32, len(s.kinds))
	c.AddTo(open)
	var seen []bool
	var place func(l int32) bool
	place = func(l int32) bool {
		for _, k := range p.kinds {
			if seen[k] || !s.lying[l].serves(&s.kinds[k]) {
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
		for range s.lying[l].copies {
			seen = make([]bool, len(s.kinds))
			if !place(l) {
				break
			}
		}
	}
	var handed []Handed
	for l, counts := range given {
		copies := s.lying[l].copies
		for k, n := range counts {
			for range n {
				handed = append(handed, Handed{copies[0].ID, copies[0].Copy, int32(k)})
				copies = copies[1:]
			}
		}
	}
	return handed
}
