package suggest

import "math"

// A bound says how good a layout can still become. The counts of kinds, the number of
// strips, the budgets and the use-first width asked for are not kept to but priced;
// what is left is a walk over width and last kind, which is reckoned outright. Each
// unit of a kind costs its price, the prices of all that there is are added, and no
// layout is worth more than that, whatever the prices are (a Lagrangian bound).
type bound struct {
	alpha int64   // what a unit of contrast counts, 0 or 1
	first []int64 // value less price of a use-first strip of each kind
	plain []int64 // of another
	konst int64
	rest  []int64 // at [depth][cell][kind]: the most that the rest of a walk may bring
	start int64   // the most that a whole walk may bring
}

// nothing marks what cannot be.
const nothing = math.MinInt64 / 4

// all gives the bound: no layout is worth more.
func (b *bound) all() int64 {
	if b.start <= nothing/2 {
		return nothing
	}
	return b.start + b.konst
}

// depths gives how many tables a walk has: one for each step with a pin to come, and
// one for the rest.
func (w *walk) depths() int { return max(1, len(w.pins)) }

func (w *walk) at(depth, cell, kind int) int { return (depth*(w.chi+1)+cell)*w.k + kind }

// unit gives what one more strip of a kind is worth, when the best ones come first.
func (b *bound) unit(w *walk, kind int) int64 {
	switch {
	case w.first[kind] == 0:
		return b.plain[kind]
	case w.first[kind] == w.count[kind]:
		return b.first[kind]
	default:
		return max(b.first[kind], b.plain[kind])
	}
}

// reckon fills the table. Depth d holds the walks with d+1 steps done, the last depth
// those with as many or more.
func (w *walk) reckon(b *bound, g *graph, stop stopper) {
	size := w.depths() * (w.chi + 1) * w.k
	if cap(b.rest) < size {
		b.rest = make([]int64, size)
	}
	b.rest = b.rest[:size]
	unit := make([]int64, w.k)
	for j := range unit {
		unit[j] = b.unit(w, j)
	}
	scaled := make([]int64, len(g.worth)) // of a step from one kind to the next
	for i := range w.k {
		for _, j := range g.next[i] {
			scaled[i*w.k+int(j)] = int64(w.units) * (b.alpha*g.worth[i*w.k+int(j)] + unit[j])
		}
	}
	last := w.depths() - 1
	for depth := last; depth >= 0; depth-- {
		for cell := w.chi; cell >= 0; cell-- {
			if stop.stopped() {
				return
			}
			for kind := range w.k {
				b.rest[w.at(depth, cell, kind)] = w.onward(b, g, scaled, unit, depth, cell, kind)
			}
		}
	}
	b.start = nothing
	for kind := range w.k {
		if !w.allowed(0, kind) {
			continue
		}
		if cell := w.units * w.cell[kind]; cell <= w.chi {
			if v := b.rest[w.at(0, cell, kind)]; v > nothing {
				b.start = max(b.start, int64(w.units)*unit[kind]+v)
			}
		}
	}
}

// ends reports whether a layout may end with such a width in cells.
func (w *walk) ends(cell int) bool { return cell >= w.clo && cell <= w.chi }

// onward gives the most that may follow on kind, with depth+1 steps done.
func (w *walk) onward(b *bound, g *graph, scaled, unit []int64, depth, cell, kind int) int64 {
	most := int64(nothing)
	last := depth == w.depths()-1
	if last && w.ends(cell) {
		if w.units == 1 {
			most = 0
		} else if w.even && g.beside[kind*w.k+kind] {
			most = b.alpha * g.worth[kind*w.k+kind]
		}
	}
	next, free := depth+1, last
	if last {
		next = depth
	}
	row := scaled[kind*w.k : (kind+1)*w.k]
	for _, j := range g.next[kind] {
		if w.restricted(depth+1, free, int(j)) {
			continue
		}
		if to := cell + w.units*w.cell[j]; to <= w.chi {
			if v := b.rest[w.at(next, to, int(j))]; v > nothing {
				most = max(most, row[j]+v)
			}
		}
		if w.odd && next == w.depths()-1 && w.ends(cell+w.cell[j]) {
			most = max(most, 2*b.alpha*g.worth[kind*w.k+int(j)]+unit[j])
		}
	}
	return most
}

// restricted reports whether step n, or where free a later one, may not put kind j.
func (w *walk) restricted(n int, free bool, j int) bool {
	if free {
		return w.given[j]
	}
	return !w.allowed(n, j)
}

// trace walks a best walk and gives how many strips of each kind it has.
func (w *walk) trace(b *bound, g *graph, counts []int) {
	clear(counts)
	kind, cell := -1, 0
	for j := range w.k {
		if to := w.units * w.cell[j]; w.allowed(0, j) && to <= w.chi {
			if v := b.rest[w.at(0, to, j)]; v > nothing && int64(w.units)*b.unit(w, j)+v == b.start {
				kind, cell = j, to
				break
			}
		}
	}
	for depth := 0; kind >= 0; {
		counts[kind] += w.units
		kind, cell, depth = w.follow(b, g, counts, depth, cell, kind)
	}
}

// follow gives the next step of a best walk; kind -1 where it ends.
func (w *walk) follow(b *bound, g *graph, counts []int, depth, cell, kind int) (int, int, int) {
	want := b.rest[w.at(depth, cell, kind)]
	last := depth == w.depths()-1
	if last && w.ends(cell) {
		if w.units == 1 && want == 0 ||
			w.units == 2 && w.even && g.beside[kind*w.k+kind] && want == b.alpha*g.worth[kind*w.k+kind] {
			return -1, 0, 0
		}
	}
	next := min(depth+1, w.depths()-1)
	for _, j32 := range g.next[kind] {
		j := int(j32)
		if w.restricted(depth+1, last, j) {
			continue
		}
		unit, worth := b.unit(w, j), b.alpha*g.worth[kind*w.k+j]
		if to := cell + w.units*w.cell[j]; to <= w.chi {
			if v := b.rest[w.at(next, to, j)]; v > nothing && int64(w.units)*(worth+unit)+v == want {
				return j, to, next
			}
		}
		if w.odd && next == w.depths()-1 && w.ends(cell+w.cell[j]) && 2*worth+unit == want {
			counts[j]++
			return -1, 0, 0
		}
	}
	return -1, 0, 0
}
