package cli

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/work"
)

// print gives the figures in the order of the work, each with its source beside it,
// and the cautions at their step.
func (k working) print() {
	k.app.sayPattern(k.saved)
	k.app.say("panels: %d", k.job.Copies)
	k.glue()
	k.cautionsAt("glue")
	for i, made := range k.job.Makes() {
		k.product(made, k.figures.Products[i])
	}
	k.cautionsAt("cut")
	for i, made := range k.job.Makes() {
		for n, step := range work.SandingOrder(made, k.unit) {
			k.app.say("%s, sanding %d: %s; source: %s", k.name(i+1), n+1, step.Text, step.Source)
		}
	}
	k.finish()
	k.cautionsAt("finish")
	k.label()
	k.cautionsAt("label")
	k.price()
	k.cautionsAt("sale")
	k.app.say("%s", work.Manuals)
}

func (k working) cautionsAt(step string) {
	for _, c := range k.cautions {
		switch {
		case c.Step != step:
		case c.Level == pattern.Fine:
			k.app.say("caution, %s: %s", step, c.Text)
		default:
			k.app.say("caution, %s, %v: %s", step, c.Level, c.Text)
		}
	}
}

// say prints one figure with the source that package work has for it.
func (k working) say(figure, name, format string, args ...any) {
	k.app.say("%s: %s; source: %s", name, fmt.Sprintf(format, args...), work.SourceOf(figure))
}

// guess prints an estimate that may not be known.
func (k working) guess(figure, name, format string, e work.Estimate, why string) {
	if !e.Known {
		k.app.say("%s: no figure, %s; source: %s", name, why, work.SourceOf(figure))
		return
	}
	k.say(figure, name, format, e.Value)
}

func (k working) with(l length.Length) string { return l.With(k.unit) }

func (k working) glue() {
	g := k.figures.Glue
	if g.Joints == 0 {
		k.app.say("glue: none, there is no joint")
		return
	}
	k.say("Glue.Joints", "glue, joints of a panel", "%d", g.Joints)
	k.say("Glue.AreaM2", "glue, joint area of all panels", "%.3f m2", g.AreaM2)
	k.say("Glue.Grams", "glue, mass for all panels", "%.0f g", g.Grams)
	k.say("Glue.Minutes", "glue, to spread a panel", "%.1f min, and the glue stays open %g", g.Minutes, k.workshop.shop.Glue.OpenMinutes)
	k.say("Glue.Parts", "glue, parts for the thicknesser", "%d", g.Parts)
	const noTime = "a joint takes longer than the glue stays open"
	k.guess("Glue.GlueUps", "glue, goes within the open time", "%.0f", g.GlueUps, noTime)
	k.guess("Glue.Stages", "glue, stages", "%.0f", g.Stages, noTime)
	k.say("Glue.ForceN", "glue, force on the longest joint", "%.0f N", g.ForceN)
	k.guess("Glue.ClampsByForce", "clamps by force", "%.0f", g.ClampsByForce, "the force of a clamp is not said")
	k.guess("Glue.ClampsByReach", "clamps by reach", "%.0f", g.ClampsByReach, "[glue] clamp_reach is 0")
	k.guess("Glue.Clamps", "clamps", "%.0f", g.Clamps, "neither force nor reach is said")
	k.guess("Glue.WaterPoints", "glue, moisture it adds to the narrowest strip", "%.1f points", g.WaterPoints, "its timber has no density")
}

// name gives what the figures of a thing that is made begin with.
func (k working) name(number int) string {
	if len(k.job.Products) == 0 {
		return "panel"
	}
	return fmt.Sprintf("product %d", number)
}

// size gives a size that a round has once.
func (k working) size(p pattern.Product, along, across length.Length) string {
	if p.Shape == pattern.ShapeRound {
		return k.with(along)
	}
	return k.with(along) + " x " + k.with(across)
}

func (k working) product(p pattern.Product, f work.ProductFigures) {
	name := k.name(f.Product)
	k.app.say("%s: %s", name, productText(p, k.unit))
	k.say("Products.PerPanel", name+", of a panel", "%d", f.PerPanel)
	if len(k.job.Products) > 0 {
		k.cutOut(name, p, f)
	}
	k.bevel(name, p, f)
	k.holes(name, p, f)
	if p.Bevel > 0 || p.Holes > 0 {
		k.say("Products.RemovedCM3", name+", wood taken off", "%.1f cm3", f.RemovedCM3)
	}
	why := "a timber has no density"
	if f.PerPanel == 0 {
		why = "none fits"
	}
	k.guess("Products.WeightKg", name+", weight", "%.2f kg", f.WeightKg, why)
	k.say("Products.FinishM2", name+", surface", "%.4f m2", f.FinishM2)
}

