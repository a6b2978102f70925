package relief_test

import (
	"math"
	"slices"
	"testing"

	"example.com/oddments/pattern/relief"
)

// The factor is the largest that keeps the heights in their room: 100 um at 50 are 5 mm.
func TestMagnification(t *testing.T) {
	for _, c := range []struct {
		um, mm float64
		want   int
	}{
		{100, 5, 50}, {100, 4.99, 20}, {100.1, 5, 20}, {0, 5, 1000}, {1, 1, 1000}, {1.01, 1, 500}, {5000, 5, 1}, {9000, 5, 1},
	} {
		if got := relief.Magnification(c.um, c.mm); got != c.want {
			t.Errorf("%g um in %g mm: %d, want %d", c.um, c.mm, got, c.want)
		}
	}
}

// What is drawn is the profile: columns lie on it, the underside is seen from there, the range
// holds every column with its band, and the worst lines come in their order.
func TestDrawing(t *testing.T) {
	p := leaners(t, "hard_maple", "up left", "", "up left", "up right")
	p.Strips[2].Species = "black_walnut"
	seasons := relief.Of(physics(), p, relief.Wetter{}).Seasons()
	for _, s := range seasons {
		const n = 200 // two columns a millimetre: their middles lie between points
		for face, sign := range map[relief.Face]float64{relief.Top: 1, relief.Under: -1} {
			heights, band := s.Columns(face, n)
			of := s.TopUM
			if face == relief.Under {
				of = s.UnderUM
			}
			least, most := s.Range(face)
			if most-least > relief.RangeUM(seasons) {
				t.Errorf("%v %v spans more than all", s.Season, face)
			}
			for i := range n {
				if want := sign * (of[i] + of[i+1]) / 2; math.Abs(heights[i]-want) > 1e-9 {
					t.Fatalf("%v %v column %d: %g, want %g", s.Season, face, i, heights[i], want)
				}
				if heights[i]-band[i] < least-1e-9 || heights[i]+band[i] > most+1e-9 {
					t.Fatalf("%v %v column %d lies outside of %g to %g", s.Season, face, i, least, most)
				}
			}
		}
		worst := s.Worst(2)
		if len(worst) != 2 || s.Lines[worst[0]-1].StepUM < s.Lines[worst[1]-1].StepUM || slices.ContainsFunc(s.Lines, func(l relief.LineFigures) bool {
			return l.StepUM > s.Lines[worst[0]-1].StepUM
		}) {
			t.Errorf("worst %v of %+v", worst, s.Lines)
		}
		if len(s.Worst(9)) > len(s.Lines) {
			t.Error("more lines than there are")
		}
	}
	for _, f := range []relief.Face{relief.Top, relief.Under} {
		worse := relief.WorseFor(seasons, f)
		if seasons[worse].GapUM(f) < seasons[1-worse].GapUM(f) {
			t.Errorf("the worse season of %v has the smaller gap", f)
		}
	}
}
