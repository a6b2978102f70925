package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
)

// Manuals is what stands once beside the cautions of a job.
const Manuals = "Follow your machine's manual, your training and local rules. Ask a qualified person if unsure."

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

// A caution is a rule: what it tells of a job, a text each time.
type caution struct {
	rule, step string
	level      pattern.Level
	find       func(*bench) []Remark
}

// A bench is what the rules look at.
type bench struct {
	physics movement.Physics
	shop    shop.Shop
	job     Job
	figures Figures
	unit    length.Unit
}

// cautions lists every rule in the order of the work. A new one is one entry here.
func cautions() []caution {
	const note, care, stop = pattern.Fine, pattern.TakeCare, pattern.TooMuch
	return []caution{
		{"in_use", "glue", care, inUse},
		{"glue_time", "glue", care, glueTime},
		{"glue_cold", "glue", stop, glueCold},
		{"glue_class", "glue", care, glueClass},
		{"clamps", "glue", note, clamps},
		{"wait", "glue", care, wait},
		{RuleFit, "cut", stop, fit},
		{RuleEdgeLeft, "cut", care, edgeLeft},
		{"no_edge", "cut", stop, noEdge},
		{"floor_left", "cut", care, floorLeft},
		{"candles_apart", "cut", care, candlesApart},
		{"bare_wood", "cut", care, bareWood},
		{"drill", "cut", note, drill},
		{"router", "cut", note, router},
		{"last_pass", "cut", note, lastPass},
		{"sawn", "cut", note, sawn},
		{"small", "cut", care, small},
		{"cutter_reach", "cut", care, cutterReach},
		{"blank", "cut", care, blankFits},
		{"thin_wall", "cut", care, thinWalls},
		{"no_wall", "cut", pattern.TooMuch, noWalls},
		{"hard_beside_soft", StepSand, note, hardBesideSoft},
		{"colour_travels", StepSand, note, colourTravels},
		{"drying_oil", "finish", care, dryingOil},
		{"rags", "finish", note, rags},
		{"wax", "finish", note, wax},
		{"rack", "finish", note, dryingRack},
		{"label", "label", care, labelFields},
		{"below_cost", "sale", care, belowCost},
		{"break_even", "sale", care, breakEven},
	}
}

// Cautions lists what there is to know of a job at its steps; lengths in the texts
// are in u. f are the figures of j.
func Cautions(r movement.Physics, j Job, f Figures, u length.Unit) []Caution {
	b := &bench{r, r.Shop(), j, f, u}
	var out []Caution
	for _, c := range cautions() {
		for _, remark := range c.find(b) {
			out = append(out, Caution{c.rule, c.step, c.level, remark})
		}
	}
	return out
}

// one returns a text where it holds.
func one(holds bool, format string, args ...any) []Remark {
	if !holds {
		return nil
	}
	return []Remark{{Text: fmt.Sprintf(format, args...)}}
}

// each goes through the listed products.
func (b *bench) each(find func(p pattern.Product, f ProductFigures) []Remark) []Remark {
	var out []Remark
	for i, p := range b.job.Products {
		for _, remark := range find(p, b.figures.Products[i]) {
			remark.Product = i + 1
			out = append(out, remark)
		}
	}
	return out
}

func glueTime(b *bench) []Remark {
	g, open := b.figures.Glue, b.shop.Glue.OpenMinutes
	return one(g.Minutes > open, "%d glue lines take %.1f min to spread, the glue stays open %.0f min: glue it in parts or use a slower glue",
		g.Joints, g.Minutes, open)
}

func glueCold(b *bench) []Remark {
	air, least := b.shop.Air.TemperatureC, b.shop.Glue.LeastC
	return one(b.figures.Glue.Joints > 0 && air < least,
		"the workshop is at %.0f C, the glue needs %.0f by its sheet: too cold, the glue turns to chalk", air, least)
}

// washable is the least EN 204 class for a board that is washed: common practice.
const washable = 3

func glueClass(b *bench) []Remark {
	class := b.shop.Glue.Class
	return one(b.figures.Glue.Joints > 0 && class > 0 && class < washable,
		"glue of class D%d (EN 204): a board that is washed asks for D%d or D4", class, washable)
}

func clamps(b *bench) []Remark {
	need, have := b.figures.Glue.Clamps, b.job.Clamps
	return one(need.Known && have > 0 && float64(have) < need.Value,
		"%.0f clamps by force and reach, you have %d: more clamps or a thicker caul", need.Value, have)
}

func wait(b *bench) []Remark {
	const least = 3 // common practice between 1 day and the 7 that a university gives
	days := b.shop.Glue.WaitDays
	return one(b.figures.Glue.Joints > 0 && days < least,
		"planing %d days after gluing: lines may sink later; %d days are usual, 7 leave them flat; let glue cure before any machine", days, least)
}

