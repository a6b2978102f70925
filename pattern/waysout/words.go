package waysout

import (
	"fmt"
	"slices"
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
		out = append(out, fmt.Sprintf("%s missing: %s", name(l.Species), missingText(job, l.Strips)))
		if r := l.AnyRings; len(r.Pieces) > 0 {
			out = append(out, fmt.Sprintf("use %s whatever its rings: %s; then nothing is missing; %s", name(l.Species), othersText(r.Pieces), worstText(job, r.Known, r.Worst, r.Pattern, u)))
		}
		for _, i := range l.Instead {
			line := worstText(job, i.Known, i.Worst, i.Pattern, u)
			out = append(out, fmt.Sprintf("use %s for %s: colour differs by about %.0f; %s",
				name(i.Species), name(l.Species), i.Contrast, line))
		}
		if l.Narrower.By > 0 {
			widths := make([]string, len(l.Narrower.Widths))
			for i, n := range l.Narrower.Widths {
				widths[i] = fmt.Sprintf("%s %s wide", n.Pattern, n.Width.With(u))
			}
			out = append(out, fmt.Sprintf("make each %s strip %s narrower: then all can be cut (%s)", name(l.Species), l.Narrower.By.With(u), strings.Join(widths, ", ")))
		}
	}
	full := make([]string, 0, len(w.Full))
	for i, n := range w.Full {
		of := ""
		if len(w.Full) > 1 {
			of = " of " + job.Patterns[i].Stem
		}
		full = append(full, fmt.Sprintf("%d of the %d boards%s", n, job.Patterns[i].Copies, of))
	}
	sure := ""
	if !w.Sure {
		sure = "; not proved: there may be better ways"
	}
	return append(out, "there is timber for "+strings.Join(full, ", ")+sure)
}

// worstText says which glue line would ask for most.
func worstText(job cutting.Job, known bool, l movement.Line, stem string, u length.Unit) string {
	if !known {
		return "its glue lines cannot be worked out"
	}
	gap := ""
	if movement.LevelOf(l.GapPct, job.Shop.Limits.MoisturePct) > pattern.Fine {
		gap = fmt.Sprintf(", moisture %.1f points apart", l.GapPct)
	}
	return fmt.Sprintf("worst glue line %d|%d of %s: step %s%s, %s", l.Line, l.Line+1, stem, length.Step(l.StepUM, 0, u), gap, l.Level)
}

// missingText lists strips, boards with the same ones together: boards 1 to 6 strips 1,
// 11; board 7 strips 1, 7. A pattern is named where the job has several.
func missingText(job cutting.Job, refs []cutting.Ref) string {
	var of tell.Groups[cutting.Ref, cutting.Ref]
	for _, r := range refs {
		of.Add(r.OfCopy(), r)
	}
	type alike struct{ stem, strips string }
	var boards tell.Groups[alike, int]
	for board, strips := range of.All() {
		boards.Add(alike{board.Pattern, cutting.StripsText(strips)}, board.Copy)
	}
	var texts []string
	for a, numbers := range boards.All() {
		slices.Sort(numbers)
		stem := ""
		if len(job.Patterns) > 1 {
			stem = a.stem + " "
		}
		texts = append(texts, fmt.Sprintf("%s%s %s %s", stem, tell.Plural(len(numbers), "board"), tell.Runs(numbers), a.strips))
	}
	return strings.Join(texts, "; ")
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
