package search

import (
	"math"
	"slices"
)

// A bound says how good a layout can still become. The number of strips, the budgets,
// the use-first width asked for and the counts of most kinds are not kept to but
// priced; a few kinds, the kept ones, are counted exactly. What is left is a walk over
// width, last kind and the counts of kept kinds, which is computed outright. Each unit
// of a kind costs its price, the prices of all that there is are added, and no layout
// is worth more than that, whatever the prices are (a Lagrangian bound).
//
// Why that is so: of a layout, what each condition leaves over is 0 or more (most less
// strips, strips less fewest, a budget less what is taken, of each kind what there is
// less what is used, use-first width less what is asked for). Prices are 0 or more, so
// adding price times what is left over to a layout's value makes it no less. What that
// comes to is the constant, and a part for each strip and each line: a walk, of which the table
// holds the best. Every layout is such a walk, since the walk keeps to fewer conditions
// (pins, neighbours, width in cells and kept counts are kept to by both). Strips of a
// kind that is not kept count as use-first ones or not, whichever is worth more, which
// is no less than what they are.
type bound struct {
	alpha    int64   // what a unit of contrast counts, 0 or 1
	first    []int64 // value less price of a use-first strip of each kind
	plain    []int64 // of another
	constant int64
	kept     []int   // kinds that are counted
	stride   []int   // of each kind: what one step of it adds to the state; 0 where it is not kept
	states   int     // of the counts of kept kinds
	rest     []int64 // at [depth][cell][state][kind] as they were before the step of kind: the most that the rest of a walk may bring after it
	start    int64   // the most that a whole walk may bring
}

// infeasible marks what cannot be.
const infeasible = math.MinInt64 / 4

// all returns the bound: no layout is worth more.
func (b *bound) all() int64 {
	if b.start <= infeasible/2 {
		return infeasible
	}
	return b.start + b.constant
}

// keep makes kinds the kept ones. A kept kind is worth what its first strips and then its
// others are, as in a layout, and no more of it than there are is let in; so a bound with
// kept kinds holds for the same reason, and prices of its own would add nothing to it.
// Which kinds are kept is free.
func (b *bound) keep(w *pathProblem, kinds []int) {
	b.kept, b.states = nil, 1
	b.stride = make([]int, w.k)
	for _, k := range kinds {
		b.kept, b.stride[k] = append(b.kept, k), b.states
		b.states *= w.steps(k) + 1
	}
}

// steps returns how many steps of a kind a walk may have.
func (w *pathProblem) steps(kind int) int { return w.count[kind] / w.units }

// state returns the state of counts.
func (b *bound) state(w *pathProblem, counts []uint16) int {
	state := 0
	for _, k := range b.kept {
		state += int(counts[k]) / w.units * b.stride[k]
	}
	return state
}

// depths returns how many tables a walk has: one for each step with a pin to come, and
// one for the rest.
func (w *pathProblem) depths() int { return max(1, len(w.pins)) }

// at returns the place in the table of a step of kind with which a walk has come to cell
// and state. What one may go on to from a place lies side by side.
func (b *bound) at(w *pathProblem, depth, cell, state, kind int) int {
	return b.from(w, depth, cell-w.units*w.cell[kind], state-b.stride[kind]) + kind
}

// from returns the first place of the steps that a walk at cell and state may go on to,
// depth steps having been done.
func (b *bound) from(w *pathProblem, depth, cell, state int) int {
	return ((depth*(w.chi+1)+cell)*b.states + state) * w.k
}

// size returns how many values a table with so many states has.
func (w *pathProblem) size(states int) int { return w.depths() * (w.chi + 1) * states * w.k }

