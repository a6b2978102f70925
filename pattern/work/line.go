package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
)

// The steps of the work, in their order. The cautions of a step stand behind its
// figures.
const (
	StepGlue   = "glue"
	StepCut    = "cut"
	StepSand   = "sand"
	StepFinish = "finish"
	StepLabel  = "label"
	StepSale   = "sale"
)

// StepNames lists the steps in their order.
func StepNames() []string {
	return []string{StepGlue, StepCut, StepSand, StepFinish, StepLabel, StepSale}
}

// A Line is one figure, or one caution, in words at its step.
type Line struct {
	Step    string
	Name    string // what the figure is of; empty for a caution
	Text    string
	Source  string // where the rule or the default behind it comes from; empty: nothing is reckoned
	Setting string // what in shop.toml changes it; empty: nothing does
	Caution bool
	Level   pattern.Level // of a caution
}

// Lines gives the figures f of j in the order of the work, each with its source, and
// the cautions at their step; lengths are in u. It is what is printed and what the
// screen shows.
func Lines(r movement.Reckoner, j Job, f Figures, s Settings, u length.Unit) []Line {
	w := &writer{reckoner: r, job: j, figures: f, settings: s, unit: u, cautions: Cautions(r, j, f, s, u)}
	w.glue()
	w.products()
	w.sanding()
	w.finish()
	w.labels()
	w.price()
	return w.lines
}

// A writer puts figures into words.
type writer struct {
	reckoner movement.Reckoner
	job      Job
	figures  Figures
	settings Settings
	unit     length.Unit
	cautions []Caution
	step     string
	lines    []Line
}

// end closes a step with its cautions.
func (w *writer) end() {
	for _, c := range w.cautions {
		if c.Step == w.step {
			w.lines = append(w.lines, Line{Step: c.Step, Text: c.Text, Caution: true, Level: c.Level})
		}
	}
}

// plain says what is no figure.
func (w *writer) plain(name, format string, args ...any) {
	w.lines = append(w.lines, Line{Step: w.step, Name: name, Text: fmt.Sprintf(format, args...)})
}

// say gives one figure with the source that Sources has for it.
func (w *writer) say(figure, name, format string, args ...any) {
	w.lines = append(w.lines, Line{Step: w.step, Name: name, Text: fmt.Sprintf(format, args...),
		Source: SourceOf(figure), Setting: SettingOf(figure)})
}

// guess gives an estimate, or says why it is not known.
func (w *writer) guess(figure, name, format string, e Estimate, why string) {
	if !e.Known {
		w.say(figure, name, "no figure, %s", why)
		return
	}
	w.say(figure, name, format, e.Value)
}

func (w *writer) with(l length.Length) string { return l.With(w.unit) }

// name gives what the figures of a thing that is made begin with.
func (w *writer) name(number int) string {
	if len(w.job.Products) == 0 {
		return "panel"
	}
	return fmt.Sprintf("product %d", number)
}

// size gives a size that a round has once.
func (w *writer) size(p outline.Product, along, across length.Length) string {
	if p.Shape == outline.Round {
		return w.with(along)
	}
	return w.with(along) + " x " + w.with(across)
}

func (w *writer) glue() {
	w.step = StepGlue
	defer w.end()
	g := w.figures.Glue
	if g.Joints == 0 {
		w.plain("glue", "none, there is no joint")
		return
	}
	w.say("Glue.Joints", "glue, joints of a panel", "%d", g.Joints)
	w.say("Glue.AreaM2", "glue, joint area of all panels", "%.3f m2", g.AreaM2)
	w.say("Glue.Grams", "glue, mass for all panels", "%.0f g", g.Grams)
	w.say("Glue.Minutes", "glue, to spread a panel", "%.1f min, and the glue stays open %g", g.Minutes, w.settings.Glue.OpenMinutes)
	w.say("Glue.Parts", "glue, parts for the thicknesser", "%d", g.Parts)
	const noTime = "a joint takes longer than the glue stays open"
	w.guess("Glue.GlueUps", "glue, goes within the open time", "%.0f", g.GlueUps, noTime)
	w.guess("Glue.Stages", "glue, stages", "%.0f", g.Stages, noTime)
	w.say("Glue.ForceN", "glue, force on the longest joint", "%.0f N", g.ForceN)
	w.guess("Glue.ClampsByForce", "clamps by force", "%.0f", g.ClampsByForce, "the force of a clamp is not said")
	w.guess("Glue.ClampsByReach", "clamps by reach", "%.0f", g.ClampsByReach, "[glue] clamp_reach is 0")
	w.guess("Glue.Clamps", "clamps", "%.0f", g.Clamps, "neither force nor reach is said")
	w.guess("Glue.WaterPoints", "glue, moisture it adds to the narrowest strip", "%.1f points", g.WaterPoints, "its timber has no density")
}

func (w *writer) products() {
	w.step = StepCut
	for i, made := range w.job.Makes() {
		w.product(made, w.figures.Products[i])
	}
	w.end()
}

func (w *writer) product(p outline.Product, f ProductFigures) {
	name := w.name(f.Product)
	w.plain(name, "%s", outline.Text(p, w.unit))
	w.say("Products.PerPanel", name+", of a panel", "%d", f.PerPanel)
	if len(w.job.Products) > 0 {
		w.cutOut(name, p, f)
	}
	w.bevel(name, p, f)
	w.holes(name, p, f)
	if p.Bevel > 0 || p.Holes > 0 {
		w.say("Products.RemovedCM3", name+", wood taken off", "%.1f cm3", f.RemovedCM3)
	}
	why := "a timber has no density"
	if f.PerPanel == 0 {
		why = "none fits"
	}
	w.guess("Products.WeightKg", name+", weight", "%.2f kg", f.WeightKg, why)
	w.say("Products.FinishM2", name+", surface", "%.4f m2", f.FinishM2)
}

