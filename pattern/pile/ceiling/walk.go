package ceiling

import (
	"context"
	"math"
	"slices"
)

// A panel is what a product takes at least, of the cheapest panel: what that costs, and its
// strips' parts of it.
type panel struct {
	cost  float64
	takes []taken
}

// cheapest returns the least that one product of a want costs at the prices, whatever panel
// it is of.
func (c *Ceiling) cheapest(ctx context.Context, w *want) panel {
	if w.rows() > loosely {
		return c.loose(w)
	}
	best := c.again(w)
	for _, s := range w.spans {
		for _, runs := range w.runs {
			costs := c.costs(w, s, runs)
			for _, m := range w.machines {
				if ctx.Err() != nil {
					return panel{cost: math.Inf(1)}
				}
				walk := &walk{machine: m, want: w, span: s, costs: costs, room: &c.room}
				if cost, strips := walk.best(best); cost < best {
					best, w.was = cost, was{s, runs, strips}
				}
			}
		}
	}
	if math.IsInf(best, 1) {
		return panel{cost: best}
	}
	return panel{best, c.strips(w, w.was.span, w.was.runs, w.was.strips)}
}

// Was is the panel that was cheapest at the prices before: nothing dearer need be looked at.
type was struct {
	span   *span
	runs   [2]int
	strips []put
}

// again returns what it costs now.
func (c *Ceiling) again(w *want) (cost float64) {
	if w.was.span == nil {
		return math.Inf(1)
	}
	for _, p := range w.was.strips {
		one, _ := c.costAt(w, w.was.span, w.was.runs, p.kind, p.cell)
		cost += times(one, float64(p.times))
	}
	return cost
}

// costs returns what each kind costs at each cell of a span, of one product: a piece of it
// serves so many products.
func (c *Ceiling) costs(w *want, s *span, runs [2]int) []float64 {
	cells := s.most + 1
	if need := cells * len(w.kinds); cap(c.room.costs) < need {
		c.room.costs = make([]float64, need)
	}
	out := c.room.costs[:cells*len(w.kinds)]
	for k := range w.kinds {
		for x := range cells {
			out[k*cells+x], _ = c.costAt(w, s, runs, k, x)
		}
	}
	return out
}

// costAt returns what a kind costs at a cell, of one product, and how many products a piece of
// it then serves.
func (c *Ceiling) costAt(w *want, s *span, runs [2]int, k, x int) (cost float64, run int) {
	cost = math.Inf(1)
	one := &w.kinds[k]
	base := c.base[c.woods[one.wood].pool][w.glued]
	wide := (one.width + c.beside1()).MM()
	reach := c.floor(w.glued, one.reach[w.glued])
	for n := runs[0]; n <= runs[1]; n++ {
		mark := int(s.marks[s.place(n-1, x, s.of[k])])
		if mark > reach || mark < 0 {
			continue
		}
		if now := times(c.price[base+mark], wide) / float64(n); now < cost {
			cost, run = now, n
		}
	}
	return cost, run
}

// A put is one strip of a walk, and how often it is there.
type put struct{ kind, cell, times int }

// strips returns what strips of a walk take, of one product.
func (c *Ceiling) strips(w *want, s *span, runs [2]int, walk []put) (out []taken) {
	for _, p := range walk {
		_, run := c.costAt(w, s, runs, p.kind, p.cell)
		one := &w.kinds[p.kind]
		out = append(out, taken{c.woods[one.wood].pool, w.glued, int(s.marks[s.place(run-1, p.cell, s.of[p.kind])]),
			times((one.width+c.beside1()).MM(), float64(p.times)) / float64(run)})
	}
	return out
}

// loose returns the least that a product costs that may lie beside others in its panel: what
// its own outline takes of the cheapest strips.
func (c *Ceiling) loose(w *want) panel {
	_, body := w.shape.Size()
	area := w.shape.Area(0, 0, body.MM()) * (1 - 1e-9)
	best := panel{cost: math.Inf(1)}
	marks := c.marks[w.glued]
	for _, k := range w.kinds {
		pool := c.woods[k.wood].pool
		for at := range marks {
			long := k.reach[w.glued] // the longest strip that costs no more
			if at+1 < len(marks) {
				long = min(long, marks[at+1])
			}
			if marks[at] > long {
				break
			}
			wide := times((k.width + c.beside1()).MM(), area/times(k.width.MM(), long.MM()))
			if cost := times(c.price[c.base[pool][w.glued]+at], wide); cost < best.cost {
				best = panel{cost, []taken{{pool, w.glued, at, wide}}}
			}
		}
	}
	return best
}

// A walk puts strips from one edge to the other, or from both to the middle, at the least cost.
type walk struct {
	*machine
	want  *want
	span  *span
	costs []float64
	room  *room
}

