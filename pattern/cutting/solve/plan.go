package solve

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
)

// assemble writes the plan that the timbers' answers come to, and what the cuts of each
// timber draw, in cubic centimetres. It claims nothing of the plan: see finish.
func assemble(needs []cutting.Strip, timbers []*timber, answers []answer) (cutting.Plan, []float64) {
	plan := cutting.Plan{Missing: []cutting.Missing{}, Ready: []cutting.Ready{}, Cuts: []cutting.Cut{}}
	var cuts []placed
	var missing []int
	drawn := make([]float64, len(timbers))
	for i, t := range timbers {
		w := &writer{t: t, needs: needs, plan: &plan, next: make([]int, len(t.Kinds)), used: make([]int, len(t.stocks))}
		w.write(&answers[i])
		cuts, missing = append(cuts, w.cuts...), append(missing, w.missing...)
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
		plan.Missing = append(plan.Missing, cutting.Missing{Ref: needs[n].Ref, Species: needs[n].Species})
	}
	plan.Short = len(missing)
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
	needs   []cutting.Strip
	plan    *cutting.Plan
	next    []int // of each kind: the first need not served
	used    []int // of each stock: pieces opened
	cuts    []placed
	missing []int
}

func (w *writer) ref(kind int32) cutting.Ref {
	n := w.next[kind]
	w.next[kind]++
	return w.needs[w.t.needs[kind][n]].Ref
}

func (w *writer) write(a *answer) {
	columns := slices.Clone(a.columns)
	slices.SortStableFunc(columns, func(x, y column) int { return cmp.Compare(x.stock, y.stock) })
	for _, c := range columns {
		if c.stock < 0 {
			w.serve(int(-1-c.stock), c.take)
		}
	}
	for _, c := range columns {
		if c.stock >= 0 {
			w.cut(c)
		}
	}
	for k, alike := range w.t.needs {
		w.missing = append(w.missing, alike[w.next[k]:]...)
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