// free returns what n strips of a kind that is not kept are worth, when the best ones
// come first; infeasible for half a couple.
func (b *bound) free(w *pathProblem, kind, n int) int64 {
	switch {
	case w.pair[kind] && n%2 == 1:
		return infeasible
	case w.pair[kind]:
		firsts := int64(w.firsts(kind, 0, n))
		return firsts*b.first[kind] + (int64(n)-firsts)*b.plain[kind]
	case w.first[kind] == 0:
		return int64(n) * b.plain[kind]
	case w.first[kind] == w.count[kind]:
		return int64(n) * b.first[kind]
	default:
		return int64(n) * max(b.first[kind], b.plain[kind])
	}
}

// strips returns what n more strips of a kind are worth after have of them; infeasible where
// there are not so many of a kept kind.
func (b *bound) strips(w *pathProblem, kind, have, n int) int64 {
	if b.stride[kind] == 0 {
		return b.free(w, kind, n)
	}
	if have+n > w.count[kind] || w.pair[kind] && n%2 == 1 {
		return infeasible
	}
	firsts := int64(w.firsts(kind, have, n))
	return firsts*b.first[kind] + (int64(n)-firsts)*b.plain[kind]
}

// have returns how many strips of a kept kind a state has; 0 of another.
func (b *bound) have(w *pathProblem, kind, state int) int {
	if b.stride[kind] == 0 {
		return 0
	}
	return state / b.stride[kind] % (w.steps(kind) + 1) * w.units
}

// gains returns what a step of each kind is worth in each state, and one strip in the
// middle, at [state][kind].
func (b *bound) gains(w *pathProblem) (step, middle []int64) {
	step, middle = make([]int64, 0, b.states*w.k), make([]int64, 0, b.states*w.k)
	for state := range b.states {
		for kind := range w.k {
			have := b.have(w, kind, state)
			step, middle = append(step, b.strips(w, kind, have, w.units)), append(middle, b.strips(w, kind, have, 1))
		}
	}
	return step, middle
}

// fillTable fills the table. Depth d holds the walks with d+1 steps done, the last depth
// those with as many or more: every pin has been walked by then, so that what may follow
// does not depend on how many steps were done. Each place depends on wider ones of the
// same depth or on ones of the next, which are there before it. Where the work was
// stopped the table is not whole, and whoever called must not use it. It gives what the table
// was filled by.
func (w *pathProblem) fillTable(b *bound, g *graph, stop stopper) *tableWork {
	size := w.size(b.states)
	if cap(b.rest) < size {
		b.rest = make([]int64, size)
	}
	b.rest = b.rest[:size]
	r := newTableWork(w, b, g)
	for depth := w.depths() - 1; depth >= 0; depth-- {
		r.at(depth)
		for cell := w.chi; cell >= 0; cell-- {
			if stop.stopped() {
				return r
			}
			for state := range b.states {
				if r.least[state] <= cell {
					r.fill(cell, state)
				}
			}
		}
	}
	b.start = infeasible
	for kind := range w.k {
		if v := w.begins(b, kind); v > infeasible {
			b.start = max(b.start, v)
		}
	}
	return r
}

// begins returns the most that a walk that begins with kind may bring, or infeasible.
func (w *pathProblem) begins(b *bound, kind int) int64 {
	cell := w.units * w.cell[kind]
	gain := b.strips(w, kind, 0, w.units)
	if !w.allowed(0, kind) || w.barred(0, 0, kind) || cell > w.chi || gain == infeasible {
		return infeasible
	}
	if v := b.rest[b.at(w, 0, cell, b.stride[kind], kind)]; v > infeasible {
		return gain + v
	}
	return infeasible
}

// ends reports whether a layout may end with such a width in cells.
func (w *pathProblem) ends(cell int) bool { return cell >= w.clo && cell <= w.chi }

