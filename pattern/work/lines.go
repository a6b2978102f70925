package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// A Line is one figure in words, with where it comes from.
type Line struct {
	Step    string // as of a Caution: glue, cut, finish or sale
	Product int    // from 1; 0: of the whole job
	Of      string // what it is of: glue, product 2, panel; may be empty
	Part    string // of what it is of: label; mostly empty
	What    string // the figure's name
	Text    string // with its unit, or why there is none
	Source  string // empty where nothing is computed
	Setting string // the keys that change it; empty where none does
	File    string // that the keys are in, where it is not shop.toml
}

// Name returns what the figure is of and its name on one line.
func (l Line) Name() string {
	name := l.What
	if l.Part != "" {
		name = l.Part + ", " + name
	}
	if l.Of != "" {
		name = l.Of + ", " + name
	}
	return name
}

// String returns the figure behind its name.
func (l Line) String() string { return l.Name() + ": " + l.Text }

// Texts returns lines as text.
func Texts(lines []Line) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = l.String()
	}
	return out
}

// sourced returns l with where a figure comes from, named as in Sources.
func sourced(l Line, figure string) Line {
	s := sourceOf(figure)
	l.Source, l.Setting, l.File = s.Text, s.Setting, s.File
	return l
}

// Called returns what the thing that is made under a number goes by.
func (j Job) Called(number int) string {
	if len(j.Products) == 0 {
		return "panel"
	}
	return fmt.Sprintf("product %d", number)
}

// Lines puts the figures f of job j into words, in the order of the work; lengths are
// in u.
func Lines(j Job, f Figures, s Settings, u length.Unit) []Line {
	b := &lines{job: j, settings: s, unit: u}
	b.glue(f.Glue)
	for i, made := range j.Makes() {
		b.product(made, f.Products[i])
	}
	b.finish(f.Finish)
	b.lastStart(f)
	b.price(f.Price)
	return b.out
}

// Lines being gathered.
type lines struct {
	job      Job
	settings Settings
	unit     length.Unit
	at       Line // step, product and what the next lines are of
	out      []Line
}

// plain adds a line that nothing is computed in.
func (b *lines) plain(what, format string, args ...any) {
	l := b.at
	l.What, l.Text = what, fmt.Sprintf(format, args...)
	b.out = append(b.out, l)
}

// say adds a figure with the source that SourceOf has for it.
func (b *lines) say(figure, what, format string, args ...any) {
	b.plain(what, format, args...)
	last := &b.out[len(b.out)-1]
	*last = sourced(*last, figure)
}

// guess adds an estimate that may not be known.
func (b *lines) guess(figure, what, format string, e Estimate, why string) {
	if e.Known {
		b.say(figure, what, format, e.Value)
	} else {
		b.say(figure, what, "no figure, %s", why)
	}
}

// nobodys says of the last figure that it goes by a default that stands for nobody's.
func (b *lines) nobodys(usual bool) {
	if usual {
		b.out[len(b.out)-1].Source += "; by a default, which is nobody's: set your own"
	}
}

func (b *lines) with(l length.Length) string { return l.With(b.unit) }

