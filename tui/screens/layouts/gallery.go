package layouts

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A gallery says where new layouts lie: side by side to scale where there is room for it, else
// one a row; and the chosen one large.
type gallery struct {
	list  paint.Rect   // one a row
	cells []paint.Rect // of each in view, side by side
	first int          // in view
	large paint.Rect
	words paint.Rect
	left  paint.Rect // what was left out, and why
}

// The least that a layout takes side by side, and the rows of its caption and below it.
const (
	cellWide, cellHigh = 16, 10
	captionRows        = 5
)

// places returns how many layouts there is place for: those that are shown, or while they are
// sought as many as are asked for, so that what comes does not move what is there; and yours
// behind them, where there is one.
func (ctx scene) places() int {
	n := len(ctx.s.shown.Laid)
	if ctx.s.works && ctx.s.shown.Part {
		n = max(n, ctx.s.asked.Ask.Layouts)
	}
	if len(ctx.State.Pattern.Strips) > 0 {
		n++
	}
	return n
}

// spread returns where new layouts lie in r; side is the column beside it, or empty.
func spread(r, side paint.Rect, ctx scene) gallery {
	var g gallery
	if n := ctx.places(); !side.Empty() && r.W >= cellWide && r.H >= cellHigh {
		g.words = side
		_, inner := side.SplitLeft(2)
		g.large, g.words = side.SplitTop(min(side.H/2, (side.W+3)/2+largeRows))
		_, g.large = g.large.SplitLeft(2)
		if notes := ctx.leftOut(inner.W-1, g.words.H/3); len(notes) > 0 {
			g.left, g.words = g.words.SplitBottom(len(notes) + 1)
			_, g.left = g.left.SplitLeft(2)
		}
		_, r = r.SplitLeft(1)
		g.cells, g.first = grid(r, n, ctx)
		return g
	}
	g.large, r = r.SplitRight(min(r.W*3/8, 2*r.H-largeRows))
	_, g.large = g.large.SplitLeft(1)
	g.large.W--
	g.list, g.words = r.SplitTop(max(1, min(len(ctx.s.shown.Laid), r.H-listWords)))
	return g
}

// listWords is how many rows words have beneath a list at least.
const listWords = 4

// grid parts r among n layouts so that they are as large as can be, and says which of them is
// the first in view.
func grid(r paint.Rect, n int, ctx scene) (cells []paint.Rect, first int) {
	best, cols, rows := -1.0, 1, 1
	wide, long := max(1, ctx.s.shown.Of.Ask.Width.MM()), max(1, ctx.s.shown.Of.Ask.Length.MM())
	for c := 1; c <= max(1, r.W/cellWide); c++ {
		in := min((n+c-1)/c, max(1, r.H/cellHigh))
		w, h := float64(r.W/c-2), float64(2*(r.H/in-captionRows-1))
		size := max(min(w/wide, h/long), min(w/long, h/wide)) * min(1, float64(c*in)/float64(n)) // and how many are in view
		if size > best+1e-9 {
			best, cols, rows = size, c, in
		}
	}
	if n > cols*rows {
		first = max(0, (ctx.s.at/cols-rows+1)*cols)
	}
	w, h := r.W/cols, r.H/rows
	for i := range min(n-first, cols*rows) {
		cells = append(cells, paint.Rect{X: r.X + i%cols*w, Y: r.Y + i/cols*h, W: w - 1, H: h})
	}
	return cells, first
}

// at returns the layout at a cell.
func (g gallery) at(x, y int, ctx scene) (int, bool) {
	for i, cell := range g.cells {
		if cell.Contains(x, y) {
			return g.first + i, g.first+i < len(ctx.s.shown.Laid)
		}
	}
	if !g.list.Contains(x, y) {
		return 0, false
	}
	return screen.List{Rows: g.list, N: len(ctx.s.shown.Laid), At: ctx.s.at}.On(y)
}

// draw draws new layouts.
func (g gallery) draw(c *paint.Canvas, ctx scene) {
	laid := ctx.s.shown.Laid
	for i, cell := range g.cells {
		switch n := g.first + i; {
		case n < len(laid):
			drawCell(c, cell, n, ctx)
		case n == ctx.places()-1 && len(ctx.State.Pattern.Strips) > 0:
			ctx.drawYours(c, cell)
		}
	}
	rows := screen.List{Rows: g.list, N: len(laid), At: ctx.s.at}
	if !g.list.Empty() {
		rows.Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) { drawRow(c, row, i, mark, style, ctx) })
	}
	drawLarge(c, g.large, ctx)
	row := 0
	for _, line := range ctx.leftOut(g.left.W-1, g.left.H) {
		c.Text(g.left.Row(row), line, c.Role(paint.RoleFaint))
		row++
	}
}

