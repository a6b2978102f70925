package sets

import (
	"context"
	"math"
	"slices"

	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/pile/ceiling"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest/look"
)

// A search is the search for the best set.
type search struct {
	ctx context.Context
	Request
	opt     Options
	shop    shop.Shop
	wants   []*wanted
	usual   []length.Length // that pieces are ripped to, the narrowest first
	accents bool            // some want has an accent
	glued   []length.Length // thicknesses before flattening that wants have
	goods
	memory
	dice dice

	boards  []*board // of the set that is worked on
	best    []*board
	ceiling *ceiling.Ceiling
	rounds  int
	late    bool
}

// Goods are the lots of the rack.
type goods struct {
	lots  []lot
	kinds []kind
	of    [][]int // of each lot: its kinds
}

// A memory is what was found out, and room to work in.
type memory struct {
	given  map[string]bool
	plans  map[string]*packer // what the planner alone found
	spared map[string]bool
	ways   [][]joints.Way
	wayAt  map[string]int
	asked  int // how often a lot was packed
	drawn  int // panels drawn
	steps  []step
	slots  []slots // of each lot
}

func newSearch(ctx context.Context, r Request, opt Options) *search {
	s := &search{ctx: ctx, Request: r, opt: opt, shop: r.Physics.Shop(), memory: memory{given: map[string]bool{}, plans: map[string]*packer{}, spared: map[string]bool{}, wayAt: map[string]int{}}, dice: 18}
	sh := r.Physics.Shop()
	s.usual = s.widths()
	for _, w := range r.Wants {
		s.accents = s.accents || w.Look == look.Accent
		if g := sh.Glued(w.Thickness); !slices.Contains(s.glued, g) {
			s.glued = append(s.glued, g)
		}
	}
	s.gather()
	s.of = make([][]int, len(s.lots))
	s.slots = make([]slots, len(s.lots))
	for i := range s.lots {
		for _, k := range s.lots[i].kinds {
			s.of[i] = append(s.of[i], len(s.kinds))
			s.kinds = append(s.kinds, k)
		}
	}
	for i := range r.Wants {
		s.wants = append(s.wants, s.wanted(i))
	}
	return s
}

// fadeContrast is how near neighbours in a fade may be (looks.md, section 2).
const fadeContrast = 4

func (s *search) wanted(at int) *wanted {
	one := s.Wants[at]
	w := &wanted{Want: one, at: at, glued: s.shop.Glued(one.Thickness), each: one.Each(), floor: one.LeastContrast, shape: one.Shape()}
	w.least, w.most = one.Widths(s.shop.Cut)
	if one.Look == look.Fade {
		w.floor = min(w.floor, fadeContrast)
	}
	w.pairs = make([]int8, len(s.kinds)*len(s.kinds))
	for _, key := range s.Rack.Species() {
		if !slices.Contains(one.Without, key) {
			w.timbers = append(w.timbers, key)
		}
	}
	return w
}

// reaches reports whether a lot has strips so long for a want.
func (s *search) reaches(lot int, w *wanted, long length.Length) bool {
	return slices.ContainsFunc(s.of[lot], func(k int) bool { return s.kinds[k].reach[w.glued] >= long })
}

// usually is the part of timber that ends up in strips, about, with what is sawn off.
const usually = 0.8

// used returns how much of a lot the set takes, as a part of all of it.
func (s *search) used(lot int) float64 {
	cm3 := 0.0
	for _, b := range s.boards {
		cm3 += s.takes(b.needs[lot])
	}
	return cm3 / max(1, s.lots[lot].cm3)
}

// room returns how much of a lot is left, about.
func (s *search) room(lot int) float64 {
	return s.lots[lot].cm3 * max(0.03, usually-s.used(lot))
}

// prices returns what timber of each lot costs: the more the less is left of it, and a little
// less where it is to be used first.
func (s *search) prices(loose float64) []float64 {
	out := make([]float64, len(s.lots))
	for i := range out {
		out[i] = (0.5 + s.used(i)) * s.dice.about(loose)
		if s.lots[i].first {
			out[i] *= 0.8
		}
	}
	return out
}

// items returns what the set, and another board, ask of a lot.
func (s *search) items(lot int, with *board) []item {
	var out []item
	for _, b := range s.boards {
		out = append(out, b.needs[lot]...)
	}
	if with != nil {
		out = append(out, with.needs[lot]...)
	}
	return out
}

// lacks returns the lots of which the set with another board would take too much.
func (s *search) lacks(b *board) (lots []int) {
	for i := range s.lots {
		if len(b.needs[i]) > 0 && !s.gives(i, s.items(i, b)) {
			lots = append(lots, i)
		}
	}
	return lots
}

// made returns how many products of each want some boards hold.
func (s *search) made(boards []*board) []int {
	out := make([]int, len(s.wants))
	for _, b := range boards {
		out[b.Want] += b.Copies()
	}
	return out
}

// A score is what sets are compared by.
type score struct {
	short int
	worth float64
	first float64
}

// better reports whether a is better than b.
func (a score) better(b score) bool {
	const same = 1e-9
	switch {
	case a.short != b.short:
		return a.short < b.short
	case math.Abs(a.worth-b.worth) > same*max(1, b.worth):
		return a.worth > b.worth
	default:
		return a.first > b.first+1e-6
	}
}

func (s *search) score(boards []*board) (out score) {
	for i, n := range s.made(boards) {
		out.short += max(0, s.wants[i].Least-n)
		out.worth += float64(float64(n) * s.wants[i].each) // rounded by itself on every processor
	}
	for _, b := range boards {
		out.first += b.first
	}
	return out
}

