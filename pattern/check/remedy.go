package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/tell"
)

// A Kind is what a remedy does.
type Kind int

// The kinds of remedy.
const (
	Roll   Kind = iota // roll Strip a quarter turn
	Swap               // let Strip and Other change places
	Settle             // let Strip settle to the moisture of its neighbour
	Fill               // spread the missing or spare width
	Turn               // turn Strip end for end
	Again              // change a second glue-up
)

// String returns the kind in one word.
func (k Kind) String() string {
	switch k {
	case Roll:
		return "roll"
	case Swap:
		return "swap"
	case Settle:
		return "settle"
	case Fill:
		return "fill"
	case Turn:
		return "turn"
	case Again:
		return "again"
	default:
		return fmt.Sprintf("kind(%d)", int(k))
	}
}

// A Remedy is a change that was tried and found to help: it betters what its finding
// is about and brings no glue line of the panel to a higher level. A swap makes no
// neighbours read as one that did not before, and moves no strip to where it is too
// short. Rolling changes a strip's width, and so the glue-up width; the text says so.
type Remedy struct {
	Kind    Kind
	Strip   int             // from 1; 0 for Fill and Again
	Other   int             // Swap: the other strip, from 1
	Also    [][2]int        // where the look of the panel asks for it: more strips, and the others they change places with
	Reading pattern.Reading // Settle: what the strip settles to
	Again   edit.Again      // Again: what becomes of it
	Effects []Effect        // every glue line whose figures change, from left to right; none for Fill, Turn and Again
	Text    string

	does   string // what the words begin with
	brings []brought
}

// Between returns the remedy's text with each glue line named by the strips it lies
// between: 3|4 instead of line 3.
func (m Remedy) Between() string {
	if len(m.brings) == 0 {
		return m.Text
	}
	return m.words(Place.Between)
}

// A brought says what becomes of a glue line, in print.
type brought struct {
	line int // from 1
	change
}

// words joins what the remedy does and what it brings, each line by its name.
func (m Remedy) words(name func(Place) string) string {
	var out strings.Builder
	out.Grow(typicalText)
	out.WriteString(m.does)
	sign := ": "
	for _, b := range m.brings {
		out.WriteString(sign)
		b.write(&out, name(Place{Line: b.line}))
		sign = ", "
	}
	return out.String()
}

// Strips names the strips that the remedy is about: strips 2 and 10, or of a swap strips 2 and
// 3, and 10 and 9.
func (m Remedy) Strips() string {
	if m.Kind != Swap {
		numbers := []int{m.Strip}
		for _, also := range m.Also {
			numbers = append(numbers, also[0])
		}
		slices.Sort(numbers)
		if len(numbers) == 2 {
			return fmt.Sprintf("strips %d and %d", numbers[0], numbers[1])
		}
		return tell.Numbered("strip", numbers)
	}
	pairs := []string{}
	for _, p := range slices.Concat([][2]int{{m.Strip, m.Other}}, m.Also) {
		pairs = append(pairs, fmt.Sprintf("%d and %d", min(p[0], p[1]), max(p[0], p[1])))
	}
	return "strips " + strings.Join(pairs, ", and ")
}

// An Effect says what a remedy brings a glue line to. Before is what the line at that
// place is now, whichever strips will meet there. Of a line without figures for
// movement only the gap and the level by it count.
type Effect struct {
	Line          int // from 1
	Before, After movement.Figure
}

// Apply makes the remedy's change to s.
func (m Remedy) Apply(s edit.State, a edit.Allowances) (edit.State, error) {
	switch m.Kind {
	case Again:
		return edit.GlueAgain(s, m.Again)
	case Fill:
		return edit.Fill(s)
	}
	out := s
	for i := len(m.Also); i >= 0; i-- { // the strip that it is about last, which is chosen then
		strip, other := m.Strip, m.Other
		if i > 0 {
			strip, other = m.Also[i-1][0], m.Also[i-1][1]
		}
		next, err := edit.Select(out, strip-1)
		if err == nil {
			next, err = m.change(next, other, a)
		}
		if err != nil {
			return s, err
		}
		out = next
	}
	return out, nil
}

// change changes the chosen strip.
func (m Remedy) change(at edit.State, other int, a edit.Allowances) (edit.State, error) {
	switch m.Kind {
	case Roll:
		return edit.Roll(at, a)
	case Swap:
		return edit.Swap(at, other-1)
	case Settle:
		return edit.SetMoisture(at, m.Reading)
	case Turn:
		return edit.Turn(at, a)
	default:
		return at, fmt.Errorf("remedy %v: not known, cannot be applied", m.Kind)
	}
}

// A deferred is remedies that are looked for when they are asked for first.
type deferred struct {
	board *board
	find  func() []Remedy // nil: they are found
	found []Remedy
}

// later returns the remedies that find finds, once they are asked for.
func (b *board) later(find func() []Remedy) *deferred { return &deferred{board: b, find: find} }

