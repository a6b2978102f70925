package planview

import (
	"fmt"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// picture draws the chosen piece end on at the left, along and with its fence settings
// at the right.
func (l Screen) picture(c *paint.Canvas, r paint.Rect, d worksteps.Detail, ctx screen.Context) {
	if r.H < 4 || len(d.Sections) == 0 {
		return
	}
	left, right := r.SplitLeft(min(r.W*2/5, 44))
	endOn(c, left, d, ctx)
	_, right = right.SplitLeft(2)
	along(c, right, d, ctx)
	_, right = right.SplitTop(4)
	settings(c, right, d, ctx)
}

// endOn draws the stack of the first section: slices one above another, strips side by
// side, to scale across.
func endOn(c *paint.Canvas, r paint.Rect, d worksteps.Detail, ctx screen.Context) {
	u, s := ctx.Unit, d.Sections[0]
	title := fmt.Sprintf("%s end on, %s x %s", d.Cut.Piece, s.Across.Format(u), s.Through.Format(u))
	if s.Side {
		title += ", resawn across its width"
	}
	c.TextFit(r.Row(0), title, c.Role(paint.RoleHeading))
	_, box := r.SplitTop(1)
	figures := 7
	for _, sl := range s.Slices { // no figure may be cut to another
		figures = max(figures, paint.Width(sl.Comes.Format(u))+1)
	}
	figures = max(figures, paint.Width(s.Slab.Format(u))+1)
	box, labels := box.SplitLeft(max(4, box.W-figures))
	cells := func(at length.Length) int {
		return min(box.W-1, int(float64(box.W-1)*float64(at)/float64(max(1, s.Across))))
	}
	row := box
	label := func(at length.Length) {
		c.Text(paint.Rect{X: labels.X + 1, Y: row.Y + 1, W: labels.W - 1, H: 1}, at.Format(u), c.Role(paint.RoleFaint))
	}
	for i, sl := range s.Slices {
		if row.H < 2 {
			c.Text(box.Row(box.H-1), fmt.Sprintf("and %d slices more", len(s.Slices)-i), c.Role(paint.RoleFaint))
			return
		}
		c.Fill(row.Row(0), '─', paint.Style{})
		for _, strip := range sl.Strips {
			from, to := cells(strip.From), cells(strip.From+strip.Across)
			end(c, paint.Rect{X: box.X + from, Y: row.Y + 1, W: to - from + 1, H: 1}, strip, ctx)
		}
		if len(sl.Fill.Widths) > 0 {
			from, to := cells(sl.RipFrom-sl.Fill.Takes), cells(sl.RipFrom)
			c.TextFit(paint.Rect{X: box.X + from, Y: row.Y + 1, W: max(0, to-from), H: 1}, "rack", c.Role(paint.RoleFaint))
		}
		if sl.RipLeft > 0 {
			from := cells(sl.RipFrom)
			c.Text(paint.Rect{X: box.X + from, Y: row.Y + 1, W: max(0, box.W-from), H: 1}, "back", c.Role(paint.RoleFaint))
		}
		label(sl.Comes)
		_, row = row.SplitTop(2)
	}
	c.Fill(row.Row(0), '─', paint.Style{})
	if s.Slab > 0 && row.H > 1 {
		c.Text(row.Row(1), " spare thickness, back", c.Role(paint.RoleFaint))
		label(s.Slab)
	}
}

// end draws the end of one strip with its number, in its timber where that is shown.
func end(c *paint.Canvas, r paint.Rect, strip worksteps.StripDetail, ctx screen.Context) {
	style := paint.Style{}
	if timber, ok := ctx.Physics.Table().Get(strip.Species); ok && c.Profile().ShowsWood() {
		style = c.Palette().OnWood(timber.ColourOiled)
		c.Fill(r.Inset(1, 0), ' ', style)
	}
	c.Set(r.X, r.Y, '│', paint.Style{})
	c.Set(r.Right()-1, r.Y, '│', paint.Style{})
	c.Text(r.Inset(1, 0), strip.Ref.Name(), style)
}

// along draws the sections one behind another, to scale.
func along(c *paint.Canvas, r paint.Rect, d worksteps.Detail, ctx screen.Context) {
	u := ctx.Unit
	c.TextFit(r.Row(0), fmt.Sprintf("%s along, %s long", d.Cut.Piece, d.Piece.Length.Format(u)), c.Role(paint.RoleHeading))
	bar := r.Row(1)
	cells := func(at length.Length) int {
		return min(bar.W-1, int(float64(bar.W-1)*float64(at)/float64(max(1, d.Piece.Length))))
	}
	c.Fill(bar, '~', c.Role(paint.RoleFaint))
	waste := bar.W
	for _, s := range d.Sections {
		from, to := cells(s.From), cells(s.From+s.Length)
		part := paint.Rect{X: bar.X + from, Y: bar.Y, W: max(1, to-from+1), H: 1}
		waste -= part.W
		c.Fill(part, '─', paint.Style{})
		c.Set(part.X, part.Y, '├', paint.Style{})
		c.Set(part.Right()-1, part.Y, '┤', paint.Style{})
		c.TextCentre(part.Inset(1, 0), paint.Fit(s.Length.Format(u), max(0, part.W-2)), paint.Style{})
	}
	if d.Cut.Tail > 0 {
		_, rest := bar.SplitLeft(cells(d.TailFrom))
		waste -= rest.W
		c.Fill(rest, ' ', paint.Style{})
		c.TextFit(rest, " end "+d.Cut.Tail.Format(u), c.Role(paint.RoleFaint))
	}
	c.TextFit(r.Row(3), explained(d), paint.Style{})
	if waste > 0 {
		c.TextFit(r.Row(2), "~ trim or waste", c.Role(paint.RoleFaint))
	}
}

// settings lists where the fences and the stop stand for this piece.
func settings(c *paint.Canvas, r paint.Rect, d worksteps.Detail, ctx screen.Context) {
	all := d.Settings()
	for i, s := range all {
		c.TextFit(r.Row(i), fmt.Sprintf("%-15s %s", s.Name, s.Text(ctx.Unit)), paint.Style{})
	}
	what := "true it, resaw, plane, rip, crosscut last"
	if d.Piece.Planed {
		what = "is planed: rip, crosscut last"
	}
	c.TextFit(r.Row(len(all)), what, c.Role(paint.RoleFaint))
	_, r = r.SplitTop(len(all) + 1)
	pieceFills(c, r, d, ctx)
}
