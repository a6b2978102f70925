// Package check tells a maker what to know of a pattern before any glue is opened:
// one list of rules, each giving findings, with remedies that are computed.
//
// A finding informs and never forbids. Its level is fine, take care or too much;
// the words of caution come from the trade's tables and defer to manuals, local rules
// and licensed practice. Texts are plain sentences without control codes; lengths in
// them are in the unit asked for, strips and glue lines count from 1.
package check

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/relief"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
)

// A Finding is one thing that a maker is told.
type Finding struct {
	Rule     string // which rule found it: an ID of Rules
	Level    pattern.Level
	Where    Place
	Message  string
	remedies *deferred // nil: there are none
	figures  *figures  // of a glue line's two strips; nil: it is about something else
}

// Remedies returns what was tried and helps, the best first. They are looked for when they
// are asked for first, since that takes far longer than all else and a panel of thousands
// has thousands of findings; what is found does not depend on when, nor on what was asked
// before. It may be asked for by several goroutines.
func (f Finding) Remedies() []Remedy {
	if f.remedies == nil {
		return nil
	}
	return f.remedies.get()
}

// Remedy returns the text of the best remedy, or nothing where there is none.
func (f Finding) Remedy() string {
	all := f.Remedies()
	if len(all) == 0 {
		return ""
	}
	return all[0].Text
}

// A Place says what a finding is about. The zero value is the panel.
type Place struct {
	Strip int // from 1; 0: no strip
	Line  int // from 1; 0: no glue line

	Second  int // second glue-up, from 1; 0: none
	BarLine int // of it, from 1; 0: all of it
}

// String returns panel, strip 4, line 3, second 1 or second 1 line 3.
func (p Place) String() string {
	switch {
	case p.BarLine > 0:
		return fmt.Sprintf("second %d line %d", p.Second, p.BarLine)
	case p.Second > 0:
		return fmt.Sprintf("second %d", p.Second)
	case p.Line > 0:
		return fmt.Sprintf("line %d", p.Line)
	case p.Strip > 0:
		return fmt.Sprintf("strip %d", p.Strip)
	default:
		return "panel"
	}
}

// Between returns panel, strip 4 or, of glue line 3, the strips it lies between: 3|4. Of
// bar line 3 it is the bars.
func (p Place) Between() string {
	if p.BarLine > 0 {
		return fmt.Sprintf("glue-up %d, bars %d|%d", p.Second, p.BarLine, p.BarLine+1)
	}
	if p.Second > 0 {
		return fmt.Sprintf("second glue-up %d", p.Second)
	}
	if p.Line > 0 {
		return fmt.Sprintf("%d|%d", p.Line, p.Line+1)
	}
	return p.String()
}

// A Report is all that is known of a pattern.
type Report struct {
	Figures  movement.Figures
	Findings []Finding // in the order of the rules, then from left to right; of end grain, the first to look at
	Groups   []Group   // the findings as people read them, the gravest first
	Level    pattern.Level
}

// At lists the findings about glue line n, from 1.
func (r Report) At(n int) []Finding {
	var out []Finding
	for _, f := range r.Findings {
		if n > 0 && f.Where.Line == n {
			out = append(out, f)
		}
	}
	return out
}

// Allowances returns the allowances of s that hand moves need.
func Allowances(s shop.Shop) edit.Allowances {
	return edit.Allowances{
		Jointing: s.Allowance.Jointing, Flattening: s.Allowance.Flattening,
		Rip: s.Kerf.Rip, Length: s.Allowance.Length, Takes: s.Takes(),
	}
}

// Of checks p with the timbers and the workshop of r; lengths in the texts are in u.
// A draft has no findings.
func Of(r movement.Physics, p pattern.Pattern, u length.Unit) Report {
	report, late := Soon(r, p, u)
	if late != nil {
		report = late(context.Background())
	}
	return report
}

