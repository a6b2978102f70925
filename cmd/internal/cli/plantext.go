package cli

import (
	"fmt"
	"io"
	"strings"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
)

// planText prints a plan, one fact a line.
type planText struct {
	out  io.Writer
	w    workshop
	job  cutting.Job
	plan cutting.Plan
	unit length.Unit
}

func (t planText) line(format string, args ...any) { fmt.Fprintf(t.out, format+"\n", args...) }

func (t planText) print(seconds float64) {
	for _, d := range t.job.Patterns {
		t.line("make: %s, %s", d.Stem, plural(d.Copies, "copy", "copies"))
	}
	asked := len(cutting.Needs(t.job))
	t.line("strips: %d asked, %d short", asked, t.plan.Short)
	t.line("drawn: %s, %s", length.Volume(t.plan.DrawnCM3, t.unit), t.proof())
	t.line("gone: %s, which does not come back", length.Volume(t.plan.GoneCM3, t.unit))
	t.line("planned in %.2f s", seconds)
	for _, m := range t.plan.Missing {
		t.line("short: %s copy %d strip %d, %s", m.Pattern, m.Copy, m.Strip, t.w.name(m.Species))
	}
	for _, r := range t.plan.Ready {
		t.line("ready strip %s, number %d of it: %s copy %d strip %d", r.ID, r.Copy, r.For.Pattern, r.For.Copy, r.For.Strip)
	}
	for _, d := range cutting.Details(t.job, t.plan) {
		t.piece(d)
	}
	for i, step := range cutting.Steps(t.job, t.plan, t.unit) {
		t.line("step %d: %s", i+1, step)
	}
	for _, c := range cutting.Chalk(t.job, t.plan) {
		t.line("chalk: %s", c)
	}
}

// proof says in words how sure it is that less timber will not do.
func (t planText) proof() string {
	p := t.plan
	switch {
	case p.Status == cutting.Optimal:
		return "the least: it is proved that no plan with so few short draws less"
	case p.DrawnCM3 <= 0:
		return "not proved the fewest short"
	default:
		return fmt.Sprintf("not proved the least: no plan with so few short draws under %s, so it is at most %.2f %% above",
			length.Volume(p.LowerBoundCM3, t.unit), 100*(p.DrawnCM3-p.LowerBoundCM3)/p.DrawnCM3)
	}
}

// piece says what is cut from one piece and what of it goes back.
func (t planText) piece(d cutting.Detail) {
	u := t.unit
	t.line("piece %s, number %d of it, %s %s x %s x %s", d.Cut.Piece, d.Cut.Copy, t.w.name(d.Piece.Species),
		d.Piece.Length.Format(u), d.Piece.Width.Format(u), d.Piece.Thickness.With(u))
	for _, s := range d.Sections {
		side := ""
		if s.Side {
			side = ", side-sliced"
		}
		for _, sl := range s.Slices {
			var strips []string
			for _, st := range sl.Strips {
				strips = append(strips, fmt.Sprintf("%s copy %d strip %d (%s wide off the saw)", st.Pattern, st.Copy, st.Ref.Strip, st.Ripped.Format(u)))
			}
			t.line("  section %d, %s long%s, slice %d, %s thick: %s", s.Number, s.Length.With(u), side, sl.Number, sl.Sawn.With(u), strings.Join(strips, ", "))
		}
	}
	for _, l := range d.Back {
		t.line("  goes back: %s %s x %s x %s", l.Kind, l.Piece.Length.Format(u), l.Piece.Width.Format(u), l.Piece.Thickness.With(u))
	}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// sizeText gives length, width and thickness with the unit behind them.
func sizeText(u length.Unit, l, w, t length.Length) string {
	return l.Format(u) + " x " + w.Format(u) + " x " + t.With(u)
}
