package search

import (
	"slices"

	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest/stock"
)

// A pathProblem is the search in numbers: it seeks a walk, a way from kind to kind, each step of which puts
// strips into the layout. A symmetric layout is walked from its edge to its middle, so
// that a step puts two strips, but for a strip in the very middle.
type pathProblem struct {
	k     int
	width []int64  // of each kind, nanometres
	count []int    // strips of each kind
	first []int    // of these, use-first ones
	made  []int    // varieties
	given []bool   // only at pinned places
	pair  []bool   // couples: a step puts one of either kind, and one strip by itself none
	parts []couple // of each kind: what its steps put left and right
	units int      // strips a step puts: 1, or 2 where symmetric

	lo, hi   int   // strips in all
	wlo, whi int64 // total width, nanometres
	even     bool  // symmetric: there may be two alike in the middle
	odd      bool  // symmetric: there may be one in the middle

	pins []pinned // of each step up to the last pinned one

	budgets []stock.Budget

	cells
}

// Cells are widths in which bounds are computed. Where they are coarse, the window is widened
// by what rounding can come to: each strip's cells are rounded down, so all together are at
// most the width in cells, and short of it by less than one a strip. A layout is looked at
// with its width in nanometres, too.
type cells struct {
	cell     []int
	clo, chi int
	bars     [][][2]bool // of each kind: by the cell it begins at from the left edge and by side, whether none may; nil: each may anywhere
	bricks   joints.How  // that strips are parted as; AsTheyAre: of either side
}

// barred reports whether no strip of a kind may begin behind steps so wide together, which are
// before so many; below 0: any number.
func (w *pathProblem) barred(cell, before, kind int) bool {
	if w.bars == nil {
		return false
	}
	at := cell / w.units
	if at >= len(w.bars[kind]) {
		return false
	}
	bars := w.bars[kind][at]
	if before < 0 || w.bricks == joints.AsTheyAre {
		return bars[0] && bars[1]
	}
	return bars[w.bricks.Side(before+1)]
}

// bar says where strips may not begin, since no timber is long enough for what products take of
// them there. Where cells are coarse nothing is said.
func (s *search) bar(w *pathProblem, size, coarse int64) {
	if !s.ByPlace() || coarse > 0 {
		return
	}
	w.bars = make([][][2]bool, w.k)
	for i := range w.k {
		kind := w.parts[i].left
		for cell := range w.chi + 1 {
			fits := s.Fits(kind, length.Length(int64(cell)*size))
			w.bars[i] = append(w.bars[i], [2]bool{!fits[0], !fits[1]})
		}
	}
}

// bothBricks returns the walks of either bricks, where strips are parted so: what one may put
// at a place depends on which they are.
func bothBricks(all []*pathProblem, how joints.How) []*pathProblem {
	if how != joints.Even {
		return all
	}
	var out []*pathProblem
	for _, w := range all {
		for _, how := range []joints.How{joints.Even, joints.Odd} {
			one := *w
			one.bricks = how
			out = append(out, &one)
		}
	}
	return out
}

// overdrawn reports whether counts take more than some budget has.
func (w *pathProblem) overdrawn(counts []uint16) bool {
	return slices.ContainsFunc(w.budgets, func(b stock.Budget) bool { return b.Overdrawn(counts) })
}

// finest is how many cells the widest layout may be.
const finest = 2000

