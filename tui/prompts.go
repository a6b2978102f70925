package tui

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/overlay/ask"
)

// askFor shows a field for one value; what is read from it makes a hand move.
func askFor[T any](a App, title, text string, read func(string) (T, string, error), set func(edit.State, T) (edit.State, error)) (App, tea.Cmd) {
	return askIn(a, ask.New(title, text, func(s string) (any, string, error) { return read(s) }).Value(), set)
}

// askText is askFor about a text that is gone on with.
func askText[T any](a App, title, text string, read func(string) (T, string, error), set func(edit.State, T) (edit.State, error)) (App, tea.Cmd) {
	return askIn(a, ask.New(title, text, func(s string) (any, string, error) { return read(s) }), set)
}

// askIn shows a field whose value makes a hand move.
func askIn[T any](a App, field ask.Field, set func(edit.State, T) (edit.State, error)) (App, tea.Cmd) {
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		v, ok := value.(T)
		if !ok {
			return a.refuse("nothing was understood"), nil
		}
		return a.move(func(s edit.State) (edit.State, error) { return set(s, v) })
	}), nil
}

// onStrip is askFor about the chosen strip, named in the title.
func onStrip[T any](a App, what string, text func(pattern.Strip) string, read func(string) (T, string, error), set func(edit.State, T) (edit.State, error)) (App, tea.Cmd) {
	strip, ok := a.state().Strip()
	if !ok {
		return a.refuse("there is no strip yet: put one in first"), nil
	}
	title := fmt.Sprintf("%s of strip %d, %s", what, a.state().Selected+1, a.context().Name(strip.Species))
	return askFor(a, title, text(strip), read, set)
}

// typedLength gives a length as a field starts with it: as it is shown, where that
// reads back to the same, else exactly.
func (a App) typedLength(l length.Length) string {
	if l == 0 {
		return ""
	}
	text := l.Format(a.unit)
	if again, err := length.ParseIn(text, a.unit); err == nil && again == l {
		return text
	}
	return l.Exact()
}

// readLength reads a length in the maker's unit.
func (a App) readLength(s string) (length.Length, string, error) {
	l, err := length.ParseIn(s, a.unit)
	if err != nil {
		return 0, "", err
	}
	other := length.InInches - a.unit
	return l, l.With(a.unit) + ", that is " + l.With(other), nil
}

// lengthOr reads a length, or nothing, which means what instead says.
func (a App) lengthOr(instead string) func(string) (length.Length, string, error) {
	return func(s string) (length.Length, string, error) {
		if strings.TrimSpace(s) == "" {
			return 0, instead, nil
		}
		return a.readLength(s)
	}
}

// readingOr reads a moisture in percent, or nothing, which means what instead says.
func readingOr(instead string) func(string) (pattern.Reading, string, error) {
	return func(s string) (pattern.Reading, string, error) {
		text := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%"))
		if text == "" {
			return pattern.Reading{}, instead, nil
		}
		percent, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
		if err != nil || !(percent >= 0 && percent <= pattern.MaxMoisture) {
			return pattern.Reading{}, "", fmt.Errorf("moisture %q: must be 0 to %g percent", text, pattern.MaxMoisture)
		}
		return pattern.Read(percent), fmt.Sprintf("%g %%", percent), nil
	}
}

func typedReading(r pattern.Reading) string {
	if !r.Known {
		return ""
	}
	return strconv.FormatFloat(r.Percent, 'f', -1, 64)
}

func (a App) askWidth() (App, tea.Cmd) {
	return onStrip(a, "width", func(s pattern.Strip) string { return a.typedLength(s.Width) }, a.readLength, edit.SetWidth)
}

func (a App) askLength() (App, tea.Cmd) {
	return onStrip(a, "own length", func(s pattern.Strip) string { return a.typedLength(s.Length) },
		a.lengthOr("none of its own: as long as the panel"), edit.SetLength)
}

func (a App) askStart() (App, tea.Cmd) {
	return onStrip(a, "start, from the datum end,", func(s pattern.Strip) string { return a.typedLength(s.Start) },
		a.lengthOr("at the datum end"), edit.SetStart)
}

