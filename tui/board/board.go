// Package board draws the board that second glue-ups give, to scale: every cell in its
// timber's oiled colour, or in its texture where the terminal shows no wood colours, bars
// from left to right with their numbers beneath.
//
// The datum end is at the left and edge A at the top. Sizes on the screen are cells; the
// halves of a cell are square, and they are what the board is painted with. The chosen
// strip's cells have its number, so that it can be followed through the bars.
package board

import (
	"fmt"
	"strconv"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
)

// A View is what is to be seen of a board.
type View struct {
	Pattern  pattern.Pattern
	Up       second.GlueUp                            // that gives the board
	Timber   func(key string) (species.Species, bool) // looks a timber up
	Selected int                                      // the chosen strip, from 0; below 0: none
	Marks    map[int]panel.Mark                       // by bar line, from 1
	Unit     length.Unit
}

// Draw draws v into r: what it is, the board, and the numbers of its bars.
func Draw(c *paint.Canvas, r paint.Rect, v View) {
	r = r.Intersect(c.Bounds())
	head, rest := r.SplitTop(1)
	c.Text(head.Inset(1, 0), v.title(), paint.Style{})
	numbers, wood := rest.SplitBottom(1)
	if wood.Empty() || len(v.Up.Cells) == 0 {
		return
	}
	d := newDrawing(c, v, wood)
	if c.Profile().ShowsWood() {
		d.paint()
	} else {
		d.letter()
	}
	d.chosen()
	d.bars(numbers.Y)
}

// title says what is to be seen, or why there is nothing.
func (v View) title() string {
	g := v.Up
	switch {
	case g.Unlaid:
		return fmt.Sprintf("a board of more than %d cells is not laid", second.MaxCells)
	case g.Size.Length == 0:
		return "no board comes out of the panel"
	}
	lay := "end grain up"
	if !g.EndGrain {
		lay = "long grain"
	}
	return fmt.Sprintf("board %s, %s, %s", tell.Size(v.Unit, g.Size.Length, g.Size.Width, g.Size.Thickness), tell.Count(g.Bars, "bar"), lay)
}

// A drawing has which cell of the board lies at which half of a cell on the screen.
type drawing struct {
	c     *paint.Canvas
	v     View
	at    paint.Rect // of the board
	perMM float64    // halves a millimetre
	cells []int      // by half, row by row: the board's cell, from 0; below 0: none
}

func newDrawing(c *paint.Canvas, v View, r paint.Rect) *drawing {
	size := v.Up.Size
	d := &drawing{c: c, v: v, perMM: min(float64(r.W-2)/size.Length.MM(), float64(2*r.H)/size.Width.MM())}
	w, h := max(1, int(size.Length.MM()*d.perMM)), max(1, int(size.Width.MM()*d.perMM+1)/2)
	d.at = paint.Rect{X: r.X + (r.W-w)/2, Y: r.Y + (r.H-h)/2, W: w, H: min(h, r.H)}
	d.cells = make([]int, d.at.W*2*d.at.H)
	for i := range d.cells {
		d.cells[i] = -1
	}
	for i, cell := range v.Up.Cells {
		d.cover(i, cell)
	}
	return d
}

// cover finds the halves whose middles lie in a cell.
func (d *drawing) cover(i int, cell second.Cell) {
	least, most := cell.Box()
	x0, x1 := int(least.X.MM()*d.perMM), min(d.at.W-1, int(most.X.MM()*d.perMM))
	y0, y1 := int(least.Y.MM()*d.perMM), min(2*d.at.H-1, int(most.Y.MM()*d.perMM))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			if cell.Holds((float64(x)+0.5)/d.perMM, (float64(y)+0.5)/d.perMM) {
				d.cells[y*d.at.W+x] = i
			}
		}
	}
}

// strip returns the strip at a half, from 0; below 0: none.
func (d *drawing) strip(x, half int) int {
	i := d.cells[half*d.at.W+x]
	if i < 0 {
		return i
	}
	return d.v.Up.Cells[i].Strip - 1
}