// leftOut says what was left out, and why where that finds room in so many rows.
func (ctx scene) leftOut(w, rows int) []string {
	var lines []string
	for _, out := range ctx.s.shown.leftOut {
		lines = append(lines, screen.Wrap(leftOutWords(out), w)...)
	}
	if len(lines) > rows {
		return screen.Wrap(ctx.leftOutBrief(), w)
	}
	return lines
}

// leftOutBrief names the looks that were left out.
func (ctx scene) leftOutBrief() string {
	if len(ctx.s.shown.leftOut) == 0 {
		return ""
	}
	text := "Left out: "
	for i, out := range ctx.s.shown.leftOut {
		if i > 0 {
			text += ", "
		}
		text += out.Look.String()
	}
	return text + "; " + ctx.Keys.KeyOf(layTell) + " says why."
}

// leftOutWords says why there is no layout of a look.
func leftOutWords(out suggest.LeftOut) string {
	sure := "not proved"
	if out.Proved {
		sure = "proved"
	}
	return fmt.Sprintf("no %v: %s (%s)", out.Look, out.Why, sure)
}

// drawCell draws layout i among others: to scale, and beneath it what it is.
func drawCell(c *paint.Canvas, r paint.Rect, i int, ctx scene) {
	l := ctx.s.shown.Laid[i]
	r = drawThumb(c, r, l.Pattern, ctx)
	mark, style := screen.Marked(c, i == ctx.s.at)
	c.Fill(r.Row(0), ' ', style)
	c.TextFit(r.Row(0), mark+Name(i)+"  "+lookName(l), style)
	of := counts(l, ctx)
	if paint.Width(of) > r.W-2 {
		of = timbersOf(l, ctx)
	}
	for row, text := range []string{of, worstBrief(l), sureBrief(l), measure(l, ctx)} {
		_, at := r.Row(row + 1).SplitLeft(2)
		c.TextFit(at, text, paint.Style{})
	}
}

// drawThumb draws strips to scale, and returns what is left of r below them.
func drawThumb(c *paint.Canvas, r paint.Rect, p pattern.Pattern, ctx scene) paint.Rect {
	picture, _ := r.SplitTop(r.H - captionRows - 1)
	v := view(p, ctx)
	v.Whole, v.Lies = false, panel.ThumbLies(v, picture)
	spans := panel.Thumb(c, picture, v, ctx.Wood)
	rows := 0
	if n := len(spans); n > 0 && v.Lies {
		rows = (spans[n-1].X + spans[n-1].W + 1) / 2
	} else if n > 0 {
		rows = spans[0].To
	}
	_, r = r.SplitTop(rows)
	return r
}

// drawYours draws what lies on the bench, to compare.
func (ctx scene) drawYours(c *paint.Canvas, r paint.Rect) {
	r = drawThumb(c, r, ctx.State.Pattern, ctx)
	for row, text := range []string{"yours", ctx.Report.Figures.Width.With(ctx.Unit) + " wide", ctx.Report.Level.String()} {
		_, at := r.Row(row).SplitLeft(2)
		c.TextFit(at, text, c.Role(paint.RoleFaint))
	}
}

// timbersOf names the timbers of a layout by their letters.
func timbersOf(l Candidate, ctx scene) string {
	text := ""
	for i, t := range l.Summary.Timbers {
		if i > 0 {
			text += " "
		}
		text += ctx.Letters(t.Species)
	}
	return text
}

// drawRow draws layout i in one row: its name and look, its strips, and how it stands.
func drawRow(c *paint.Canvas, r paint.Rect, i int, mark string, style paint.Style, ctx scene) {
	const names, least, most = 13, 12, 40
	l := ctx.s.shown.Laid[i]
	r = r.Inset(1, 0)
	c.Fill(r, ' ', style)
	c.TextFit(r, mark+Name(i)+"  "+lookName(l), style)
	_, r = r.SplitLeft(names)
	says := worstBrief(l) + ", " + sureBrief(l)
	strips, r := r.SplitLeft(min(most, max(least, r.W-len("take care, not proved")-1)))
	v := view(l.Pattern, ctx)
	panel.Thumb(c, strips, v, ctx.Wood)
	_, r = r.SplitLeft(1)
	c.TextFit(r, says, style)
}

// Rows about the chosen layout: of letters, fewer where it is low, and of marks and choice.
const (
	letterRows = 3
	fewLetters = 2
	lowLarge   = 16
	markRows   = 2
	largeRows  = letterRows + markRows
)

