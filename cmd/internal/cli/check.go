package cli

import (
	"context"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
)

func (a *app) checkCommand() *cobra.Command {
	return a.command("check", task{json: true, takes: somePatterns(""), complete: a.completePattern,
		errand: func(_ context.Context, w workshop, args []string) error { return w.check(args) }})
}

func (w workshop) check(args []string) error {
	all, err := w.openAll(args, "name each once; two files of one name are checked one after the other")
	if err != nil {
		return err
	}
	printed := 0
	for _, one := range all {
		if one.Err != nil {
			w.report(one.Err)
			continue
		}
		if printed > 0 {
			w.say("")
		}
		w.printCheck(one.Saved)
		printed++
	}
	return nil
}

// printCheck prints what is known of a pattern and keeps the exit for it.
func (w workshop) printCheck(saved store.Saved) {
	if w.asJSON {
		w.unit = length.InMM
	}
	report := check.Of(w.physics(), saved.Pattern, w.unit)
	if report.Level == pattern.TooMuch {
		w.worsen(exitMuch)
	}
	if w.asJSON {
		w.json(checkJSON(saved, report))
		return
	}
	checkText{w, saved, report}.print()
}

// checkJSON returns the JSON of a report. Figures of which something is missing are null.
func checkJSON(saved store.Saved, r check.Report) result.Object {
	p, f := saved.Pattern, r.Figures
	return result.Object{
		{"format", "oddments/check 1"}, {"pattern", saved.Stem}, {"name", p.Name}, {"strips", len(p.Strips)},
		{"length_mm", p.Panel.Length}, {"thickness_mm", p.Panel.Thickness}, {"glue_up_width_mm", f.Width}, {"level", r.Level},
		{"seasons", result.Each(f.Seasons, func(s movement.SeasonFigures) result.Object {
			return result.Object{{"name", s.Season}, {"temperature_c", s.Air.TemperatureC}, {"humidity_pct", s.Air.HumidityPct},
				{"emc_pct", s.EquilibriumPct}, {"width_change_mm", result.Known(s.WidthChangeMM, s.Known)}}
		})},
		{"glue_lines", result.Each(f.Lines, lineJSON)},
		{"look_first", result.Each(f.Look, func(l movement.Look) result.Object { return result.Object{{"strip", l.Strip}, {"lines", l.Lines}} })},
		{"timber", result.Each(f.Timber, func(t movement.Timber) result.Object {
			return result.Object{{"species", t.Species}, {"strips", t.Strips}, {"width_mm", t.Width},
				{"finished_cm3", t.FinishedCM3}, {"rough_cm3", t.RoughCM3}, {"mass_kg", result.Known(t.MassKg, t.MassKnown)}}
		})},
		{"findings", result.Each(r.Findings, func(g check.Finding) result.Object {
			return result.Object{{"rule", g.Rule}, {"level", g.Level}, {"where", g.Where}, {"message", g.Message}, {"remedy", g.Remedy()}}
		})},
	}
}

func lineJSON(l movement.Line) result.Object {
	return result.Object{
		{"line", l.Line},
		{"strain_pct", result.Known(l.StrainPct, l.Known)}, {"strain_pm_pct", result.Known(l.StrainPM, l.Known)},
		{"step_um", result.Known(l.StepUM, l.Known)}, {"step_pm_um", result.Known(l.StepPM, l.Known)},
		{"least_um", result.Known(l.LeastUM, l.Known)}, {"most_um", result.Known(l.MostUM, l.Known)}, {"season", result.Known(l.Season, l.Known)},
		{"moisture_gap_pct", l.GapPct}, {"contrast", l.Contrast}, {"level", l.Level}, {"settled", l.Settled}, {"borderline", l.Borderline},
	}
}
