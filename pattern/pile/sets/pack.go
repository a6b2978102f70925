package sets

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// A packer packs what is asked of a lot into its pieces, quickly: section after section, the
// longest strip that is left first, each time the section that makes most of its timber. It
// does so several times, a little differently each time. What it packs can be cut; what it does
// not may be for the planner to cut.
type packer struct {
	*search
	units []unit
	left  []asked
	done  []packed
	hands []handed
	over  length.Length // that a strip may be cut from a longer section
	loose float64
	dice  dice // of its own, so that it packs the same again
}

// seed returns dice for items of a lot.
func seed(at int, items []item) dice {
	d := dice(at)
	for _, it := range items {
		for _, n := range []length.Length{it.thickness, it.width, it.length} {
			d = dice(d.throw()) + dice(n)
		}
	}
	return d
}

// An asked is strips that are alike.
type asked struct {
	item
	glued  length.Length
	across length.Length // with what is jointed off
	count  int
	from   []origin
}

// A packed is one section of a unit: its slices, with how many of each of what is asked.
type packed struct {
	unit   int
	side   bool
	long   length.Length
	slices []sliced
}

type sliced struct {
	sawn length.Length
	fill []int
}

// A handed is a ready strip that serves one of what is asked.
type handed struct{ unit, asked int }

// A unit is one clear piece, or one ready strip.
type unit struct {
	section
	rings pattern.Rings
	id    string
	piece *rack.Piece // nil: a ready strip
	copy  int
	left  length.Length // of its length, with a crosscut
}

// sawn reports whether pieces are ripped to a width: else only ready strips have it.
func (s *search) sawn(width length.Length) bool {
	return slices.Contains(s.usual, width) || s.accents && width == s.narrow()
}

// packs is how often a lot is packed.
const packs = 10

// unitsOf lists the timber of a lot.
func (s *search) unitsOf(l *lot) []unit {
	sh := &s.shop
	var out []unit
	for _, p := range l.rack.Pieces {
		for _, c := range p.Clear() {
			if long := c.Length - 2*sh.Allowance.EndTrim + sh.Kerf.Crosscut; long > 0 {
				for n := range min(p.Quantity, mostAlike) {
					out = append(out, unit{section: s.section(c.Piece), rings: c.Rings, id: c.ID, piece: &c.Piece, copy: n + 1, left: long})
				}
			}
		}
	}
	for _, r := range l.rack.Strips {
		for n := range min(r.Quantity, mostAlike) {
			out = append(out, unit{section: s.section(rack.Piece{Width: r.Width, Thickness: r.Thickness}), rings: r.Rings,
				id: r.ID, copy: n + 1, left: r.Length})
		}
	}
	return out
}

// mostAlike bounds the pieces of one entry that are packed.
const mostAlike = 40

// packedOf returns how items of a lot are packed, or were planned; nil where they were not.
func (s *search) packedOf(at int, items []item) *packer {
	if p := s.plans[keyOfItems(at, items)]; p != nil {
		return p
	}
	return s.pack(at, items)
}

// pack packs items; nil where not all of them were packed.
func (s *search) pack(at int, items []item) *packer {
	l := &s.lots[at]
	if l.units == nil {
		l.units = s.unitsOf(l)
	}
	p := &packer{search: s, dice: seed(at, items), over: max(0, s.shop.Allowance.OverLength-stop)}
	all := p.askedOf(items, 0)
	parted := slices.ContainsFunc(items, func(it item) bool { return it.ways > 0 })
	for n := range packs {
		if parted && n > 0 {
			all = p.askedOf(items, n)
		}
		p.units, p.left, p.done, p.hands = append(p.units[:0], l.units...), append(p.left[:0], all...), nil, nil
		if n > 0 {
			p.loose = 0.25
		}
		if p.all() {
			return p
		}
	}
	return nil
}

// An origin is the item that a strip is asked for, and the piece of it, from 0.
type origin struct{ item, way, piece int }

// askedOf gathers items that are alike, the longest first. What may be laid from pieces is
// taken whole at first, then in most pieces, and then in any way.
func (p *packer) askedOf(items []item, try int) []asked {
	var out []asked
	add := func(it item, from origin) {
		i := slices.IndexFunc(out, func(a asked) bool { return a.item == it })
		if i < 0 {
			i = len(out)
			out = append(out, asked{item: it, glued: p.shop.Glued(it.thickness), across: it.width + p.shop.Allowance.Jointing})
		}
		out[i].count++
		out[i].from = append(out[i].from, from)
	}
	for n, it := range items {
		if it.ways == 0 {
			add(it, origin{item: n})
			continue
		}
		ways := p.ways[it.ways-1]
		way := 0
		switch {
		case try == 1:
			way = len(ways) - 1
		case try > 1:
			way = p.dice.below(len(ways))
		}
		it.ways = 0
		for k, piece := range ways[way] {
			it.length = (piece.Length + stop - 1) / stop * stop
			add(it, origin{n, way, k})
		}
	}
	slices.SortStableFunc(out, func(a, b asked) int {
		return cmp.Or(cmp.Compare(b.length, a.length), cmp.Compare(b.glued, a.glued), cmp.Compare(b.width, a.width))
	})
	return out
}