// drawLarge draws the chosen layout as large as r lets it, with letters, the marks of its glue
// lines, and the chosen strip.
func drawLarge(c *paint.Canvas, r paint.Rect, ctx scene) {
	if ctx.s.at >= len(ctx.s.shown.Laid) || r.H <= largeRows {
		return
	}
	l := ctx.s.shown.Laid[ctx.s.at]
	v := view(l.Pattern, ctx)
	v.Whole = false
	if v.Lies = panel.ThumbLies(v, r); v.Lies {
		_, wood := r.SplitLeft(lyingNames)
		for _, s := range panel.Thumb(c, wood, v, ctx.Wood) {
			if s.W > 1 || s.X%2 == 0 {
				text, style := letterMark(c, s.Strip, ctx.s.at, ctx)
				c.TextFit(paint.Rect{X: r.X, Y: r.Y + (2*s.X+s.W)/4, W: lyingNames, H: 1}, ctx.Letters(l.Pattern.Strips[s.Strip].Species)+text, style)
			}
		}
		return
	}
	rows := letterRows
	if r.H < lowLarge {
		rows = fewLetters
	}
	letters, wood := r.SplitTop(rows)
	wood.H -= markRows
	spans := panel.Thumb(c, wood, v, ctx.Wood)
	if len(spans) > 0 {
		drawLarger(c, r.X, letters, wood.Y+spans[0].To, spans, l, ctx)
	}
}

// turns returns in how many rows letters stand by turns so that none touches another, or at most.
func turns(spans []panel.Span, most int) int {
	const room = 3 // for two letters and a blank
	for rows := 1; rows < most; rows++ {
		touch := false
		for i := rows; i < len(spans); i++ {
			touch = touch || lettersAt(spans[i])-lettersAt(spans[i-rows]) < room
		}
		if !touch {
			return rows
		}
	}
	return most
}

// lettersAt returns the column in which the letters of a strip begin, from the left of the panel.
func lettersAt(s panel.Span) int { return max(0, (2*s.X+s.W)/4-1) }

// drawLarger draws what stands above and below the chosen layout: letters, by turns in several
// rows where strips are narrow; marks, and the chosen strip.
func drawLarger(c *paint.Canvas, left int, letters paint.Rect, below int, spans []panel.Span, l Candidate, ctx scene) {
	rows := turns(spans, letters.H)
	ends := make([]int, rows) // where letters may begin
	for i, s := range spans {
		middle := left + (2*s.X+s.W)/4
		text, style := letterMark(c, s.Strip, ctx.s.at, ctx)
		name := ctx.Letters(l.Pattern.Strips[s.Strip].Species) + text
		from := left + lettersAt(s)
		if row := i % rows; from >= ends[row] || s.Strip == ctx.s.strip {
			c.TextFit(paint.Rect{X: from, Y: letters.Bottom() - rows + row, W: min(paint.Width(name), letters.Right()+1-from), H: 1}, name, style)
			ends[row] = from + paint.Width(name) + 1
		}
		if i > 0 && i <= len(l.Summary.Lines) {
			if mark := screen.Mark(l.Summary.Lines[i-1], l.Summary.Lines[i-1].Level); mark.Rune != 0 {
				c.Set(left+s.X/2, below, mark.Rune, c.Role(mark.Role))
			}
		}
		if s.Strip == ctx.s.strip {
			c.Set(middle, below+1, '^', c.Role(paint.RoleKey))
		}
	}
}

// lyingNames is the room before a panel that lies for the letters of its strips.
const lyingNames = 5

// lookName is what a layout is called by its look, or by its strips where none was asked for.
func lookName(l Candidate) string {
	if len(l.Layout.Strips) > 0 && !l.Sought {
		return fmt.Sprintf("%d strips", len(l.Layout.Strips))
	}
	return l.Layout.Look.String()
}

// worstBrief is the level of the worst glue line.
func worstBrief(l Candidate) string {
	if !l.Summary.Worst.Known && l.Summary.Worst.Line > 0 {
		return "no figure"
	}
	return max(pattern.Fine, l.Summary.Worst.Level).String()
}

// sureBrief says whether a layout is proved.
func sureBrief(l Candidate) string {
	if l.Layout.Proved {
		return "proved"
	}
	return "not proved"
}

// measure says what layouts are ordered by: the share of use-first wood, or the contrast.
func measure(l Candidate, ctx scene) string {
	if ctx.s.shown.Aim == suggest.UseUp || l.Layout.UseFirst > 0 {
		return fmt.Sprintf("use-first %.0f %%", math.Floor(l.Summary.FirstPct))
	}
	return fmt.Sprintf("contrast %.0f", l.Layout.SmallestContrast)
}
