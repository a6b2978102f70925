package ceiling

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// A timber is the rack: pools of what strips may be of, and what there is of each.
type timber struct {
	coarse bool // all timber of a species is one pool
	pools  []pool
	kinds  []kind
	woods  []wood
}

// A pool is timber that strips of a kind may come from: rings are not told apart, for pieces
// show both theirs and these turned over.
type pool struct {
	poolKey
	widths []length.Length // that strips are sawn to
	stacks []stack
	ready  []unit
}

type poolKey struct {
	species  string
	moisture pattern.Reading
	colour   colour.Own
}

// A unit is timber of one length: how much of it, in whole millimetres with a crosscut, or the
// length of a ready strip.
type unit struct {
	long  int
	count float64
	ready
}

// Ready is what a ready strip is.
type ready struct {
	at    []int   // of each thickness the place of its length in the grid; below 0: none
	wide  float64 // with what a sawn one would take
	exact rack.Strip
}

// A stack is pieces of one section.
type stack struct {
	ways  []slicing
	units []unit // the longest first
}

// A slicing is a way to slice a section: how many slices of each thickness, and how much width
// of strips one of them gives at most, with what they take beside it.
type slicing struct {
	full   float64
	slices []float64
}

// A wood is what neighbours are judged by.
type wood struct {
	pool  int
	rings pattern.Rings
	light float64 // CIELAB L under oil
}

// A kind is strips of a wood and a width.
type kind struct {
	wood  int
	width length.Length
	ready bool            // some ready strip of the pool is so wide
	reach []length.Length // by thickness, the longest
}

// volumeDM3 returns how much timber there is.
func (j Job) volumeDM3() (dm3 float64) {
	for _, p := range j.Rack.Pieces {
		dm3 += p.VolumeCM3() / 1000
	}
	for _, r := range j.Rack.Strips {
		dm3 += times(float64(r.Quantity), length.VolumeCM3(r.Length, r.Width, r.Thickness)) / 1000
	}
	return dm3
}

func (c *Ceiling) poolOf(s pattern.Strip) int {
	key := c.key(s.Species, s.Moisture, s.Colour)
	return slices.IndexFunc(c.pools, func(p pool) bool { return p.poolKey == key })
}

func (c *Ceiling) key(species string, moisture pattern.Reading, own colour.Own) poolKey {
	if c.coarse {
		return poolKey{species: species}
	}
	return poolKey{species, moisture, own}
}

// gather parts the rack into pools, in its order, and lists the kinds of strips.
func (c *Ceiling) gather() {
	at := func(key poolKey) int {
		i := slices.IndexFunc(c.pools, func(p pool) bool { return p.poolKey == key })
		if i < 0 {
			i = len(c.pools)
			c.pools = append(c.pools, pool{poolKey: key, widths: slices.Clone(c.job.Widths)})
			if c.accents() {
				c.pools[i].widths = append(c.pools[i].widths, c.narrow())
			}
		}
		return i
	}
	for _, r := range c.job.Rack.Strips {
		at(c.key(r.Species, r.Moisture, r.Colour))
	}
	for _, p := range c.job.Rack.Pieces {
		at(c.key(p.Species, p.Moisture, p.Colour))
	}
	for _, h := range c.job.Held {
		for _, s := range h.Pattern.Strips {
			if p := c.poolOf(s); p >= 0 {
				c.pools[p].widths = append(c.pools[p].widths, s.Width)
			}
		}
	}
	for i := range c.pools {
		slices.Sort(c.pools[i].widths)
		c.pools[i].widths = slices.Compact(c.pools[i].widths)
	}
	for _, r := range c.job.Rack.Strips {
		i := at(c.key(r.Species, r.Moisture, r.Colour))
		c.put(i, r.Rings, r.Width, true, func(g length.Length) length.Length {
			if r.Thickness >= g {
				return r.Length
			}
			return 0
		})
		u := unit{count: float64(r.Quantity), ready: ready{wide: (r.Width + c.beside1()).MM(), exact: r}}
		c.pools[i].ready = append(c.pools[i].ready, u)
	}
	for _, p := range c.job.Rack.Pieces {
		i := at(c.key(p.Species, p.Moisture, p.Colour))
		for _, clear := range p.Clear() {
			c.pieces(i, clear.Piece)
		}
	}
}

