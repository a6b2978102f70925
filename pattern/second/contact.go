package second

import (
	"cmp"
	"math"
	"slices"

	"example.com/oddments/pattern/length"
)

// leastContact is the shortest stretch of a bar line over which two cells count as
// neighbours.
const leastContact = length.Millimetre / 10

// A Contact is where a cell of one bar lies beside a cell of the next, by their places in
// the list of cells, and from where to where along the bar line.
type Contact struct {
	Left, Right int
	From, To    length.Length
}

// A side is a stretch of a bar's edge that one cell has.
type side struct {
	cell     int
	from, to length.Length
}

// Contacts returns those at each bar line, from edge A on.
func (g GlueUp) Contacts() [][]Contact {
	if len(g.Cells) == 0 {
		return nil
	}
	lines := make([][]Contact, g.Bars-1)
	for i, at := range g.sides() {
		left, right := at[0], at[1]
		for len(left) > 0 && len(right) > 0 {
			c := Contact{left[0].cell, right[0].cell, max(left[0].from, right[0].from), min(left[0].to, right[0].to)}
			if c.To-c.From >= leastContact {
				lines[i] = append(lines[i], c)
			}
			if left[0].to <= right[0].to {
				left = left[1:]
			} else {
				right = right[1:]
			}
		}
	}
	return lines
}

// sides returns for each bar line the sides of the bar before it and of that behind it.
func (g GlueUp) sides() [][2][]side {
	lines := make([][2][]side, g.Bars-1)
	last := g.last()
	for k, c := range g.Cells {
		bar := c.Bars[last]
		for end, line := range [...]int{bar, bar - 1} {
			if line < 1 || line >= g.Bars {
				continue
			}
			if from, to, ok := c.onLine(length.Length(line)*g.Across - g.Trim); ok {
				lines[line-1][end] = append(lines[line-1][end], side{k, from, to})
			}
		}
	}
	for _, l := range lines {
		for _, sides := range l {
			slices.SortFunc(sides, func(a, b side) int { return cmp.Compare(a.from, b.from) })
		}
	}
	return lines
}

// last returns which glue-up this is, from 0: the last that its cells know a bar of.
func (g GlueUp) last() int {
	n := 0
	for i, bar := range g.Cells[0].Bars {
		if bar > 0 {
			n = i
		}
	}
	return n
}

// onLine returns the stretch of the cell's outline that lies at x, if there is one.
func (c Cell) onLine(x length.Length) (from, to length.Length, ok bool) {
	from, to = math.MaxInt64, 0
	for _, p := range c.Points {
		if p.X == x {
			from, to = min(from, p.Y), max(to, p.Y)
		}
	}
	return from, to, to > from
}

// Misses returns the bar lines, counted from 1, where a line between two cells of one bar
// ends beside one of the next bar, from least to most away from it: what was to meet and
// does not.
func (g GlueUp) Misses(least, most length.Length) []int {
	if len(g.Cells) == 0 {
		return nil
	}
	var lines []int
	for i, at := range g.sides() {
		if misses(at[0], at[1], least, most) || misses(at[1], at[0], least, most) {
			lines = append(lines, i+1)
		}
	}
	return lines
}

// misses reports whether a line between two of these sides lies so near to the nearest of
// the others.
func misses(these, others []side, least, most length.Length) bool {
	k := 0
	for i := 1; i < len(these); i++ {
		at := these[i].from
		for k+1 < len(others) && others[k+1].from < at {
			k++
		}
		nearest := length.Length(math.MaxInt64)
		for _, j := range [...]int{k, k + 1} {
			if j > 0 && j < len(others) {
				nearest = min(nearest, max(at-others[j].from, others[j].from-at))
			}
		}
		if nearest >= least && nearest <= most {
			return true
		}
	}
	return false
}

// SlopeDegrees returns the angle between the grain of the cell and a joint face across the
// board, 0 where its end grain is up.
func (g GlueUp) SlopeDegrees(cell int) float64 {
	if g.EndGrain {
		return 0
	}
	return math.Asin(min(1, math.Abs(g.Cells[cell].Along.X))) * 180 / math.Pi
}
