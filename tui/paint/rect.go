package paint

// A Rect is a rectangle of cells. One without width or height is empty and holds
// nothing; a negative size is empty too.
type Rect struct{ X, Y, W, H int }

// Empty reports whether r holds no cell.
func (r Rect) Empty() bool { return r.W <= 0 || r.H <= 0 }

// Right returns the first column right of r.
func (r Rect) Right() int { return r.X + r.W }

// Bottom returns the first row below r.
func (r Rect) Bottom() int { return r.Y + r.H }

// Contains reports whether the cell at x, y lies in r.
func (r Rect) Contains(x, y int) bool {
	return x >= r.X && x < r.X+r.W && y >= r.Y && y < r.Y+r.H
}

// Intersect returns what r and s share, with a size of 0 where they share nothing.
func (r Rect) Intersect(s Rect) Rect {
	x, y := max(r.X, s.X), max(r.Y, s.Y)
	return Rect{
		X: x, Y: y,
		W: max(0, min(r.Right(), s.Right())-x),
		H: max(0, min(r.Bottom(), s.Bottom())-y),
	}
}

// Inset returns r without dx columns on the left and right and dy rows above and
// below.
func (r Rect) Inset(dx, dy int) Rect {
	return Rect{X: r.X + dx, Y: r.Y + dy, W: max(0, r.W-2*dx), H: max(0, r.H-2*dy)}
}

// SplitTop returns the upper n rows of r, and the rest. Where r has fewer, the rest
// is empty.
func (r Rect) SplitTop(n int) (top, rest Rect) {
	n = min(max(0, n), max(0, r.H))
	return Rect{r.X, r.Y, r.W, n}, Rect{r.X, r.Y + n, r.W, r.H - n}
}

// SplitBottom returns the lower n rows of r, and the rest.
func (r Rect) SplitBottom(n int) (bottom, rest Rect) {
	n = min(max(0, n), max(0, r.H))
	return Rect{r.X, r.Bottom() - n, r.W, n}, Rect{r.X, r.Y, r.W, r.H - n}
}

// SplitLeft returns the left n columns of r, and the rest.
func (r Rect) SplitLeft(n int) (left, rest Rect) {
	n = min(max(0, n), max(0, r.W))
	return Rect{r.X, r.Y, n, r.H}, Rect{r.X + n, r.Y, r.W - n, r.H}
}

// SplitRight returns the right n columns of r, and the rest.
func (r Rect) SplitRight(n int) (right, rest Rect) {
	n = min(max(0, n), max(0, r.W))
	return Rect{r.Right() - n, r.Y, n, r.H}, Rect{r.X, r.Y, r.W - n, r.H}
}

// Row returns row n of r, counted from 0 at the top; it is empty where r has no such
// row.
func (r Rect) Row(n int) Rect {
	return Rect{r.X, r.Y + n, r.W, 1}.Intersect(r)
}

// Centred returns a rectangle of w by h in the middle of r, at most as large as r.
func (r Rect) Centred(w, h int) Rect {
	w, h = min(max(0, w), max(0, r.W)), min(max(0, h), max(0, r.H))
	return Rect{r.X + (r.W-w)/2, r.Y + (r.H-h)/2, w, h}
}
