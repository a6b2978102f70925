package work

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
)

// Manuals is what stands once beside the cautions of a job.
const Manuals = "Follow your machine's manual, your training and local rules. Ask a qualified person if unsure."

// DustListed is why hardwood dust is taken so seriously (IARC group 1 for cancer of the nose;
// asthma by HSE woodworking sheet 30 on toxic woods and the HSE's limits of EH40).
const DustListed = "hardwood dust is listed as causing cancer of the nose (IARC group 1) and asthma"

// A Caution is one thing to know at a step. No level forbids anything.
type Caution struct {
	Rule  string // stable: scripts go by it
	Step  string // glue, cut, sand, finish, label or sale
	Level pattern.Level
	Remark
}

// A Remark is what there is to know of one product, or of the whole job.
type Remark struct {
	Product int // from 1; 0: of the whole job
	Text    string
}

// String returns the text behind the product that it is of.
func (r Remark) String() string {
	if r.Product == 0 {
		return r.Text
	}
	return fmt.Sprintf("product %d: %s", r.Product, r.Text)
}

// RuleFit is the rule of a product that does not come out of the panel.
const RuleFit = "fit"

// RuleEdgeLeft is the rule of a bevel that leaves little of the edge.
const RuleEdgeLeft = "edge_left"

// A caution is a rule with what it tells of a job.
type caution struct {
	rule, step string
	level      pattern.Level
	remarks    []Remark
}

// A bench is what the rules look at.
type bench struct {
	physics movement.Physics
	shop    shop.Shop
	job     Job
	figures Figures
	unit    length.Unit
}

// The levels of the rules.
const (
	note = pattern.Fine
	care = pattern.TakeCare
	stop = pattern.TooMuch
)

// cautions lists every rule in the order of the work. A new one is one entry of a list.
func (b *bench) cautions() []caution {
	return slices.Concat(b.gluing(), b.second(), b.cuttingOut(), b.routing(), b.finishing(), b.selling())
}

// Cautions lists what there is to know of a job at its steps; lengths in the texts
// are in u. f are the figures of j.
func Cautions(r movement.Physics, j Job, f Figures, u length.Unit) []Caution {
	b := &bench{r, r.Shop(), j, f, u}
	var out []Caution
	for _, c := range b.cautions() {
		for _, remark := range c.remarks {
			out = append(out, Caution{c.rule, c.step, c.level, remark})
		}
	}
	return out
}

// when returns a text where it holds.
func when(holds bool, format string, args ...any) string {
	if !holds {
		return ""
	}
	return fmt.Sprintf(format, args...)
}

// one returns what is to be known of the whole job where it holds.
func one(holds bool, format string, args ...any) []Remark {
	if !holds {
		return nil
	}
	return []Remark{{Text: fmt.Sprintf(format, args...)}}
}

// many returns several things to be known of the whole job, each a caution of its own.
func many(holds bool, texts ...string) []Remark {
	var out []Remark
	for _, text := range texts {
		out = append(out, one(holds, "%s", text)...)
	}
	return out
}

// each returns what is to be known of each listed product; an empty text is nothing.
func (b *bench) each(find func(p pattern.Product, f ProductFigures) string) []Remark {
	var out []Remark
	for i, p := range b.job.Products {
		if text := find(p, b.figures.Products[i]); text != "" {
			out = append(out, Remark{i + 1, text})
		}
	}
	return out
}

func (b *bench) gluing() []caution {
	const (
		washable  = 3 // the least EN 204 class for a board that is washed: common practice
		leastDays = 3 // common practice between 1 day and the 7 that a university gives
	)
	g, glue, air, glued := b.figures.Glue, b.shop.Glue, b.shop.Air.TemperatureC, b.figures.Glue.Joints > 0
	return []caution{
		{"in_use", StepGlue, care, b.inUse()},
		{"glue_time", StepGlue, care, one(g.Minutes > glue.OpenMinutes,
			"%d glue lines take %.1f min to spread, the glue stays open %.0f min: glue it in parts or use a slower glue", g.Joints, g.Minutes, glue.OpenMinutes)},
		{"glue_cold", StepGlue, stop, one(glued && air < glue.LeastC,
			"the workshop is at %.0f °C, the glue needs %.0f °C by its sheet: too cold, the glue turns to chalk", air, glue.LeastC)},
		{"glue_class", StepGlue, care, one(glued && glue.Class > 0 && glue.Class < washable,
			"glue of class D%d (EN 204): a board that is washed asks for D%d or D4", glue.Class, washable)},
		{"clamps", StepGlue, note, one(g.Clamps.Known && b.job.Clamps > 0 && float64(b.job.Clamps) < g.Clamps.Value,
			"%.0f clamps by force and reach, you have %d: more clamps or a thicker caul", g.Clamps.Value, b.job.Clamps)},
		{"wait", StepGlue, care, one(glued && glue.WaitDays < leastDays,
			"planing %d days after gluing: lines may sink later; %d days are usual, 7 leave them flat", glue.WaitDays, leastDays)},
		{"cure", StepGlue, note, one(glued, "let the glue cure before any machine: a weak glue line can fly apart")},
		{"scrape", StepGlue, note, many(glued, "scrape dried glue off before the panel goes through a thicknesser",
			"keep a panel with a loose glue line or a step out of the thicknesser")},
	}
}

