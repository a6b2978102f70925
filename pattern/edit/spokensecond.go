package edit

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

// ExampleAgain is a second glue-up as it is typed.
const ExampleAgain = "end 41 x16 chequer"

// ParseAgain reads a second glue-up as it is spoken: "end 41 x16 chequer" is one more,
// "1 shift 0 half trim 2" changes the first, "1 out" takes it away. Numbers without a unit
// are in u.
func ParseAgain(text string, u length.Unit) (Again, error) {
	w := &againWords{Line: spoken.Line{Text: text, Unit: u, Times: true}}
	a := Again{Begin: pattern.Second{Angle: pattern.Square}}
	word := w.Next()
	lay, err := pattern.ParseLay(word)
	if n, ok := spoken.Whole(word); ok && n > 0 {
		a.Number = n
	} else if err != nil {
		return a, fmt.Errorf("%q: must be end or flat for one more, or the number of one, like %q or %q", word, ExampleAgain, "1 shift 0 half")
	} else {
		a.Begin.Lay = lay
		if a.Begin.Bar, err = w.length("bar"); err != nil {
			return a, err
		}
	}
	if a.Number > 0 && w.Skip("out") {
		a.Out = true
		if w.More() {
			return a, fmt.Errorf("%q is left over behind out", w.Rest())
		}
		return a, nil
	}
	for w.More() {
		step, err := w.step()
		if err != nil {
			return a, err
		}
		a.steps = append(a.steps, step)
	}
	if a.Number > 0 && len(a.steps) == 0 {
		return a, fmt.Errorf("write what changes in glue-up %d: %s", a.Number, againHelp)
	}
	return a, nil
}

const againHelp = "end, flat, bar 41, x16, at 45, turn, over, shift 0 half, trim 2, moisture 8, chequer or out"

// againWords are the words of a glue-up that are still to be read.
type againWords struct{ spoken.Line }

func (w *againWords) length(what string) (length.Length, error) {
	if !w.More() {
		return 0, fmt.Errorf("the %s is missing", what)
	}
	return w.Length()
}

// count takes a whole number from 1 where one follows.
func (w *againWords) count() (int, bool) {
	before := w.At
	if w.More() && w.AtNumber() {
		if n, ok := spoken.Whole(w.Next()); ok && n > 0 {
			return n, true
		}
	}
	w.At = before
	return 0, false
}

// step takes one change.
func (w *againWords) step() (again, error) {
	if w.SkipTimes() {
		return w.bars()
	}
	word := w.Next()
	if slices.Contains(Arrangements(), word) {
		return arrange(word), nil
	}
	switch word {
	case "end", "flat":
		lay, err := pattern.ParseLay(word)
		return func(g *pattern.Second, _ pattern.Pattern) error { g.Lay = lay; return nil }, err
	case "bar":
		bar, err := w.length("bar")
		return func(g *pattern.Second, _ pattern.Pattern) error { g.Bar = bar; return nil }, err
	case "bars":
		return w.bars()
	case "at":
		degrees, err := spoken.Decimal(w.Next())
		if err != nil {
			return nil, fmt.Errorf("at: must be followed by an angle in degrees, like at 45")
		}
		return func(g *pattern.Second, _ pattern.Pattern) error { g.Angle = degrees; return nil }, nil
	case "turn":
		return w.turn(func(g *pattern.Second) *[]bool { return &g.Turned })
	case "over":
		return w.turn(func(g *pattern.Second) *[]bool { return &g.Over })
	case "shift":
		return w.shift()
	case "trim":
		trim, err := w.length("trim")
		return func(g *pattern.Second, _ pattern.Pattern) error { g.Trim = trim; return nil }, err
	case "moisture":
		text := strings.TrimSuffix(w.Next(), "%")
		percent, err := spoken.Decimal(text)
		if err != nil && text != "none" {
			return nil, fmt.Errorf("moisture %q: must be a percent, like 8.2, or none", text)
		}
		return func(g *pattern.Second, _ pattern.Pattern) error {
			g.Moisture = pattern.Reading{Percent: percent, Known: text != "none"}
			return nil
		}, nil
	default:
		return nil, fmt.Errorf("%q: must be %s", word, againHelp)
	}
}

