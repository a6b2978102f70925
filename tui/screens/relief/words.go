package relief

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/relief"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// faceName is what a face is called.
func faceName(f relief.Face) string {
	if f == relief.Under {
		return "underside"
	}
	return "visible face"
}

// timber returns the timber of a strip, in its own colour where it has one.
func (l scene) timber(strip int) species.Species {
	s := l.s.shown.Pattern.Strips[strip]
	timber, _ := l.Physics.Table().Get(s.Species)
	return timber.As(s.Colour)
}

// worstLines is of how many glue lines the steps are named.
const worstLines = 3

// words lists what stands beneath the drawing, the most wanted first: of each season that is
// drawn its cup and its largest steps, the turn that helps, and what is not known.
func (s Screen) words(ctx screen.Context, columns int) []string {
	var out []string
	for i, season := range s.shown.Seasons {
		if columns == 1 && i != s.season(ctx) {
			continue
		}
		var steps []string
		for _, n := range season.Worst(worstLines) {
			steps = append(steps, fmt.Sprintf("%d|%d about %s", n, n+1, length.Step(season.Lines[n-1].StepUM, 0, ctx.Unit)))
		}
		text := fmt.Sprintf("%v: %s", season.Season, season.Cup(ctx.Unit))
		if len(steps) > 0 {
			text += "; largest steps " + strings.Join(steps, ", ")
		}
		if band := season.MostBandUM(); band > 0 {
			text += "; thin lines: give or take up to " + length.Step(band, 0, ctx.Unit) + " by unknown bark sides"
		}
		out = append(out, text)
	}
	if s.current() && s.shown.Turn.Strip > 0 {
		out = append(out, ctx.Keys.KeyOf(takeTurn)+": "+s.shown.Turn.Text(ctx.Unit))
	}
	if unseen := s.shown.Panel.Unseen(); unseen != "" {
		out = append(out, unseen)
	}
	for _, note := range s.shown.Panel.Notes(ctx.Unit) {
		if note != s.shown.Panel.Unseen() {
			out = append(out, note)
		}
	}
	return out
}

// list writes one number a strip, its crown, and one a glue line, its step, with the chosen
// strip in view, and the words beneath.
func (s Screen) list(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	words := whole(s.words(ctx, len(s.shown.Seasons)), r.W, r.H/2)
	foot, r := r.SplitBottom(len(words))
	c.Lines(foot, words, paint.Style{})
	head, rows := r.SplitTop(1)
	cells := func(first string, of func(relief.Season) string) string {
		text := fmt.Sprintf("%-13s", first)
		for _, season := range s.shown.Seasons {
			text += fmt.Sprintf("%-22s", of(season))
		}
		return strings.TrimRight(text, " ")
	}
	c.TextFit(head, cells(faceName(s.face), func(season relief.Season) string { return season.Season.String() + " season" }), c.Role(paint.RoleTitle))
	strips := s.shown.Pattern.Strips
	list := screen.List{Rows: rows, N: 2*len(strips) - 1, At: 2 * ctx.State.Selected}
	list.Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		n := i / 2
		text := cells(fmt.Sprintf("%s%d %s", mark, n+1, ctx.Letters(strips[n].Species)), func(season relief.Season) string {
			if s.face == relief.Under {
				return season.Strips[n].Under().In(ctx.Unit)
			}
			return season.Strips[n].Crown().In(ctx.Unit)
		})
		if i%2 == 1 {
			style = c.Role(paint.RoleFaint)
			text = cells(fmt.Sprintf("  %d|%d", n+1, n+2), func(season relief.Season) string { return season.Lines[n].Step().In(ctx.Unit) })
		}
		c.TextFit(row, text, style)
	})
}