// all packs what is left, until nothing is.
func (p *packer) all() bool {
	p.hand()
	for {
		first := slices.IndexFunc(p.left, func(a asked) bool { return a.count > 0 })
		if first < 0 {
			return true
		}
		most := 0.0
		var best packed
		for i := range p.units {
			u := &p.units[i]
			if u.piece == nil || u.left < p.left[first].length+u.shop.Kerf.Crosscut || i > 0 && u.like(&p.units[i-1]) {
				continue
			}
			for side := range 2 {
				if score, slices := p.stack(u, side == 1, first); score > most {
					best, most = packed{i, side == 1, p.left[first].length, slices}, score
				}
			}
		}
		if best.slices == nil {
			return false
		}
		u := &p.units[best.unit]
		u.left -= best.long + u.shop.Kerf.Crosscut
		for _, slice := range best.slices {
			for i, n := range slice.fill {
				p.left[i].count -= n
			}
		}
		p.done = append(p.done, best)
	}
}

// like reports whether two units are alike for the saw.
func (u *unit) like(o *unit) bool {
	return u.section == o.section && u.rings == o.rings && (u.piece == nil) == (o.piece == nil) && u.left == o.left
}

// hand gives ready strips to the longest that each serves, the shortest ready strip first.
func (p *packer) hand() {
	for i := range p.units {
		u := &p.units[i]
		if u.piece != nil {
			continue
		}
		for k := range p.left {
			a := &p.left[k]
			if a.count > 0 && a.width == u.Width && a.glued <= u.Thickness && a.length <= u.left && sections.Shows(u.rings, a.rings) {
				a.count--
				p.hands = append(p.hands, handed{i, k})
				break
			}
		}
	}
}

// stack fills a section of a unit, as long as what comes first, with slices. It returns what
// it makes of its timber, 0 where it has no room for that, and its slices.
func (p *packer) stack(u *unit, side bool, first int) (float64, []sliced) {
	across, depth := u.lies()
	at, rings := 0, u.rings
	if side {
		if u.Planed || across[0] == depth[0] && !u.rings.Known() {
			return 0, nil
		}
		at, rings = 1, u.rings.Rolled()
	}
	long := p.left[first].length
	taken := make([]int, len(p.left))
	var out []sliced
	room, value := depth[at], 0.0
	between := u.shop.Kerf.Resaw + u.shop.Allowance.Cleaning
	for n := 0; ; n++ {
		best, area := []int(nil), 0.0
		var sawn length.Length
		for k := range p.left {
			a := &p.left[k]
			if n == 0 && k != first || a.count-taken[k] <= 0 || long-a.length > p.over || !p.sawn(a.width) {
				continue
			}
			thick := a.glued + u.shop.Allowance.Planing
			if u.Planed {
				if thick = u.Thickness; a.glued > thick {
					continue
				}
			}
			if thick > room || sawn == thick && n > 0 { // one of each thickness is enough to look at
				continue
			}
			must := -1
			if n == 0 {
				must = k
			}
			fill, sum := p.slice(across[at]+u.shop.Kerf.Rip, a.glued, long, rings, taken, must)
			if sum *= a.glued.MM(); sum > area {
				best, area, sawn = fill, sum, thick
			}
		}
		if best == nil {
			break
		}
		for k, c := range best {
			taken[k] += c
		}
		out = append(out, sliced{sawn, best})
		value += area
		room -= sawn + between
		if u.Planed || u.shop.Machine.BandsawHeight > 0 && across[at] > u.shop.Machine.BandsawHeight {
			break
		}
	}
	if value == 0 {
		return 0, nil
	}
	cost := u.Width.MM() * u.Thickness.MM() * (long + u.shop.Kerf.Crosscut).MM()
	if rest := u.left - long - u.shop.Kerf.Crosscut; rest < p.shortest(taken) { // what is left of it is of no use
		cost += float64(u.Width.MM() * u.Thickness.MM() * rest.MM() / 2)
	}
	return value / cost * p.dice.about(1+p.loose), out
}

// shortest returns how long the shortest strip is that is left beside what is taken.
func (p *packer) shortest(taken []int) length.Length {
	for k := len(p.left) - 1; k >= 0; k-- {
		if p.left[k].count > taken[k] {
			return p.left[k].length
		}
	}
	return 0
}

// mostFills bounds the ways to rip a slice that are looked at.
const mostFills = 300

// slice fills the width of a slice: strips of one thickness that are near enough to the
// section's length; must is one that has to be there, or below 0. It returns how many of each,
// and their area in square millimetres.
func (p *packer) slice(room, glued, long length.Length, rings pattern.Rings, taken []int, must int) (best []int, area float64) {
	var may []int
	for k := range p.left {
		a := &p.left[k]
		if a.glued == glued && a.count > taken[k] && long-a.length <= p.over && a.length <= long && sections.Shows(rings, a.rings) && p.sawn(a.width) {
			may = append(may, k)
		}
	}
	if must >= 0 && !slices.Contains(may, must) {
		return nil, 0
	}
	kerf := p.shop.Kerf.Rip
	fill := make([]int, len(p.left))
	tries := 0
	var from func(n int, room length.Length, sum float64)
	from = func(n int, room length.Length, sum float64) {
		tries++
		if sum > area && (must < 0 || fill[must] > 0) {
			best, area = slices.Clone(fill), sum
		}
		if n == len(may) || tries > mostFills {
			return
		}
		k := may[n]
		a := &p.left[k]
		for c := min(a.count-taken[k], int(room/(a.across+kerf))); c >= 0; c-- {
			fill[k] = c
			from(n+1, room-length.Length(c)*(a.across+kerf), sum+float64(float64(c)*a.width.MM()*a.length.MM()))
		}
		fill[k] = 0
	}
	from(0, room, 0)
	return best, area
}
