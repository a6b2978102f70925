package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/work"
)

// ups returns the second glue-ups of a board; none of none.
func ups(b *movement.Board) []second.GlueUp {
	if b == nil {
		return nil
	}
	return b.Ups
}

func barLines(b *movement.Board) []movement.BarLine {
	if b == nil {
		return nil
	}
	return b.Lines
}

// glueUp returns the JSON of one second glue-up.
func glueUp(g second.GlueUp) Object {
	return Object{
		{"lay", g.Lay}, {"angle_deg", g.Degrees()}, {"bar_mm", g.Bar}, {"bars", g.Bars}, {"bars_short", g.Short}, {"bars_more", g.More},
		{"pitch_mm", g.Pitch}, {"left_mm", g.Left},
		{"length_mm", g.Size.Length}, {"width_mm", g.Size.Width}, {"thickness_mm", g.Size.Thickness},
		{"taken_cm3", Object{{"board", g.Taken.Board}, {"flattened", g.Taken.Flattened}, {"trim", g.Taken.Trim}, {"kerf", g.Taken.Kerf}, {"left", g.Taken.Left}}},
	}
}

// board returns the JSON of a board, null where there is none.
func board(b *movement.Board) any {
	if b == nil {
		return nil
	}
	g := b.Up()
	whole := b.Known && g.Size.Length > 0
	rows := b.Known && b.Rows
	return Object{
		{"length_mm", g.Size.Length}, {"width_mm", g.Size.Width}, {"thickness_mm", g.Size.Thickness}, {"end_grain", g.EndGrain},
		{"along_pct", Known(b.Along.Pct, rows)}, {"along_most_pct", Known(b.Along.MostPct, rows)},
		{"along_from_mm", Known(b.Along.From, rows)}, {"along_to_mm", Known(b.Along.To, rows)},
		{"across_pct", Known(b.Across.Pct, rows)}, {"across_most_pct", Known(b.Across.MostPct, rows)},
		{"across_from_mm", Known(b.Across.From, rows)}, {"across_to_mm", Known(b.Across.To, rows)},
		{"row_level", b.RowLevel}, {"bow_mm", Known(b.BowMM, whole)}, {"zigzag_mm", Known(b.ZigzagMM, whole)},
	}
}

// barLine returns one bar line, its step where it has one.
func barLine(l movement.BarLine, steps bool) Object {
	return Object{
		{"second", l.Second}, {"line", l.Line}, {"cell_pct", Known(l.CellPct, l.Known)}, {"cell_pm_pct", Known(l.CellPM, l.Known)},
		{"least_pct", Known(l.LeastPct, l.Known)}, {"most_pct", Known(l.MostPct, l.Known)}, {"season", Known(l.Season, l.Known)},
		{"step_um", Known(l.StepUM, steps)}, {"slope_deg", l.SlopeDeg}, {"level", l.Level}, {"settled", l.Settled}, {"borderline", l.Borderline},
	}
}

// BoardOf returns the size of the board that products lie on, null where that is the panel.
func BoardOf(b *movement.Board) any {
	if b == nil {
		return nil
	}
	size := b.Up().Size
	return Object{{"length_mm", size.Length}, {"width_mm", size.Width}, {"thickness_mm", size.Thickness}}
}

// Cuts returns where the near side of each bar meets edge A.
func Cuts(b *movement.Board) []Object {
	all := []Object{}
	for n, g := range ups(b) {
		for i, from := range g.Cuts() {
			all = append(all, Object{{"second", n + 1}, {"bar", i + 1}, {"from_mm", from}})
		}
	}
	return all
}

// Cells returns the cells of a board.
func Cells(b *movement.Board) []Object {
	if b == nil {
		return []Object{}
	}
	return Each(b.Up().Cells, func(c second.Cell) Object {
		points := make([][2]float64, len(c.Points))
		for i, p := range c.Points {
			points[i] = [2]float64{p.X.MM(), p.Y.MM()}
		}
		return Object{{"strip", c.Strip}, {"bars", c.Bars[:len(b.Ups)]}, {"up", c.Up}, {"points_mm", points}}
	})
}

// SecondWork returns what second glue-ups take.
func SecondWork(all []work.SecondFigures) []Object {
	return Each(all, func(f work.SecondFigures) Object {
		return Object{{"joints", f.Joints}, {"area_m2", f.AreaM2}, {"grams", f.Grams}, {"minutes", f.Minutes}, {"stages", f.Stages}, {"clamps", f.Clamps}}
	})
}

// Needs returns what a board of a wanted size takes, null where nobody asked or the pattern
// has not one second glue-up.
func Needs(p pattern.Pattern, want second.Size, bars int, takes second.Takes) any {
	n, ok := second.For(p, want, bars, takes)
	if !ok || want.Length == 0 {
		return nil
	}
	widths := make([]float64, len(n.Widths))
	for i, w := range n.Widths {
		widths[i] = w.MM()
	}
	return Object{
		{"bars", n.Bars}, {"bar_mm", n.Bar}, {"thickness_mm", n.Panel.Thickness}, {"strip_widths_mm", widths}, {"width_mm", n.Panel.Width},
		{"length_mm", n.Panel.Length}, {"over_length_mm", n.OverLength}, {"over_width_mm", n.OverWidth},
	}
}
