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
	Figure  string // in figures.csv, as Glue.Grams; empty where nothing is computed
	Step    string // as of a Caution: glue, cut, finish or sale
	Product int    // from 1; 0: of the whole job
	Of      string // what it is of: glue, product 2, panel; may be empty
	Part    string // of what it is of: label; mostly empty
	What    string // the figure's name
	Text    string // with its unit, or why there is none
	Source  string // where its rule or default comes from; empty where nothing is computed
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

// Called returns what the thing that is made under a number goes by.
func (j Job) Called(number int) string {
	if len(j.Products) == 0 && j.Board != nil {
		return "board"
	}
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
	b.seconds(f.Second)
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
	out  []Line
}

// say adds a figure of the table; the line may still be changed.
func (b *lines) say(figure, format string, args ...any) *Line {
	l := figures()[figure]
	l.Text = fmt.Sprintf(format, args...)
	b.out = append(b.out, l)
	return &b.out[len(b.out)-1]
}

// guess adds a figure that may not be known.
func (b *lines) guess(figure, format string, e Estimate, why string) *Line {
	if !e.Known {
		return b.say(figure, "no figure, %s", why)
	}
	return b.say(figure, format, e.Value)
}

// placeholder says of the last figure whether it uses a default that is no workshop's.
func (b *lines) placeholder(set, usual float64) {
	if set == usual {
		b.out[len(b.out)-1].Source += "; built-in value: set your own in [price]"
	}
}

func (b *lines) with(l length.Length) string { return l.With(b.unit) }

func (b *lines) glue(g GlueFigures) {
	if g.Joints == 0 {
		return
	}
	b.say("Glue.Joints", "%d", g.Joints)
	b.say("Glue.AreaM2", "%s", length.Area(g.AreaM2, b.unit))
	b.say("Glue.Grams", "%.0f g", g.Grams)
	b.say("Glue.Minutes", "%.1f min, and the glue stays open %g min", g.Minutes, b.shop.Glue.OpenMinutes)
	b.say("Glue.Parts", "%d", g.Parts)
	const noTime = "a glue line takes longer than the glue stays open"
	b.guess("Glue.GlueUps", "%.0f", g.GlueUps, noTime)
	b.guess("Glue.Stages", "%.0f", g.Stages, noTime)
	b.say("Glue.ForceN", "%s", length.Force(g.ForceN, b.unit)) // clamps vary by 40 %, so it is told coarsely
	b.guess("Glue.ClampsByForce", "%.0f", g.ClampsByForce, "[glue] clamp_force_n is 0")
	b.guess("Glue.ClampsByReach", "%.0f", g.ClampsByReach, "[glue] clamp_reach is 0")
	b.guess("Glue.Clamps", "%.0f", g.Clamps, "[glue] clamp_force_n and clamp_reach are 0")
	b.guess("Glue.WaterPoints", "%.1f points", g.WaterPoints, "its timber has no density")
}

func (b *lines) finish(f FinishFigures) {
	b.say("Finish.Pieces", "%d", f.Pieces)
	b.say("Finish.AreaM2", "%s", length.Area(f.AreaM2, b.unit))
	b.say("Finish.OilMl", "%.0f ml", f.OilMl).What += " for " + tell.Count(b.shop.Finish.Coats, "coat")
	b.say("Finish.OilG", "%.0f g", f.OilG)
	b.guess("Finish.WaxG", "%.0f g", f.WaxG, "there is no blend")
	b.guess("Finish.Evenings", "%.0f", f.Evenings, notOnTheRack)
}

// FinishLines puts what finishing takes into words; lengths are in u.
func FinishLines(f FinishFigures, s shop.Shop, u length.Unit) []Line {
	b := &lines{shop: s, unit: u}
	b.finish(f)
	return b.out
}

const notOnTheRack = "the drying rack is too small for a product"

// lastStart says when to start at the latest for the day that the job is due.
func (b *lines) lastStart(f Figures) {
	if b.job.Due == (pattern.Date{}) {
		return
	}
	t, ok := LastStart(b.job.Due, b.job, f, b.shop.Glue)
	if !ok {
		b.say("Timetable.Start", "no figure, %s", notOnTheRack)
		return
	}
	b.say("Timetable.Start", "%v, to be ready before %v: %s at the bench, %s for glue and its wait, %s to dry", t.Start, b.job.Due,
		tell.Count(t.Bench, "day"), tell.Count(t.Glue, "day"), tell.Count(t.Dry, "evening"))
}

func (b *lines) price(p PriceFigures) {
	noTime, earns := "no batch has its minutes: enter the minutes", "a product earns nothing"
	if !p.Labour.Known && b.job.Asked == 0 {
		earns = noTime
	}
	if p.Pieces == 0 {
		noTime, earns = "no product fits the panel", "no product fits the panel"
	}
	set, usual := b.shop.Price, shop.Default().Price
	b.say("Price.Pieces", "%d", p.Pieces)
	b.say("Price.Materials", "%.2f", p.Materials)
	b.placeholder(set.MaterialsDM3, usual.MaterialsDM3)
	if l := b.guess("Price.Labour", "%.2f", p.Labour, noTime); p.Labour.Known {
		what := ""
		if b.job.Board != nil {
			what = ", second glue-ups among them,"
		}
		l.Text += fmt.Sprintf(", for %d min%s at %.2f an hour", b.job.Minutes, what, set.RateHour)
	}
	b.placeholder(set.RateHour, usual.RateHour)
	b.say("Price.Fixed", "%.2f", p.Fixed)
	b.placeholder(set.FixedEach, usual.FixedEach)
	b.guess("Price.Each", "%.2f", p.Each, noTime)
	b.guess("Price.AtCost", "%.2f", p.AtCost, noTime)
	b.guess("Price.BreakEven", "%.0f", p.BreakEven, earns)
}
