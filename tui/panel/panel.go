// Package panel draws a panel to scale: its strips side by side in their timbers'
// oiled colours, with the grain, the ends where they lie, and a ruler.
//
// The strips stand upright with the datum end at the bottom, nearest to whoever looks,
// and strip 1 at the left: the same face as that of a panel that lies (Lying), a quarter
// turn away. A strip is always number, letters, grain mark and colour, or a texture where the
// terminal shows no wood colours, so that it can be told apart without colour.
// The package knows no findings: the mark of each glue line is handed in. Sizes on
// the screen are cells; a cell is taken to be twice as high as wide, so that its
// halves are square, and they are what the wood is painted with.
package panel

import (
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
	Marks     []Mark                                   // by glue line: the first lies right of the first strip
	Unit      length.Unit                              // of the rulers
	First     int                                      // strip wanted leftmost, where not all find room
	Whole     bool                                     // take the whole width, however little of the length is seen, without a length ruler
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
		d.timbers[i] = lookUp(v.Timber, v.Pattern.Strips[s.Strip].Species).As(v.Pattern.Strips[s.Strip].Colour)
	}
	d.header()
	if c.Profile().ShowsWood() {
		d.wood()
	} else {
		d.texture()
	}
	d.scrollMarks()
	d.lengthRuler()
	d.widthRuler()
	return l
}

// drawing is one frame of a panel.
type drawing struct {
	c       *paint.Canvas
	v       View
	l       Layout
	palette *Palette
	timbers []species.Species // of the strips in view
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
	if l.Marks < 0 {
		return
	}
	for _, line := range l.Lines {
		if line.Line < len(d.v.Marks) && d.v.Marks[line.Line].Rune != 0 {
			m := d.v.Marks[line.Line]
			d.c.Set(line.X, l.Marks, m.Rune, d.c.Role(m.Role))
		}
	}
}

// name writes the three rows over strip i, the last its end grain as it is seen at the datum end, and returns where its number stands.
func (d drawing) name(i int, s Span, number, rest paint.Style) (at, width int) {
	text := strconv.Itoa(s.Strip + 1)
	at, width = s.X+max(0, (s.W-len(text))/2), len(text)
	d.put(at, d.l.Numbers, text, number)
	letters := d.timbers[i].Letters
	if letters == "" {
		letters = "??"
	}
	middle := s.X + max(0, (s.W-2)/2)
	d.put(middle, d.l.Letters, letters, rest)
	strip := d.v.Pattern.Strips[s.Strip]
	grain := string(strip.Rings.Mark())
	if strip.Bark.Known() {
		grain += string(strip.Bark.Mark())
	}
	d.put(middle, d.l.Rings, grain, rest)
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
	row := d.l.Letters
	if row < 0 {
		row = d.l.Wood.Y
	}
	style := d.c.Role(paint.RoleKey)
	if n := d.l.Before; n > 0 {
		d.put(d.l.Rect.X, row, paint.Fit("<"+strconv.Itoa(n), d.l.Wood.X-d.l.Rect.X), style)
	}
	if n := d.l.After; n > 0 {
		room := paint.Rect{X: d.l.Wood.Right(), Y: row, W: d.l.Rect.Right() - d.l.Wood.Right(), H: 1}
		text := strconv.Itoa(n) + ">"
		if paint.Width(text) > room.W {
			text = ">"
		}
		d.c.TextRight(room, text, style)
	}
}
