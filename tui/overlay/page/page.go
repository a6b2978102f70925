package planview

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// Steps is a page of sentences over the screen, to scroll through.
type Steps struct {
	title    string
	lines    []string
	numbered bool
	top      int // first line in view, of those that were wrapped
}

// NewSteps gives a page of steps, numbered in the order in which they are done.
func NewSteps(title string, lines []string) Steps {
	return Steps{title: title, lines: lines, numbered: true}
}

// NewPage gives a page of lines whose order is not that of the work.
func NewPage(title string, lines []string) Steps { return Steps{title: title, lines: lines} }

// Key scrolls, and closes on esc or enter.
func (s Steps) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	const page = 12
	a, _ := ctx.Keys.List(k.String())
	switch a.ID {
	case keymap.Close, keymap.Accept:
		return s, screen.Outcome{Closed: true}
	case keymap.Up:
		s.top--
	case keymap.Down:
		s.top++
	case keymap.PageUp:
		s.top -= page
	case keymap.PageDn:
		s.top += page
	}
	s.top = max(0, min(s.top, len(s.lines)*4)) // no sentence wraps further; Draw keeps to what there is
	return s, screen.Outcome{}
}

// Press closes the page.
func (s Steps) Press(int, int, paint.Rect, screen.Context) (screen.Overlay, screen.Outcome) {
	return s, screen.Outcome{Closed: true}
}

// Draw draws the page over r.
func (s Steps) Draw(c *paint.Canvas, r paint.Rect, _ screen.Context) {
	c.Fill(r, ' ', paint.Style{})
	head, body := r.Inset(1, 0).SplitTop(1)
	foot, body := body.SplitBottom(1)
	c.Text(head, s.title, c.Role(paint.RoleTitle))
	var all []string
	for i, line := range s.lines {
		if s.numbered {
			line = fmt.Sprintf("%d. %s", i+1, line)
		}
		all = append(all, screen.Wrap(line, body.W)...)
	}
	top := max(0, min(s.top, len(all)-body.H))
	for i := range min(body.H, len(all)-top) {
		c.Text(body.Row(i), all[top+i], paint.Style{})
	}
	c.Text(foot, fmt.Sprintf("Esc closes   Up Down PgUp PgDn   lines %d to %d of %d", min(top+1, len(all)), min(top+body.H, len(all)), len(all)), c.Role(paint.RoleFaint))
}
