package sets

import (
	"cmp"
	"math"
	"slices"

	"example.com/oddments/pattern/length"
)

// A walk puts strips one after another, from one edge to the other or, where it is folded,
// from both edges to the middle, at the least cost.
type walk struct {
	kinds       []*kind // that may be put
	least, most length.Length
	folded      bool
	cost        func(k int, at, width length.Length) float64 // of one strip that begins at, in a panel so wide
	beside      func(a, b int) bool
	steps       *[]step                      // room to work in
	extras      int                          // how many states there are beside the last kind
	begin       func(k int) int              // the state after the first strip; below 0: none
	next        func(extra, last, k int) int // the state after strip k behind last; below 0: it may not lie there
	ends        func(extra, last int) bool   // whether a walk may end so
}

// A step is how a place was come to.
type step struct {
	cost  float64
	from  int32 // the place of the state before; -1: the beginning
	at    int32 // its offset's place
	known bool
}

// best returns the kinds of the cheapest walk, from edge to edge; nil where there is none.
func (w *walk) best() []int {
	wide := (w.least + w.most) / 2
	end := w.most
	if w.folded {
		end = w.most / 2
	}
	offsets := w.offsets(end)
	states := len(w.kinds) * w.extras
	table := make([][]step, len(offsets))
	place := map[length.Length]int{}
	if need := states * len(offsets); cap(*w.steps) < need {
		*w.steps = make([]step, need)
	}
	room := (*w.steps)[:states*len(offsets)]
	clear(room)
	for i, x := range offsets {
		table[i], place[x] = room[i*states:(i+1)*states], i
	}
	onto := make([]int32, len(w.kinds)) // of each kind: the place of the offset behind it, or -1
	beyond := func(x length.Length) {
		for k, kind := range w.kinds {
			onto[k] = -1
			if to, there := place[x+kind.strip.Width]; there {
				onto[k] = int32(to)
			}
		}
	}
	costs := w.costs(offsets, wide)
	m := w.moves()
	beyond(0)
	for k := range w.kinds {
		if extra := w.begin(k); extra >= 0 && onto[k] >= 0 && !math.IsInf(costs[0][k], 1) {
			table[onto[k]][k*w.extras+extra] = step{costs[0][k], -1, -1, true}
		}
	}
	var active []int32 // the states that an offset is come to in, the cheapest first
	for i, x := range offsets {
		active = active[:0]
		for state, s := range table[i] {
			if s.known {
				active = append(active, int32(state))
			}
		}
		if len(active) == 0 {
			continue
		}
		slices.SortFunc(active, func(a, b int32) int {
			return cmp.Or(cmp.Compare(table[i][a].cost, table[i][b].cost), cmp.Compare(a, b))
		})
		beyond(x)
		ways := 0
		for _, state := range active {
			ways += len(m.after[state])
		}
		if ways < few*len(m.after) {
			w.forth(m, table, i, active, onto, costs[i])
		} else {
			w.back(m, table, i, active, onto, costs[i])
		}
	}
	if w.folded {
		return w.foldedEnd(table, offsets, m.next, wide)
	}
	return w.straightEnd(table, offsets)
}

// few is how many ways from a state make it quicker to go them all than to ask each state which
// of those before it is the cheapest.
const few = 8

// forth goes on from each state of an offset.
func (w *walk) forth(m *moves, table [][]step, at int, active []int32, onto []int32, costs []float64) {
	for _, from := range active {
		for _, to := range m.after[from] {
			k := int(to) / w.extras
			if onto[k] < 0 || math.IsInf(costs[k], 1) {
				continue
			}
			cost := table[at][from].cost + costs[k]
			if s := &table[onto[k]][to]; !s.known || cost < s.cost {
				*s = step{cost, from, int32(at), true}
			}
		}
	}
}

// back comes to each state from the cheapest that leads to it.
func (w *walk) back(m *moves, table [][]step, at int, active []int32, onto []int32, costs []float64) {
	for k := range w.kinds {
		if onto[k] < 0 || math.IsInf(costs[k], 1) {
			continue
		}
		for to := k * w.extras; to < (k+1)*w.extras; to++ {
			for _, from := range active {
				if m.before[to][from/64]&(1<<(from%64)) != 0 {
					table[onto[k]][to] = step{table[at][from].cost + costs[k], from, int32(at), true}
					break
				}
			}
		}
	}
}

