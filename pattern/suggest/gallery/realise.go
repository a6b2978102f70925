package gallery

import (
	"context"
	"maps"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/stock"
)

// realise says which strips lie in which places, and where they come from: so that lines
// keep to the level by pairs and in full, with so much use-first width. Where there is
// none, sure says that none can be.
func (g *goods) realise(ctx context.Context, s *seek, classes []int, counts []uint16, use int64) (l *suggest.Layout, sure bool) {
	if g.rough && len(g.ask.Pinned) == 0 {
		if l := g.fromPlan(ctx, classes, counts, use); l != nil {
			return s.layout(l), true
		}
	}
	a := &arranging{g: g, ctx: ctx, classes: classes, use: use, left: arrangeMost, taken: make([]int, len(g.stock.Kinds))}
	a.from(0, 0)
	if a.layout == nil {
		return nil, a.left > 0 && !a.unsure
	}
	return s.layout(a.layout), true
}

// layout completes what was realised.
func (s *seek) layout(l *suggest.Layout) *suggest.Layout {
	l.SmallestContrast, l.Look = math.Inf(1), s.look
	l.UseFirst = 0
	for i, p := range l.Strips {
		l.Width += p.Width
		if p.UseFirst {
			l.UseFirst += p.Width
		}
		if i > 0 {
			a, _ := s.g.physics.Table().Get(l.Strips[i-1].Species)
			b, _ := s.g.physics.Table().Get(p.Species)
			c := a.Contrast(b)
			l.SmallestContrast, l.TotalContrast = min(l.SmallestContrast, c), l.TotalContrast+c
		}
	}
	l.Level = suggest.LevelOf(s.g.physics, s.g.ask.Pattern(*l))
	return l
}

// keeps reports whether strips keep to the level by pairs and in full.
func (g *goods) keeps(strips []suggest.Placed) bool {
	p := g.ask.Pattern(suggest.Layout{Strips: strips})
	for i := 1; i < len(p.Strips); i++ {
		if suggest.LineLevel(g.physics, g.ask, p.Strips[i-1], p.Strips[i]) > g.ask.Level {
			return false
		}
	}
	return suggest.LevelOf(g.physics, p) <= g.ask.Level
}

// fromPlan has a plan of the whole choose the timber, and then arranges what it cuts among
// the places of each class; nil where that comes to no layout.
func (g *goods) fromPlan(ctx context.Context, classes []int, counts []uint16, use int64) *suggest.Layout {
	marks := g.ask.Aim == suggest.UseUp
	first := make([]int, len(g.classes))
	if marks {
		for t := range g.timbers {
			if g.wide(t, counts) > 0 {
				for c, n := range g.of(ctx, t, counts).first {
					first[c] += int(n)
				}
			}
		}
	}
	var strips []pattern.Strip
	for _, c := range classes {
		first[c]--
		strips = append(strips, pattern.Strip{Species: marked(g.classes[c].Species, marks && first[c] >= 0), Width: g.classes[c].Width})
	}
	plan, placed, order := g.agree(ctx, classes, strips, marks)
	if order == nil {
		return nil
	}
	l := &suggest.Layout{}
	to := make([]int, len(order)) // of each strip of the plan: where it lies
	for at, from := range order {
		l.Strips = append(l.Strips, placed[from])
		to[from] = at + 1
	}
	plan = suggest.Renumbered(plan, func(strip int) int { return to[strip-1] })
	for i := range plan.Ready {
		plan.Ready[i].ID = g.source(plan.Ready[i].ID)
	}
	if marks { // the marks that it had to keep to are no part of the claim
		l.LeastOfTimber = plan.Claim().Sure == cutting.Least
		plan.Status, plan.LowerBoundCM3 = cutting.Feasible, 0
	} else {
		l.LeastOfTimber = plan.Claim().Sure == cutting.Least
	}
	l.Plan = &plan
	return l
}

// agree plans strips until what serves them keeps to the level when it is arranged: what
// most lines ask too much for is shunned, and the rest planned anew. What was shunned with
// success is left out from the beginning the next time.
func (g *goods) agree(ctx context.Context, classes []int, strips []pattern.Strip, marks bool) (plan cutting.Plan, placed []suggest.Placed, order []int) {
	name := marked
	if !marks {
		name = nil
	}
	kept := maps.Clone(g.shunned)
	for try := range agreeMost {
		job := g.ask.Cutting(g.physics.Shop(), g.rack(strips, func(bool) bool { return true }, name), strips, func(int) bool { return true })
		plan = g.plan(ctx, job)
		if plan.Short > 0 && try == 0 && len(g.shunned) > 0 {
			g.shunned = map[string]bool{}
			continue
		}
		if plan.Short > 0 || ctx.Err() != nil {
			break
		}
		if g.ask.Join.On() {
			plan, placed, order = g.agreed(ctx, job, plan, classes)
		} else {
			placed, _ = g.placed(plan, classes)
			order = g.arrange(classes, placed)
		}
		if order != nil {
			return plan, placed, order
		}
		g.shunned[g.worst(placed)] = true
	}
	g.shunned = kept
	return plan, nil, nil
}

