// Package work computes the figures that stand beside each step after a pattern is
// settled: glue, clamps, router, bevel, sanding, finish, drying, weight, label and
// price, with the words of caution that belong to them.
//
// Sizes that are set on a machine or marked on wood are exact lengths; everything
// else is an estimate in float64 with its unit in the name. What needs a value that
// nobody gave is an Estimate that is not known, never a zero. Each Line says where its
// figure's rule comes from. Money is in the maker's own currency.
package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second"
)

// A Job is what the figures are for.
type Job struct {
	Pattern   pattern.Pattern
	Copies    int               // panels, 1 or more
	Products  []pattern.Product // none: the panel itself is the product
	Layout    outline.Layout    // of Products on the ground
	Board     *movement.Board   // that second glue-ups give; nil: the panel is the ground
	Minutes   int               // for all copies; 0: not said
	Asked     float64           // price of one piece; 0: not said
	Clamps    int               // that the maker has; 0: not said
	DryingOil bool              // the finish is linseed, tung, walnut or another oil that hardens
	Label     Label
	Due       pattern.Date // the day that the products are to be ready before; zero: not said
}

// Figures are all working figures of a job.
type Figures struct {
	Glue     GlueFigures
	Second   []SecondFigures  // one a second glue-up
	Products []ProductFigures // in the order listed; one where the panel is the product
	Finish   FinishFigures
	Price    PriceFigures
}

// An Estimate is a figure that may not be known. The zero value is not.
type Estimate struct {
	Value float64
	Known bool
}

func known(value float64) Estimate { return Estimate{value, true} }

// JobOf returns the job of making copies of p in the workshop of r: the products that p
// lists, laid on it or on its board, the minutes by the last batch that says how long it
// took, and the workshop's clamps and label.
func JobOf(r movement.Physics, p pattern.Pattern, copies int) (Job, error) {
	return JobOn(r, p, copies, r.Board(p), nil)
}

// JobOn is JobOf with the board of p at hand, and with copies held where a hand slid them to.
// Where products cannot be laid it says why, and the rest of the job is good.
func JobOn(r movement.Physics, p pattern.Pattern, copies int, board *movement.Board, held []outline.Fixed) (Job, error) {
	s := r.Shop()
	j := Job{Pattern: p, Copies: copies, Products: p.Products, Board: board, Minutes: Minutes(p, copies), Clamps: s.Glue.Clamps, Label: LabelOf(s.Maker)}
	var err error
	j.Layout, err = outline.LayWithFixed(j.Ground(), s.Allowance.Length, p.Products, p.Avoids, s.Cut, held)
	return j, err
}

// Ground returns what products are cut from: the pattern, or its board as a panel of one
// strip.
func (j Job) Ground() pattern.Pattern {
	if j.Board == nil {
		return j.Pattern
	}
	return second.Ground(j.Pattern, j.Board.Ups)
}

// Makes lists what the job makes, in the order of the figures: its products, or the
// panel itself.
func (j Job) Makes() []pattern.Product {
	if len(j.Products) > 0 {
		return j.Products
	}
	ground := j.Ground()
	return []pattern.Product{{Shape: outline.Rectangle, Length: ground.Panel.Length, Width: ground.Width(), Count: 1}}
}

// Placed lists where the copies of the product of a number lie, from 1; the panel itself
// lies on all of it.
func (j Job) Placed(number int) []outline.Placed {
	if len(j.Products) == 0 {
		return []outline.Placed{{Product: 1, Copy: 1, Shape: outline.Rectangle}}
	}
	var out []outline.Placed
	for _, at := range j.Layout.Placed {
		if at.Product == number {
			out = append(out, at)
		}
	}
	return out
}

// Of computes the figures of j with the timbers and the workshop of r.
func Of(r movement.Physics, j Job) Figures {
	f := Figures{Glue: glueOf(r, j), Second: secondOf(r, j)}
	for i, p := range j.Makes() {
		f.Products = append(f.Products, productOf(r, j, p, i+1))
	}
	f.Finish = finishOf(j, f.Products, r.Shop().Finish)
	f.Price = priceOf(r, j, f.Products)
	return f
}

// Minutes returns what copies of p should take by the last batch that says how long it
// took, rounded up; 0 where none does.
func Minutes(p pattern.Pattern, copies int) int {
	for i := len(p.Made) - 1; i >= 0; i-- {
		if m := p.Made[i]; m.Minutes > 0 && m.Copies > 0 {
			total := int64(m.Minutes) * int64(copies)
			return int((total + int64(m.Copies) - 1) / int64(m.Copies))
		}
	}
	return 0
}

// ceilDiv divides rounding up; b is above 0.
func ceilDiv(a, b length.Length) int { return int(min(math.MaxInt32, (a+b-1)/b)) }

// epsilon is what floats may lie beside a whole number that they stand for.
const epsilon = 1e-9

// ceil rounds an estimate up to a whole number, one that is whole already but for
// epsilon to itself.
func ceil(x float64) float64 { return math.Ceil(x - epsilon) }
