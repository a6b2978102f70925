package work

import (
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// product tells the figures of one thing that is made.
func (b *lines) product(p pattern.Product, f ProductFigures) {
	from := len(b.out)
	b.say("Products.PerPanel", "%d", f.PerPanel)
	if len(b.job.Products) > 0 {
		b.cutOut(p, f)
	}
	if p.Bevel > 0 {
		b.say("Products.BevelFaceMM", "%s %v", length.Estimate(f.BevelFaceMM, b.unit), b.unit)
		b.say("Products.EdgeLeft", "%s", b.with(f.EdgeLeft))
		b.say("Products.Stands", "%s", b.size(p, f.Stands))
		b.say("Products.Top", "%s", b.size(p, f.Top))
	}
	if p.Holes > 0 {
		b.holes(f)
	}
	if p.Bevel > 0 || p.Holes > 0 {
		b.say("Products.RemovedCM3", "%s", length.Chips(f.RemovedCM3, b.unit))
	}
	switch {
	case f.WeightKg.Known:
		b.say("Products.WeightKg", "%s", length.Mass(f.WeightKg.Value, b.unit))
	case f.PerPanel == 0:
		b.say("Products.WeightKg", "no figure, none fits")
	default:
		b.say("Products.WeightKg", "no figure, a timber has no density")
	}
	b.say("Products.FinishM2", "%s", length.Area(f.FinishM2, b.unit))
	for i := range b.out[from:] {
		l := &b.out[from+i]
		l.Step, l.Product, l.Of = StepCut, f.Product, b.job.Called(f.Product)
	}
}

func (b *lines) cutOut(p pattern.Product, f ProductFigures) {
	b.say("Products.Blank", "%s x %s", b.with(f.Blank.Along), b.with(f.Blank.Across))
	if f.Template.Along > 0 {
		b.say("Products.Template", "%s", b.size(p, f.Template))
	} else {
		b.out = append(b.out, Line{What: "template", Text: "none: the bush is no larger than the cutter, or the product is too small"})
	}
	b.drawing("Drawing.Template", p, f.Template)
	if f.Opening.Along > 0 {
		b.say("Products.Opening", "%s", b.size(p, f.Opening))
		b.drawing("Drawing.Opening", p, f.Opening)
	}
	if f.Passes == 0 {
		b.out = append(b.out, Line{What: "passes", Text: "no figure, [cut] pass is 0"})
		return
	}
	b.say("Products.Passes", "%d", f.Passes)
	b.say("Products.PathM", "%s", length.Run(f.PathM, b.unit))
}

// size returns another size of p, in as many numbers as its shape takes.
func (b *lines) size(p pattern.Product, s Size) string {
	return outline.SizeText(outline.ShapeOf(p).Resized(s.Along, s.Across).Sizes(), b.with)
}

// drawing says how an outline that is so large is drawn for p, where that takes a word.
func (b *lines) drawing(figure string, p pattern.Product, s Size) {
	if how := outline.ShapeOf(p).Template(s.Along, s.Across, b.unit); s.Along > 0 && how != "" {
		b.say(figure, "%s", how)
	}
}

func (b *lines) holes(f ProductFigures) {
	centres := make([]string, len(f.HoleCentres))
	for i, at := range f.HoleCentres {
		centres[i] = b.with(at)
	}
	b.say("Products.HoleCentres", "%s", strings.Join(centres, ", "))
	if f.HoleOpening > 0 && len(b.job.Products) > 0 {
		b.say("Products.HoleOpening", "%s", b.with(f.HoleOpening))
	}
	b.say("Products.HoleGap", "%s", b.with(f.HoleGap))
	b.say("Products.FloorLeft", "%s", b.with(f.FloorLeft))
}
