package gallery

import (
	"cmp"
	"context"
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// A seek is the search for the best layout of one look that looks different enough from
// those before it.
type seek struct {
	g      *goods
	look   look.Look
	before [][]look.Strip     // layouts that it must look different from
	priors [][]suggest.Placed // layouts that it must differ from by strips
	rivals []rival
	stop   func() bool
	nodes  int // that may still be looked at

	use         int64 // use-first width that there must be
	any         bool  // the first layout will do
	above       int64 // what a layout must be worth more than
	best        *suggest.Layout
	open        int64 // what layouts are worth that were passed over without proof that they are none
	least, most int64 // width
}

// nodesMost is how many walks a search for one look follows by its steps.
const nodesMost = 400_000

// nodesFew is how many it follows before it looks harder at whether there is a layout.
const nodesFew = 3_000

// newSeek returns the search for a look; false where no width can be met.
func (g *goods) newSeek(l look.Look, stop func() bool) (*seek, bool) {
	s := &seek{g: g, look: l, stop: stop, nodes: nodesMost}
	var unit int64
	for _, c := range g.classes {
		if g.serves(l, c) {
			unit = gcd(unit, c.width)
		}
	}
	if unit == 0 {
		return s, false
	}
	least, most := g.ask.Limits()
	s.least, s.most = (int64(least)+unit-1)/unit*unit, int64(most)/unit*unit
	return s, s.least <= s.most
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// unlike has a layout look different from strips.
func (s *seek) unlike(strips []suggest.Placed) {
	told := suggest.Told(s.g.physics)
	seen := suggest.Seen(s.g.physics, strips)
	s.before, s.priors = append(s.before, seen), append(s.priors, strips)
	s.rivals = append(s.rivals, s.g.rivals(seen, told, s.least)...)
}

// serves reports whether a class serves a look: widths that are there for accents alone
// serve nothing else.
func (g *goods) serves(l look.Look, c class) bool {
	return g.usual(c) || l == look.Accent && c.Width <= g.ask.Rules(g.physics).AccentWidth
}

// usual reports whether a class serves every look.
func (g *goods) usual(c class) bool {
	return !g.rough || slices.Contains(g.widths, c.Width)
}

// themes returns what machines are built for, with lines of at least such a contrast.
func (s *seek) themes(least int64) []*theme {
	g := s.g
	with, ok := g.withBits()
	t := theme{g: g, look: s.look, least: least, accent: -1, fewest: g.leastTimbers(s.look), most: g.mostTimbers(s.look), with: with}
	if !ok || t.fewest > t.most {
		return nil
	}
	for _, c := range g.classes {
		t.usual = append(t.usual, g.usual(c))
	}
	if s.look != look.Accent {
		return []*theme{&t}
	}
	var out []*theme
	for i := range g.timbers {
		var widths []int64
		for _, c := range g.classes {
			if c.timber == i && c.Width <= g.ask.Rules(g.physics).AccentWidth && !slices.Contains(widths, c.width) {
				widths = append(widths, c.width)
			}
		}
		for _, w := range widths {
			for _, field := range g.fields(i) {
				with := t
				with.accent, with.widest, with.field, with.most = i, w, field, len(g.timbers)
				out = append(out, &with)
			}
		}
	}
	return out
}

// fields returns the sets of timbers that the field of an accent may be of: as many as there
// may be, or what there are.
func (g *goods) fields(accent int) []uint64 {
	var out []uint64
	alone := g.mostTimbers(look.Accent) == look.Accent.Fewest() || len(g.timbers) == look.Accent.Fewest()
	for i := range g.timbers {
		if i != accent && alone {
			out = append(out, 1<<i)
		}
		for j := range i {
			if i != accent && j != accent && !alone {
				out = append(out, 1<<i|1<<j)
			}
		}
	}
	return out
}

// folds returns the ways that layouts of the look are walked, most strips first.
func (s *seek) folds() []*fold {
	var out []*fold
	narrowest, widest := int64(0), int64(0)
	for _, c := range s.g.classes {
		if !s.g.serves(s.look, c) {
			continue
		}
		if narrowest == 0 || c.width < narrowest {
			narrowest = c.width
		}
		widest = max(widest, c.width)
	}
	fewest := max(s.g.ask.Strips[0], int((s.least+widest-1)/widest))
	for n := min(s.g.ask.Strips[1], int(s.most/narrowest)); n >= fewest; n-- {
		switch s.look {
		case look.Mirror:
			out = append(out, mirrorFold(n, s.least, s.most))
		case look.Repeat:
			for p := 2; p <= n/2; p++ {
				out = append(out, s.repeats(n, p)...)
			}
		case look.Calm:
			for _, way := range []int64{1, -1} {
				f := plainFold(s.look, n, s.least, s.most)
				f.way = way
				out = append(out, f)
			}
		default:
			f := plainFold(s.look, n, s.least, s.most)
			if len(s.g.ask.Pinned) > 0 {
				out = append(out, f)
				continue
			}
			f.starts = n - fewest + 1
			return []*fold{f}
		}
	}
	return out
}

// repeats returns the folds of n strips with a period of p, one for each width of it.
func (s *seek) repeats(n, p int) []*fold {
	var out []*fold
	whole := int64(n / p)
	for period := s.least/(whole+1) + 1; period <= s.most/whole; period++ {
		if unit := s.unit(); period%unit != 0 {
			period += unit - period%unit - 1
			continue
		}
		out = append(out, repeatFold(n, p, period, s.least, s.most))
	}
	return out
}

// unit returns what widths are multiples of.
func (s *seek) unit() int64 {
	var unit int64
	for _, c := range s.g.classes {
		if s.g.serves(s.look, c) {
			unit = gcd(unit, c.width)
		}
	}
	return unit
}

// contrasts returns those that lines may have, at least floor, the greatest first.
func (s *seek) contrasts(floor int64) []int64 {
	var out []int64
	g := s.g
	for i := range g.classes {
		for j := i; j < len(g.classes); j++ {
			if c := g.contrast(i, j); g.besides[i*len(g.classes)+j] && c >= floor && !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	slices.SortFunc(out, func(a, b int64) int { return cmp.Compare(b, a) })
	return out
}

// maximise seeks the layout that is worth most, above what is known, with lines of at least
// such a contrast. It returns what none is worth more than, and whether that is proved to
// be what the best so far is worth, or that there is none.
func (s *seek) maximise(ctx context.Context, least int64) (most int64, done bool) {
	most = never
	scarce := s.g.scarcities()
	for _, th := range s.themes(least) {
		machines := map[bool]*machine{}
		for _, f := range s.folds() {
			if s.stop() {
				return s.ceiling(s.folds()[0]), false
			}
			if s.ceiling(f) <= s.above {
				continue
			}
			th.twin = f.look == look.Mirror && !f.odd
			if machines[th.twin] == nil {
				machines[th.twin] = th.build()
			}
			if m := machines[th.twin]; m != nil && !slices.Contains(m.ends, true) {
				continue
			}
			bound, ok := s.through(ctx, f, machines[th.twin], scarce)
			if s.any && s.best != nil {
				return max(most, bound), false
			}
			if !ok {
				most = max(most, bound)
			}
		}
	}
	done = most <= s.above
	if s.best != nil {
		most = max(most, s.above)
	}
	return most, done
}

// ceiling returns what layouts of a fold are certainly not worth more than.
func (s *seek) ceiling(f *fold) int64 {
	top := int64(0)
	for _, c := range s.g.worth {
		top = max(top, c)
	}
	return int64(f.strips-1) * top
}

// firsts returns how wide use-first strips are together at most.
func (s *seek) firsts() int64 {
	sum := int64(0)
	for _, t := range s.g.timbers {
		sum += t.first
	}
	return sum
}

// through looks through one fold; false where something that is worth up to bound is left.
func (s *seek) through(ctx context.Context, f *fold, m *machine, scarce []scarcity) (bound int64, done bool) {
	if m == nil {
		return s.ceiling(f), false
	}
	pins, ok := s.pins(f)
	if !ok {
		return never, true
	}
	t := newTable(s.g, f, m, pins)
	if t == nil {
		return s.ceiling(f), false
	}
	if len(t.xs[len(f.copies)]) == 0 {
		return never, true
	}
	a := aim{contrast: true, use: s.use}
	if bound = min(t.priced(a, scarce, s.above+1, s.stop), s.ceiling(f)); bound <= s.above {
		return bound, !s.stop()
	}
	d := &dive{seek: s, ctx: ctx, t: t}
	nodes := s.nodes
	s.nodes = min(nodes, nodesFew)
	done = d.run()
	s.nodes += nodes - min(nodes, nodesFew)
	if done || s.stop() || s.any && s.best != nil {
		return bound, done
	}
	if s.best == nil { // whether there is any, whatever it is worth
		if t.priced(aim{use: s.use}, scarce, 0, s.stop) < 0 {
			return never, !s.stop()
		}
		t.priced(a, scarce, s.above+1, s.stop)
	}
	return bound, d.run()
}

// pins returns the classes pinned to the steps of a fold; false where two meet in one.
func (s *seek) pins(f *fold) ([]int, bool) {
	if len(s.g.ask.Pinned) == 0 {
		return nil, true
	}
	out := make([]int, len(f.copies))
	for i := range out {
		out[i] = -1
	}
	for _, p := range s.g.ask.Pinned {
		c := slices.IndexFunc(s.g.classes, func(c class) bool { return c.Kind == suggest.Kind{Species: p.Strip.Species, Width: p.Strip.Width} })
		if p.Place > f.strips {
			return nil, false
		}
		at := f.step(p.Place - 1)
		if c < 0 || out[at] >= 0 && out[at] != c {
			return nil, false
		}
		out[at] = c
	}
	return out, true
}

// mostUse seeks a layout with the most use-first width: as much as there is, then by halving
// what is left with little work, at last proving that one step more cannot be. It returns
// what none has more than, and whether one has as much, or there is none.
func (s *seek) mostUse(ctx context.Context, least int64) (most int64, done bool) {
	unit := s.unit()
	high := min(s.most, s.firsts()) / unit * unit
	find := func(use int64, nodes int) (sure bool) {
		before := s.best
		s.use, s.any, s.above, s.open, s.best, s.nodes = use, true, -1, -1, nil, nodes
		_, sure = s.maximise(ctx, least)
		if sure = sure && s.open < 0; s.best == nil {
			s.best = before
			return sure
		}
		return true
	}
	if find(high, nodesUse); s.best == nil {
		if sure := find(0, nodesMost); s.best == nil {
			return high, sure
		}
	}
	have := func() int64 { return int64(s.best.UseFirst) }
	for open := high; have()+unit < open && !s.stop(); {
		at := have() + max(unit, (open-have())/2/unit*unit)
		before := have()
		if sure := find(at, nodesUse); have() > before {
			continue
		} else if open = at; sure {
			high = min(high, at-unit)
		}
	}
	for have() < high && !s.stop() {
		before := have()
		if sure := find(before+unit, nodesMost/4); have() > before {
			continue
		} else if sure {
			high = before
		}
		break
	}
	return max(high, have()), have() >= high
}

// nodesUse is how many walks are followed for one width of use-first strips.
const nodesUse = 10_000

// A found layout is the best of a look, or none, with what is known of it.
type found struct {
	layout *suggest.Layout
	proved bool          // it is the best, or there is none
	most   suggest.Merit // no layout is worth more
}

// solve seeks the best layout.
func (s *seek) solve(ctx context.Context) found {
	floor := int64(-1)
	if c := s.g.ask.Floor(s.look); c >= 0 {
		floor = units(c)
	}
	all := s.contrasts(floor)
	out := found{proved: true}
	if len(all) == 0 {
		return out
	}
	if s.g.ask.Aim == suggest.UseUp && s.firsts() > 0 {
		most, done := s.mostUse(ctx, all[len(all)-1])
		out.most.Use, out.proved = length.Length(most), done
		if s.best == nil {
			out.most.Least = all[0]
			return out
		}
		s.use = int64(s.best.UseFirst)
	}
	fallback := s.best
	s.best, s.any, s.nodes = nil, false, nodesMost
	for _, least := range all {
		s.above = int64(s.g.ask.Strips[0]-1)*least - 1
		s.open = never
		most, done := s.maximise(ctx, least)
		if done = done && s.open <= s.above; !done && out.most.Least == 0 {
			out.most.Least = least
		}
		out.proved = out.proved && done
		if s.best != nil {
			out.layout, out.most.Least, out.most.Sum = s.best, max(out.most.Least, least), max(most, s.above)
			break
		}
		if s.stop() {
			break
		}
	}
	if out.layout == nil && fallback != nil {
		out.layout, out.proved = fallback, false
		out.most.Least = max(out.most.Least, all[0])
		out.most.Sum = int64(s.g.ask.Strips[1]) * all[0]
	}
	return out
}
