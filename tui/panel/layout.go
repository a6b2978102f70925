package panel

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
)

// How the picture shares its rectangle, in cells.
const (
	leastStrip   = 3  // number and letters find room
	clearStrip   = 7  // a strip need not be wider for the sake of being read
	leastPicture = 24 // nor a whole panel
	rulerMargin  = 6  // the length ruler on the left: five figures and its line
	marginFrom   = 50 // the width from which it is drawn
	scrollMargin = 6  // a mark and up to five figures
	slackFrom    = 20 // the width from which a column is left free on either side

	// Of a panel that lies:
	lyingBench  = 12  // mark and number, letters, rings and glue line of the strip, and a rule
	lyingMargin = 7   // number and letters alone
	lyingNarrow = 3   // the number alone, in narrow rectangles
	lyingWide   = 40  // the width from which there is room for both
	lyingRuler  = 2   // rows of ruler and figures beneath
	lyingMean   = 1.2 // rows of a strip, where not all find room
	mostLean    = 1.4 // how far the scales along and across may differ

	// A panel is mostly longer than a screen is high, so the picture may be
	// squashed along the grain by this much before it stops growing across.
	mostSquash = 2.0
)

// A Span is where one strip is: its columns and half rows, or, where the panel lies, its half
// rows and columns.
type Span struct {
	Strip    int // from 0
	X, W     int // across: its columns, or its half rows from the top of the canvas
	From, To int // along: half rows from the top of Wood, or columns from its left; To is the first beyond
}

// A Layout says where everything of a panel's picture stands, in the cells of the
// canvas. A row that found no room is -1.
type Layout struct {
	Rect                           paint.Rect // what it was laid out for
	Wood                           paint.Rect // the strips themselves
	Lies                           bool
	Strips                         []Span    // those in view, from edge A on, without gaps
	Numbers, Letters, Rings, Marks int       // rows above the wood
	Ruler, Figures                 int       // rows beneath it
	Before, After                  int       // strips out of view on either side
	ToScale                        bool      // every edge stands within a cell of its true place
	lengthMM                       float64   // of the longest reach
	along, across                  float64   // half rows or columns per millimetre; across in the mean
	edges                          []float64 // true edges of the strips in view, mm from edge A
}

// StripAt returns the strip, from 0, whose column holds x, anywhere from its number down to
// the ruler; where the panel lies that whose row holds y.
func (l Layout) StripAt(x, y int) (strip int, ok bool) {
	if !l.Rect.Contains(x, y) {
		return 0, false
	}
	at := x
	if l.Lies {
		at = 2*y + 1
	}
	for _, s := range l.Strips {
		if at >= s.X && at < s.X+s.W {
			return s.Strip, true
		}
	}
	return 0, false
}

// First returns the first strip in view, from 0: what View.First should be for
// the picture to stay where it is.
func (l Layout) First() int { return l.Before }

// Lay returns the layout of v in r. It depends on nothing else.
func Lay(v View, r paint.Rect) Layout {
	l := Layout{Rect: r, Lies: v.Lies, ToScale: true}
	rows := l.rows()
	n := len(v.Pattern.Strips)
	if n == 0 || r.Empty() {
		return l
	}
	l.lengthMM = reach(v.Pattern, v.Allowance)
	widths := make([]float64, n)
	total := 0.0
	for i, s := range v.Pattern.Strips {
		widths[i] = math.Max(0, s.Width.MM())
		total += widths[i]
	}
	if total <= 0 {
		for i := range widths {
			widths[i] = 1
		}
		total = float64(n)
	}
	if v.Lies {
		l.lie(v, rows, widths, total)
	} else {
		l.stand(v, rows, widths, total)
	}
	l.ends(v)
	return l
}

// stand sets where the strips of a panel that stands are.
func (l *Layout) stand(v View, rows int, widths []float64, total float64) {
	r, n := l.Rect, len(widths)
	left, right := margins(r.W)
	if v.Whole {
		left, right = margins(min(r.W, slackFrom))
	}
	least := leastCells(n)
	first, last := 0, n
	var cells []float64
	if room := r.W - left - right; n*least <= room {
		across := room
		if !v.Whole {
			across = pictureWidth(n, room, total, l.lengthMM, rows)
		}
		cells = share(widths, total, float64(across), float64(least))
	} else {
		left, right = scrollMargins(r.W, left)
		room = max(1, r.W-left-right)
		cells = spread(widths, total, least, float64(least+1), room)
		first, last = window(cells, v.First, v.Selected, room)
	}
	l.Before, l.After = first, n-last
	l.Wood.X = r.X + left
	l.Wood.W = l.place(l.Wood.X, r.Right()-right, cells, widths, first, last)
	l.across = float64(l.Wood.W) / l.seen()
	l.along = math.Min(float64(2*rows)/l.lengthMM, l.across)
	l.Wood.H = min(rows, max(1, int(math.Ceil(l.lengthMM*l.along/2-1e-9))))
	if l.Ruler >= 0 { // it moves up beneath the strips where the panel is short
		l.Ruler = l.Wood.Bottom()
		l.Figures = l.Ruler + 1
	}
}

