package outline

import (
	"math/big"

	"example.com/oddments/pattern/length"
)

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
