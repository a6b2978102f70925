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

// An Entry is one line of all that a maker is told from gluing to selling: a figure, a
// step of sanding, a field of a label, or a caution.
type Entry struct {
	Line
	Caution bool          // Text alone is set besides the step
	Level   pattern.Level // of a caution
}

// Report returns all lines of j in the order of the work, f being its figures, with the
// cautions at their step; lengths are in u. It is what is printed and what the screen
// shows.
func Report(r movement.Physics, j Job, f Figures, u length.Unit) []Entry {
	t := &reporter{job: j, unit: u, lines: Lines(j, f, r.Shop(), u), cautions: Cautions(r, j, f, u)}
	if f.Glue.Joints == 0 {
		t.add(Line{Step: StepGlue, What: "glue", Text: "none, there is no glue line"})
	}
	t.figures(StepGlue, 0)
	t.end(StepGlue)
	for i, made := range j.Makes() {
		t.add(Line{Step: StepCut, Product: i + 1, What: j.Called(i + 1), Text: outline.Text(made, u)})
		t.figures(StepCut, i+1)
		t.round(r, i+1)
	}
	t.end(StepCut)
	for i, made := range j.Makes() {
		for n, step := range SandingOrder(made, u) {
			t.add(Line{Step: StepSand, Product: i + 1, Of: j.Called(i + 1), What: fmt.Sprintf("sanding %d", n+1), Text: step.Text, Source: step.Source})
		}
	}
	t.end(StepSand)
	t.figures(StepFinish, 0)
	t.end(StepFinish)
	for i, l := range Labels(r.Table(), j, u) {
		t.label(i+1, l)
	}
	t.end(StepLabel)
	t.figures(StepSale, 0)
	t.end(StepSale)
	return t.told
}

// A reporter gathers what is told.
type reporter struct {
	job      Job
	unit     length.Unit
	lines    []Line
	cautions []Caution
	told     []Entry
}

func (t *reporter) add(l Line) { t.told = append(t.told, Entry{Line: l}) }

// figures tells those of a step, of one product or of the whole job.
func (t *reporter) figures(step string, product int) {
	for _, l := range t.lines {
		if l.Step == step && l.Product == product {
			t.add(l)
		}
	}
}

// round tells what the seasons make of the first copy of a round.
func (t *reporter) round(r movement.Physics, product int) {
	placed := t.job.Placed(product)
	if len(t.job.Products) == 0 || len(placed) == 0 {
		return
	}
	if rounds, ok := OutOfRoundLine(r, t.job, placed[0], t.unit); ok {
		rounds.Of = t.job.Called(product)
		t.add(rounds)
	}
}

// end closes a step with its cautions.
func (t *reporter) end(step string) {
	for _, c := range t.cautions {
		if c.Step == step {
			t.told = append(t.told, Entry{Line: Line{Step: step, Text: c.String()}, Caution: true, Level: c.Level})
		}
	}
}

// label tells the fields of a label, a blank where one is empty, and which are.
func (t *reporter) label(number int, l Label) {
	field := Line{Step: StepLabel, Product: number, Of: t.job.Called(number), Part: "label"}
	for _, f := range l.Fields() {
		field.What, field.Text = f.Name, f.Written()
		t.add(field)
	}
	if missing := l.Missing(); len(missing) > 0 {
		field.What, field.Text = "empty", strings.Join(missing, ", ")
		t.add(field)
	}
}
