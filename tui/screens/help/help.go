// Package help shows every key and what the mouse does, from the one table of
// actions.
package help

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Page is the help, scrolled by rows. The zero value stands at its top.
type Page struct{ top int }

// A line of the help: a heading, or a key and what it does.
type line struct{ heading, key, does string }

// lines lists the help's content in the order of the table.
func lines() []line {
	out := []line{{does: "Glue lines: , fine  ! take care  X too much  ? look at the rings  - no figure"},
		{does: "Rings: = flat   / rift   | quarter   ? nobody has looked"}}
	for _, g := range keymap.Groups() {
		out = append(out, line{}, line{heading: g.String()})
		for _, a := range keymap.Actions() {
			if a.Group == g {
				out = append(out, line{key: Keys(a), does: a.Does})
			}
		}
	}
	out = append(out, line{}, line{heading: "with the mouse"})
	for _, g := range keymap.Gestures() {
		out = append(out, line{key: g.Mouse, does: g.Does})
	}
	return out
}

// Keys gives all keys of an action as they are printed.
func Keys(a keymap.Action) string {
	shown := make([]string, len(a.Keys))
	for i, k := range a.Keys {
		shown[i] = keymap.Shown(k)
	}
	return strings.Join(shown, ", ")
}

// Key scrolls, and closes on esc, enter or the key of the help.
func (p Page) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	const page = 15
	if a, ok := ctx.Keys.List(k.String()); ok {
		switch a.ID {
		case keymap.Close, keymap.Accept:
			return p, screen.Outcome{Closed: true}
		case keymap.Up:
			return p.scroll(-1), screen.Outcome{}
		case keymap.Down:
			return p.scroll(1), screen.Outcome{}
		case keymap.PageUp:
			return p.scroll(-page), screen.Outcome{}
		case keymap.PageDn:
			return p.scroll(page), screen.Outcome{}
		}
	}
	if a, ok := ctx.Keys.Bench(k.String()); ok && (a.ID == keymap.Help || a.ID == keymap.Quit) {
		return p, screen.Outcome{Closed: true}
	}
	return p, screen.Outcome{}
}

// leastBody is the fewest rows the help has; scrolling stops where they are full.
const leastBody = 15

func (p Page) scroll(by int) Page {
	p.top = max(0, min(p.top+by, len(lines())-leastBody))
	return p
}

// Press closes the help.
func (p Page) Press(int, int, paint.Rect, screen.Context) (screen.Overlay, screen.Outcome) {
	return p, screen.Outcome{Closed: true}
}

// Draw draws the help over r.
func (p Page) Draw(c *paint.Canvas, r paint.Rect, _ screen.Context) {
	c.Fill(r, ' ', paint.Style{})
	all := lines()
	c.Text(r.Inset(1, 0).Row(0), "All keys", c.Role(paint.RoleTitle))
	foot, _ := r.SplitBottom(1)
	_, body := r.Inset(1, 0).SplitTop(1)
	_, body = body.SplitBottom(1)
	top := max(0, min(p.top, len(all)-body.H))
	for i := range min(body.H, len(all)-top) {
		p.row(c, body.Row(i), all[top+i])
	}
	c.Text(foot.Inset(1, 0), fmt.Sprintf("Esc closes   Up Down PgUp PgDn   lines %d to %d of %d",
		top+1, min(top+body.H, len(all)), len(all)), c.Role(paint.RoleFaint))
}

func (p Page) row(c *paint.Canvas, row paint.Rect, l line) {
	const keys = 22
	switch {
	case l.heading != "":
		c.Text(row, l.heading, c.Role(paint.RoleHeading))
	case l.key == "":
		c.Text(row, paint.Fit(l.does, row.W), paint.Style{})
	default:
		left, rest := row.SplitLeft(min(keys, row.W/3))
		c.Text(left, paint.Fit(l.key, left.W-1), c.Role(paint.RoleKey))
		c.Text(rest, paint.Fit(l.does, rest.W), paint.Style{})
	}
}
