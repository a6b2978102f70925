package tui

import (
	"strings"
	"testing"
)

// Nothing on any screen, in any list or in the table of keys promises what a program
// cannot: words of caution defer to manuals, local rules and licensed practice.
func TestNoScreenPromisesTooMuch(t *testing.T) {
	look := func(where, text string) {
		t.Helper()
		for _, word := range []string{"safe", "certif", "guarantee"} {
			if strings.Contains(strings.ToLower(text), word) {
				t.Errorf("%s says %q", where, word)
			}
		}
	}
	for _, a := range Keys().Actions() {
		look(string(a.ID), a.Name+" "+a.Does)
	}
	demo := demoSetup(t).Demo
	for _, p := range demo {
		setup := demoSetup(t)
		setup.Open = p
		d := start(t, setup, 200, 200)
		for range screens() {
			look(p.Stem+", "+string(d.app.here()), d.screen())
			d.keys("tab")
		}
		for _, keys := range []string{"?", toCutOut + " s", toMade + " l", "4 s", "x", "S"} {
			look(p.Stem+", "+keys, start(t, setup, 200, 200).keys(keys).screen())
		}
	}
}
