package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

func (b *lines) product(p pattern.Product, f ProductFigures) {
	b.at = Line{Step: StepCut, Product: f.Product, Of: b.job.Called(f.Product)}
	b.say("Products.PerPanel", "of a panel", fmt.Sprint(f.PerPanel), "counted", "[cut] end_margin, side_margin, gap")
	if len(b.job.Products) > 0 {
		b.cutOut(p, f)
	}
	if p.Bevel > 0 {
		b.bevel(p, f)
	}
	if p.Holes > 0 {
		b.holes(f)
	}
	if p.Bevel > 0 || p.Holes > 0 {
		b.say("Products.RemovedCM3", "wood taken off", length.Chips(f.RemovedCM3, b.unit), "derived", "")
	}
	weight := "no figure, a timber has no density"
	switch {
	case f.WeightKg.Known:
		weight = length.Mass(f.WeightKg.Value, b.unit)
	case f.PerPanel == 0:
		weight = "no figure, none fits"
	}
	b.say("Products.WeightKg", "weight", weight, "derived: density from the timber table, at 12 % moisture", "density_kg_m3")
	b.out[len(b.out)-1].File = "species.toml"
	b.say("Products.FinishM2", "surface", length.Area(f.FinishM2, b.unit), "derived: both faces and the edge, without bevels and holes", "")
}

func (b *lines) cutOut(p pattern.Product, f ProductFigures) {
	const bush = "[cut] bush, cutter"
	b.say("Products.Blank", "blank, at least", b.with(f.Blank.Along)+" x "+b.with(f.Blank.Across), "habit, 5 mm over; a magazine has 1/8 in", "")
	if f.Template.Along > 0 {
		b.say("Products.Template", "template inside the bush", b.size(p, f.Template),
			"derived: size - (bush - cutter); offset read in question pages on guide bushes", bush)
	} else {
		b.say("", "template", "none, the bush is not larger than the cutter or the product is too small", "", "")
	}
	b.drawing("drawing the template", p, f.Template)
	if f.Opening.Along > 0 {
		b.say("Products.Opening", "or an opening round the bush", b.size(p, f.Opening), "derived: size + bush + cutter", bush)
		b.drawing("drawing the opening", p, f.Opening)
	}
	if f.Passes == 0 {
		b.say("", "passes", "no figure, [cut] pass is 0", "", "")
		return
	}
	b.say("Products.Passes", "passes", fmt.Sprint(f.Passes),
		"pass as set, about 1/8 in by default (a router manual); a little into the base by habit", "[cut] pass, base")
	b.say("Products.PathM", "path of the cutter", length.Run(f.PathM, b.unit), "derived: the cutter's centre, once round a pass", "[cut] cutter, pass, base")
}

// size returns another size of p, in as many numbers as its shape takes.
func (b *lines) size(p pattern.Product, s Size) string {
	return outline.SizeText(outline.ShapeOf(p).Resized(s.Along, s.Across).Sizes(), b.with)
}

// drawing says how an outline that is so large is drawn for p, where that takes a word.
func (b *lines) drawing(what string, p pattern.Product, s Size) {
	if how := outline.ShapeOf(p).Template(s.Along, s.Across, b.unit); s.Along > 0 && how != "" {
		b.say("Drawing", what, how, "derived from the axes; by nails and a string as is common practice, without a source", "[cut] bush, cutter")
	}
}

func (b *lines) bevel(p pattern.Product, f ProductFigures) {
	b.say("Products.BevelFaceMM", "bevel face", length.Estimate(f.BevelFaceMM, b.unit)+" "+b.unit.String(), "derived: depth times root of 2", "")
	b.say("Products.EdgeLeft", "edge left", b.with(f.EdgeLeft), "derived", "")
	b.say("Products.Stands", "stands on", b.size(p, f.Stands), "derived", "")
	b.say("Products.Top", "top", b.size(p, f.Top), "derived", "")
}

func (b *lines) holes(f ProductFigures) {
	centres := make([]string, len(f.HoleCentres))
	for i, at := range f.HoleCentres {
		centres[i] = b.with(at)
	}
	b.say("Products.HoleCentres", "holes from the near end", strings.Join(centres, ", "), "derived: even gaps", "")
	if f.HoleOpening > 0 && len(b.job.Products) > 0 {
		b.say("Products.HoleOpening", "opening to rout a hole through", b.with(f.HoleOpening), "derived: hole + (bush - cutter)", "[cut] bush, cutter")
	}
	b.say("Products.HoleGap", "wood between holes", b.with(f.HoleGap), "derived: even gaps", "")
	b.say("Products.FloorLeft", "wood under the holes", b.with(f.FloorLeft), "derived; 3 mm for the point of the bit by habit", "")
}