// timber returns that of a strip.
func (d *drawing) timber(strip int) species.Species {
	s, _ := d.v.Timber(d.v.Pattern.Strips[strip].Species)
	return s
}

// ringed is how much darker the late wood of end grain is drawn.
const ringed = -3

// paint paints every half in the colour of its timber.
func (d *drawing) paint() {
	colours := map[int][2]paint.Colour{}
	of := func(x, half int) paint.Colour {
		strip := d.strip(x, half)
		if strip < 0 {
			return paint.Default
		}
		shades, ok := colours[strip]
		if !ok {
			base := d.v.Pattern.Strips[strip].Colour.Or(d.timber(strip).ColourOiled)
			shades = [2]paint.Colour{paint.Of(base), paint.Of(base.Lighter(ringed))}
			colours[strip] = shades
		}
		return shades[d.v.Up.Cells[d.cells[half*d.at.W+x]].Bars[0]&1] // a bar's neighbours are a hair apart
	}
	for y := range d.at.H {
		for x := range d.at.W {
			d.c.Halves(d.at.X+x, d.at.Y+y, of(x, 2*y), of(x, 2*y+1))
		}
	}
}

// letter fills every cell of the screen with the texture of what lies in it.
func (d *drawing) letter() {
	textures := panel.TexturesIn(d.v.Pattern, d.v.Timber)
	for y := range d.at.H {
		for x := range d.at.W {
			strip := d.strip(x, 2*y)
			if strip < 0 {
				strip = d.strip(x, 2*y+1)
			}
			if strip >= 0 {
				d.c.Set(d.at.X+x, d.at.Y+y, textures[d.v.Pattern.Strips[strip].Species], paint.Style{})
			}
		}
	}
}

// chosen writes the number of the chosen strip into its cells.
func (d *drawing) chosen() {
	if d.v.Selected < 0 || d.v.Selected >= len(d.v.Pattern.Strips) {
		return
	}
	number := strconv.Itoa(d.v.Selected + 1)
	style := d.c.Palette().OnWood(d.timber(d.v.Selected).ColourOiled)
	if !d.c.Profile().ShowsWood() {
		style = paint.Style{}
	}
	for _, cell := range d.v.Up.Cells {
		if cell.Strip-1 != d.v.Selected {
			continue
		}
		least, most := cell.Box()
		if int((most.X-least.X).MM()*d.perMM) < len(number) {
			continue
		}
		x, y := int((least.X+most.X).MM()*d.perMM/2)-len(number)/2, int((least.Y+most.Y).MM()*d.perMM/4)
		for i, r := range number {
			d.c.Set(d.at.X+max(0, min(d.at.W-1, x+i)), d.at.Y+min(d.at.H-1, y), r, style.Bolder())
		}
	}
}

// bars writes the numbers of the bars beneath them, and the marks of the lines between.
func (d *drawing) bars(y int) {
	g := d.v.Up
	faint := d.c.Role(paint.RoleFaint)
	end := -1
	for n := range g.Bars {
		from, to := max(0, length.Length(n)*g.Across-g.Trim), min(g.Size.Length, length.Length(n+1)*g.Across-g.Trim)
		number := strconv.Itoa(n + 1)
		x := int((from+to).MM()*d.perMM/2) - len(number)/2
		if x > end && x >= 0 && x+len(number) <= d.at.W {
			d.c.Text(paint.Rect{X: d.at.X + x, Y: y, W: len(number), H: 1}, number, faint)
			end = x + len(number)
		}
	}
	for line, mark := range d.v.Marks {
		if mark.Rune != 0 {
			x := int((length.Length(line)*g.Across - g.Trim).MM() * d.perMM)
			d.c.Set(d.at.X+min(x, d.at.W-1), y, mark.Rune, d.c.Role(mark.Role))
		}
	}
}