// pieces adds clear pieces to a pool.
func (c *Ceiling) pieces(i int, p rack.Piece) {
	long := p.Length - 2*c.shop.Allowance.EndTrim
	if long <= 0 {
		return
	}
	across, depth := p.Width, p.Thickness
	if !p.Planed {
		across, depth = across-c.shop.Allowance.Truing, depth-c.shop.Allowance.Truing
	}
	var s stack
	lies := func(across, depth length.Length, rings pattern.Rings) {
		s.ways = append(s.ways, c.slicings(&c.pools[i], across, depth, p.Planed)...)
		for _, w := range c.pools[i].widths {
			if across >= w+c.shop.Allowance.Jointing {
				c.put(i, rings, w, false, func(g length.Length) length.Length {
					if c.thick(g, p.Planed) <= depth {
						return long
					}
					return 0
				})
			}
		}
	}
	lies(across, depth, p.Rings)
	if !p.Planed {
		lies(depth, across, p.Rings.Rolled())
	}
	if len(s.ways) == 0 {
		return
	}
	u := unit{long: int((long + c.shop.Kerf.Crosscut + length.Millimetre - 1) / length.Millimetre), count: float64(p.Quantity)}
	same := func(o stack) bool {
		return slices.EqualFunc(o.ways, s.ways, func(a, b slicing) bool { return a.full == b.full && slices.Equal(a.slices, b.slices) })
	}
	at := slices.IndexFunc(c.pools[i].stacks, same)
	if at < 0 {
		at = len(c.pools[i].stacks)
		c.pools[i].stacks = append(c.pools[i].stacks, s)
	}
	all := &c.pools[i].stacks[at].units
	*all = append(*all, u)
	slices.SortStableFunc(*all, func(a, b unit) int { return b.long - a.long })
}

// thick returns how thick a slice is sawn for strips so thick before flattening.
func (c *Ceiling) thick(glued length.Length, planed bool) length.Length {
	if planed {
		return glued
	}
	return glued + c.shop.Allowance.Planing
}

// put adds a kind, or lengthens its reach.
func (c *Ceiling) put(pool int, rings pattern.Rings, width length.Length, ready bool, reach func(glued length.Length) length.Length) {
	if c.coarse {
		rings = pattern.Rings{}
	}
	w := slices.IndexFunc(c.woods, func(o wood) bool { return o.pool == pool && o.rings == rings })
	if w < 0 {
		w = len(c.woods)
		known, _ := c.job.Physics.Table().Get(c.pools[pool].species)
		c.woods = append(c.woods, wood{pool, rings, c.pools[pool].colour.Or(known.ColourOiled).Lightness()})
	}
	k := slices.IndexFunc(c.kinds, func(o kind) bool { return o.wood == w && o.width == width })
	if k < 0 {
		k = len(c.kinds)
		c.kinds = append(c.kinds, kind{wood: w, width: width, reach: make([]length.Length, len(c.glued))})
	}
	c.kinds[k].ready = c.kinds[k].ready || ready
	for g, glued := range c.glued {
		c.kinds[k].reach[g] = max(c.kinds[k].reach[g], reach(glued))
	}
}

// slicings lists the ways to slice a section so wide and deep that no other is better than.
func (c *Ceiling) slicings(p *pool, across, depth length.Length, planed bool) (out []slicing) {
	full := c.fill(p.widths, across)
	if full <= 0 {
		return nil
	}
	between := c.shop.Kerf.Resaw + c.shop.Allowance.Cleaning
	high := c.shop.Machine.BandsawHeight
	one := planed || high > 0 && across > high
	counts := make([]float64, len(c.glued))
	var from func(g int, room length.Length, n int)
	from = func(g int, room length.Length, n int) {
		if g == len(c.glued) {
			for g := range c.glued { // could one more be sawn, another way is better
				if (n == 0 || !one) && c.thick(c.glued[g], planed)+between <= room {
					return
				}
			}
			if n > 0 {
				out = append(out, slicing{full, slices.Clone(counts)})
			}
			return
		}
		takes := c.thick(c.glued[g], planed) + between
		for k := 0; length.Length(k)*takes <= room && (!one || n+k <= 1); k++ {
			counts[g] = float64(k)
			from(g+1, room-length.Length(k)*takes, n+k)
		}
		counts[g] = 0
	}
	from(0, depth+between, 0)
	return out
}

// fill returns the most width of strips that a slice gives, in millimetres, with what they take
// beside it: an unbounded knapsack over tenths of a millimetre, rounded so that it says too
// much rather than too little.
func (c *Ceiling) fill(widths []length.Length, across length.Length) float64 {
	const grain = length.Millimetre / 10
	whole := across + c.shop.Kerf.Rip
	if whole <= 0 {
		return 0
	}
	best := make([]length.Length, (whole+grain-1)/grain+1)
	for at := 1; at < len(best); at++ {
		best[at] = best[at-1]
		for _, w := range widths {
			takes := w + c.beside1()
			if n := int(takes / grain); n > 0 && n <= at {
				best[at] = max(best[at], best[at-n]+takes)
			}
		}
	}
	return min(best[len(best)-1], whole).MM()
}
