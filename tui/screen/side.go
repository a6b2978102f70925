package screen

import "example.com/oddments/tui/paint"

// SideFrom is the width from which words have a column of their own beside the picture.
const SideFrom = 112

// SplitSide returns the column at the right of r in which words stand beside the picture,
// and the rest; r narrower than SideFrom has no such column.
func SplitSide(r paint.Rect) (side, rest paint.Rect) {
	const least, most, share = 44, 66, 3 // cells, and a third of the width
	if r.W < SideFrom {
		return paint.Rect{}, r
	}
	side, rest = r.SplitRight(min(most, max(least, r.W/share)))
	_, side = side.SplitLeft(1)
	return side, rest
}

// DrawRule draws the line between a side column and what stands left of it.
func DrawRule(c *paint.Canvas, side paint.Rect) {
	c.Fill(paint.Rect{X: side.X - 1, Y: side.Y, W: 1, H: side.H}, '│', c.Role(paint.RoleFaint))
}
