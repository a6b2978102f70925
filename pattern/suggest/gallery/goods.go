package gallery

import (
	"cmp"
	"context"
	"encoding/binary"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/suggest/stock"
	"example.com/oddments/species"
)

// Goods are what there is to lay out, by what the eye tells apart.
type goods struct {
	ask     suggest.Request // its aim is not Auto
	physics movement.Physics
	stock   *stock.Stock
	timbers []timber
	classes []class
	besides []bool       // of each two classes: whether some strips of them may lie side by side
	worth   []int64      // of each two timbers: contrast in units
	seen    []look.Strip // of each class: what the eye sees of it
	tells   func(x, y string) bool
	rules   look.Rules
	rough   bool            // strips are cut from pieces too
	widths  []length.Length // that serve every look
	shunned map[string]bool // what lines fare better without, while a layout is planned
}

// A timber is one species of the goods.
type timber struct {
	key     string
	light   float64 // CIELAB L of its oiled colour
	most    int64   // no strips of it are wider together, nanometres
	first   int64   // nor those of it that are use-first ones
	budgets []stock.Budget
	cut     [marks][][]uint16 // counts by class that it yields, and fewer of them
	fails   [marks][][]uint16 // counts that it does not yield, nor more of them
	yields  map[string]yield  // by counts, what was found out
	given   bool              // strips pinned are of it that are only given, and not cut
}

// A class is strips that are alike to the eye.
type class struct {
	suggest.Kind
	timber int
	width  int64
	count  int   // no layout has more
	first  int   // nor more use-first ones
	kinds  []int // of the stock
}

// A yield is what was found out of counts of one timber.
type yield struct {
	ok, proved bool
	use        int64    // the most use-first width
	first      []uint16 // by class, how many strips of it are use-first ones then
}

// newGoods returns the goods of an ask; nil where stop said so.
func newGoods(r movement.Physics, a suggest.Request, stop func() bool) *goods {
	g := &goods{physics: r, rough: len(a.Widths) > 0, widths: a.Widths, tells: suggest.Told(r), rules: a.Rules(r)}
	accent := a.Rules(r).AccentWidth
	if g.rough && slices.Contains(a.Looks, look.Accent) && !slices.ContainsFunc(a.Widths, func(w length.Length) bool { return w <= accent }) {
		a.Widths = append(slices.Clone(a.Widths), accent)
	}
	g.ask = a
	if g.stock = stock.New(r, a, stop); g.stock == nil {
		return nil
	}
	for i, k := range g.stock.Kinds {
		at := slices.IndexFunc(g.classes, func(c class) bool { return c.Kind == g.stock.Classes[k.Class] })
		if at < 0 {
			at = len(g.classes)
			g.classes = append(g.classes, class{Kind: g.stock.Classes[k.Class], timber: g.timber(k.Strip.Species), width: int64(k.Strip.Width)})
		}
		c := &g.classes[at]
		c.count, c.kinds = min(c.count+k.Count, pattern.MaxStrips), append(c.kinds, i)
		if a.Aim == suggest.UseUp {
			c.first = min(c.first+k.First, pattern.MaxStrips)
		}
	}
	for _, c := range g.classes {
		g.seen = append(g.seen, look.Strip{Species: c.Species, Width: c.Width, L: g.timbers[c.timber].light})
	}
	g.measure()
	g.shunned = map[string]bool{}
	if g.pairs(stop); stop() {
		return nil
	}
	return g
}

// timber returns the place of a species among the timbers.
func (g *goods) timber(key string) int {
	at := slices.IndexFunc(g.timbers, func(t timber) bool { return t.key == key })
	if at < 0 {
		at = len(g.timbers)
		s, _ := g.physics.Table().Get(key)
		g.timbers = append(g.timbers, timber{key: key, light: lightness(s.ColourOiled)})
	}
	return at
}

// measure says how much there is of each timber: what its parts have together.
func (g *goods) measure() {
	for i := range g.timbers {
		t := &g.timbers[i]
		for _, c := range g.classes {
			if c.timber == i {
				t.most += int64(c.count) * c.width
				t.first += int64(c.first) * c.width
			}
		}
		if g.rough {
			g.budget(i, t)
		}
	}
	_, most := g.ask.Limits()
	for _, share := range g.ask.AtMost {
		for i := range g.timbers {
			if g.timbers[i].key == share.Species {
				g.timbers[i].most = min(g.timbers[i].most, int64(float64(most)*share.Pct/100))
			}
		}
	}
}

