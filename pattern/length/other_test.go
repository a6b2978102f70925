package length_test

import (
	"testing"

	"example.com/oddments/pattern/length"
)

// A square foot is 0.09290304 m2, a pound 0.45359237 kg, a pound-force 4.4482216 N (NIST
// Special Publication 811, appendix B; from memory).
func TestOtherMeasures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{length.Area(0.09290304, length.InInches), "1.00 sq ft"}, {length.Area(0.876, length.InMM), "0.876 m2"},
		{length.Run(30.48, length.InInches), "100.0 ft"}, {length.Run(7.24, length.InMM), "7.2 m"},
		{length.Mass(0.45359237, length.InInches), "1.00 lb"}, {length.Mass(0.79, length.InMM), "0.79 kg"},
		{length.Force(4448.2216, length.InInches), "1000 lbf"}, {length.Force(6900, length.InMM), "6.9 kN"}, {length.Force(994, length.InMM), "990 N"},
		{length.Chips(16.387064, length.InInches), "1.00 cu in"}, {length.Chips(15.62, length.InMM), "15.6 cm3"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// A force is told no finer than hands can bring it about.
func TestForceInWords(t *testing.T) {
	for newtons, want := range map[float64]string{0: "0 N", 734: "730 N", 999.4: "1000 N", 1000: "1.0 kN", 7342: "7.3 kN", 21888: "21.9 kN"} {
		if got := length.Force(newtons, length.InMM); got != want {
			t.Errorf("%v N is told as %s, want %s", newtons, got, want)
		}
	}
}
