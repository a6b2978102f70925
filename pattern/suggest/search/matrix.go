package search

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
)

// A matrix holds what each two kinds are beside each other.
type matrix struct {
	n        int
	contrast []int64   // in units
	exact    []float64 // the same, not rounded
	beside   []bool    // whether they may lie there
}

func (m *matrix) at(i, j int) int { return i*m.n + j }

// newMatrix computes every pair of kinds; nil where it was stopped.
func (s *search) newMatrix() *matrix {
	n := len(s.Kinds)
	m := &matrix{n: n, contrast: make([]int64, n*n), exact: make([]float64, n*n), beside: make([]bool, n*n)}
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
			beside := lineLevel(s.physics, s.ask, left, right) <= s.ask.Level && !(s.ask.NoTwins && left.Species == right.Species) &&
				(s.ask.Aim == suggest.Contrast || c >= s.ask.LeastContrast)
			for _, at := range [...]int{m.at(i, j), m.at(j, i)} {
				m.exact[at], m.contrast[at], m.beside[at] = c, int64(math.Round(c*suggest.PerContrast)), beside
			}
		}
	}
	return m
}

// lineLevel returns the level of the glue line between two strips, each with the relief
// of its own width.
func lineLevel(r movement.Physics, a suggest.Request, left, right pattern.Strip) pattern.Level {
	figure, _ := r.Pair(a.Panel(), left, right)
	return figure.Level
}
