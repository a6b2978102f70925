// Package panel draws a panel to scale: its strips side by side in their timbers'
// oiled colours, with the grain, the ends where they lie, and a ruler.
//
// A panel stands or lies. Where it stands its strips are upright with the datum end at the
// bottom, nearest to whoever looks, and strip 1 at the left. Where it lies along the screen
// the datum end is at the left and strip 1 at the top: the same face, a quarter turn away.
// Lies says which is the better picture: that in which more strips are in view, and of as
// many that whose proportions, length to width as they are drawn, come nearer to the panel's
// own. Long panels mostly lie; of many narrow strips, which need a row each to be told, they
// stand.
//
// A strip is always number, letters, grain mark and colour, or a texture where the
// terminal shows no wood colours, so that it can be told apart without colour.
// The package knows no findings: the mark of each glue line is handed in. Sizes on
// the screen are cells; a cell is taken to be twice as high as wide, so that its
// halves are square, and they are what the wood is painted with.
package panel

import (
	"cmp"
	"strconv"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// NoStrip as View.Selected says that no strip is chosen.
const NoStrip = -1

// A View is what is to be seen of a panel.
type View struct {
	Pattern   pattern.Pattern
	Timber    func(key string) (species.Species, bool) // looks a timber up
	Allowance length.Length                            // strip length at glue-up beyond the panel's
	Selected  int                                      // the chosen strip, from 0, or NoStrip
	Marks     []Mark                                   // by glue line: the first lies behind the first strip
	Unit      length.Unit                              // of the rulers
	First     int                                      // strip wanted first, where not all find room
	Whole     bool                                     // take the whole width, however little of the length is seen, without a length ruler
	Lies      bool                                     // the panel lies along the screen
	Exact     bool                                     // lying: every strip just where it is, for what is cut out
	Cuts      []CutOut                                 // lying: what is cut out
	Pieces    bool                                     // lying: the pieces of strips have their names
	Cursor    *Point                                   // lying; nil: none
	Board     *Board                                   // lying: what lies in the place of the one strip; nil: that
}

// A Mark stands at a glue line. Without a rune nothing is drawn.
type Mark struct {
	Rune rune
	Role paint.Role
}

// Draw draws v into r of c and returns the layout it used. The palette keeps the
// shades of timbers from one frame to the next.
func Draw(c *paint.Canvas, r paint.Rect, v View, palette *Palette) Layout {
	r = r.Intersect(c.Bounds())
	l := Lay(v, r)
	if r.Empty() {
		return l
	}
	if len(v.Pattern.Strips) == 0 {
		c.TextCentre(r.Row(r.H/2), "no strips yet", c.Role(paint.RoleFaint))
		return l
	}
	d := drawing{c: c, v: v, l: l, palette: palette, timbers: make([]species.Species, len(l.Strips))}
	for i, s := range l.Strips {
		d.timbers[i] = asBoard(v.Timber, v.Pattern.Strips[s.Strip], s.Strip, c.Palette())
	}
	d.cover()
	if v.Board != nil {
		d.tiles = TilesOf(*v.Board, v.Timber, false, l.Wood.W, 2*l.Wood.H, l.along, l.across)
	}
	if c.Profile().ShowsWood() {
		d.wood()
	} else {
		d.texture()
	}
	if v.Lies {
		d.rows()
		d.cutMarks()
	} else {
		d.header()
		d.lengthRuler()
	}
	d.scrollMarks()
	d.ruler()
	return l
}

// drawing is one frame of a panel.
type drawing struct {
	c       *paint.Canvas
	v       View
	l       Layout
	palette *Palette
	timbers []species.Species // of the strips in view
	tiles   Tiles
	within  []int32 // by half cell: the cut-out that covers it, from 1; 0: none. Nil where there are none
}

// lookUp returns a timber, or a grey one of that key where the table has none.
func lookUp(timber func(string) (species.Species, bool), key string) species.Species {
	if timber != nil {
		if s, ok := timber(key); ok {
			return s
		}
	}
	return species.Species{Key: key, Letters: "??", ColourOiled: species.RGB{R: 128, G: 128, B: 128}}
}

// header writes numbers, letters and rings above the strips, and the marks of the
// glue lines.
func (d drawing) header() {
	l, plain := d.l, paint.Style{}
	for i, s := range l.Strips {
		if s.Strip == d.v.Selected {
			continue // last, so that its marks lie over its neighbours' room
		}
		d.name(i, s, d.c.Role(paint.RoleFaint), plain)
	}
	for i, s := range l.Strips {
		if s.Strip == d.v.Selected {
			chosen := d.c.Role(paint.RoleSelected)
			at, width := d.name(i, s, chosen, plain.Bolder())
			d.put(at-1, l.Numbers, ">", chosen)
			d.put(at+width, l.Numbers, "<", chosen)
		}
	}
	for i, s := range l.Strips[1:] {
		d.mark(i+1, s.X, l.Marks)
	}
}

// mark writes the mark of the glue line before strip i of those in view; a row below 0 is
// one that found no room.
func (d drawing) mark(i, x, y int) {
	if n := d.l.Strips[i].Strip - 1; y >= 0 && n < len(d.v.Marks) && d.v.Marks[n].Rune != 0 {
		d.c.Set(x, y, d.v.Marks[n].Rune, d.c.Role(d.v.Marks[n].Role))
	}
}

// margin returns the room before the rows of a panel that lies in a width.
func (v View) margin(w int) int {
	switch {
	case !v.Exact:
		return lyingBench + leastCells(len(v.Pattern.Strips)) - leastStrip
	case w < lyingWide:
		return lyingNarrow
	default:
		return lyingMargin
	}
}

// rows writes before the strips of a panel that lies what they are, with the marks of the
// glue lines, as far as there is a row for each.
func (d drawing) rows() {
	faint, chosen := d.c.Role(paint.RoleFaint), d.c.Role(paint.RoleSelected)
	rule := d.l.Wood.X - 1
	for i, s := range d.l.Strips {
		first, after := s.X/2, (s.X+s.W)/2
		selected := s.Strip == d.v.Selected
		for y := first; y < after; y++ {
			line := '│'
			switch {
			case selected:
				line = '║'
			case i > 0 && y == first && !d.v.Exact:
				line = '├'
			}
			d.c.Set(rule, y, line, faint)
		}
		if first == after || d.v.Board != nil {
			continue
		}
		y, at := (first+after-1)/2, rule
		letters, text := cmp.Or(d.timbers[i].Letters, "??"), strconv.Itoa(s.Strip+1)
		plain, number := paint.Style{}, faint
		if d.v.Exact {
			plain = faint
		} else {
			at -= 4 // rings and mark
			if i > 0 {
				d.mark(i, rule-1, first)
			}
			d.put(at+1, y, endGrain(d.v.Pattern.Strips[s.Strip]), plain)
		}
		if selected {
			text, number, plain = ">"+text+"<", chosen, plain.Bolder()
		} else if !d.v.Exact {
			text += " "
		}
		if d.l.Wood.X-d.l.Rect.X >= lyingMargin {
			d.put(at-2, y, letters, plain)
			at -= 2
			if d.v.Exact {
				at--
			}
		}
		d.put(at-len(text), y, text, number)
	}
}

// name writes the three rows over strip i, the last its end grain as it is seen at the datum end, and returns where its number stands.
func (d drawing) name(i int, s Span, number, rest paint.Style) (at, width int) {
	text := strconv.Itoa(s.Strip + 1)
	at, width = s.X+max(0, (s.W-len(text))/2), len(text)
	d.put(at, d.l.Numbers, text, number)
	middle := s.X + max(0, (s.W-2)/2)
	d.put(middle, d.l.Letters, cmp.Or(d.timbers[i].Letters, "??"), rest)
	d.put(middle, d.l.Rings, endGrain(d.v.Pattern.Strips[s.Strip]), rest)
	return at, width
}

// put writes text at x in row y, inside the panel's rectangle; a row below 0 is
// one that found no room.
func (d drawing) put(x, y int, text string, s paint.Style) {
	if y < 0 {
		return
	}
	r := d.l.Rect
	if x < r.X { // what lies left of the rectangle is cut off
		drop := min(len(text), r.X-x)
		x, text = x+drop, text[drop:]
	}
	d.c.Text(paint.Rect{X: x, Y: y, W: r.Right() - x, H: 1}, text, s)
}

// scrollMarks says how many strips are out of view on either side.
func (d drawing) scrollMarks() {
	l, style := d.l, d.c.Role(paint.RoleKey)
	if l.Lies {
		if l.Before > 0 {
			d.put(l.Wood.Right()+1, l.Wood.Y, "^"+strconv.Itoa(l.Before), style)
		}
		if l.After > 0 {
			d.put(l.Wood.Right()+1, l.Wood.Bottom()-1, "v"+strconv.Itoa(l.After), style)
		}
		return
	}
	row := l.Letters
	if row < 0 {
		row = l.Wood.Y
	}
	if n := l.Before; n > 0 {
		d.put(l.Rect.X, row, paint.Fit("<"+strconv.Itoa(n), l.Wood.X-l.Rect.X), style)
	}
	if n := l.After; n > 0 {
		room := paint.Rect{X: l.Wood.Right(), Y: row, W: l.Rect.Right() - l.Wood.Right(), H: 1}
		text := strconv.Itoa(n) + ">"
		if paint.Width(text) > room.W {
			text = ">"
		}
		d.c.TextRight(room, text, style)
	}
}

// endGrain returns how the rings of a strip lie, and on which side the bark lay where that is
// known, as it is seen at the datum end.
func endGrain(s pattern.Strip) string {
	if !s.Bark.Known() {
		return string(s.Rings.Mark())
	}
	return string(s.Rings.Mark()) + string(s.Bark.Mark())
}
