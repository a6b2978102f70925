package screen

import "example.com/oddments/tui/paint"

// A List is entries to go through, one a row, of which one is chosen. It stands in the
// middle where there are more than find room.
type List struct {
	Rows paint.Rect
	N    int
	At   int // the chosen one; brought among the entries where it lies beyond them
}

// Among returns at as the place of one of n entries: the first or the last where it lies
// beyond them. Of none it is the first.
func Among(at, n int) int { return max(0, min(at, n-1)) }

// Top returns the first row in view of n rows when h of them find room and row at is to be
// seen in their middle.
func Top(at, n, h int) int { return max(0, min(at-h/2, n-h)) }

// Seen returns the first entry in view, and the one after the last.
func (l List) Seen() (first, after int) {
	first = Top(Among(l.At, l.N), l.N, l.Rows.H)
	return first, min(first+l.Rows.H, l.N)
}

// On returns the entry that stands at row y, and false where there is none.
func (l List) On(y int) (int, bool) {
	first, _ := l.Seen()
	i := first + y - l.Rows.Y
	return i, y >= l.Rows.Y && y < l.Rows.Bottom() && i < l.N
}

// Draw has each entry in view drawn into its row, with the style of the row and the mark
// that its text begins with.
func (l List) Draw(c *paint.Canvas, draw func(i int, row paint.Rect, mark string, style paint.Style)) {
	first, after := l.Seen()
	for i := first; i < after; i++ {
		mark, style := Marked(c, i == Among(l.At, l.N))
		draw(i, l.Rows.Row(i-first), mark, style)
	}
}

// Marked returns what the text of a row begins with, and how it looks.
func Marked(c *paint.Canvas, chosen bool) (mark string, style paint.Style) {
	if chosen {
		return "> ", c.Role(paint.RoleSelected)
	}
	return "  ", paint.Style{}
}
