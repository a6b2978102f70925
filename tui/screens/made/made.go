// Package made draws what was made of the pattern, batch by batch, and the label that
// goes with a piece that is sold.
package made

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// Index returns the chosen batch, from 0, and false where nothing was made.
func (s Screen) Index(p pattern.Pattern) (int, bool) {
	n := len(p.Made)
	return max(0, n-1-screen.Among(s.back, n)), n > 0
}

// Go chooses the batch so many further down, with its labels.
func (s Screen) Go(by int, ctx screen.Context) Screen {
	p := ctx.State.Pattern
	i, _ := s.Index(p)
	s.back = len(p.Made) - 1 - screen.Among(i+by, len(p.Made))
	return s.labelled(ctx)
}

// The rows of the parts: the head, the columns' names, and so many batches at most.
const (
	headRows    = 1
	mostBatches = 6
	leastLabel  = 8
)

type layout struct{ head, list, note, label paint.Rect }

func lay(r paint.Rect, p pattern.Pattern) layout {
	_, r = r.SplitBottom(screen.FooterRows)
	var l layout
	l.head, r = r.SplitTop(headRows)
	rows := max(2, min(1+len(p.Made), 1+mostBatches, r.H-leastLabel))
	l.list, r = r.SplitTop(rows)
	l.note, r = r.SplitTop(2)
	l.label = r
	return l
}

// list returns the batches, and the row above them that names their columns.
func (s Screen) list(r paint.Rect, p pattern.Pattern) (names paint.Rect, batches screen.List) {
	names, rows := lay(r, p).list.SplitTop(1)
	i, _ := s.Index(p)
	return names, screen.List{Rows: rows, N: len(p.Made), At: i}
}

// At chooses the batch at row y of r, for the mouse.
func (s Screen) At(y int, r paint.Rect, p pattern.Pattern) Screen {
	_, batches := s.list(r, p)
	if i, ok := batches.On(y); ok {
		s.back = len(p.Made) - 1 - i
	}
	return s
}

// Draw draws the screen into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p := ctx.State.Pattern
	parts := lay(r, p)
	copies := 0
	for _, m := range p.Made {
		copies += m.Copies
	}
	text := fmt.Sprintf("Made   %s: %d batches, %d copies in all", ctx.Title, len(p.Made), copies)
	if len(p.Made) == 1 {
		text = fmt.Sprintf("Made   %s: 1 batch, copies: %d", ctx.Title, copies)
	}
	c.TextFit(parts.head.Inset(1, 0), text, c.Role(paint.RoleHeading))
	s.batches(c, r, ctx)
	s.note(c, parts.note.Inset(1, 0), p)
	s.label(c, parts.label.Inset(1, 0), ctx)
	screen.DrawFooter(c, table().Footer(s, r, ctx))
}

// columns puts values under each other.
func columns(values ...string) string {
	widths := [...]int{5, 12, 8, 11, 11, 9}
	var b strings.Builder
	for i, v := range values {
		if i < len(widths) {
			v = fmt.Sprintf("%-*s", widths[i], v)
		}
		b.WriteString(v)
	}
	return b.String()
}

// batches writes one line a batch, the oldest first.
func (s Screen) batches(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p := ctx.State.Pattern
	if len(p.Made) == 0 {
		r = lay(r, p).list.Inset(1, 0)
		c.Lines(r, screen.Wrap("No batch yet. "+ctx.Keys.KeyOf("add-made")+" adds one, like 4, 299.5 wide, 310 min", r.W), paint.Style{})
		return
	}
	names, batches := s.list(r, p)
	c.TextFit(names.Inset(1, 0), columns("", "day", "copies", "wide", "thick", "minutes", "note"), c.Role(paint.RoleFaint))
	batches.Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		m := p.Made[i]
		c.TextFit(row.Inset(1, 0), columns(mark+strconv.Itoa(i+1), m.Date.String(), strconv.Itoa(m.Copies), said(m.Width, ctx.Unit),
			said(m.Thickness, ctx.Unit), minutes(m.Minutes), m.Note), style)
	})
}

// said returns a size, or a dash where none was written down.
func said(l length.Length, u length.Unit) string {
	if l == 0 {
		return "-"
	}
	return l.Format(u)
}

func minutes(n int) string {
	if n == 0 {
		return "-"
	}
	return strconv.Itoa(n)
}

// note writes the chosen batch's note in full, and what of the size came out other
// than wanted.
func (s Screen) note(c *paint.Canvas, r paint.Rect, p pattern.Pattern) {
	i, ok := s.Index(p)
	if !ok {
		return
	}
	m := p.Made[i]
	text := "no note"
	if m.Note != "" {
		text = "note: " + m.Note
	}
	if m.Minutes > 0 {
		text = fmt.Sprintf("%d minutes a copy; ", work.Minutes(pattern.Pattern{Made: []pattern.Made{m}}, 1)) + text
	}
	words := screen.Wrap(text, r.W)
	if last := r.H - 1; last >= 0 && len(words) > r.H {
		words[last] = paint.Fit(words[last]+" ~", r.W)
	}
	c.Lines(r, words, paint.Style{})
}

// lines returns the text of every label, for the page that shows them in full.
func (s Screen) lines() []string {
	var out []string
	for i, l := range s.labels {
		for _, f := range l.Fields() {
			out = append(out, s.names[i]+", "+f.String())
		}
		if words := byHand(l); words != "" {
			out = append(out, s.names[i]+", "+words)
		}
	}
	return append(out, work.LawText)
}

// byHand says which empty fields no file holds, and where they are filled in. Batch
// and date are not among them: a batch that is written down fills them.
func byHand(l work.Label) string {
	var missing []string
	for _, f := range l.Fields() {
		if f.Text == "" && !f.OfBatch {
			missing = append(missing, f.Name)
		}
	}
	if len(missing) == 0 {
		return ""
	}
	return "to write by hand on the printed label: " + strings.Join(missing, ", ")
}

// label writes the first label as far as there is room, and what it lacks.
func (s Screen) label(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	if r.H < 3 || len(s.labels) == 0 {
		return
	}
	head := "Label of " + s.names[0]
	if len(s.labels) > 1 {
		head += fmt.Sprintf("; %s shows all %d", ctx.Keys.KeyOf(madeLabel), len(s.labels))
	}
	c.Text(r.Row(0), head, c.Role(paint.RoleHeading))
	hand := screen.Wrap(byHand(s.labels[0]), r.W)
	hand = hand[:min(len(hand), r.H-2)]
	foot, body := r.SplitBottom(1 + len(hand))
	_, body = body.SplitTop(1)
	var lines []string
	for _, f := range s.labels[0].Fields() {
		lines = append(lines, screen.Wrap(f.String(), r.W)...)
	}
	if last := body.H - 1; last >= 0 && len(lines) > body.H {
		c.Text(body.Row(last), "more: "+ctx.Keys.KeyOf(madeLabel), c.Role(paint.RoleFaint))
		lines = lines[:last]
	}
	c.Lines(body, lines, paint.Style{})
	foot = c.Lines(foot, hand, c.Role(paint.RoleUnknown))
	c.TextFit(foot, work.LawText, c.Role(paint.RoleCaution))
}