func (b *lines) glue(g GlueFigures) {
	b.at = Line{Step: "glue", Of: "glue"}
	if g.Joints == 0 {
		return
	}
	b.say("Glue.Joints", "glue lines of a panel", "%d", g.Joints)
	b.say("Glue.AreaM2", "glued area of all panels", "%s", length.Area(g.AreaM2, b.unit))
	b.say("Glue.Grams", "glue for all panels", "%.0f g", g.Grams)
	b.say("Glue.Minutes", "to spread a panel", "%.1f min, and the glue stays open %g min", g.Minutes, b.settings.Glue.OpenMinutes)
	b.say("Glue.Parts", "parts for the thicknesser", "%d", g.Parts)
	const noTime = "a glue line takes longer than the glue stays open"
	b.guess("Glue.GlueUps", "goes within the open time", "%.0f", g.GlueUps, noTime)
	b.guess("Glue.Stages", "stages", "%.0f", g.Stages, noTime)
	b.say("Glue.ForceN", "force on the longest glue line", "%s", length.Force(g.ForceN, b.unit)) // clamps vary by 40 %, so it is told coarsely
	b.at.Of = ""
	b.guess("Glue.ClampsByForce", "clamps by force", "%.0f", g.ClampsByForce, "the force of a clamp is not said")
	b.guess("Glue.ClampsByReach", "clamps by reach", "%.0f", g.ClampsByReach, "[glue] clamp_reach is 0")
	b.guess("Glue.Clamps", "clamps", "%.0f", g.Clamps, "neither force nor reach is said")
	b.at.Of = "glue"
	b.guess("Glue.WaterPoints", "moisture it adds to the narrowest strip", "%.1f points", g.WaterPoints, "its timber has no density")
}

// size returns another size of p, in as many numbers as its shape takes.
func (b *lines) size(p pattern.Product, along, across length.Length) string {
	return outline.SizeText(outline.ShapeOf(p).Resized(along, across).Sizes(), b.with)
}

func (b *lines) product(p pattern.Product, f ProductFigures) {
	b.at = Line{Step: "cut", Product: f.Product, Of: b.job.Called(f.Product)}
	b.say("Products.PerPanel", "of a panel", "%d", f.PerPanel)
	if len(b.job.Products) > 0 {
		b.cutOut(p, f)
	}
	b.bevel(p, f)
	b.holes(p, f)
	if p.Bevel > 0 || p.Holes > 0 {
		b.say("Products.RemovedCM3", "wood taken off", "%s", length.Chips(f.RemovedCM3, b.unit))
	}
	why := "a timber has no density"
	if f.PerPanel == 0 {
		why = "none fits"
	}
	if f.WeightKg.Known {
		b.say("Products.WeightKg", "weight", "%s", length.Mass(f.WeightKg.Value, b.unit))
	} else {
		b.guess("Products.WeightKg", "weight", "", f.WeightKg, why)
	}
	b.say("Products.FinishM2", "surface", "%s", length.Area(f.FinishM2, b.unit))
}

func (b *lines) cutOut(p pattern.Product, f ProductFigures) {
	b.say("Products.BlankLength", "blank, at least", "%s x %s", b.with(f.BlankLength), b.with(f.BlankWidth))
	if f.TemplateLength > 0 {
		b.say("Products.TemplateLength", "template inside the bush", "%s", b.size(p, f.TemplateLength, f.TemplateWidth))
	} else {
		b.plain("template", "none, the bush is not larger than the cutter or the product is too small")
	}
	b.drawing("drawing the template", p, f.TemplateLength, f.TemplateWidth)
	if f.OpeningLength > 0 {
		b.say("Products.OpeningLength", "or an opening round the bush", "%s", b.size(p, f.OpeningLength, f.OpeningWidth))
		b.drawing("drawing the opening", p, f.OpeningLength, f.OpeningWidth)
	}
	if f.Passes == 0 {
		b.plain("passes", "no figure, [cut] pass is 0")
		return
	}
	b.say("Products.Passes", "passes", "%d", f.Passes)
	b.say("Products.PathM", "path of the cutter", "%s", length.Run(f.PathM, b.unit))
}

// drawing says how an outline that is so large is drawn for p, where that takes a word.
func (b *lines) drawing(what string, p pattern.Product, along, across length.Length) {
	if how := outline.ShapeOf(p).Template(along, across, b.unit); along > 0 && how != "" {
		b.say("Drawing", what, "%s", how)
	}
}

func (b *lines) bevel(p pattern.Product, f ProductFigures) {
	if p.Bevel == 0 {
		return
	}
	b.say("Products.BevelFaceMM", "bevel face", "%s %v", length.Estimate(f.BevelFaceMM, b.unit), b.unit)
	b.say("Products.EdgeLeft", "edge left", "%s", b.with(f.EdgeLeft))
	b.say("Products.StandsLength", "stands on", "%s", b.size(p, f.StandsLength, f.StandsWidth))
	b.say("Products.TopLength", "top", "%s", b.size(p, f.TopLength, f.TopWidth))
}

