package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// bitPoint is how far the point of a drill goes below the hole's floor: common
// practice, 2 to 4 mm.
const bitPoint = 3 * length.Millimetre

// HoleCentres returns the centres of the holes of p from its near end, evenly parted,
// and the least wood between two of them.
func HoleCentres(p pattern.Product) (centres []length.Length, gap length.Length) {
	if p.Holes == 0 {
		return nil, 0
	}
	along, _ := outline.ShapeOf(p).Size()
	free := along - length.Length(p.Holes)*p.Hole
	if free < 0 {
		return nil, 0
	}
	gaps := free.Split(p.Holes + 1)
	at := length.Length(0)
	for i := range p.Holes {
		at += gaps[i]
		centres = append(centres, at+p.Hole/2)
		at += p.Hole
	}
	return centres, gaps[p.Holes]
}

// FloorLeft returns the wood under the holes of p in a block t thick, below the point
// of the bit.
func FloorLeft(p pattern.Product, t length.Length) length.Length { return t - p.HoleDepth - bitPoint }

// HolesCM3 returns what the holes of p remove.
func HolesCM3(p pattern.Product) float64 {
	r := p.Hole.MM() / 2
	return float64(p.Holes) * math.Pi * r * r * p.HoleDepth.MM() / 1000
}
