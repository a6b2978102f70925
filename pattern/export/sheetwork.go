package export

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

// A pool holds the cautions of package work until a step takes those that are its own.
// What no step takes stands above the steps.
type pool struct{ left []work.Caution }

// take returns the cautions of some rules: of one product those that are of it, and what
// is of the whole job once.
func (p *pool) take(product int, rules ...string) []care {
	var out []care
	var rest []work.Caution
	for _, c := range p.left {
		if slices.Contains(rules, c.Rule) && (c.Product == 0 || c.Product == product) {
			out = append(out, careOf(c.Level, "", c.String(), ""))
		} else {
			rest = append(rest, c)
		}
	}
	p.left = rest
	return out
}

// rest gives what no step took, by the step of the work.
func (p *pool) rest(into map[string][]care) {
	for _, c := range p.left {
		into[c.Step] = append(into[c.Step], careOf(c.Level, "", c.String(), ""))
	}
}

// doing gathers steps.
type doing struct{ steps []step }

func (d *doing) add(cares []care, format string, args ...any) {
	d.steps = append(d.steps, step{Text: fmt.Sprintf(format, args...), Cares: cares})
}

// glueSteps says how the panel is glued up.
func glueSteps(j Job, g work.GlueFigures, p *pool) []step {
	if g.Joints == 0 {
		return nil
	}
	var d doing
	d.add(nil, "Lay the strips out dry by the list: edge A is the left edge of strip 1, crosses up, arrows to the far end, and the triangle closes.")
	if j.Work.Pattern.Ragged() {
		d.add(nil, "Set each strip to its start, measured from the datum end; dry blocks fill the steps, so that the clamps press their full length.")
	}
	if g.Clamps.Known {
		d.add(p.take(0, "clamps"), "Have %.0f clamps and cauls ready; try the whole thing dry.", g.Clamps.Value)
	}
	if g.Stages.Known && g.Stages.Value > 1 {
		d.add(nil, "Glue in %.0f stages: parts first, then the parts together.", g.Stages.Value)
	}
	d.add(p.take(0, "glue_time", "glue_cold", "glue_class"), "Spread %s in %.1f min; the glue stays open %g min. About %.0f g for all panels.",
		tell.Count(g.Joints, "glue line"), g.Minutes, j.Settings.Glue.OpenMinutes, g.Grams)
	d.add(nil, "Clamp alternately from above and below until every line closes; wipe or scrape off what comes out.")
	d.add(p.take(0, "wait"), "Leave it %s before it is planed.", tell.Count(j.Settings.Glue.WaitDays, "day"))
	return d.steps
}

// flattenSteps says how the panel is made flush.
func flattenSteps(j Job) []step {
	p, u := j.Work.Pattern, j.Unit
	if len(p.Strips) == 0 {
		return nil
	}
	var d doing
	d.add(nil, "Flatten it from about %s to %s, as much off the one face as off the other.",
		j.Physics.Shop().Glued(p.Panel.Thickness).With(u), p.Panel.Thickness.With(u))
	if len(j.Work.Products) == 0 {
		d.add(nil, "Trim it to %s long, square to edge A.", p.Panel.Length.With(u))
	}
	return d.steps
}

// thingSteps says how one product is cut out, drilled, bevelled and sanded.
func thingSteps(j Job, number int, product pattern.Product, f work.ProductFigures, p *pool) []step {
	u, cut := j.Unit, j.Settings.Cut
	var d doing
	if len(j.Work.Products) > 0 {
		d.add(nil, "Saw the blank a little larger, at least %s x %s: %d from a panel.", f.BlankLength.Format(u), f.BlankWidth.With(u), f.PerPanel)
		shape := outline.ShapeOf(product)
		if how := shape.Template(f.TemplateLength, f.TemplateWidth, u); f.TemplateLength > 0 && how != "" {
			d.add(nil, "Draw the template: %s.", how)
		}
		cares := p.take(number, "router", "last_pass")
		switch {
		case f.Passes == 0:
			d.add(cares, "Rout it to its outline.")
		case f.TemplateLength == 0:
			d.add(cares, "Rout it to its outline in %s of %s; the last one frees it.", tell.Count(f.Passes, "pass"), cut.Pass.With(u))
		default:
			d.add(cares, "Rout round a template of %s, with a bush of %s and a cutter of %s, in %s of %s; the last one frees it.",
				templateText(product, f, u), cut.Bush.With(u), cut.Cutter.With(u), tell.Count(f.Passes, "pass"), cut.Pass.With(u))
		}
		if how, _ := shape.Sawn(); how != "" {
			d.add(p.take(number, "sawn"), "Or %s.", how)
		}
	}
	if product.Holes > 0 {
		centres := make([]string, len(f.HoleCentres))
		for i, at := range f.HoleCentres {
			centres[i] = at.Format(u)
		}
		d.add(p.take(number, "drill", "candles_apart", "bare_wood", "floor_left"),
			"Drill %s of %s, %s deep, along the middle of the width, centres %s %v from the near end.",
			tell.Count(product.Holes, "hole"), product.Hole.With(u), product.HoleDepth.With(u), strings.Join(centres, ", "), u)
	}
	for _, s := range work.SandingOrder(product, u) {
		d.steps = append(d.steps, step{Text: capital(s.Text), Source: s.Source, Cares: p.take(number, s.Rules...)})
	}
	return d.steps
}

func templateText(p pattern.Product, f work.ProductFigures, u length.Unit) string {
	sizes := outline.ShapeOf(p).Resized(f.TemplateLength, f.TemplateWidth).Sizes()
	return outline.SizeText(sizes, func(l length.Length) string { return l.Format(u) }) + " " + u.String()
}

// finishSteps says how everything is oiled.
func finishSteps(j Job, f work.FinishFigures, p *pool) []step {
	if f.Pieces == 0 || f.OilMl == 0 {
		return nil
	}
	var d doing
	if f.WaxG.Known && f.WaxG.Value > 0 {
		d.add(p.take(0, "wax"), "Melt %.0f g of wax into %.0f g of oil, the %.0f ml that all coats take.", f.WaxG.Value, f.OilG, f.OilMl)
	}
	d.add(p.take(0, "rags", "drying_oil"), "Wipe on %s, one an evening; wipe off what the wood does not take.", tell.Count(j.Settings.Finish.Coats, "coat"))
	dry := p.take(0, "rack")
	if f.Evenings.Known {
		d.add(dry, "Let it dry on the rack: %s for %s.", tell.Count(int(f.Evenings.Value), "evening"), tell.Count(f.Pieces, "product"))
	} else {
		d.add(dry, "Let it dry, lying free on all sides.")
	}
	return d.steps
}
