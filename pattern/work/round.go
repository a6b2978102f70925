package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
)

// OutOfRound returns by how many millimetres a round that is placed on the ground of j grows
// across the grain in a season; along the grain it does not. On a board it is how much more
// it grows across than along. It is not known for other shapes, and where a timber's
// coefficients are missing.
func OutOfRound(r movement.Physics, j Job, product pattern.Product, at outline.Placed, season movement.Season) Estimate {
	p, diameter := j.Pattern, outline.ShapeOf(product).Diameter()
	if diameter == 0 {
		return Estimate{}
	}
	if j.Board != nil {
		along, across := j.Board.Change(season)
		return Estimate{diameter.MM() * (across - along), j.Board.Known}
	}
	var low length.Length
	sum := 0.0
	for _, s := range p.Strips {
		high := low + s.Width
		within := min(high, at.Side+diameter) - max(low, at.Side)
		low = high
		if within <= 0 {
			continue
		}
		timber, _ := r.Table().Get(s.Species)
		if !timber.Moves() {
			return Estimate{}
		}
		flattened := p.Panel.Flattened.Or(r.Moisture(p, s))
		sin, cos := math.Sincos(s.Rings.Degrees() * math.Pi / 180)
		across := timber.CT*cos*cos + timber.CR*sin*sin
		sum += within.MM() * movement.FreeChange(across, timber.FSP(), flattened, r.EquilibriumPct(season))
	}
	return known(sum)
}