// Moves are what may follow what.
type moves struct {
	next   [][]int    // of each kind: those that may lie beside it
	after  [][]int32  // of each state: those that it leads to
	before [][]uint64 // of each state: the set of those that lead to it
}

func (w *walk) moves() *moves {
	n := len(w.kinds) * w.extras
	words := (n + 63) / 64
	m := &moves{next: w.neighbours(), after: make([][]int32, n), before: make([][]uint64, n)}
	sets := make([]uint64, n*words)
	for state := range m.before {
		m.before[state] = sets[state*words : (state+1)*words]
	}
	var all []int32
	for state := range m.after {
		last, extra := state/w.extras, state%w.extras
		from := len(all)
		for _, k := range m.next[last] {
			if after := w.next(extra, last, k); after >= 0 {
				to := k*w.extras + after
				all = append(all, int32(to))
				m.before[to][state/64] |= 1 << (state % 64)
			}
		}
		m.after[state] = all[from:len(all):len(all)]
	}
	return m
}

// offsets returns those that widths come to, up to end, ascending, 0 first.
func (w *walk) offsets(end length.Length) []length.Length {
	seen := map[length.Length]bool{0: true}
	out := []length.Length{0}
	for i := 0; i < len(out); i++ {
		for _, k := range w.kinds {
			if to := out[i] + k.strip.Width; to <= end && !seen[to] {
				seen[to] = true
				out = append(out, to)
			}
		}
	}
	slices.Sort(out)
	return out
}

// costs returns what each kind costs at each offset; folded, both strips of it.
func (w *walk) costs(offsets []length.Length, wide length.Length) [][]float64 {
	out := make([][]float64, len(offsets))
	for i, x := range offsets {
		out[i] = make([]float64, len(w.kinds))
		for k := range w.kinds {
			if out[i][k] = w.cost(k, x, wide); w.folded {
				out[i][k] *= 2
			}
		}
	}
	return out
}

// neighbours returns what may lie beside each kind.
func (w *walk) neighbours() [][]int {
	out := make([][]int, len(w.kinds))
	for a := range w.kinds {
		for b := range w.kinds {
			if w.beside(a, b) {
				out[a] = append(out[a], b)
			}
		}
	}
	return out
}

// trace returns the kinds on the way to a state.
func (w *walk) trace(table [][]step, at, state int) []int {
	var out []int
	for state >= 0 {
		out = append(out, state/w.extras)
		s := table[at][state]
		at, state = int(s.at), int(s.from)
	}
	slices.Reverse(out)
	return out
}

func (w *walk) straightEnd(table [][]step, offsets []length.Length) []int {
	at, state, least := -1, -1, math.Inf(1)
	for i, x := range offsets {
		if x < w.least {
			continue
		}
		for j, s := range table[i] {
			if s.known && s.cost < least && w.ends(j%w.extras, j/w.extras) {
				at, state, least = i, j, s.cost
			}
		}
	}
	if at < 0 {
		return nil
	}
	return w.trace(table, at, state)
}

// foldedEnd puts the strip in the middle, and unfolds.
func (w *walk) foldedEnd(table [][]step, offsets []length.Length, next [][]int, wide length.Length) []int {
	at, state, middle, least := -1, -1, -1, math.Inf(1)
	for i, x := range offsets {
		for j, s := range table[i] {
			if !s.known || s.cost >= least {
				continue
			}
			last, extra := j/w.extras, j%w.extras
			for _, k := range next[last] {
				all := 2*x + w.kinds[k].strip.Width
				if all < w.least || all > w.most {
					continue
				}
				after := w.next(extra, last, k)
				if cost := s.cost + w.cost(k, x, wide); after >= 0 && cost < least && w.ends(after, k) {
					at, state, middle, least = i, j, k, cost
				}
			}
		}
	}
	if at < 0 {
		return nil
	}
	half := w.trace(table, at, state)
	out := append(slices.Clone(half), middle)
	slices.Reverse(half)
	return append(out, half...)
}