// agreed lays strips in pieces as a plan has them, where they lie: in another place they would
// have other ways. No order where they do not keep to the level there, or pieces of one differ.
func (g *goods) agreed(ctx context.Context, job cutting.Job, plan cutting.Plan, classes []int) (cutting.Plan, []suggest.Placed, []int) {
	l := suggest.Layout{Strips: make([]suggest.Placed, len(classes))}
	job = l.Lay(job, plan, func(strip int) int { return strip })
	job.Rack = g.opened(job.Rack, plan)
	plan = g.plan(ctx, job)
	placed, alike := g.placed(plan, classes)
	var order []int
	for i := range placed {
		placed[i].Start, placed[i].Length, placed[i].Joints = l.Strips[i].Start, l.Strips[i].Length, l.Strips[i].Joints
		order = append(order, i)
	}
	if plan.Short > 0 || !alike || !g.keeps(placed) {
		return plan, placed, nil
	}
	return plan, placed, order
}

// agreeMost is how many plans it takes at most.
const agreeMost = 8

// worst returns what most lines with the other timbers ask too much for, wherever it lies.
func (g *goods) worst(placed []suggest.Placed) string {
	bad := map[string]int{}
	worst := ""
	for _, a := range placed {
		for _, b := range placed {
			if a.Species == b.Species {
				continue
			}
			if level := suggest.LineLevel(g.physics, g.ask, a.Strip(), b.Strip()); level > g.ask.Level {
				bad[a.Source] += 100
			} else if level == g.ask.Level {
				bad[a.Source]++
			}
		}
	}
	for _, p := range placed {
		if worst == "" || bad[p.Source] > bad[worst] {
			worst = p.Source
		}
	}
	return worst
}

// source returns what the maker calls something on the rack.
func (g *goods) source(id string) string { return g.stock.Source(id) }

// opened returns what of a rack a plan takes from.
func (g *goods) opened(r rack.Rack, plan cutting.Plan) rack.Rack {
	used := map[string]bool{}
	for _, id := range plan.Served() {
		used[id], used[g.piece(id).ID] = true, true
	}
	r.Pieces = slices.DeleteFunc(slices.Clone(r.Pieces), func(p rack.Piece) bool { return !used[p.ID] })
	r.Strips = slices.DeleteFunc(slices.Clone(r.Strips), func(s rack.Strip) bool { return !used[s.ID] })
	return r
}

// placed returns the strips of a plan as they come from what it cuts, and whether the pieces
// of each are alike.
func (g *goods) placed(plan cutting.Plan, classes []int) (out []suggest.Placed, alike bool) {
	out, alike = make([]suggest.Placed, len(classes)), true
	put := func(ref cutting.Ref, id string, rings pattern.Rings, m pattern.Reading, first bool) {
		c, at := g.classes[classes[ref.Strip-1]], &out[ref.Strip-1]
		if at.Species != "" {
			alike = alike && at.Rings == rings && at.Moisture == m
			first = first && at.UseFirst
			if ref.Piece > 1 {
				id = at.Source
			}
		}
		*at = suggest.Placed{Species: c.Species, Width: c.Width, Rings: rings, Moisture: m, Source: id, UseFirst: first}
	}
	for _, ready := range plan.Ready {
		for _, s := range g.lying() {
			if s.ID == ready.ID {
				put(ready.For, g.source(s.ID), s.Rings, s.Moisture, s.UseFirst)
			}
		}
	}
	for _, cut := range plan.Cuts {
		p := g.piece(cut.Piece)
		rings := p.Rings
		if g.ask.Make == pattern.MakeEdge {
			rings = rings.Rolled()
		}
		for _, section := range cut.Sections {
			shows := rings
			if section.Side {
				shows = rings.Rolled()
			}
			for _, slice := range section.Slices {
				for _, ref := range slice.Strips {
					put(ref, cut.Piece, shows, p.Moisture, p.UseFirst)
				}
			}
		}
	}
	return out, alike
}

// piece returns the piece that a plan cuts from: of one with faults it cuts clear parts.
func (g *goods) piece(id string) rack.Piece {
	whole, _, _ := strings.Cut(id, "/")
	for _, p := range g.ask.Rack.Pieces {
		if p.ID == id || p.ID == whole {
			return p
		}
	}
	return rack.Piece{}
}

// How many steps an arrangement takes at most, and how many of them are looked at in full.
const (
	arrangeMost = 20_000
	fullMost    = 400
	plansMost   = 6
)

// arrange returns which of the strips placed lies in each place, so that they keep to the
// level; nil where none was found.
func (g *goods) arrange(classes []int, placed []suggest.Placed) []int {
	var order []int
	used := make([]bool, len(placed))
	steps, full := 0, 0
	var from func(i int) bool
	from = func(i int) bool {
		if i == len(classes) {
			full++
			return g.keeps(pick(placed, order))
		}
		var tried []suggest.Variety
		for j := range placed {
			made := g.ask.VarietyOf(g.physics, placed[j].Strip())
			if used[j] || classes[j] != classes[i] || slices.Contains(tried, made) {
				continue
			}
			tried = append(tried, made)
			if steps++; steps > arrangeMost || full > fullMost {
				return false
			}
			if i > 0 && suggest.LineLevel(g.physics, g.ask, placed[order[i-1]].Strip(), placed[j].Strip()) > g.ask.Level {
				continue
			}
			used[j], order = true, append(order, j)
			if from(i + 1) {
				return true
			}
			used[j], order = false, order[:i]
		}
		return false
	}
	if !from(0) {
		return nil
	}
	return order
}

