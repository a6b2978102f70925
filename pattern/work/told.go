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
	StepSecond = "second"
	StepCut    = "cut"
	StepSand   = "sand"
	StepFinish = "finish"
	StepLabel  = "label"
	StepSale   = "sale"
)

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
	t := &reporter{lines: lines{job: j, shop: r.Shop(), unit: u}, cautions: Cautions(r, j, f, u)}
	if f.Glue.Joints == 0 {
		t.tell(Line{Step: StepGlue, What: "glue", Text: "none, there is no glue line"})
	}
	t.glue(f.Glue)
	t.end(StepGlue)
	t.seconds(f.Second)
	t.end(StepSecond)
	makes := j.Makes()
	for i, made := range makes {
		t.tell(Line{Step: StepCut, Product: i + 1, What: j.Called(i + 1), Text: outline.Text(made, u)})
		t.product(made, f.Products[i])
		if placed := j.Placed(i + 1); len(j.Products) > 0 && len(placed) > 0 { // the first copy stands for all
			if rounds, ok := OutOfRoundLine(r, j, placed[0], u); ok {
				rounds.Of = j.Called(i + 1)
				t.tell(rounds)
			}
		}
	}
	t.end(StepCut)
	for i, made := range makes {
		for n, step := range SandingOrder(made, u) {
			t.tell(Line{Step: StepSand, Product: i + 1, Of: j.Called(i + 1), What: fmt.Sprintf("sanding %d", n+1), Text: step.Text, Source: step.Source})
		}
	}
	t.end(StepSand)
	t.finish(f.Finish)
	t.lastStart(f)
	t.end(StepFinish)
	for i, l := range Labels(r.Table(), j, u) {
		t.label(i+1, l)
	}
	t.end(StepLabel)
	t.price(f.Price)
	t.end(StepSale)
	return t.told
}

// A reporter gathers what is told, step by step.
type reporter struct {
	lines
	cautions []Caution
	told     []Entry
}

func (t *reporter) tell(l Line) { t.out = append(t.out, l) }

// end closes a step with its cautions.
func (t *reporter) end(step string) {
	for _, l := range t.out {
		t.told = append(t.told, Entry{Line: l})
	}
	t.out = nil
	for _, c := range t.cautions {
		if c.Step == step {
			t.told = append(t.told, Entry{Line: Line{Step: step, Text: c.String()}, Caution: true, Level: c.Level})
		}
	}
}

// label tells the fields of a label, a blank where one is empty, and which are.
func (t *reporter) label(number int, l Label) {
	tell := func(what, text string) {
		t.tell(Line{Step: StepLabel, Product: number, Of: t.job.Called(number), Part: "label", What: what, Text: text})
	}
	for _, f := range l.Fields() {
		tell(f.Name, f.Written())
	}
	if missing := l.Missing(); len(missing) > 0 {
		tell("empty", strings.Join(missing, ", "))
	}
}
