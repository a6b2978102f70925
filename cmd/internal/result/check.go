package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/movement"
)

// Check returns the JSON of a report. Figures of which something is missing are null.
func Check(stem string, p pattern.Pattern, r check.Report) Object {
	f := r.Figures
	return Object{
		{"format", "oddments/check 1"}, {"pattern", stem}, {"name", p.Name}, {"strips", len(p.Strips)},
		{"length_mm", p.Panel.Length}, {"thickness_mm", p.Panel.Thickness}, {"glue_up_width_mm", f.Width}, {"level", r.Level},
		{"seasons", Each(f.Seasons, func(s movement.SeasonFigures) Object {
			return Object{{"name", s.Season}, {"temperature_c", s.Air.TemperatureC}, {"humidity_pct", s.Air.HumidityPct},
				{"emc_pct", s.EquilibriumPct}, {"width_change_mm", Known(s.WidthChangeMM, s.Known)}}
		})},
		{"glue_lines", Each(f.Lines, glueLine)},
		{"look_first", Each(f.Look, func(l movement.Look) Object { return Object{{"strip", l.Strip}, {"lines", l.Lines}} })},
		{"colours", colours(f.Colours)},
		{"timber", Each(f.Timber, func(t movement.Timber) Object {
			return Object{{"species", t.Species}, {"strips", t.Strips}, {"width_mm", t.Width},
				{"finished_cm3", t.FinishedCM3}, {"rough_cm3", t.RoughCM3}, {"mass_kg", Known(t.MassKg, t.MassKnown)}}
		})},
		{"findings", Each(r.Findings, func(g check.Finding) Object {
			return Object{{"rule", g.Rule}, {"level", g.Level}, {"where", g.Where}, {"message", g.Message}, {"remedy", g.Remedy()}}
		})},
	}
}

// colours returns the colour of each strip, and whether it is its own.
func colours(list []movement.Colour) []Object {
	out := make([]Object, len(list))
	for i, c := range list {
		from := "timber"
		if c.Own {
			from = "strip"
		}
		out[i] = Object{{"strip", i + 1}, {"colour", c.RGB}, {"from", from}}
	}
	return out
}

func glueLine(l movement.Line) Object {
	return Object{
		{"line", l.Line},
		{"strain_pct", Known(l.StrainPct, l.Known)}, {"strain_pm_pct", Known(l.StrainPM, l.Known)},
		{"step_um", Known(l.StepUM, l.Known)}, {"step_pm_um", Known(l.StepPM, l.Known)},
		{"least_um", Known(l.LeastUM, l.Known)}, {"most_um", Known(l.MostUM, l.Known)}, {"season", Known(l.Season, l.Known)},
		{"moisture_gap_pct", l.GapPct}, {"contrast", l.Contrast}, {"level", l.Level}, {"settled", l.Settled}, {"borderline", l.Borderline},
	}
}
