package cli

import (
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/work"
)

// print gives the figures in the order of the work, each with its source beside it,
// and the cautions at their step.
func (k working) print() {
	k.app.sayPattern(k.saved)
	k.app.say("panels: %d", k.job.Copies)
	if k.figures.Glue.Joints == 0 {
		k.app.say("glue: none, there is no joint")
	}
	k.lines("glue", 0)
	k.cautionsAt("glue")
	for i, made := range k.job.Makes() {
		k.app.say("%s: %s", k.job.Called(i+1), productText(made, k.unit))
		k.lines("cut", i+1)
	}
	k.cautionsAt("cut")
	for i, made := range k.job.Makes() {
		for n, step := range work.SandingOrder(made, k.unit) {
			k.app.say("%s, sanding %d: %s; source: %s", k.job.Called(i+1), n+1, step.Text, step.Source)
		}
	}
	k.lines("finish", 0)
	k.cautionsAt("finish")
	k.label()
	k.cautionsAt("label")
	k.lines("sale", 0)
	k.cautionsAt("sale")
	k.app.say("%s", work.Manuals)
}

// lines prints the figures of a step, those of one product.
func (k working) lines(step string, product int) {
	for _, l := range k.said {
		switch {
		case l.Step != step || l.Product != product:
		case l.Source == "":
			k.app.say("%s: %s", l.Name(), l.Text)
		default:
			k.app.say("%s: %s; source: %s", l.Name(), l.Text, l.Source)
		}
	}
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

// label prints the text of each label, a blank where a field is empty.
func (k working) label() {
	for i, l := range k.labels {
		for line := range strings.Lines(l.Text()) {
			k.app.say("%s, label, %s", k.job.Called(i+1), strings.TrimSuffix(line, "\n"))
		}
		if missing := l.Missing(); len(missing) > 0 {
			k.app.say("%s, label, empty: %s", k.job.Called(i+1), strings.Join(missing, ", "))
		}
	}
}
