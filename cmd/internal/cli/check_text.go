package cli

import (
	"fmt"
	"strconv"

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
			t.say("%v", l)
		}
		t.timber()
		t.say("movement along the grain is left out; boards of one timber differ by some 15 %%, so every figure is an estimate")
		t.findings()
	}
	t.row(rows.Form{{}, {"", ": "}}, t.report.Level, "level", t.report.Level.String())
}

func (t checkText) with(l length.Length) string { return l.With(t.unit) }

func (t checkText) panel() {
	p := t.saved.Pattern
	t.sayPattern(t.saved)
	t.fact("length", "%s finished", t.with(p.Panel.Length))
	thick := p.Panel.Thickness
	if p.Panel.Make == pattern.MakeEdge {
		t.fact("thickness", "%s ripped, %s finished; the strips are made on edge", t.with(t.shop.Glued(thick)), t.with(thick))
	} else {
		t.fact("thickness", "%s sawn, %s planed, %s finished", t.with(t.shop.Sawn(thick)), t.with(t.shop.Glued(thick)), t.with(thick))
	}
	if len(p.Strips) == 0 {
		t.fact("strips", "none yet, a draft")
		return
	}
	t.fact("strips", "%d", len(p.Strips))
	t.fact("glue-up width", "%s%s", t.with(t.report.Figures.Width), t.against(t.report.Figures.Width, p.Panel.Width))
}

// against compares the width with the wanted one.
func (t checkText) against(now, wanted length.Length) string {
	switch {
	case wanted == 0:
		return ""
	case now == wanted:
		return ", as wanted"
	case now > wanted:
		return fmt.Sprintf(", wanted %s, %s to take off", t.with(wanted), t.with(now-wanted))
	default:
		return fmt.Sprintf(", wanted %s, %s short", t.with(wanted), t.with(wanted-now))
	}
}

func (t checkText) seasons() {
	for _, s := range t.report.Figures.Seasons {
		width := or(s.Known, "width "+length.Change(s.WidthChangeMM, t.unit), "no figure for the width")
		t.fact(s.Season.String()+" season", "%g °C, %g %% humidity, wood settles at %.1f %%, %s",
			s.Air.TemperatureC, s.Air.HumidityPct, s.EquilibriumPct, width)
	}
}

func (t checkText) line(l movement.Line) {
	strips := t.saved.Pattern.Strips
	level, gap := t.physics().Levels(l.StepUM, l.StrainPct, l.GapPct)
	moves := l.Moves(t.unit) + said(l.Known, ", "+level.String()) + said(!l.Settled, " ?, not settled by rings that nobody has looked at") +
		said(l.LeastUM != l.MostUM, ", by the rings the step is "+length.StepValue(l.LeastUM, t.unit)+" to "+length.Step(l.MostUM, 0, t.unit)) +
		said(l.Borderline, ", borderline")
	t.row(rows.Form{{"line", "line "}, {"strips", ", strips "}, {"timbers", ", "}, {"moves", ": "},
		{"moisture gap", "; moisture gap "}, {"contrast", "; contrast "}}, l.Level, strconv.Itoa(l.Line), fmt.Sprintf("%d and %d", l.Line, l.Line+1),
		t.name(strips[l.Line-1].Species)+" and "+t.name(strips[l.Line].Species), moves,
		fmt.Sprintf("%.1f points, %s", l.GapPct, gap), fmt.Sprintf("about %.0f", l.Contrast))
}

func (t checkText) timber() {
	for _, u := range t.report.Figures.Timber {
		mass := or(u.MassKnown, "about "+length.Mass(u.MassKg, t.unit), "no figure for the mass")
		t.row(rows.Form{{"timber", "timber "}, {"strips", ": "}, {"width", ", ", " wide together"},
			{"finished", ", ", " finished"}, {"mass", ", "}, {"rough", ", ", " rough"}}, pattern.Fine,
			t.name(u.Species), tell.Count(u.Strips, "strip"), t.with(u.Width),
			length.SmallVolume(u.FinishedCM3, t.unit), mass, "about "+length.SmallVolume(u.RoughCM3, t.unit))
	}
}

func (t checkText) findings() {
	if len(t.report.Findings) == 0 {
		t.fact("findings", "none")
	}
	found := rows.Form{{}, {"level", ", "}, {"where", ", "}, {"what to know", ": "}}
	for _, f := range t.report.Findings {
		t.row(found, f.Level, "finding", f.Level.Heading(), f.Where.String(), f.Message)
		if remedy := f.Remedy(); remedy != "" {
			t.row(found, pattern.Fine, "remedy", "", f.Where.String(), remedy)
		}
	}
}
