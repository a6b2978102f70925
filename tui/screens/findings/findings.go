// Package findings lists everything that a maker is told of the pattern, with the
// remedies that were reckoned for it.
package findings

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/check"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A List is the screen. The zero value stands at the first finding.
type List struct{ at int }

// An Answer is what came of a key.
type Answer struct {
	Taken  bool          // the key meant something here
	Strip  int           // choose this strip, from 1; 0: none
	Remedy *check.Remedy // make this change
}

// Key goes through the findings, choosing their strips, and takes the first remedy
// of one.
func (l List) Key(k tea.KeyMsg, ctx screen.Context) (List, Answer) {
	a, ok := ctx.Keys.List(k.String())
	if !ok {
		return l, Answer{}
	}
	switch a.ID {
	case keymap.Up:
		return l.Go(-1, ctx)
	case keymap.Down:
		return l.Go(1, ctx)
	case keymap.PageUp:
		return l.Go(-5, ctx)
	case keymap.PageDn:
		return l.Go(5, ctx)
	case keymap.Accept:
		if f, ok := l.chosen(ctx); ok && len(f.Remedies) > 0 {
			return l, Answer{Taken: true, Remedy: &f.Remedies[0]}
		}
		return l, Answer{Taken: true}
	default:
		return l, Answer{}
	}
}

// Go moves by so many findings and chooses the strip that the one there is about.
func (l List) Go(by int, ctx screen.Context) (List, Answer) {
	l.at = max(0, min(l.index(ctx)+by, len(ctx.Report.Findings)-1))
	answer := Answer{Taken: true}
	if f, ok := l.chosen(ctx); ok {
		answer.Strip = max(f.Where.Strip, f.Where.Line)
	}
	return l, answer
}

// index gives the finding that is chosen; there may be fewer than there were.
func (l List) index(ctx screen.Context) int {
	return max(0, min(l.at, len(ctx.Report.Findings)-1))
}

func (l List) chosen(ctx screen.Context) (check.Finding, bool) {
	if len(ctx.Report.Findings) == 0 {
		return check.Finding{}, false
	}
	return ctx.Report.Findings[l.index(ctx)], true
}

// At gives the finding that stands at row y of r, for the mouse.
func (l List) At(y int, r paint.Rect, ctx screen.Context) (List, bool) {
	for _, b := range l.blocks(r, ctx) {
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

// blocks puts the findings into lines, so that the chosen one is in view.
func (l List) blocks(r paint.Rect, ctx screen.Context) []block {
	all := make([]block, len(ctx.Report.Findings))
	total := 0
	for i, f := range ctx.Report.Findings {
		all[i] = block{index: i, y: total, words: screen.Wrap(screen.Sentence(f), r.W-2)}
		for _, m := range f.Remedies {
			lines := screen.Wrap(m.Between(), r.W-6)
			for j, line := range lines {
				lines[j] = "    " + line
			}
			all[i].words = append(all[i].words, lines...)
			all[i].remedies += len(lines)
		}
		total += len(all[i].words)
	}
	if len(all) == 0 {
		return nil
	}
	now := all[l.index(ctx)]
	top := max(0, min(now.y-r.H/3, total-r.H))
	for i := range all {
		all[i].y += r.Y - top
	}
	return all
}

// Draw draws the list into r.
func (l List) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	foot, body := r.SplitBottom(2)
	faint := c.Role(paint.RoleFaint)
	if len(ctx.Report.Findings) == 0 {
		text := "Nothing to know: every glue line is fine."
		if len(ctx.State.Pattern.Strips) == 0 {
			text = "No strips yet: the bench puts them in."
		}
		c.Text(body.Inset(1, 0).Row(0), text, paint.Style{})
		return
	}
	for _, b := range l.blocks(body.Inset(1, 0), ctx) {
		f := ctx.Report.Findings[b.index]
		for i, line := range b.words {
			y := b.y + i
			if y < body.Y || y >= body.Bottom() {
				continue
			}
			row := paint.Rect{X: body.X + 1, Y: y, W: body.W - 2, H: 1}
			if i == 0 && b.index == l.index(ctx) {
				c.Text(row, ">", c.Role(paint.RoleKey))
			}
			_, row = row.SplitLeft(2)
			style := paint.Style{}
			if i >= len(b.words)-b.remedies {
				style = faint
			}
			c.Text(row, line, style)
			if i == 0 {
				c.Text(row, f.Level.String(), c.Role(screen.Role(f.Level)))
			}
		}
	}
	c.Text(foot.Inset(1, 0).Row(0), "Up Down go through them   Enter makes the indented change", faint)
	if f, ok := l.chosen(ctx); ok && len(f.Remedies) > 0 {
		at := c.Text(foot.Inset(1, 0).Row(1), ctx.Keys.KeyOf(keymap.Advice)+" ", c.Role(paint.RoleKey))
		_, row := foot.Inset(1, 0).Row(1).SplitLeft(at)
		c.Text(row, paint.Fit(f.Remedies[0].Between(), row.W), paint.Style{})
	}
}
