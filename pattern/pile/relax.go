package pile

import (
	"math"

	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/lp"
)

// A relaxer bounds the value of a box by a linear program over the limits that are known.
//
// The value of a choice is what each copy is worth, and for each copy of what an offer has at
// least so much on top that no worth makes up for it.
type relaxer struct {
	offers []Offer
	least  []int   // of each offer
	each   float64 // on top, for each copy of the least
	grain  float64 // what every value is a multiple of; 0: nothing
	cuts   []cut
}

// A cut is a limit by offer.
type cut struct {
	by    []float64
	most  float64
	scale float64
}

func newRelaxer(r Request, most []int) relaxer {
	x := relaxer{offers: r.Offers, grain: grain(r.Offers)}
	x.each = max(1, x.grain)
	if x.grain > 0 {
		x.each = x.grain * math.Ceil(1/x.grain)
	}
	for i, o := range r.Offers {
		x.each += o.Worth * float64(most[i])
		x.least = append(x.least, o.Least)
	}
	return x
}

// grain returns what every worth is a multiple of, where all are whole hundredths, as money is:
// a bound just above a choice then proves it.
func grain(offers []Offer) float64 {
	all := int64(0)
	for _, o := range offers {
		cents := math.Round(100 * o.Worth)
		if math.Abs(100*o.Worth-cents) > same || cents > 1e12 {
			return 0
		}
		for a := int64(cents); a != 0; {
			all, a = a, all%a
		}
	}
	return float64(all) / 100
}

// worthOf returns what copies are worth.
func (x *relaxer) worthOf(copies []int) (worth float64) {
	for i, n := range copies {
		worth += x.offers[i].Worth * float64(n)
	}
	return worth
}

// keptOf returns how many copies there are of what is asked at least.
func (x *relaxer) keptOf(copies []int) (kept int) {
	for i, n := range copies {
		kept += min(n, x.least[i])
	}
	return kept
}

// shortOf returns how many are wanting of it.
func (x *relaxer) shortOf(copies []int) int { return x.keptOf(x.least) - x.keptOf(copies) }

func (x *relaxer) valueOf(copies []int) float64 {
	return x.worthOf(copies) + x.each*float64(x.keptOf(copies))
}

// add takes up a limit of the demands that offers are.
func (x *relaxer) add(l solve.Limit, demands []int) {
	c := cut{by: make([]float64, len(x.offers)), most: float64(l.Most), scale: 1}
	for d, i := range demands {
		c.by[i] = float64(l.By[d])
		c.scale = max(c.scale, c.by[i])
	}
	x.cuts = append(x.cuts, c)
}

// A bounded is one column of the linear program: copies of an offer within what is asked at
// least, or beyond.
type bounded struct {
	offer int
	gain  float64
	most  float64 // copies above those of the box's low corner
}

// columns returns the columns of a box.
func (x *relaxer) columns(b box) (columns []bounded) {
	for i, o := range x.offers {
		if within := min(b.hi[i], x.least[i]) - b.lo[i]; within > 0 {
			columns = append(columns, bounded{i, o.Worth + x.each, float64(within)})
		}
		if beyond := b.hi[i] - max(b.lo[i], x.least[i]); beyond > 0 {
			columns = append(columns, bounded{i, o.Worth, float64(beyond)})
		}
	}
	return columns
}

// relax returns the copies of a box that the linear program takes, which may be parts, and a
// bound of the value in it; false where a limit leaves nothing of the box.
//
// The bound holds whatever the rounding of the program: at any prices of the limits from 0 up,
// a choice is worth at most what the limits' slack costs and what each column gains above its
// limits' prices (weak duality).
func (x *relaxer) relax(b box) (at []float64, bound float64, ok bool) {
	columns := x.columns(b)
	var right, costs []float64
	for _, c := range x.cuts {
		slack := c.most
		for i, n := range b.lo {
			slack -= c.by[i] * float64(n)
		}
		if slack < 0 {
			return nil, 0, false
		}
		right, costs = append(right, slack/c.scale), append(costs, 0)
	}
	for _, c := range columns {
		right, costs = append(right, c.most), append(costs, 0)
	}
	program := lp.New(right, costs)
	places := make([]int, len(columns))
	for n, column := range columns {
		c := lp.Column{Cost: -column.gain}
		for row, cut := range x.cuts {
			if by := cut.by[column.offer]; by != 0 {
				c.At, c.By = append(c.At, int32(row)), append(c.By, by/cut.scale)
			}
		}
		c.At, c.By = append(c.At, int32(len(x.cuts)+n)), append(c.By, 1)
		places[n] = program.Add(c)
	}
	program.Solve(func() bool { return false })
	at = make([]float64, len(x.offers))
	for i, n := range b.lo {
		at[i] = float64(n)
	}
	amounts := program.Amounts()
	for n, column := range columns {
		at[column.offer] += amounts[places[n]]
	}
	bound = x.valueOf(b.lo)
	prices := make([]float64, len(x.cuts))
	for row := range x.cuts {
		prices[row] = max(0, -program.Price(row))
		bound += prices[row] * right[row]
	}
	for _, column := range columns {
		gain := column.gain
		for row, cut := range x.cuts {
			gain -= prices[row] * cut.by[column.offer] / cut.scale
		}
		bound += max(0, gain) * column.most
	}
	return at, bound, true
}
