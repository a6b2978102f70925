// Package gallery finds layouts that have a look: the best of each look that is asked for,
// which looks different enough from those before it, proved or with a bound. What the
// maker wishes about timbers it looks after too. A request that asks for none of this goes
// to package search.
//
// A look is walked by what the eye sees: classes of strips that are alike in timber and
// width, steps that put as many of them as the look has alike, states that know as much of
// the walk as the look must. What a rack yields is asked timber by timber, and remembered;
// rings, moisture and marks are settled once a whole walk is there, and its lines judged by
// pairs and in full.
package gallery

import (
	"context"
	"fmt"
	"slices"
	"time"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/suggest/search"
	"example.com/oddments/pattern/tell"
)

// Solve looks for layouts. Like search.Solve it returns when they are proved, when no more
// is to be gained in reasonable work, or soon after ctx ends.
func Solve(ctx context.Context, r movement.Physics, a suggest.Request, opt suggest.Options) (suggest.Result, error) {
	if err := a.Check(r); err != nil {
		return suggest.Result{}, err
	}
	if s, any := shaded(r, a.Spared()); any {
		s.asked = a
		return s.solve(ctx, r, opt)
	}
	return layOut(ctx, r, a, opt)
}

// layOut looks for layouts of what is asked, whatever colours its rack has.
func layOut(ctx context.Context, r movement.Physics, a suggest.Request, opt suggest.Options) (suggest.Result, error) {
	left := a.Spared()
	if !a.Sought() {
		answer, err := search.Solve(ctx, r, left, opt)
		answer.Looks(a, r)
		return answer, err
	}
	left.Aim = left.AimFor(r.Shop())
	s := &show{ctx: ctx, physics: r, ask: left, opt: opt}
	return s.run(a), nil
}

// A show is a gallery in the making.
type show struct {
	ctx     context.Context
	physics movement.Physics
	ask     suggest.Request
	opt     suggest.Options
	answer  suggest.Result
	proved  bool
	whole   *goods // strips left whole, where they may be in pieces
}

func (s *show) stopped() bool { return s.ctx.Err() != nil }

// looks returns those to show.
func (s *show) looks() []look.Look {
	if len(s.ask.Looks) > 0 {
		return s.ask.Looks
	}
	if s.ask.Symmetric {
		return []look.Look{look.Mirror}
	}
	return []look.Look{look.Any}
}

// run searches, and where nothing was found, looks for ways out.
func (s *show) run(asked suggest.Request) suggest.Result {
	answer := s.search()
	if len(answer.Layouts) == 0 && len(s.ask.Unlike) == 0 && answer.Broken == nil {
		if s.opt.LoosenFor != 1 {
			answer.Loosen = s.ways(asked)
		}
	}
	return answer
}

// search shows the best of each look in turn, and where more are asked for than looks then the
// next best.
func (s *show) search() suggest.Result {
	s.answer = suggest.Result{Status: suggest.Optimal, Aim: s.ask.Aim, Layouts: []suggest.Layout{}, PlansProved: true}
	s.proved = true
	g := newGoods(s.physics, s.ask, s.stopped)
	if s.ask.Join.On() {
		s.whole = newGoods(s.physics, s.ask.Whole(), s.stopped)
	}
	looks := s.looks()
	for round := 0; len(looks) > 0 && len(s.answer.Layouts) < s.ask.Layouts; round++ {
		var next []look.Look
		for i, l := range looks {
			if len(s.answer.Layouts) == s.ask.Layouts {
				break
			}
			if g == nil || s.stopped() {
				if round == 0 {
					s.answer.LeftOut = append(s.answer.LeftOut, suggest.LeftOut{Look: l, Why: tooLate})
				}
				continue
			}
			if s.show(g, l, len(looks)-i, round == 0) {
				next = append(next, l)
			}
		}
		looks = next
		if g == nil || s.stopped() || s.ask.Layouts <= len(s.looks()) {
			break
		}
	}
	s.proved = s.proved && g != nil && !s.stopped()
	s.finish()
	return s.answer
}

// show adds the best layout of a look; it reports whether there was one. Of the time that is
// left each of the looks to come has its share.
func (s *show) show(g *goods, l look.Look, toCome int, tell bool) bool {
	ctx := s.ctx
	if deadline, ok := ctx.Deadline(); ok {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, time.Until(deadline.Add(-s.opt.Reserve))/time.Duration(toCome))
		defer stop()
	}
	f := s.best(ctx, g, l, s.ask.Vary && len(s.answer.Layouts) > 0)
	s.proved = s.proved && f.proved
	if f.layout == nil {
		if tell {
			s.answer.LeftOut = append(s.answer.LeftOut, suggest.LeftOut{Look: l, Why: s.why(g, l, f, ctx.Err() != nil), Proved: f.proved})
		}
		return false
	}
	f.layout.Proved, f.layout.Most = f.proved, f.most
	if !f.proved && s.answer.Bound == nil {
		s.answer.Bound = &suggest.Bound{UseFirst: f.most.Use, SmallestContrast: float64(f.most.Least) / suggest.PerContrast,
			TotalContrast: float64(f.most.Sum) / suggest.PerContrast}
	}
	s.answer.Layouts = append(s.answer.Layouts, *f.layout)
	if s.opt.Progress != nil {
		s.opt.Progress(suggest.Progress{Layouts: len(s.answer.Layouts), Wanted: s.ask.Layouts, Found: slices.Clip(s.answer.Layouts)})
	}
	return true
}

