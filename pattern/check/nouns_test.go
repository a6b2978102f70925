package check_test

import (
	"regexp"
	"strings"
	"testing"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

var (
	number = regexp.MustCompile(`^[(±-]?\d+([./]\d+)*$`)
	// named is what a number is of, before it or behind it.
	named = regexp.MustCompile(`^(mm|in|um|thou|dm3|%|points?|degrees|contrast|strips?|lines?|glue|joints?|products?|copies|parts|bars?|pieces?|rows?|round|block|rectangle|oval|holes?|first|width|second|annotation|since|[A-Z][a-z]+|do|does)$`)
	// between may stand between a number and what it is of.
	between = regexp.MustCompile(`^(±?\d+([./]\d+)*|->|to|and|about|x|of|at|is|or|the|more|than|,)$`)
)

// unnamed returns the first number of a text that says neither a unit nor what it counts.
func unnamed(text string) string {
	words := strings.Fields(strings.NewReplacer("%", " % ", ",", " , ", ";", " ; ", ":", " : ", "(", " ( ", ")", " ) ", ".\n", " ").Replace(text))
	of := func(i, step int) bool {
		for i += step; i >= 0 && i < len(words); i += step {
			if named.MatchString(words[i]) {
				return true
			}
			if !between.MatchString(words[i]) {
				return false
			}
		}
		return false
	}
	for i, word := range words {
		if number.MatchString(word) && !of(i, 1) && !of(i, -1) {
			return word
		}
	}
	return ""
}

// A number has a noun and a unit, in every finding and remedy of the demo's patterns and in
// every worked example of a rule.
func TestNumbersHaveNouns(t *testing.T) {
	for text, want := range map[string]string{"gap 2.2": "2.2", "2.4 away": "2.4", "moisture 2.2 points apart": "", "strips 2, 4 and 6": "", "step 71 ±13 um": "", "3 to 5 mm": ""} {
		if got := unnamed(text); got != want {
			t.Errorf("%q: %q has no noun, want %q", text, got, want)
		}
	}
	var texts []string
	for _, c := range ruleCases() {
		texts = append(texts, c.message)
	}
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	r := movement.New(species.Builtin(), demo.Shop)
	for _, p := range demo.Patterns {
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			for _, f := range check.Of(r, p.Pattern, u).Findings {
				texts = append(texts, f.Message)
				for _, m := range f.Remedies() {
					texts = append(texts, m.Text)
				}
			}
		}
	}
	if len(texts) < 60 {
		t.Fatalf("only %d texts", len(texts))
	}
	for _, text := range texts {
		if bare := unnamed(text); bare != "" {
			t.Errorf("%q has no noun in %q", bare, text)
		}
	}
}
