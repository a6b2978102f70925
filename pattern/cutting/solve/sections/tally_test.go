package sections

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
		tallies, some := TallyingInOrder(want, order), TakeOf(counts)
		rest, ok := tallies.Left(left).Less(tallies.Of(some), tallies.Guard)
		within := some.Within(left)
		if within && !ok || ok && !within && tallies.Whole {
			t.Fatalf("%v of %v: within %v, by tallies %v", some, left, within, ok)
		}
		if within {
			some.SubtractFrom(left)
			if rest != tallies.Left(left) {
				t.Fatalf("%v leaves %v, not %x", some, left, rest)
			}
			for _, k := range order {
				if tallies.Holds(k) && tallies.Count(rest, k) != left[k] {
					t.Fatalf("kind %d: %d left, want %d", k, tallies.Count(rest, k), left[k])
				}
			}
		}
		i, j := 0, 0
		if tallies.Whole {
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
