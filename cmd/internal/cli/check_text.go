package cli

import (
	"fmt"
	"strconv"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
)

// checkText prints a report in plain words, one fact a row.
type checkText struct {
	workshop
	saved  store.Saved
	report check.Report
}

func (t checkText) print() {
	t.panel()
	if len(t.saved.Pattern.Strips) > 0 {
		t.seasons()
		for _, l := range t.report.Figures.Lines {
			t.line(l)
		}
		for _, l := range t.report.Figures.Look {
			t.Say("%v", l)
		}
		t.SayBoard(t.report.Figures.Board)
		t.timber()
		t.Say("movement along the grain is left out; boards of one timber differ by some 15 %%, so every figure is an estimate")
		t.findings()
	}
	t.Row(rows.Form{{}, {"", ": "}}, t.report.Level, "level", t.report.Level.String())
}

func (t checkText) with(l length.Length) string { return l.With(t.Unit) }

func (t checkText) panel() {
	p := t.saved.Pattern
	t.SayPattern(t.saved)
	t.Fact("length", "%s finished", t.with(p.Panel.Length))
	thick := p.Panel.Thickness
	if p.Panel.Make == pattern.MakeEdge {
		t.Fact("thickness", "%s ripped, %s finished; the strips are made on edge", t.with(t.Shop.Glued(thick)), t.with(thick))
	} else {
		t.Fact("thickness", "%s sawn, %s planed, %s finished", t.with(t.Shop.Sawn(thick)), t.with(t.Shop.Glued(thick)), t.with(thick))
	}
	if len(p.Strips) == 0 {
		t.Fact("strips", "none yet, a draft")
		return
	}
	t.Fact("strips", "%d", len(p.Strips))
	t.Fact("glue-up width", "%s%s", t.with(t.report.Figures.Width), t.against(t.report.Figures.Width, p.Panel.Width))
}

// against compares the width with the wanted one.
func (t checkText) against(now, wanted length.Length) string {
	switch {
	case wanted == 0:
		return ""
	case now == wanted:
		return ", as you want"
	case now > wanted:
		return fmt.Sprintf(", %s over the %s you want", t.with(now-wanted), t.with(wanted))
	default:
		return fmt.Sprintf(", %s short of the %s you want", t.with(wanted-now), t.with(wanted))
	}
}

func (t checkText) seasons() {
	for _, s := range t.report.Figures.Seasons {
		width := command.Or(s.Known, "width "+length.Change(s.WidthChangeMM, t.Unit), "no figure for the width")
		if t.report.Figures.Board != nil {
			width = command.Or(s.Known, "board length "+length.Change(s.LengthChangeMM, t.Unit)+", width "+length.Change(s.WidthChangeMM, t.Unit), "no figure for the board")
		}
		t.Fact(s.Season.String()+" season", "%g °C, %g %% humidity, wood settles at %.1f %%, %s",
			s.Air.TemperatureC, s.Air.HumidityPct, s.EquilibriumPct, width)
	}
}

func (t checkText) line(l movement.Line) {
	strips := t.saved.Pattern.Strips
	level, gap := t.Physics().Levels(l.StepUM, l.StrainPct, l.GapPct)
	grain := t.saved.Pattern.EndGrain()
	moves := l.Moves(grain, t.Unit) + command.Said(l.Known, ", "+level.String()) + command.Said(!l.Settled, " (not sure: rings not checked)") +
		command.Said(l.LeastUM != l.MostUM && !grain, "; the step may be "+length.StepValue(l.LeastUM, t.Unit)+" to "+length.Step(l.MostUM, 0, t.Unit)) +
		command.Said(l.Borderline, ", close to the limit")
	t.Row(rows.Form{{"line", "line "}, {"strips", ", strips "}, {"timbers", ", "}, {"moves", ": "},
		{"moisture", "; moisture "}, {"contrast", "; contrast "}}, l.Level, strconv.Itoa(l.Line), fmt.Sprintf("%d and %d", l.Line, l.Line+1),
		t.Name(strips[l.Line-1].Species)+" and "+t.Name(strips[l.Line].Species), moves,
		fmt.Sprintf("%.1f points apart, %s", l.GapPct, gap), fmt.Sprintf("about %.0f", l.Contrast))
}

func (t checkText) timber() {
	for _, u := range t.report.Figures.Timber {
		mass := command.Or(u.MassKnown, "about "+length.Mass(u.MassKg, t.Unit), "no figure for the mass")
		t.Row(rows.Form{{"timber", "timber "}, {"strips", ": "}, {"width", ", ", " wide together"},
			{"finished", ", ", " finished"}, {"mass", ", "}, {"rough", ", ", " rough"}}, pattern.Fine,
			t.Name(u.Species), tell.Count(u.Strips, "strip"), t.with(u.Width),
			length.SmallVolume(u.FinishedCM3, t.Unit), mass, "about "+length.SmallVolume(u.RoughCM3, t.Unit))
	}
}

func (t checkText) findings() {
	if len(t.report.Findings) == 0 {
		t.Fact("findings", "none")
	}
	found := rows.Form{{}, {"level", ", "}, {"where", ", "}, {"what to know", ": "}}
	for _, g := range t.report.Groups {
		t.Row(found, g.Level, "finding", g.Level.Heading(), g.Places(), g.Says())
		for _, m := range g.Best() {
			t.Row(found, pattern.Fine, "remedy", "", g.Places(), m.Between())
		}
	}
}
