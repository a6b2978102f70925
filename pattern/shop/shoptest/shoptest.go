// Package shoptest gives tests a workshop whose figures stay when the built-in ones change:
// what was worked out by hand, and the stored answers of the planner's tests, go by it.
package shoptest

import (
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// Roomy returns the built-in workshop with allowances on the generous side.
func Roomy() shop.Shop {
	const mm = length.Millimetre
	s := shop.Default()
	s.Allowance = shop.Allowance{
		Truing: 2 * mm, Cleaning: 800 * length.Micrometre, Planing: 2 * mm, Jointing: 1 * mm,
		Flattening: 2 * mm, Length: 20 * mm, EndTrim: 10 * mm, Second: 3 * mm, OverLength: 40 * mm,
	}
	return s
}
