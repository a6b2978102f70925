package edit_test

import (
	"reflect"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/outline"
)

// What is saved counts, whichever part of the pattern changes: else a change could be
// lost on leaving.
func TestEveryPartOfAPatternCounts(t *testing.T) {
	changes := map[string]func(*pattern.Pattern){
		"Name":     func(p *pattern.Pattern) { p.Name = "other" },
		"Notes":    func(p *pattern.Pattern) { p.Notes = "other" },
		"Panel":    func(p *pattern.Pattern) { p.Panel.Width = 3 * mm },
		"Strips":   func(p *pattern.Pattern) { p.Strips = p.Strips[1:] },
		"Seconds":  func(p *pattern.Pattern) { p.Seconds = []pattern.Second{{Bar: 41 * mm}} },
		"Products": func(p *pattern.Pattern) { p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 100 * mm}} },
		"Avoids":   func(p *pattern.Pattern) { p.Avoids = []pattern.Avoid{{Radius: 3 * mm}} },
		"Made":     func(p *pattern.Pattern) { p.Made = []pattern.Made{{Copies: 1}} },
	}
	fields := reflect.TypeFor[pattern.Pattern]()
	for i := range fields.NumField() {
		name := fields.Field(i).Name
		change, ok := changes[name]
		if !ok {
			t.Errorf("%s has no case", name)
			continue
		}
		h := edit.NewHistory(four())
		next := h.Now()
		change(&next.Pattern)
		if next.Alike(h.Now()) || !h.Do("change", next).Dirty() {
			t.Errorf("a change of %s goes unseen", name)
		}
	}
}
