package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// BevelFaceMM returns the width of the face of a bevel of 45 degrees, depth c.
func BevelFaceMM(c length.Length) float64 { return c.MM() * math.Sqrt2 }

// bevels counts the bevelled edges of p.
func bevels(p pattern.Product) int {
	switch {
	case p.Bevel == 0:
		return 0
	case p.BevelSide == pattern.BevelBoth:
		return 2
	default:
		return 1
	}
}

// EdgeLeft returns the upright edge between or beside the bevels of p, t thick. Below 0
// the bevels meet.
func EdgeLeft(p pattern.Product, t length.Length) length.Length {
	return t - length.Length(bevels(p))*p.Bevel
}

// BevelCM3 returns what the bevels of p remove.
func BevelCM3(p pattern.Product) float64 {
	return float64(bevels(p)) * outline.ShapeOf(p).Bevelled(p.Bevel.MM()) / 1000
}

// faces returns how much each side of the top and the underside is smaller by the
// bevels.
func faces(p pattern.Product) (top, under length.Length) {
	if p.BevelSide != pattern.BevelUnder {
		top = 2 * p.Bevel
	}
	if p.BevelSide != pattern.BevelTop {
		under = 2 * p.Bevel
	}
	return top, under
}
