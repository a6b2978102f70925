package work

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
)

// MaleTemplate returns the size of a template inside the bush's path, for a kept piece
// of size d; 0 where the bush is no larger than the cutter.
func MaleTemplate(d length.Length, c shop.Cut) length.Length {
	if c.Bush <= c.Cutter {
		return 0
	}
	return max(0, d-(c.Bush-c.Cutter))
}

// FemaleTemplate returns the size of the opening that a piece of size d is kept from.
func FemaleTemplate(d length.Length, c shop.Cut) length.Length { return d + c.Bush + c.Cutter }

// HoleTemplate returns the size of the opening for a hole of size d.
func HoleTemplate(d length.Length, c shop.Cut) length.Length { return d + c.Bush - c.Cutter }

// Passes returns the passes through a panel t thick and into the board below it; 0
// where no pass is set.
func Passes(t length.Length, c shop.Cut) int {
	if c.Pass <= 0 {
		return 0
	}
	return ceilDiv(t+c.Base, c.Pass)
}

// PathM returns the metres that the cutter's centre travels round the product in so
// many passes.
func PathM(p pattern.Product, cutter length.Length, passes int) float64 {
	return outline.ShapeOf(p).Perimeter(cutter) * float64(passes) / 1000
}
