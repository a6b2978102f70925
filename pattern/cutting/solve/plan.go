package solve

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// assemble writes the plan that the timbers' answers come to, and what the cuts of each
// timber draw, in cubic centimetres, with what its joints count for. It claims nothing of the plan: see finish.
func assemble(choices []cutting.Choice, r rack.Rack, timbers []*timber, answers []answer) (cutting.Plan, []float64) {
	plan := cutting.Plan{Pieced: []cutting.Pieced{}, Missing: []cutting.Missing{}, Ready: []cutting.Ready{}, Cuts: []cutting.Cut{}}
	var cuts []placed
	var missing, pieced []int
	pieces := map[int]joints.Way{}
	drawn := make([]float64, len(timbers))
	for i, t := range timbers {
		w := &writer{t: t, choices: choices, plan: &plan, next: make([]int, len(t.Kinds)), used: make([]int, len(t.stocks))}
		w.lay(&answers[i])
		w.write(&answers[i])
		cuts, missing, pieced = append(cuts, w.cuts...), append(missing, w.missing...), append(pieced, w.pieced...)
		drawn[i] += t.Shop.Draw.JointCM3 * float64(w.joints)
		plan.JointsCM3 += t.Shop.Draw.JointCM3 * float64(w.joints)
		for at, way := range w.laid {
			pieces[at] = way
		}
		for _, c := range w.cuts {
			drawn[i] += c.drawn
		}
	}
	slices.SortStableFunc(cuts, func(a, b placed) int { return cmp.Compare(a.place, b.place) })
	for _, c := range cuts {
		plan.Cuts = append(plan.Cuts, c.Cut)
		plan.DrawnCM3 += c.drawn
		plan.GoneCM3 += c.gone
	}
	slices.Sort(missing)
	for _, n := range missing {
		plan.Missing = append(plan.Missing, cutting.Missing{Ref: choices[n].Ref, Species: choices[n].Species})
	}
	slices.Sort(pieced)
	for _, n := range pieced {
		plan.Pieced = append(plan.Pieced, cutting.Pieced{Ref: choices[n].Ref, Pieces: pieces[n]})
	}
	plan.Short = len(missing)
	plan.KeepWhole(choices, r)
	return plan, drawn
}

// A placed cut is one with its place on the rack and its volumes.
type placed struct {
	cutting.Cut
	place       int
	drawn, gone float64
}

// A writer gives a timber's strips their places in the plan: ready strips serve the
// first of each kind, cuts the next, and the last stay missing.
type writer struct {
	t       *timber
	choices []cutting.Choice
	plan    *cutting.Plan
	refs    [][]cutting.Ref // of each kind: what it serves, in this order
	next    []int           // of each kind: the first of them not served
	used    []int           // of each stock: pieces opened
	cuts    []placed
	missing []int // places in choices
	pieced  []int // likewise, of strips that are not whole
	laid    map[int]joints.Way
	joints  int
}

// lay says what strips and pieces there are of each kind, and which strips are short or in
// pieces. Of a group the last are short; the others take its ways in their order, the copies
// of one strip of a pattern side by side, so that copies are alike where they can be.
func (w *writer) lay(a *answer) {
	w.laid = map[int]joints.Way{}
	w.refs = make([][]cutting.Ref, len(w.t.Kinds))
	for k, alike := range w.t.needs {
		for i, place := range alike {
			if i < len(alike)-int(a.short[k]) {
				w.refs[k] = append(w.refs[k], w.choices[place].Ref)
			} else {
				w.missing = append(w.missing, place)
			}
		}
	}
	taken := make([][]int, len(w.t.groups)) // ways
	for i := range a.columns {
		if n := w.t.groupOf(&a.columns[i]); n >= 0 {
			taken[n] = append(taken[n], int(a.columns[i].way))
		}
	}
	at := map[kindKey]int{}
	for k, n := range w.t.Kinds {
		at[keyOf(n)] = k
	}
	for n, g := range w.t.groups {
		slices.Sort(taken[n])
		order := make([]int, len(g.strips))
		for i := range order {
			order[i] = i
		}
		whole := slices.Index(append(taken[n], len(g.ways)), len(g.ways)) // from there on they are short
		slices.SortStableFunc(order[:whole], func(a, b int) int {
			x, y := w.choices[g.strips[a]].Ref, w.choices[g.strips[b]].Ref
			return cmp.Or(cmp.Compare(x.Pattern, y.Pattern), cmp.Compare(x.Strip, y.Strip))
		})
		for i, s := range order {
			w.take(g.strips[s], taken[n][i], g.order[s], at)
		}
	}
}

