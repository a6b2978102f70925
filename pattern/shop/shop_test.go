package shop_test

import (
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// 27 mm rough gives 25 mm finished strips (common practice, no source): what is sawn
// to 27 planes to 25.
func TestRoughThicknessOfTheTrade(t *testing.T) {
	s := shop.Default()
	if got := 25*length.Millimetre + s.Allowance.Planing; got != 27*length.Millimetre {
		t.Errorf("a strip of 25 mm is sawn %v thick, want 27 mm", got)
	}
}

func TestThicknessOnItsWay(t *testing.T) {
	s := shop.Default()
	t22 := 22 * length.Millimetre
	if got := s.Glued(t22); got != 24*length.Millimetre {
		t.Errorf("glued %v, want 24 mm: 2 mm are flattened off", got)
	}
	if got := s.Sawn(t22); got != 26*length.Millimetre {
		t.Errorf("sawn %v, want 26 mm: 2 mm more are planed off", got)
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