func fit(b *bench) []Remark { return Misfits(b.job, b.unit) }

// The least wood left by habit.
const (
	leastEdge  = 3 * length.Millimetre // beside a bevel
	leastFloor = 6 * length.Millimetre // under a hole
)

func edgeLeft(b *bench) []Remark {
	return b.each(func(p pattern.Product, f ProductFigures) []Remark {
		return one(p.Bevel > 0 && f.EdgeLeft > 0 && f.EdgeLeft < leastEdge, "edge left is only %s", f.EdgeLeft.With(b.unit))
	})
}

func noEdge(b *bench) []Remark {
	return b.each(func(p pattern.Product, f ProductFigures) []Remark {
		return one(p.Bevel > 0 && f.EdgeLeft <= 0, "the bevel is as deep as the panel: no edge is left, so the edge figures do not apply")
	})
}

func floorLeft(b *bench) []Remark {
	return b.each(func(p pattern.Product, f ProductFigures) []Remark {
		if p.Holes > 0 && f.FloorLeft <= 0 {
			return one(true, "the bit comes through: no wood is left under the holes")
		}
		return one(p.Holes > 0 && f.FloorLeft < leastFloor, "only %s left under the holes", f.FloorLeft.With(b.unit))
	})
}

// candleGap is the least distance between burning candles, and candleHole the holes
// that a tea light's metal cup may stand in (fire services; a craft page has 39 to 43
// mm, so all near it are taken).
const candleGap = 100 * length.Millimetre

func candleHole(p pattern.Product) bool {
	return p.Holes > 0 && p.Hole >= 35*length.Millimetre && p.Hole <= 60*length.Millimetre
}

func candlesApart(b *bench) []Remark {
	return b.each(func(p pattern.Product, f ProductFigures) []Remark {
		return one(candleHole(p) && p.Holes > 1 && f.HoleGap < candleGap,
			"holes %s apart: fire services ask for 10 cm between burning candles, 30 cm clear around and 1 m above", f.HoleGap.With(b.unit))
	})
}

func bareWood(b *bench) []Remark {
	return b.each(func(p pattern.Product, _ ProductFigures) []Remark {
		return one(candleHole(p), "a candle never in bare wood: use a metal or glass cup, and say so on the label; never leave it unattended")
	})
}

func drill(b *bench) []Remark {
	return b.each(func(p pattern.Product, _ ProductFigures) []Remark {
		return one(p.Holes > 0, "clamp the block, run a large bit slowly; no gloves or loose sleeves at anything that turns")
	})
}

func router(b *bench) []Remark {
	return one(len(b.job.Products) > 0,
		"hardwood dust can harm: extraction, a fitted mask, eye and ear protection; rout against the rotation, in small passes, the work clamped")
}

func lastPass(b *bench) []Remark {
	return one(len(b.job.Products) > 0,
		"the last pass frees product, ring and corners: hold all of them with tape and clamps, wait for the cutter to stop; no bevel pass on a product that is not held")
}

func dryingOil(b *bench) []Remark {
	return one(b.job.DryingOil,
		"rags with a drying oil can catch fire by themselves: metal tin filled with water, lid on, outdoors; by local rules")
}

func rags(b *bench) []Remark {
	return one(b.figures.Finish.OilMl > 0 && !b.job.DryingOil,
		"rags with mineral oil burn too: closed tin; those with linseed, tung or another drying oil can catch fire by themselves: metal tin filled with water, outdoors; use a finish and a glue whose makers say that they suit the use")
}

func wax(b *bench) []Remark {
	return one(b.figures.Finish.WaxG.Value > 0, "melt wax in a water bath, never over a flame; no water into hot oil")
}

func dryingRack(b *bench) []Remark {
	return one(!b.figures.Finish.Evenings.Known, "a product does not lie on the drying rack: the evenings are not known")
}

func labelFields(b *bench) []Remark {
	missing := b.job.Label.Missing()
	return one(len(missing) > 0, "the label lacks %s; add what your local law asks", strings.Join(missing, ", "))
}

func belowCost(b *bench) []Remark {
	asked, at := b.job.Asked, b.figures.Price.AtCost
	return one(asked > 0 && at.Known && asked < at.Value, "the price of %.2f is below the full cost with the fee, %.2f", asked, at.Value)
}

func breakEven(b *bench) []Remark {
	p := b.figures.Price
	if b.job.Asked > 0 && p.Pieces > 0 && !p.BreakEven.Known {
		return one(true, "at %.2f a product earns nothing: no number of them pays the stall", b.job.Asked)
	}
	return one(p.BreakEven.Known && p.BreakEven.Value > float64(p.Pieces),
		"the stall is paid by %.0f products, the job makes %d", p.BreakEven.Value, p.Pieces)
}
