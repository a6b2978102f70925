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
// comes to is konst, and a part for each strip and each line: a walk, of which the table
// holds the best. Every layout is such a walk, since the walk keeps to fewer conditions
// (pins, neighbours, width in cells and kept counts are kept to by both). Strips of a
// kind that is not kept count as use-first ones or not, whichever is worth more, which
// is no less than what they are.
type bound struct {
	alpha  int64   // what a unit of contrast counts, 0 or 1
	first  []int64 // value less price of a use-first strip of each kind
	plain  []int64 // of another
	konst  int64
	kept   []kept  // kinds that are counted
	stride []int   // of each kind: what one step of it adds to the state; 0 where it is not kept
	states int     // of the counts of kept kinds
	rest   []int64 // at [depth][cell][state][kind] as they were before the step of kind: the most that the rest of a walk may bring after it
	start  int64   // the most that a whole walk may bring
}

// A kept kind is one whose strips are counted. Its steps so far are
// (state / stride) mod (most + 1).
type kept struct{ kind, most, stride int }

// nothing marks what cannot be.
const nothing = math.MinInt64 / 4

// all returns the bound: no layout is worth more.
func (b *bound) all() int64 {
	if b.start <= nothing/2 {
		return nothing
	}
	return b.start + b.konst
}

// keep makes kinds the kept ones. A kept kind is worth what its first strips and then its
// others are, as in a layout, and no more of it than there are is let in; so a bound with
// kept kinds holds for the same reason, and prices of its own would add nothing to it.
// Which kinds are kept is free.
func (b *bound) keep(w *walk, kinds []int) {
	b.kept, b.states = nil, 1
	b.stride = make([]int, w.k)
	for _, k := range kinds {
		one := kept{k, w.steps(k), b.states}
		b.kept, b.stride[k] = append(b.kept, one), one.stride
		b.states *= one.most + 1
	}
}

// steps returns how many steps of a kind a walk may have.
func (w *walk) steps(kind int) int { return w.count[kind] / w.units }

// state returns the state of counts.
func (b *bound) state(w *walk, counts []uint16) int {
	state := 0
	for _, k := range b.kept {
		state += int(counts[k.kind]) / w.units * k.stride
	}
	return state
}

// depths returns how many tables a walk has: one for each step with a pin to come, and
// one for the rest.
func (w *walk) depths() int { return max(1, len(w.pins)) }

// at returns the place in the table of a step of kind with which a walk has come to cell
// and state. What one may go on to from a place lies side by side.
func (b *bound) at(w *walk, depth, cell, state, kind int) int {
	return b.from(w, depth, cell-w.units*w.cell[kind], state-b.stride[kind]) + kind
}

// from returns the first place of the steps that a walk at cell and state may go on to,
// depth steps having been done.
func (b *bound) from(w *walk, depth, cell, state int) int {
	return ((depth*(w.chi+1)+cell)*b.states + state) * w.k
}

// size returns how many values a table with so many states has.
func (w *walk) size(states int) int { return w.depths() * (w.chi + 1) * states * w.k }

// free returns what n strips of a kind that is not kept are worth, when the best ones
// come first; nothing for half a couple.
func (b *bound) free(w *walk, kind, n int) int64 {
	switch {
	case w.pair[kind] && n%2 == 1:
		return nothing
	case w.pair[kind]:
		return int64(n/2) * (b.first[kind] + b.plain[kind])
	case w.first[kind] == 0:
		return int64(n) * b.plain[kind]
	case w.first[kind] == w.count[kind]:
		return int64(n) * b.first[kind]
	default:
		return int64(n) * max(b.first[kind], b.plain[kind])
	}
}

// strips returns what n more strips of a kind are worth after have of them; nothing where
// there are not so many of a kept kind.
func (b *bound) strips(w *walk, kind, have, n int) int64 {
	if b.stride[kind] == 0 {
		return b.free(w, kind, n)
	}
	if have+n > w.count[kind] || w.pair[kind] && n%2 == 1 {
		return nothing
	}
	firsts := int64(w.firsts(kind, have, n))
	return firsts*b.first[kind] + (int64(n)-firsts)*b.plain[kind]
}

// have returns how many strips of a kept kind a state has.
func (b *bound) have(w *walk, k kept, state int) int {
	return state / k.stride % (k.most + 1) * w.units
}