// budget bounds a timber that is cut by what its parts have room for. A strip takes of
// their budgets together what it takes least of one.
func (g *goods) budget(at int, t *timber) {
	var wide, first int64
	parts := [3]stock.Budget{}
	for p := range parts {
		parts[p].Takes = make([]int64, len(g.classes))
	}
	given := int64(0)
	for i, part := range g.stock.Timbers {
		if part.Species() != t.key {
			continue
		}
		wide += int64(part.Widest)
		if part.First() {
			first += int64(part.Widest)
		}
		for p := range parts {
			b := g.stock.BudgetsOf(i)[p]
			parts[p].Most += b.Most
			for c := range g.classes {
				for _, k := range g.classes[c].kinds {
					if takes := b.Takes[k]; takes > 0 && (parts[p].Takes[c] == 0 || takes < parts[p].Takes[c]) {
						parts[p].Takes[c] = takes
					}
				}
			}
		}
	}
	for _, k := range g.stock.Kinds {
		if k.Given && k.Strip.Species == t.key {
			given += int64(k.Count) * int64(k.Strip.Width)
		}
	}
	t.most, t.first = min(t.most, wide+given), min(t.first, first)
	if t.given = given > 0; !t.given {
		t.budgets = parts[:]
	}
}

// pairs says which classes may lie side by side, and what timbers are to one another.
func (g *goods) pairs(stop func() bool) {
	n, m := len(g.classes), len(g.timbers)
	g.besides, g.worth = make([]bool, n*n), make([]int64, m*m)
	for i := range g.timbers {
		a, _ := g.physics.Table().Get(g.timbers[i].key)
		for j := range g.timbers {
			b, _ := g.physics.Table().Get(g.timbers[j].key)
			g.worth[i*m+j] = units(a.Contrast(b))
		}
	}
	for i := range n {
		if stop() {
			return
		}
		for j := i; j < n; j++ {
			ok := slices.ContainsFunc(g.classes[i].kinds, func(a int) bool {
				return slices.ContainsFunc(g.classes[j].kinds, func(b int) bool { return g.beside(a, b) })
			})
			g.besides[i*n+j], g.besides[j*n+i] = ok, ok
		}
	}
}

// beside reports whether two kinds of the stock keep to the level by themselves.
func (g *goods) beside(a, b int) bool {
	left, right := g.stock.Kinds[a].Strip, g.stock.Kinds[b].Strip
	return !(g.ask.NoTwins && left.Species == right.Species) && suggest.LineLevel(g.physics, g.ask, left, right) <= g.ask.Level
}

// contrast returns that of two classes, in units.
func (g *goods) contrast(a, b int) int64 {
	return g.worth[g.classes[a].timber*len(g.timbers)+g.classes[b].timber]
}

// use returns the most use-first width that strips of a timber so wide may have.
func (t *timber) use(wide int64) int64 { return min(wide, t.first) }

// of returns what a rack yields of a timber by counts of its classes: all of them or not,
// and with how much use-first width. Timbers are cut apart from one another, and so is what
// is marked from what is not, so that each is asked for by itself.
func (g *goods) of(ctx context.Context, at int, counts []uint16) yield {
	mine := make([]uint16, len(counts))
	for c, n := range counts {
		if g.classes[c].timber == at {
			mine[c] = n
		}
	}
	if !g.rough {
		y := yield{ok: true, proved: true}
		for c, n := range mine {
			y.ok = y.ok && int(n) <= g.classes[c].count
			y.use += int64(min(int(n), g.classes[c].first)) * g.classes[c].width
		}
		return y
	}
	ok, proved := g.cuts(ctx, at, anyMark, mine)
	if !ok || g.ask.Aim != suggest.UseUp {
		return yield{ok: ok, proved: proved}
	}
	var name []byte
	for _, n := range mine {
		name = binary.AppendUvarint(name, uint64(n))
	}
	key := string(name)
	y, known := g.timbers[at].yields[key]
	if !known {
		if y = g.mostUse(ctx, at, mine); ctx.Err() == nil {
			if g.timbers[at].yields == nil {
				g.timbers[at].yields = map[string]yield{}
			}
			g.timbers[at].yields[key] = y
		}
	}
	return y
}

// mostUse tries which strips of a timber come from what is marked use first: those that are
// widest together first.
func (g *goods) mostUse(ctx context.Context, at int, counts []uint16) yield {
	splits := [][]uint16{make([]uint16, len(counts))}
	for c, n := range counts {
		before := splits
		for m := 1; m <= min(int(n), g.classes[c].first); m++ {
			for _, s := range before {
				if with := slices.Clone(s); len(splits) < splitsMost {
					with[c] = uint16(m)
					splits = append(splits, with)
				}
			}
		}
	}
	slices.SortStableFunc(splits, func(a, b []uint16) int { return cmp.Compare(g.wide(at, b), g.wide(at, a)) })
	out := yield{proved: len(splits) < splitsMost}
	rest := make([]uint16, len(counts))
	for _, s := range splits {
		if g.wide(at, s) > g.timbers[at].first || ctx.Err() != nil {
			continue
		}
		ok, proved := g.cuts(ctx, at, isMarked, s)
		if ok {
			for c := range rest {
				rest[c] = counts[c] - s[c]
			}
			var sure bool
			ok, sure = g.cuts(ctx, at, unmarked, rest)
			proved = proved && sure
		}
		if ok {
			return yield{ok: true, proved: out.proved, use: g.wide(at, s), first: s}
		}
		out.proved = out.proved && proved
	}
	return out
}

