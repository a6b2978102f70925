package shop_test

import (
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// A limit that is as the default has it may be nobody's: it is said how to set it.
func TestLimitationWords(t *testing.T) {
	m := shop.Default().Machine
	for _, c := range []struct{ got, want string }{
		{m.Surfacer().Words(length.InMM), "the surfacer's default 300 mm (set surfacer_length from its manual)"},
		{m.ThicknesserLeast().Words(length.InMM), "the thicknesser's default 305 mm (set thicknesser_length from its manual)"},
		{m.ThicknesserMost().Words(length.InMM), "the thicknesser's default 318 mm (set thicknesser_width from its manual)"},
		{m.Saw().Words(length.InMM), "the saw's default 80 mm (set saw_depth from its manual)"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	m.SurfacerLength = 10 * length.Inch
	if got, want := m.Surfacer().Words(length.InInches), "your surfacer's 10 in"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
