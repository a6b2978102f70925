// Package bench is the bench: the panel to scale, the chosen strip with its two
// glue lines and the best advice, the timber used, and the keys that matter now.
//
// The panel stands or lies along the screen, whichever way panel.Lies finds better for the
// pattern in the present room. A key turns it; that holds until another pattern is opened or
// the room becomes another. Where it lies, the arrows follow the drawing: up and down go from
// strip to strip, left and right slide (keymap.Map.Lying).
//
// Its keys and the mouse make the hand moves; the root keeps the document. Rectangles are
// in cells of the canvas.
package bench

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/tui/board"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A Layout says where the parts of the bench lie.
type Layout struct {
	Picture paint.Rect
	Chosen  paint.Rect // the chosen strip, one row
	Lines   paint.Rect // its glue lines, one row
	Advice  paint.Rect // two rows, of which the second is the timber's where the advice is short
	Timber  paint.Rect // one row; beside a side column, which tells the same, it is empty
	Side    paint.Rect // findings, seasons and timber; empty where there is no room
}

// infoRows is how many rows beneath the picture tell of the chosen strip.
const infoRows = 4

// Lay parts r. It depends on nothing but r.
func Lay(r paint.Rect) Layout {
	var l Layout
	l.Side, r = screen.SplitSide(r)
	_, r = r.SplitBottom(screen.FooterRows)
	info, r := r.SplitBottom(infoRows)
	l.Chosen, l.Lines = info.Row(0), info.Row(1)
	_, l.Advice = info.SplitTop(2)
	if l.Side.Empty() {
		l.Timber = info.Row(3)
	}
	l.Picture = r
	return l
}

// view returns what the picture shows.
func (s Screen) view(ctx screen.Context) panel.View {
	v := panel.View{
		Pattern: ctx.State.Pattern, Timber: ctx.Physics.Table().Get, Allowance: ctx.Allow.Length,
		Selected: ctx.State.Selected, Unit: ctx.Unit, First: s.first, Lies: s.lies,
		Marks: make([]panel.Mark, len(ctx.Report.Figures.Lines)),
	}
	for i, l := range ctx.Report.Figures.Lines {
		level := ctx.Of(l).Level
		v.Marks[i] = screen.Mark(l, level)
	}
	return v
}

// boardView returns what the picture of the board shows.
func boardView(ctx screen.Context) board.View {
	b := ctx.Report.Figures.Board
	v := board.View{Pattern: ctx.State.Pattern, Up: b.Up(), Timber: ctx.Physics.Table().Get, Selected: ctx.State.Selected,
		Marks: map[int]panel.Mark{}, Unit: ctx.Unit}
	for _, l := range b.Lines {
		if l.Second == len(b.Ups) && l.Level > pattern.Fine {
			v.Marks[l.Line] = screen.Mark(movement.Line{Known: l.Known, Settled: l.Settled}, l.Level)
		}
	}
	return v
}

// showsBoard reports whether the board lies in the panel's place.
func (s Screen) showsBoard(ctx screen.Context) bool {
	return s.board && ctx.Report.Figures.Board != nil
}

// Draw draws the bench into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	l := Lay(r)
	if len(ctx.State.Pattern.Strips) == 0 {
		draft(c, l.Picture, ctx)
	} else if s.showsBoard(ctx) {
		board.Draw(c, l.Picture, boardView(ctx), ctx.Wood)
	} else {
		panel.Draw(c, l.Picture, s.view(ctx), ctx.Wood)
	}
	chosen(c, l.Chosen.Inset(1, 0), ctx)
	lines(c, l.Lines.Inset(1, 0), ctx)
	if rows := s.advice(c, l.Advice.Inset(1, 0), ctx); rows < l.Advice.H && !l.Timber.Empty() {
		timber(c, l.Timber.Inset(1, 0), ctx)
	}
	screen.DrawFooter(c, Footer(r, ctx))
	if !l.Side.Empty() {
		side(c, l.Side, ctx)
	}
}

// draft says what to do with an empty panel.
func draft(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	words := []string{
		"An empty panel.",
		"",
		ctx.Keys.KeyOf("put-in") + " puts in the first strip, " + ctx.Keys.KeyOf("put-in-row") + " a whole row from one line.",
		ctx.Keys.KeyOf(keymap.LayOut) + " shows layouts of what is on the rack.",
		ctx.Keys.KeyOf("set-panel-length") + " sets how long the panel is, " + ctx.Keys.KeyOf("set-thickness") + " how thick, " +
			ctx.Keys.KeyOf("set-panel-width") + " how wide.",
		ctx.Keys.KeyOf(keymap.Open) + " opens a saved pattern, " + ctx.Keys.KeyOf(keymap.Help) + " shows all keys.",
	}
	for i, text := range words {
		c.TextCentre(r.Row(max(0, r.H/2-len(words)/2)+i), text, paint.Style{})
	}
}

// Footer returns the actions that matter now and where they stand.
func Footer(r paint.Rect, ctx screen.Context) []screen.KeyPlace {
	if side := Lay(r).Side; !side.Empty() {
		_, r = r.SplitRight(side.W + 1)
	}
	return screen.Footer(r, ctx.Keys, keymap.Bench, func(id keymap.ID) bool { return matters(id, ctx) })
}

// matters reports whether an action of the footer would do anything now.
func matters(id keymap.ID, ctx screen.Context) bool {
	n := len(ctx.State.Pattern.Strips)
	switch id {
	case "put-in", "put-in-row", keymap.LayOut, keymap.Season, keymap.Undo, keymap.Save, keymap.Unit, keymap.Search, keymap.Quit:
		return true // what is looked for on the bench stands there at all times
	case "bring-back":
		return len(ctx.State.Tray) > 0
	case "select-left", "carry-left", "mirror":
		return n > 1
	case "fill":
		return n > 0 && ctx.State.Pattern.Panel.Width > 0 && ctx.State.Pattern.Panel.Width != ctx.Report.Figures.Width
	case keymap.NextCare:
		return n > 1 && ctx.Report.Level > 0
	case keymap.ShowBoard, "glue-again":
		return len(ctx.State.Pattern.Seconds) > 0
	default:
		return n > 0
	}
}