// measure sets the cells.
func (s *search) measure(w *pathProblem) {
	var unit, least int64
	for _, width := range w.width {
		unit = gcd(unit, width)
		if least == 0 || width < least {
			least = width
		}
	}
	if unit == 0 {
		unit = 1
	}
	size, coarse := unit, int64(0)
	if w.whi/unit > finest {
		size = min(least, (w.whi+finest-1)/finest)
		coarse = min(int64(w.hi), w.whi/least) // each strip loses less than a cell
	}
	w.cell = make([]int, w.k)
	for i, width := range w.width {
		w.cell[i] = int(width / size)
	}
	w.chi = int(w.whi / size)
	if coarse > 0 {
		w.clo = int(max(0, w.wlo/size-coarse))
	} else {
		w.clo = int((max(0, w.wlo) + size - 1) / size)
	}
	s.bar(w, size, coarse)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// newWalks returns the walks of a search; the best of each is the best of all. Where a
// symmetric layout has pinned strips, their places in the half depend on how many
// strips there are, so each number of strips has a walk of its own: every symmetric layout
// is in the walk of its number.
//
// No layout is lost by what is left out here: it has as many strips as the last pinned
// place, no more than there are, and no more of a kind than the width or the number of
// strips has room for. Two pinned strips of unlike classes in mirrored places leave a
// number of strips no step; a walk reads their places from the nearer edge, and its steps put
// strips of one class on both sides, which is what symmetry asks for.
func (s *search) newWalks() []*pathProblem {
	base := pathProblem{k: len(s.Kinds), units: 1, lo: s.ask.Strips[0], hi: s.ask.Strips[1], budgets: s.coupled()}
	least, most := s.ask.Limits()
	base.wlo, base.whi = int64(least), int64(most)
	for i, k := range s.Kinds {
		parts, pair := s.coupleOf(i)
		base.pair, base.parts = append(base.pair, pair), append(base.parts, parts)
		base.width, base.made = append(base.width, int64(k.Strip.Width)), append(base.made, k.Made)
		base.count, base.first = append(base.count, k.Count), append(base.first, k.First)
		base.given = append(base.given, k.Given)
	}
	if most := s.most(); base.hi > most {
		base.hi = most
	}
	last := 0
	for _, p := range s.ask.Pinned {
		last = max(last, p.Place)
	}
	base.lo = max(base.lo, last)
	if base.lo > base.hi {
		return nil
	}
	for i, k := range s.Kinds {
		fit := min(base.hi, int(base.whi/base.width[i])) // more than that no layout has
		base.count[i], base.first[i] = min(base.count[i], fit), min(base.first[i], fit)
		if base.pair[i] {
			base.count[i] -= base.count[i] % 2
			base.first[i] = base.count[i] / 2 * marks(k.First, k.Count)
		}
	}
	if s.ask.Symmetric {
		base.units, base.even, base.odd = 2, true, true
		if last > 0 {
			return s.pinnedHalves(base)
		}
	}
	s.measure(&base)
	w := base
	w.pins = s.pins(last, func(place int) (int, int) { return place, 0 })
	return []*pathProblem{&w}
}

// most returns how many strips there are at most, and how many fit the width.
func (s *search) most() int {
	n := 0
	var least length.Length
	for _, k := range s.Kinds[:s.plain] {
		n += k.Count
		if least == 0 || k.Strip.Width < least {
			least = k.Strip.Width
		}
	}
	if least == 0 {
		return 0
	}
	_, wide := s.ask.Limits()
	return int(min(int64(n), int64(wide/least)))
}

// pinnedHalves returns one walk for each number of strips.
func (s *search) pinnedHalves(base pathProblem) []*pathProblem {
	s.measure(&base)
	var out []*pathProblem
	for n := base.lo; n <= base.hi; n++ {
		w := base
		w.lo, w.hi, w.even, w.odd = n, n, n%2 == 0, n%2 == 1
		half := (n + 1) / 2
		w.pins = s.pins(half, func(place int) (int, int) {
			if place > half {
				return n + 1 - place, 1
			}
			return place, 0
		})
		out = append(out, &w)
	}
	return out
}

// A pinned step is the varieties pinned to its left and its right strip, or -1.
type pinned [2]int

// pins returns what is pinned to each of so many steps; step says to which, and on which
// side.
func (s *search) pins(steps int, step func(place int) (at, side int)) []pinned {
	pins := make([]pinned, steps)
	for i := range pins {
		pins[i] = pinned{-1, -1}
	}
	for _, p := range s.ask.Pinned {
		at, side := step(p.Place)
		pins[at-1][side] = s.madeOf(p.Strip)
	}
	return pins
}

// marks returns how many of the two strips of a couple are use-first ones: 0, 1 or 2.
func marks(first, count int) int {
	if count == 0 {
		return 0
	}
	return 2 * first / count
}

// firsts returns how many of n more strips of a kind are use-first ones after have of
// them. They come first; but couples come whole.
func (w *pathProblem) firsts(kind, have, n int) int {
	if w.pair[kind] {
		return n / 2 * marks(w.first[kind], w.count[kind])
	}
	return max(0, min(n, w.first[kind]-have))
}

// allowed reports whether step n, from 0, may put kind j: at a pinned place one of its
// variety, and elsewhere any but strips that are only given. A given strip may lie at the
// place mirrored to its own too, so that there are two for each pin.
func (w *pathProblem) allowed(n, j int) bool {
	if n >= len(w.pins) || w.pins[n] == (pinned{-1, -1}) {
		return !w.given[j]
	}
	parts := [2]int{w.parts[j].left, w.parts[j].right}
	for side, made := range w.pins[n] {
		if part := parts[side]; made >= 0 && made != w.made[part] || made < 0 && w.given[part] && w.pins[n][1-side] != w.made[part] {
			return false
		}
	}
	return true
}

// A graph says which kinds may lie side by side, and what that is worth.
type graph struct {
	k      int
	next   [][]int32 // of each kind, ascending
	worth  []int64   // contrast in units, of each two
	beside []bool    // of each two
	middle []bool    // of each: whether it may end a symmetric layout of an even number
}

// graph returns the kinds that may lie side by side with at least the contrast least.
func (s *search) graph(least int64) *graph {
	n := len(s.Kinds)
	g := &graph{k: n, next: make([][]int32, n), worth: s.matrix.contrast, beside: make([]bool, n*n), middle: make([]bool, n)}
	for i := range n {
		g.middle[i] = s.matrix.middle[i] && s.matrix.contrast[s.matrix.at(i, i)] >= least
		for j := range n {
			at := s.matrix.at(i, j)
			if s.beside(i, j) && s.matrix.contrast[at] >= least {
				g.next[i] = append(g.next[i], int32(j))
				g.beside[at] = true
			}
		}
	}
	return g
}
