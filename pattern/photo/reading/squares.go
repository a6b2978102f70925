package reading

import "math"

// leastSquares are normal equations: left times what is sought is right.
type leastSquares struct {
	left  [][]float64
	right []float64
}

func newLeastSquares(n int) *leastSquares {
	s := &leastSquares{left: make([][]float64, n), right: make([]float64, n)}
	for i := range s.left {
		s.left[i] = make([]float64, n)
	}
	return s
}

// add adds an observation: that the terms come to value, with a weight.
func (s *leastSquares) add(terms []float64, value, weight float64) {
	for i, t := range terms {
		for j, u := range terms {
			s.left[i][j] += weight * t * u
		}
		s.right[i] += weight * t * value
	}
}

// solve returns what is sought; what nothing was said of becomes 0. It uses s up.
func (s *leastSquares) solve() []float64 {
	const nothing = 1e-12
	n := len(s.right)
	for i := range n {
		pivot := i
		for j := i + 1; j < n; j++ {
			if math.Abs(s.left[j][i]) > math.Abs(s.left[pivot][i]) {
				pivot = j
			}
		}
		s.left[i], s.left[pivot] = s.left[pivot], s.left[i]
		s.right[i], s.right[pivot] = s.right[pivot], s.right[i]
		for j := i + 1; j < n && math.Abs(s.left[i][i]) > nothing; j++ {
			f := s.left[j][i] / s.left[i][i]
			for k := i; k < n; k++ {
				s.left[j][k] -= f * s.left[i][k]
			}
			s.right[j] -= f * s.right[i]
		}
	}
	out := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		rest := s.right[i]
		for j := i + 1; j < n; j++ {
			rest -= s.left[i][j] * out[j]
		}
		if math.Abs(s.left[i][i]) > nothing {
			out[i] = rest / s.left[i][i]
		}
	}
	return out
}
