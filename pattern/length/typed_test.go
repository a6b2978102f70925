package length_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

const mm = length.Millimetre

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
			line := spoken.Line{Text: word + " wide", Unit: u}
			got, err := line.Length()
			if err != nil || got != l || line.Rest() != "wide" || strings.Contains(word, " ") {
				t.Fatalf("%v in %v is %q, reads back as %v, %v", l, u, word, got, err)
			}
		}
	}
}