// best returns the cheapest walk below some cost, and its strips.
func (w *walk) best(below float64) (float64, []put) {
	n, end, by := len(w.kind), w.span.most, 1.0
	if w.folded {
		end, by = end/2, 2
	}
	cells := w.span.most + 1
	if need := (end + 1) * n; cap(w.room.reach) < need {
		w.room.reach, w.room.from = make([]float64, need), make([]int32, need)
	}
	reach, from := w.room.reach[:(end+1)*n], w.room.from[:(end+1)*n]
	for i := range reach {
		reach[i] = math.Inf(1)
	}
	for s, k := range w.kind {
		if to := w.want.cells[k]; w.first[s] && to <= end {
			reach[to*n+s], from[to*n+s] = by*w.costs[k*cells], -1
		}
	}
	best, last, middle := below, -1, -1 // the place where the cheapest ends, and its strip in the middle
	rest := w.rest(end, by)
	if w.folded {
		w.alone(&best, &middle)
	}
	for x := 1; x <= end; x++ {
		row := reach[x*n : (x+1)*n]
		active := w.room.active[:0]
		for s, cost := range row {
			if cost+rest[x] < best {
				active = append(active, int32(s))
			}
		}
		w.room.active = active
		slices.SortFunc(active, func(a, b int32) int {
			switch {
			case row[a] < row[b]:
				return -1
			case row[a] > row[b]:
				return 1
			}
			return int(a - b)
		})
		if !w.folded {
			if x >= w.span.least {
				for _, s := range active {
					if w.last[s] && row[s] < best {
						best, last = row[s], x*n+int(s)
					}
				}
			}
		} else {
			w.meet(x, row, active, &best, &last, &middle)
		}
		for s, k := range w.kind {
			to := x + w.want.cells[k]
			if to > end {
				continue
			}
			cost := by * w.costs[k*cells+x]
			if math.IsInf(cost, 1) {
				continue
			}
			if f := first(active, w.before[s]); f >= 0 {
				reach[to*n+s], from[to*n+s] = row[f]+cost, f
			}
		}
	}
	if last < 0 && middle < 0 {
		return math.Inf(1), nil
	}
	return best, w.trace(from, last, middle)
}

// rest returns what must be added at each cell at least, whatever may lie beside what.
func (w *walk) rest(end int, by float64) []float64 {
	cells := w.span.most + 1
	if cap(w.room.rest) < cells {
		w.room.rest = make([]float64, cells)
	}
	out := w.room.rest[:end+1]
	for x := end; x >= 0; x-- {
		out[x] = math.Inf(1)
		if !w.folded && x >= w.span.least || w.folded && 2*x >= w.span.least {
			out[x] = 0
		}
		for _, k := range w.kind {
			wide, cost := w.want.cells[k], w.costs[k*cells+x]
			if to := x + wide; to <= end {
				out[x] = min(out[x], by*cost+out[to])
			}
			if all := 2*x + wide; w.folded && all >= w.span.least && all <= w.span.most {
				out[x] = min(out[x], cost)
			}
		}
		out[x] *= 1 - 1e-12 // so that rounding leaves nothing out
	}
	return out
}

// first returns the first state of a list that is in a set; below 0: none is.
func first(active []int32, set []uint64) int32 {
	for _, s := range active {
		if set[s/64]&(1<<(s%64)) != 0 {
			return s
		}
	}
	return -1
}

// alone looks for one strip that is the whole panel.
func (w *walk) alone(best *float64, middle *int) {
	for s, k := range w.kind {
		if wide := w.want.cells[k]; wide >= w.span.least && wide <= w.span.most {
			if cost := w.costs[k*(w.span.most+1)]; cost < *best {
				*best, *middle = cost, s
			}
		}
	}
}

// meet lets the two halves meet at a cell: in a strip, or side by side.
func (w *walk) meet(x int, row []float64, active []int32, best *float64, last, middle *int) {
	n, cells := len(w.kind), w.span.most+1
	if 2*x >= w.span.least && 2*x <= w.span.most {
		for _, s := range active {
			if w.seam[s] && row[s] < *best {
				*best, *last, *middle = row[s], x*n+int(s), -1
			}
		}
	}
	for s, k := range w.kind {
		if all := 2*x + w.want.cells[k]; all < w.span.least || all > w.span.most {
			continue
		}
		if f := first(active, w.before[s]); f >= 0 {
			if cost := row[f] + w.costs[k*cells+x]; cost < *best {
				*best, *last, *middle = cost, x*n+int(f), s
			}
		}
	}
}

// trace returns the strips on the way to a place, and that in the middle.
func (w *walk) trace(from []int32, last, middle int) (out []put) {
	n, often := len(w.kind), 1
	if w.folded {
		often = 2
	}
	x := 0
	if last >= 0 {
		x = last / n
	}
	if middle >= 0 {
		out = append(out, put{w.kind[middle], x, 1})
	}
	for at := last; at >= 0; {
		s := at % n
		x := at/n - w.want.cells[w.kind[s]]
		out = append(out, put{w.kind[s], x, often})
		if from[at] < 0 {
			break
		}
		at = x*n + int(from[at])
	}
	return out
}
