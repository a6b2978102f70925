package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
)

// FinishFigures are what finishing every piece of the job takes.
type FinishFigures struct {
	Pieces   int
	AreaM2   float64
	OilMl    float64
	OilG     float64  // the same oil, weighed
	WaxG     Estimate // that goes with it into a blend
	Evenings Estimate // on the drying rack, each product by itself
}

func finishOf(j Job, products []ProductFigures, s shop.Finish) FinishFigures {
	var f FinishFigures
	rounds, fits := 0, true
	thirstM2 := 0.0 // the area, end grain as often as it drinks more than long grain
	for i, p := range j.Makes() {
		pieces := products[i].PerPanel * j.Copies
		f.Pieces += pieces
		f.AreaM2 += float64(pieces) * products[i].FinishM2
		thirstM2 += float64(pieces) * (products[i].FinishM2 + j.thirstM2(p, s))
		if pieces == 0 {
			continue
		}
		along, across := outline.ShapeOf(p).Size()
		slots := Slots(s.RackLength, s.RackWidth, along, across)
		if slots == 0 {
			fits = false
			continue
		}
		rounds += (pieces + slots - 1) / slots
	}
	f.OilMl = thirstM2 * s.OilMlM2 * float64(s.Coats)
	f.OilG = f.OilMl * s.OilDensity
	if s.WaxToOil.Oil > 0 {
		f.WaxG = known(f.OilG * s.WaxToOil.Wax / s.WaxToOil.Oil)
	}
	if fits {
		f.Evenings = known(float64(rounds * s.Coats))
	}
	return f
}

// thirstM2 returns what the faces of a product count beyond their area: end grain drinks
// more oil.
func (j Job) thirstM2(p pattern.Product, s shop.Finish) float64 {
	if !j.Pattern.EndGrain() {
		return 0
	}
	shape := outline.ShapeOf(p)
	_, across := shape.Size()
	return 2 * shape.Area(0, 0, across.MM()) / 1e6 * (s.EndGrain - 1)
}

// Slots returns how many pieces a by b lie on a rack, all the same way round.
func Slots(rackLength, rackWidth, a, b length.Length) int {
	if a <= 0 || b <= 0 {
		return 0
	}
	lie := (rackLength / a) * (rackWidth / b)
	turned := (rackLength / b) * (rackWidth / a)
	return int(min(math.MaxInt32, max(lie, turned)))
}