// best seeks the best layout of a look. Where strips may be in pieces and it is not proved that
// none is better, it is sought with strips left whole too, for that is sooner found.
func (s *show) best(ctx context.Context, g *goods, l look.Look, others bool) found {
	within := ctx
	if deadline, ok := ctx.Deadline(); ok && s.whole != nil {
		var stop context.CancelFunc
		within, stop = context.WithTimeout(ctx, time.Until(deadline)*2/3)
		defer stop()
	}
	f := s.seek(within, g, l, others)
	if f.proved || s.whole == nil {
		return f
	}
	w := s.seek(ctx, s.whole, l, others)
	if w.layout != nil && w.layout.Given() && !g.stock.Gives() { // what cannot be had whole can be in pieces
		return f
	}
	if w.layout != nil && (f.layout == nil || s.ask.Aim.Compare(*w.layout, *f.layout) < 0) {
		f.layout = w.layout
	}
	return f
}

// seek seeks the best layout of a look. Where its main timbers are to be others than those of
// the layouts before and that cannot be, or would use up nothing, they may be the same.
func (s *show) seek(ctx context.Context, g *goods, l look.Look, others bool) found {
	within := ctx
	if deadline, ok := ctx.Deadline(); ok && others {
		var stop context.CancelFunc
		within, stop = context.WithTimeout(ctx, time.Until(deadline)*2/3)
		defer stop()
	}
	seek, ok := g.newSeek(l, func() bool { return within.Err() != nil })
	if !ok {
		return found{proved: true}
	}
	for _, strips := range s.ask.Unlike {
		seek.unlike(strips)
	}
	for _, before := range s.answer.Layouts {
		seek.unlike(before.Strips)
		if others {
			seek.fresh(before.Strips)
		}
	}
	f := seek.solve(within)
	none := f.layout == nil
	if !others || !none && (s.ask.Aim != suggest.UseUp || f.layout.UseFirst > 0 || seek.firsts() == 0) {
		return f
	}
	again := s.seek(ctx, g, l, false)
	if !none && (again.layout == nil || again.layout.UseFirst == 0) {
		return f
	}
	again.proved = again.proved && f.proved
	return again
}

// finish says how sure the gallery is, and holds every claim of it against the statement.
func (s *show) finish() {
	a := &s.answer
	switch n := len(a.Layouts); {
	case n == 0 && s.proved:
		a.Status = suggest.Infeasible
	case n == 0:
		a.Status = suggest.Open
	case !s.proved:
		a.Status = suggest.Feasible
	}
	if a.Status != suggest.Feasible {
		a.Bound = nil
	}
	a.Looks(s.ask, s.physics)
	a.UpholdLooks(s.physics, s.ask)
	a.Stopped = a.Status != suggest.Optimal && s.stopped()
}

const tooLate = "the time ran out before one was found"

// why says why there is no layout of a look.
func (s *show) why(g *goods, l look.Look, f found, late bool) string {
	a := g.ask
	timbers := 0
	least, most := a.Limits()
	for i := range g.timbers {
		if slices.ContainsFunc(g.classes, func(c class) bool { return c.timber == i && g.serves(l, c) }) {
			timbers++
		}
	}
	switch need := max(l.Fewest(), 2); {
	case timbers < need:
		return fmt.Sprintf("%s are needed, the rack gives %d", tell.Count(need, "timber"), timbers)
	case l == look.Accent && !slices.ContainsFunc(g.classes, func(c class) bool { return c.Width <= g.rules.AccentWidth }):
		return fmt.Sprintf("no strip is %s wide or narrower", g.rules.AccentWidth)
	case !f.proved && late:
		return tooLate
	case !f.proved:
		return "none was found in reasonable work"
	case len(s.answer.Layouts)+len(a.Unlike) > 0:
		return fmt.Sprintf("none %s to %s wide in %d to %d strips differs enough from the others", least, most, a.Strips[0], a.Strips[1])
	default:
		return fmt.Sprintf("none is %s to %s wide in %d to %d strips with these wishes", least, most, a.Strips[0], a.Strips[1])
	}
}
