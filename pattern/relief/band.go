package relief

import "math"

// A band is a symmetric positive definite matrix whose entries lie within half, the
// diagonal included, of the diagonal: column j holds the entries (j, j) to (j+half-1, j).
type band struct {
	n, half int
	columns []float64 // what lies beneath the last row is 0
}

// reset makes b a matrix of n columns that holds nothing, in the memory that it had.
func (b *band) reset(n, half int) {
	b.n, b.half = n, half
	if size := n * half; cap(b.columns) < size {
		b.columns = make([]float64, size)
	} else {
		b.columns = b.columns[:size]
		clear(b.columns)
	}
}

// column returns the entries of column j; the first is the diagonal's.
func (b *band) column(j int) []float64 { return b.columns[j*b.half : (j+1)*b.half] }

// hold makes unknown i its right hand side, and no other equation depend on it.
func (b *band) hold(i int) {
	for j := max(0, i-b.half+1); j < i; j++ {
		b.column(j)[i-j] = 0
	}
	clear(b.column(i))
	b.column(i)[0] = 1
}

// factor replaces b by its Cholesky factor L, b = L L^T. Once a column is known it is taken
// out of all that come after: additions that wait for no other, unlike those of an entry
// that is summed up in one go, and in the same order.
func (b *band) factor() {
	for j := range b.n {
		l := b.column(j)
		l[0] = math.Sqrt(l[0])
		for k := 1; k < len(l); k++ {
			l[k] /= l[0]
		}
		for k := 1; k < min(len(l), b.n-j); k++ {
			f := l[k]
			below := l[k:]
			to := b.column(j + k)[:len(below)]
			for m, v := range below {
				to[m] -= v * f
			}
		}
	}
}

// solve replaces each v of vs by the solution of b x = v, b being factored.
func (b *band) solve(vs [][]float64) {
	for j := range b.n {
		l := b.column(j)
		for _, v := range vs {
			x := v[j] / l[0]
			v[j] = x
			rest := v[j+1 : min(b.n, j+b.half)]
			for k, f := range l[1:][:len(rest)] {
				rest[k] -= f * x
			}
		}
	}
	for j := b.n - 1; j >= 0; j-- {
		l := b.column(j)
		for _, v := range vs {
			sum := v[j]
			rest := v[j+1 : min(b.n, j+b.half)]
			for k := len(rest) - 1; k >= 0; k-- {
				sum -= l[k+1] * rest[k]
			}
			v[j] = sum / l[0]
		}
	}
}