// gains returns what a step of each kind is worth in each state, and one strip in the
// middle, at [state][kind].
func (b *bound) gains(w *walk) (step, middle []int64) {
	step, middle = make([]int64, b.states*w.k), make([]int64, b.states*w.k)
	for j := range w.k {
		step[j], middle[j] = b.free(w, j, w.units), b.free(w, j, 1)
	}
	for state := 1; state < b.states; state++ {
		copy(step[state*w.k:(state+1)*w.k], step[:w.k])
		copy(middle[state*w.k:(state+1)*w.k], middle[:w.k])
	}
	for state := range b.states {
		for _, k := range b.kept {
			have := b.have(w, k, state)
			step[state*w.k+k.kind] = b.strips(w, k.kind, have, w.units)
			middle[state*w.k+k.kind] = b.strips(w, k.kind, have, 1)
		}
	}
	return step, middle
}

// tabulate fills the table. Depth d holds the walks with d+1 steps done, the last depth
// those with as many or more: every pin has been walked by then, so that what may follow
// does not depend on how many steps were done. Each place depends on wider ones of the
// same depth or on ones of the next, which are there before it. Where the work was
// stopped the table is not whole, and whoever called must not use it.
func (w *walk) tabulate(b *bound, g *graph, stop stopper) {
	size := w.size(b.states)
	if cap(b.rest) < size {
		b.rest = make([]int64, size)
	}
	b.rest = b.rest[:size]
	r := newBoundTable(w, b, g)
	for depth := w.depths() - 1; depth >= 0; depth-- {
		r.at(depth)
		for cell := w.chi; cell >= 0; cell-- {
			if stop.stopped() {
				return
			}
			for state := range b.states {
				if r.least[state] <= cell {
					r.fill(cell, state)
				}
			}
		}
	}
	b.start = nothing
	for kind := range w.k {
		if v := w.begins(b, kind); v > nothing {
			b.start = max(b.start, v)
		}
	}
}

// begins returns the most that a walk that begins with kind may bring, or nothing.
func (w *walk) begins(b *bound, kind int) int64 {
	cell := w.units * w.cell[kind]
	gain := b.strips(w, kind, 0, w.units)
	if !w.allowed(0, kind) || cell > w.chi || gain == nothing {
		return nothing
	}
	if v := b.rest[b.at(w, 0, cell, b.stride[kind], kind)]; v > nothing {
		return gain + v
	}
	return nothing
}

// ends reports whether a layout may end with such a width in cells.
func (w *walk) ends(cell int) bool { return cell >= w.clo && cell <= w.chi }