// A tableWork is a table that is being filled.
type tableWork struct {
	w            *pathProblem
	b            *bound
	g            *graph
	worth        []int64 // of a step from one kind to the next; negInf where they may not touch
	dearest      []int64 // of each kind: the most that a step from it is worth
	step, middle []int64 // what kinds are worth by state
	least        []int   // of each state: the cells of its strips
	lacks        []bool  // of each state and kind: whether the kind is kept and the state has none of it

	cells []int // of a step of each kind
	back  []int // of each kind: from where a place's steps begin back to the step of the kind that led there

	depth, next int
	open        []bool  // of each kind: whether the next step may put it
	onto, mid   []int64 // of each kind: what going on to it brings, and ending with it
	order       []int   // kinds, the best to go on to first
}

// negInf is so little that it stays below infeasible whatever is added.
const negInf = math.MinInt64 / 2

func newTableWork(w *pathProblem, b *bound, g *graph) *tableWork {
	r := &tableWork{w: w, b: b, g: g, worth: make([]int64, len(g.worth)), dearest: make([]int64, w.k), least: make([]int, b.states),
		lacks: make([]bool, b.states*w.k), open: make([]bool, w.k), onto: make([]int64, w.k), mid: make([]int64, w.k), order: make([]int, w.k)}
	r.step, r.middle = b.gains(w)
	r.cells, r.back = make([]int, w.k), make([]int, w.k)
	for i := range w.k {
		r.order[i], r.cells[i] = i, w.units*w.cell[i]
		r.back[i] = (r.cells[i]*b.states+b.stride[i])*w.k - i
		for j := range w.k {
			r.worth[i*w.k+j] = negInf
		}
		for _, j := range g.next[i] {
			worth := int64(w.units) * b.alpha * g.worth[i*w.k+int(j)]
			r.worth[i*w.k+int(j)] = worth
			r.dearest[i] = max(r.dearest[i], worth)
		}
	}
	for state := range b.states {
		for _, k := range b.kept {
			have := b.have(w, k, state)
			r.least[state] += have * w.cell[k]
			r.lacks[state*w.k+k] = have == 0
		}
	}
	return r
}

// at goes to a depth.
func (r *tableWork) at(depth int) {
	last := r.w.depths() - 1
	r.depth, r.next = depth, min(depth+1, last)
	for j := range r.w.k {
		r.open[j] = depth < last && r.w.allowed(depth+1, j) || depth == last && !r.w.given[j]
	}
}

// fill computes what may follow on each kind with depth+1 steps done, such a width and
// such counts of kept kinds. It leaves off where no kind can bring more: kinds come in the
// order of what going on to them brings by itself, and no line from this kind is worth
// more than dearest. Places that no walk leads to are left as they are, for none asks
// for them: a kept kind of which the state has none, and widths below that of the
// state's strips.
func (r *tableWork) fill(cell, state int) {
	w, b := r.w, r.b
	last := w.depths() - 1
	middle := r.goOn(cell, state)
	live := r.rank()
	ends := r.depth == last && w.ends(cell)
	lacks := r.lacks[state*w.k : (state+1)*w.k]
	from := b.from(w, r.depth, cell, state)
	for kind, lack := range lacks {
		if lack || cell < r.cells[kind] {
			continue // no step of it leads here
		}
		most := int64(infeasible)
		if ends {
			most = r.end(kind)
		}
		row, dearest := r.worth[kind*w.k:(kind+1)*w.k], r.dearest[kind]
		for _, j := range live {
			onto := r.onto[j]
			if onto+dearest <= most {
				break // nor are those behind it any better
			}
			most = max(most, row[j]+onto)
		}
		if middle {
			for j, v := range r.mid {
				most = max(most, row[j]+v) // both lines of the middle strip
			}
		}
		b.rest[from-r.back[kind]] = most
	}
}