// lie sets where the strips of a panel that lies are. On the bench each has a row at least,
// so that it can be told; Exact ones are where they are, however narrow.
func (l *Layout) lie(v View, rows int, widths []float64, total float64) {
	r, n := l.Rect, len(widths)
	margin := min(v.margin(r.W), max(0, r.W-2))
	cols, first, last := max(1, r.W-margin-1), 0, n
	if n > rows && !v.Exact {
		cols = max(1, cols-scrollMargin)
	}
	perCol, perHalf := lean(l.lengthMM/float64(cols), total/float64(2*rows))
	l.Wood.X, l.Wood.Y = r.X+margin, r.Y
	high := total / perHalf / 2
	switch {
	case v.Exact:
		l.Wood.H = min(rows, int(math.Ceil(high-1e-9)))
		l.place(2*r.Y, 2*(r.Y+l.Wood.H), share(widths, total, total/perHalf, 0), widths, 0, n)
		l.across = 1 / perHalf
	case n <= rows:
		l.Wood.H = l.place(r.Y, r.Y+rows, share(widths, total, math.Max(high, float64(n)), 1), widths, 0, n)
	default:
		cells := spread(widths, total, 1, lyingMean, rows)
		first, last = window(cells, v.First, v.Selected, rows)
		l.Wood.H = l.place(r.Y, r.Y+rows, cells, widths, first, last)
	}
	if !v.Exact {
		for i := range l.Strips {
			l.Strips[i].X, l.Strips[i].W = 2*l.Strips[i].X, 2*l.Strips[i].W
		}
		l.across = float64(2*l.Wood.H) / l.seen()
		perCol = math.Max(l.lengthMM/float64(cols), 1/l.across/mostLean)
	}
	l.Before, l.After, l.along = first, n-last, 1/perCol
	l.Wood.W = max(1, min(cols, int(math.Ceil(l.lengthMM*l.along-1e-9))))
	if l.Ruler = l.Wood.Bottom(); l.Ruler+1 >= r.Bottom() {
		l.Ruler = -1
	}
	l.Figures = l.Ruler + 1
}

// lean returns the scales of columns and half rows, no further from each other than mostLean.
func lean(perCol, perHalf float64) (cols, halves float64) {
	perCol = math.Max(perCol, perHalf/mostLean)
	return perCol, math.Max(perHalf, perCol/mostLean)
}

// seen returns how wide what is in view is, in millimetres.
func (l *Layout) seen() float64 { return math.Max(l.edges[len(l.edges)-1]-l.edges[0], 1e-9) }

// Lies reports whether v is seen better lying in r than standing: more strips are in view,
// or of as many the panel's proportions are nearer to the true ones.
func Lies(v View, r paint.Rect) bool {
	v.Lies = false
	stands := Lay(v, r)
	v.Lies = true
	lies := Lay(v, r)
	if len(lies.Strips) != len(stands.Strips) {
		return len(lies.Strips) > len(stands.Strips)
	}
	return lies.squash() < stands.squash()
}

// squash returns by how much the picture is out of proportion; 1: it is not.
func (l Layout) squash() float64 { return math.Max(l.along/l.across, l.across/l.along) }

// rows settles which rows find room, and returns how many remain for the wood.
func (l *Layout) rows() (wood int) {
	h := l.Rect.H
	if l.Lies {
		l.Numbers, l.Letters, l.Rings, l.Marks = -1, -1, -1, -1
		return max(1, h-lyingRuler)
	}
	next := l.Rect.Y
	row := func(from int) int {
		if h < from {
			return -1
		}
		next++
		return next - 1
	}
	l.Numbers, l.Letters, l.Rings, l.Marks = row(4), row(3), row(7), row(5)
	l.Wood.Y = next
	l.Ruler, l.Figures = -1, -1
	wood = l.Rect.Bottom() - next
	if h >= 9 {
		wood -= 2
		l.Ruler, l.Figures = next+wood, next+wood+1
	}
	return max(0, wood)
}

// reach returns how far the strips reach from the datum end, in millimetres.
func reach(p pattern.Pattern, allowance length.Length) float64 {
	most := 1.0
	for _, s := range p.Strips {
		most = math.Max(most, (s.Start + p.StripLength(s, allowance)).MM())
	}
	return most
}

// leastCells returns how narrow one of n strips may be for its number to stand clear
// of the next.
func leastCells(n int) int {
	switch {
	case n < 100:
		return leastStrip
	case n < 1000:
		return leastStrip + 1
	default:
		return leastStrip + 2
	}
}

func margins(w int) (left, right int) {
	switch {
	case w >= marginFrom:
		return rulerMargin, 1
	case w >= slackFrom:
		return 1, 1
	default:
		return 0, 0
	}
}

