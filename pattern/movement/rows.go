package movement

import (
	"cmp"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
)

// leastRow is the height below which a row is left out.
const leastRow = length.Millimetre

// rows computes how far rows of an end-grain board are stretched, where all its cuts are
// square: a row cannot move as its own timbers would over the board's whole length.
func (b *Board) rows(r Physics, p pattern.Pattern, frees []free) {
	g := b.Up()
	if !g.EndGrain || slices.ContainsFunc(p.Seconds, pattern.Second.Mitred) {
		return
	}
	b.Rows = true
	b.Along = rowOf(g, frees, false)
	b.Across = rowOf(g, frees, true)
	b.RowLevel = LevelOf(max(b.Along.Pct, b.Across.Pct), r.shop.Limits.RowPct)
}

// A held is the stretch of a row that a cell has, by the number of its strip from 0.
type held struct {
	strip int
	mm    float64
}

// rowOf returns the row that is stretched most: of those along the board or, turned, of
// those across it. All cells of such a board lie alike, so a strip moves as one.
func rowOf(g second.GlueUp, frees []free, turned bool) Row {
	cells := make([]stretch, len(g.Cells))
	long := g.Size.Length
	if turned {
		long = g.Size.Width
	}
	board := make([]float64, len(frees)) // mm2 by strip
	var edges []length.Length
	for i, c := range g.Cells {
		least, most := c.Box()
		if turned {
			least, most = second.Point{X: least.Y, Y: least.X}, second.Point{X: most.Y, Y: most.X}
		}
		cells[i] = stretch{c.Strip - 1, least.Y, most.Y, (most.X - least.X).MM()}
		board[c.Strip-1] += cells[i].mm * (most.Y - least.Y).MM()
		edges = append(edges, least.Y, most.Y)
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	area := g.Size.Length.MM() * g.Size.Width.MM()
	for i := range board {
		board[i] /= area
	}
	lies := planOf(&g.Cells[0], true)
	share := lies.x
	if turned {
		share = lies.y
	}
	best := Row{}
	scale := newRowScale(frees, share, board)
	for _, season := range Seasons() {
		scale.take(season)
		eachRow(cells, edges, func(from, to length.Length, spans []held) {
			if to-from < leastRow {
				return
			}
			pct, most := scale.weigh(spans, long.MM())
			if pct > best.Pct+tie || best.To == 0 {
				best.Pct, best.From, best.To = pct, from, to
			}
			best.MostPct = max(best.MostPct, most)
		})
	}
	return best
}

// A stretch is a cell: where it lies across the rows, and how long it is along them.
type stretch struct {
	strip    int
	from, to length.Length
	mm       float64
}

// eachRow goes through the rows between the edges, with the cells in each.
func eachRow(cells []stretch, edges []length.Length, do func(from, to length.Length, spans []held)) {
	slices.SortStableFunc(cells, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	var open []stretch
	var spans []held
	next := 0
	for i := 1; i < len(edges); i++ {
		from, to := edges[i-1], edges[i]
		open = slices.DeleteFunc(open, func(s stretch) bool { return s.to <= from })
		for next < len(cells) && cells[next].from <= from {
			open = append(open, cells[next])
			next++
		}
		spans = spans[:0]
		for _, s := range open {
			spans = append(spans, held{s.strip, s.mm})
		}
		do(from, to, spans)
	}
}

// A rowScale weighs rows against the whole board in one season.
type rowScale struct {
	frees  []free
	share  [2]float64
	board  []float64 // each strip's share of the board
	season Season

	mean        float64 // of the board
	least, most float64 // of a row without any strip, over unknown rings
	row         []float64
	touched     []int
}

func newRowScale(frees []free, share [2]float64, board []float64) *rowScale {
	return &rowScale{frees: frees, share: share, board: board, row: make([]float64, len(board))}
}

// take begins with a season.
func (s *rowScale) take(season Season) {
	s.season, s.mean, s.least, s.most = season, 0, 0, 0
	for i := range s.board {
		s.mean += s.board[i] * s.frees[i].by[asFigured].of(s.share, season)
		least, most := s.reach(i, -s.board[i])
		s.least, s.most = s.least+least, s.most+most
	}
}

// reach returns the least and the most of so many times what strip i does.
func (s *rowScale) reach(i int, times float64) (least, most float64) {
	f := &s.frees[i]
	if !f.open {
		v := times * f.by[asFigured].of(s.share, s.season)
		return v, v
	}
	return order(times*f.by[asFlat].of(s.share, s.season), times*f.by[asQuarter].of(s.share, s.season))
}

// weigh returns how far a row is from the board, in percent, and how far it may be.
func (s *rowScale) weigh(spans []held, long float64) (pct, most float64) {
	for _, one := range spans {
		if s.row[one.strip] == 0 {
			s.touched = append(s.touched, one.strip)
		}
		s.row[one.strip] += one.mm / long
	}
	mean, low, high := 0.0, s.least, s.most
	for _, i := range s.touched {
		mean += s.row[i] * s.frees[i].by[asFigured].of(s.share, s.season)
		withoutLow, withoutHigh := s.reach(i, -s.board[i])
		withLow, withHigh := s.reach(i, s.row[i]-s.board[i])
		low, high = low+withLow-withoutLow, high+withHigh-withoutHigh
		s.row[i] = 0
	}
	s.touched = s.touched[:0]
	return 100 * math.Abs(mean-s.mean), 100 * max(math.Abs(low), math.Abs(high))
}
