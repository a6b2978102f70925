// Package findings is the screen that lists everything that a maker is told of the
// pattern, with the remedies that were computed for it.
package findings

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A List is the screen. The zero value stands at the first finding.
type List struct{ at int }

// Title returns the screen's name.
func (List) Title() keymap.Place { return Place }

// Count returns how many findings there are.
func (List) Count(r check.Report) int { return len(r.Groups) }

// Update goes through the findings and takes their remedies.
func (l List) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(l, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Press:
		if list, ok := l.At(msg.Y, ctx.Window.Body, ctx); ok {
			return list.goBy(0, ctx)
		}
	case screen.Wheel:
		return l.goBy(msg.By(), ctx)
	}
	return l, nil
}

// take makes the change that would help.
func (l List) take(ctx screen.Context) []screen.Request {
	if remedy, ok := l.Remedy(ctx); ok {
		return screen.Apply(remedy, ctx)
	}
	return []screen.Request{screen.Say("no change found that helps here")}
}

// goBy goes on by so many findings, and chooses the strip that the one there is about.
func (l List) goBy(by int, ctx screen.Context) (screen.Screen, []screen.Request) {
	list, strip := l.Go(by, ctx)
	if strip == 0 {
		return list, nil
	}
	return list, []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) { return edit.Select(s, strip-1) }}}
}

// Go moves by so many findings and returns the strip that the one there is about, from
// 1; 0: none.
func (l List) Go(by int, ctx screen.Context) (List, int) {
	l.at = screen.Among(l.index(ctx)+by, len(ctx.Report.Groups))
	f, _ := l.chosen(ctx)
	return l, max(f.Where.Strip, f.Where.Line)
}

// Remedy returns the best change for the finding that is chosen.
func (l List) Remedy(ctx screen.Context) (check.Remedy, bool) {
	f, ok := l.chosen(ctx)
	if !ok || len(f.Remedies()) == 0 {
		return check.Remedy{}, false
	}
	return f.Remedies()[0], true
}

// index returns the finding that is chosen; there may be fewer than there were.
func (l List) index(ctx screen.Context) int { return screen.Among(l.at, len(ctx.Report.Groups)) }

func (l List) chosen(ctx screen.Context) (check.Group, bool) {
	if len(ctx.Report.Groups) == 0 {
		return check.Group{}, false
	}
	return ctx.Report.Groups[l.index(ctx)], true
}

// At returns the finding that stands at row y of r, for the mouse.
func (l List) At(y int, r paint.Rect, ctx screen.Context) (List, bool) {
	for _, b := range l.blocks(rows(r), ctx) {
		if y >= b.y && y < b.y+len(b.words) {
			l.at = b.index
			return l, true
		}
	}
	return l, false
}

// A block is a finding put into lines.
type block struct {
	index, y int
	words    []string
	remedies int // how many of the last lines are remedies
}

// indent is how far remedies are set in: room for the key that makes the first.
const indent = 6

// rows returns the part of r that the list stands in.
func rows(r paint.Rect) paint.Rect {
	_, r = r.SplitBottom(screen.FooterRows)
	return r.Inset(1, 0)
}

// blocks puts the findings that are in view, and a few about them, into lines, so that the
// chosen one stands a third down, or where the list begins or ends. There may be thousands:
// what nobody sees is not put into lines, and its remedies are not looked for.
func (l List) blocks(r paint.Rect, ctx screen.Context) []block {
	n, at := len(ctx.Report.Groups), l.index(ctx)
	if n == 0 {
		return nil
	}
	seen := []block{blockOf(at, r, ctx)}
	above, total := 0, len(seen[0].words)
	first, end := at, at+1
	up := func() {
		first--
		b := blockOf(first, r, ctx)
		seen = append([]block{b}, seen...)
		above, total = above+len(b.words), total+len(b.words)
	}
	for first > 0 && above < r.H/3 {
		up()
	}
	for end < n && total-above+min(above, r.H/3) < r.H {
		b := blockOf(end, r, ctx)
		seen, end, total = append(seen, b), end+1, total+len(b.words)
	}
	for first > 0 && total < r.H {
		up()
	}
	y := r.Y - max(0, min(above-r.H/3, total-r.H))
	for i := range seen {
		seen[i].y = y
		y += len(seen[i].words)
	}
	return seen
}

// blockOf puts one finding into lines.
func blockOf(i int, r paint.Rect, ctx screen.Context) block {
	f := ctx.Report.Groups[i]
	b := block{index: i, words: screen.Wrap(screen.Sentence(f), r.W-2)}
	for _, m := range f.Remedies() {
		lines := screen.Wrap(m.Between(), r.W-2-indent)
		for j, line := range lines {
			lines[j] = strings.Repeat(" ", indent) + line
		}
		b.words = append(b.words, lines...)
		b.remedies += len(lines)
	}
	return b
}

// Draw draws the list into r.
func (l List) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	body := rows(r)
	screen.DrawFooter(c, table().Footer(l, r, ctx))
	faint := c.Role(paint.RoleFaint)
	if len(ctx.Report.Groups) == 0 {
		text := "No findings: every glue line is fine."
		if len(ctx.State.Pattern.Strips) == 0 {
			text = "No strips yet: put them in on the bench."
		}
		c.Text(body.Row(0), text, paint.Style{})
		return
	}
	for _, b := range l.blocks(body, ctx) {
		f := ctx.Report.Groups[b.index]
		for i, line := range b.words {
			y := b.y + i
			if y < body.Y || y >= body.Bottom() {
				continue
			}
			row := paint.Rect{X: body.X, Y: y, W: body.W, H: 1}
			if i == 0 && b.index == l.index(ctx) {
				c.Text(row, ">", c.Role(paint.RoleKey))
			}
			_, row = row.SplitLeft(2)
			style := paint.Style{}
			if i >= len(b.words)-b.remedies {
				style = faint
			}
			c.Text(row, line, style)
			if i == len(b.words)-b.remedies && b.index == l.index(ctx) {
				c.Text(row, ctx.Keys.KeyOf(findTake), c.Role(paint.RoleKey))
			}
			if i == 0 {
				c.Text(row, f.Level.Heading(), c.Role(screen.Role(f.Level)))
			}
		}
	}
}
