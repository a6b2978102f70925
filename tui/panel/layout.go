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
	// A panel is mostly longer than a screen is high, so the picture may be
	// squashed along the grain by this much before it stops growing across.
	mostSquash = 2.0
)

// A Span is where one strip stands.
type Span struct {
	Strip       int // from 0
	X, W        int // its columns
	Top, Bottom int // its ends, in half rows from the top of Wood; Bottom is the first below it
}

// A Line is where one glue line stands: it is the left edge of column X.
type Line struct {
	Line int // from 0, right of the strip of that number
	X    int
}

// A Layout says where everything of a panel's picture stands, in the cells of the
// canvas. A row that found no room is -1.
type Layout struct {
	Rect                           paint.Rect // what it was laid out for
	Wood                           paint.Rect // the strips themselves
	Strips                         []Span     // those in view, from left to right, without gaps
	Lines                          []Line     // between two strips in view
	Numbers, Letters, Rings, Marks int        // rows above the wood
	Ruler, Figures                 int        // rows beneath it
	Before, After                  int        // strips out of view on either side
	ToScale                        bool       // every edge stands within a cell of its true place
	lengthMM, perMM                float64    // of the longest reach; half rows per millimetre
	edges                          []float64  // true left edges of the strips in view and the last right one, mm from edge A
}

// StripAt returns the strip, from 0, whose column holds x, anywhere from its number
// down to the ruler.
func (l Layout) StripAt(x, y int) (strip int, ok bool) {
	if !l.Rect.Contains(x, y) {
		return 0, false
	}
	for _, s := range l.Strips {
		if x >= s.X && x < s.X+s.W {
			return s.Strip, true
		}
	}
	return 0, false
}

// First returns the leftmost strip in view, from 0: what View.First should be for
// the picture to stay where it is.
func (l Layout) First() int { return l.Before }

// Lay returns the layout of v in r. It depends on nothing else.
func Lay(v View, r paint.Rect) Layout {
	l := Layout{Rect: r, ToScale: true}
	woodRows := l.rows()
	n := len(v.Pattern.Strips)
	if n == 0 || r.Empty() {
		return l
	}
	l.lengthMM = reach(v.Pattern, v.Allowance)
	left, right := margins(r.W)
	if v.Whole {
		left, right = margins(min(r.W, slackFrom))
	}
	least := leastCells(n)
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
	first, last := 0, n
	var cells []float64
	if room := r.W - left - right; n*least <= room {
		across := room
		if !v.Whole {
			across = pictureWidth(n, room, total, l.lengthMM, woodRows)
		}
		cells = share(widths, total, float64(across), float64(least))
	} else {
		left, right = scrollMargins(r.W, left)
		room = max(1, r.W-left-right)
		cells = spread(widths, total, least, room)
		first, last = window(cells, v.First, v.Selected, room)
	}
	l.Before, l.After = first, n-last
	l.place(r.X+left, r.Right()-right, cells, widths, first, last)
	l.stand(v, woodRows)
	return l
}

// rows settles which rows find room, and returns how many remain for the wood.
func (l *Layout) rows() (wood int) {
	h := l.Rect.H
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

// spread returns the cells of strips that do not all find room: in proportion, a
// little wider than least in the mean, none below least or above room.
func spread(widths []float64, total float64, least, room int) []float64 {
	out := make([]float64, len(widths))
	scale := float64((least+1)*len(widths)) / total
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

// place sets the columns of strips first to last. Edges are rounded from the sum
// so far, so that roundings do not add up.
func (l *Layout) place(x, most int, cells, widths []float64, first, last int) {
	edge := 0.0
	for _, w := range widths[:first] {
		edge += w
	}
	start, at := edge, 0.0
	for i := first; i < last; i++ {
		from := min(x+int(math.Round(at)), most)
		at += cells[i]
		to := min(x+int(math.Round(at)), most)
		if i > first {
			l.Lines = append(l.Lines, Line{Line: i - 1, X: from})
		}
		l.Strips = append(l.Strips, Span{Strip: i, X: from, W: to - from})
		l.edges = append(l.edges, edge)
		edge += widths[i]
	}
	l.edges = append(l.edges, edge)
	end := l.Strips[len(l.Strips)-1]
	l.Wood.X, l.Wood.W = x, end.X+end.W-x
	scale := float64(l.Wood.W) / math.Max(edge-start, math.SmallestNonzeroFloat64)
	for i, s := range l.Strips {
		if math.Abs(float64(s.X-x)-(l.edges[i]-start)*scale) > 1 {
			l.ToScale = false
		}
	}
}

// stand sets how far the strips reach along the grain, and moves the ruler up
// beneath them where the panel is short.
func (l *Layout) stand(v View, woodRows int) {
	halves := 2 * woodRows
	first, last := l.edges[0], l.edges[len(l.edges)-1]
	across := float64(l.Wood.W) / math.Max(last-first, 1e-9)
	l.perMM = math.Min(float64(halves)/l.lengthMM, across)
	l.Wood.H = min(woodRows, max(1, int(math.Ceil(l.lengthMM*l.perMM/2-1e-9))))
	if l.Ruler >= 0 {
		l.Ruler = l.Wood.Bottom()
		l.Figures = l.Ruler + 1
	}
	for i := range l.Strips {
		s := v.Pattern.Strips[l.Strips[i].Strip]
		start := s.Start.MM()
		end := start + v.Pattern.StripLength(s, v.Allowance).MM()
		limit := 2 * l.Wood.H
		near := min(max(0, int(math.Round(start*l.perMM))), max(0, limit-1))
		far := min(limit, max(near+1, int(math.Round(end*l.perMM))))
		l.Strips[i].Top, l.Strips[i].Bottom = limit-far, limit-near
	}
}

// column returns the column whose left edge is nearest to mm from edge A, which must
// lie among the strips in view. It follows the strips where they are not to scale.
func (l Layout) column(mm float64) int {
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
