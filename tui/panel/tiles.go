package panel

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// A Board is what second glue-ups give of the strips of a pattern.
type Board struct {
	Up     second.GlueUp // that gives it
	Strips []pattern.Strip
}

// Tiles say which cell of a board lies at which half of a cell of the screen, and how that
// looks. A board that lies has its datum end at the left and edge A at the top, one that
// stands its datum end at the bottom and edge A at the left.
type Tiles struct {
	board         Board
	stands        bool
	w, halves     int
	along, across float64 // columns and half rows a millimetre
	cells         []int32 // by half, row by row: the board's cell, from 0; below 0: none
	timber        func(key string) (species.Species, bool)
}

// TilesOf lays a board out in so many columns and half rows, with so many columns and half
// rows a millimetre.
func TilesOf(b Board, timber func(key string) (species.Species, bool), stands bool, w, halves int, along, across float64) Tiles {
	t := Tiles{board: b, stands: stands, w: w, halves: halves, along: along, across: across, timber: timber, cells: make([]int32, w*halves)}
	for i := range t.cells {
		t.cells[i] = -1
	}
	for i, c := range b.Up.Cells {
		least, most := c.Box()
		left, top := b.Seen(stands, least.X.MM(), least.Y.MM())
		right, bottom := b.Seen(stands, most.X.MM(), most.Y.MM())
		top, bottom = min(top, bottom), max(top, bottom)
		x0, x1 := int(left*along), min(w-1, int(right*along))
		y0, y1 := int(top*across), min(halves-1, int(bottom*across))
		for y := max(0, y0); y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				if c.Holds(t.at(x, y)) {
					t.cells[y*w+x] = int32(i)
				}
			}
		}
	}
	return t
}

// Seen returns how far from the left and from the top a place of the board is seen, in mm.
func (b Board) Seen(stands bool, x, y float64) (left, top float64) {
	if stands {
		return y, b.Up.Size.Length.MM() - x
	}
	return x, y
}

// At returns the place of the board that is seen so far from the left and from the top.
func (b Board) At(stands bool, left, top float64) (x, y float64) {
	if stands {
		return b.Up.Size.Length.MM() - top, left
	}
	return left, top
}

// at returns the place of the board in the middle of a half.
func (t Tiles) at(x, half int) (along, across float64) {
	return t.board.At(t.stands, (float64(x)+0.5)/t.along, (float64(half)+0.5)/t.across)
}

// Strip returns the strip at a half, from 0; below 0: none.
func (t Tiles) Strip(x, half int) int {
	if i := t.cells[half*t.w+x]; i >= 0 {
		return t.board.Up.Cells[i].Strip - 1
	}
	return -1
}

// Paint hands the colour of every half of the board to set.
func (t Tiles) Paint(colours *paint.Palette, palette *Palette, set func(x, half int, c paint.Colour)) {
	looks := make([]*tileLook, len(t.board.Strips))
	for half := range t.halves {
		for x := range t.w {
			i := t.cells[half*t.w+x]
			if i < 0 {
				continue
			}
			c := &t.board.Up.Cells[i]
			look := looks[c.Strip-1]
			if look == nil {
				look = t.look(c.Strip-1, colours, palette)
				looks[c.Strip-1] = look
			}
			along, across := t.at(x, half)
			set(x, half, look.shades.shades[look.at(c, along, across)])
		}
	}
}

// Letters hands the texture of every cell of the screen in which the board lies to set.
func (t Tiles) Letters(set func(x, y int, r rune)) {
	textures := TexturesIn(pattern.Pattern{Strips: t.board.Strips}, t.timber)
	for y := range t.halves / 2 {
		for x := range t.w {
			strip := t.Strip(x, 2*y)
			if strip < 0 {
				strip = t.Strip(x, 2*y+1)
			}
			if strip >= 0 {
				set(x, y, textures[t.board.Strips[strip].Species])
			}
		}
	}
}

