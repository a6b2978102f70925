package gallery

import (
	"math"
	"slices"
	"sort"
)

// never is what cannot be.
const never = math.MinInt64 / 4

// A weighing is what layouts are worth: contrast or use-first width, less prices of what
// they take.
type weighing struct {
	contrast bool
	gain     []int64 // of one strip of each class
	credit   int64   // of all that there is
}

// A table holds the most that the rest of a walk may bring, by its steps, its offset and its
// state. What there is of timber is priced, not counted (a Lagrangian bound: prices are 0 or
// more, and what is left over of anything is 0 or more too), and how different a layout
// looks from others does not count; so no layout is worth more.
type table struct {
	f      *fold
	m      *machine
	g      *goods
	pins   []int     // of each step: the class pinned there, or -1
	xs     [][]int64 // offsets before each step that widths can come to, ascending
	onto   [][]int32 // of each step: at [place of offset][width] the place of the offset after it, or -1
	widths []int64
	wide   []int // of each class: the place of its width
	best   [][]int64
	weigh  weighing
}

// cellsMost is how many offsets and states a step may have together.
const cellsMost = 3_000_000

// newTable returns a table to be filled; nil where it would be too large.
func newTable(g *goods, f *fold, m *machine, pins []int) *table {
	t := &table{f: f, m: m, g: g, pins: pins}
	for _, c := range g.classes {
		if !slices.Contains(t.widths, c.width) {
			t.widths = append(t.widths, c.width)
		}
		t.wide = append(t.wide, slices.Index(t.widths, c.width))
	}
	t.xs = [][]int64{{0}}
	for i := range f.copies {
		var next []int64
		seen := map[int64]bool{}
		if i+1 < f.starts {
			next, seen[0] = []int64{0}, true
		}
		for _, x := range t.xs[i] {
			for _, w := range t.widths {
				if end := x + w; f.fits(i, x, w) && !seen[end] {
					seen[end] = true
					next = append(next, end)
				}
			}
		}
		slices.Sort(next)
		onto := make([]int32, 0, len(t.xs[i])*len(t.widths))
		for _, x := range t.xs[i] {
			for _, w := range t.widths {
				at := -1
				if f.fits(i, x, w) {
					at = sort.Search(len(next), func(j int) bool { return next[j] >= x+w })
				}
				onto = append(onto, int32(at))
			}
		}
		t.xs, t.onto = append(t.xs, next), append(t.onto, onto)
		if len(next)*len(m.states) > cellsMost {
			return nil
		}
	}
	return t
}

// fill fills the table for a weighing, and returns what no layout is worth more than.
func (t *table) fill(w weighing, stop func() bool) int64 {
	t.weigh = w
	n, states := len(t.f.copies), len(t.m.states)
	if t.best == nil {
		t.best = make([][]int64, n+1)
		for i := range t.best {
			t.best[i] = make([]int64, len(t.xs[i])*states)
		}
	}
	for at := range t.best[n] {
		t.best[n][at] = t.ending(at % states)
	}
	for i := n - 1; i >= 0; i-- {
		if stop() {
			return never
		}
		bring := t.brought(i)
		for x := range t.xs[i] {
			t.fillRow(i, x, bring, t.best[i][x*states:(x+1)*states])
		}
	}
	if most := t.all(); most > never/2 {
		return most + w.credit
	}
	return never
}

// all returns the most that a whole walk may bring.
func (t *table) all() int64 {
	most := int64(never)
	for i := range t.f.starts {
		most = max(most, t.best[i][0]) // at offset 0, which is the first
	}
	return most
}

// brought returns what step i brings by each edge of each state.
func (t *table) brought(i int) [][]int64 {
	out := make([][]int64, len(t.m.edges))
	for s, edges := range t.m.edges {
		row := make([]int64, len(edges))
		for j, e := range edges {
			row[j] = t.brings(i, e)
		}
		out[s] = row
	}
	return out
}

// fillRow fills what may come after i steps at an offset, by state.
func (t *table) fillRow(i, x int, bring [][]int64, row []int64) {
	begins := t.xs[i][x] == 0
	onto, next, states := t.onto[i][x*len(t.widths):], t.best[i+1], len(t.m.states)
	plain := t.pins == nil && t.f.way == 0
	for s := range row {
		most := int64(never)
		if begins == (s == 0) {
			for j, e := range t.m.edges[s] {
				to := onto[t.wide[e.class]]
				if to < 0 || !plain && !t.allows(i, s, e) {
					continue
				}
				if v := next[int(to)*states+int(e.to)] + bring[s][j]; v > most {
					most = v
				}
			}
		}
		if most <= never/2 {
			most = never
		}
		row[s] = most
	}
}

// allows reports whether pins and swelling widths let a step be.
func (t *table) allows(i, s int, e edge) bool {
	c := int(e.class)
	if t.pins != nil && t.pins[i] >= 0 && t.pins[i] != c {
		return false
	}
	return t.f.way == 0 || i == 0 || t.f.swells(i, t.g.classes[t.m.states[s].last].width, t.g.classes[c].width)
}

// ending returns what ending in a state brings.
func (t *table) ending(s int) int64 {
	if !t.m.ends[s] {
		return never
	}
	if t.weigh.contrast {
		return int64(t.f.close) * t.m.closes[s]
	}
	return 0
}

// along returns the most that may come with a step by e.
func (t *table) along(i, x, s int, e edge) int64 {
	c := int(e.class)
	onto := t.onto[i][x*len(t.widths)+t.wide[c]]
	if onto < 0 || !t.allows(i, s, e) {
		return never
	}
	rest := t.best[i+1][int(onto)*len(t.m.states)+int(e.to)]
	if rest <= never/2 {
		return never
	}
	return rest + t.brings(i, e)
}

// brings returns what step i brings by e.
func (t *table) brings(i int, e edge) int64 {
	v := int64(t.f.copies[i]) * t.weigh.gain[e.class]
	if t.weigh.contrast {
		v += int64(t.f.lines[i]) * e.worth
	}
	return v
}

// trace returns the classes that each step of a best walk puts.
func (t *table) trace() []int {
	var out []int
	x, s, from := 0, 0, 0
	for i := range t.f.starts {
		if t.best[i][0] == t.all() {
			from = i
			break
		}
	}
	for i := from; i < len(t.f.copies); i++ {
		want := t.best[i][x*len(t.m.states)+s]
		for _, e := range t.m.edges[s] {
			if v := t.along(i, x, s, e); v > never && v == want {
				out = append(out, int(e.class))
				x, s = int(t.onto[i][x*len(t.widths)+t.wide[e.class]]), int(e.to)
				break
			}
		}
	}
	return out
}
