package pattern_test

import (
	"testing"

	"example.com/oddments/pattern"
)

func TestWordsOfProducts(t *testing.T) {
	for _, s := range pattern.BevelSides() {
		if back, err := pattern.ParseBevelSide(s.String()); err != nil || back != s {
			t.Errorf("%v reads back as %v, %v", s, back, err)
		}
	}
	for _, c := range []pattern.Centre{{}, {Strip: 1}, {Joint: 12}, {Strip: pattern.MaxStrips}} {
		if back, err := pattern.ParseCentre(c.String()); err != nil || back != c {
			t.Errorf("%v reads back as %v, %v", c, back, err)
		}
	}
	for _, word := range []string{"", "kite", "strip", "strip 0", "strip -1", "joint x", "panel 1", "strip 1 2", "strip 10001", "joint 99999999999999999999"} {
		if _, err := pattern.ParseBevelSide(word); err == nil {
			t.Errorf("bevel side %q was read", word)
		}
		if c, err := pattern.ParseCentre(word); err == nil {
			t.Errorf("centre %q was read as %v", word, c)
		}
	}
}

func TestCentreInWords(t *testing.T) {
	for c, want := range map[pattern.Centre]string{{}: "panel", {Strip: 6}: "strip 6", {Joint: 6}: "glue line 6|7"} {
		if got := c.Words(); got != want {
			t.Errorf("%+v is %q, want %q", c, got, want)
		}
	}
}