// bars takes how many there are, or all.
func (w *againWords) bars() (again, error) {
	n, ok := w.count()
	if !ok && !w.Skip("all") {
		return nil, fmt.Errorf("bars: must be followed by how many, or all")
	}
	return func(g *pattern.Second, _ pattern.Pattern) error { g.Bars = n; return nil }, nil
}

// turn takes which bars: every other one, one by its number, or none.
func (w *againWords) turn(of func(*pattern.Second) *[]bool) (again, error) {
	n, one := w.count()
	none := !one && w.Skip("none")
	return func(g *pattern.Second, _ pattern.Pattern) error {
		switch {
		case none:
			*of(g) = nil
		case one && n > pattern.MaxBars:
			return refuse("bar %d: must be 1 to %d", n, pattern.MaxBars)
		case one:
			thisBar(of(g), n, g.Bars, func(b bool) bool { return !b })
		default:
			everyOther(of(g))
		}
		return nil
	}, nil
}

// shift takes a list that goes bar by bar, or bar N and how far.
func (w *againWords) shift() (again, error) {
	if w.Skip("bar") {
		n, ok := w.count()
		if !ok || n > pattern.MaxBars {
			return nil, fmt.Errorf("shift bar: must be followed by its number and how far, like shift bar 3 12")
		}
		to, ok, err := w.oneShift()
		if err != nil || !ok {
			return nil, fmt.Errorf("shift bar %d: must be followed by half, strip or a length", n)
		}
		return func(g *pattern.Second, _ pattern.Pattern) error {
			thisBar(&g.Shift, n, g.Bars, func(pattern.Shift) pattern.Shift { return to })
			return nil
		}, nil
	}
	var all []pattern.Shift
	for {
		one, ok, err := w.oneShift()
		if err != nil {
			return nil, err
		}
		if !ok {
			break
		}
		all = append(all, one)
	}
	if len(all) == 0 && !w.Skip("none") {
		all = []pattern.Shift{{}, {Step: pattern.ShiftHalf}}
	}
	return func(g *pattern.Second, _ pattern.Pattern) error { g.Shift = all; return nil }, nil
}

// oneShift takes one entry of the list, where one follows.
func (w *againWords) oneShift() (pattern.Shift, bool, error) {
	switch {
	case w.Skip("half"):
		return pattern.Shift{Step: pattern.ShiftHalf}, true, nil
	case w.Skip("strip"):
		return pattern.Shift{Step: pattern.ShiftStrip}, true, nil
	case w.More() && w.AtNumber():
		by, err := w.Length()
		if err == nil && by > pattern.MaxShift {
			err = fmt.Errorf("shift %s: must be half, strip or 0 to %s", by, length.Length(pattern.MaxShift))
		}
		return pattern.Shift{By: by}, true, err
	}
	return pattern.Shift{}, false, nil
}

// ParseBoardSize reads a board of a size: "400 x 300 x 38 x16", the bars at last. Numbers
// without a unit are in u.
func ParseBoardSize(text string, u length.Unit) (BoardSize, error) {
	w := &againWords{Line: spoken.Line{Text: text, Unit: u, Times: true}}
	var b BoardSize
	sizes := []spoken.Size{{What: "length", Into: &b.Size.Length}, {What: "width", Into: &b.Size.Width}, {What: "thickness", Into: &b.Size.Thickness}}
	for i := range sizes {
		w.SkipTimes()
		if sizes[i].Text = w.LengthText(); sizes[i].Text == "" {
			return b, fmt.Errorf("the %s is missing: write it like %q", sizes[i].What, "400 x 300 x 38 x16")
		}
	}
	if err := w.Together(sizes); err != nil {
		return b, err
	}
	for i, most := range []length.Length{pattern.MaxLength, pattern.MaxAcross, pattern.MaxAcross} {
		if l := *sizes[i].Into; l <= 0 || l > most {
			return b, fmt.Errorf("%s %s: must be above 0, up to %s", sizes[i].What, l, most)
		}
	}
	if w.SkipTimes() || w.Skip("bars") {
		n, ok := w.count()
		if !ok || n > pattern.MaxBars {
			return b, fmt.Errorf("bars: must be a whole number from 1 to %d", pattern.MaxBars)
		}
		b.Bars = n
	}
	if w.More() {
		return b, fmt.Errorf("%q is left over: write it like %q", w.Rest(), "400 x 300 x 38 x16")
	}
	return b, nil
}
