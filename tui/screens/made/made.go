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
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Shown is what the root had put together: the label of each product as it is for
// the chosen batch.
type Shown struct {
	Labels []work.Label
	Names  []string // of what the labels are for: product 1, or panel
}

// A List is the screen: which batch is chosen. The zero value stands at the last one.
type List struct{ back int }

// Index returns the chosen batch, from 0, and false where nothing was made.
func (l List) Index(p pattern.Pattern) (int, bool) {
	n := len(p.Made)
	return max(0, n-1-max(0, min(l.back, n-1))), n > 0
}

// Go chooses the batch so many further down.
func (l List) Go(by int, p pattern.Pattern) List {
	i, _ := l.Index(p)
	l.back = len(p.Made) - 1 - max(0, min(i+by, len(p.Made)-1))
	return l
}

// Last chooses the last batch.
func (l List) Last() List { return List{} }

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

// At chooses the batch at row y of r, for the mouse.
func (l List) At(y int, r paint.Rect, p pattern.Pattern) List {
	_, rows := lay(r, p).list.SplitTop(1)
	if i := l.first(p, rows.H) + y - rows.Y; y >= rows.Y && y < rows.Bottom() && i < len(p.Made) {
		l.back = len(p.Made) - 1 - i
	}
	return l
}

// first returns the first batch in view when h of them find room.
func (l List) first(p pattern.Pattern, h int) int {
	i, _ := l.Index(p)
	return max(0, min(i-h/2, len(p.Made)-h))
}

// Footer returns the keys that matter now.
func (l List) Footer(r paint.Rect, ctx screen.Context) []screen.FooterPlace {
	any := len(ctx.State.Pattern.Made) > 0
	return screen.Footer(r, ctx.Keys, Place, func(id keymap.ID) bool {
		switch id {
		case "add-made", madeLabel, keymap.Unit, keymap.Quit:
			return true
		case keymap.Save:
			return ctx.Dirty
		case keymap.Undo:
			return ctx.CanUndo
		case keymap.Season:
			return false
		default:
			return any
		}
	})
}

// Draw draws the screen into r.
func (l List) Draw(c *paint.Canvas, r paint.Rect, s Shown, ctx screen.Context) {
	p := ctx.State.Pattern
	parts := lay(r, p)
	copies := 0
	for _, m := range p.Made {
		copies += m.Copies
	}
	text := fmt.Sprintf("Made   %s: %d batches, %d copies in all", ctx.Title, len(p.Made), copies)
	if len(p.Made) == 1 {
		text = fmt.Sprintf("Made   %s: 1 batch of %d", ctx.Title, copies)
	}
	c.TextFit(parts.head.Inset(1, 0), text, c.Role(paint.RoleHeading))
	l.batches(c, parts.list.Inset(1, 0), ctx)
	l.note(c, parts.note.Inset(1, 0), ctx)
	l.label(c, parts.label.Inset(1, 0), s, ctx)
	screen.DrawFooter(c, l.Footer(r, ctx))
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
func (l List) batches(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p := ctx.State.Pattern
	names, rows := r.SplitTop(1)
	if len(p.Made) == 0 {
		for i, words := range screen.Wrap("Nothing is written down yet. "+ctx.Keys.KeyOf("add-made")+" writes a batch as it is spoken: 4, 299.5 wide, 310 min", r.W) {
			c.Text(r.Row(i), words, paint.Style{})
		}
		return
	}
	c.TextFit(names, columns("", "day", "copies", "wide", "thick", "minutes", "note"), c.Role(paint.RoleFaint))
	chosen, _ := l.Index(p)
	first := l.first(p, rows.H)
	for i := range min(rows.H, len(p.Made)-first) {
		m, style, mark := p.Made[first+i], paint.Style{}, "  "
		if first+i == chosen {
			style, mark = c.Role(paint.RoleSelected), "> "
		}
		text := columns(mark+strconv.Itoa(first+i+1), m.Date.String(), strconv.Itoa(m.Copies), said(m.Width, ctx.Unit), said(m.Thickness, ctx.Unit),
			minutes(m.Minutes), m.Note)
		c.TextFit(rows.Row(i), text, style)
	}
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
func (l List) note(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p := ctx.State.Pattern
	i, ok := l.Index(p)
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
	for k := range min(r.H, len(words)) {
		line := words[k]
		if k == r.H-1 && len(words) > r.H {
			line = paint.Fit(line+" ~", r.W)
		}
		c.Text(r.Row(k), line, paint.Style{})
	}
}

// Lines returns the text of every label, for the page that shows them in full.
func (s Shown) Lines() []string {
	var out []string
	for i, l := range s.Labels {
		for _, f := range l.Fields() {
			out = append(out, s.Names[i]+", "+f.String())
		}
		if words := byHand(l); words != "" {
			out = append(out, s.Names[i]+", "+words)
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
func (l List) label(c *paint.Canvas, r paint.Rect, s Shown, ctx screen.Context) {
	if r.H < 3 || len(s.Labels) == 0 {
		return
	}
	head := "Label of " + s.Names[0]
	if len(s.Labels) > 1 {
		head += fmt.Sprintf("; %s shows all %d", ctx.Keys.KeyOf(madeLabel), len(s.Labels))
	}
	c.Text(r.Row(0), head, c.Role(paint.RoleHeading))
	var hand []string
	if words := byHand(s.Labels[0]); words != "" {
		hand = screen.Wrap(words, r.W)
		hand = hand[:min(len(hand), r.H-2)]
	}
	foot, body := r.SplitBottom(1 + len(hand))
	_, body = body.SplitTop(1)
	var lines []string
	for _, f := range s.Labels[0].Fields() {
		lines = append(lines, screen.Wrap(f.String(), r.W)...)
	}
	for i := range min(body.H, len(lines)) {
		if i == body.H-1 && len(lines) > body.H {
			c.Text(body.Row(i), "more: "+ctx.Keys.KeyOf(madeLabel), c.Role(paint.RoleFaint))
			break
		}
		c.Text(body.Row(i), lines[i], paint.Style{})
	}
	for i, words := range hand {
		c.Text(foot.Row(i), words, c.Role(paint.RoleUnknown))
	}
	c.TextFit(foot.Row(len(hand)), work.LawText, c.Role(paint.RoleCaution))
}