// goOn computes what going on to each kind from cell and state brings, and ending with
// it as the middle strip; it reports whether that may be.
func (r *tableWork) goOn(cell, state int) (middle bool) {
	w := r.w
	last := w.depths() - 1
	from := r.b.from(w, r.next, cell, state)
	rest, step := r.b.rest[from:from+w.k], r.step[state*w.k:(state+1)*w.k]
	for j, v := range rest {
		r.onto[j] = infeasible
		if r.open[j] && cell+r.cells[j] <= w.chi && step[j] > infeasible && v > infeasible && !w.barred(cell, -1, j) {
			r.onto[j] = v + step[j]
		}
	}
	if !w.odd {
		return false
	}
	for j := range w.k {
		r.mid[j] = infeasible
		if r.open[j] && r.next == last && w.ends(cell+w.cell[j]) && r.middle[state*w.k+j] > infeasible && !w.barred(cell, -1, j) {
			r.mid[j], middle = r.middle[state*w.k+j], true
		}
	}
	return middle
}

// rank sorts the kinds that may be gone on to, the best first, and gives them. From one
// place to the next little changes, so that inserting is quick.
func (r *tableWork) rank() []int {
	live := 0
	for i := 0; i < len(r.order); i++ {
		j := r.order[i]
		v, at := r.onto[j], i
		for ; at > 0 && r.onto[r.order[at-1]] < v; at-- {
			r.order[at] = r.order[at-1]
		}
		r.order[at] = j
		if v > infeasible {
			live++
		}
	}
	return r.order[:live]
}

// end returns what ending with kind brings, or infeasible. A symmetric layout with an even
// number of strips has two of a class in its middle, of one kind or a couple, whose
// line counts once; one with an odd number does not end so (goOn).
func (r *tableWork) end(kind int) int64 {
	twin := kind*r.w.k + kind
	switch {
	case r.w.units == 1:
		return 0
	case r.w.even && r.g.middle[kind]:
		return r.b.alpha * r.g.worth[twin]
	default:
		return infeasible
	}
}

// trace returns the kinds of a best walk, left to right, and counts them.
func (r *tableWork) trace(counts []int) []int32 {
	w, b := r.w, r.b
	clear(counts)
	kind := -1
	for j := range w.k {
		if v := w.begins(b, j); v > infeasible && v == b.start {
			kind = j
			break
		}
	}
	var half []int32
	depth, cell, state, middle := 0, 0, 0, -1
	for kind >= 0 {
		half = append(half, int32(kind))
		counts[kind] += w.units
		cell, state = cell+r.cells[kind], state+b.stride[kind]
		kind, middle = r.follow(depth, cell, state, kind)
		depth = min(depth+1, w.depths()-1)
	}
	if middle >= 0 {
		counts[middle]++
	}
	return w.unfold(half, middle)
}

// follow returns the kind that a best walk goes on to from a step of kind, with depth+1
// steps done, and the strip in the middle that ends it; -1 where there is none.
func (r *tableWork) follow(depth, cell, state, kind int) (next, middle int) {
	r.at(depth)
	odd := r.goOn(cell, state)
	want := r.b.rest[r.b.at(r.w, depth, cell, state, kind)]
	if depth == r.w.depths()-1 && r.w.ends(cell) && want == r.end(kind) {
		return -1, -1
	}
	for _, j := range r.g.next[kind] {
		worth := r.worth[kind*r.w.k+int(j)]
		switch {
		case r.onto[j] > infeasible && worth+r.onto[j] == want:
			return int(j), -1
		case odd && r.mid[j] > infeasible && worth+r.mid[j] == want:
			return -1, int(j)
		}
	}
	return -1, -1
}

// unfold returns the kinds of a layout that was walked, in a symmetric one those of both
// halves; middle is the one strip between them, or -1.
func (w *pathProblem) unfold(half []int32, middle int) []int32 {
	if w.units == 1 {
		return half
	}
	whole := slices.Clone(half)
	if middle >= 0 {
		whole = append(whole, int32(middle))
	}
	for i := len(half) - 1; i >= 0; i-- {
		whole = append(whole, int32(w.parts[half[i]].right))
		whole[i] = int32(w.parts[half[i]].left)
	}
	return whole
}
