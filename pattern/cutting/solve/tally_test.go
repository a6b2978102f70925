package solve

import (
	"math/rand/v2"
	"testing"
)

// Tallies say of takes what counting kind by kind says, until kinds find no more room;
// then what they say is not within surely is not.
func TestTalliesAgreeWithCounts(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 3))
	var seen [2][2]int // whole or not, within or not
	for range 4_000 {
		kinds := 1 + rng.IntN(60)
		want, left, counts, order := make([]int32, kinds), make([]int32, kinds), make([]int32, kinds), make([]int32, kinds)
		for i, k := range rng.Perm(kinds) {
			want[k], order[i] = 1+rng.Int32N(30), int32(k)
			left[k] = rng.Int32N(want[k] + 1)
			if rng.IntN(4) == 0 {
				counts[k] = min(want[k], rng.Int32N(left[k]+1)+rng.Int32N(8)/7)
			}
		}
		tallies, some := newTallying(want, order), takeOf(counts)
		rest, ok := tallies.left(left).less(tallies.of(some), tallies.guard)
		within := some.within(left)
		if within && !ok || ok && !within && tallies.whole {
			t.Fatalf("%v of %v: within %v, by tallies %v", some, left, within, ok)
		}
		if within {
			some.subtractFrom(left)
			if rest != tallies.left(left) {
				t.Fatalf("%v leaves %v, not %x", some, left, rest)
			}
			for _, k := range order {
				if tallies.places[k].word >= 0 && tallies.count(rest, k) != left[k] {
					t.Fatalf("kind %d: %d left, want %d", k, tallies.count(rest, k), left[k])
				}
			}
		}
		i, j := 0, 0
		if tallies.whole {
			i = 1
		}
		if within {
			j = 1
		}
		seen[i][j]++
	}
	for _, s := range seen {
		if s[0] < 100 || s[1] < 100 {
			t.Errorf("too few of a sort were tried: %v", seen)
		}
	}
}
