// Package cutout draws what is cut out of the panel: the panel lying along the screen
// with rounds, rectangles and blocks over its strips, and the mark-out from one datum. Where
// the panel is glued again, that is the board and its cells.
//
// It only draws and says what lies where; the root makes the moves and has the layout
// computed. Rectangles are in cells of the canvas.
package cutout

import (
	"strconv"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A Shown is what the root had computed of the products on the panel.
type Shown struct {
	Job       work.Job // its layout has the copies where a hand slid them
	Figures   work.Figures
	Cut       shop.Cut
	Mark      work.MarkOut
	Remaining []outline.Remaining // what would still come out of what is left
	Held      []outline.Fixed     // copies slid by hand: a try that no file keeps
	Cautions  []work.Caution      // of cutting out
	Err       error               // the products cannot be laid
	entries   []Entry             // set by listed
}

// An Entry is one line of the list: a copy that is placed, or what of a product is not.
type Entry struct {
	Product int // from 0
	Placed  int // index of the layout's copies; below 0: not placed
}

// listed returns s with its lines listed, so that no frame has to do it anew.
func (s Shown) listed() Shown {
	s.entries = s.list()
	return s
}

// list lists the products' copies in their order, with a line for what of a product
// is not placed.
func (s Shown) list() []Entry {
	var out []Entry
	for i := range s.Job.Products {
		before := len(out)
		for k, at := range s.Job.Layout.Placed {
			if at.Product == i+1 {
				out = append(out, Entry{i, k})
			}
		}
		missing := len(out) == before
		for _, n := range s.Job.Layout.NotPlaced {
			missing = missing || n.Product == i+1
		}
		if missing {
			out = append(out, Entry{i, -1})
		}
	}
	return out
}

// index returns the chosen line; there may be fewer than there were.
func (s Screen) index() int { return screen.Among(s.at, len(s.shown.entries)) }

// Chosen returns the chosen line, and false where nothing is listed.
func (s Screen) Chosen() (Entry, bool) {
	entries := s.shown.entries
	if len(entries) == 0 {
		return Entry{}, false
	}
	return entries[s.index()], true
}

// Copy returns the chosen copy, and false where none is chosen or it is not placed.
func (s Screen) Copy() (outline.Placed, bool) {
	e, ok := s.Chosen()
	if !ok || e.Placed < 0 {
		return outline.Placed{}, false
	}
	return s.shown.Job.Layout.Placed[e.Placed], true
}

// Go chooses the line so many further down, and takes the cursor to its copy.
func (s Screen) Go(by int, _ screen.Context) Screen {
	s.at = screen.Among(s.index()+by, len(s.shown.entries))
	s.moved = false
	return s
}

// ChooseProduct chooses the first line of product i, from 0.
func (s Screen) ChooseProduct(i int) Screen {
	for k, e := range s.shown.entries {
		if e.Product == i {
			s.at, s.moved = k, false
			break
		}
	}
	return s
}

// Point returns where the cursor is: in the chosen copy until it is moved off.
func (s Screen) Point(p pattern.Pattern) panel.Point {
	if s.moved {
		return s.point
	}
	if at, ok := s.Copy(); ok {
		return panel.Point{Along: at.Along, Across: at.Across}
	}
	return panel.Point{Along: p.Panel.Length / 2, Across: p.Width() / 2}
}

// board returns what second glue-ups give, nil where the panel is what products are cut from.
func board(ctx screen.Context) *movement.Board { return ctx.Report.Figures.Board }

// ground returns what products are cut from: the panel, or the board as one strip.
func ground(ctx screen.Context) pattern.Pattern {
	if b := board(ctx); b != nil {
		return second.Ground(ctx.State.Pattern, b.Ups)
	}
	return ctx.State.Pattern
}

// Move takes the cursor so far along and across, no further than the panel goes, and
// chooses the copy that it comes upon.
func (s Screen) Move(along, across length.Length, ctx screen.Context) Screen {
	at := s.Point(ground(ctx))
	return s.To(panel.Point{Along: at.Along + along, Across: at.Across + across}, ctx)
}

// To takes the cursor to a point, no further than the panel goes.
func (s Screen) To(at panel.Point, ctx screen.Context) Screen {
	p, most := ground(ctx), length.Length(0)
	for _, strip := range p.Strips {
		most = max(most, strip.Start+p.StripLength(strip, ctx.Allow.Length))
	}
	s.point = panel.Point{Along: max(0, min(at.Along, most)), Across: max(0, min(at.Across, p.Width()))}
	s.moved = true
	for i, e := range s.shown.entries {
		if e.Placed < 0 {
			continue
		}
		c := s.shown.Job.Layout.Placed[e.Placed]
		along, across := outline.ShapeOf(s.shown.Job.Products[e.Product]).Size()
		if within(s.point.Along, c.From, along) && within(s.point.Across, c.Side, across) {
			s.at = i
		}
	}
	return s
}

func within(at, from, size length.Length) bool { return at >= from && at <= from+size }

// reachable is how far from a knot the cursor may be to mean it.
const reachable = 10 * length.Millimetre

// Knot returns the knot at the cursor, from 0: the nearest of those that it lies in or
// close beside.
func (s Screen) Knot(p pattern.Pattern) (int, bool) {
	at, best, found := s.Point(p), 0, false
	least := 0.0
	for i, a := range p.Avoids {
		dx, dy := (a.Along - at.Along).MM(), (a.Across - at.Across).MM()
		reach := (a.Radius + reachable).MM()
		if off := dx*dx + dy*dy; off <= reach*reach && (!found || off < least) {
			best, least, found = i, off, true
		}
	}
	return best, found
}

// layout parts the screen.
type layout struct {
	head    paint.Rect // what is chosen, and the hook
	picture paint.Rect
	list    paint.Rect // its first row names the columns
	details paint.Rect
}

// The rows of the parts, and the width of details that stand beside the picture.
const (
	headRows     = 2
	mostList     = 9 // the names of the columns and eight copies
	leastList    = 2
	leastDetails = 4
	mostDetails  = 9
	detailShare  = 4 // of the rows that picture and details have
	leastWood    = 7 // rows of the picture with its ruler
	detailWidth  = 28
	gutter       = 3 // between them: the end of the ruler lies in it
)

// lay parts r for a panel. The details stand beside the picture where it is the larger
// for that, else beneath it.
func lay(r paint.Rect, s Shown, ctx screen.Context) layout {
	_, r = r.SplitBottom(screen.FooterRows)
	var l layout
	l.head, r = r.SplitTop(headRows)
	rows := max(leastList, min(mostList, 1+len(s.entries), r.H/4))
	l.list, r = r.SplitBottom(rows)
	below, above := r.SplitBottom(min(max(leastDetails, min(mostDetails, r.H/detailShare)), max(2, r.H-leastWood)))
	_, beside := r.SplitRight(detailWidth + gutter)
	shown := bare(ctx)
	wood, narrow := panel.Lay(shown, above).Wood, panel.Lay(shown, beside).Wood
	if narrow.W*narrow.H >= wood.W*wood.H {
		l.details, l.picture = r.SplitRight(r.Right() - narrow.Right() - gutter)
		return l
	}
	l.details, l.picture = below, above
	return l
}

// bare returns the picture of the panel with nothing cut out of it.
func bare(ctx screen.Context) panel.View {
	v := panel.View{Pattern: ground(ctx), Timber: ctx.Physics.Table().Get, Allowance: ctx.Allow.Length, Unit: ctx.Unit,
		Selected: panel.NoStrip, Lies: true, Exact: true, Pieces: true}
	if b := board(ctx); b != nil {
		v.Board = &panel.Board{Up: b.Up(), Strips: ctx.State.Pattern.Strips}
	}
	return v
}

// picture returns what the picture shows.
func (s Screen) picture(ctx screen.Context) panel.View {
	out := bare(ctx)
	chosen, any := s.Chosen()
	for i, at := range s.shown.Job.Layout.Placed {
		product := s.shown.Job.Products[at.Product-1]
		cut := panel.CutOut{
			Shape: outline.ShapeOf(product), From: at.From, Side: at.Side,
			Label: s.shown.label(at), Chosen: any && chosen.Placed == i,
		}
		if product.Holes > 0 {
			cut.Hole, cut.Holes = product.Hole, s.shown.Figures.Products[at.Product-1].HoleCentres
		}
		out.Cuts = append(out.Cuts, cut)
	}
	return out
}

// label names a copy: its number, behind that of its product where there are several.
func (s Shown) label(at outline.Placed) string {
	if len(s.Job.Products) < 2 {
		return strconv.Itoa(at.Copy)
	}
	return strconv.Itoa(at.Product) + "." + strconv.Itoa(at.Copy)
}

// press takes a press of the mouse: the cursor goes to it, or its line is chosen.
func (s Screen) press(m screen.Press, ctx screen.Context) Screen {
	l := lay(ctx.Window.Body, s.shown, ctx)
	if at, ok := panel.Lay(bare(ctx), l.picture).At(m.X, m.Y); ok {
		return s.To(at, ctx)
	}
	if i, ok := s.copies(l).On(m.Y); ok && l.list.Contains(m.X, m.Y) {
		s.at, s.moved = i, false
	}
	return s
}

// copies returns the lines of the list.
func (s Screen) copies(l layout) screen.List {
	_, rows := l.list.SplitTop(1)
	return screen.List{Rows: rows, N: len(s.shown.entries), At: s.at}
}

// Draw draws the screen into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	l := lay(r, s.shown, ctx)
	s.head(c, l.head.Inset(1, 0), ctx)
	switch on := ground(ctx); {
	case len(ctx.State.Pattern.Strips) == 0:
		c.TextCentre(l.picture.Row(l.picture.H/2), "no strips yet: put them in on the bench", paint.Style{})
	case len(on.Strips) == 0:
		c.TextCentre(l.picture.Row(l.picture.H/2), "no board comes out of the panel: see its findings", paint.Style{})
	default:
		shown := s.picture(ctx)
		cursor := s.Point(on)
		if s.moved || len(s.shown.Job.Layout.Placed) == 0 {
			shown.Cursor = &cursor
		}
		panel.Draw(c, l.picture, shown, ctx.Wood)
	}
	s.list(c, l, ctx)
	s.details(c, l.details.Inset(1, 0), ctx)
	screen.DrawFooter(c, table().Footer(s, r, ctx))
}
