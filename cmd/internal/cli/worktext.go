package cli

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/work"
)

// print gives the figures in the order of the work, each with its source beside it,
// and the cautions at their step.
func (k working) print() {
	k.app.sayPattern(k.saved)
	k.app.say("panels: %d", k.job.Copies)
	for _, l := range work.Report(k.workshop.physics(), k.job, k.figures, k.unit) {
		switch {
		case l.Caution && l.Level == pattern.Fine:
			k.app.say("caution, %s: %s", l.Step, l.Text)
		case l.Caution:
			k.app.say("caution, %s, %v: %s", l.Step, l.Level, l.Text)
		case l.Source != "":
			k.app.say("%v; source: %s", l.Line, l.Source)
		default:
			k.app.say("%v", l.Line)
		}
	}
	k.app.say("%s", work.Manuals)
}
