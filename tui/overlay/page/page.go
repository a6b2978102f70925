// Package page is a page of sentences over the screen, to scroll through: an order of
// work, a mark-out, the text of labels.
package page

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Page is the overlay. Build one with New or Steps.
type Page struct {
	title string
	lines []string
	plain int // lines before those that are numbered
	top   int // first line in view, of those that were wrapped
}

// Steps returns a page of steps, numbered in the order in which they are done, below what to
// know before.
func Steps(title string, before, steps []string) Page {
	return Page{title: title, lines: append(slices.Clone(before), steps...), plain: len(before)}
}

// New returns a page of lines whose order is not that of the work.
func New(title string, lines []string) Page {
	return Page{title: title, lines: lines, plain: len(lines)}
}

// Key scrolls, and closes on esc or enter.
func (p Page) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	const rows = 12
	a, _ := ctx.Keys.List(k.String())
	if a.ID == keymap.Close || a.ID == keymap.Accept {
		return p, screen.Outcome{Closed: true}
	}
	// No sentence wraps further; Draw keeps to what there is.
	p.top = max(0, min(p.top+a.ID.Steps(rows), len(p.lines)*4))
	return p, screen.Outcome{}
}

// Press closes the page.
func (p Page) Press(int, int, paint.Rect, screen.Context) (screen.Overlay, screen.Outcome) {
	return p, screen.Outcome{Closed: true}
}

// Draw draws the page over r.
func (p Page) Draw(c *paint.Canvas, r paint.Rect, _ screen.Context) {
	var all []string
	for i, line := range p.lines {
		if i >= p.plain {
			line = fmt.Sprintf("%d. %s", i-p.plain+1, line)
		}
		all = append(all, screen.Wrap(line, r.W-2)...)
	}
	screen.DrawPage(c, r, p.title, "", len(all), p.top, func(i int, r paint.Rect) { c.Text(r, all[i], paint.Style{}) })
}
