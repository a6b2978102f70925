package photo_test

import (
	"image/color"
	"math"
	"testing"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/phototest"
)

// labs are colours of timbers and of paints, some beyond what is usual.
func labs() []colour.Lab {
	return []colour.Lab{{L: 80, A: 5, B: 20}, {L: 30, A: 8, B: 9}, {L: 45, A: 25, B: 25}, {L: 60, A: -10, B: 30}}
}

// IEC 61966-2-1: sRGB 0.5 is 0.21404 linear, 119 of 255 is 0.18447.
func TestLinearLight(t *testing.T) {
	p := decode(t, phototest.PNG(plain(8, 8, color.NRGBA{9, 9, 9, 255})))
	for coded, want := range map[float64]float64{127.5: 0.21404, 119: 0.18447, 0: 0, 255: 1, 5.1: 0.02 / 12.92} {
		if y := p.XYZ(photo.Triple{coded, coded, coded})[1]; math.Abs(y-want) > 1e-5 {
			t.Errorf("%v: %.5f, want %.5f", coded, y, want)
		}
	}
}

// The Bradford matrix from D50 (0.96422, 1, 0.82521) to D65 as published; the method is that
// of ISO 15076-1, Annex E. It is printed to seven places for D65 of (0.95047, 1, 1.08883).
func TestBradford(t *testing.T) {
	want := photo.Matrix{
		{0.9555766, -0.0230393, 0.0631636}, {-0.0282895, 1.0099416, 0.0210077}, {0.0122982, -0.0204830, 1.3299098},
	}
	got := photo.Adapt(photo.Triple{0.96422, 1, 0.82521}, photo.D65())
	for i := range want {
		for j := range want {
			if math.Abs(got[i][j]-want[i][j]) > 2e-7 {
				t.Errorf("row %d column %d: %.7f, want %.7f", i+1, j+1, got[i][j], want[i][j])
			}
		}
	}
	there := got.By(got.Inverse())
	for i := range there {
		for j := range there {
			if want := map[bool]float64{true: 1}[i == j]; math.Abs(there[i][j]-want) > 1e-12 {
				t.Errorf("there and back: %v", there)
			}
		}
	}
}

// Display P3 red is XYZ 0.48657 0.22897 0 (SMPTE EG 432-1 primaries, white D65).
func TestDisplayP3(t *testing.T) {
	p := decode(t, phototest.WithChunk(phototest.PNG(plain(8, 8, color.NRGBA{9, 9, 9, 255})), "cICP", []byte{12, 13, 0, 1}))
	for i, want := range []float64{0.48657, 0.22897, 0} {
		if got := p.XYZ(photo.Triple{255, 0, 0})[i]; math.Abs(got-want) > 1e-5 {
			t.Errorf("%d: %.5f, want %.5f", i, got, want)
		}
	}
	if white := p.XYZ(photo.Triple{255, 255, 255}); math.Abs(white[0]-0.95046) > 1e-5 || math.Abs(white[1]-1) > 1e-9 {
		t.Errorf("white is %v", white)
	}
}