// Bounds of filling a set.
const (
	mostTries = 8   // panels drawn before a want is left aside
	dearer    = 1.8 // what a price is raised by where a lot lacks
)

// place draws a panel of a want that can be cut beside the set, and puts it there.
func (s *search) place(w *wanted, loose float64) bool {
	left := math.MaxInt
	if w.Most > 0 {
		left = w.Most - s.made(s.boards)[w.at]
	}
	most := min(w.Along.Most, left)
	if w.Along.Least > most {
		return false
	}
	price := s.prices(loose)
	for range mostTries {
		if s.ctx.Err() != nil {
			return false
		}
		along := w.Along.Least
		if along < most && s.dice.below(6) == 0 { // one alone takes least timber, but ready strips are long
			along += s.dice.below(most - along + 1)
		}
		b := s.draw(w, along, price)
		if b == nil {
			continue
		}
		lacks := s.lacks(b)
		if len(lacks) == 0 {
			s.boards = append(s.boards, b)
			return true
		}
		for _, i := range lacks {
			price[i] *= dearer
		}
	}
	return false
}

// fill puts panels into the set until none finds a place: first those that the least asks for,
// then what is worth most for its size, more or less.
func (s *search) fill(loose float64) {
	open := slices.Clone(s.wants)
	weight := make([]float64, len(s.wants))
	for i, w := range s.wants {
		weight[i] = w.each / w.VolumeDM3() * s.dice.about(loose)
	}
	for len(open) > 0 && s.ctx.Err() == nil {
		made := s.made(s.boards)
		at := 0
		for i, w := range open {
			wants, best := made[w.at] < w.Least, made[open[at].at] < open[at].Least
			if wants != best && wants || wants == best && weight[w.at] > weight[open[at].at] {
				at = i
			}
		}
		if !s.place(open[at], loose) {
			open = slices.Delete(open, at, at+1)
		}
	}
}

// shake takes panels out of the set, any or those of one lot: a few as a rule, at times many.
func (s *search) shake() {
	lot := -1
	if s.dice.below(2) == 0 && len(s.lots) > 0 {
		lot = s.dice.below(len(s.lots))
	}
	part := 0.1 + float64(0.4*s.dice.part())
	if s.dice.below(4) > 0 {
		part = min(0.5, (2+float64(3*s.dice.part()))/float64(max(1, len(s.boards))))
		if s.dice.below(2) == 0 {
			lot = -1
		}
	}
	var kept []*board
	for _, b := range s.boards {
		goes := s.dice.part() < part
		if lot >= 0 {
			goes = len(b.needs[lot]) > 0 && s.dice.part() < 0.8
		}
		if b.held || !goes {
			kept = append(kept, b)
		}
	}
	s.boards = kept
}

// run fills a set, and then takes panels out and draws others.
func (s *search) run() {
	s.hold()
	held := slices.Clone(s.boards)
	s.ceiling = s.newCeiling()
	s.fill(1)
	s.keep(true)
	for s.rounds = 1; s.rounds < s.opt.Rounds && s.asked+s.drawn < mostWork && s.ctx.Err() == nil && !s.done(); s.rounds++ {
		s.lower()
		before := slices.Clone(s.boards)
		was := s.score(before)
		loose := 1 + s.dice.part()
		if s.rounds%40 < 6 && s.rounds < 200 { // anew
			s.boards = slices.Clone(held)
			before = nil
		} else {
			s.shake()
		}
		s.fill(loose)
		now := s.score(s.boards)
		if s.keep(now.better(s.score(s.best))) || before == nil {
			if before == nil && s.rounds%40 == 5 {
				s.boards = slices.Clone(s.best)
			}
			continue
		}
		if now.short > was.short || now.worth < was.worth*(1-float64(0.02*s.dice.part()*s.dice.part())) {
			s.boards = before
		}
	}
}

// mostWork bounds how many panels are drawn and how often a lot is packed, together.
const mostWork = 150_000

// done reports whether nothing is to be gained.
func (s *search) done() bool {
	best := s.score(s.best)
	return best.short == 0 && best.worth >= s.ceiling.Worth()*(1-1e-9) && !slices.ContainsFunc(s.lots, func(l lot) bool { return l.first })
}

// keep keeps the set as the best.
func (s *search) keep(better bool) bool {
	if !better {
		return false
	}
	s.best = slices.Clone(s.boards)
	if s.opt.Tell != nil {
		s.opt.Tell(s.set(s.best))
	}
	return true
}

// hold puts the panels that stay into the set.
func (s *search) hold() {
	for _, p := range s.Hold {
		b := &board{Panel: p, needs: map[int][]item{}, held: true, worth: float64(p.Copies()) * s.wants[p.Want].each}
		b.lots = nil
		for i, strip := range p.Pattern.Strips {
			if i < len(p.lots) && p.lots[i] >= 0 && p.lots[i] < len(s.lots) && s.lots[p.lots[i]].species == strip.Species {
				b.lots = append(b.lots, p.lots[i]) // as it was drawn from this rack: its strip alone does not say whether it is use-first timber
				continue
			}
			b.lots = append(b.lots, slices.IndexFunc(s.lots, func(l lot) bool {
				return l.species == strip.Species && l.moisture == strip.Moisture && (l.rings == strip.Rings || l.rings.Rolled() == strip.Rings) && l.colour == strip.Colour
			}))
		}
		s.count(b)
		s.boards = append(s.boards, b)
	}
}
