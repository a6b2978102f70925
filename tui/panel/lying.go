package panel

import (
	"math"
	"strconv"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// A Lying is a panel that lies along the screen, the datum end at the left and edge A
// at the top, with what is cut out of it drawn over the strips.
type Lying struct {
	Pattern   pattern.Pattern
	Timber    func(key string) (species.Species, bool) // looks a timber up
	Allowance length.Length                            // strip length at glue-up beyond the panel's
	Unit      length.Unit                              // of the ruler
	Cuts      []CutOut
	Cursor    *Point // nil: none
}

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

// A LyingLayout says where a lying panel's picture stands, in the cells of the canvas.
// Its scale is that of a half row and of a column; the two differ where the room is
// not of the panel's shape, but by no more than mostLean.
type LyingLayout struct {
	Wood            paint.Rect
	perCol, perHalf float64 // millimetres
	reach, width    float64 // of the panel, mm
}

// How a lying picture shares its rectangle.
const (
	lyingMargin = 7   // number and letters of the strip, and a rule
	lyingNarrow = 3   // the number alone, in narrow rectangles
	lyingWide   = 40  // the width from which there is room for both
	lyingRuler  = 2   // rows of ruler and figures beneath
	mostLean    = 1.4 // how far the scales along and across may differ
)

// LayLying returns the layout of v in r. It depends on nothing else.
func LayLying(v Lying, r paint.Rect) LyingLayout {
	var l LyingLayout
	l.reach = reach(v.Pattern, v.Allowance)
	l.width = math.Max(1, v.Pattern.Width().MM())
	margin := lyingMargin
	if r.W < lyingWide {
		margin = lyingNarrow
	}
	cols, rows := max(1, r.W-margin-1), max(1, r.H-lyingRuler)
	l.perCol, l.perHalf = l.reach/float64(cols), l.width/float64(2*rows)
	l.perCol = math.Max(l.perCol, l.perHalf/mostLean)
	l.perHalf = math.Max(l.perHalf, l.perCol/mostLean)
	w := min(cols, int(math.Ceil(l.reach/l.perCol-1e-9)))
	h := min(rows, int(math.Ceil(l.width/l.perHalf/2-1e-9)))
	l.Wood = paint.Rect{X: r.X + margin, Y: r.Y, W: max(1, w), H: max(1, h)}.Intersect(r)
	return l
}

// Cell returns the cell of a point, which may lie off the wood.
func (l LyingLayout) Cell(p Point) (x, y int) {
	return l.Wood.X + int(math.Floor(p.Along.MM()/l.perCol)), l.Wood.Y + int(math.Floor(p.Across.MM()/l.perHalf/2))
}

// At returns the point in the middle of a cell of the wood.
func (l LyingLayout) At(x, y int) (Point, bool) {
	if !l.Wood.Contains(x, y) {
		return Point{}, false
	}
	along, across := (float64(x-l.Wood.X)+0.5)*l.perCol, float64(2*(y-l.Wood.Y)+1)*l.perHalf
	return Point{length.FromMM(math.Round(along)), length.FromMM(math.Round(across))}, true
}

// DrawLying draws v into r of c and returns the layout it used. The palette keeps the
// shades of timbers from one frame to the next.
func DrawLying(c *paint.Canvas, r paint.Rect, v Lying, palette *Palette) LyingLayout {
	r = r.Intersect(c.Bounds())
	l := LayLying(v, r)
	if l.Wood.Empty() || len(v.Pattern.Strips) == 0 {
		return l
	}
	d := lying{c: c, v: v, l: l, rect: r, palette: palette}
	d.measure()
	d.cover()
	if c.Profile().ShowsWood() {
		d.wood()
	} else {
		d.texture()
	}
	d.marks()
	d.names()
	d.ruler()
	return l
}

// lying is one frame of a lying panel.
type lying struct {
	c       *paint.Canvas
	v       Lying
	l       LyingLayout
	rect    paint.Rect
	palette *Palette
	bands   []lyingBand
	within  []int32 // by half cell: the cut-out that covers it, from 1; 0: none
}

// A lyingBand is one strip.
type lyingBand struct {
	low, high, near, far float64 // mm
	from, to             int     // half rows whose middle lies in it
	timber               species.Species
	label                paint.Style // of what is written over it
}

func (d *lying) measure() {
	low := 0.0
	d.bands = make([]lyingBand, len(d.v.Pattern.Strips))
	for i, s := range d.v.Pattern.Strips {
		b := &d.bands[i]
		b.low, b.high = low, low+s.Width.MM()
		low = b.high
		b.near = s.Start.MM()
		b.far = b.near + d.v.Pattern.StripLength(s, d.v.Allowance).MM()
		b.from, b.to = d.half(b.low), d.half(b.high)
		b.timber = lookUp(d.v.Timber, s.Species).As(s.Colour)
		b.label = d.c.Palette().OnWood(b.timber.ColourOiled)
	}
}

// half returns the first half row whose middle lies at or beyond mm from edge A.
func (d *lying) half(mm float64) int {
	return max(0, min(2*d.l.Wood.H, int(math.Ceil(mm/d.l.perHalf-0.5))))
}

// cols returns the columns whose middles lie between two distances from the datum end.
func (d *lying) cols(from, to float64) (first, after int) {
	clamp := func(mm float64) int { return max(0, min(d.l.Wood.W, int(math.Ceil(mm/d.l.perCol-0.5)))) }
	return clamp(from), clamp(to)
}

// cover settles which cut-out covers each half cell.
func (d *lying) cover() {
	w := d.l.Wood.W
	d.within = make([]int32, 2*d.l.Wood.H*w)
	for i, cut := range d.v.Cuts {
		from, side := cut.From.MM(), cut.Side.MM()
		along, across := cut.size()
		long, wide := along.MM(), across.MM()
		for y := d.half(side); y < d.half(side+wide); y++ {
			inset := long/2 - cut.Shape.Half(0, (float64(y)+0.5)*d.l.perHalf-side-wide/2)
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

// wood paints the panel in half blocks: what is cut out in its grain, the waste faded.
func (d *lying) wood() {
	w, h := d.l.Wood.W, 2*d.l.Wood.H
	cells := make([]paint.Colour, w*h)
	colours := d.c.Palette()
	for i, b := range d.bands {
		shades := d.palette.of(b.timber, colours)
		waste := faded(b.timber.ColourOiled, colours)
		first, after := d.cols(b.near, b.far)
		g := newGrain(b.timber, d.v.Pattern.Strips[i], Span{Strip: i, W: max(1, b.to-b.from), Top: first, Bottom: after})
		for y := b.from; y < b.to; y++ {
			for x := first; x < after; x++ {
				if d.within[y*w+x] > 0 || len(d.v.Cuts) == 0 {
					cells[y*w+x] = shades.shades[g.at(y-b.from, x-first)]
				} else {
					cells[y*w+x] = waste
				}
			}
		}
	}
	d.holes(func(x, y int) { cells[y*w+x] = paint.Of(colours.Shown(species.RGB{R: 24, G: 18, B: 14})) })
	for y := range d.l.Wood.H {
		for x := range w {
			d.c.Halves(d.l.Wood.X+x, d.l.Wood.Y+y, cells[2*y*w+x], cells[(2*y+1)*w+x])
		}
	}
}

// holes goes through the half cells of the holes, at least one of each.
func (d *lying) holes(dark func(x, y int)) {
	for _, cut := range d.v.Cuts {
		_, across := cut.size()
		radius, middle := cut.Hole.MM()/2, (cut.Side + across/2).MM()
		for _, at := range cut.Holes {
			along := (cut.From + at).MM()
			drawn := false
			for y := d.half(middle - radius); y < d.half(middle+radius); y++ {
				off := (float64(y)+0.5)*d.l.perHalf - middle
				reach := math.Sqrt(math.Max(0, radius*radius-off*off))
				first, after := d.cols(along-reach, along+reach)
				for x := first; x < after; x++ {
					dark(x, y)
					drawn = true
				}
			}
			x, y := int(along/d.l.perCol), int(middle/d.l.perHalf)
			if !drawn && x >= 0 && y >= 0 && x < d.l.Wood.W && y < 2*d.l.Wood.H {
				dark(x, y)
			}
		}
	}
}

// rowBand returns the strip under the middle of a row, and false where there is none.
func (d *lying) rowBand(row int) (int, bool) {
	at := float64(2*row+1) * d.l.perHalf
	for i, b := range d.bands {
		if at >= b.low && at < b.high {
			return i, true
		}
	}
	return 0, false
}

// texture draws the panel by textures, each cut-out between brackets: round ones where
// it is shorter at its sides, square ones for others.
func (d *lying) texture() {
	of := texturesIn(d.v.Pattern, d.v.Timber)
	w := d.l.Wood.W
	for row := range d.l.Wood.H {
		i, ok := d.rowBand(row)
		if !ok {
			continue
		}
		first, after := d.cols(d.bands[i].near, d.bands[i].far)
		wood := paint.Rect{X: d.l.Wood.X + first, Y: d.l.Wood.Y + row, W: after - first, H: 1}
		d.c.Fill(wood, textures[of[d.v.Pattern.Strips[i].Species]], paint.Style{})
		for x := range w {
			d.bracket(x, row)
		}
	}
	d.holes(func(x, y int) { d.c.Set(d.l.Wood.X+x, d.l.Wood.Y+y/2, 'o', paint.Style{}) })
}

// bracket draws the edge of a cut-out where one ends at column x of a row.
func (d *lying) bracket(x, row int) {
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

// marks writes the labels of what is cut out, the knots and the cursor.
func (d *lying) marks() {
	for _, cut := range d.v.Cuts {
		text := cut.Label
		along, across := cut.size()
		switch {
		case cut.Chosen:
			text = ">" + text + "<"
		case float64(len(text))*d.l.perCol > along.MM():
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

// over writes a character over the wood, in black or white, whichever stands out.
func (d *lying) over(x, y int, r rune, bold bool) {
	if !d.l.Wood.Contains(x, y) {
		return
	}
	style := paint.Style{}
	if i, ok := d.rowBand(y - d.l.Wood.Y); ok {
		style = d.bands[i].label
	}
	style.Bold = bold
	d.c.Set(x, y, r, style)
}

// knot draws what products keep clear of: X in its middle, and x over what else of
// the circle has a cell of its own.
func (d *lying) knot(a pattern.Avoid) {
	style := d.c.Role(paint.RoleError)
	radius := a.Radius.MM()
	left, top := d.l.Cell(Point{a.Along - a.Radius, a.Across - a.Radius})
	right, bottom := d.l.Cell(Point{a.Along + a.Radius, a.Across + a.Radius})
	for y := max(top, d.l.Wood.Y); y <= min(bottom, d.l.Wood.Bottom()-1); y++ {
		for x := max(left, d.l.Wood.X); x <= min(right, d.l.Wood.Right()-1); x++ {
			dx := (float64(x-d.l.Wood.X)+0.5)*d.l.perCol - a.Along.MM()
			dy := float64(2*(y-d.l.Wood.Y)+1)*d.l.perHalf - a.Across.MM()
			if dx*dx+dy*dy <= radius*radius {
				d.c.Set(x, y, 'x', style)
			}
		}
	}
	if x, y := d.l.Cell(Point{a.Along, a.Across}); d.l.Wood.Contains(x, y) {
		d.c.Set(x, y, 'X', style)
	}
}

// names writes number and letters of the strips before their bands, where there is a
// row for them.
func (d *lying) names() {
	last := -1
	room := paint.Rect{X: d.rect.X, W: d.l.Wood.X - d.rect.X - 1, H: 1}
	for row := range d.l.Wood.H {
		room.Y = d.l.Wood.Y + row
		i, ok := d.rowBand(row)
		d.c.Set(d.l.Wood.X-1, room.Y, '│', d.c.Role(paint.RoleFaint))
		if !ok || i == last {
			continue
		}
		last = i
		text := strconv.Itoa(i + 1)
		if letters := d.bands[i].timber.Letters; room.W >= lyingMargin-1 {
			text = text + " " + letters
		}
		d.c.TextRight(room, text, d.c.Role(paint.RoleFaint))
	}
}

// ruler draws the ruler beneath the panel: figures from the datum end.
func (d *lying) ruler() {
	l := d.l
	y := l.Wood.Bottom()
	if y+1 >= d.rect.Bottom() {
		return
	}
	faint := d.c.Role(paint.RoleFaint)
	d.c.Fill(paint.Rect{X: l.Wood.X, Y: y, W: l.Wood.W, H: 1}, '─', faint)
	end := length.FromMM(l.reach)
	longest := len(end.Format(d.v.Unit)) + 2
	step := chooseStep(d.v.Unit, float64(longest)*l.perCol)
	for at := length.Length(0); at <= end; at += minorStep(step, 1/l.perCol, d.v.Unit) {
		if x, _ := l.Cell(Point{Along: at}); x < l.Wood.Right() {
			d.c.Set(x, y, '┴', faint)
		}
	}
	text := end.Format(d.v.Unit)
	free := min(d.rect.Right(), l.Wood.Right()+len(text)/2) - len(text)
	d.c.Text(paint.Rect{X: free, Y: y + 1, W: len(text), H: 1}, text, paint.Style{})
	d.c.Set(min(l.Wood.Right(), d.rect.Right()-1), y, '┘', faint)
	used := d.rect.X
	for at := length.Length(0); at <= end; at += step {
		x, _ := l.Cell(Point{Along: at})
		text := at.Format(d.v.Unit)
		left := max(l.Wood.X, x-len(text)/2)
		if left < used || left+len(text) >= free {
			continue
		}
		d.c.Set(x, y, '┼', faint)
		d.c.Text(paint.Rect{X: left, Y: y + 1, W: len(text), H: 1}, text, faint)
		used = left + len(text) + 1
	}
	if room := l.Wood.X - d.rect.X; room >= lyingMargin {
		d.c.Text(paint.Rect{X: l.Wood.X - 4, Y: y + 1, W: 2, H: 1}, d.v.Unit.String(), faint)
	}
}
