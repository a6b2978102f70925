package sections

import (
	"example.com/oddments/pattern/length"
)

// relaxCells is into how many steps a width, depth or length is parted for a bound.
// Sizes are rounded down to steps, so that a bound stays one.
const relaxCells = 400

// A knapsack is the most worth that fits, for each number of steps.
type knapsack struct {
	cell  length.Length
	worth []float64
}

func (k *knapsack) start(room length.Length) {
	k.cell = max(1, room/relaxCells)
	if k.worth == nil {
		k.worth = make([]float64, 2*relaxCells+2)
	}
	k.worth = k.worth[:min(2*relaxCells+2, int(room/k.cell)+1)]
	clear(k.worth)
}

// add lets up to count things of this size be packed.
func (k *knapsack) add(size length.Length, worth float64, count int) {
	step := max(1, int(size/k.cell))
	if worth <= 0 {
		return
	}
	if count >= len(k.worth)/step { // as many as fit
		for i := step; i < len(k.worth); i++ {
			k.worth[i] = max(k.worth[i], k.worth[i-step]+worth)
		}
		return
	}
	for n := 1; count > 0; n *= 2 { // bundles of 1, 2, 4 ... and the rest
		n = min(n, count)
		count -= n
		for i := len(k.worth) - 1; i >= n*step; i-- {
			k.worth[i] = max(k.worth[i], k.worth[i-n*step]+float64(n)*worth)
		}
	}
}

// best returns the most worth, when what is left of room brings so much a length.
func (k *knapsack) best(room length.Length, rest float64) float64 {
	best := 0.0
	for i, worth := range k.worth {
		if left := room - length.Length(i)*k.cell; left > 0 {
			worth += rest * float64(left)
		}
		best = max(best, worth)
	}
	return best
}

// A Relaxer bounds what a stock may be worth where its cross has too many ways to
// list. Each slice, stack and piece is packed as well as can be by itself: strips
// may be used again from slice to slice, and leftovers of any size are credited.
//
// Why that is a bound: it is three knapsacks, one inside the other, and each allows all
// that is allowed and counts no less for it. In a slice no kind comes more often than it is
// wanted, in a stack and a piece anything may be repeated; what is left beside, above and
// behind is credited as if all of it went back, and so are kerfs that lie in it. Sizes are
// rounded down to steps, so that whatever fits still fits. A piece with a tail pays for the
// lengths of its sections, one without for the whole piece, as in Costs.Cost.
type Relaxer struct{ slice, stack, pieces knapsack }

// Worth bounds what a column of a cross is worth, of which no more strips than left are
// taken; where it is free the piece costs nothing, and leftovers bring nothing.
func (r *Relaxer) Worth(c *Catalogue, cross int, p *Costs, free bool, prices []int64, left []int32) int64 {
	if p.Span <= 0 {
		return 0
	}
	credit := p.Credit
	if free {
		credit = 0
	}
	worth := make([]float64, len(c.Lengths))
	for along, l := range c.Lengths {
		if p.Steps[along] > p.Span {
			continue
		}
		for _, way := range c.placements(&c.Crosses[cross], l) {
			worth[along] = max(worth[along], r.section(c, &way, l, credit, prices, left))
		}
	}
	if free {
		return r.piece(p, worth, p.Span, 0, nil)
	}
	whole := r.piece(p, worth, p.Span, -p.All, nil)
	if p.Keeping <= 0 {
		return whole
	}
	return max(whole, r.piece(p, worth, p.Keeping, -p.Open, p.Along))
}

func (r *Relaxer) piece(p *Costs, worth []float64, span length.Length, base int64, lengths []int64) int64 {
	r.pieces.start(span)
	for along, w := range worth {
		if lengths != nil {
			w -= float64(lengths[along])
		}
		r.pieces.add(p.Steps[along], w, 1<<30)
	}
	return base + int64(r.pieces.best(0, 0)) + SlackUnits
}

// section bounds the worth of a section that lies one way, its credits included.
func (r *Relaxer) section(c *Catalogue, way *placement, l length.Length, credit float64, prices []int64, left []int32) float64 {
	if !way.credited {
		credit = 0
	}
	r.stack.start(way.depth + c.between())
	single := 0.0
	for _, g := range way.groups {
		r.slice.start(way.across + c.Shop.Kerf.Rip)
		for _, k := range g.kinds {
			r.slice.add(c.Kinds[k].Across+c.Shop.Kerf.Rip, float64(prices[k]), int(left[k]))
		}
		best := r.slice.best(way.across, credit*length.VolumeCM3(1, g.sawn, l))
		single = max(single, best)
		r.stack.add(g.sawn+c.between(), best, 1<<30)
	}
	if !way.resaws {
		return single
	}
	return r.stack.best(way.depth, credit*length.VolumeCM3(1, way.across, l))
}