// laterFor returns the remedies for a finding about line n, once they are asked for.
func (b *board) laterFor(n int, c cause) *deferred {
	return b.later(func() []Remedy { return b.remedies(n, c) })
}

func (d *deferred) get() []Remedy {
	d.board.mu.Lock()
	defer d.board.mu.Unlock()
	if d.find != nil {
		d.found, d.find = d.find(), nil
	}
	return d.found
}

// remedies returns the remedies for a finding about line n, the best first, with their
// texts.
func (b *board) remedies(n int, c cause) []Remedy {
	if b.trials == nil {
		b.trials = newTrials(b)
	}
	choices := b.trials.choices(n, c)
	out := make([]Remedy, len(choices))
	for i, chosen := range choices {
		out[i] = chosen.Remedy
		out[i].does, out[i].brings = b.does(chosen.Remedy), b.brings(chosen.Remedy, n, c)
		out[i].Text = out[i].words(Place.String)
	}
	return out
}

// typicalText is room for the words of a remedy, in bytes.
const typicalText = 128

// does says what a remedy does.
func (b *board) does(m Remedy) string {
	switch m.Kind {
	case Roll:
		return fmt.Sprintf("roll %s a quarter turn%s", m.Strips(), b.narrower(m.Strip-1))
	case Swap:
		return "swap " + m.Strips()
	case Settle:
		if m.Reading.Percent > b.moisture(m.Strip-1) {
			return fmt.Sprintf("bring %s up to %.1f %%", m.Strips(), m.Reading.Percent)
		}
		return fmt.Sprintf("dry %s to %.1f %%", m.Strips(), m.Reading.Percent)
	default:
		return m.Kind.String() // the others have words of their own
	}
}

// worthAWord is by how much of the limit to take care at the figure of a line must change
// for a remedy to tell of it, where its level stays and the remedy is for another line: what
// lies within three thicknesses of a change goes with it by a hair.
const worthAWord = 0.1

// brings says what a remedy for line n brings each figure to. A figure that stays in
// print, or as good as stays, is left out, but for that of line n.
func (b *board) brings(m Remedy, n int, c cause) []brought {
	out := make([]brought, 0, len(m.Effects))
	// Line n stands first: where the words are cut off, it is what they are about.
	for _, first := range [...]bool{true, false} {
		for _, e := range m.Effects {
			if (e.Line == n) != first {
				continue
			}
			by := c
			if !first {
				by = b.trials.worstCause(e.Before, e.After)
				if !b.tells(e, by) {
					continue
				}
			}
			if f := b.worse(e, by); first || f.before != f.after {
				out = append(out, brought{e.Line, f})
			}
		}
	}
	return out
}

// tells reports whether e, by cause c, is worth a word.
func (b *board) tells(e Effect, c cause) bool {
	return e.Before.Level != e.After.Level ||
		math.Abs(b.trials.severity(c, e.After)-b.trials.severity(c, e.Before)) >= worthAWord
}

// narrower says what rolling strip i, from 0, does to its width.
func (b *board) narrower(i int) string {
	now := b.pattern.Strips[i].Width
	rolled, _, err := edit.Rolled(b.pattern, i, b.allow)
	if err != nil || rolled.Width.Format(b.unit) == now.Format(b.unit) {
		return ""
	}
	return fmt.Sprintf(" (%s -> %s wide)", now.Format(b.unit), rolled.Width.With(b.unit))
}

// A change is one figure of a glue line before and after a remedy, in print.
type change struct {
	name, before, after, unit string
	level                     pattern.Level // of the line after, by the figures of that cause
}

// write writes line 2 strain 0.44 -> 0.12 %, with the name that the line has, and
// the level where it is still not fine.
func (f change) write(out *strings.Builder, line string) {
	for _, part := range [...]string{line, " ", f.name, f.before, " -> ", f.after, " ", f.unit} {
		out.WriteString(part)
	}
	if f.level > pattern.Fine {
		out.WriteString(" (" + f.level.String() + ")")
	}
}

// worse returns the worst figure of a line by one cause, before or after.
func (b *board) worse(e Effect, c cause) change {
	limits := b.shop.Limits
	x, y := e.Before, e.After
	f := change{level: b.trials.level(c, y)}
	step, strain := max(x.StepUM, y.StepUM)/limits.StepUM.Care, max(x.StrainPct, y.StrainPct)/limits.StrainPct.Care
	switch {
	case c == byMoisture:
		f.name, f.unit = "moisture ", "points apart"
		f.before, f.after = decimal(x.GapPct, 1), decimal(y.GapPct, 1)
	case strain > step:
		f.name, f.unit = "strain ", "%"
		f.before, f.after = decimal(x.StrainPct, 2), decimal(y.StrainPct, 2)
	default:
		f.name, f.unit = "step ", length.StepUnit(b.unit)
		f.before, f.after = length.StepValue(x.StepUM, b.unit), length.StepValue(y.StepUM, b.unit)
	}
	return f
}

func decimal(x float64, places int) string { return strconv.FormatFloat(x, 'f', places, 64) }
