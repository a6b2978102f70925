// Package ask is a field of one line for what a maker types: a length, a reading, a
// name. What was understood, or why not, stands beneath it while it is typed.
package ask

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Field asks for one line. Build one with New.
type Field struct {
	title   string
	input   screen.Input
	read    func(string) (value any, understood string, err error)
	failed  bool   // enter was pressed on what cannot be read
	recall  string // what up brings back
	leftOut rune   // of what was typed last, since no file may hold it; 0: nothing
	whole   bool   // the text is one value that was not touched yet
}

// The field's size: title, text, and what was understood, between two rules.
const (
	rows = 3 // the lines about it, and the field
	most = 4 // lines below the field
)

// longest is the most characters a field takes; the readers of values say where
// fewer are allowed.
const longest = 2000

// New returns a field with a title, a text to start with, and what reads the text: it
// returns the value and, in words, what was understood, or what is wrong.
func New[T any](title, text string, read func(string) (T, string, error)) Field {
	input := screen.NewInput(longest)
	input.SetValue(text)
	input.CursorEnd()
	return Field{title: title, input: input, read: func(s string) (any, string, error) { return read(s) }}
}

// Value returns the field with its text as one value, chosen as a whole: what is typed
// first takes its place, and 20 typed at 15 is not 1520. Arrows, home and end go into it
// instead. A list of values is gone on with.
func (f Field) Value() Field {
	f.whole = f.input.Value() != "" && !strings.Contains(f.input.Value(), ",")
	return f
}

// Recall returns the field with a text that up brings back: that of the last time.
func (f Field) Recall(text string) Field {
	f.recall = text
	return f
}

// Home returns the field with its cursor before the text: what is typed comes before it.
func (f Field) Home() Field {
	f.input.CursorStart()
	return f
}

// Key takes a key: enter takes the text where it can be read, esc closes.
func (f Field) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	if a, ok := ctx.Keys.List(k.String()); ok {
		switch a.ID {
		case keymap.Close:
			return f, screen.Outcome{Closed: true}
		case keymap.Accept:
			value, _, err := f.read(f.input.Value())
			f.failed = err != nil
			return f, screen.Outcome{Closed: err == nil, Value: value}
		case keymap.Up:
			if f.recall != "" {
				f.input.SetValue(f.recall)
				f.input.CursorEnd()
			}
			return f, screen.Outcome{}
		}
	}
	f.failed = false
	if f.whole {
		switch k.Type {
		case tea.KeyRunes, tea.KeyBackspace, tea.KeyDelete:
			f.input.SetValue("")
		}
	}
	f.whole = false
	f.input, f.leftOut = f.input.Type(k)
	return f, screen.Outcome{}
}

// Press does nothing: a field is typed into.
func (f Field) Press(int, int, paint.Rect, screen.Context) (screen.Overlay, screen.Outcome) {
	return f, screen.Outcome{}
}

// Draw draws the field over the lower part of r, with as many rows below it as what
// was understood, or is wrong, takes.
func (f Field) Draw(c *paint.Canvas, r paint.Rect, _ screen.Context) {
	text, role := f.echo()
	if f.leftOut != 0 {
		text, role = fmt.Sprintf("left out %U, an invisible character that no file may hold. %s", f.leftOut, text), paint.RoleError
	}
	below := screen.Wrap(text, r.W-2)
	below = below[:min(len(below), most)]
	title := screen.Wrap(f.title, r.W-2)
	high := rows + len(title) + max(1, len(below))
	box, _ := r.SplitBottom(high)
	c.Fill(box, ' ', paint.Style{})
	c.Fill(box.Row(0), '─', c.Role(paint.RoleFaint))
	c.Fill(box.Row(high-1), '─', c.Role(paint.RoleFaint))
	inner := box.Inset(1, 0)
	_, inner = inner.SplitTop(1)
	inner = c.Lines(inner, title, c.Role(paint.RoleHeading))
	f.text(c, inner.Row(0))
	_, inner = inner.SplitTop(1)
	c.Lines(inner, below, c.Role(role))
}

// echo says what was understood of what was typed, or what is wrong with it.
func (f Field) echo() (string, paint.Role) {
	_, understood, err := f.read(f.input.Value())
	if err != nil && understood != "" { // as far as it goes
		err = fmt.Errorf("%s; %w", understood, err)
	}
	switch {
	case err == nil && understood == "":
		return "Enter sets it, Esc cancels", paint.RoleFaint
	case err == nil:
		return understood + ". Enter sets it, Esc cancels", paint.RoleFaint
	case f.failed:
		return err.Error(), paint.RoleError
	case f.input.Value() != "":
		return err.Error(), paint.RoleFaint
	default:
		return "Esc cancels", paint.RoleFaint
	}
}

// text draws what was typed, scrolled so that the cursor is in view.
func (f Field) text(c *paint.Canvas, r paint.Rect) {
	at := c.Text(r, "> ", c.Role(paint.RoleKey))
	_, r = r.SplitLeft(at)
	text := []rune(f.input.Value())
	from := max(0, f.input.Position()-r.W+1)
	c.Fill(r, ' ', c.Role(paint.RoleField))
	role := paint.RoleField
	if f.whole {
		role = paint.RoleSelected
	}
	c.Text(r, string(text[from:]), c.Role(role))
	cursor := ' '
	if at := f.input.Position(); at < len(text) {
		cursor = text[at]
	}
	c.Set(r.X+f.input.Position()-from, r.Y, cursor, c.Role(paint.RoleSelected))
}

// Show returns the request for a field whose values are Ts; what then makes of the value is
// told to the screen.
func Show[T any](f Field, then func(T) tea.Msg) []screen.Request {
	return []screen.Request{screen.Show{Overlay: f, Then: func(value any) tea.Msg {
		v, ok := value.(T)
		if !ok {
			return nil
		}
		return then(v)
	}}}
}