func pick(placed []suggest.Placed, order []int) []suggest.Placed {
	out := make([]suggest.Placed, len(order))
	for i, j := range order {
		out[i] = placed[j]
	}
	return out
}

// An arranging tries which kinds of the stock lie in which places.
type arranging struct {
	g       *goods
	ctx     context.Context
	classes []int
	use     int64
	kinds   []int
	taken   []int
	left    int // steps
	full    int // looked at in full
	plans   int
	unsure  bool
	layout  *suggest.Layout
}

// from chooses the kinds from place i on; so much use-first width lies before it.
func (a *arranging) from(i int, use int64) {
	g := a.g
	if i == len(a.classes) {
		if use >= a.use {
			a.whole()
		}
		return
	}
	rest := int64(0)
	for _, c := range a.classes[i:] {
		rest += g.classes[c].width
	}
	if use+rest < a.use {
		return
	}
	class := g.classes[a.classes[i]]
	for _, first := range []bool{true, false} {
		for _, k := range class.kinds {
			kind := &g.stock.Kinds[k]
			if marked := g.ask.Aim == suggest.UseUp && a.taken[k] < kind.First; marked != first || a.taken[k] == kind.Count || a.layout != nil || a.left <= 0 {
				continue
			}
			if !g.pinsAllow(i, kind) || i > 0 && !g.beside(a.kinds[i-1], k) {
				continue
			}
			a.left--
			a.taken[k]++
			a.kinds = append(a.kinds, k)
			with := use
			if first {
				with += class.width
			}
			a.from(i+1, with)
			a.kinds = a.kinds[:i]
			a.taken[k]--
		}
	}
}

// pinsAllow reports whether a kind may lie at place i, from 0: where a strip is pinned there
// only of its variety, elsewhere none that is only given.
func (g *goods) pinsAllow(i int, k *stock.Kind) bool {
	for _, p := range g.ask.Pinned {
		if p.Place == i+1 {
			return g.stock.Made[k.Made] == g.ask.VarietyOf(g.physics, p.Strip)
		}
	}
	return !k.Given
}

// whole takes the kinds as a layout, where they keep to the level and can be cut.
func (a *arranging) whole() {
	g := a.g
	if a.full++; a.full > fullMost {
		a.left, a.unsure = 0, true
		return
	}
	handed := make([]int, len(g.stock.Kinds))
	strips := make([]suggest.Placed, len(a.kinds))
	for i, k := range a.kinds {
		kind := &g.stock.Kinds[k]
		strips[i] = suggest.Placed{Species: kind.Strip.Species, Width: kind.Strip.Width, Rings: kind.Strip.Rings, Moisture: kind.Strip.Moisture,
			Pinned: slices.ContainsFunc(g.ask.Pinned, func(p suggest.Pin) bool { return p.Place == i+1 })}
		if strips[i].Source, strips[i].UseFirst = kind.Hand(handed[k]); g.ask.Aim != suggest.UseUp && g.rough {
			strips[i].UseFirst = false
		}
		handed[k]++
	}
	if !g.keeps(strips) {
		return
	}
	l := &suggest.Layout{Strips: strips}
	if !g.rough {
		a.layout = l
		return
	}
	if a.plans++; a.plans > plansMost {
		a.left, a.unsure = 0, true
		return
	}
	if !g.planned(a.ctx, l, a.kinds) {
		a.unsure = true
		return
	}
	a.layout = l
}

// planned plans how the kinds of a layout are cut.
func (g *goods) planned(ctx context.Context, l *suggest.Layout, kinds []int) bool {
	var strips []pattern.Strip
	var places []int
	for i, k := range kinds {
		kind := g.stock.Kinds[k]
		if strips = append(strips, kind.Strip); kind.Timber >= 0 {
			strips[i].Species, places = g.stock.Timbers[kind.Timber].Name, append(places, i+1)
		}
	}
	place := func(strip int) int { return places[strip-1] }
	job := g.ask.Cutting(g.physics.Shop(), g.stock.Rack, strips, func(i int) bool { return g.stock.Kinds[kinds[i]].Timber >= 0 })
	plan := g.plan(ctx, job)
	if plan.Short == 0 && g.ask.Join.On() {
		plan = g.plan(ctx, l.Lay(job, plan, place))
	}
	if plan.Short > 0 {
		return false
	}
	plan = suggest.Renumbered(plan, place)
	l.Plan = &plan
	g.stock.Name(l)
	l.LeastOfTimber = plan.Claim().Sure == cutting.Least
	plan.Status, plan.LowerBoundCM3 = cutting.Feasible, 0
	return g.keeps(l.Strips)
}
