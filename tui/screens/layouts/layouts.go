// Package layouts is the gallery "Laid out for you": the layouts that a search found, one
// beneath the other to scale, with what each uses and why it stands where it does, and
// what was asked for. It asks, goes on searching while the bench is worked on, and has
// what is taken laid on the bench.
//
// Rectangles are in cells of the canvas.
package layouts

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A layout says where the parts of the gallery lie.
type layout struct {
	head, wishes, state paint.Rect
	yours               paint.Rect // what lies on the bench; empty where there is no room
	rows                paint.Rect // the pictures
	each                int        // rows of one picture, its letters and its caption
	words               paint.Rect // about the chosen layout
	foot                paint.Rect // what Footer takes
	gallery             gallery    // of new layouts, which have no rows
	side                bool       // words stand beside the pictures
}

// Where words do not stand beside the pictures they stand beneath, in so many rows.
const (
	wordRows = 5
	fewRows  = 3 // on a low screen
	lowBelow = 14
)

// What lies on the bench stands above the layouts where there is room for it.
const (
	yoursFrom = 20
	yoursRows = 5
)

// The rows of one layout: letters, wood and caption; with more room also numbers,
// marks, more wood and a blank row.
const (
	leastEach = 3
	mostEach  = 9
)

func lay(r paint.Rect, ctx scene) layout {
	var l layout
	l.head, r = r.SplitTop(1)
	l.wishes, r = r.SplitTop(wishRows(l.head.W-2, ctx))
	l.state, r = r.SplitTop(1)
	l.words, r = screen.SplitSide(r)
	l.side = !l.words.Empty()
	l.foot = r
	_, r = r.SplitBottom(screen.FooterRows)
	if !ctx.q.Again && len(ctx.s.shown.Laid) > 0 {
		l.gallery = spread(r, l.words, ctx)
		if l.words = l.gallery.words; l.gallery.list.Empty() {
			l.side = true
		}
		return l
	}
	if l.words.Empty() {
		rows := wordRows
		if r.H < lowBelow {
			rows = fewRows
		}
		l.words, r = r.SplitBottom(rows)
	}
	if r.H >= yoursFrom && len(ctx.State.Pattern.Strips) > 0 {
		l.yours, r = r.SplitTop(yoursRows)
	}
	l.rows = r
	n := max(1, len(ctx.s.shown.Laid))
	l.each = min(mostEach, max(leastEach, r.H/n))
	return l
}

// fit returns how many layouts find room.
func (l layout) fit() int { return max(1, l.rows.H/l.each) }

// box returns where layout i stands, the first one in view being first.
func (l layout) box(i, first int) paint.Rect {
	_, rest := l.rows.SplitTop((i - first) * l.each)
	box, _ := rest.SplitTop(l.each)
	return box
}

// Name returns what layout i, from 0, is called: a to z, then a2 and so on.
func Name(i int) string {
	const letters = 26
	name := string(rune('a' + i%letters))
	if i >= letters {
		name += fmt.Sprint(i/letters + 1)
	}
	return name
}

// Count says how many layouts there are.
func Count(n int) string {
	if n == 0 {
		return "no layout"
	}
	return tell.Count(n, "layout")
}

// first returns the first layout in view.
func (l layout) first(ctx scene) int {
	return screen.Top(ctx.s.at, len(ctx.s.shown.Laid), l.fit())
}

// layoutAt returns the layout, or the condition to loosen, at a cell of r.
func layoutAt(x, y int, r paint.Rect, ctx scene) (int, bool) {
	l := lay(r, ctx)
	if !l.gallery.words.Empty() {
		return l.gallery.at(x, y, ctx)
	}
	if y < l.rows.Y || y >= l.rows.Bottom() {
		return 0, false
	}
	if len(ctx.s.shown.Laid) == 0 {
		at := y - l.rows.Y - loosenHead
		return at, at >= 0 && at < len(ctx.s.shown.loosen)
	}
	first := l.first(ctx)
	for i := first; i < min(first+l.fit(), len(ctx.s.shown.Laid)); i++ {
		if l.box(i, first).Contains(l.rows.X, y) {
			return i, true
		}
	}
	return 0, false
}

// actionAt returns the action whose key stands at a cell: in the footer or among the
// wishes.
func actionAt(x, y int, r paint.Rect, ctx scene) (keymap.ID, bool) {
	l := lay(r, ctx)
	if id, ok := screen.Pressed(footer(l, ctx), x, y); ok {
		return id, true
	}
	return screen.Pressed(placeWishes(l.wishes.Inset(1, 0), ctx), x, y)
}

