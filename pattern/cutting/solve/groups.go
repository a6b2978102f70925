package solve

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/tell"
)

// Strips that may be made of several pieces are planned in groups of strips alike in all
// and in ways. What is asked of each kind of piece then depends on the ways taken, while
// all that is proved goes by a number of each kind that is asked for whatever is chosen. So
// as many are asked for as the ways of all strips could want at most, and a strip that
// takes a way hands those of its most back that the way is without: a way is a column like
// the choice of a pool of ready strips, taken for each strip just once, at what its joints
// count for. A strip that is short hands all back. With that, demand is an equality as
// ever, and every bound holds.

// A group is strips that are alike in all and in ways.
type group struct {
	strips []int   // places in the list of choices
	order  [][]int // of each of them: which way of its own each of the group's is
	ways   []groupWay
	most   sections.Take // what any way wants of each kind at most

	columns, free []column // of each way, then that of a strip short; free ones at no cost
}

// A groupWay is one way to make a strip of pieces.
type groupWay struct {
	pieces []int32       // kinds, ascending
	rest   sections.Take // of the group's most, what it is without
	cost   int64         // of its joints
}

// joined reports whether the timber's strips may be made of several pieces.
func (t *timber) joined() bool { return t.groups != nil }

// addGroups gathers strips that are alike in ways, and the kinds of all their pieces.
func (t *timber) addGroups(choices []cutting.Choice, places []int) {
	of := t.addPieces(choices, places)
	var alike tell.Groups[string, int]
	orders := map[int][]int{}
	for _, place := range places {
		ways := of[place]
		order := make([]int, len(ways))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return slices.Compare(ways[a], ways[b]) })
		key := ""
		for _, w := range order {
			key += fmt.Sprint(ways[w])
		}
		orders[place] = order
		alike.Add(key, place)
	}
	t.Want = make([]int32, len(t.Kinds))
	joint := sections.Units(t.Shop.Draw.JointCM3)
	for _, strips := range alike.All() {
		g := group{strips: strips}
		for _, place := range strips {
			g.order = append(g.order, orders[place])
		}
		most := make([]int32, len(t.Kinds))
		for _, w := range g.order[0] {
			pieces := of[strips[0]][w]
			g.ways = append(g.ways, groupWay{pieces: pieces, cost: joint * int64(len(pieces)-1)})
			for k, n := range countsOf(pieces, len(t.Kinds)) {
				most[k] = max(most[k], n)
			}
		}
		for i := range g.ways {
			rest := slices.Clone(most)
			for _, k := range g.ways[i].pieces {
				rest[k]--
			}
			g.ways[i].rest = sections.TakeOf(rest)
		}
		g.most = sections.TakeOf(most)
		for range strips {
			g.most.AddTo(t.Want)
		}
		t.groups = append(t.groups, g)
	}
}

// addColumns makes the columns of the groups; those of the pools stand before them.
func (t *timber) addColumns() {
	for n := range t.groups {
		g := &t.groups[n]
		for way := range len(g.ways) + 1 {
			c := t.wayColumn(n, way)
			g.columns = append(g.columns, c)
			c.cost = 0
			g.free = append(g.free, c)
		}
	}
}

// addPieces gathers the kinds of all pieces, the longest first, and returns those of each
// way of each strip, ascending.
func (t *timber) addPieces(choices []cutting.Choice, places []int) map[int][][]int32 {
	at := map[kindKey]int32{}
	each := func(do func(place, way int, n cutting.Strip)) {
		for _, place := range places {
			for w, way := range choices[place].Ways {
				for _, n := range way {
					do(place, w, n)
				}
			}
		}
	}
	each(func(_, _ int, n cutting.Strip) {
		if _, known := at[keyOf(n)]; !known {
			at[keyOf(n)] = 0
			t.Kinds = append(t.Kinds, n)
		}
	})
	slices.SortStableFunc(t.Kinds, longestFirst)
	for k, n := range t.Kinds {
		at[keyOf(n)] = int32(k)
	}
	of := map[int][][]int32{}
	for _, place := range places {
		of[place] = make([][]int32, len(choices[place].Ways))
	}
	each(func(place, way int, n cutting.Strip) { of[place][way] = append(of[place][way], at[keyOf(n)]) })
	for _, ways := range of {
		for _, pieces := range ways {
			slices.Sort(pieces)
		}
	}
	return of
}

func countsOf(pieces []int32, kinds int) []int32 {
	counts := make([]int32, kinds)
	for _, k := range pieces {
		counts[k]++
	}
	return counts
}

func longestFirst(a, b cutting.Strip) int {
	return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(b.Across, a.Across), cmp.Compare(b.Sawn, a.Sawn))
}

// groupStock returns what a column of group n has for its stock.
func (t *timber) groupStock(n int) int32 { return int32(-1 - t.ready.Pools() - n) }

// groupOf returns the group that a column is of; below 0: none.
func (t *timber) groupOf(c *column) int {
	if c.stock >= 0 || !t.joined() {
		return -1
	}
	return int(-1-c.stock) - t.ready.Pools()
}

// wayColumn returns the column in which a strip of group n takes a way; the one behind the
// last is that it is short.
func (t *timber) wayColumn(n, way int) column {
	g := &t.groups[n]
	c := column{stock: t.groupStock(n), way: int32(way)}
	if way == len(g.ways) {
		c.take, c.short = g.most, 1
	} else {
		c.take, c.cost = g.ways[way].rest, g.ways[way].cost
	}
	return c
}

