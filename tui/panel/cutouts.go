package panel

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// A Point lies so far along the panel from the datum end, and across from edge A.
type Point struct{ Along, Across length.Length }

// A CutOut is one thing that is cut out of the panel.
type CutOut struct {
	Shape      outline.Shape
	From, Side length.Length // its edges towards the datum end and edge A
	Label      string
	Chosen     bool
	Holes      []length.Length // their centres along, from its own edge; they lie in its middle
	Hole       length.Length   // their diameter
}

// size returns the rectangle that it fills.
func (c CutOut) size() (along, across length.Length) { return c.Shape.Size() }

// pointed reports whether it is shorter at its sides than in its middle.
func (c CutOut) pointed() bool {
	_, across := c.size()
	return c.Shape.Half(0, across.MM()/2) < c.Shape.Half(0, 0)
}

// Cell returns the cell of a point of a panel that lies Exact; it may lie off the wood.
func (l Layout) Cell(p Point) (x, y int) {
	return l.column(p.Along.MM()), l.Wood.Y + int(math.Floor(p.Across.MM()*l.across/2))
}

// At returns the point in the middle of a cell of the wood.
func (l Layout) At(x, y int) (Point, bool) {
	if !l.Wood.Contains(x, y) {
		return Point{}, false
	}
	along, across := (float64(x-l.Wood.X)+0.5)/l.along, float64(2*(y-l.Wood.Y)+1)/l.across
	return Point{length.FromMM(math.Round(along)), length.FromMM(math.Round(across))}, true
}

// half returns the first half row whose middle lies at or beyond mm from edge A.
func (d drawing) half(mm float64) int {
	return max(0, min(2*d.l.Wood.H, int(math.Ceil(mm*d.l.across-0.5))))
}

// cols returns the columns whose middles lie between two distances from the datum end.
func (d drawing) cols(from, to float64) (first, after int) {
	clamp := func(mm float64) int { return max(0, min(d.l.Wood.W, int(math.Ceil(mm*d.l.along-0.5)))) }
	return clamp(from), clamp(to)
}

// cover settles which cut-out covers each half cell.
func (d *drawing) cover() {
	if len(d.v.Cuts) == 0 {
		return
	}
	w := d.l.Wood.W
	d.within = make([]int32, 2*d.l.Wood.H*w)
	for i, cut := range d.v.Cuts {
		from, side := cut.From.MM(), cut.Side.MM()
		along, across := cut.size()
		long, wide := along.MM(), across.MM()
		for y := d.half(side); y < d.half(side+wide); y++ {
			inset := long/2 - cut.Shape.Half(0, (float64(y)+0.5)/d.l.across-side-wide/2)
			first, after := d.cols(from+inset, from+long-inset)
			for x := first; x < after; x++ {
				d.within[y*w+x] = int32(i + 1)
			}
		}
	}
}

// Waste is shown so much nearer to a grey than the wood is, from 0 to 1.
const (
	wasteFade = 0.62
	wasteGrey = 112
)

// faded returns the colour of timber that is cut away.
func faded(c species.RGB, colours *paint.Palette) paint.Colour {
	mix := func(v uint8) uint8 { return uint8(float64(v)*(1-wasteFade) + wasteGrey*wasteFade) }
	return paint.Of(colours.Shown(species.RGB{R: mix(c.R), G: mix(c.G), B: mix(c.B)}))
}

// holes goes through the half cells of the holes, at least one of each.
func (d drawing) holes(dark func(x, y int)) {
	for _, cut := range d.v.Cuts {
		_, across := cut.size()
		radius, middle := cut.Hole.MM()/2, (cut.Side + across/2).MM()
		for _, at := range cut.Holes {
			along := (cut.From + at).MM()
			drawn := false
			for y := d.half(middle - radius); y < d.half(middle+radius); y++ {
				off := (float64(y)+0.5)/d.l.across - middle
				reach := math.Sqrt(math.Max(0, radius*radius-off*off))
				first, after := d.cols(along-reach, along+reach)
				for x := first; x < after; x++ {
					dark(x, y)
					drawn = true
				}
			}
			x, y := int(along*d.l.along), int(middle*d.l.across)
			if !drawn && x >= 0 && y >= 0 && x < d.l.Wood.W && y < 2*d.l.Wood.H {
				dark(x, y)
			}
		}
	}
}