func (b *lines) holes(p pattern.Product, f ProductFigures) {
	if p.Holes == 0 {
		return
	}
	centres := make([]string, len(f.HoleCentres))
	for i, at := range f.HoleCentres {
		centres[i] = b.with(at)
	}
	b.say("Products.HoleCentres", "holes from the near end", "%s", strings.Join(centres, ", "))
	if f.HoleOpening > 0 && len(b.job.Products) > 0 {
		b.say("Products.HoleOpening", "opening to rout a hole through", "%s", b.with(f.HoleOpening))
	}
	b.say("Products.HoleGap", "wood between holes", "%s", b.with(f.HoleGap))
	b.say("Products.FloorLeft", "wood under the holes", "%s", b.with(f.FloorLeft))
}

func (b *lines) finish(f FinishFigures) {
	b.at = Line{Step: "finish", Of: "finish"}
	b.say("Finish.Pieces", "products", "%d", f.Pieces)
	b.say("Finish.AreaM2", "surface of all products", "%s", length.Area(f.AreaM2, b.unit))
	b.say("Finish.OilMl", "oil for "+tell.Count(b.settings.Finish.Coats, "coat"), "%.0f ml", f.OilMl)
	b.say("Finish.OilG", "the same oil weighed", "%.0f g", f.OilG)
	b.guess("Finish.WaxG", "wax that goes with it", "%.0f g", f.WaxG, "there is no blend")
	b.guess("Finish.Evenings", "evenings on the drying rack", "%.0f", f.Evenings, "a product does not lie on the drying rack")
}

// lastStart says when to start at the latest for the day that the job is due.
func (b *lines) lastStart(f Figures) {
	if b.job.Due == (pattern.Date{}) {
		return
	}
	b.at.Of = ""
	const figure, what = "Timetable.Start", "last day to start"
	t, ok := LastStart(b.job.Due, b.job, f, b.settings.Glue)
	if !ok {
		b.say(figure, what, "no figure, a product does not lie on the drying rack")
		return
	}
	b.say(figure, what, "%v, to be ready before %v: days at the bench %d, for glue and its wait %d, evenings %d", t.Start, b.job.Due, t.Bench, t.Glue, t.Dry)
}

func (b *lines) price(p PriceFigures) {
	b.at = Line{Step: "sale", Of: "price"}
	noTime, earns := "no batch says how long it took: say the minutes", "a product earns nothing"
	if !p.Labour.Known && b.job.Asked == 0 {
		earns = noTime
	}
	if p.Pieces == 0 {
		noTime, earns = "no product comes out", "no product comes out"
	}
	b.say("Price.Pieces", "products", "%d", p.Pieces)
	set, usual := b.settings.Price, shop.Default().Price
	b.say("Price.Materials", "timber", "%.2f", p.Materials)
	b.nobodys(set.MaterialsDM3 == usual.MaterialsDM3)
	if p.Labour.Known {
		b.say("Price.Labour", "labour", "%.2f, for %d min at %.2f an hour", p.Labour.Value, b.job.Minutes, set.RateHour)
	} else {
		b.guess("Price.Labour", "labour", "", p.Labour, noTime)
	}
	b.nobodys(set.RateHour == usual.RateHour)
	b.say("Price.Fixed", "fixed cost of all products", "%.2f", p.Fixed)
	b.nobodys(set.FixedEach == usual.FixedEach)
	b.guess("Price.Each", "cost of a product", "%.2f", p.Each, noTime)
	b.at.Of = ""
	b.guess("Price.AtCost", "price that pays cost and fee", "%.2f", p.AtCost, noTime)
	b.at.Of = "price"
	b.guess("Price.BreakEven", "products that pay the stall", "%.0f", p.BreakEven, earns)
}
