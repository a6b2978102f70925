package cli

import (
	"fmt"
	"io"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
)

// checkText prints a report in plain words, one fact a line.
type checkText struct {
	out      io.Writer
	workshop workshop
	saved    store.Saved
	report   check.Report
	unit     length.Unit
}

func (t checkText) print() {
	t.panel()
	if len(t.saved.Pattern.Strips) > 0 {
		t.seasons()
		for _, l := range t.report.Figures.Lines {
			t.line(l)
		}
		t.lookFirst()
		t.timber()
		t.say("movement along the grain is left out; boards of one timber differ by some 15 %%, so every figure is an estimate")
		t.findings()
	}
	t.say("level: %s", t.report.Level)
}

// say prints a fact. Text of a file is free of control characters once it was read;
// visible is there for the others that do not print.
func (t checkText) say(format string, args ...any) {
	fmt.Fprintln(t.out, visible(fmt.Sprintf(format, args...)))
}

func (t checkText) with(l length.Length) string { return l.With(t.unit) }

func (t checkText) panel() {
	p := t.saved.Pattern
	name := ""
	if p.Name != t.saved.Stem {
		name = ", " + p.Name
	}
	t.say("pattern: %s%s", t.saved.Stem, name)
	t.say("length: %s finished", t.with(p.Panel.Length))
	thick := p.Panel.Thickness
	if p.Panel.Make == pattern.MakeEdge {
		t.say("thickness: %s ripped, %s finished; the strips are made on edge", t.with(t.workshop.shop.Glued(thick)), t.with(thick))
	} else {
		t.say("thickness: %s sawn, %s planed, %s finished", t.with(t.workshop.shop.Sawn(thick)), t.with(t.workshop.shop.Glued(thick)), t.with(thick))
	}
	if len(p.Strips) == 0 {
		t.say("strips: none yet, a draft")
		return
	}
	t.say("strips: %d", len(p.Strips))
	t.say("glue-up width: %s%s", t.with(t.report.Figures.Width), t.against(t.report.Figures.Width, p.Panel.Width))
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
		width := "no figure for the width"
		if s.Known {
			width = "width " + t.signed(s.WidthChangeMM)
		}
		t.say("%s season: %g °C, %g %% humidity, wood settles at %.1f %%, %s",
			s.Season, s.Air.TemperatureC, s.Air.HumidityPct, s.EquilibriumPct, width)
	}
}

func (t checkText) signed(mm float64) string { return length.Change(mm, t.unit) }

func (t checkText) line(l movement.Line) {
	strips := t.saved.Pattern.Strips
	var b strings.Builder
	fmt.Fprintf(&b, "line %d, strips %d and %d, %s and %s: ", l.Line, l.Line, l.Line+1,
		t.name(strips[l.Line-1].Species), t.name(strips[l.Line].Species))
	moves, gap := t.workshop.physics().Levels(l.StepUM, l.StrainPct, l.GapPct)
	b.WriteString(l.Moves(t.unit))
	if l.Known {
		fmt.Fprintf(&b, ", %s", moves)
	}
	if !l.Settled {
		b.WriteString(" ?, not settled by rings that nobody has looked at")
	}
	if l.LeastUM != l.MostUM {
		fmt.Fprintf(&b, ", by the rings the step is %s to %s", length.StepValue(l.LeastUM, t.unit), length.Step(l.MostUM, 0, t.unit))
	}
	if l.Borderline {
		b.WriteString(", borderline")
	}
	fmt.Fprintf(&b, "; moisture gap %.1f points, %s; contrast about %.0f", l.GapPct, gap, l.Contrast)
	t.say("%s", b.String())
}

// name returns the name of a timber; the reader has let no unknown one in.
func (t checkText) name(key string) string {
	s, _ := t.workshop.table.Get(key)
	return s.Name
}

func (t checkText) lookFirst() {
	for _, l := range t.report.Figures.Look {
		t.say("%v", l)
	}
}

func (t checkText) timber() {
	for _, u := range t.report.Figures.Timber {
		mass := "no figure for the mass"
		if u.MassKnown {
			mass = "about " + length.Mass(u.MassKg, t.unit)
		}
		t.say("timber %s: %s, %s wide together, %s finished, %s, about %s rough",
			t.name(u.Species), tell.Count(u.Strips, "strip"), t.with(u.Width), t.volume(u.FinishedCM3), mass, t.volume(u.RoughCM3))
	}
}

// volume returns a volume of timber: what goes into one panel is little in dm3.
func (t checkText) volume(cm3 float64) string {
	if t.unit == length.InInches {
		return length.Volume(cm3, t.unit)
	}
	return fmt.Sprintf("%.0f cm3", cm3)
}

func (t checkText) findings() {
	if len(t.report.Findings) == 0 {
		t.say("findings: none")
	}
	for _, f := range t.report.Findings {
		t.say("finding, %s, %s: %s", f.Level, f.Where, f.Message)
		if remedy := f.Remedy(); remedy != "" {
			t.say("remedy, %s: %s", f.Where, remedy)
		}
	}
}