// footer returns the actions that matter now and where they stand.
func footer(l layout, ctx scene) []screen.KeyPlace {
	return screen.Footer(l.foot, ctx.Keys, Place, func(id keymap.ID) bool {
		switch id {
		case layTake:
			return !ctx.stale && len(ctx.s.shown.Laid)+len(ctx.s.shown.loosen) > 0
		case layStop:
			return ctx.s.works
		case layAsk:
			return ctx.wrong == ""
		case layMore:
			return len(ctx.s.shown.Laid) > 0 && !ctx.s.works && !ctx.stale && !ctx.s.shown.NoMore
		case layUp:
			return len(ctx.s.shown.Laid)+len(ctx.s.shown.loosen) > 1
		case layLeft, layTell:
			return len(ctx.s.shown.Laid) > 0
		case layPin:
			return len(ctx.s.shown.Laid) > 0 && !ctx.q.Again
		case keymap.Undo:
			return ctx.CanUndo
		case keymap.Save, keymap.Season:
			return false
		default:
			return true
		}
	})
}

// draw draws the gallery into r.
func draw(c *paint.Canvas, r paint.Rect, ctx scene) {
	l := lay(r, ctx)
	drawHead(c, l.head.Inset(1, 0), ctx)
	drawWishes(c, l.wishes.Inset(1, 0), ctx)
	drawState(c, l.state.Inset(1, 0), ctx)
	if !l.yours.Empty() {
		drawYours(c, l.yours, ctx)
	}
	switch {
	case !l.gallery.words.Empty():
		l.gallery.draw(c, ctx)
	case len(ctx.s.shown.Laid) > 0:
		first := l.first(ctx)
		for i := first; i < min(first+l.fit(), len(ctx.s.shown.Laid)); i++ {
			drawOne(c, l.box(i, first), i, ctx)
		}
	case ctx.wrong != "":
		writeLines(c, l.rows.Inset(1, 0), []string{ctx.wrong})
	case ctx.s.works:
		writeLines(c, l.rows.Inset(1, 0), []string{"Searching what the rack can yield.",
			ctx.Keys.KeyOf(layClose) + " goes back to the bench; the search continues."})
	case ctx.s.shown.Have:
		drawNone(c, l.rows.Inset(1, 0), ctx)
	}
	if l.side {
		screen.DrawRule(c, paint.Rect{X: l.words.X, Y: l.state.Bottom(), W: 1, H: max(l.words.Bottom(), l.gallery.left.Bottom()) - l.state.Bottom()})
	}
	drawWords(c, l.words.Inset(1, 0), l.side, ctx)
	screen.DrawFooter(c, footer(l, ctx))
}

// The rows of a picture from which panel draws the numbers and marks too.
const fullPicture = 6

// view returns what a picture shows of strips.
func view(p pattern.Pattern, ctx scene) panel.View {
	return panel.View{Pattern: p, Timber: ctx.Physics.Table().Get, Allowance: ctx.Allow.Length, Selected: panel.NoStrip, Unit: ctx.Unit, Whole: true}
}

// drawYours draws what lies on the bench, to compare.
func drawYours(c *paint.Canvas, r paint.Rect, ctx scene) {
	_, r = r.SplitBottom(1)
	caption, picture := r.SplitBottom(1)
	letters, wood := picture.SplitTop(1)
	p := ctx.State.Pattern
	at := panel.Draw(c, wood, view(p, ctx), ctx.Wood)
	drawLetters(c, letters, at, p.Strips, func(i int) (string, paint.Style) {
		if p.Strips[i].Pinned {
			return "*", paint.Style{}
		}
		return "", paint.Style{}
	}, ctx)
	c.Text(caption.Inset(1, 0), fmt.Sprintf("yours, as it is on the bench: %s, %s wide, %s", tell.Count(len(p.Strips), "strip"), ctx.Report.Figures.Width.With(ctx.Unit), ctx.Report.Level), c.Role(paint.RoleFaint))
}

