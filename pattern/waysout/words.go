package waysout

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/tell"
)

// Say puts the ways out into plain sentences, for the job that they are of; name gives
// the name of a timber, lengths and steps are in u.
func (w Ways) Say(job cutting.Job, name func(species string) string, u length.Unit) []string {
	var out []string
	for _, l := range w.Short {
		out = append(out, fmt.Sprintf("short of %s: %s", name(l.Species), cutting.RefsText(l.Strips)))
		if r := l.AnyRings; len(r.Pieces) > 0 {
			out = append(out, fmt.Sprintf("use %s whatever its rings: %s; with them nothing is short; %s", name(l.Species), othersText(r.Pieces), worstText(job, r.Known, r.Worst, r.Pattern, u)))
		}
		for _, i := range l.Instead {
			line := worstText(job, i.Known, i.Worst, i.Pattern, u)
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

// worstText says which glue line would ask for most.
func worstText(job cutting.Job, known bool, l movement.Line, stem string, u length.Unit) string {
	if !known {
		return "its lines cannot be worked out"
	}
	gap := ""
	if movement.LevelOf(l.GapPct, job.Shop.Limits.MoisturePct) > pattern.Fine {
		gap = fmt.Sprintf(" with a moisture gap of %.1f points", l.GapPct)
	}
	return fmt.Sprintf("its worst line, %d|%d of %s, would step %s%s, %s", l.Line, l.Line+1, stem, length.Step(l.StepUM, 0, u), gap, l.Level)
}

// othersText names pieces by their rings: B1 and B4 are rift, B2 is quarter.
func othersText(pieces []Other) string {
	var by tell.Groups[pattern.Rings, string]
	for _, p := range pieces {
		by.Add(p.Rings, p.ID)
	}
	var texts []string
	for rings, ids := range by.All() {
		are := "is"
		if len(ids) > 1 {
			are = "are"
		}
		texts = append(texts, fmt.Sprintf("%s %s %s", tell.List(ids, "and"), are, rings))
	}
	return strings.Join(texts, ", ")
}