// take lays one strip of a group in the way that it takes.
func (w *writer) take(place, way int, own []int, at map[kindKey]int) {
	c := w.choices[place]
	if way == len(own) {
		w.missing = append(w.missing, place)
		return
	}
	way = own[way]
	for _, n := range c.Ways[way] {
		k := at[keyOf(n)]
		w.refs[k] = append(w.refs[k], n.Ref)
	}
	w.joints += c.Joints(way)
	if way > 0 || c.Joints(way) > 0 {
		w.pieced = append(w.pieced, place)
		w.laid[place] = c.Laid[way]
	}
}

func (w *writer) ref(kind int32) cutting.Ref {
	n := w.next[kind]
	w.next[kind]++
	return w.refs[kind][n]
}

func (w *writer) write(a *answer) {
	columns := slices.Clone(a.columns)
	slices.SortStableFunc(columns, func(x, y column) int { return cmp.Compare(x.stock, y.stock) })
	for _, c := range columns {
		if c.stock < 0 && w.t.groupOf(&c) < 0 {
			w.serve(int(-1-c.stock), c.take)
		}
	}
	for _, c := range columns {
		if c.stock >= 0 {
			w.cut(c)
		}
	}
}

// serve hands out the ready strips of one pool.
func (w *writer) serve(pool int, c sections.Take) {
	for _, r := range w.t.ready.HandOut(pool, c) {
		w.plan.Ready = append(w.plan.Ready, cutting.Ready{ID: r.ID, Copy: r.Copy, For: w.ref(r.Kind)})
	}
}

// cut writes down one opened piece.
func (w *writer) cut(c column) {
	t := w.t
	s := &t.stocks[c.stock]
	it := s.items[w.used[c.stock]]
	w.used[c.stock]++
	x := t.Crosses[s.cross]
	p := placed{Cut: cutting.Cut{Piece: it.id, Copy: it.copy}, place: it.place}
	chosen := slices.Clone(c.sections)
	slices.SortStableFunc(chosen, func(a, b int32) int {
		return cmp.Compare(t.Sections[s.cross][a].Along, t.Sections[s.cross][b].Along)
	})
	var used length.Length
	back := 0.0
	for _, n := range chosen {
		sec := t.Sections[s.cross][n]
		used += s.costs.Steps[sec.Along]
		out, credit := w.section(s.cross, sec)
		p.Sections, back = append(p.Sections, out), back+credit
	}
	p.Tail = t.tail(s, used)
	whole := length.VolumeCM3(s.length, x.Width, x.Thickness)
	tail := length.VolumeCM3(p.Tail, x.Width, x.Thickness)
	counts := 1.0
	if s.useFirst {
		counts = t.Shop.Draw.UseFirstPct / 100
	}
	p.gone = whole - tail - back
	p.drawn = counts*(whole-t.Shop.Draw.TailsPct/100*tail-t.Shop.Draw.ReturnedPct/100*back) + t.Shop.Draw.OpenedCM3
	w.cuts = append(w.cuts, p)
}

// section writes down a section, and returns what it gives back.
func (w *writer) section(cross int, sec sections.Section) (cutting.Section, float64) {
	out := cutting.Section{Length: w.t.Lengths[sec.Along], Side: sec.Side}
	stack, slab, credit := w.t.Stack(cross, sec)
	out.SlabLeft = slab
	for _, sl := range stack {
		slice := cutting.Slice{Thickness: sl.Sawn, RipLeft: sl.Rip}
		for _, q := range sl.Take {
			for range q.Count {
				slice.Strips = append(slice.Strips, w.ref(q.Kind))
			}
		}
		out.Slices = append(out.Slices, slice)
	}
	return out, credit
}
