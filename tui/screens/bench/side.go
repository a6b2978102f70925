package bench

import (
	"fmt"

	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// side fills the column that wide screens have: seasons, timber, findings.
func side(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	c.Fill(paint.Rect{X: r.X - 1, Y: r.Y, W: 1, H: r.H}, '│', c.Role(paint.RoleFaint))
	r = r.Inset(1, 0)
	r = seasons(c, r, ctx)
	r = timbers(c, r, ctx)
	r = laidAside(c, r, ctx)
	heading(c, &r, "What to know")
	for _, f := range ctx.Report.Findings {
		words := screen.Wrap(screen.Sentence(f), r.W)
		if len(words) > r.H {
			c.Text(r.Row(0), "more on the findings screen", c.Role(paint.RoleFaint))
			return
		}
		for i, w := range words {
			c.Text(r.Row(i), w, paint.Style{})
		}
		c.Text(r.Row(0), f.Level.String(), c.Role(screen.Role(f.Level)))
		_, r = r.SplitTop(len(words))
	}
}

func heading(c *paint.Canvas, r *paint.Rect, text string) {
	c.Text(r.Row(0), text, c.Role(paint.RoleHeading))
	_, *r = r.SplitTop(1)
}

func row(c *paint.Canvas, r *paint.Rect, text string) {
	c.TextFit(r.Row(0), text, paint.Style{})
	_, *r = r.SplitTop(1)
}

func seasons(c *paint.Canvas, r paint.Rect, ctx screen.Context) paint.Rect {
	heading(c, &r, "Seasons: what wood settles to")
	for _, s := range ctx.Report.Figures.Seasons {
		text := "no figure for the width"
		if s.Known {
			text = "width " + length.Change(s.WidthChangeMM, ctx.Unit)
		}
		row(c, &r, fmt.Sprintf("%-6s %.1f %%  %s  %g °C, %g %%", s.Season, s.EquilibriumPct, text, s.Air.TemperatureC, s.Air.HumidityPct))
	}
	row(c, &r, "")
	return r
}

func timbers(c *paint.Canvas, r paint.Rect, ctx screen.Context) paint.Rect {
	of := ""
	if hasRack(ctx) {
		of = " of what the rack has"
	}
	heading(c, &r, "Timber, "+length.VolumeUnit(ctx.Unit)+of)
	for _, t := range ctx.Report.Figures.Timber {
		mass := "no density"
		if t.MassKnown {
			mass = length.Mass(t.MassKg, ctx.Unit)
		}
		row(c, &r, fmt.Sprintf("%2d %s %-12s %s  %s", t.Strips, ctx.Letters(t.Species), paint.Fit(ctx.Name(t.Species), 12),
			used(ctx, t), mass))
	}
	row(c, &r, "")
	return r
}

func laidAside(c *paint.Canvas, r paint.Rect, ctx screen.Context) paint.Rect {
	if len(ctx.State.Tray) == 0 {
		return r
	}
	heading(c, &r, "Laid aside")
	row(c, &r, tray(ctx))
	row(c, &r, "")
	return r
}
