package paint

// The half blocks: a cell's upper and lower half in colours of their own.
const (
	upperHalf = '▀'
	lowerHalf = '▄'
)

type cell struct {
	r     rune
	style Style
}

// A Canvas is a frame being drawn. What is drawn outside of it is left out. It may
// be used again for the next frame (Reset), which spares the memory; it is not for
// several goroutines at once.
type Canvas struct {
	w, h    int
	cells   []cell
	palette *Palette
	out     []byte
}

// New returns a blank canvas of w by h cells in a profile.
func New(w, h int, p Profile) *Canvas { return NewWith(w, h, NewPalette(p)) }

// NewWith is New with a palette that other canvases have used before, so that its
// searches are not done again.
func NewWith(w, h int, palette *Palette) *Canvas {
	c := &Canvas{palette: palette}
	c.Reset(w, h)
	return c
}

// Reset makes the canvas w by h blank cells.
func (c *Canvas) Reset(w, h int) {
	c.w, c.h = max(0, w), max(0, h)
	if n := c.w * c.h; n <= cap(c.cells) {
		c.cells = c.cells[:n]
	} else {
		c.cells = make([]cell, n)
	}
	for i := range c.cells {
		c.cells[i] = cell{r: ' '}
	}
}

// Bounds returns the whole canvas as a rectangle.
func (c *Canvas) Bounds() Rect { return Rect{W: c.w, H: c.h} }

// Palette returns the canvas's palette.
func (c *Canvas) Palette() *Palette { return c.palette }

// Profile returns the colours that the canvas is drawn for.
func (c *Canvas) Profile() Profile { return c.palette.profile }

// Role returns the look of a role on this canvas.
func (c *Canvas) Role(r Role) Style { return c.palette.looks[r] }

// Set puts one character at x, y; one that is no printable character of one
// cell's width becomes a stand-in.
func (c *Canvas) Set(x, y int, r rune, s Style) {
	if x < 0 || y < 0 || x >= c.w || y >= c.h {
		return
	}
	c.cells[y*c.w+x] = cell{r: printable(r), style: s}
}

// Restyle gives every cell of r another style and leaves its character.
func (c *Canvas) Restyle(r Rect, s Style) {
	r = r.Intersect(c.Bounds())
	for y := r.Y; y < r.Bottom(); y++ {
		row := c.cells[y*c.w+r.X : y*c.w+r.Right()]
		for i := range row {
			row[i].style = s
		}
	}
}

// Fill puts the same character into every cell of r.
func (c *Canvas) Fill(r Rect, char rune, s Style) {
	r = r.Intersect(c.Bounds())
	fill := cell{r: printable(char), style: s}
	for y := r.Y; y < r.Bottom(); y++ {
		row := c.cells[y*c.w+r.X : y*c.w+r.Right()]
		for i := range row {
			row[i] = fill
		}
	}
}

// Halves paints the cell at x, y in two halves. It is for profiles that show wood; in
// others the cell becomes blank. Either half may be Default, which leaves it to the
// terminal's background.
func (c *Canvas) Halves(x, y int, top, bottom Colour) {
	if x < 0 || y < 0 || x >= c.w || y >= c.h {
		return
	}
	to := &c.cells[y*c.w+x]
	switch {
	case !c.palette.profile.ShowsWood() || top == bottom:
		*to = cell{r: ' ', style: Style{BG: top}}
	case top == Default:
		*to = cell{r: lowerHalf, style: Style{FG: bottom}}
	default:
		*to = cell{r: upperHalf, style: Style{FG: top, BG: bottom}}
	}
}