// candleGap is the least distance between burning candles (fire services).
const candleGap = 100 * length.Millimetre

// A candleRoom is what fire services ask for round burning candles, in words: between two,
// clear around, and above.
type candleRoom struct{ between, around, above string }

// roomOfCandles words it in u; inches are rounded up.
func roomOfCandles(u length.Unit) candleRoom {
	if u == length.InInches {
		return candleRoom{"4 in", "12 in", "40 in"}
	}
	return candleRoom{"10 cm", "30 cm", "1 m"}
}

// candles reports whether the holes of p are for candles: only the maker knows, and says so.
func candles(p pattern.Product) bool { return p.Holes > 0 && p.For == pattern.ForCandles }

// cuttingOut has what bevels and holes leave.
func (b *bench) cuttingOut() []caution {
	const ( // the least wood left: common practice, no source
		leastEdge  = 3 * length.Millimetre // next to a bevel
		leastFloor = 6 * length.Millimetre // under a hole
	)
	return []caution{
		{RuleFit, StepCut, stop, Misfits(b.job, b.unit)},
		{RuleEdgeLeft, StepCut, care, b.each(func(p pattern.Product, f ProductFigures) string {
			return when(p.Bevel > 0 && f.EdgeLeft > 0 && f.EdgeLeft < leastEdge, "only %s of the edge stays", f.EdgeLeft.With(b.unit))
		})},
		{"no_edge", StepCut, stop, b.each(func(p pattern.Product, f ProductFigures) string {
			return when(p.Bevel > 0 && f.EdgeLeft <= 0, "the bevel is as deep as the panel: no edge is left, so the edge figures do not apply")
		})},
		{"floor_left", StepCut, care, b.each(func(p pattern.Product, f ProductFigures) string {
			if p.Holes > 0 && f.FloorLeft <= 0 {
				return "the bit comes through: no wood is left under the holes"
			}
			return when(p.Holes > 0 && f.FloorLeft < leastFloor, "only %s left under the holes", f.FloorLeft.With(b.unit))
		})},
		{"candles_apart", StepCut, care, b.each(func(p pattern.Product, f ProductFigures) string {
			room := roomOfCandles(b.unit)
			return when(candles(p) && p.Holes > 1 && f.HoleGap < candleGap,
				"holes %s apart: fire services ask for %s between burning candles", f.HoleGap.With(b.unit), room.between)
		})},
		{"candle_room", StepCut, care, b.each(func(p pattern.Product, _ ProductFigures) string {
			room := roomOfCandles(b.unit)
			return when(candles(p), "burning candles need room: fire services ask for %s clear around and %s above", room.around, room.above)
		})},
		{"bare_wood", StepCut, care, b.each(func(p pattern.Product, _ ProductFigures) string {
			return when(candles(p), "never put a candle in bare wood: use a metal or glass cup, and write so on the label")
		})},
		{"unattended", StepCut, care, b.each(func(p pattern.Product, _ ProductFigures) string {
			return when(candles(p), "never leave a burning candle unattended: write so on the label")
		})},
		{"drill", StepCut, note, b.each(func(p pattern.Product, _ ProductFigures) string {
			return when(p.Holes > 0, "clamp the block, run a large bit slowly")
		})},
		{"sleeves", StepCut, note, b.each(func(p pattern.Product, _ ProductFigures) string {
			return when(p.Holes > 0, "wear no gloves or loose sleeves at anything that turns")
		})},
	}
}

