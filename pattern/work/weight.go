package work

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
)

// WeightKg returns the weight of product where it is placed on the ground of j: the volume
// of each strip in it, bevels and holes taken off, times the timber's density, which is that
// of wood at 12 percent moisture; of a board, by its mean density. It is not known where a
// density is missing.
func WeightKg(r movement.Physics, j Job, product pattern.Product, at outline.Placed) Estimate {
	p := j.Pattern
	if j.Board != nil {
		return boardWeightKg(r, j, product)
	}
	side, thickness := at.Side.MM(), p.Panel.Thickness.MM()
	_, across := outline.ShapeOf(product).Size()
	low, sum := 0.0, 0.0
	for _, s := range p.Strips {
		high := low + s.Width.MM()
		from, to := max(low-side, 0), min(high-side, across.MM())
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

// boardWeightKg goes by the mean density of the board.
func boardWeightKg(r movement.Physics, j Job, product pattern.Product) Estimate {
	var mass, area float64
	for i, s := range j.Pattern.Strips {
		mm2 := j.Board.AreaMM2(i)
		timber, _ := r.Table().Get(s.Species)
		if mm2 > 0 && timber.DensityKgM3 <= 0 {
			return Estimate{}
		}
		mass, area = mass+mm2*timber.DensityKgM3, area+mm2
	}
	if area == 0 {
		return Estimate{}
	}
	_, across := outline.ShapeOf(product).Size()
	volume := volumeMM3(product, j.Ground().Panel.Thickness.MM(), 0, across.MM()) - holesMM3(product, 0, across.MM())
	return known(volume * mass / area / 1e9)
}

// volumeMM3 returns the volume of product, t thick, that lies from..to across it,
// without its holes.
func volumeMM3(product pattern.Product, t, from, to float64) float64 {
	shape, n := outline.ShapeOf(product), float64(bevels(product))
	full := t * shape.Area(0, from, to)
	if n == 0 {
		return full
	}
	return full - n*outline.BevelMM3(shape, product.Bevel.MM(), from, to)
}

// holesMM3 returns what the holes of product, a row in its middle, take from..to across.
func holesMM3(product pattern.Product, from, to float64) float64 {
	if product.Holes == 0 || product.Hole == 0 {
		return 0
	}
	_, across := outline.ShapeOf(product).Size()
	middle := across.MM() / 2
	return float64(product.Holes) * product.HoleDepth.MM() * outline.DiscMM2(product.Hole.MM()/2, from-middle, to-middle)
}
