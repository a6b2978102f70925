package colour

import (
	"encoding/json"
	"math"
	"testing"
)

func TestParseRGB(t *testing.T) {
	for text, want := range map[string]RGB{
		"#4A3222": {0x4A, 0x32, 0x22}, "#4a3222": {0x4A, 0x32, 0x22}, "#000000": {}, "#FFFFFF": {255, 255, 255},
	} {
		if got, err := ParseRGB(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "#", "4A3222", "#4A322", "#4A32222", "#4A32G2", "#+A3222", "#-A3222", "#4A_222", "#ä3222"} {
		if got, err := ParseRGB(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

func TestRGBInJSON(t *testing.T) {
	data, err := json.Marshal(RGB{0x4A, 0x32, 0x22})
	if err != nil || string(data) != `"#4A3222"` {
		t.Errorf("%s, %v", data, err)
	}
	var back RGB
	if err := json.Unmarshal(data, &back); err != nil || back != (RGB{0x4A, 0x32, 0x22}) {
		t.Errorf("%v, %v", back, err)
	}
	if err := json.Unmarshal([]byte(`"brown"`), &back); err == nil {
		t.Error("brown is read as a colour")
	}
}

// Budget: under 2 us, for a search for layouts compares every two timbers.
func BenchmarkContrast(b *testing.B) {
	walnut, maple := RGB{0x4A, 0x32, 0x22}, RGB{0xDD, 0xBF, 0x8A}
	for b.Loop() {
		Contrast(walnut, maple)
	}
}

// Lighter moves L* by what it is asked for, as far as sRGB goes.
func TestLighter(t *testing.T) {
	for _, c := range []RGB{{0xD8, 0xB9, 0x8A}, {0x4A, 0x32, 0x22}, {128, 128, 128}} {
		for _, by := range []float64{-12, -3, 0, 5, 14} {
			if got := c.Lighter(by).Lightness() - c.Lightness(); math.Abs(got-by) > 0.5 {
				t.Errorf("%v by %v: by %.2f", c, by, got)
			}
		}
	}
	if black, white := (RGB{}).Lightness(), (RGB{255, 255, 255}).Lightness(); math.Abs(black) > 1e-9 || math.Abs(white-100) > 1e-9 {
		t.Errorf("black has %v, white %v", black, white)
	}
}
