// Package form is a few questions on one page, each with its usual answer filled in: Enter
// takes them one by one.
package form

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Question is answered by a line of text.
type Question struct {
	Asks string
	Text string // the usual answer
	// Read returns how an answer is understood, or what is wrong with it.
	Read func(string) (understood string, err error)
}

// A Page is the overlay; its value is the answers, in their order, as []string. Build one
// with New.
type Page struct {
	title     string
	about     string
	questions []Question
	answers   []screen.Input
	at        int
	untouched bool // what is typed first takes the place of the answer asked for now
}

// longest is the most characters of an answer.
const longest = 60

// New returns a page of questions with what it is about.
func New(title, about string, questions []Question) Page {
	p := Page{title: title, about: about, questions: questions, untouched: true}
	for _, q := range questions {
		in := screen.NewInput(longest)
		in.SetValue(q.Text)
		in.CursorEnd()
		p.answers = append(p.answers, in)
	}
	return p
}

// Key takes a key: enter takes an answer that can be read and goes on, and closes behind
// the last; the arrows go back and forth; esc closes without answers.
func (p Page) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	if a, ok := ctx.Keys.List(k.String()); ok {
		switch a.ID {
		case keymap.Close:
			return p, screen.Outcome{Closed: true}
		case keymap.Up:
			return p.to(p.at - 1), screen.Outcome{}
		case keymap.Down:
			return p.to(p.at + 1), screen.Outcome{}
		case keymap.Accept:
			return p.accept()
		}
	}
	answers := append([]screen.Input(nil), p.answers...)
	if p.untouched && (k.Type == tea.KeyRunes || k.Type == tea.KeyBackspace || k.Type == tea.KeyDelete) {
		answers[p.at].SetValue("")
	}
	p.untouched = false
	answers[p.at], _ = answers[p.at].Type(k)
	p.answers = answers
	return p, screen.Outcome{}
}

func (p Page) to(at int) Page {
	p.at, p.untouched = max(0, min(at, len(p.questions)-1)), true
	return p
}

// accept goes on behind an answer that can be read, and to the first that cannot.
func (p Page) accept() (screen.Overlay, screen.Outcome) {
	if _, err := p.read(p.at); err != nil {
		return p, screen.Outcome{}
	}
	if p.at < len(p.questions)-1 {
		return p.to(p.at + 1), screen.Outcome{}
	}
	var all []string
	for i := range p.questions {
		if _, err := p.read(i); err != nil {
			return p.to(i), screen.Outcome{}
		}
		all = append(all, p.answers[i].Value())
	}
	return p, screen.Outcome{Closed: true, Value: all}
}

func (p Page) read(i int) (string, error) { return p.questions[i].Read(p.answers[i].Value()) }

// Press goes to the question that was pressed on.
func (p Page) Press(_, y int, r paint.Rect, _ screen.Context) (screen.Overlay, screen.Outcome) {
	_, rows := p.lay(r)
	for i := range p.questions {
		if y == rows[i].Y || y == rows[i].Y+1 {
			return p.to(i), screen.Outcome{}
		}
	}
	return p, screen.Outcome{}
}

// each is how many rows a question takes: what it asks, the answer, and a blank one.
const each = 3

// lay returns the lines of what it is about, and where each question begins.
func (p Page) lay(r paint.Rect) (about []string, rows []paint.Rect) {
	inner := r.Inset(1, 0)
	about = screen.Wrap(p.about, inner.W)
	y := min(1+len(about)+1, max(1, inner.H-1-each*len(p.questions)))
	for i := range p.questions {
		rows = append(rows, inner.Row(y+i*each))
	}
	return about, rows
}

// Draw draws the page over r.
func (p Page) Draw(c *paint.Canvas, r paint.Rect, _ screen.Context) {
	c.Fill(r, ' ', paint.Style{})
	inner := r.Inset(1, 0)
	c.Text(inner.Row(0), p.title, c.Role(paint.RoleTitle))
	about, rows := p.lay(r)
	for i, line := range about {
		if y := inner.Row(1 + i); y.Y < rows[0].Y {
			c.Text(y, line, paint.Style{})
		}
	}
	for i, q := range p.questions {
		role, mark := paint.RoleFaint, "  "
		if i == p.at {
			role, mark = paint.RoleHeading, "> "
		}
		c.Text(rows[i], paint.Fit(q.Asks, inner.W), c.Role(role))
		p.answer(c, paint.Rect{X: rows[i].X, Y: rows[i].Y + 1, W: rows[i].W, H: 1}.Intersect(inner), i, mark)
	}
	c.Text(inner.Row(inner.H-1), "Enter sets the answer, then the next   Up Down another   Esc cancels", c.Role(paint.RoleFaint))
}

// answer draws an answer, and how it is understood behind it.
func (p Page) answer(c *paint.Canvas, r paint.Rect, i int, mark string) {
	const wide = 16
	in := p.answers[i]
	at := c.Text(r, mark, c.Role(paint.RoleKey))
	_, r = r.SplitLeft(at)
	field, told := r.SplitLeft(min(wide, r.W))
	role := paint.RoleField
	if i == p.at && p.untouched {
		role = paint.RoleSelected
	}
	c.Fill(field, ' ', c.Role(paint.RoleField))
	text := []rune(in.Value())
	from := max(0, len(text)-field.W+1)
	c.Text(field, string(text[from:]), c.Role(role))
	if i == p.at {
		c.Set(field.X+max(0, min(in.Position()-from, field.W-1)), field.Y, cursor(text, in.Position()), c.Role(paint.RoleSelected))
	}
	words, err := p.read(i)
	role = paint.RoleFaint
	if err != nil {
		words, role = err.Error(), paint.RoleError
	}
	_, told = told.SplitLeft(2)
	c.Text(told, paint.Fit(words, told.W), c.Role(role))
}

// cursor returns what stands under the cursor.
func cursor(text []rune, at int) rune {
	if at < len(text) {
		return text[at]
	}
	return ' '
}