func (a App) askRings() (App, tea.Cmd) {
	read := func(s string) (pattern.Rings, string, error) {
		r, err := pattern.ParseRings(strings.TrimSpace(s))
		return r, r.String(), err
	}
	return onStrip(a, "rings (flat, rift, quarter, unknown or degrees)", func(s pattern.Strip) string { return s.Rings.String() },
		read, edit.SetRings)
}

func (a App) askMoisture() (App, tea.Cmd) {
	return onStrip(a, "moisture reading", func(s pattern.Strip) string { return typedReading(s.Moisture) },
		readingOr("no reading: as the panel"), edit.SetMoisture)
}

func (a App) askPanelLength() (App, tea.Cmd) {
	return askFor(a, "length of the finished panel", a.typedLength(a.state().Pattern.Panel.Length), a.readLength, edit.SetPanelLength)
}

func (a App) askThickness() (App, tea.Cmd) {
	return askFor(a, "thickness of the finished panel", a.typedLength(a.state().Pattern.Panel.Thickness), a.readLength, edit.SetThickness)
}

func (a App) askPanelWidth() (App, tea.Cmd) {
	return askFor(a, "wanted width of the finished panel", a.typedLength(a.state().Pattern.Panel.Width),
		a.lengthOr("no width wanted"), edit.SetPanelWidth)
}

// askAnotherWidth asks for the width of another order. Strip widths go by the step of
// the keys, and the tolerance is that of laying out.
func (a App) askAnotherWidth() (App, tea.Cmd) {
	return askFor(a, "glue-up width of the other order", "", a.readLength, func(s edit.State, width length.Length) (edit.State, error) {
		return edit.AnotherWidth(s, edit.Size{Width: width, Tolerance: suggest.DefaultTolerance, Step: widthStep().in(a.unit)})
	})
}

func (a App) askPanelMoisture() (App, tea.Cmd) {
	return askFor(a, "moisture at glue-up, for strips without a reading", typedReading(a.state().Pattern.Panel.Moisture),
		readingOr("that of the workshop's air"), edit.SetPanelMoisture)
}

func (a App) askFlattened() (App, tea.Cmd) {
	return askFor(a, "moisture when the panel is made flush", typedReading(a.state().Pattern.Panel.Flattened),
		readingOr("each strip's own at glue-up"), edit.SetFlattened)
}

func readText(s string) (string, string, error) { return strings.TrimSpace(s), "", nil }

func readName(s string) (string, string, error) {
	name := strings.TrimSpace(s)
	if name == "" {
		return "", "", errors.New("give the pattern a name")
	}
	return name, "", nil
}

func (a App) askName() (App, tea.Cmd) {
	return askText(a, "name of the pattern", a.state().Pattern.Name, readName, edit.SetName)
}

func (a App) askNotes() (App, tea.Cmd) {
	return askText(a, "notes on the pattern", a.state().Pattern.Notes, readText, edit.SetNotes)
}

// readNumber reads the number of a strip.
func (a App) readNumber(s string) (int, string, error) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	strips := a.state().Pattern.Strips
	if err != nil || n < 1 || n > len(strips) {
		return 0, "", fmt.Errorf("strip %q: must be a number from 1 to %d", strings.TrimSpace(s), len(strips))
	}
	return n, fmt.Sprintf("strip %d, %s", n, a.context().Name(strips[n-1].Species)), nil
}

func (a App) askNumber() (App, tea.Cmd) {
	return askFor(a, "choose strip number", "", a.readNumber, func(s edit.State, n int) (edit.State, error) { return edit.Select(s, n-1) })
}

func (a App) askCarry() (App, tea.Cmd) {
	return onStrip(a, "number of the place to carry it to, for", func(pattern.Strip) string { return "" }, a.readNumber,
		func(s edit.State, n int) (edit.State, error) { return edit.CarryTo(s, n-1) })
}

func (a App) askSwap() (App, tea.Cmd) {
	return onStrip(a, "number of the strip to change places with,", func(pattern.Strip) string { return "" }, a.readNumber,
		func(s edit.State, n int) (edit.State, error) { return edit.Swap(s, n-1) })
}