func scrollMargins(w, left int) (int, int) {
	switch {
	case w >= slackFrom:
		return max(left, scrollMargin), scrollMargin
	case w >= leastStrip+2:
		return 1, 1
	default:
		return 0, 0
	}
}

// pictureWidth returns how many of room cells n strips take: all of them, but on a
// wide screen no more than keeps the panel's look and its strips readable.
func pictureWidth(n, room int, total, lengthMM float64, woodRows int) int {
	likely := int(mostSquash * total * float64(2*woodRows) / lengthMM)
	return min(room, max(likely, n*clearStrip, leastPicture))
}

// share parts cells among strips of widths that add up to total, in proportion,
// but none below least. There must be room for that.
func share(widths []float64, total, cells, least float64) []float64 {
	out := make([]float64, len(widths))
	held := make([]bool, len(widths))
	for {
		scale, again := cells/total, false
		if total <= 0 {
			scale = 0
		}
		for i, w := range widths {
			if held[i] {
				continue
			}
			out[i] = w * scale
			if out[i] < least {
				out[i], held[i], again = least, true, true
				cells -= least
				total -= w
			}
		}
		if !again {
			return out
		}
	}
}

// spread returns the cells of strips that do not all find room: in proportion, mean of them
// in the mean, none below least or above room.
func spread(widths []float64, total float64, least int, mean float64, room int) []float64 {
	out := make([]float64, len(widths))
	scale := mean * float64(len(widths)) / total
	for i, w := range widths {
		out[i] = math.Min(math.Max(float64(least), w*scale), math.Max(float64(least), float64(room)))
	}
	return out
}

// window returns which strips are in view: as many whole ones as find room from
// wanted on, moved so that the selected one and its neighbours are among them.
func window(cells []float64, wanted, selected, room int) (first, last int) {
	n := len(cells)
	first = min(max(0, wanted), n-1)
	if selected >= 0 && selected < n {
		first = min(first, max(0, selected-1))
		sum := 0.0
		end := min(selected+1, n-1)
		for i := first; i <= end; i++ {
			sum += cells[i]
		}
		for ; first < selected && sum > float64(room); first++ {
			sum -= cells[first]
		}
	}
	sum := 0.0
	for last = first; last < n && sum+cells[last] <= float64(room); last++ {
		sum += cells[last]
	}
	last = max(last, first+1)
	for last == n && first > 0 && sum+cells[first-1] <= float64(room) {
		first--
		sum += cells[first]
	}
	return first, last
}

// place sets where strips first to last are across, from x on to most at the most, and
// returns how many cells they take. Edges are rounded from the sum so far, so that roundings
// do not add up.
func (l *Layout) place(x, most int, cells, widths []float64, first, last int) int {
	edge := 0.0
	for _, w := range widths[:first] {
		edge += w
	}
	start, at := edge, 0.0
	for i := first; i < last; i++ {
		from := min(x+int(math.Round(at)), most)
		at += cells[i]
		to := min(x+int(math.Round(at)), most)
		l.Strips = append(l.Strips, Span{Strip: i, X: from, W: to - from})
		l.edges = append(l.edges, edge)
		edge += widths[i]
	}
	l.edges = append(l.edges, edge)
	end := l.Strips[len(l.Strips)-1]
	all := end.X + end.W - x
	scale := float64(all) / math.Max(edge-start, math.SmallestNonzeroFloat64)
	for i, s := range l.Strips {
		if math.Abs(float64(s.X-x)-(l.edges[i]-start)*scale) > 1 {
			l.ToScale = false
		}
	}
	return all
}

// ends sets how far the strips reach along the grain.
func (l *Layout) ends(v View) {
	limit := 2 * l.Wood.H
	if l.Lies {
		limit = l.Wood.W
	}
	for i := range l.Strips {
		s := v.Pattern.Strips[l.Strips[i].Strip]
		start := s.Start.MM()
		end := start + v.Pattern.StripLength(s, v.Allowance).MM()
		near := min(max(0, int(math.Round(start*l.along))), max(0, limit-1))
		far := min(limit, max(near+1, int(math.Round(end*l.along))))
		if !l.Lies {
			near, far = limit-far, limit-near // the datum end is at the bottom
		}
		l.Strips[i].From, l.Strips[i].To = near, far
	}
}

// column returns the column of mm on the ruler beneath: from the datum end where the panel
// lies, else from edge A, which must lie among the strips in view. It follows the strips where
// they are not to scale.
func (l Layout) column(mm float64) int {
	if l.Lies {
		return l.Wood.X + int(math.Floor(mm*l.along))
	}
	for i, s := range l.Strips {
		from, to := l.edges[i], l.edges[i+1]
		if mm <= to || i == len(l.Strips)-1 {
			if to <= from {
				return s.X
			}
			return s.X + int(math.Round(math.Min(1, (mm-from)/(to-from))*float64(s.W)))
		}
	}
	return l.Wood.X
}