// bracket draws the edge of a cut-out where one ends at column x of a row.
func (d drawing) bracket(x, row int) {
	w := d.l.Wood.W
	at := func(x int) int32 {
		if x < 0 || x >= w {
			return 0
		}
		return max(d.within[2*row*w+x], d.within[(2*row+1)*w+x])
	}
	now := at(x)
	if now == 0 {
		return
	}
	cut := d.v.Cuts[now-1]
	style := paint.Style{}
	if cut.Chosen {
		style = style.Bolder()
	}
	brackets := "[]"
	if cut.pointed() {
		brackets = "()"
	}
	switch {
	case at(x-1) != now:
		d.c.Set(d.l.Wood.X+x, d.l.Wood.Y+row, rune(brackets[0]), style)
	case at(x+1) != now:
		d.c.Set(d.l.Wood.X+x, d.l.Wood.Y+row, rune(brackets[1]), style)
	}
}

// cutMarks writes the labels of what is cut out, the knots and the cursor.
func (d drawing) cutMarks() {
	if d.v.Pieces {
		d.pieces()
	}
	for _, cut := range d.v.Cuts {
		text := cut.Label
		along, across := cut.size()
		switch {
		case cut.Chosen:
			text = ">" + text + "<"
		case float64(len(text)) > along.MM()*d.l.along:
			continue // it would lie over its neighbours
		}
		x, y := d.l.Cell(Point{cut.From + along/2, cut.Side + across/2})
		for i, r := range text {
			d.over(x-len(text)/2+i, y, r, cut.Chosen)
		}
	}
	for _, a := range d.v.Pattern.Avoids {
		d.knot(a)
	}
	if d.v.Cursor != nil {
		x, y := d.l.Cell(*d.v.Cursor)
		x, y = max(d.l.Wood.X, min(x, d.l.Wood.Right()-1)), max(d.l.Wood.Y, min(y, d.l.Wood.Bottom()-1))
		mark := '+'
		for _, a := range d.v.Pattern.Avoids {
			if ax, ay := d.l.Cell(Point{a.Along, a.Across}); ax == x && ay == y {
				mark = 'X' // the knot is told, and that the cursor is on it
			}
		}
		d.c.Set(x, y, mark, d.c.Role(paint.RoleSelected))
	}
}

// pieces writes 4a, 4b along the strips that are in pieces, where a row is all of the strip.
func (d drawing) pieces() {
	for _, span := range d.l.Strips {
		open := d.l.joints(span, d.v.Pattern.Strips[span.Strip])
		first, after := (span.X+1)/2, (span.X+span.W)/2 // the rows that are all of it
		if len(open) == 0 || first >= after {
			continue
		}
		near := span.From
		for i := range len(open) + 1 {
			far, next := span.To, span.To
			if i < len(open) {
				far, next = open[i].from, open[i].to
			}
			if name := pattern.PieceName(span.Strip+1, i+1); near+1+len(name) <= far {
				for k, r := range name {
					d.over(d.l.Wood.X+near+1+k, (first+after-1)/2, r, false)
				}
			}
			near = next
		}
	}
}

// over writes a character over the wood, in black or white, whichever stands out.
func (d drawing) over(x, y int, r rune, bold bool) {
	if !d.l.Wood.Contains(x, y) {
		return
	}
	style := paint.Style{}
	if d.v.Board != nil {
		if i := d.tiles.Strip(x-d.l.Wood.X, 2*(y-d.l.Wood.Y)); i >= 0 {
			style = d.c.Palette().OnWood(asBoard(d.v.Timber, d.v.Board.Strips[i], i, d.c.Palette()).ColourOiled)
		}
	} else if i, ok := d.l.StripAt(x, y); ok {
		style = d.c.Palette().OnWood(d.timbers[i].ColourOiled)
	}
	style.Bold = bold
	d.c.Set(x, y, r, style)
}

// knot draws what products keep clear of: X in its middle, and x over what else of
// the circle has a cell of its own.
func (d drawing) knot(a pattern.Avoid) {
	style := d.c.Role(paint.RoleError)
	radius := a.Radius.MM()
	left, top := d.l.Cell(Point{a.Along - a.Radius, a.Across - a.Radius})
	right, bottom := d.l.Cell(Point{a.Along + a.Radius, a.Across + a.Radius})
	for y := max(top, d.l.Wood.Y); y <= min(bottom, d.l.Wood.Bottom()-1); y++ {
		for x := max(left, d.l.Wood.X); x <= min(right, d.l.Wood.Right()-1); x++ {
			dx := (float64(x-d.l.Wood.X)+0.5)/d.l.along - a.Along.MM()
			dy := float64(2*(y-d.l.Wood.Y)+1)/d.l.across - a.Across.MM()
			if dx*dx+dy*dy <= radius*radius {
				d.c.Set(x, y, 'x', style)
			}
		}
	}
	if x, y := d.l.Cell(Point{a.Along, a.Across}); d.l.Wood.Contains(x, y) {
		d.c.Set(x, y, 'X', style)
	}
}
