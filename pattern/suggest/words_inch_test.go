package suggest

import (
	"testing"

	"example.com/oddments/pattern/length"
)

// A tolerance is said in the maker's unit, and never less than is enough.
func TestToleranceInInches(t *testing.T) {
	for l, want := range map[length.Length]string{
		length.Inch / 8:           "1/8 in",
		108 * length.Millimetre:   "4 17/64 in", // 4.252, and 4 16/64 is 4.25
		length.Inch/64 + 1:        "1/32 in",
		2 * length.Inch:           "2 in",
		3*length.Inch/64 - 1:      "3/64 in",
		10*length.Millimetre + 40: "13/32 in", // 0.3937, and 25/64 is 0.3906
	} {
		if got := enough(l, length.InInches); got != want {
			t.Errorf("%v is said as %q, want %q", l, got, want)
		}
	}
	if got := enough(108*length.Millimetre, length.InMM); got != "108 mm" {
		t.Errorf("in millimetres %q", got)
	}
}
