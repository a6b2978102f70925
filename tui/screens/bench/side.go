package bench

import (
	"fmt"

	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// side fills the column that wide screens have: seasons, timber, findings.
func side(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	screen.DrawRule(c, r)
	r = r.Inset(1, 0)
	r = part(c, r, "Seasons: moisture that wood settles to", seasons(ctx))
	heading := "Timber needed, "
	if hasRack(ctx) {
		heading = "Timber needed/on the rack, "
	}
	r = part(c, r, heading+length.VolumeUnit(ctx.Unit), timbers(ctx))
	if len(ctx.State.Tray) > 0 {
		r = part(c, r, "Laid aside", []string{tray(ctx)})
	}
	r = c.Lines(r, []string{"Findings"}, c.Role(paint.RoleHeading))
	for _, g := range ctx.Report.Groups {
		words := screen.Wrap(screen.Sentence(g), r.W)
		if len(words) > r.H {
			c.Text(r.Row(0), "more on the findings screen", c.Role(paint.RoleFaint))
			return
		}
		below := c.Lines(r, words, paint.Style{})
		c.Text(r.Row(0), g.Level.Heading(), c.Role(screen.Role(g.Level)))
		r = below
	}
}

// part writes rows beneath a heading, and returns what of r is left below a blank row.
func part(c *paint.Canvas, r paint.Rect, heading string, rows []string) (rest paint.Rect) {
	r = c.Lines(r, []string{heading}, c.Role(paint.RoleHeading))
	for i, text := range rows {
		c.TextFit(r.Row(i), text, paint.Style{})
	}
	_, rest = r.SplitTop(len(rows) + 1)
	return rest
}

func seasons(ctx screen.Context) []string {
	var rows []string
	for _, s := range ctx.Report.Figures.Seasons {
		text := "no figure for the width"
		if s.Known {
			text = "width " + length.Change(s.WidthChangeMM, ctx.Unit)
		}
		rows = append(rows, fmt.Sprintf("%-6s %.1f %%  %s  %g °C, %g %%", s.Season, s.EquilibriumPct, text, s.Air.TemperatureC, s.Air.HumidityPct))
	}
	return rows
}

func timbers(ctx screen.Context) []string {
	var rows []string
	for _, t := range ctx.Report.Figures.Timber {
		mass := "no density"
		if t.MassKnown {
			mass = length.Mass(t.MassKg, ctx.Unit)
		}
		rows = append(rows, fmt.Sprintf("%2d %s %-12s %s  %s", t.Strips, ctx.Letters(t.Species), paint.Fit(ctx.Name(t.Species), 12), used(ctx, t), mass))
	}
	return rows
}
