// Package board draws the board that second glue-ups give, to scale: every cell in its
// timber's oiled colour, or in its texture where the terminal shows no wood colours, bars
// with their numbers.
//
// A board lies with its datum end at the left and edge A at the top, or, where it is larger
// so, stands with its datum end at the bottom and edge A at the left. Sizes on the screen are cells; the
// halves of a cell are square, and they are what the board is painted with. The chosen
// strip's cells have its number, so that it can be followed through the bars.
package board

import (
	"fmt"
	"slices"
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

// parts parts r into the row that says what is seen, the board and the numbers of its bars.
func parts(r paint.Rect) (head, wood, numbers paint.Rect) {
	head, rest := r.SplitTop(1)
	numbers, wood = rest.SplitBottom(1)
	return head, wood, numbers
}

// At returns the cell of the board, from 0, that is drawn at a place of the screen, where v is
// drawn into r.
func At(v View, r paint.Rect, x, y int) (cell int, ok bool) {
	_, wood, _ := parts(r)
	if wood.Empty() || len(v.Up.Cells) == 0 {
		return 0, false
	}
	at, perMM, stands := place(v.Up.Size, wood)
	along, across := v.board().At(stands, (float64(x-at.X)+0.5)/perMM, float64(2*(y-at.Y)+1)/perMM)
	cell = slices.IndexFunc(v.Up.Cells, func(c second.Cell) bool { return c.Holds(along, across) })
	return cell, at.Contains(x, y) && cell >= 0
}

// numbersW is the room that the numbers of bars take at the left of a board that stands.
const numbersW = 5

// place returns where a board of a size is drawn, how many halves a millimetre has, and
// whether it stands.
func place(size second.Size, r paint.Rect) (at paint.Rect, perMM float64, stands bool) {
	long, wide := size.Length.MM(), size.Width.MM()
	perMM = min(float64(r.W-2)/long, float64(2*r.H)/wide)
	if standing := min(float64(r.W-2-numbersW)/wide, float64(2*r.H)/long); standing > perMM {
		perMM, stands = standing, true
		long, wide = wide, long
	}
	w, h := max(1, int(long*perMM)), max(1, int(wide*perMM+1)/2)
	return paint.Rect{X: r.X + (r.W-w)/2, Y: r.Y + (r.H-h)/2, W: w, H: min(h, r.H)}, perMM, stands
}

// Stands reports whether v is drawn standing in r.
func Stands(v View, r paint.Rect) bool {
	_, wood, _ := parts(r)
	if v.Up.Size.Length == 0 || wood.Empty() {
		return false
	}
	_, _, stands := place(v.Up.Size, wood)
	return stands
}

// Draw draws v into r: what it is, the board, and the numbers of its bars.
func Draw(c *paint.Canvas, r paint.Rect, v View, palette *panel.Palette) {
	r = r.Intersect(c.Bounds())
	head, wood, numbers := parts(r)
	c.Text(head.Inset(1, 0), v.title(), paint.Style{})
	if wood.Empty() || len(v.Up.Cells) == 0 {
		return
	}
	d := newDrawing(c, v, wood)
	if c.Profile().ShowsWood() {
		d.paint(palette)
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

// A drawing is the board where it lies on the screen.
type drawing struct {
	c      *paint.Canvas
	v      View
	at     paint.Rect // of the board
	perMM  float64    // halves a millimetre
	stands bool
	tiles  panel.Tiles
}

func newDrawing(c *paint.Canvas, v View, r paint.Rect) *drawing {
	d := &drawing{c: c, v: v}
	d.at, d.perMM, d.stands = place(v.Up.Size, r)
	d.tiles = panel.TilesOf(v.board(), v.Timber, d.stands, d.at.W, 2*d.at.H, d.perMM, d.perMM)
	return d
}

func (v View) board() panel.Board { return panel.Board{Up: v.Up, Strips: v.Pattern.Strips} }

// timber returns that of a strip.
func (d *drawing) timber(strip int) species.Species {
	s, _ := d.v.Timber(d.v.Pattern.Strips[strip].Species)
	return s
}

// paint paints every half in the colour of its timber.
func (d *drawing) paint(palette *panel.Palette) {
	halves := make([]paint.Colour, d.at.W*2*d.at.H)
	d.tiles.Paint(d.c.Palette(), palette, func(x, half int, c paint.Colour) { halves[half*d.at.W+x] = c })
	for y := range d.at.H {
		for x := range d.at.W {
			d.c.Halves(d.at.X+x, d.at.Y+y, halves[2*y*d.at.W+x], halves[(2*y+1)*d.at.W+x])
		}
	}
}

// letter fills every cell of the screen with the texture of what lies in it.
func (d *drawing) letter() {
	d.tiles.Letters(func(x, y int, r rune) { d.c.Set(d.at.X+x, d.at.Y+y, r, paint.Style{}) })
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
		left, top := d.v.board().Seen(d.stands, (least.X+most.X).MM()/2, (least.Y+most.Y).MM()/2)
		wide := (most.X - least.X).MM()
		if d.stands {
			wide = (most.Y - least.Y).MM()
		}
		if int(wide*d.perMM) < len(number) {
			continue
		}
		x, y := int(left*d.perMM)-len(number)/2, int(top*d.perMM/2)
		for i, r := range number {
			d.c.Set(d.at.X+max(0, min(d.at.W-1, x+i)), d.at.Y+min(d.at.H-1, y), r, style.Bolder())
		}
	}
}

// bars writes the numbers of the bars beneath them, or beside them where the board stands, and
// the marks of the lines between.
func (d *drawing) bars(y int) {
	g := d.v.Up
	if d.stands {
		d.rows()
		return
	}
	faint := d.c.Role(paint.RoleFaint)
	end := -1
	for n := range g.Bars {
		from, to := d.v.board().Line(n), d.v.board().Line(n+1)
		number := strconv.Itoa(n + 1)
		x := int((from+to).MM()*d.perMM/2) - len(number)/2
		if x > end && x >= 0 && x+len(number) <= d.at.W {
			d.c.Text(paint.Rect{X: d.at.X + x, Y: y, W: len(number), H: 1}, number, faint)
			end = x + len(number)
		}
	}
	for line, mark := range d.v.Marks {
		if mark.Rune != 0 {
			x := int(d.v.board().Line(line).MM() * d.perMM)
			d.c.Set(d.at.X+min(x, d.at.W-1), y, mark.Rune, d.c.Role(mark.Role))
		}
	}
}

// rows writes the numbers of bars that lie above one another, and the marks of their lines.
func (d *drawing) rows() {
	row := func(at length.Length) int {
		_, top := d.v.board().Seen(true, at.MM(), 0)
		return d.at.Y + max(0, min(d.at.H-1, int(top*d.perMM/2)))
	}
	last := d.at.Bottom()
	for n := range d.v.Up.Bars {
		if y := row((d.v.board().Line(n) + d.v.board().Line(n+1)) / 2); y < last {
			d.c.TextRight(paint.Rect{X: d.at.X - numbersW, Y: y, W: numbersW - 1, H: 1}, strconv.Itoa(n+1), d.c.Role(paint.RoleFaint))
			last = y
		}
	}
	for line, mark := range d.v.Marks {
		if mark.Rune != 0 {
			d.c.Set(d.at.X-1, row(d.v.board().Line(line)), mark.Rune, d.c.Role(mark.Role))
		}
	}
}
