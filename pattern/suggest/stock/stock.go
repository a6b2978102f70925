// Package stock says what there is to lay out: the strips that can be had by their kinds,
// ready or cut from pieces, how many of each there are at most, and what the kinds of one
// timber may come to together. No plan has more; that a rack yields so much is not said.
package stock

import (
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// A Stock is what there is for one request.
type Stock struct {
	Kinds   []Kind
	Classes []suggest.Kind
	Made    []suggest.Variety
	Timbers []Timber // what kinds are cut from; empty where only ready strips are laid out
	Budgets []Budget // what the kinds of one timber may take of it together
	Rack    rack.Rack
	First   map[string]bool // what of Rack is marked use first, by id
	Unseen  map[string]bool // whose rings nobody knows, by id

	request suggest.Request // its aim is not Auto
	physics movement.Physics
	stop    func() bool
	parting parting
	named   map[string]string // sources of ready strips named on the spot, by what Rack calls them
	needs   map[length.Length]cutting.Strip
}

// A Kind is strips that are alike, as far as they can be had.
type Kind struct {
	Strip  pattern.Strip // species, width, rings, and a reading that gives moisture
	Class  int           // kinds of one class are one kind to the eye
	Made   int           // kinds of one variety differ in their timber alone
	Timber int           // what it is cut from, its place among the timbers; below 0: nothing
	Count  int           // to be had
	First  int           // of these, ready ones or timber marked use first
	Given  bool          // only pinned, and not among those to be had

	sources []source      // of ready strips
	longest length.Length // that a strip of it, or a piece of one, may be
}

// A source is some ready strips of a kind.
type source struct {
	id    string
	count int
	first bool
}

// Hand returns the source of the nth ready strip of a kind, from 0: those to use first
// come first.
func (k *Kind) Hand(n int) (id string, first bool) {
	for _, first := range []bool{true, false} {
		for _, s := range k.sources {
			if s.first != first {
				continue
			}
			if n < s.count {
				return s.id, first
			}
			n -= s.count
		}
	}
	return "", false
}

// A Timber is what must not stand in for other timber in a plan: all of it is of one
// species and one moisture, and of one mark where marks count.
type Timber struct {
	Name   string        // what plans call it, as its species
	Widest length.Length // no strips from it are wider together

	species  string
	moisture float64
	first    bool // marked, where that counts
	lots     []lot
	laid     map[section]int // places of lots
	ready    []rack.Strip
}

// Species returns the species of a timber.
func (t Timber) Species() string { return t.species }

// First reports whether a timber is marked, where that counts.
func (t Timber) First() bool { return t.first }

// BudgetsOf returns the budgets of a timber: what its sections have room for by the end of
// strips with their kerfs, by their number, and by their width.
func (s *Stock) BudgetsOf(timber int) [3]Budget {
	n := len(s.Timbers)
	return [3]Budget{s.Budgets[timber], s.Budgets[n+2*timber], s.Budgets[n+2*timber+1]}
}

// A lot is sections that are alike for the saw, of pieces of one timber.
type lot struct {
	section
	count int64         // as a parting counts
	long  length.Length // the most that one may be
}

// A section is what tells sections apart.
type section struct {
	width, thickness length.Length
	planed           bool
	rings            pattern.Rings // of strips that are cut from it as it lies
}

// A Budget is what the kinds cut from one timber may take of it together.
type Budget struct {
	Takes []int64 // of each kind
	Most  int64
}

// Overdrawn reports whether counts of kinds take more than b has.
func (b Budget) Overdrawn(counts []uint16) bool {
	left := b.Most
	for kind, n := range counts {
		left -= int64(n) * b.Takes[kind]
	}
	return left < 0
}

// New returns what there is for a request whose aim is not Auto; nil where stop said so
// on the way.
func New(r movement.Physics, a suggest.Request, stop func() bool) *Stock {
	s := &Stock{request: a, physics: r, stop: stop, First: map[string]bool{}, Unseen: map[string]bool{}, named: map[string]string{}, needs: map[length.Length]cutting.Strip{}}
	s.part()
	if len(a.Widths) > 0 {
		s.yield()
	} else {
		s.gather()
	}
	if stop() {
		return nil // not all kinds are there
	}
	for _, p := range a.Pinned {
		s.pin(p.Strip)
	}
	for _, strips := range a.Unlike {
		for _, p := range strips {
			s.class(p.Strip())
		}
	}
	for at := range s.Timbers {
		s.setBudget(at)
	}
	for at := range s.Timbers {
		s.setCapacities(at)
	}
	if stop() {
		return nil
	}
	return s
}

// class returns the place of a strip's kind among the classes.
func (s *Stock) class(strip pattern.Strip) int {
	return place(&s.Classes, suggest.Kind{Species: strip.Species, Width: strip.Width})
}

// variety returns the place of a strip's variety among those there are.
func (s *Stock) variety(strip pattern.Strip) int {
	return place(&s.Made, s.request.VarietyOf(s.physics, strip))
}

// place returns where v is in list, which it joins where it is not there yet.
func place[T comparable](list *[]T, v T) int {
	i := slices.Index(*list, v)
	if i < 0 {
		i = len(*list)
		*list = append(*list, v)
	}
	return i
}

// kind returns the kind of a strip that is cut from a timber, and makes it where there is
// none yet.
func (s *Stock) kind(strip pattern.Strip, timber int) *Kind {
	made := s.variety(strip)
	i := slices.IndexFunc(s.Kinds, func(k Kind) bool { return k.Made == made && k.Timber == timber })
	if i < 0 {
		i = len(s.Kinds)
		plain := pattern.Strip{Species: strip.Species, Width: strip.Width, Rings: strip.Rings, Moisture: strip.Moisture}
		s.Kinds = append(s.Kinds, Kind{Strip: plain, Class: s.class(strip), Made: made, Timber: timber})
	}
	return &s.Kinds[i]
}

// pin adds the kind of a pinned strip that cannot be had.
func (s *Stock) pin(strip pattern.Strip) {
	made := s.variety(strip)
	if slices.ContainsFunc(s.Kinds, func(k Kind) bool { return k.Made == made && !k.Given }) {
		return
	}
	k := s.kind(strip, -1)
	k.Given = true
	k.Count += 2 // its mirror image is given too
}

// lying returns the ready strips as a rack has them; those named on the spot get ids that
// no other has.
func (s *Stock) lying() []rack.Strip {
	if len(s.request.Have) == 0 {
		return s.request.Serving(s.physics.Shop())
	}
	out := s.request.NamedStrips(s.physics.Shop())
	for i, h := range s.request.Have {
		s.named[out[i].ID] = h.Source
	}
	return out
}

// Source returns what the maker calls something on Rack.
func (s *Stock) Source(id string) string {
	if source, ok := s.named[id]; ok {
		return source
	}
	return id
}

func stripOf(r rack.Strip) pattern.Strip {
	return pattern.Strip{Species: r.Species, Width: r.Width, Rings: r.Rings, Moisture: r.Moisture}
}

// apart is the Timber of ready strips marked use first where kinds are told apart by marks:
// of two strips at mirrored places one may be marked.
const apart = -2

// gather makes the kinds of the ready strips; where the work is stopped on the way, some
// of them.
func (s *Stock) gather() {
	for _, r := range s.lying() {
		if s.stop() {
			return
		}
		timber := -1
		if r.UseFirst && s.request.Symmetric && s.request.Aim == suggest.UseUp {
			timber = apart
		}
		k := s.kind(stripOf(r), timber)
		k.Count += r.Quantity
		if r.UseFirst {
			k.First += r.Quantity
		}
		k.sources = append(k.sources, source{s.Source(r.ID), r.Quantity, r.UseFirst})
	}
}

// yield makes the kinds of the widths asked for, ready or cut from pieces, and prepares the
// rack that plans take from. A kind there is where something gives one strip of it. Where
// the work is stopped on the way, what it made means nothing.
func (s *Stock) yield() {
	for _, r := range s.lying() {
		if s.stop() {
			return
		}
		if slices.Contains(s.request.Widths, r.Width) {
			at := s.timber(r.Species, r.Moisture, r.UseFirst)
			s.kind(stripOf(r), at)
			s.First[r.ID], s.Unseen[r.ID] = r.UseFirst, !r.Rings.Known()
			t := &s.Timbers[at]
			r.Species = t.Name
			t.ready, s.Rack.Strips = append(t.ready, r), append(s.Rack.Strips, r)
		}
	}
	for _, p := range s.request.Rack.Pieces {
		if s.stop() {
			return
		}
		at := s.timber(p.Species, p.Moisture, p.UseFirst)
		lots := s.sections(p)
		for _, width := range s.request.Widths {
			s.kindsOf(p, lots, width, at)
		}
		s.Timbers[at].lay(lots)
		p.Species = s.Timbers[at].Name
		s.Rack.Pieces = append(s.Rack.Pieces, p)
	}
	s.otherMarks()
	for i := range s.Kinds {
		k := &s.Kinds[i]
		if s.count(k); s.Timbers[k.Timber].first {
			k.First = k.Count
		}
	}
	s.Kinds = slices.DeleteFunc(s.Kinds, func(k Kind) bool { return k.Count == 0 })
}

// timber returns the place of a timber among those that kinds are cut from.
func (s *Stock) timber(species string, m pattern.Reading, first bool) int {
	first = first && s.request.Aim == suggest.UseUp
	moisture := s.physics.Moisture(pattern.Pattern{Panel: s.request.Panel()}, pattern.Strip{Moisture: m})
	at := slices.IndexFunc(s.Timbers, func(t Timber) bool { return t.species == species && t.moisture == moisture && t.first == first })
	if at < 0 {
		at = len(s.Timbers)
		s.Timbers = append(s.Timbers, Timber{Name: fmt.Sprintf("%s at %v first %v", species, moisture, first),
			species: species, moisture: moisture, first: first, laid: map[section]int{}})
	}
	return at
}

// otherMarks adds for each kind the one of its class from timber of the other mark: that
// may have no strip whose rings are the same, and yet some that plans take for it. So
// the same layouts can be had whether or not marks count.
func (s *Stock) otherMarks() {
	for _, k := range s.Kinds {
		own := s.Timbers[k.Timber]
		for at, t := range s.Timbers {
			if at != k.Timber && t.species == own.species && t.moisture == own.moisture {
				s.kind(k.Strip, at)
			}
		}
	}
}

// sections returns those that are crosscut from p, of each of its clear rectangles, and
// keeps its mark in mind.
func (s *Stock) sections(p rack.Piece) []lot {
	sh := s.physics.Shop()
	rings := p.Rings
	if s.request.Make == pattern.MakeEdge {
		rings = rings.Rolled()
	}
	var lots []lot
	for _, c := range p.Clear() {
		if p.UseFirst {
			s.First[c.ID] = true
		}
		if !p.Rings.Known() {
			s.Unseen[c.ID] = true
		}
		long := c.Length - 2*sh.Allowance.EndTrim
		if n := s.parting.count(long, sh); n > 0 {
			lots = append(lots, lot{section{c.Width, c.Thickness, c.Planed, rings}, n * int64(p.Quantity), long})
		}
	}
	return lots
}

// lay adds lots to those of a timber.
func (t *Timber) lay(lots []lot) {
	for _, l := range lots {
		at, there := t.laid[l.section]
		if !there {
			at = len(t.lots)
			t.laid[l.section] = at
			t.lots = append(t.lots, lot{section: l.section})
		}
		t.lots[at].count += l.count
		t.lots[at].long = max(t.lots[at].long, l.long)
	}
}

// kindsOf adds the kinds of one width that the lots of piece p yield a strip of, as it
// lies and side-sliced.
func (s *Stock) kindsOf(p rack.Piece, lots []lot, width length.Length, timber int) {
	if len(lots) == 0 {
		return
	}
	sh, n := s.physics.Shop(), s.need(width)
	upright, side := false, false
	for _, l := range lots {
		up, over := perSection(sh, l.section, n)
		upright, side = upright || up > 0, side || over > 0
	}
	add := func(rings pattern.Rings) {
		s.kind(pattern.Strip{Species: p.Species, Width: width, Rings: rings, Moisture: p.Moisture}, timber)
	}
	lies := lots[0].rings
	if upright || side && lies == lies.Rolled() {
		add(lies)
	}
	if side && lies != lies.Rolled() {
		add(lies.Rolled())
	}
}

// count sets how many strips of a kind there are to be had at most: ready ones, and
// those of every section that may serve, whichever of the two ways to slice it that
// serves yields more. No plan has more of them: each section lies one way and gives no
// more strips than that way has room for, mixed or not; and plans take timber for a
// strip by the same rule (serves), which lets strips with rings that nobody knows come
// from any timber, and others from timber whose rings are near enough. So timber counts
// for several kinds here; that they share it is left to budgets and to plans.
func (s *Stock) count(k *Kind) {
	sh, n, t := s.physics.Shop(), s.need(k.Strip.Width), s.Timbers[k.Timber]
	all := int64(0)
	for _, r := range t.ready {
		if r.Width == k.Strip.Width && serves(r.Rings, k.Strip.Rings) {
			all += int64(r.Quantity) * s.parting.ready(r, sh, r.Width)
			k.longest = max(k.longest, r.Length)
		}
	}
	for _, l := range t.lots {
		if s.stop() {
			return
		}
		up, over := perSection(sh, l.section, n)
		if !serves(l.rings, k.Strip.Rings) {
			up = 0
		}
		if !serves(l.rings.Rolled(), k.Strip.Rings) {
			over = 0
		}
		if all += l.count * int64(max(up, over)); max(up, over) > 0 {
			k.longest = max(k.longest, l.long)
		}
	}
	k.Count = int(min(all/s.parting.per(k.Strip.Width), pattern.MaxStrips)) // no layout has more
}

// ringsWithin is how far, in degrees, rings may lie from those asked for, as package
// cutting has it.
const ringsWithin = 15

// serves reports whether plans take timber that shows rings where asked is asked for.
func serves(rings, asked pattern.Rings) bool {
	return !asked.Known() || !rings.Known() || math.Abs(rings.Degrees()-asked.Degrees()) <= ringsWithin
}

// need returns what one strip takes of the timber, of whatever species.
func (s *Stock) need(width length.Length) cutting.Strip {
	n, there := s.needs[width]
	if !there {
		p := pattern.Pattern{Panel: s.request.Panel(), Strips: []pattern.Strip{{Width: width}}}
		n = cutting.Needs(cutting.Job{Shop: s.physics.Shop(),
			Patterns: []cutting.Demand{{Stem: "one", Pattern: p, Copies: 1}}})[0]
		s.needs[width] = n
	}
	return n
}
