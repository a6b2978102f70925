package cutting

import "math"

// A simplex solves min c x, A x = b, x >= 0 by the revised method with the inverse
// of the basis held densely; columns may be added between solves. Its answers are
// estimates: whatever is claimed from them is reckoned again in whole numbers.
type simplex struct {
	rows    int
	right   []float64
	cols    []lpColumn
	inverse [][]float64
	basis   []int32 // column of each row
	in      []bool  // of each column: it is in the basis
	value   []float64
	price   []float64
	pivots  int
}

// An lpColumn is a sparse column.
type lpColumn struct {
	cost float64
	at   []int32
	by   []float64
}

const (
	lpTolerance  = 1e-7
	lpPivot      = 1e-9
	lpRefactor   = 120
	lpMaxPivots  = 20_000
	lpStallLimit = 60
)

// newSimplex starts from a basis of one unit column a row, at the costs given.
func newSimplex(right, costs []float64) *simplex {
	m := len(right)
	s := &simplex{rows: m, right: right, basis: make([]int32, m), value: make([]float64, m), price: make([]float64, m)}
	for i := range m {
		s.add(lpColumn{cost: costs[i], at: []int32{int32(i)}, by: []float64{1}})
		s.basis[i], s.in[i] = int32(i), true
		row := make([]float64, m)
		row[i] = 1
		s.inverse = append(s.inverse, row)
	}
	copy(s.value, right)
	s.reprice()
	return s
}

// add gives the new column's number.
func (s *simplex) add(c lpColumn) int {
	s.cols = append(s.cols, c)
	s.in = append(s.in, false)
	return len(s.cols) - 1
}

// reprice reckons the rows' prices from the basis.
func (s *simplex) reprice() {
	clear(s.price)
	for i, c := range s.basis {
		cost := s.cols[c].cost
		if cost == 0 {
			continue
		}
		for j, v := range s.inverse[i] {
			s.price[j] += cost * v
		}
	}
}

// addRow adds a row that a new unit column meets, and gives its number. No column
// there is has an entry in it.
func (s *simplex) addRow(right, cost float64) int {
	n := s.rows
	s.rows++
	for i := range s.inverse {
		s.inverse[i] = append(s.inverse[i], 0)
	}
	row := make([]float64, s.rows)
	row[n] = 1
	s.inverse = append(s.inverse, row)
	s.right, s.value = append(s.right, right), append(s.value, right)
	s.price = append(s.price, cost)
	unit := s.add(lpColumn{cost: cost, at: []int32{int32(n)}, by: []float64{1}})
	s.basis = append(s.basis, int32(unit))
	s.in[unit] = true
	return n
}

// solve goes to the optimum over the columns there are.
func (s *simplex) solve(stop stopper) {
	stalled := 0
	scale := 1.0
	for _, c := range s.cols {
		scale = max(scale, math.Abs(c.cost))
	}
	work := make([]float64, s.rows)
	for range lpMaxPivots {
		if stop.stopped() {
			return
		}
		enter := s.entering(stalled > lpStallLimit, lpTolerance*math.Sqrt(scale))
		if enter < 0 {
			return
		}
		s.direction(enter, work)
		leave := s.leaving(work, stalled > lpStallLimit)
		if leave < 0 {
			return
		}
		if s.value[leave] <= lpTolerance*work[leave] {
			stalled++
		} else {
			stalled = 0
		}
		s.pivot(enter, leave, work, stop)
	}
}

// entering chooses the column that gains most, or, when first is set, the first
// that gains at all, so that a stall ends.
func (s *simplex) entering(first bool, tolerance float64) int {
	best, enter := -tolerance, -1
	for j := range s.cols {
		if s.in[j] {
			continue
		}
		c := &s.cols[j]
		gain := c.cost
		for i, r := range c.at {
			gain -= s.price[r] * c.by[i]
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

func (s *simplex) direction(enter int, work []float64) {
	c := &s.cols[enter]
	for i := range work {
		sum, row := 0.0, s.inverse[i]
		for k, r := range c.at {
			sum += row[r] * c.by[k]
		}
		work[i] = sum
	}
}

// leaving chooses the row that runs out first; on a tie the largest pivot, or the
// lowest column number when first is set.
func (s *simplex) leaving(work []float64, first bool) int {
	leave, least := -1, math.Inf(1)
	for i, w := range work {
		if w <= lpPivot {
			continue
		}
		ratio := max(0, s.value[i]) / w
		switch {
		case ratio < least-1e-12:
			leave, least = i, ratio
		case ratio <= least+1e-12 && leave >= 0:
			if first && s.basis[i] < s.basis[leave] || !first && w > work[leave] {
				leave, least = i, min(least, ratio)
			}
		}
	}
	return leave
}

func (s *simplex) pivot(enter, leave int, work []float64, stop stopper) {
	s.in[s.basis[leave]], s.in[enter] = false, true
	s.basis[leave] = int32(enter)
	row := s.inverse[leave]
	by := 1 / work[leave]
	for j := range row {
		row[j] *= by
	}
	s.value[leave] = max(0, s.value[leave]) * by
	for i, w := range work {
		if i == leave || w == 0 {
			continue
		}
		other := s.inverse[i]
		for j, v := range row {
			if v != 0 {
				other[j] -= w * v
			}
		}
		s.value[i] -= w * s.value[leave]
	}
	s.pivots++
	if s.pivots%lpRefactor == 0 {
		s.refactor(stop)
	}
	s.reprice()
}

// refactor inverts the basis afresh, so that rounding does not grow. With many rows
// that takes a good part of a second.
func (s *simplex) refactor(stop stopper) {
	m := s.rows
	a := make([][]float64, m)
	for i := range a {
		a[i] = make([]float64, 2*m)
		a[i][m+i] = 1
	}
	for j, c := range s.basis {
		for k, r := range s.cols[c].at {
			a[r][j] = s.cols[c].by[k]
		}
	}
	for j := range m {
		p := j
		for i := j + 1; i < m; i++ {
			if math.Abs(a[i][j]) > math.Abs(a[p][j]) {
				p = i
			}
		}
		if math.Abs(a[p][j]) < 1e-11 {
			return // keep the inverse there is
		}
		if stop.stopped() {
			return
		}
		a[j], a[p] = a[p], a[j]
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
		copy(s.inverse[i], a[i][m:])
		sum := 0.0
		for j, v := range s.inverse[i] {
			sum += v * s.right[j]
		}
		s.value[i] = sum
	}
}

// amount gives each column's value.
func (s *simplex) amount() []float64 {
	x := make([]float64, len(s.cols))
	for i, c := range s.basis {
		x[c] = max(0, s.value[i])
	}
	return x
}
