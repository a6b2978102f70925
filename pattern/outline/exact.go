package outline

import (
	"math"
	"math/big"
	"math/bits"

	"example.com/oddments/pattern/length"
)

// ceilSqrtDiff returns the square root of a*a - b*b, rounded up to a whole number, for
// 0 <= b <= a. It is exact: the float only says where to look.
func ceilSqrtDiff(a, b length.Length) length.Length {
	high, low := bits.Mul64(uint64(a-b), uint64(a+b))
	if high == 0 && low == 0 {
		return 0
	}
	guess := uint64(math.Sqrt(float64(high)*(1<<64) + float64(low)))
	for squareBelow(guess, high, low) {
		guess++
	}
	for guess > 0 && !squareBelow(guess-1, high, low) {
		guess--
	}
	return length.Length(guess)
}

// squareBelow reports whether the square of n is below the number high, low.
func squareBelow(n, high, low uint64) bool {
	h, l := bits.Mul64(n, n)
	return h < high || h == high && l < low
}

// floorHalf and ceilHalf halve l, rounding down and up, also below 0.
func floorHalf(l length.Length) length.Length { return l >> 1 }
func ceilHalf(l length.Length) length.Length  { return -(-l >> 1) }

// Whole numbers too large for 64 bits, for what shapes compute with squares of lengths.

func whole(l length.Length) *big.Int { return big.NewInt(int64(l)) }

// times returns the product of all.
func times(all ...*big.Int) *big.Int {
	out := big.NewInt(1)
	for _, n := range all {
		out.Mul(out, n)
	}
	return out
}

// ceilRoot returns the square root of n, rounded up.
func ceilRoot(n *big.Int) *big.Int {
	out := new(big.Int).Sqrt(n)
	if times(out, out).Cmp(n) < 0 {
		out.Add(out, big.NewInt(1))
	}
	return out
}

// ceilQuo returns n by d, rounded up; d is above 0.
func ceilQuo(n, d *big.Int) *big.Int {
	out, rest := new(big.Int).DivMod(n, d, new(big.Int)) // rounds down, below 0 too
	if rest.Sign() > 0 {
		out.Add(out, big.NewInt(1))
	}
	return out
}
