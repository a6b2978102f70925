package length_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
)

const mm = length.Millimetre

func TestTake(t *testing.T) {
	for text, want := range map[string]struct {
		l    length.Length
		rest string
	}{
		"290 x2":          {290 * mm, "x2"},
		"290 MM wide":     {290 * mm, "wide"},
		"11 1/2 in thick": {23 * length.Inch / 2, "thick"},
		"11-1/2in 3/4":    {23 * length.Inch / 2, "3/4"},
		"240 3-1/2in":     {240 * mm, "3-1/2in"},
		"12,5":            {12500 * length.Micrometre, ""},
		"2 cm":            {20 * mm, ""},
	} {
		l, rest, err := length.Take(strings.Fields(text), length.InMM)
		if err != nil || l != want.l || strings.Join(rest, " ") != want.rest {
			t.Errorf("%q: %v, %v, %v; want %v and %q", text, l, rest, err, want.l, want.rest)
		}
	}
	if _, _, err := length.Take([]string{"wide"}, length.InMM); err == nil {
		t.Error("a word is a length")
	}
}

// A typed length is one word and reads back to the same nanometre.
func TestTypedReadsBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	for i := range 3000 {
		l := length.Length(rng.Int64N(int64(2 * length.Metre)))
		if i%2 == 0 {
			l = length.Length(rng.Int64N(2000)) * length.Inch / 64
		}
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			word := l.Typed(u)
			got, rest, err := length.Take([]string{word, "wide"}, u)
			if err != nil || got != l || len(rest) != 1 || strings.Contains(word, " ") {
				t.Fatalf("%v in %v is %q, reads back as %v, %v, %v", l, u, word, got, rest, err)
			}
		}
	}
}
