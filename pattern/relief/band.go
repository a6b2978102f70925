package relief

import "math"

// A band is a symmetric positive definite matrix whose entries lie within half, the
// diagonal included, of the diagonal: row i holds the entries (i, i-half+1) to (i, i).
type band struct {
	n, half int
	rows    []float64
}

func newBand(n, half int) *band { return &band{n, half, make([]float64, n*half)} }

// row returns the entries of row i; the last is the diagonal's.
func (b *band) row(i int) []float64 { return b.rows[i*b.half : (i+1)*b.half] }

// add adds to entry (i, j), j at most i.
func (b *band) add(i, j int, v float64) { b.rows[i*b.half+b.half-1-(i-j)] += v }

// hold makes unknown i its right hand side, and no other equation depend on it.
func (b *band) hold(i int) {
	clear(b.row(i))
	for j := i + 1; j < min(b.n, i+b.half); j++ {
		b.rows[j*b.half+b.half-1-(j-i)] = 0
	}
	b.row(i)[b.half-1] = 1
}

// factor replaces b by its Cholesky factor L, b = L L^T.
func (b *band) factor() {
	last := b.half - 1
	for i := range b.n {
		row := b.row(i)
		for j := max(0, i-last); j <= i; j++ {
			// Entry (i, j) less the product of rows i and j as far as both reach before j.
			other := b.row(j)
			reach := min(j, last-(i-j)) // entries of both rows before column j
			at := last - (i - j)
			sum := row[at]
			x, y := row[at-reach:at], other[last-reach:last]
			for k, v := range x {
				sum -= v * y[k]
			}
			if i == j {
				row[last] = math.Sqrt(sum)
			} else {
				row[at] = sum / other[last]
			}
		}
	}
}

// solve replaces v by the solution of b x = v, b being factored.
func (b *band) solve(v []float64) {
	last := b.half - 1
	for i := range b.n {
		row := b.row(i)
		reach := min(i, last)
		sum := v[i]
		for k, l := range row[last-reach : last] {
			sum -= l * v[i-reach+k]
		}
		v[i] = sum / row[last]
	}
	for i := b.n - 1; i >= 0; i-- {
		row := b.row(i)
		v[i] /= row[last]
		reach := min(i, last)
		for k, l := range row[last-reach : last] {
			v[i-reach+k] -= l * v[i]
		}
	}
}
