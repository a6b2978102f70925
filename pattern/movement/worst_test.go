package movement_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

// The level goes first, then the figure that is furthest beyond its own limit, then the
// place: a small moisture gap may be worse than a large step.
func TestWorstOf(t *testing.T) {
	r := movement.New(species.Builtin(), shoptest.Roomy())
	limits := r.Shop().Limits
	calm := movement.Line{Line: 1}
	step := movement.Line{Line: 2, Level: pattern.TakeCare, StepUM: 1.2 * limits.StepUM.Care}
	gap := movement.Line{Line: 3, Level: pattern.TakeCare, GapPct: 1.3 * limits.MoisturePct.Care}
	much := movement.Line{Line: 4, Level: pattern.TooMuch, StrainPct: 1.1 * limits.StrainPct.Care}
	for _, c := range []struct {
		lines []movement.Line
		want  int
	}{
		{nil, 0}, {[]movement.Line{calm}, 1}, {[]movement.Line{calm, step}, 2}, {[]movement.Line{gap, step}, 3},
		{[]movement.Line{step, gap, calm}, 3}, {[]movement.Line{step, much, gap}, 4},
		{[]movement.Line{{Line: 7, Level: pattern.TakeCare, StepUM: step.StepUM}, step}, 7},
	} {
		if got := r.WorstOf(c.lines); got.Line != c.want {
			t.Errorf("of %v the worst is line %d, want %d", c.lines, got.Line, c.want)
		}
	}
}