// drawOne draws layout i: its picture, and beneath it what it uses.
func drawOne(c *paint.Canvas, r paint.Rect, i int, ctx scene) {
	l := ctx.s.shown.Laid[i]
	chosen := i == ctx.s.at
	if r.H > leastEach+1 { // a blank row between two
		_, r = r.SplitBottom(1)
	}
	caption, picture := r.SplitBottom(1)
	v := view(l.Pattern, ctx)
	v.Marks = make([]panel.Mark, len(l.Summary.Lines))
	for n, line := range l.Summary.Lines {
		v.Marks[n] = screen.Mark(line, line.Level)
	}
	if chosen && ctx.s.strip >= 0 {
		v.Selected = ctx.s.strip
	}
	if picture.H < fullPicture {
		letters, wood := picture.SplitTop(1)
		at := panel.Draw(c, wood, v, ctx.Wood)
		drawLetters(c, letters, at, l.Pattern.Strips, func(strip int) (string, paint.Style) { return letterMark(c, strip, i, ctx) }, ctx)
	} else {
		panel.Draw(c, picture, v, ctx.Wood)
	}
	mark, style := screen.Marked(c, chosen)
	c.Fill(caption, ' ', style)
	drawCaption(c, caption.Inset(1, 0), mark+Name(i)+"  ", style, l, ctx)
}

// letterMark returns what stands behind the letters of a strip of layout i, and how they
// look: * where it is pinned, reversed where it is chosen.
func letterMark(c *paint.Canvas, strip, i int, ctx scene) (string, paint.Style) {
	mark, style := "", paint.Style{}
	if pinned(strip, i, ctx) {
		mark = "*"
	}
	if i == ctx.s.at && strip == ctx.s.strip {
		mark, style = mark+"<", c.Role(paint.RoleSelected)
	}
	return mark, style
}

// drawLetters writes the timbers' letters over a picture that has no room for more,
// with a mark and a style for each.
func drawLetters(c *paint.Canvas, r paint.Rect, at panel.Layout, all []pattern.Strip, of func(strip int) (string, paint.Style), ctx scene) {
	for _, s := range at.Strips {
		mark, style := of(s.Strip)
		text := paint.Fit(ctx.Letters(all[s.Strip].Species)+mark, s.W)
		c.TextCentre(paint.Rect{X: s.X, Y: r.Y, W: s.W, H: 1}, text, style)
	}
	if at.Before > 0 || at.After > 0 {
		c.TextRight(r, fmt.Sprintf("%d of %d", len(at.Strips), len(all)), c.Role(paint.RoleFaint))
	}
}

// pinned reports whether a strip of layout i, from 0, is held at its place: in the
// layout, or by what would be asked for next.
func pinned(strip, i int, ctx scene) bool {
	l := ctx.s.shown.Laid[i]
	if l.Pattern.Strips[strip].Pinned {
		return true
	}
	return slices.ContainsFunc(ctx.q.Ask.Pinned, func(p suggest.Pin) bool {
		s := l.Pattern.Strips[strip]
		return p.Place == strip+1 && p.Strip == (pattern.Strip{Species: s.Species, Width: s.Width, Rings: s.Rings, Moisture: s.Moisture})
	})
}

// drawCaption says in one row what timbers stand in, and how a layout stands.
func drawCaption(c *paint.Canvas, r paint.Rect, mark string, style paint.Style, l Candidate, ctx scene) {
	at := c.Text(r, mark, style)
	_, r = r.SplitLeft(at)
	parts := []string{standIns(l, ctx), fmt.Sprintf("colour differs %.1f", l.Same.AwayEach())}
	if line := l.Summary.Worst; line.Known {
		parts = append(parts, fmt.Sprintf("worst %d|%d %s", line.Line, line.Line+1, line.Level))
	}
	if len(l.Same.Timbers) > 1 {
		parts = append(parts, fmt.Sprintf("contrast %.0f", l.Same.SmallestContrast))
	}
	if l.Summary.Mirror {
		parts = append(parts, "mirrored")
	}
	c.TextFit(r, strings.Join(parts, "   "), style)
}

// counts says how many strips a layout has of each timber.
func counts(l Candidate, ctx scene) string {
	parts := make([]string, len(l.Summary.Timbers))
	for i, t := range l.Summary.Timbers {
		parts[i] = fmt.Sprintf("%d %s", t.Strips, ctx.Letters(t.Species))
	}
	return strings.Join(parts, " ")
}

func writeLines(c *paint.Canvas, r paint.Rect, texts []string) {
	row := 0
	for _, text := range texts {
		for _, line := range screen.Wrap(text, r.W) {
			c.Text(r.Row(row), line, paint.Style{})
			row++
		}
	}
}