// wayColumns lists the columns of group n, strips short among them where p has any; where
// pieces cost nothing joints do not either.
func (p *problem) wayColumns(n int) []column {
	g := &p.t.groups[n]
	out := g.columns
	if p.free {
		out = g.free
	}
	if !p.charged() {
		return out[:len(g.ways)]
	}
	return out
}

// gain returns what a column is worth at prices above its cost, with sigma charged for a
// strip short.
func (c *column) gain(prices []int64, sigma int64) int64 {
	return c.take.Worth(prices) - c.cost - sigma*int64(c.short)
}

// priceGroups finds the best way of each group of which strips are to be given.
func (p *problem) priceGroups(d *dual) {
	d.groups = make([]int64, len(p.strips))
	for n, strips := range p.strips {
		if strips == 0 {
			continue
		}
		d.groups[n] = -unknown
		for _, c := range p.wayColumns(n) {
			d.groups[n] = max(d.groups[n], c.gain(d.prices, d.sigma))
		}
	}
}

// open returns how many strips have their way still to be chosen.
func (p *problem) open() int32 { return total(p.strips) }

// plain returns a way of group n that hands nothing back, so that no kind of what is wanted
// tells when it is taken, and where strips may be too many any way; nil where there is none.
func (p *problem) plain(n int) *column {
	for i, c := range p.wayColumns(n) {
		if c.short == 0 && (len(c.take) == 0 || p.free) {
			return &p.wayColumns(n)[i]
		}
	}
	return nil
}

// count adds up what the columns of s cost, and the strips short.
func (s *solution) count() {
	s.cost, s.missing = 0, total(s.short)
	for i := range s.columns {
		s.cost += s.columns[i].cost
		s.missing += s.columns[i].short
	}
}

// shortable reports whether strips may be short kind by kind.
func (p *problem) shortable() bool { return p.charged() && !p.t.joined() }

// noPlan is how many strips are short of what is no solution.
const noPlan = 1 << 20

// greedyTries is how many times ways are chosen for a greedy solution, each time with those
// pieces dearer that were not to be had.
const greedyTries = 6

// choose is greedy where ways are to be chosen: each strip takes the one whose pieces cost
// least at prices, and those that cannot be had are short.
func (p *problem) choose(pr *pricer, prices []int64) (solution, bool) {
	prices = slices.Clone(prices)
	best := solution{short: make([]int32, len(p.want)), missing: noPlan}
	for range greedyTries {
		kept := p.cheapest(prices)
		missed, ok := p.serve(pr, prices, kept, &best)
		if !ok {
			return best, false
		}
		if total(missed) == 0 {
			break
		}
		for k, n := range missed {
			if n > 0 {
				prices[k] *= 2
			}
		}
	}
	return best, true
}

// cheapest returns the way of each strip whose pieces cost least at prices: of those that hand
// back no more than is still wanted, where there are any.
func (p *problem) cheapest(prices []int64) (kept []column) {
	left := slices.Clone(p.want)
	for n, strips := range p.strips {
		g := &p.t.groups[n]
		ways := slices.Clone(g.columns[:len(g.ways)])
		slices.SortStableFunc(ways, func(a, b column) int { return cmp.Compare(b.gain(prices, 0), a.gain(prices, 0)) })
		for range strips {
			c := ways[max(0, slices.IndexFunc(ways, func(c column) bool { return c.take.Within(left) }))]
			c.take.SubtractFrom(left)
			kept = append(kept, c)
		}
	}
	return kept
}

// serve fills what strips of such ways want, has those short whose pieces cannot be had, and
// keeps the solution in best where it is better. It returns the pieces that lacked at
// first.
func (p *problem) serve(pr *pricer, prices []int64, ways []column, best *solution) (missed []int32, ok bool) {
	for {
		rest, ok := p.part(ways, p.pools).greedy(pr, prices)
		if !ok {
			return nil, false
		}
		if missed == nil {
			missed = slices.Clone(rest.short)
		}
		if rest.missing == 0 {
			if s := p.join(ways, &rest); cmp.Or(cmp.Compare(s.missing, best.missing), cmp.Compare(s.cost, best.cost)) < 0 {
				*best = *s
			}
			return missed, true
		}
		lacks := rest.short
		some := false
		for i := range ways {
			n := p.t.groupOf(&ways[i])
			if ways[i].short > 0 || !wants(p.t.groups[n].ways[ways[i].way].pieces, lacks) {
				continue
			}
			for _, k := range p.t.groups[n].ways[ways[i].way].pieces {
				lacks[k]--
			}
			ways[i] = p.t.groups[n].columns[len(p.t.groups[n].ways)]
			some = true
		}
		if !some { // what lacks is of strips whose ways stay
			return missed, true
		}
	}
}

// trimWays returns a solution of a free problem without the pieces that it has too many of;
// nil where some lack then.
func (p *problem) trimWays(over *solution) *solution {
	s := &solution{short: slices.Clone(p.want)}
	for i := range over.columns {
		if n := p.t.groupOf(&over.columns[i]); n >= 0 {
			c := p.t.groups[n].columns[over.columns[i].way]
			c.take.SubtractFrom(s.short)
			s.columns = append(s.columns, c)
		}
	}
	q := *p
	q.want = s.short
	for _, c := range q.handOut(make([]int64, len(p.want))) {
		c.take.SubtractFrom(s.short)
		s.columns = append(s.columns, c)
	}
	if p.trimPieces(s, over); total(s.short) > 0 {
		return nil
	}
	return s
}

// wants reports whether one of pieces is of a kind that lacks.
func wants(pieces, lacks []int32) bool {
	return slices.ContainsFunc(pieces, func(k int32) bool { return lacks[k] > 0 })
}
