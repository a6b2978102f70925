package outline

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Against the integer square root of math/big, over the sizes that panels have.
func TestCeilSqrtDiffIsExact(t *testing.T) {
	check := func(a, b length.Length) {
		t.Helper()
		want := new(big.Int).Mul(big.NewInt(int64(a-b)), big.NewInt(int64(a+b)))
		root := new(big.Int).Sqrt(want)
		if new(big.Int).Mul(root, root).Cmp(want) < 0 {
			root.Add(root, big.NewInt(1))
		}
		if got := ceilSqrtDiff(a, b); int64(got) != root.Int64() {
			t.Fatalf("root of %d^2 - %d^2 rounded up is %d, want %v", a, b, got, root)
		}
	}
	for _, c := range [][2]length.Length{{0, 0}, {1, 0}, {1, 1}, {2, 1}, {5, 4}, {5, 3}, {4e9, 0}, {4e9, 3_999_999_999}, {8e10, 1}} {
		check(c[0], c[1])
	}
	rng := rand.New(rand.NewPCG(11, 1))
	for range 20_000 {
		a := length.Length(rng.Int64N(int64(4*pattern.MaxLength))) >> rng.IntN(36)
		check(a, length.Length(rng.Int64N(int64(a)+1)))
	}
}

func TestHalves(t *testing.T) {
	for _, c := range []struct{ l, floor, ceil length.Length }{{7, 3, 4}, {6, 3, 3}, {0, 0, 0}, {-7, -4, -3}, {-6, -3, -3}} {
		if floorHalf(c.l) != c.floor || ceilHalf(c.l) != c.ceil {
			t.Errorf("half of %d: %d and %d, want %d and %d", c.l, floorHalf(c.l), ceilHalf(c.l), c.floor, c.ceil)
		}
	}
}
