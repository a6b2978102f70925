package work

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
)

// blankOver is how much larger than finished a blank is sawn before it is routed:
// common practice 3 to 10 mm; a magazine has an eighth of an inch.
const blankOver = 5 * length.Millimetre

// A Size is a length along the grain and one across it.
type Size struct{ Along, Across length.Length }

// ProductFigures are the figures of one piece of a listed product.
type ProductFigures struct {
	Product            int // from 1
	PerPanel           int // that a panel gives
	Template           Size
	Opening            Size          // of a template that the piece is kept inside of; 0: there is no bush
	HoleOpening        length.Length // of a template for its holes; 0: it has none, or there is no bush
	Blank              Size
	Passes             int
	PathM              float64
	BevelFaceMM        float64 // 0: no bevel
	EdgeLeft           length.Length
	Stands             Size // the underside within its bevel
	Top                Size
	HoleCentres        []length.Length // from the near end
	HoleGap            length.Length
	FloorLeft          length.Length // of a block with holes
	BevelCM3, HolesCM3 float64
	RemovedCM3         float64  // both
	WeightKg           Estimate // of the first copy
	FinishM2           float64
}

func productOf(r movement.Physics, j Job, p pattern.Product, number int) ProductFigures {
	placed, t, cut := j.Placed(number), j.Ground().Panel.Thickness, r.Shop().Cut
	top, under := faces(p)
	along, across := outline.ShapeOf(p).Size()
	f := ProductFigures{
		Product: number, PerPanel: len(placed),
		Template: Size{MaleTemplate(along, cut), MaleTemplate(across, cut)},
		Blank:    Size{along + blankOver, across + blankOver},
		Passes:   Passes(t, cut), PathM: PathM(p, cut.Cutter, Passes(t, cut)),
		BevelFaceMM: BevelFaceMM(p.Bevel), EdgeLeft: EdgeLeft(p, t),
		Stands: Size{along - under, across - under}, Top: Size{along - top, across - top},
		BevelCM3: BevelCM3(p), HolesCM3: HolesCM3(p), RemovedCM3: BevelCM3(p) + HolesCM3(p),
		FinishM2: FinishM2(p, t),
	}
	f.HoleCentres, f.HoleGap = HoleCentres(p)
	if p.Holes > 0 {
		f.FloorLeft = FloorLeft(p, t)
	}
	if cut.Bush > cut.Cutter {
		f.Opening = Size{FemaleTemplate(along, cut), FemaleTemplate(across, cut)}
		if p.Holes > 0 {
			f.HoleOpening = HoleTemplate(p.Hole, cut)
		}
	}
	if len(placed) > 0 {
		f.WeightKg = WeightKg(r, j, p, placed[0])
	}
	return f
}

// FinishM2 returns the surface of p, t thick, as if it had neither bevel nor hole: they
// change it by a few percent, oil by far more.
func FinishM2(p pattern.Product, t length.Length) float64 {
	return outline.ShapeOf(p).Surface(t.MM()) / 1e6
}
