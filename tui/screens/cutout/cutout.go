// Package cutout draws what is cut out of the panel: the panel lying along the screen
// with rounds, rectangles and blocks over its strips, and the mark-out from one datum.
//
// It only draws and says what lies where; the root makes the moves and has the layout
// computed. Rectangles are in cells of the canvas.
package cutout

import (
	"strconv"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A Shown is what the root had computed of the products on the panel.
type Shown struct {
	Job      work.Job // its layout has the copies where a hand slid them
	Figures  work.Figures
	Cut      shop.Cut
	Mark     work.MarkOut
	Still    []outline.Remaining // what would still come out of what is left
	Held     []outline.Fixed     // copies slid by hand: a try that no file keeps
	Cautions []work.Caution      // of cutting out
	Err      error               // the products cannot be laid
	entries  []Entry             // set by Ready
}

// A View is the screen: which line of the list is chosen, and where the cursor is. The
// zero value stands at the first copy.
type View struct {
	at    int
	point panel.Point
	moved bool // the cursor was moved off the chosen copy
}

// An Entry is one line of the list: a copy that is placed, or what of a product is not.
type Entry struct {
	Product int // from 0
	Placed  int // index of the layout's copies; below 0: not placed
}

// Ready returns s with its lines listed, so that no frame has to do it anew.
func (s Shown) Ready() Shown {
	s.entries = s.list()
	return s
}

// Entries returns the lines of the list.
func (s Shown) Entries() []Entry { return s.entries }

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
func (v View) index(s Shown) int { return max(0, min(v.at, len(s.Entries())-1)) }

// Chosen returns the chosen line, and false where nothing is listed.
func (v View) Chosen(s Shown) (Entry, bool) {
	entries := s.Entries()
	if len(entries) == 0 {
		return Entry{}, false
	}
	return entries[v.index(s)], true
}

// Copy returns the chosen copy, and false where none is chosen or it is not placed.
func (v View) Copy(s Shown) (outline.Placed, bool) {
	e, ok := v.Chosen(s)
	if !ok || e.Placed < 0 {
		return outline.Placed{}, false
	}
	return s.Job.Layout.Placed[e.Placed], true
}

// Go chooses the line so many further down, and takes the cursor to its copy.
func (v View) Go(by int, s Shown) View {
	v.at = max(0, min(v.index(s)+by, len(s.Entries())-1))
	v.moved = false
	return v
}

// ChooseProduct chooses the first line of product i, from 0.
func (v View) ChooseProduct(i int, s Shown) View {
	for k, e := range s.Entries() {
		if e.Product == i {
			v.at, v.moved = k, false
			break
		}
	}
	return v
}

// Point returns where the cursor is: in the chosen copy until it is moved off.
func (v View) Point(s Shown, p pattern.Pattern) panel.Point {
	if v.moved {
		return v.point
	}
	if at, ok := v.Copy(s); ok {
		return panel.Point{Along: at.Along, Across: at.Across}
	}
	return panel.Point{Along: p.Panel.Length / 2, Across: p.Width() / 2}
}

// Move takes the cursor so far along and across, no further than the panel goes, and
// chooses the copy that it comes upon.
func (v View) Move(along, across length.Length, s Shown, ctx screen.Context) View {
	at := v.Point(s, ctx.State.Pattern)
	return v.To(panel.Point{Along: at.Along + along, Across: at.Across + across}, s, ctx)
}

// To takes the cursor to a point, no further than the panel goes.
func (v View) To(at panel.Point, s Shown, ctx screen.Context) View {
	p, most := ctx.State.Pattern, length.Length(0)
	for _, strip := range p.Strips {
		most = max(most, strip.Start+p.StripLength(strip, ctx.Allow.Length))
	}
	v.point = panel.Point{Along: max(0, min(at.Along, most)), Across: max(0, min(at.Across, p.Width()))}
	v.moved = true
	for i, e := range s.Entries() {
		if e.Placed < 0 {
			continue
		}
		c := s.Job.Layout.Placed[e.Placed]
		along, across := outline.ShapeOf(s.Job.Products[e.Product]).Size()
		if within(v.point.Along, c.From, along) && within(v.point.Across, c.Side, across) {
			v.at = i
		}
	}
	return v
}

func within(at, from, size length.Length) bool { return at >= from && at <= from+size }

// reachable is how far from a knot the cursor may be to mean it.
const reachable = 10 * length.Millimetre

// Knot returns the knot at the cursor, from 0: the nearest of those that it lies in or
// close beside.
func (v View) Knot(s Shown, p pattern.Pattern) (int, bool) {
	at, best, found := v.Point(s, p), 0, false
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
	rows := max(leastList, min(mostList, 1+len(s.Entries()), r.H/4))
	l.list, r = r.SplitBottom(rows)
	below, above := r.SplitBottom(min(max(leastDetails, min(mostDetails, r.H/detailShare)), max(2, r.H-leastWood)))
	_, beside := r.SplitRight(detailWidth + gutter)
	shown := bare(ctx)
	wood, narrow := panel.LayLying(shown, above).Wood, panel.LayLying(shown, beside).Wood
	if narrow.W*narrow.H >= wood.W*wood.H {
		l.details, l.picture = r.SplitRight(r.Right() - narrow.Right() - gutter)
		return l
	}
	l.details, l.picture = below, above
	return l
}

// bare returns the picture of the panel with nothing cut out of it.
func bare(ctx screen.Context) panel.Lying {
	return panel.Lying{Pattern: ctx.State.Pattern, Timber: ctx.Physics.Table().Get, Allowance: ctx.Allow.Length, Unit: ctx.Unit}
}

// picture returns what the picture shows.
func picture(s Shown, v View, ctx screen.Context) panel.Lying {
	out := bare(ctx)
	chosen, any := v.Chosen(s)
	for i, at := range s.Job.Layout.Placed {
		product := s.Job.Products[at.Product-1]
		cut := panel.CutOut{
			Shape: outline.ShapeOf(product), From: at.From, Side: at.Side,
			Label: s.label(at), Chosen: any && chosen.Placed == i,
		}
		if product.Holes > 0 {
			cut.Hole, cut.Holes = product.Hole, s.Figures.Products[at.Product-1].HoleCentres
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

// Footer returns the keys that matter now.
func (v View) Footer(r paint.Rect, s Shown, ctx screen.Context) []screen.FooterPlace {
	e, any := v.Chosen(s)
	_, knot := v.Knot(s, ctx.State.Pattern)
	return screen.Footer(r, ctx.Keys, Place, func(id keymap.ID) bool {
		switch id {
		case cutLeft, "add-avoid":
			return len(ctx.State.Pattern.Strips) > 0
		case "drop-avoid":
			return knot
		case cutSlideFar:
			return any && e.Placed >= 0 && s.Job.Layout.Placed[e.Placed].Slide > 0
		case cutKeep:
			return len(s.Held) > 0
		case "add-product", keymap.Unit, keymap.Quit:
			return true
		case keymap.Save:
			return ctx.Dirty
		case keymap.Undo:
			return ctx.CanUndo
		case keymap.Season:
			return false
		default:
			return any
		}
	})
}

// Press takes a press of the mouse: the cursor goes to it, or its line is chosen.
func (v View) Press(x, y int, r paint.Rect, s Shown, ctx screen.Context) View {
	l := lay(r, s, ctx)
	if at, ok := panel.LayLying(bare(ctx), l.picture).At(x, y); ok {
		return v.To(at, s, ctx)
	}
	_, rows := l.list.SplitTop(1)
	if i := v.first(s, rows.H) + y - rows.Y; rows.Contains(x, y) && i < len(s.Entries()) {
		v.at, v.moved = i, false
	}
	return v
}

// first returns the first line in view when h of them find room.
func (v View) first(s Shown, h int) int {
	return max(0, min(v.index(s)-h/2, len(s.Entries())-h))
}

// Draw draws the screen into r.
func (v View) Draw(c *paint.Canvas, r paint.Rect, s Shown, ctx screen.Context) {
	l := lay(r, s, ctx)
	v.head(c, l.head.Inset(1, 0), s, ctx)
	if len(ctx.State.Pattern.Strips) == 0 {
		c.TextCentre(l.picture.Row(l.picture.H/2), "no strips yet: the bench puts them in", paint.Style{})
	} else {
		shown := picture(s, v, ctx)
		cursor := v.Point(s, ctx.State.Pattern)
		if v.moved || len(s.Job.Layout.Placed) == 0 {
			shown.Cursor = &cursor
		}
		panel.DrawLying(c, l.picture, shown, ctx.Wood)
	}
	v.list(c, l.list.Inset(1, 0), s, ctx)
	v.details(c, l.details.Inset(1, 0), s, ctx)
	screen.DrawFooter(c, v.Footer(r, s, ctx))
}