func (k working) cutOut(name string, p pattern.Product, f work.ProductFigures) {
	k.say("Products.BlankLength", name+", blank", "%s x %s", k.with(f.BlankLength), k.with(f.BlankWidth))
	if f.TemplateLength > 0 {
		k.say("Products.TemplateLength", name+", template inside the bush", "%s", k.size(p, f.TemplateLength, f.TemplateWidth))
	} else {
		k.app.say("%s, template: none, the bush is not larger than the cutter or the piece is too small", name)
	}
	if f.Passes == 0 {
		k.app.say("%s, passes: no figure, [cut] pass is 0", name)
		return
	}
	k.say("Products.Passes", name+", passes", "%d", f.Passes)
	k.say("Products.PathM", name+", path of the cutter", "%.1f m", f.PathM)
}

func (k working) bevel(name string, p pattern.Product, f work.ProductFigures) {
	if p.Bevel == 0 {
		return
	}
	k.say("Products.BevelFaceMM", name+", bevel face", "%s %v", length.Estimate(f.BevelFaceMM, k.unit), k.unit)
	k.say("Products.EdgeLeft", name+", edge left", "%s", k.with(f.EdgeLeft))
	k.say("Products.StandsLength", name+", stands on", "%s", k.size(p, f.StandsLength, f.StandsWidth))
	k.say("Products.TopLength", name+", top", "%s", k.size(p, f.TopLength, f.TopWidth))
}

func (k working) holes(name string, p pattern.Product, f work.ProductFigures) {
	if p.Holes == 0 {
		return
	}
	centres := make([]string, len(f.HoleCentres))
	for i, at := range f.HoleCentres {
		centres[i] = k.with(at)
	}
	k.say("Products.HoleCentres", name+", holes from the near end", "%s", strings.Join(centres, ", "))
	k.say("Products.HoleGap", name+", wood between holes", "%s", k.with(f.HoleGap))
	k.say("Products.FloorLeft", name+", wood under the holes", "%s", k.with(f.FloorLeft))
}

func (k working) finish() {
	f := k.figures.Finish
	coats := count(k.workshop.shop.Finish.Coats, "coat")
	k.say("Finish.Pieces", "finish, pieces", "%d", f.Pieces)
	k.say("Finish.AreaM2", "finish, surface of all pieces", "%.3f m2", f.AreaM2)
	k.say("Finish.OilMl", "finish, oil for "+coats, "%.0f ml", f.OilMl)
	k.say("Finish.OilG", "finish, the same oil weighed", "%.0f g", f.OilG)
	k.guess("Finish.WaxG", "finish, wax that goes with it", "%.0f g", f.WaxG, "there is no blend")
	k.guess("Finish.Evenings", "finish, evenings on the drying rack", "%.0f", f.Evenings, "a piece does not lie on the rack")
}

// label prints the text of each label, a blank where a field is empty.
func (k working) label() {
	for i, l := range k.labels {
		for line := range strings.Lines(l.Text()) {
			k.app.say("%s, label, %s", k.name(i+1), strings.TrimSuffix(line, "\n"))
		}
		if missing := l.Missing(); len(missing) > 0 {
			k.app.say("%s, label, empty: %s", k.name(i+1), strings.Join(missing, ", "))
		}
	}
}

func (k working) price() {
	p := k.figures.Price
	noTime, earns := "no batch says how long it took: give --minutes", "a piece earns nothing"
	if !p.Labour.Known && k.job.Asked == 0 {
		earns = noTime
	}
	if p.Pieces == 0 {
		noTime, earns = "no piece comes out", "no piece comes out"
	}
	k.say("Price.Pieces", "price, pieces", "%d", p.Pieces)
	k.say("Price.Materials", "price, timber", "%.2f", p.Materials)
	k.guess("Price.Labour", "price, labour", "%.2f", p.Labour, noTime)
	k.say("Price.Fixed", "price, fixed cost of all pieces", "%.2f", p.Fixed)
	k.guess("Price.Each", "price, cost of a piece", "%.2f", p.Each, noTime)
	k.guess("Price.AtCost", "price that pays cost and fee", "%.2f", p.AtCost, noTime)
	k.guess("Price.BreakEven", "price, pieces that pay the stall", "%.0f", p.BreakEven, earns)
}