// Soon checks p as Of does, within what a key may take. Where that leaves something out, late
// makes the report whole, beside the screen; it ends soon after its context does, and leaves
// that out then.
func Soon(r movement.Physics, p pattern.Pattern, u length.Unit) (report Report, late func(context.Context) Report) {
	panel := r.Panel(p)
	report.Figures = panel.Figures()
	if len(p.Strips) == 0 {
		return report, nil
	}
	b := newBoard(r, p, u, panel, report.Figures)
	found := make([][]Finding, len(Rules()))
	var leftOut []int
	for i, rule := range Rules() {
		b.left = false
		if found[i] = rule.find(b); b.left {
			leftOut = append(leftOut, i)
		}
	}
	if leftOut != nil {
		late = func(ctx context.Context) Report {
			b.beside = ctx
			for _, i := range leftOut {
				found[i] = Rules()[i].find(b)
			}
			return report.with(b, found)
		}
	}
	return report.with(b, found), late
}

// with returns the report with what was found, by rule.
func (r Report) with(b *board, found [][]Finding) Report {
	r.Findings, r.Level = nil, pattern.Fine
	for i, rule := range Rules() {
		for _, f := range found[i] {
			f.Rule = rule.ID
			r.Findings = append(r.Findings, f)
			r.Level = max(r.Level, f.Level)
		}
	}
	r.Groups = b.groups(r.Findings)
	return r
}

// A board is what the rules look at: a pattern with at least one strip.
type board struct {
	physics movement.Physics
	shop    shop.Shop
	pattern pattern.Pattern
	unit    length.Unit
	figures movement.Figures
	allow   edit.Allowances
	timbers []timber            // in the order of figures.Timber
	of      []int               // by strip from 0: its place in timbers
	section func() relief.Panel // as it stands in a season, worked out once

	// What takes too long for a key is left out, and found when it may be looked for beside
	// the screen.
	beside context.Context // nil: a key waits
	left   bool            // a rule left something out

	// Remedies are tried on the panel, one at a time and when they are asked for.
	mu     sync.Mutex
	panel  *movement.Panel
	trials *trials // nil: none was asked for yet
}

// A timber is one species of the pattern. One that the table lacks goes by its key,
// and nothing is known of it.
type timber struct {
	species.Species
	known bool
}

func newBoard(r movement.Physics, p pattern.Pattern, u length.Unit, panel *movement.Panel, f movement.Figures) *board {
	p.Strips = slices.Clone(p.Strips) // remedies may be asked for when p is no more
	b := &board{physics: r, shop: r.Shop(), pattern: p, unit: u, figures: f, panel: panel}
	b.allow = Allowances(b.shop)
	b.section = sync.OnceValue(func() relief.Panel { return relief.Of(r, b.pattern, relief.Wetter{}) })
	at := make(map[string]int, len(f.Timber))
	for i, t := range f.Timber {
		at[t.Species] = i
		s, known := r.Table().Get(t.Species)
		if !known {
			s.Key, s.Name = t.Species, t.Species
		}
		b.timbers = append(b.timbers, timber{s, known})
	}
	b.of = make([]int, len(p.Strips))
	for i, s := range p.Strips {
		b.of[i] = at[s.Species]
	}
	return b
}

// timber returns that of strip i, from 0.
func (b *board) timber(i int) *timber { return &b.timbers[b.of[i]] }

// between names the two timbers of glue line n.
func (b *board) between(n int) string { return b.timber(n-1).Name + " and " + b.timber(n).Name }

// moisture returns that of strip i, from 0, at glue-up.
func (b *board) moisture(i int) float64 { return b.physics.Moisture(b.pattern, b.pattern.Strips[i]) }

// end returns how far the far end of s lies from the datum end.
func (b *board) end(s pattern.Strip) length.Length {
	return s.Start + b.pattern.StripLength(s, b.allow.Length)
}

// with prints a length with its unit. What is too small to print is still not 0.
func (b *board) with(l length.Length) string {
	if l != 0 && l.Format(b.unit) == "0" {
		least := length.Millimetre / 10
		if b.unit == length.InInches {
			least = length.Inch / 64
		}
		return "less than " + least.With(b.unit)
	}
	return l.With(b.unit)
}
