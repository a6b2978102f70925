package ceiling

import (
	"context"
	"math"

	"example.com/oddments/pattern/length"
)

// A method is where the subgradient method stands.
type method struct {
	rates []float64 // of each row: how fast prices rise from the mark before, a millimetre
	price []float64 // of each row: of a millimetre of width at its mark
	way   []float64 // that rates go, opposite
	give  []float64
	slope []float64

	best   []float64 // the rates at which the bound was least
	least  float64   // the bound so far
	below  float64   // what part of it the next is hoped to be lower by
	since  int       // steps without much gain
	panels []panel   // what products take at the latest prices
}

// Settings of the method.
const (
	hoped    = 0.2  // at first
	hopeless = 1e-4 // it is not worth going on
	patience = 8    // steps without much gain before less is hoped for
	smooth   = 0.6  // how much of the way before stays
)

func (c *Ceiling) begin() {
	for _, at := range []*[]float64{&c.rates, &c.best, &c.price, &c.way, &c.give, &c.slope} {
		*at = make([]float64, c.rows)
	}
	for i := range c.rates {
		c.rates[i] = 1
	}
	c.least, c.below = c.Asked(), hoped
	c.panels = make([]panel, len(c.wants))
}

// Worth returns what no set is worth more than, as far as it has come: no more than whole
// products can be worth.
func (c *Ceiling) Worth() float64 {
	const cents, most = 1e4, 1_000_000
	whole := make([]int, len(c.wants))
	unit := 0
	for i, w := range c.wants {
		whole[i] = int(math.Round(w.each * cents))
		if math.Abs(float64(whole[i])/cents-w.each) > 1e-12*w.each || w.each*cents > 1e9 {
			return c.least
		}
		unit = int(common(length.Length(unit), length.Length(whole[i])))
	}
	if unit == 0 || c.least-c.worth > float64(unit)/cents*most {
		return c.least
	}
	room := int((c.least - c.worth) * cents / float64(unit) * (1 + 1e-12))
	reached := make([]bool, room+1)
	reached[0] = true
	used := make([]int, room+1)
	for i, w := range c.wants {
		clear(used)
		for x, step := 0, whole[i]/unit; x+step <= room; x++ {
			if reached[x] && !reached[x+step] && float64(used[x]) < w.most {
				reached[x+step], used[x+step] = true, used[x]+1
			}
		}
	}
	for !reached[room] {
		room--
	}
	return min(c.least, c.worth+float64(room)*float64(unit)/cents)
}

// Ended reports whether more steps hardly gain.
func (c *Ceiling) Ended() bool { return c.below < hopeless }

// Step makes a step: it looks what the bound is at its prices, and moves them. Where its
// context ends before, it leaves everything as it was.
func (c *Ceiling) Step(ctx context.Context) {
	c.reprice()
	clear(c.give)
	worth := c.stock(ctx, c.give)
	for i, w := range c.wants {
		c.panels[i] = panel{cost: math.Inf(1)}
		if w.most > 0 {
			c.panels[i] = c.cheapest(ctx, w)
		}
	}
	if ctx.Err() != nil {
		return
	}
	for _, h := range c.held {
		at := c.base[h.pool][h.glued] + h.at
		worth -= times(c.price[at], h.wide)
		c.give[at] -= h.wide
	}
	scale, made, bound := c.scale(worth)
	for i := range c.rates {
		c.rates[i] *= scale
	}
	if c.improve(bound) {
		c.move(made, bound)
	}
}

// reprice adds rates up to prices.
func (c *Ceiling) reprice() {
	for p := range c.pools {
		for g, base := range c.base[p] {
			sum := 0.0
			for i := range c.marks[g] {
				sum += times(c.rates[base+i], c.rise[base+i])
				c.price[base+i] = sum
			}
		}
	}
}

// scale returns by what all prices are to be multiplied so that the bound is least, how many
// products of each want it then counts, and the bound: what the rack yields, and what products
// are worth above what they take.
func (c *Ceiling) scale(rack float64) (best float64, made []float64, bound float64) {
	at := func(scale float64) float64 {
		sum := c.worth + times(scale, rack)
		for i, w := range c.wants {
			if over := w.each - times(scale, c.panels[i].cost); over > 0 && !math.IsInf(c.panels[i].cost, 1) {
				sum += times(w.most, over)
			}
		}
		return sum
	}
	best, bound = 0, at(0)
	for i, w := range c.wants {
		if cost := c.panels[i].cost; cost > 0 && !math.IsInf(cost, 1) {
			if now := at(w.each / cost); now < bound {
				best, bound = w.each/cost, now
			}
		}
	}
	if best == 0 {
		best = 1 // no prices are better than none: the rack has room for all that is asked for
	}
	made = make([]float64, len(c.wants))
	left := rack
	for i, w := range c.wants {
		if cost := c.panels[i].cost; w.each > times(best, cost)*(1+1e-9) && !math.IsInf(cost, 1) {
			made[i] = w.most
			left -= times(w.most, cost)
		}
	}
	for i, w := range c.wants {
		if cost := c.panels[i].cost; made[i] == 0 && cost > 0 && w.each >= times(best, cost)*(1-1e-9) {
			made[i] = min(w.most, max(0, left/cost))
			left -= times(made[i], cost)
		}
	}
	return best, made, bound
}

// improve takes a bound, a little above what rounding may have taken off it. Where that has not
// gained for long it goes back to the best prices, hopes for less, and reports false.
func (c *Ceiling) improve(bound float64) bool {
	bound *= 1 + 1e-9
	if gain := c.least - bound; gain > 0 {
		if gain > 0.1*c.below*c.least {
			c.since = 0
		}
		c.least = bound
		copy(c.best, c.rates)
	}
	if c.since++; c.since > patience {
		c.since, c.below = 0, c.below/2
		copy(c.rates, c.best)
		clear(c.way)
		return false
	}
	return true
}

// move moves the rates: down where the rack yields more than panels take, up where it is less.
func (c *Ceiling) move(made []float64, bound float64) {
	for i, p := range c.panels {
		for _, t := range p.takes {
			c.give[c.base[t.pool][t.glued]+t.at] -= times(made[i], t.wide)
		}
	}
	for p := range c.pools {
		for g, base := range c.base[p] {
			sum := 0.0
			for i := len(c.marks[g]) - 1; i >= 0; i-- {
				sum += c.give[base+i]
				c.slope[base+i] = times(sum, c.rise[base+i])
			}
		}
	}
	size := 0.0
	for i, now := range c.slope {
		c.way[i] = times(smooth, c.way[i]) + times(1-smooth, now)
		if c.rates[i] > 0 || c.way[i] < 0 {
			size += times(c.way[i], c.way[i])
		}
	}
	if size == 0 {
		return
	}
	step := (bound - times(c.least, 1-c.below)) / size
	for i := range c.rates {
		c.rates[i] = max(0, c.rates[i]-times(step, c.way[i]))
	}
}
