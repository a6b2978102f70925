package sets

import (
	"math"
	"slices"

	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// Bounds of one draw.
const (
	mostLots  = 14 // that a draw chooses from
	lotsEach  = 4  // of one timber
	mostFixes = 4  // glue lines that are forbidden in turn
)

// A draw is one panel in the making.
type draw struct {
	*search
	w        *wanted
	along    int
	price    []float64 // of each lot
	kinds    []int     // that may be put
	must     []string  // timbers that there must be
	shuns    map[[2]int]bool
	accent   string // where the look has one: its timber
	measured map[[3]length.Length]measure
	slots    [][]slot  // of each lot
	noise    []float64 // what each kind's price is multiplied by, so that panels differ
	bold     bool      // neighbours of which the panel decides may lie side by side
	turned   bool      // what is calm has strips of one width
	way      int       // of a fade or of what is calm: 1 or -1
}

// draw draws a panel of a want at prices of lots; nil where none was found.
func (s *search) draw(w *wanted, along int, price []float64) *board {
	d := &draw{search: s, w: w, along: along, price: price, shuns: map[[2]int]bool{}, measured: map[[3]length.Length]measure{}, way: 1}
	if s.dice.below(2) == 0 {
		d.way = -1
	}
	d.bold, d.turned = s.dice.below(8) == 0, s.dice.below(4) == 0
	d.noise = make([]float64, len(s.kinds))
	for k := range d.noise {
		d.noise[k] = 0.85 + float64(0.3*s.dice.part())
	}
	if !d.choose() {
		return nil
	}
	s.drawn++
	d.slots = make([][]slot, len(s.lots))
	for i := range s.lots {
		if s.dice.below(8) > 0 {
			d.slots[i] = s.slotsOf(i)
		}
	}
	for range mostFixes {
		kinds := d.strips()
		if kinds == nil {
			return nil
		}
		b, miss, at := s.board(w, along, kinds)
		if miss == timbers && d.dearer(kinds) {
			continue
		}
		if miss != lines {
			return b
		}
		d.shuns[[2]int{kinds[at], kinds[at+1]}], d.shuns[[2]int{kinds[at+1], kinds[at]}] = true, true
	}
	return nil
}

// dearer raises the prices of timbers that strips have more of than the want lets them; false
// where there are none.
func (d *draw) dearer(kinds []int) (raised bool) {
	wide, sum := map[string]length.Length{}, length.Length(0)
	for _, k := range kinds {
		strip := d.search.kinds[k].strip
		wide[strip.Species], sum = wide[strip.Species]+strip.Width, sum+strip.Width
	}
	for _, share := range d.w.AtMost {
		if 100*wide[share.Species].MM() <= share.Pct*sum.MM() {
			continue
		}
		raised = true
		for i := range d.lots {
			if d.lots[i].species == share.Species {
				d.price[i] *= dearer
			}
		}
	}
	return raised
}

// choose chooses the timbers of the panel and, of their lots, those to put.
func (d *draw) choose() bool {
	s, w := d.search, d.w
	need, whole := d.shortest(1), d.shortest(d.along)
	if !w.Joints {
		need = whole
	}
	weights := make([]float64, len(s.lots))
	of := map[string]float64{}
	for i := range s.lots {
		if l := &s.lots[i]; slices.Contains(w.timbers, l.species) && s.reaches(i, w, need) && (s.spares(i, w, need) || whole > need && s.spares(i, w, whole)) {
			weights[i] = s.room(i)
			of[l.species] += weights[i]
		}
	}
	chosen := d.timbers(of)
	if chosen == nil {
		return false
	}
	d.kinds = nil
	lots := 0
	for _, key := range chosen {
		mine := make([]float64, len(weights))
		for i := range s.lots {
			if s.lots[i].species == key {
				mine[i] = weights[i]
			}
		}
		for n := 0; n < lotsEach && lots < mostLots; n++ {
			i := s.dice.pick(mine)
			if i < 0 {
				break
			}
			mine[i] = 0
			lots++
			for _, k := range s.of[i] {
				if s.kinds[k].reach[w.glued] >= need && d.serves(k) {
					d.kinds = append(d.kinds, k)
				}
			}
		}
	}
	slices.Sort(d.kinds)
	return len(d.kinds) > 0
}

// timbers chooses which timbers the panel may be of, by how much there is of each; nil where
// there are too few.
func (d *draw) timbers(of map[string]float64) []string {
	s, w := d.search, d.w
	chosen := slices.Clone(w.With)
	var weights []float64
	there := 0
	for _, key := range w.timbers {
		weight := of[key]
		if weight > 0 {
			there++
		} else if slices.Contains(chosen, key) {
			return nil
		}
		if slices.Contains(chosen, key) {
			weight = 0
		}
		weights = append(weights, weight)
	}
	least := max(2, w.Look.Fewest(), w.Timbers.Least)
	if w.floor <= 0 && w.Look.Fewest() < 2 {
		least = max(1, w.Timbers.Least)
	}
	most := there
	if w.Timbers.Most > 0 {
		most = min(most, w.Timbers.Most)
	}
	switch w.Look {
	case look.Calm:
		most = min(most, 2)
	case look.Accent:
		most = min(most, look.AccentTimbers)
	}
	if least > most || len(chosen) > most {
		return nil
	}
	n := least + s.dice.below(most-least+1)
	if w.Look == look.Fade {
		n = most
	}
	for len(chosen) < n {
		i := s.dice.pick(weights)
		if i < 0 {
			break
		}
		chosen, weights[i] = append(chosen, w.timbers[i]), 0
	}
	if w.Look == look.Accent {
		d.accent = chosen[s.dice.below(len(chosen))]
	}
	d.must = chosen[:min(len(chosen), max(len(w.With), w.Timbers.Least))]
	return chosen
}

// shortest returns how long the shortest strip of a panel of so many products is, about.
func (d *draw) shortest(along int) length.Length {
	return d.long(d.w, along, 0, d.usual[0], d.w.least)
}

// serves reports whether a kind may be put: narrow strips are for accents alone.
func (d *draw) serves(k int) bool {
	one := d.search.kinds[k].strip
	ready := slices.ContainsFunc(d.lots[d.search.kinds[k].lot].rack.Strips, func(r rack.Strip) bool { return r.Width == one.Width })
	if d.w.Look != look.Accent {
		return ready || slices.Contains(d.usual, one.Width)
	}
	if one.Species == d.accent {
		return one.Width <= suggest.DefaultAccent
	}
	return (ready || slices.Contains(d.usual, one.Width)) && one.Width >= 2*suggest.DefaultAccent
}

// cost returns what a strip costs at the prices of lots.
func (d *draw) cost(k int, at, width length.Length) float64 {
	kind := &d.search.kinds[k]
	key := [3]length.Length{at, kind.strip.Width, width}
	m, known := d.measured[key]
	if !known {
		sh := &d.shop
		m.long = d.long(d.w, d.along, at, kind.strip.Width, width)
		if m.reach = m.long; d.w.Joints && d.along > 1 { // parted, it may be shorter; the planner says whether
			m.reach = d.long(d.w, 1, at, kind.strip.Width, width)
		}
		m.takes = (kind.strip.Width + sh.Allowance.Jointing + sh.Kerf.Rip).MM() * (m.long + sh.Kerf.Crosscut).MM()
		d.measured[key] = m
	}
	if m.reach > kind.reach[d.w.glued] {
		return math.Inf(1)
	}
	cost := d.price[kind.lot] * m.takes * d.noise[k]
	if d.fits(kind, m.long) {
		cost *= spare
	}
	return cost
}

// spare is what a strip counts that slices of the set have room for, of what it costs else.
const spare = 0.4

// fits reports whether slices of the set have room for a strip.
func (d *draw) fits(k *kind, long length.Length) bool {
	for _, s := range d.slots[k.lot] {
		if s.glued == d.w.glued && s.room >= k.strip.Width+d.shop.Allowance.Jointing && long <= s.long && s.long-long <= s.over && sections.Shows(s.rings, k.strip.Rings) {
			return true
		}
	}
	return false
}

// A measure is how long a strip is at some place, how long timber must be for it, and what it
// takes of a slice, in square millimetres.
type measure struct {
	long, reach length.Length
	takes       float64
}

// besides reports whether two kinds may lie side by side.
func (d *draw) besides(a, b int) bool {
	return d.beside(d.w, a, b, d.bold) && !d.shuns[[2]int{a, b}]
}

// strips walks; it returns kinds of the search from edge to edge.
func (d *draw) strips() []int {
	if d.w.Look == look.Repeat {
		return d.repeat()
	}
	r := d.rule()
	w := &walk{steps: &d.steps, least: d.w.least, most: d.w.most, folded: d.w.Look == look.Mirror || d.w.Look == look.Calm && !d.turned, extras: r.states,
		cost:  func(k int, at, width length.Length) float64 { return d.cost(d.kinds[k], at, width) },
		begin: r.begin, next: r.next, ends: r.ends}
	for _, k := range d.kinds {
		w.kinds = append(w.kinds, &d.search.kinds[k])
	}
	w.beside = func(a, b int) bool { return d.besides(d.kinds[a], d.kinds[b]) }
	out := w.best()
	for i, k := range out {
		out[i] = d.kinds[k]
	}
	return out
}

// repeat looks among rows of a few kinds for the one that costs least.
func (d *draw) repeat() []int {
	const mostKinds, longest = 9, 4
	some := slices.Clone(d.kinds)
	for len(some) > mostKinds {
		i := d.dice.below(len(some))
		some = slices.Delete(some, i, i+1)
	}
	var best []int
	least := math.Inf(1)
	var from func(row []int)
	from = func(row []int) {
		if n := len(row); n >= 2 && d.besides(row[n-1], row[0]) {
			if out, cost := d.repeated(row); cost < least {
				best, least = out, cost
			}
		}
		if len(row) == longest {
			return
		}
		for _, k := range some {
			if len(row) == 0 || d.besides(row[len(row)-1], k) {
				from(append(slices.Clone(row), k))
			}
		}
	}
	from(nil)
	return best
}

// repeated lays a row again and again, and returns it with what it costs.
func (d *draw) repeated(row []int) ([]int, float64) {
	var out []int
	sum := length.Length(0)
	for sum < d.w.least {
		k := row[len(out)%len(row)]
		out, sum = append(out, k), sum+d.search.kinds[k].strip.Width
	}
	if sum > d.w.most || len(out) < 2*len(row) {
		return nil, math.Inf(1)
	}
	cost, at := 0.0, length.Length(0)
	for _, k := range out {
		cost += d.cost(k, at, sum)
		at += d.search.kinds[k].strip.Width
	}
	return out, cost
}
