package pattern_test

import (
	"testing"
	"unicode/utf8"

	"example.com/oddments/pattern"
)

func TestForbiddenRune(t *testing.T) {
	for text, want := range map[string]rune{
		"": 0, "Hearth trivet": 0, "é € ½ \u200f\u200e": 0, "\ufffd": 0,
		"a\tb": '\t', "a\x1b[1m": '\x1b', "\u0085": '\u0085', "x\u2028": '\u2028', "x\u2029": '\u2029',
		"\u202a": '\u202a', "a\u202eb": '\u202e', "\u2066": '\u2066', "a\u2069": '\u2069', "a\xffb": utf8.RuneError,
	} {
		if got, bad := pattern.ForbiddenRune(text); got != want || bad != (want != 0) {
			t.Errorf("%q: %U, %v, want %U", text, got, bad, want)
		}
	}
}
