package sets

import (
	"math"
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/lp"
)

// most returns what no set is worth more than.
//
// Each product takes at least its own outline, with the end margin at both ends of each strip,
// of finished strip; each panel that, with what lies between its products where strips may not
// be parted. A length of a piece gives at most so much width of strips as its slices hold
// (section.most), one thickness at a time. So a linear program bounds the worth: lengths of
// each piece given to thicknesses, products as parts of whole ones. The bound is read off its
// prices by weak duality, so that it holds whatever the program's rounding.
func (s *search) most() float64 {
	asked := 0.0 // what all that is asked for is worth
	for _, w := range s.wants {
		if asked += float64(w.Most) * w.each; w.Most == 0 {
			asked = math.Inf(1)
		}
	}
	y := &yields{s: s}
	return min(y.bound()*(1+1e-9), asked)
}

// A yields is the linear program. Its rows: of each source of timber its length, or that there
// is one of a ready strip; of each species and thickness what is taken of what is given; of
// each want what its products need, and how many there may be.
type yields struct {
	s       *search
	right   []float64
	columns []lp.Column
}

// area returns how many square millimetres of strip one product takes at least, of a panel of
// whatever number.
func (w *wanted) area(s *search) float64 {
	sh := &s.shop
	size, body := w.Shape().Size()
	outline, ends := w.Shape().Area(0, 0, body.MM()), 2*sh.Cut.EndMargin
	if w.Joints {
		return outline + min(ends, sh.Cut.Gap).MM()*body.MM()
	}
	one := outline + ends.MM()*body.MM()
	least := math.Inf(1)
	for n := w.Along.Least; n <= w.Along.Most; n++ {
		between := float64(n-1) * (size + sh.Cut.Gap).MM() * body.MM()
		least = min(least, (one+between)/float64(n))
	}
	return least
}

func (y *yields) row(right float64) int32 {
	y.right = append(y.right, right)
	return int32(len(y.right) - 1)
}

func (y *yields) column(cost float64, at []int32, by []float64) {
	y.columns = append(y.columns, lp.Column{Cost: cost, At: at, By: by})
}

// square is the unit of areas, in square millimetres.
const square = 1e4

// bound solves it.
func (y *yields) bound() float64 {
	s := y.s
	type pair struct {
		species string
		glued   length.Length
	}
	pools := map[pair]int32{}
	for _, key := range s.Rack.Species() {
		for _, g := range s.glued {
			pools[pair{key, g}] = y.row(0) // taken less given
		}
	}
	shortest := s.shortestOf()
	sh := &s.shop
	for _, p := range s.Rack.Pieces {
		for _, c := range p.Clear() {
			long := (c.Length - 2*sh.Allowance.EndTrim).MM()
			if long <= 0 {
				continue
			}
			row := int32(-1)
			for _, g := range s.glued {
				wide := s.section(c.Piece).most(s.widest(), g).MM()
				if wide <= 0 || long < shortest[g].MM() {
					continue
				}
				if row < 0 {
					row = y.row(long * float64(p.Quantity))
				}
				y.column(0, []int32{row, pools[pair{p.Species, g}]}, []float64{1, -wide / square})
			}
		}
	}
	for _, r := range s.Rack.Strips {
		row := y.row(float64(r.Quantity))
		for _, g := range s.glued {
			if r.Thickness >= g {
				y.column(0, []int32{row, pools[pair{r.Species, g}]}, []float64{1, -r.Width.MM() * r.Length.MM() / square})
			}
		}
	}
	for _, w := range s.wants {
		needs := y.row(0) // products' needs less what is taken
		at, by := []int32{needs}, []float64{w.area(s) / square}
		if w.Most > 0 {
			at, by = append(at, y.row(float64(w.Most))), append(by, 1)
		}
		y.column(-w.each, at, by)
		for _, key := range w.timbers {
			y.column(0, []int32{pools[pair{key, w.glued}], needs}, []float64{1, -1})
		}
	}
	return y.dual()
}

// widest returns all widths that strips may have.
func (s *search) widest() []length.Length {
	out := slices.Clone(s.usual)
	if s.accents {
		for _, k := range s.kinds {
			if !slices.Contains(out, k.strip.Width) {
				out = append(out, k.strip.Width)
			}
		}
	}
	return out
}

// shortestOf returns, of each thickness, how long the shortest strip is that any want has at
// least: nothing shorter is of use. Of what is round the outer strips are short, so that it is
// not much.
func (s *search) shortestOf() map[length.Length]length.Length {
	out := map[length.Length]length.Length{}
	for _, w := range s.wants {
		size, body := w.Shape().Size()
		least := 2 * s.shop.Cut.EndMargin
		if w.Shape().Half(0, body.MM()/2*0.999) > size.MM()/4 { // straight ends
			least += size
		}
		if was, there := out[w.glued]; !there || least < was {
			out[w.glued] = least
		}
	}
	return out
}

// dual solves the program and reads a bound off its prices: the columns' gains at them, which
// rounding may leave a little above 0, are brought to 0 by raising the prices of the rows that
// can be.
func (y *yields) dual() float64 {
	costs := make([]float64, len(y.right))
	program := lp.New(y.right, costs)
	for _, c := range y.columns {
		program.Add(c)
	}
	program.Solve(func() bool { return y.s.ctx.Err() != nil })
	prices := make([]float64, len(y.right))
	for row := range prices {
		prices[row] = max(0, -program.Price(row))
	}
	// Columns were added so that what gives comes before what takes: raise the price of the
	// first row that a column takes from until it gains nothing.
	for range 4 {
		for _, c := range y.columns {
			gain, first := -c.Cost, -1
			for i, row := range c.At {
				gain -= prices[row] * c.By[i]
				if first < 0 && c.By[i] > 0 {
					first = i
				}
			}
			if gain > 0 && first >= 0 {
				prices[c.At[first]] += gain / c.By[first] * (1 + 1e-9)
			}
		}
	}
	bound := 0.0
	for row, right := range y.right {
		bound += prices[row] * right
	}
	for _, c := range y.columns { // none may gain: else there is no bound but what is asked for
		gain := -c.Cost
		for i, row := range c.At {
			gain -= prices[row] * c.By[i]
		}
		if gain > 1e-9*max(1, bound) {
			return math.Inf(1)
		}
	}
	return bound
}