// routing has what cutting the outline takes and leaves.
func (b *bench) routing() []caution {
	const ( // common practice, no source
		leastHeld  = 50 * length.Millimetre // what is smaller is hard to hold under a router
		usualReach = 30 * length.Millimetre // of a cutter of common length
		leastWall  = 6 * length.Millimetre  // beside and between holes
	)
	ground := b.job.Ground()
	listed, wide := len(b.job.Products) > 0, ground.Width()
	deep := ground.Panel.Thickness + b.shop.Cut.Base
	return []caution{
		{"router", StepCut, note, many(listed, "a router makes fine dust: extraction and a fitted mask", "eye and ear protection at every machine",
			"guards stay in place at every machine", "rout against the rotation, in small passes, the work clamped")},
		{"last_pass", StepCut, note, many(listed, "the last pass frees product, ring and corners: hold all of them with tape and clamps",
			"tape slips on dusty or oily wood", "wait for the cutter to stop before a hand comes near", "no bevel pass on a product that is not held")},
		{"sawn", StepCut, note, b.each(func(p pattern.Product, _ ProductFigures) string {
			_, mind := outline.ShapeOf(p).Sawn()
			return mind
		})},
		{"small", StepCut, care, b.each(func(p pattern.Product, _ ProductFigures) string {
			shape := outline.ShapeOf(p)
			along, across := shape.Size()
			return when(min(along, across) < leastHeld, "too small to hold under a router: %s", shape.Small())
		})},
		{"cutter_reach", StepCut, care, one(listed && b.shop.Cut.Pass > 0 && deep > usualReach,
			"the cutter must reach %s deep: check its cutting length; a straight side is better sawn, then planed", deep.With(b.unit))},
		{"blank", StepCut, care, b.each(func(_ pattern.Product, f ProductFigures) string {
			return when(f.PerPanel > 0 && f.Blank.Across > wide,
				"a blank of %s across is usual, the panel is %s wide: little is left to cut away", f.Blank.Across.With(b.unit), wide.With(b.unit))
		})},
		{"thin_wall", StepCut, care, b.each(func(p pattern.Product, f ProductFigures) string {
			least := walls(p, f)
			return when(p.Holes > 0 && least > 0 && least < leastWall, "only %s of wood next to or between the holes", least.With(b.unit))
		})},
		{"no_wall", StepCut, stop, b.each(func(p pattern.Product, f ProductFigures) string {
			return when(p.Holes > 0 && walls(p, f) <= 0, "no wood is left next to or between the holes: drill fewer, or smaller ones")
		})},
	}
}

// walls returns the least wood beside the holes and between them.
func walls(p pattern.Product, f ProductFigures) length.Length {
	_, across := outline.ShapeOf(p).Size()
	least := (across - p.Hole) / 2
	if p.Holes > 1 {
		least = min(least, f.HoleGap)
	}
	return least
}

// finishing has what sanding and oiling take.
func (b *bench) finishing() []caution {
	f, drying := b.figures.Finish, b.job.DryingOil
	return []caution{
		{"sanding_dust", StepSand, note, many(true, "sanding makes the finest dust: extraction and a fitted mask",
			"vacuum dust off, never blow it", DustListed)},
		{"hard_beside_soft", StepSand, note, b.hardBesideSoft()},
		{"colour_travels", StepSand, note, b.colourTravels()},
		{"drying_oil", StepFinish, care, one(drying,
			"rags with a drying oil can catch fire by themselves: metal tin filled with water, lid on, outdoors; follow local rules")},
		{"rags", StepFinish, note, many(f.OilMl > 0 && !drying, "rags with mineral oil burn too: closed tin",
			"rags with linseed, tung or another drying oil can catch fire by themselves: metal tin filled with water, outdoors",
			"use a finish and a glue that their makers name for this use")},
		{"wax", StepFinish, note, many(f.WaxG.Value > 0, "melt wax in a water bath, never over a flame", "no water into hot oil")},
		{"rack", StepFinish, note, one(!f.Evenings.Known, notOnTheRack+": the evenings are not known")},
	}
}

func (b *bench) selling() []caution {
	missing, asked, p := b.job.Label.Missing(), b.job.Asked, b.figures.Price
	breakEven := one(p.BreakEven.Known && p.BreakEven.Value > float64(p.Pieces),
		"covering the stall takes %.0f sales, the job makes %d products", p.BreakEven.Value, p.Pieces)
	if asked > 0 && p.Pieces > 0 && !p.BreakEven.Known {
		breakEven = one(true, "at a price of %.2f a product earns nothing: no number of sales covers the stall", asked)
	}
	return []caution{
		{"label", StepLabel, care, one(len(missing) > 0, "the label lacks %s; add what your local law asks", strings.Join(missing, ", "))},
		{"below_cost", StepSale, care, one(asked > 0 && p.AtCost.Known && asked < p.AtCost.Value,
			"the price of %.2f is below the full cost with the fee, %.2f", asked, p.AtCost.Value)},
		{"break_even", StepSale, care, breakEven},
	}
}
