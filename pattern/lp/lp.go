// Package lp solves linear programs by the revised simplex method (Dantzig and Orchard-Hays
// 1954, "The product form for the inverse in the simplex method"), with the inverse of
// the basis held densely. Its answers are estimates in floating point: whatever is
// claimed from them is to be computed again in whole numbers.
package lp

import "math"

// A Program is min c x, A x = b, x >= 0, where no b is below 0. Columns and rows may be
// added between solves. New gives one.
type Program struct {
	rows    int
	right   []float64
	cols    []Column
	inverse [][]float64
	basis   []int32 // column of each row
	in      []bool  // of each column: it is in the basis
	value   []float64
	price   []float64
	pivots  int
}

// A Column is a sparse one: what it costs, and its entries By in the rows At, which
// count from 0.
type Column struct {
	Cost float64
	At   []int32
	By   []float64
}

const (
	tolerance     = 1e-7
	pivotLeast    = 1e-9
	refactorAfter = 120
	pivotsMost    = 20_000
	stallLimit    = 60
)

// New starts from a basis of one unit column a row, at the costs given.
func New(right, costs []float64) *Program {
	m := len(right)
	p := &Program{rows: m, right: right, basis: make([]int32, m), value: make([]float64, m), price: make([]float64, m)}
	for i := range m {
		p.Add(Column{Cost: costs[i], At: []int32{int32(i)}, By: []float64{1}})
		p.basis[i], p.in[i] = int32(i), true
		row := make([]float64, m)
		row[i] = 1
		p.inverse = append(p.inverse, row)
	}
	copy(p.value, right)
	p.Reprice()
	return p
}

// Add returns the new column's number.
func (p *Program) Add(c Column) int {
	p.cols = append(p.cols, c)
	p.in = append(p.in, false)
	return len(p.cols) - 1
}

// Reprice computes the rows' prices from the basis, as it must be done after SetCost.
func (p *Program) Reprice() {
	clear(p.price)
	for i, c := range p.basis {
		cost := p.cols[c].Cost
		if cost == 0 {
			continue
		}
		for j, v := range p.inverse[i] {
			p.price[j] += cost * v
		}
	}
}

// AddRow adds a row that a new unit column meets, and gives its number. No column
// there is has an entry in it.
func (p *Program) AddRow(right, cost float64) int {
	n := p.rows
	p.rows++
	for i := range p.inverse {
		p.inverse[i] = append(p.inverse[i], 0)
	}
	row := make([]float64, p.rows)
	row[n] = 1
	p.inverse = append(p.inverse, row)
	p.right, p.value = append(p.right, right), append(p.value, right)
	p.price = append(p.price, cost)
	unit := p.Add(Column{Cost: cost, At: []int32{int32(n)}, By: []float64{1}})
	p.basis = append(p.basis, int32(unit))
	p.in[unit] = true
	return n
}

// Solve goes to the optimum over the columns there are, or stays where it is when stopped
// says so.
func (p *Program) Solve(stopped func() bool) {
	stalled := 0
	scale := 1.0
	for _, c := range p.cols {
		scale = max(scale, math.Abs(c.Cost))
	}
	work := make([]float64, p.rows)
	for range pivotsMost {
		if stopped() {
			return
		}
		enter := p.entering(stalled > stallLimit, tolerance*math.Sqrt(scale))
		if enter < 0 {
			return
		}
		p.direction(enter, work)
		leave := p.leaving(work, stalled > stallLimit)
		if leave < 0 {
			return
		}
		if p.value[leave] <= tolerance*work[leave] {
			stalled++
		} else {
			stalled = 0
		}
		p.pivot(enter, leave, work, stopped)
	}
}

// entering chooses the column that gains most, or, when first is set, the first
// that gains at all, so that a stall ends.
func (p *Program) entering(first bool, enough float64) int {
	best, enter := -enough, -1
	for j := range p.cols {
		if p.in[j] {
			continue
		}
		c := &p.cols[j]
		gain := c.Cost
		for i, r := range c.At {
			gain -= p.price[r] * c.By[i]
		}
		if gain < best {
			best, enter = gain, j
			if first {
				return enter
			}
		}
	}
	return enter
}

