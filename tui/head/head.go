// Package head draws the rows about every screen: what lies on the bench, how it stands,
// what was just done or refused, and at the bottom the names of the screens.
package head

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// namePart is how many cells of the top line a name may ask for before the figures.
const namePart = 20

// Title says what lies on the bench, how wide it is and how thick on its way.
func Title(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p, u := ctx.State.Pattern, ctx.Unit
	wide := "wide " + ctx.Report.Figures.Width.With(u)
	if by := ctx.Report.Figures.Width - p.Panel.Width; p.Panel.Width > 0 && by > 0 {
		wide += " (" + by.Format(u) + " over)"
	} else if p.Panel.Width > 0 && by < 0 {
		wide += " (" + (-by).Format(u) + " short)"
	}
	s := ctx.Physics.Shop()
	stages := s.Sawn(p.Panel.Thickness).Format(u) + " sawn, " + s.Glued(p.Panel.Thickness).Format(u) + " planed"
	if p.Panel.Make == pattern.MakeEdge {
		stages = "on edge: " + s.Glued(p.Panel.Thickness).Format(u) + " ripped"
	}
	mark := ""
	if ctx.Dirty { // where the name is cut off too
		mark = " *"
	}
	thick := "   thick " + p.Panel.Thickness.With(u)
	right := screen.FirstThatFits(r.W-min(paint.Width(ctx.Title+mark), namePart)-2, wide+thick+" ("+stages+")", wide+thick, wide)
	c.TextRight(r, right, paint.Style{})
	left, _ := r.SplitLeft(max(0, r.W-paint.Width(right)-2))
	c.Text(left, paint.Fit(ctx.Title, left.W-len(mark))+mark, c.Role(paint.RoleTitle))
}

// TooSmall asks for a window of so many cells at least.
func TooSmall(c *paint.Canvas, w, h int) {
	all := c.Bounds()
	text := fmt.Sprintf("oddments needs a window of %d x %d or more, please; this one is %d x %d. Your work is kept.", w, h, all.W, all.H)
	for i, line := range screen.Wrap(text, all.W) {
		c.Text(all.Row(i), line, paint.Style{})
	}
}

// Status says how the panel stands, and what goes on beside what is shown: busy; empty:
// nothing. What finds no room is left out whole, the least urgent first.
func Status(c *paint.Canvas, r paint.Rect, ctx screen.Context, busy string) {
	right := Right(c, r, ctx, busy)
	left, _ := r.SplitLeft(max(0, r.W-paint.Width(right)-2))
	strips := tell.Count(len(ctx.State.Pattern.Strips), "strip")
	var parts []string
	brief := ""
	if n := misfits(ctx.Report); n > 0 {
		parts = append(parts, "does not fit: "+tell.Count(n, "product"))
	}
	if l, level, ok := worst(ctx); ok {
		brief = fmt.Sprintf("%d|%d: %s", l.Line, l.Line+1, level)
		parts = append(parts, fmt.Sprintf("worst %d|%d: %s, %s", l.Line, l.Line+1, deciding(ctx, l, ctx.Of(l)), level))
	}
	if looks := ctx.Looks(); looks != "" {
		parts = append(parts, "check end: "+looks)
	}
	const between = "   "
	said := strings.Join(parts, between)
	fits := []string{strings.TrimRight(strips+", "+ctx.State.Pattern.Panel.Length.With(ctx.Unit)+" long"+between+said, " "), strings.TrimRight(strips+between+said, " ")}
	for n := len(parts); n > 0; n-- {
		fits = append(fits, strings.Join(parts[:n], between))
	}
	if brief != "" {
		fits = append(fits, brief)
	}
	c.TextFit(left, screen.FirstThatFits(left.W, fits...), paint.Style{})
}

// misfits returns how many products do not come out of the panel.
func misfits(r check.Report) int {
	n := 0
	for _, f := range r.Findings {
		if f.Rule == check.RuleFit {
			n++
		}
	}
	return n
}

// Right writes what stands at the right of the status, and returns it: what goes on, whether
// it is the demo, and the season chosen.
func Right(c *paint.Canvas, r paint.Rect, ctx screen.Context, busy string) string {
	right := ""
	if ctx.Season != screen.Worse {
		right = ctx.Season.String()
	}
	if ctx.Demo {
		right = strings.TrimSpace("demo   " + right)
	}
	if busy != "" {
		right = strings.TrimSpace(busy + "   " + right)
	}
	c.TextRight(r, right, c.Role(paint.RoleFaint))
	return right
}

// deciding returns the figure of a glue line that is furthest beyond its limit.
func deciding(ctx screen.Context, l movement.Line, f screen.LineFigures) string {
	limits := ctx.Physics.Shop().Limits
	switch {
	case f.Gap > f.Moves:
		return fmt.Sprintf("moisture %.1f points apart", l.GapPct)
	case f.StrainPct/limits.StrainPct.Care > f.StepUM/limits.StepUM.Care:
		return fmt.Sprintf("strain %.2f %%", f.StrainPct)
	default:
		return "step " + length.Step(f.StepUM, 0, ctx.Unit) + " " + f.Season.String()
	}
}

// Notice writes what was just done or refused on the second row of r, and over those
// beneath it where it is long.
func Notice(c *paint.Canvas, r paint.Rect, n screen.Notice) {
	const most = 4
	lines := screen.Wrap(n.Text, r.W-2)
	if len(lines) == 1 {
		left := r.Row(1).Inset(1, 0)
		c.Text(left, lines[0], c.Role(n.Role))
		return
	}
	for i, line := range lines[:min(most, len(lines))] {
		c.Fill(r.Row(1+i), ' ', paint.Style{})
		c.Text(r.Row(1+i).Inset(1, 0), line, c.Role(n.Role))
	}
}

// worst returns the glue line that asks most of the maker, in the season chosen.
func worst(ctx screen.Context) (movement.Line, pattern.Level, bool) {
	var line movement.Line
	var level pattern.Level
	var most float64
	found := false
	for _, l := range ctx.Report.Figures.Lines {
		f := ctx.Of(l)
		severity := ctx.Physics.Beyond(f.StepUM, f.StrainPct, l.GapPct)
		if !l.Known && f.Gap == pattern.Fine || found && (f.Level < level || f.Level == level && severity <= most) {
			continue
		}
		line, level, most, found = l, f.Level, severity, true
	}
	return line, level, found
}
