// Package page is a page of sentences over the screen, to scroll through: an order of
// work, a mark-out, the text of labels.
package page

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Page is the overlay. Build one with New or Steps.
type Page struct {
	title    string
	lines    []string
	numbered bool
	top      int // first line in view, of those that were wrapped
}

// Steps returns a page of steps, numbered in the order in which they are done.
func Steps(title string, lines []string) Page {
	return Page{title: title, lines: lines, numbered: true}
}

// New returns a page of lines whose order is not that of the work.
func New(title string, lines []string) Page { return Page{title: title, lines: lines} }

// Key scrolls, and closes on esc or enter.
func (p Page) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	const rows = 12
	a, _ := ctx.Keys.List(k.String())
	switch a.ID {
	case keymap.Close, keymap.Accept:
		return p, screen.Outcome{Closed: true}
	case keymap.Up:
		p.top--
	case keymap.Down:
		p.top++
	case keymap.PageUp:
		p.top -= rows
	case keymap.PageDn:
		p.top += rows
	}
	p.top = max(0, min(p.top, len(p.lines)*4)) // no sentence wraps further; Draw keeps to what there is
	return p, screen.Outcome{}
}

// Press closes the page.
func (p Page) Press(int, int, paint.Rect, screen.Context) (screen.Overlay, screen.Outcome) {
	return p, screen.Outcome{Closed: true}
}

// Draw draws the page over r.
func (p Page) Draw(c *paint.Canvas, r paint.Rect, _ screen.Context) {
	c.Fill(r, ' ', paint.Style{})
	head, body := r.Inset(1, 0).SplitTop(1)
	foot, body := body.SplitBottom(1)
	c.Text(head, p.title, c.Role(paint.RoleTitle))
	var all []string
	for i, line := range p.lines {
		if p.numbered {
			line = fmt.Sprintf("%d. %s", i+1, line)
		}
		all = append(all, screen.Wrap(line, body.W)...)
	}
	top := max(0, min(p.top, len(all)-body.H))
	for i := range min(body.H, len(all)-top) {
		c.Text(body.Row(i), all[top+i], paint.Style{})
	}
	c.Text(foot, fmt.Sprintf("Esc closes   Up Down PgUp PgDn   lines %d to %d of %d", min(top+1, len(all)), min(top+body.H, len(all)), len(all)), c.Role(paint.RoleFaint))
}
