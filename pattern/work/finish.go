package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
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

// FinishOf returns what finishing the products of several jobs takes together; those of one size
// share the drying rack. figures are those of the jobs.
func FinishOf(jobs []Job, figures []Figures, s shop.Finish) FinishFigures {
	d := finisher{s: s}
	for i, j := range jobs {
		d.add(j, figures[i].Products)
	}
	return d.done()
}

func finishOf(j Job, products []ProductFigures, s shop.Finish) FinishFigures {
	d := finisher{s: s}
	d.add(j, products)
	return d.done()
}

// A finisher adds up what finishing takes.
type finisher struct {
	s        shop.Finish
	f        FinishFigures
	thirstM2 float64 // the area, end grain as often as it drinks more than long grain
	lie      tell.Groups[[2]length.Length, int]
}

func (d *finisher) add(j Job, products []ProductFigures) {
	for i, p := range j.Makes() {
		pieces := products[i].PerPanel * j.Copies
		d.f.Pieces += pieces
		d.f.AreaM2 += float64(pieces) * products[i].FinishM2
		d.thirstM2 += float64(pieces) * (products[i].FinishM2 + j.thirstM2(p, d.s))
		if pieces > 0 {
			along, across := outline.ShapeOf(p).Size()
			d.lie.Add([2]length.Length{along, across}, pieces)
		}
	}
}

func (d *finisher) done() FinishFigures {
	f := d.f
	f.OilMl = d.thirstM2 * d.s.OilMlM2 * float64(d.s.Coats)
	f.OilG = f.OilMl * d.s.OilDensity
	if d.s.WaxToOil.Oil > 0 {
		f.WaxG = known(f.OilG * d.s.WaxToOil.Wax / d.s.WaxToOil.Oil)
	}
	rounds := 0
	for size, all := range d.lie.All() {
		slots := Slots(d.s.RackLength, d.s.RackWidth, size[0], size[1])
		if slots == 0 {
			return f
		}
		pieces := 0
		for _, n := range all {
			pieces += n
		}
		rounds += (pieces + slots - 1) / slots
	}
	f.Evenings = known(float64(rounds * d.s.Coats))
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
