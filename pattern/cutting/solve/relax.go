package solve

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

// A relaxer bounds what a stock may be worth where its cross has too many ways to
// list. Each slice, stack and piece is packed as well as can be by itself: strips
// may be used again from slice to slice, and leftovers of any size are credited.
//
// Why that is a bound: it is three knapsacks, one inside the other, and each allows all
// that is allowed and counts no less for it. In a slice no kind comes more often than it is
// wanted, in a stack and a piece anything may be repeated; what is left beside, above and
// behind is credited as if all of it went back, and so are kerfs that lie in it. Sizes are
// rounded down to steps, so that whatever fits still fits. A piece with a tail pays for the
// lengths of its sections, one without for the whole piece, as in timber.cost.
type relaxer struct {
	p                    *pricer
	slice, stack, pieces knapsack
}

// worth bounds what a column of s is worth.
func (r *relaxer) worth(s *stock, prices []int64, left []int32) int64 {
	if s.costs.span <= 0 {
		return 0
	}
	t := r.p.t
	worth := make([]float64, len(t.lengths))
	for along, l := range t.lengths {
		if s.costs.steps[along] > s.costs.span {
			continue
		}
		worth[along] = r.section(s, l, prices, left)
	}
	if r.p.free {
		return r.piece(s, worth, s.costs.span, 0, nil)
	}
	whole := r.piece(s, worth, s.costs.span, -s.costs.all, nil)
	if s.costs.keeping <= 0 {
		return whole
	}
	return max(whole, r.piece(s, worth, s.costs.keeping, -s.costs.open, s.costs.along))
}

func (r *relaxer) piece(s *stock, worth []float64, span length.Length, base int64, costs []int64) int64 {
	r.pieces.start(span)
	for along, w := range worth {
		if costs != nil {
			w -= float64(costs[along])
		}
		r.pieces.add(s.costs.steps[along], w, 1<<30)
	}
	return base + int64(r.pieces.best(0, 0)) + slackUnits
}

// section bounds the worth of a section, its credits included.
func (r *relaxer) section(s *stock, l length.Length, prices []int64, left []int32) float64 {
	x := r.p.t.crosses[s.cross]
	if x.planed {
		return r.lying(s, false, x.width, x.thickness, l, prices, left)
	}
	across, depth := x.width-r.p.t.shop.Allowance.Truing, x.thickness-r.p.t.shop.Allowance.Truing
	return max(r.lying(s, false, across, depth, l, prices, left), r.lying(s, true, depth, across, l, prices, left))
}

// lying bounds the worth of a section that lies one way.
func (r *relaxer) lying(s *stock, side bool, across, depth, l length.Length, prices []int64, left []int32) float64 {
	if across <= 0 || depth <= 0 {
		return 0
	}
	t := r.p.t
	w := &sectionEnumerator{t: t, x: t.crosses[s.cross], placement: placement{side: side, across: across, depth: depth}}
	height := t.shop.Machine.BandsawHeight
	resaws := !w.x.planed && (height <= 0 || across <= height)
	credit := 0.0
	if l >= t.shop.Keep.Length && !r.p.free {
		credit = s.costs.credit
	}
	waste := t.shop.Kerf.Resaw + t.shop.Allowance.Cleaning
	r.stack.start(depth + waste)
	single := 0.0
	for _, g := range w.sort(l) {
		r.slice.start(across + t.shop.Kerf.Rip)
		for _, k := range g.kinds {
			r.slice.add(t.kinds[k].Across+t.shop.Kerf.Rip, float64(prices[k]), int(left[k]))
		}
		best := r.slice.best(across, credit*length.VolumeCM3(1, g.sawn, l))
		single = max(single, best)
		r.stack.add(g.sawn+waste, best, 1<<30)
	}
	if !resaws {
		return single
	}
	return r.stack.best(depth, credit*length.VolumeCM3(1, across, l))
}
