package outline

import (
	"math"
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