// A boundTable is the table of a bound while it is filled.
type boundTable struct {
	w            *walk
	b            *bound
	g            *graph
	worth        []int64 // of a step from one kind to the next; never where they may not touch
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

// never is so little that it stays below nothing whatever is added.
const never = math.MinInt64 / 2

func newBoundTable(w *walk, b *bound, g *graph) *boundTable {
	r := &boundTable{w: w, b: b, g: g, worth: make([]int64, len(g.worth)), dearest: make([]int64, w.k), least: make([]int, b.states),
		lacks: make([]bool, b.states*w.k), open: make([]bool, w.k), onto: make([]int64, w.k), mid: make([]int64, w.k), order: make([]int, w.k)}
	r.step, r.middle = b.gains(w)
	r.cells, r.back = make([]int, w.k), make([]int, w.k)
	for i := range w.k {
		r.order[i], r.cells[i] = i, w.units*w.cell[i]
		r.back[i] = (r.cells[i]*b.states+b.stride[i])*w.k - i
		for j := range w.k {
			r.worth[i*w.k+j] = never
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
			r.least[state] += have * w.cell[k.kind]
			r.lacks[state*w.k+k.kind] = have == 0
		}
	}
	return r
}

// at goes to a depth.
func (r *boundTable) at(depth int) {
	last := r.w.depths() - 1
	r.depth, r.next = depth, min(depth+1, last)
	for j := range r.w.k {
		r.open[j] = !r.w.restricted(depth+1, depth == last, j)
	}
}

// fill computes what may follow on each kind with depth+1 steps done, such a width and
// such counts of kept kinds. It leaves off where no kind can bring more: kinds come in the
// order of what going on to them brings by itself, and no line from this kind is worth
// more than dearest. Places that no walk leads to are left as they are, for none asks
// for them: a kept kind of which the state has none, and widths below that of the
// state's strips.
func (r *boundTable) fill(cell, state int) {
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
		most := int64(nothing)
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
func (r *boundTable) goOn(cell, state int) (middle bool) {
	w := r.w
	last := w.depths() - 1
	from := r.b.from(w, r.next, cell, state)
	rest, step := r.b.rest[from:from+w.k], r.step[state*w.k:(state+1)*w.k]
	for j, v := range rest {
		r.onto[j] = nothing
		if r.open[j] && cell+r.cells[j] <= w.chi && step[j] > nothing && v > nothing {
			r.onto[j] = v + step[j]
		}
	}
	if !w.odd {
		return false
	}
	for j := range w.k {
		r.mid[j] = nothing
		if r.open[j] && r.next == last && w.ends(cell+w.cell[j]) && r.middle[state*w.k+j] > nothing {
			r.mid[j], middle = r.middle[state*w.k+j], true
		}
	}
	return middle
}

// rank sorts the kinds that may be gone on to, the best first, and gives them. From one
// place to the next little changes, so that inserting is quick.
func (r *boundTable) rank() []int {
	live := 0
	for i := 0; i < len(r.order); i++ {
		j := r.order[i]
		v, at := r.onto[j], i
		for ; at > 0 && r.onto[r.order[at-1]] < v; at-- {
			r.order[at] = r.order[at-1]
		}
		r.order[at] = j
		if v > nothing {
			live++
		}
	}
	return r.order[:live]
}

// end returns what ending with kind brings, or nothing. A symmetric layout with an even
// number of strips has two of a class in its middle, of one kind or a couple, whose
// line counts once; one with an odd number does not end so (goOn).
func (r *boundTable) end(kind int) int64 {
	twin := kind*r.w.k + kind
	switch {
	case r.w.units == 1:
		return 0
	case r.w.even && r.g.beside[twin]:
		return r.b.alpha * r.g.worth[twin]
	default:
		return nothing
	}
}

// restricted reports whether step n, or where free a later one, may not put kind j.
func (w *walk) restricted(n int, free bool, j int) bool {
	if free {
		return w.given[j]
	}
	return !w.allowed(n, j)
}

// trace returns the kinds of a best walk, left to right, and counts them.
func (w *walk) trace(b *bound, g *graph, counts []int) []int32 {
	clear(counts)
	at := spot{kind: -1}
	for j := range w.k {
		if v := w.begins(b, j); v > nothing && v == b.start {
			at = spot{0, w.units * w.cell[j], b.stride[j], j}
			break
		}
	}
	r := boundTable{w: w, b: b, g: g}
	var half []int32
	middle := -1
	for at.kind >= 0 {
		half = append(half, int32(at.kind))
		counts[at.kind] += w.units
		at, middle = r.follow(counts, at)
	}
	return w.unfold(half, middle)
}

// unfold returns the kinds of a layout that was walked, in a symmetric one those of both
// halves; middle is the one strip between them, or -1.
func (w *walk) unfold(half []int32, middle int) []int32 {
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

// A spot is a place in the table; kind -1 is none.
type spot struct{ depth, cell, state, kind int }

// follow returns the next spot of a best walk, or the strip in the middle that ends it,
// which is -1 where there is none.
func (r *boundTable) follow(counts []int, from spot) (to spot, middle int) {
	w, b := r.w, r.b
	want := b.rest[b.at(w, from.depth, from.cell, from.state, from.kind)]
	last := w.depths() - 1
	if from.depth == last && w.ends(from.cell) && want == r.end(from.kind) {
		return spot{kind: -1}, -1
	}
	next := min(from.depth+1, last)
	for _, j32 := range r.g.next[from.kind] {
		j := int(j32)
		if w.restricted(from.depth+1, from.depth == last, j) {
			continue
		}
		worth := int64(w.units) * b.alpha * r.g.worth[from.kind*w.k+j]
		if to := from.cell + w.units*w.cell[j]; to <= w.chi {
			gain := b.strips(w, j, counts[j], w.units)
			if gain > nothing {
				to := spot{next, to, from.state + b.stride[j], j}
				if v := b.rest[b.at(w, to.depth, to.cell, to.state, j)]; v > nothing && worth+gain+v == want {
					return to, -1
				}
			}
		}
		if w.odd && next == last && w.ends(from.cell+w.cell[j]) {
			if gain := b.strips(w, j, counts[j], 1); gain > nothing && worth+gain == want {
				counts[j]++
				return spot{kind: -1}, j
			}
		}
	}
	return spot{kind: -1}, -1
}
