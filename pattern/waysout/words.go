package waysout

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
)

// Say puts the ways out into plain sentences, for the job that they are of; name gives
// the name of a timber, lengths and steps are in u.
func (w Ways) Say(job cutting.Job, name func(species string) string, u length.Unit) []string {
	var out []string
	for _, l := range w.Short {
		out = append(out, fmt.Sprintf("short of %s: %s", name(l.Species), cutting.RefsText(l.Strips)))
		for _, i := range l.Instead {
			line := "its lines cannot be reckoned"
			if i.Known {
				gap := ""
				if movement.LevelOf(i.Worst.GapPct, job.Shop.Limits.MoisturePct) > pattern.Fine {
					gap = fmt.Sprintf(" with a moisture gap of %.1f points", i.Worst.GapPct)
				}
				line = fmt.Sprintf("its worst line, %d|%d of %s, would step %s%s, %s",
					i.Worst.Line, i.Worst.Line+1, i.Pattern, length.Step(i.Worst.StepUM, 0, u), gap, i.Worst.Level)
			}
			out = append(out, fmt.Sprintf("instead of %s the rack has %s, about %.0f away in colour; %s",
				name(l.Species), name(i.Species), i.Contrast, line))
		}
		if l.Narrower.By > 0 {
			widths := make([]string, len(l.Narrower.Widths))
			for i, n := range l.Narrower.Widths {
				widths[i] = fmt.Sprintf("%s %s wide", n.Pattern, n.Width.With(u))
			}
			out = append(out, fmt.Sprintf("with each %s strip %s narrower all can be cut: %s", name(l.Species), l.Narrower.By.With(u), strings.Join(widths, ", ")))
		}
	}
	full := make([]string, 0, len(w.Full))
	for i, n := range w.Full {
		full = append(full, fmt.Sprintf("%s %d of %d", job.Patterns[i].Stem, n, job.Patterns[i].Copies))
	}
	sure := ""
	if !w.Sure {
		sure = "; not proved: there may be better ways"
	}
	return append(out, "can be made in full: "+strings.Join(full, ", ")+sure)
}