// asBoard returns a timber as it looks in a place of a panel, from 0: in the colour of its
// own that the strip there has, else as boards of the timber differ. Among 256 colours that
// would be too loud.
func asBoard(timber func(string) (species.Species, bool), s pattern.Strip, place int, colours *paint.Palette) species.Species {
	is := lookUp(timber, s.Species).As(s.Colour)
	if !s.Colour.Known && colours.Profile() == paint.TrueColour {
		is.ColourOiled = is.ColourOiled.Shifted(colour.Board(is.Key, place+1))
	}
	return is
}

// How the grain of a tile is drawn.
const (
	leastGrained = 5.0  // halves that a tile must have either way for grain to be seen in it
	ringHalves   = 3.5  // from ring to ring, at least
	ringMM       = 2.4  // and as timber has them
	nearestPith  = 20.0 // mm from the middle of a strip
	furthestPith = 50.0
)

// A tileLook is how the cells of one strip look.
type tileLook struct {
	shades   *timberShades
	grain    grain
	end      bool    // its end grain is up
	plain    bool    // the tiles are too small for grain
	gap      float64 // mm from ring to ring
	pith     float64 // mm from the middle of the strip
	sin, cos float64 // of its rings
	perMM    float64
}

func (t Tiles) look(strip int, colours *paint.Palette, palette *Palette) *tileLook {
	s, up := t.board.Strips[strip], t.board.Up
	timber := asBoard(t.timber, s, strip, colours)
	l := &tileLook{shades: palette.of(timber, colours), end: up.EndGrain, perMM: min(t.along, t.across)}
	l.plain = min(s.Width, up.Across).MM()*l.perMM < leastGrained
	l.grain = newGrain(timber, s, Span{Strip: strip, W: 8, To: 8})
	degrees := s.Rings.Degrees()
	if l.grain.random(5) < 0.5 {
		degrees = -degrees // the side that the rings lean to
	}
	const aside = 9 // no pith lies just below the middle of its strip
	l.sin, l.cos = math.Sincos((degrees + aside*(2*l.grain.random(8)-1)) * math.Pi / 180)
	l.gap = max(ringMM, ringHalves/l.perMM)
	l.pith = nearestPith + (furthestPith-nearestPith)*l.grain.random(6)
	return l
}

// plainShades are those of tiles too small for grain: a bar's neighbours are a hair apart.
func plainShades() [2]int { return [2]int{5, 2} }

// at returns the shade of a cell at a place of the board.
func (l *tileLook) at(c *second.Cell, x, y float64) int {
	if l.plain {
		return plainShades()[c.Bars[0]&1]
	}
	least, most := c.Box()
	x -= (least.X + most.X).MM() / 2
	y -= (least.Y + most.Y).MM() / 2
	across, along := x*c.Across.X+y*c.Across.Y, x*c.Along.X+y*c.Along.Y
	if !l.end {
		return l.grain.shade(1.5*(l.grain.noise(13, across*l.perMM*1.1, along*l.perMM/14)-0.5) - 0.15)
	}
	// From the pith, which lies where the rings say, alike in every cell of the strip.
	ring := math.Hypot(across+l.pith*-l.sin, along+l.pith*l.cos)/l.gap + l.grain.random(7)
	f := ring - math.Floor(ring)
	const late = 0.7 // of a ring, where its late wood is darkest
	if f < late {
		return l.grain.shade(0.5 - 1.3*smooth(f/late))
	}
	return l.grain.shade(-0.8 + 1.3*smooth((f-late)/(1-late)))
}

// shade returns the shade of -1 dark to 1 light.
func (g grain) shade(v float64) int {
	return min(shadeCount-1, max(0, int(math.Floor(shadeCount*(0.5+v/2)))))
}

// Line returns where bar line n lies, from the datum end; 0 and the last are its ends.
func (b Board) Line(n int) length.Length {
	return max(0, min(b.Up.Size.Length, length.Length(n)*b.Up.Across-b.Up.Trim))
}
