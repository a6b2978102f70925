package colour

import (
	"math"
	"testing"
)

// CIE 15: 18 % grey has L* 49.496; sRGB red is 53.23 80.11 67.22.
func TestPublishedLab(t *testing.T) {
	red := RGB{R: 255}.Lab()
	if max(math.Abs(red.L-53.23), math.Abs(red.A-80.11), math.Abs(red.B-67.22)) > 0.03 {
		t.Errorf("red is %v", red)
	}
	if y := (Lab{L: 49.496}).XYZ()[1]; math.Abs(y-0.18) > 1e-5 {
		t.Errorf("L* 49.496 reflects %v", y)
	}
	for _, c := range []RGB{{}, {R: 84, G: 59, B: 45}, {R: 255, G: 255, B: 255}, {R: 1, G: 254, B: 127}} {
		if got := c.Lab().RGB(); got != c {
			t.Errorf("%v there and back is %v", c, got)
		}
		if got := LabOfXYZ(c.Lab().XYZ()); got.Difference(c.Lab()) > 1e-3 {
			t.Errorf("%v by XYZ is %v", c, got)
		}
	}
	if got := (Lab{L: 50, A: -120, B: 90}).RGB(); got.R != 0 {
		t.Errorf("beyond sRGB: %v", got)
	}
}

func TestMeanLab(t *testing.T) {
	if got := MeanLab([]Lab{{L: 10}, {L: 40, A: 8}}, []float64{2, 1}); got != (Lab{L: 20, A: 8. / 3}) {
		t.Errorf("mean %v", got)
	}
	if got := (Lab{L: 50, A: 1, B: 2}).Plus(Lab{L: 70, B: 5}, Lab{L: 60, A: 4}); got != (Lab{L: 40, A: 5, B: -3}) {
		t.Errorf("shifted %v", got)
	}
}

func TestParseLab(t *testing.T) {
	if got, err := ParseLab(" 94, 0,-2.5"); err != nil || got != (Lab{L: 94, B: -2.5}) {
		t.Errorf("%v, %v", got, err)
	}
	for _, text := range []string{"", "94,0", "94,0,2,1", "0,0,0", "101,0,0", "x,0,0", "94,NaN,0", "94,0,1e9"} {
		if got, err := ParseLab(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}
