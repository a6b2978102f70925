package ceiling

import (
	"slices"

	"example.com/oddments/pattern/length"
)

// A grid is the lengths at which prices may rise, of each thickness: a strip costs what the
// longest of them that is no longer costs. So it holds for strips of whatever length.
type grid struct {
	marks [][]length.Length // by thickness, ascending
	all   []length.Length   // of every thickness
	at    [][]int           // of each of all, by thickness: the place of the longest mark no longer; below 0: none
	base  [][]int           // of each pool, by thickness: the row of its first mark
	rows  int
	rise  []float64 // of each row: millimetres from the mark before
}

// Bounds of a grid.
const (
	mostMarks = 40
	nearest   = 4 * length.Millimetre // marks at least so far apart, and further where there are many
)

// lay chooses the marks from all lengths that strips of panels have.
func (c *Ceiling) lay() {
	c.marks = make([][]length.Length, len(c.glued))
	for g := range c.glued {
		var all []length.Length
		for _, w := range c.wants {
			if w.glued == g {
				all = append(all, w.lengths()...)
			}
		}
		slices.Sort(all)
		all = slices.Compact(all)
		for near := nearest; ; near += near / 2 {
			c.marks[g] = c.marks[g][:0]
			for _, l := range all {
				if n := len(c.marks[g]); n == 0 || l-c.marks[g][n-1] >= near {
					c.marks[g] = append(c.marks[g], l)
				}
			}
			if len(c.marks[g]) <= mostMarks {
				break
			}
		}
		c.all = append(c.all, c.marks[g]...)
	}
	slices.Sort(c.all)
	c.all = slices.Compact(c.all)
	for _, l := range c.all {
		places := make([]int, len(c.glued))
		for g := range places {
			places[g] = c.floor(g, l)
		}
		c.at = append(c.at, places)
	}
	for range c.pools {
		base := make([]int, len(c.glued))
		for g, marks := range c.marks {
			base[g] = c.rows
			c.rows += len(marks)
			for i, l := range marks {
				if i > 0 {
					l -= marks[i-1]
				}
				c.rise = append(c.rise, l.MM())
			}
		}
		c.base = append(c.base, base)
	}
	for _, w := range c.wants {
		w.place(c)
	}
	for i := range c.pools {
		for k := range c.pools[i].ready {
			u := &c.pools[i].ready[k]
			for g, glued := range c.glued {
				at := -1
				if u.exact.Thickness >= glued {
					at = c.floor(g, u.exact.Length)
				}
				u.at = append(u.at, at)
			}
		}
	}
}

// floor returns the place of the longest mark that is no longer; below 0: none is.
func (c *Ceiling) floor(glued int, l length.Length) int {
	at, found := slices.BinarySearch(c.marks[glued], l)
	if !found {
		at--
	}
	return at
}