func (w *writer) cutOut(name string, p outline.Product, f ProductFigures) {
	w.say("Products.BlankLength", name+", blank", "%s x %s", w.with(f.BlankLength), w.with(f.BlankWidth))
	if f.TemplateLength > 0 {
		w.say("Products.TemplateLength", name+", template inside the bush", "%s", w.size(p, f.TemplateLength, f.TemplateWidth))
	} else {
		w.plain(name+", template", "none, the bush is not larger than the cutter or the piece is too small")
	}
	if f.Passes == 0 {
		w.plain(name+", passes", "no figure, [cut] pass is 0")
		return
	}
	w.say("Products.Passes", name+", passes", "%d", f.Passes)
	w.say("Products.PathM", name+", path of the cutter", "%.1f m", f.PathM)
}

func (w *writer) bevel(name string, p outline.Product, f ProductFigures) {
	if p.Bevel == 0 {
		return
	}
	w.say("Products.BevelFaceMM", name+", bevel face", "%s %v", length.Estimate(f.BevelFaceMM, w.unit), w.unit)
	w.say("Products.EdgeLeft", name+", edge left", "%s", w.with(f.EdgeLeft))
	w.say("Products.StandsLength", name+", stands on", "%s", w.size(p, f.StandsLength, f.StandsWidth))
	w.say("Products.TopLength", name+", top", "%s", w.size(p, f.TopLength, f.TopWidth))
}

func (w *writer) holes(name string, p outline.Product, f ProductFigures) {
	if p.Holes == 0 {
		return
	}
	centres := make([]string, len(f.HoleCentres))
	for i, at := range f.HoleCentres {
		centres[i] = w.with(at)
	}
	w.say("Products.HoleCentres", name+", holes from the near end", "%s", strings.Join(centres, ", "))
	w.say("Products.HoleGap", name+", wood between holes", "%s", w.with(f.HoleGap))
	w.say("Products.FloorLeft", name+", wood under the holes", "%s", w.with(f.FloorLeft))
}

func (w *writer) sanding() {
	w.step = StepSand
	for i, made := range w.job.Makes() {
		for n, step := range SandingOrder(made, w.unit) {
			w.lines = append(w.lines, Line{Step: w.step, Name: fmt.Sprintf("%s, sanding %d", w.name(i+1), n+1), Text: step.Text, Source: step.Source})
		}
	}
	w.end()
}

func (w *writer) finish() {
	w.step = StepFinish
	f := w.figures.Finish
	coats := fmt.Sprintf("%d coats", w.settings.Finish.Coats)
	if w.settings.Finish.Coats == 1 {
		coats = "1 coat"
	}
	w.say("Finish.Pieces", "finish, pieces", "%d", f.Pieces)
	w.say("Finish.AreaM2", "finish, surface of all pieces", "%.3f m2", f.AreaM2)
	w.say("Finish.OilMl", "finish, oil for "+coats, "%.0f ml", f.OilMl)
	w.say("Finish.OilG", "finish, the same oil weighed", "%.0f g", f.OilG)
	w.guess("Finish.WaxG", "finish, wax that goes with it", "%.0f g", f.WaxG, "there is no blend")
	const noRack = "a piece does not lie on the rack"
	w.guess("Finish.Evenings", "finish, evenings on the drying rack", "%.0f", f.Evenings, noRack)
	if w.job.Due != (pattern.Date{}) {
		w.lastStart(noRack)
	}
	w.end()
}

// lastStart says when to start at the latest.
func (w *writer) lastStart(noRack string) {
	const figure, name = "Timetable.Start", "last day to start"
	t, ok := LastStart(w.job.Due, w.job, w.figures, w.settings.Glue)
	if !ok {
		w.say(figure, name, "no figure, %s", noRack)
		return
	}
	w.say(figure, name, "%v, to be ready before %v: %d at the bench, %d for glue and its wait, %d evenings",
		t.Start, w.job.Due, t.Bench, t.Glue, t.Dry)
}

// labels gives the text of each label, a blank where a field is empty.
func (w *writer) labels() {
	w.step = StepLabel
	for i, l := range Labels(w.reckoner.Table(), w.job, w.unit) {
		name := w.name(i+1) + ", label"
		for line := range strings.Lines(l.Text()) {
			field, text, _ := strings.Cut(strings.TrimSuffix(line, "\n"), ": ")
			w.plain(name+", "+field, "%s", text)
		}
		if missing := l.Missing(); len(missing) > 0 {
			w.plain(name+", empty", "%s", strings.Join(missing, ", "))
		}
	}
	w.end()
}

func (w *writer) price() {
	w.step = StepSale
	p := w.figures.Price
	noTime, earns := "no batch says how long it took: say the minutes", "a piece earns nothing"
	if !p.Labour.Known && w.job.Asked == 0 {
		earns = noTime
	}
	if p.Pieces == 0 {
		noTime, earns = "no piece comes out", "no piece comes out"
	}
	w.say("Price.Pieces", "price, pieces", "%d", p.Pieces)
	w.say("Price.Materials", "price, timber", "%.2f", p.Materials)
	w.guess("Price.Labour", "price, labour", "%.2f", p.Labour, noTime)
	w.say("Price.Fixed", "price, fixed cost of all pieces", "%.2f", p.Fixed)
	w.guess("Price.Each", "price, cost of a piece", "%.2f", p.Each, noTime)
	w.guess("Price.AtCost", "price that pays cost and fee", "%.2f", p.AtCost, noTime)
	w.guess("Price.BreakEven", "price, pieces that pay the stall", "%.0f", p.BreakEven, earns)
	w.end()
}
