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

// ProductFigures are the figures of one piece of a listed product.
type ProductFigures struct {
	Product                       int // from 1
	PerPanel                      int // that a panel gives
	TemplateLength, TemplateWidth length.Length
	OpeningLength, OpeningWidth   length.Length // of a template that the piece is kept inside of; 0: there is no bush
	HoleOpening                   length.Length // of a template for its holes; 0: it has none, or there is no bush
	BlankLength, BlankWidth       length.Length
	Passes                        int
	PathM                         float64
	BevelFaceMM                   float64 // 0: no bevel
	EdgeLeft                      length.Length
	StandsLength, StandsWidth     length.Length // the underside within its bevel
	TopLength, TopWidth           length.Length
	HoleCentres                   []length.Length // from the near end
	HoleGap                       length.Length
	FloorLeft                     length.Length // of a block with holes
	BevelCM3, HolesCM3            float64
	RemovedCM3                    float64  // both
	WeightKg                      Estimate // of the first copy
	FinishM2                      float64
}

func productOf(r movement.Physics, j Job, k kind, s Settings) ProductFigures {
	p, t := k.product, j.Pattern.Panel.Thickness
	top, under := faces(p)
	along, across := outline.ShapeOf(p).Size()
	f := ProductFigures{
		Product: k.number, PerPanel: k.perPanel,
		TemplateLength: MaleTemplate(along, s.Cut), TemplateWidth: MaleTemplate(across, s.Cut),
		BlankLength: along + blankOver, BlankWidth: across + blankOver,
		Passes:      Passes(t, s.Cut),
		BevelFaceMM: BevelFaceMM(p.Bevel), EdgeLeft: EdgeLeft(p, t),
		StandsLength: along - under, StandsWidth: across - under,
		TopLength: along - top, TopWidth: across - top,
		BevelCM3: BevelCM3(p), HolesCM3: HolesCM3(p),
		FinishM2: FinishM2(p, t),
	}
	f.PathM = PathM(p, s.Cut.Cutter, f.Passes)
	f.HoleCentres, f.HoleGap = HoleCentres(p)
	if p.Holes > 0 {
		f.FloorLeft = FloorLeft(p, t)
	}
	if s.Cut.Bush > s.Cut.Cutter {
		f.OpeningLength, f.OpeningWidth = FemaleTemplate(along, s.Cut), FemaleTemplate(across, s.Cut)
		if p.Holes > 0 {
			f.HoleOpening = HoleTemplate(p.Hole, s.Cut)
		}
	}
	f.RemovedCM3 = f.BevelCM3 + f.HolesCM3
	if k.first != nil {
		f.WeightKg = WeightKg(r, j.Pattern, p, *k.first)
	}
	return f
}

// FinishM2 returns the surface of p, t thick, as if it had neither bevel nor hole: they
// change it by a few percent, oil by far more.
func FinishM2(p pattern.Product, t length.Length) float64 {
	return outline.ShapeOf(p).Surface(t.MM()) / 1e6
}
