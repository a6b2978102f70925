package work

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// A Line is one figure in words, with where it comes from.
type Line struct {
	Figure  string // the group and the field of Figures, as Glue.Grams; empty where nothing is computed
	Step    string // as of a Caution: glue, cut, finish or sale
	Product int    // from 1; 0: of the whole job
	Of      string // what it is of: glue, product 2, panel; may be empty
	Part    string // of what it is of: label; mostly empty
	What    string // the figure's name
	Text    string // with its unit, or why there is none
	// Source says where the rule or the default comes from: "habit" is common practice
	// without a source, "derived" follows from geometry or arithmetic, "memory" is known
	// without a copy that was read. It is empty where nothing is computed.
	Source  string
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

// Called returns what the thing that is made under a number goes by.
func (j Job) Called(number int) string {
	if len(j.Products) == 0 {
		return "panel"
	}
	return fmt.Sprintf("product %d", number)
}

// Lines puts the figures f of job j in workshop s into words, in the order of the work;
// lengths are in u.
func Lines(j Job, f Figures, s shop.Shop, u length.Unit) []Line {
	b := &lines{job: j, shop: s, unit: u}
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
	job  Job
	shop shop.Shop
	unit length.Unit
	at   Line // step, product and what the next lines are of
	out  []Line
}

// say adds a figure with its source and the keys that change it.
func (b *lines) say(figure, what, text, source, setting string) {
	l := b.at
	l.Figure, l.What, l.Text, l.Source, l.Setting = figure, what, text, source, setting
	b.out = append(b.out, l)
}

// alone adds a figure whose name says what it is of.
func (b *lines) alone(figure, what, text, source, setting string) {
	of := b.at.Of
	b.at.Of = ""
	b.say(figure, what, text, source, setting)
	b.at.Of = of
}

// in puts the figure into words, or says why it is not known.
func (e Estimate) in(format, why string) string {
	if !e.Known {
		return "no figure, " + why
	}
	return fmt.Sprintf(format, e.Value)
}

func (b *lines) with(l length.Length) string { return l.With(b.unit) }

func (b *lines) glue(g GlueFigures) {
	b.at = Line{Step: StepGlue, Of: "glue"}
	if g.Joints == 0 {
		return
	}
	b.say("Glue.Joints", "glue lines of a panel", fmt.Sprint(g.Joints), "counted", "")
	b.say("Glue.AreaM2", "glued area of all panels", length.Area(g.AreaM2, b.unit),
		"derived: length of the glue lines by thickness before flattening", "[allowance] flattening, length")
	b.say("Glue.Grams", "glue for all panels", fmt.Sprintf("%.0f g", g.Grams),
		"spread as set, 180 g/m2 by default and from memory; waste by habit: weigh your own bottle", "[glue] spread_g_m2, waste_percent")
	b.say("Glue.Minutes", "to spread a panel", fmt.Sprintf("%.1f min, and the glue stays open %g min", g.Minutes, b.shop.Glue.OpenMinutes),
		"seconds a glue line as set, 40 by habit; open time of a common cross-linking PVA 10 to 15 min (museum reference)",
		"[glue] seconds_joint, open_minutes")
	b.say("Glue.Parts", "parts for the thicknesser", fmt.Sprint(g.Parts),
		"derived: whole strips by the thicknesser's width", "[machine] thicknesser_width")
	const noTime = "a glue line takes longer than the glue stays open"
	b.say("Glue.GlueUps", "goes within the open time", g.GlueUps.in("%.0f", noTime),
		"derived: glue lines within the open time", "[glue] seconds_joint, open_minutes")
	b.say("Glue.Stages", "stages", g.Stages.in("%.0f", noTime), "the larger of parts by the thicknesser and goes by the open time",
		"[glue] seconds_joint, open_minutes; [machine] thicknesser_width")
	b.say("Glue.ForceN", "force on the longest glue line", length.Force(g.ForceN, b.unit), // clamps vary by 40 %, so it is told coarsely
		"1.2 MPa on medium hardwood, 150 to 200 psi (a US glue maker's guide); one glue line counts, not all",
		"[glue] pressure_mpa; [allowance] flattening, length")
	b.alone("Glue.ClampsByForce", "clamps by force", g.ClampsByForce.in("%.0f", "the force of a clamp is not said"),
		"aluminium bar clamp about 3020 N (magazine, measured 2010); operators vary by 40 %", "[glue] clamp_force_n")
	b.alone("Glue.ClampsByReach", "clamps by reach", g.ClampsByReach.in("%.0f", "[glue] clamp_reach is 0"),
		"habit: pressure spreads at 45 degrees from the pad", "[glue] clamp_reach")
	b.alone("Glue.Clamps", "clamps", g.Clamps.in("%.0f", "neither force nor reach is said"),
		"the larger of force and reach", "[glue] clamp_force_n, clamp_reach")
	b.say("Glue.WaterPoints", "moisture it adds to the narrowest strip", g.WaterPoints.in("%.1f points", "its timber has no density"),
		"derived: half the glue is water; an average, far more beside the line at first", "[glue] spread_g_m2")
}

func (b *lines) finish(f FinishFigures) {
	b.at = Line{Step: StepFinish, Of: "finish"}
	b.say("Finish.Pieces", "products", fmt.Sprint(f.Pieces), "counted", "")
	b.say("Finish.AreaM2", "surface of all products", length.Area(f.AreaM2, b.unit), "derived", "")
	b.say("Finish.OilMl", "oil for "+tell.Count(b.shop.Finish.Coats, "coat"), fmt.Sprintf("%.0f ml", f.OilMl),
		"ml a coat as set, 60 on a square metre by default and from memory, no published figure found: learn it from your own bottle",
		"[finish] oil_ml_m2, coats")
	b.say("Finish.OilG", "the same oil weighed", fmt.Sprintf("%.0f g", f.OilG),
		"density as set, 0.85 g/ml by default and from memory", "[finish] oil_density, oil_ml_m2, coats")
	b.say("Finish.WaxG", "wax that goes with it", f.WaxG.in("%.0f g", "there is no blend"),
		"habit: the ratio as set, by mass", "[finish] wax_to_oil")
	b.say("Finish.Evenings", "evenings on the drying rack", f.Evenings.in("%.0f", notOnTheRack),
		"habit: one coat an evening, as many products as lie on the rack", "[finish] rack_slots, coats")
}

const notOnTheRack = "a product does not lie on the drying rack"

// lastStart says when to start at the latest for the day that the job is due.
func (b *lines) lastStart(f Figures) {
	if b.job.Due == (pattern.Date{}) {
		return
	}
	text := "no figure, " + notOnTheRack
	if t, ok := LastStart(b.job.Due, b.job, f, b.shop.Glue); ok {
		text = fmt.Sprintf("%v, to be ready before %v: days at the bench %d, for glue and its wait %d, evenings %d", t.Start, b.job.Due, t.Bench, t.Glue, t.Dry)
	}
	b.alone("Timetable.Start", "last day to start", text,
		"habit: 8 hours at the bench a day, a day and the wait for each glue-up, one thing after another",
		"[glue] wait_days; [finish] rack_slots, coats")
}

// orPlaceholder returns a source, and that the figure goes by a default that stands for
// no workshop's.
func orPlaceholder(source string, set, usual float64) string {
	if set == usual {
		source += "; uses a placeholder value: set your own"
	}
	return source
}

func (b *lines) price(p PriceFigures) {
	b.at = Line{Step: StepSale, Of: "price"}
	noTime, earns := "no batch says how long it took: say the minutes", "a product earns nothing"
	if !p.Labour.Known && b.job.Asked == 0 {
		earns = noTime
	}
	if p.Pieces == 0 {
		noTime, earns = "no product comes out", "no product comes out"
	}
	set, usual := b.shop.Price, shop.Default().Price
	b.say("Price.Pieces", "products", fmt.Sprint(p.Pieces), "counted", "")
	b.say("Price.Materials", "timber", fmt.Sprintf("%.2f", p.Materials),
		orPlaceholder("strips with their kerfs and allowances, not what a plan loses beside; offcuts are not free", set.MaterialsDM3, usual.MaterialsDM3),
		"[price] materials_dm3")
	labour := p.Labour.in("%.2f", noTime)
	if p.Labour.Known {
		labour += fmt.Sprintf(", for %d min at %.2f an hour", b.job.Minutes, set.RateHour)
	}
	b.say("Price.Labour", "labour", labour,
		orPlaceholder("minutes by the rate; those of the last batch in proportion, a whole minute rounded up", set.RateHour, usual.RateHour),
		"[price] rate_hour")
	b.say("Price.Fixed", "fixed cost of all products", fmt.Sprintf("%.2f", p.Fixed),
		orPlaceholder("finish, abrasive and packing of a product, by the products", set.FixedEach, usual.FixedEach), "[price] fixed_each")
	b.say("Price.Each", "cost of a product", p.Each.in("%.2f", noTime),
		"derived: timber, labour and fixed cost shared by the products", "[price] rate_hour, materials_dm3, fixed_each")
	b.alone("Price.AtCost", "price that pays cost and fee", p.AtCost.in("%.2f", noTime),
		"derived: cost and the sale's fee, no margin", "[price] rate_hour, materials_dm3, fixed_each, fee_percent")
	b.say("Price.BreakEven", "products that pay the stall", p.BreakEven.in("%.0f", earns),
		"derived: stall by what a product earns, labour not paid out", "[price] stall, fee_percent")
}
