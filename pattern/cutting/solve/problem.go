package solve

import "slices"

// A problem is a timber's demand, or a part of it, to be met from some of its
// pieces. Costs and prices are in units; see sections.PerCM3.
type problem struct {
	t      *timber
	want   []int32 // of each kind
	avail  []int32 // pieces of each stock
	pools  bool    // ready strips are handed out here; else that is settled
	strips []int32 // of each group: how many are still to be given their ways
	short  int32   // strips that stay short
	fine   int64   // above 0: any number may stay short, at this cost a strip
	free   bool    // pieces cost nothing, so that with a fine only strips short count
}

// oneStrip is the fine where only strips short count.
const oneStrip = int64(1_000_000)

// full returns the problem of the whole timber.
func (t *timber) full() *problem {
	p := &problem{t: t, want: t.Want, pools: true, avail: make([]int32, len(t.stocks))}
	for i, s := range t.stocks {
		p.avail[i] = int32(len(s.items))
	}
	for _, g := range t.groups {
		p.strips = append(p.strips, int32(len(g.strips)))
	}
	return p
}

// handed returns how many pools p hands out.
func (p *problem) handed() int {
	if p.pools {
		return p.t.ready.Pools()
	}
	return 0
}

// A solution meets a problem, but for the strips short.
type solution struct {
	columns []column // one a piece, ready strips included
	short   []int32  // of each kind
	missing int32    // sum of short
	cost    int64
}

// total returns the sum of counts.
func total(counts []int32) (sum int32) {
	for _, n := range counts {
		sum += n
	}
	return sum
}

// handOut returns what is worth most at prices of every pool that p hands out.
func (p *problem) handOut(prices []int64) []column {
	var columns []column
	left := p.want
	if p.t.joined() { // of these no more can be taken than is left
		left = slices.Clone(p.want)
	}
	for n := range p.handed() {
		c, _ := p.t.ready.Richest(n, prices, left)
		columns = append(columns, column{stock: int32(-1 - n), take: c})
		if p.t.joined() {
			c.SubtractFrom(left)
		}
	}
	return columns
}

// A dual is prices and what they prove: no solution costs less than bound.
type dual struct {
	prices []int64 // of each kind
	sigma  int64   // what a strip short is charged at; no price is above it where strips may be short
	stocks []int64 // upper bound of what any column of the stock is worth, at least 0
	pools  []int64 // worth of the richest choice of each pool
	groups []int64 // worth of the best way of a strip of each group
	bound  int64
}

// charged reports whether a strip short has a charge.
func (p *problem) charged() bool { return p.fine > 0 || p.short > 0 }

// value returns what s costs in p, fines included.
func (p *problem) value(s *solution) int64 { return s.cost + p.fine*int64(s.missing) }

// setBound fills in d.bound: the Lagrangian bound (Geoffrion 1974). A solution takes just the
// strips wanted but for those short. So it costs what these are worth at any prices, less
// for each piece opened the worth of its strips above its cost, which is at most the best of
// its stock, and that counts as 0 at least, so that pieces left unused may be counted too;
// less what pools hand out, at most the richest choice of each; less the charge of the
// strips short, of whose number no more than short are left out at the charge each, no price
// being above it. A strip of a group is given one way, worth at most the best, with the
// charge taken off where it is short.
func (p *problem) setBound(d *dual) {
	d.bound = 0
	for k, n := range p.want {
		d.bound += int64(n) * d.prices[k]
	}
	for i, best := range d.stocks {
		d.bound -= int64(p.avail[i]) * best
	}
	for _, best := range d.pools {
		d.bound -= best
	}
	for n, best := range d.groups {
		d.bound -= int64(p.strips[n]) * best
	}
	if p.fine == 0 && p.short > 0 {
		d.bound -= int64(p.short) * d.sigma
	}
}

// grain returns what every solution's cost is a multiple of. A solution costs a sum of
// opened pieces, and Costs.Cost adds up each from whole units: the whole piece or what
// opening it takes, the length of each section, the credit of each section. The greatest
// common divisor of all of them divides the sum. Sizes in whole tenths of a millimetre
// make it 1 or 10 units and more, so that a bound which rounding left a hair below the
// cost of a solution still proves it. Where not every way is listed it is 1.
func (p *problem) grain() int64 {
	g := int64(0)
	for _, grp := range p.t.groups {
		for _, w := range grp.ways {
			g = gcd(g, w.cost)
		}
	}
	for n, avail := range p.avail {
		s := &p.t.stocks[n]
		if avail == 0 || len(p.t.Sections[s.cross]) == 0 {
			continue
		}
		if !p.t.Whole[s.cross] {
			return 1
		}
		g = gcd(g, s.costs.All)
		for along, step := range s.costs.Steps {
			if step <= s.costs.Keeping { // else no piece with such a section keeps its tail
				g = gcd(gcd(g, s.costs.Open), s.costs.Along[along])
			}
		}
		for i := range p.t.Sections[s.cross] {
			if g == 1 {
				return 1
			}
			g = gcd(g, s.costs.Credited(&p.t.Sections[s.cross][i]))
		}
	}
	return max(1, g)
}

// ceil returns the least multiple of grain that is not below bound; a bound below 0, which
// says nothing, stays.
func ceil(bound, grain int64) int64 {
	if over := bound % grain; over > 0 {
		bound += grain - over
	}
	return bound
}

// gcd returns the greatest common divisor of a and b; of 0 and b it is b.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}
