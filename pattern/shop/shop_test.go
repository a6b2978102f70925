package shop_test

import (
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// 27 mm rough gives 25 mm finished (common practice, no source): a slice for a board of
// 25 is sawn to 27.
func TestRoughThicknessOfTheTrade(t *testing.T) {
	if got := shop.Default().Sawn(25 * length.Millimetre); got != 27*length.Millimetre {
		t.Errorf("for a board of 25 mm is sawn %v thick, want 27 mm", got)
	}
}

func TestThicknessOnItsWay(t *testing.T) {
	s := shop.Default()
	t22 := 22 * length.Millimetre
	if got := s.Glued(t22); got != 23*length.Millimetre {
		t.Errorf("glued %v, want 23 mm: 1 mm is flattened off", got)
	}
	if got := s.Sawn(t22); got != 24*length.Millimetre {
		t.Errorf("sawn %v, want 24 mm: 1 mm more is planed off", got)
	}
}

func TestDefaultLimitsAscend(t *testing.T) {
	l := shop.Default().Limits
	for name, limit := range map[string]shop.Limit{"step": l.StepUM, "strain": l.StrainPct, "moisture": l.MoisturePct} {
		if limit.Care <= 0 || limit.Much <= limit.Care {
			t.Errorf("%s: %v does not ascend from above 0", name, limit)
		}
	}
}