func (p *Program) direction(enter int, work []float64) {
	c := &p.cols[enter]
	for i := range work {
		sum, row := 0.0, p.inverse[i]
		for k, r := range c.At {
			sum += row[r] * c.By[k]
		}
		work[i] = sum
	}
}

// leaving chooses the row that runs out first; on a tie the largest pivot, or the
// lowest column number when first is set.
func (p *Program) leaving(work []float64, first bool) int {
	leave, least := -1, math.Inf(1)
	for i, w := range work {
		if w <= pivotLeast {
			continue
		}
		ratio := max(0, p.value[i]) / w
		switch {
		case ratio < least-1e-12:
			leave, least = i, ratio
		case ratio <= least+1e-12 && leave >= 0:
			if first && p.basis[i] < p.basis[leave] || !first && w > work[leave] {
				leave, least = i, min(least, ratio)
			}
		}
	}
	return leave
}

func (p *Program) pivot(enter, leave int, work []float64, stopped func() bool) {
	p.in[p.basis[leave]], p.in[enter] = false, true
	p.basis[leave] = int32(enter)
	row := p.inverse[leave]
	by := 1 / work[leave]
	for j := range row {
		row[j] *= by
	}
	p.value[leave] = max(0, p.value[leave]) * by
	for i, w := range work {
		if i == leave || w == 0 {
			continue
		}
		other := p.inverse[i]
		for j, v := range row {
			if v != 0 {
				other[j] -= w * v
			}
		}
		p.value[i] -= w * p.value[leave]
	}
	p.pivots++
	if p.pivots%refactorAfter == 0 {
		p.refactor(stopped)
	}
	p.Reprice()
}

// refactor inverts the basis afresh, so that rounding does not grow. With many rows
// that takes a good part of a second.
func (p *Program) refactor(stopped func() bool) {
	m := p.rows
	a := make([][]float64, m)
	for i := range a {
		a[i] = make([]float64, 2*m)
		a[i][m+i] = 1
	}
	for j, c := range p.basis {
		for k, r := range p.cols[c].At {
			a[r][j] = p.cols[c].By[k]
		}
	}
	for j := range m {
		most := j
		for i := j + 1; i < m; i++ {
			if math.Abs(a[i][j]) > math.Abs(a[most][j]) {
				most = i
			}
		}
		if math.Abs(a[most][j]) < 1e-11 {
			return // keep the inverse there is
		}
		if stopped() {
			return
		}
		a[j], a[most] = a[most], a[j]
		by := 1 / a[j][j]
		for k := j; k < 2*m; k++ {
			a[j][k] *= by
		}
		for i := range m {
			if w := a[i][j]; i != j && w != 0 {
				for k := j; k < 2*m; k++ {
					a[i][k] -= w * a[j][k]
				}
			}
		}
	}
	for i := range m {
		copy(p.inverse[i], a[i][m:])
		sum := 0.0
		for j, v := range p.inverse[i] {
			sum += v * p.right[j]
		}
		p.value[i] = sum
	}
}

// Amounts returns each column's value.
func (p *Program) Amounts() []float64 {
	x := make([]float64, len(p.cols))
	for i, c := range p.basis {
		x[c] = max(0, p.value[i])
	}
	return x
}

// Price returns what one more of a row's right side would cost.
func (p *Program) Price(row int) float64 { return p.price[row] }

// Cost returns a column's cost.
func (p *Program) Cost(column int) float64 { return p.cols[column].Cost }

// SetCost sets a column's cost.
func (p *Program) SetCost(column int, cost float64) { p.cols[column].Cost = cost }

// Columns returns how many columns there are.
func (p *Program) Columns() int { return len(p.cols) }
