package search

import (
	"math"
	"slices"

	"example.com/oddments/pattern/suggest"
)

// A matrix holds what each two kinds are beside each other.
type matrix struct {
	n        int
	contrast []int64   // in units
	exact    []float64 // the same, not rounded
	beside   []bool    // whether they may lie there
	middle   []bool    // of each kind: whether its step may end a symmetric layout of an even number
}

func (m *matrix) at(i, j int) int { return i*m.n + j }

// alike reports whether kinds i and j may lie beside the same kinds.
func (m *matrix) alike(i, j int) bool {
	return slices.Equal(m.beside[i*m.n:(i+1)*m.n], m.beside[j*m.n:(j+1)*m.n])
}

// coupled returns the matrix with the couples of s: two steps lie beside each other where
// their strips do on either side. Both sides have the same timbers, and so the same contrast.
func (m *matrix) coupled(s *search) *matrix {
	n := len(s.Kinds)
	out := &matrix{n: n, contrast: make([]int64, n*n), exact: make([]float64, n*n), beside: make([]bool, n*n), middle: make([]bool, n)}
	for i := range n {
		a, _ := s.coupleOf(i)
		out.middle[i] = m.beside[m.at(a.left, a.right)]
		for j := range n {
			b, _ := s.coupleOf(j)
			left, right, at := m.at(a.left, b.left), m.at(a.right, b.right), out.at(i, j)
			out.contrast[at], out.exact[at], out.beside[at] = m.contrast[left], m.exact[left], m.beside[left] && m.beside[right]
		}
	}
	return out
}

// newMatrix computes every pair of kinds; nil where it was stopped.
func (s *search) newMatrix() *matrix {
	n := len(s.Kinds)
	m := &matrix{n: n, contrast: make([]int64, n*n), exact: make([]float64, n*n), beside: make([]bool, n*n), middle: make([]bool, n)}
	for i := range n {
		if s.stop.stopped() {
			return nil
		}
		left := s.Kinds[i].Strip
		timber, _ := s.physics.Table().Get(left.Species)
		for j := i; j < n; j++ {
			right := s.Kinds[j].Strip
			other, _ := s.physics.Table().Get(right.Species)
			c := timber.Contrast(other)
			beside := suggest.LineLevel(s.physics, s.ask, left, right) <= s.ask.Level && !(s.ask.NoTwins && left.Species == right.Species) &&
				(s.ask.Aim == suggest.Contrast || c >= s.ask.LeastContrast)
			for _, at := range [...]int{m.at(i, j), m.at(j, i)} {
				m.exact[at], m.contrast[at], m.beside[at] = c, int64(math.Round(c*suggest.PerContrast)), beside
			}
			if i == j {
				m.middle[i] = beside
			}
		}
	}
	return m
}
