package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
)

// bevelSlices is into how many slices a bevel is cut for its volume strip by strip
// (Simpson's rule, so it is even).
const bevelSlices = 64

// WeightKg gives the weight of product where it is placed on p: the volume of each
// strip in it, bevels and holes taken off, times the timber's density, which is that
// of wood at 12 percent moisture. It is not known where a density is missing.
func WeightKg(r movement.Reckoner, p pattern.Pattern, product pattern.Product, at outline.Placed) Estimate {
	side, thickness := at.Side.MM(), p.Panel.Thickness.MM()
	low, sum := 0.0, 0.0
	for _, s := range p.Strips {
		high := low + s.Width.MM()
		from, to := max(low-side, 0), min(high-side, product.Across().MM())
		low = high
		if to <= from {
			continue
		}
		timber, _ := r.Table().Get(s.Species)
		if timber.DensityKgM3 <= 0 {
			return Estimate{}
		}
		volume := volumeMM3(product, thickness, from, to) - holesMM3(product, from, to)
		sum += volume * timber.DensityKgM3 / 1e9
	}
	return known(sum)
}

// volumeMM3 gives the volume of product, t thick, that lies from..to across it,
// without its holes.
func volumeMM3(product pattern.Product, t, from, to float64) float64 {
	n, c := float64(bevels(product)), product.Bevel.MM()
	full := t * areaMM2(product, 0, from, to)
	if n == 0 {
		return full
	}
	bevelled := 0.0
	for i := range bevelSlices + 1 {
		weight := 2.0 + 2*float64(i%2)
		if i == 0 || i == bevelSlices {
			weight = 1
		}
		bevelled += weight * areaMM2(product, c*float64(i)/bevelSlices, from, to)
	}
	bevelled *= c / (3 * bevelSlices)
	return full - n*(c*areaMM2(product, 0, from, to)-bevelled)
}

// areaMM2 gives the area of product, in mm off all round, that lies from..to across
// the whole product.
func areaMM2(product pattern.Product, off, from, to float64) float64 {
	width := product.Across().MM()
	if product.Shape == outline.Round {
		return discMM2(width/2-off, from-width/2, to-width/2)
	}
	across := min(to, width-off) - max(from, off)
	return max(0, across) * (product.Along().MM() - 2*off)
}

// discMM2 gives the area of a disc about 0 between two lines across it.
func discMM2(radius, from, to float64) float64 {
	under := func(u float64) float64 {
		u = max(-radius, min(radius, u))
		return u*math.Sqrt(radius*radius-u*u) + radius*radius*math.Asin(u/radius)
	}
	return max(0, under(to)-under(from))
}

// holesMM3 gives what the holes of product, a row in its middle, take from..to across.
func holesMM3(product pattern.Product, from, to float64) float64 {
	if product.Holes == 0 || product.Hole == 0 {
		return 0
	}
	middle := product.Across().MM() / 2
	return float64(product.Holes) * product.HoleDepth.MM() * discMM2(product.Hole.MM()/2, from-middle, to-middle)
}