const splitsMost = 2000

// A mark says which timber of a species is meant.
type mark int

const (
	anyMark mark = iota
	isMarked
	unmarked
	marks // how many there are
)

// cuts reports whether strips by counts of one timber can be cut from what has a mark, and
// whether that is proved. Fewer strips can be cut where more can, and more cannot where
// fewer cannot, so that little is planned twice.
func (g *goods) cuts(ctx context.Context, at int, m mark, counts []uint16) (ok, proved bool) {
	t := &g.timbers[at]
	if g.wide(at, counts) == 0 || slices.ContainsFunc(t.cut[m], func(o []uint16) bool { return within(counts, o) }) {
		return true, true
	}
	if slices.ContainsFunc(t.fails[m], func(o []uint16) bool { return within(o, counts) }) {
		return false, true
	}
	var strips []pattern.Strip
	for c, n := range counts {
		for range n {
			strips = append(strips, pattern.Strip{Species: g.classes[c].Species, Width: g.classes[c].Width})
		}
	}
	job, known := g.stock.Anywhere(g.rack(strips, func(first bool) bool { return m == anyMark || first == (m == isMarked) }, nil), strips)
	if !known {
		return true, false
	}
	plan := g.plan(ctx, job)
	switch {
	case plan.Short == 0:
		t.cut[m] = append(t.cut[m], counts)
		return true, true
	case plan.Status == cutting.Optimal:
		t.fails[m] = append(t.fails[m], counts)
		return false, true
	}
	return false, false
}

// within reports whether counts a are no more than b.
func within(a, b []uint16) bool {
	for c, n := range a {
		if n > b[c] {
			return false
		}
	}
	return true
}

// marked returns what a plan calls a species, by its mark.
func marked(species string, first bool) string {
	if first {
		return species + " first"
	}
	return species
}

// rack returns the timber for strips of whatever rings and moisture: what serves, all of it or
// as a mark says; name says what a plan calls a species by its mark, nil: the species.
func (g *goods) rack(strips []pattern.Strip, serves func(first bool) bool, name func(string, bool) string) (r rack.Rack) {
	if name == nil {
		name = func(species string, _ bool) string { return species }
	}
	wanted := map[string]bool{}
	for _, s := range strips {
		wanted[s.Species] = true
	}
	for _, p := range g.ask.Rack.Pieces {
		if p.Species = name(p.Species, p.UseFirst); wanted[p.Species] && serves(p.UseFirst) && !g.shunned[p.ID] {
			r.Pieces = append(r.Pieces, p)
		}
	}
	for _, s := range g.lying() {
		if s.Species = name(s.Species, s.UseFirst); wanted[s.Species] && serves(s.UseFirst) && !g.shunned[s.ID] {
			r.Strips = append(r.Strips, s)
		}
	}
	return r
}

// plan plans a job of one layout's strips.
func (g *goods) plan(ctx context.Context, job cutting.Job) cutting.Plan {
	if job.Patterns[0].Ways != nil {
		return g.join(ctx, job)
	}
	plan, err := solve.Plan(ctx, job, solve.Options{})
	if err != nil {
		plan, _ = suggest.NoPlan(len(job.Patterns[0].Pattern.Strips), err)
	}
	return plan
}

// lying returns the ready strips that serve.
func (g *goods) lying() []rack.Strip {
	if len(g.ask.Have) == 0 {
		return g.ask.Serving(g.physics.Shop())
	}
	return g.ask.NamedStrips(g.physics.Shop())
}

// units returns a contrast in whole units.
func units(c float64) int64 { return int64(c*suggest.PerContrast + 0.5) }

// lightness returns the CIELAB L of a colour.
func lightness(c species.RGB) float64 { return c.Lightness() }

// wide returns how wide counts are together, of one timber.
func (g *goods) wide(at int, counts []uint16) (sum int64) {
	for c, n := range counts {
		if g.classes[c].timber == at {
			sum += int64(n) * g.classes[c].width
		}
	}
	return sum
}

// alike returns how wide counts are together of the timbers that are said.
func (g *goods) alike(of []bool, counts []uint16) (sum int64) {
	for c, n := range counts {
		if of[g.classes[c].timber] {
			sum += int64(n) * g.classes[c].width
		}
	}
	return sum
}
