package gallery

import (
	"cmp"
	"context"
	"maps"
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

	effort
	worth       worth
	use         int64    // use-first width that there must be
	any         bool     // the first layout will do
	above       int64    // what a layout must be worth more than
	shared      [][]bool // timbers that look like the two that an earlier layout has most of: half of the width at most
	best        *suggest.Layout
	open        int64 // what layouts are worth that were passed over without proof that they are none
	least, most int64 // width
}

// nodesMost is how many walks a search for one look follows by its steps.
const nodesMost = 400_000

// An effort is how hard each fold is looked at.
type effort struct {
	rounds int  // in which prices are sought
	few    int  // walks followed before it is looked harder whether there is a layout
	brief  bool // it is not looked harder then
}

func thorough() effort { return effort{rounds: 24, few: 3_000} }
func brief() effort    { return effort{rounds: 4, few: 250, brief: true} }

// A worth is what layouts are weighed by.
type worth int

const (
	byContrast worth = iota // the sum of their contrasts, in units
	byUse                   // their use-first width, in nanometres
)

// newSeek returns the search for a look; false where no width can be met.
func (g *goods) newSeek(l look.Look, stop func() bool) (*seek, bool) {
	s := &seek{g: g, look: l, stop: stop, nodes: nodesMost, effort: thorough()}
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
	seen := suggest.Seen(s.g.physics, strips)
	s.before, s.priors = append(s.before, seen), append(s.priors, strips)
	s.rivals = append(s.rivals, s.g.rivals(seen, s.g.tells, s.least)...)
}

// fresh has the timbers that look like the two that strips have most of take half of the
// width at most.
func (s *seek) fresh(strips []suggest.Placed) {
	wide := map[string]length.Length{}
	for _, p := range strips {
		wide[p.Species] += p.Width
	}
	most := slices.SortedFunc(maps.Keys(wide), func(a, b string) int { return cmp.Or(cmp.Compare(wide[b], wide[a]), cmp.Compare(a, b)) })
	like := make([]bool, len(s.g.timbers))
	for i, t := range s.g.timbers {
		like[i] = slices.ContainsFunc(most[:min(2, len(most))], func(key string) bool { return key == t.key || !s.g.tells(key, t.key) })
	}
	s.shared = append(s.shared, like)
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
	t.stands = t.standIns()
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
	scarce := s.scarcities()
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
			switch {
			case !ok && s.stop():
				return s.ceiling(s.folds()[0]), false
			case !ok:
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
	if s.worth == byUse {
		return min(s.most, s.firsts())
	}
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
	a := aim{contrast: s.worth == byContrast, use: s.use, first: s.worth == byUse}
	bound = min(t.priced(a, scarce, s.above+1, s.rounds, s.stop), s.ceiling(f))
	if s.stop() { // what was being filled is no bound
		return s.ceiling(f), false
	}
	if unit := s.unit(); s.worth == byUse && bound > 0 {
		bound = bound / unit * unit
	}
	if bound <= s.above {
		return bound, !s.stop()
	}
	d := &dive{seek: s, ctx: ctx, t: t}
	nodes := s.nodes
	s.nodes = min(nodes, s.few)
	done = d.run()
	s.nodes += nodes - min(nodes, s.few)
	if done || s.stop() || s.brief || s.any && s.best != nil {
		return bound, done
	}
	if s.best == nil && s.worth == byContrast { // whether there is any, whatever it is worth
		if t.priced(aim{use: s.use}, scarce, 0, s.rounds, s.stop) < 0 {
			return never, !s.stop()
		}
		t.priced(a, scarce, s.above+1, s.rounds, s.stop)
		if s.stop() {
			return s.ceiling(f), false
		}
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
