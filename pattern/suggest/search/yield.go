package search

import (
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
)

// A mark tells timbers apart that must not stand in for one another in a plan.
type mark struct {
	species  string
	moisture float64
	first    bool // kept apart only where it counts
}

// name is what a plan's job calls the timber.
func (m mark) name() string { return fmt.Sprintf("%s at %v first %v", m.species, m.moisture, m.first) }

// A lot is sections that are alike for the saw, of pieces of one timber.
type lot struct {
	end
	sections int64
}

// An end is what tells sections apart.
type end struct {
	width, thickness length.Length
	planed           bool
	rings            pattern.Rings // of strips that are cut from it as it lies
}

// yield returns the kinds of the widths asked for, ready or cut from pieces, and prepares
// the rack that plans take from. A kind there is where something gives one strip of it.
// Where the work is stopped on the way, what it gives means nothing.
func (s *search) yield() *kinds {
	ks := &kinds{}
	var widths []length.Length // each once
	for _, w := range s.ask.Widths {
		if !slices.Contains(widths, w) {
			widths = append(widths, w)
		}
	}
	ready := s.readyTimber()
	for _, r := range ready {
		if s.stop.stopped() {
			return ks
		}
		if slices.Contains(widths, r.Width) {
			at := s.timber(mark{r.Species, s.moisture(r.Moisture), r.UseFirst})
			t := pattern.Strip{Species: r.Species, Width: r.Width, Rings: r.Rings, Moisture: r.Moisture}
			ks.find(ks.class(s.ask.KindOf(s.physics, t)), at, t)
			r.Species = s.timbers[at]
			s.rack.Strips = append(s.rack.Strips, r)
			s.ready[at] = append(s.ready[at], r)
		}
	}
	for _, p := range s.ask.Rack.Pieces {
		if s.stop.stopped() {
			return ks
		}
		at := s.timber(mark{p.Species, s.moisture(p.Moisture), p.UseFirst})
		lots := s.sections(p)
		for _, width := range widths {
			s.kindsOf(ks, p, lots, width, at)
		}
		s.lay(at, lots)
		p.Species = s.timbers[at]
		s.rack.Pieces = append(s.rack.Pieces, p)
	}
	s.otherMarks(ks)
	for i := range ks.list {
		s.count(&ks.list[i])
	}
	ks.list = slices.DeleteFunc(ks.list, func(k kind) bool { return k.count == 0 })
	for i := range ks.list {
		if k := &ks.list[i]; s.isFirst[k.timber] {
			k.first = k.count
		}
	}
	s.setBudgets(ks)
	s.setCapacities(ks)
	return ks
}

// readyTimber returns the ready strips as a rack has them; those named on the spot get
// ids that no other has.
func (s *search) readyTimber() []rack.Strip {
	if len(s.ask.Have) == 0 {
		return s.ask.Serving(s.physics.Shop())
	}
	out := s.ask.NamedStrips(s.physics.Shop())
	for i, h := range s.ask.Have {
		s.named[out[i].ID] = h.Source
	}
	return out
}

// moisture returns what a reading comes to at glue-up.
func (s *search) moisture(r pattern.Reading) float64 {
	return s.physics.Moisture(pattern.Pattern{Panel: s.ask.Panel()}, pattern.Strip{Moisture: r})
}

// timber returns the place of a timber among those that kinds are cut from.
func (s *search) timber(m mark) int {
	m.first = m.first && s.ask.Aim == suggest.UseUp
	name := m.name()
	at := slices.Index(s.timbers, name)
	if at < 0 {
		at = len(s.timbers)
		s.timbers, s.isFirst = append(s.timbers, name), append(s.isFirst, m.first)
		s.ready, s.lots, s.marked = append(s.ready, nil), append(s.lots, nil), append(s.marked, m)
	}
	return at
}

// otherMarks adds for each kind the one of its class from timber of the other mark: that
// may have no strip whose rings are the same, and yet some that plans take for it. So
// the same layouts can be had whether or not marks count.
func (s *search) otherMarks(ks *kinds) {
	for i := range ks.list {
		k := ks.list[i]
		for at, m := range s.marked {
			if at != k.timber && m.species == k.strip.Species && m.moisture == k.moisture {
				ks.find(k.class, at, k.strip)
			}
		}
	}
}

// sections returns those that are crosscut from p, of each of its clear rectangles.
func (s *search) sections(p rack.Piece) []lot {
	sh := s.physics.Shop()
	rings := p.Rings
	if s.ask.Make == pattern.MakeEdge {
		rings = rings.Rolled()
	}
	var lots []lot
	for _, c := range p.Clear() {
		n := fits(c.Length-2*sh.Allowance.EndTrim, s.ask.Length+sh.Allowance.Length, sh.Kerf.Crosscut)
		if n > 0 {
			lots = append(lots, lot{end{c.Width, c.Thickness, c.Planed, rings}, int64(n) * int64(p.Quantity)})
		}
	}
	return lots
}

// lay adds lots to those of a timber.
func (s *search) lay(timber int, lots []lot) {
	for _, l := range lots {
		key := stack{timber, l.end}
		at, there := s.laid[key]
		if !there {
			at = len(s.lots[timber])
			s.laid[key] = at
			s.lots[timber] = append(s.lots[timber], lot{end: l.end})
		}
		s.lots[timber][at].sections += l.sections
	}
}

// A stack is the alike sections of a timber.
type stack struct {
	timber int
	end
}

// kindsOf adds the kinds of one width that the lots of piece p yield a strip of, as it
// lies and side-sliced.
func (s *search) kindsOf(ks *kinds, p rack.Piece, lots []lot, width length.Length, timber int) {
	sh, n := s.physics.Shop(), s.needOf(width)
	upright, side := false, false
	for _, l := range lots {
		up, over := perSection(sh, l.end, n)
		upright, side = upright || up > 0, side || over > 0
	}
	add := func(rings pattern.Rings) {
		t := pattern.Strip{Species: p.Species, Width: width, Rings: rings, Moisture: p.Moisture}
		ks.find(ks.class(s.ask.KindOf(s.physics, t)), timber, t)
	}
	if len(lots) == 0 {
		return
	}
	asLies := lots[0].rings
	if upright || side && asLies == asLies.Rolled() {
		add(asLies)
	}
	if side && asLies != asLies.Rolled() {
		add(asLies.Rolled())
	}
}

// count sets how many strips of a kind there are to be had at most: ready ones, and
// those of every section that may serve, whichever of the two ways to slice it that
// serves yields more. No plan has more of them: each section lies one way and gives no
// more strips than that way has room for, mixed or not; and plans take timber for a
// strip by the same rule (serves), which lets strips with rings that nobody knows come
// from any timber, and others from timber whose rings are near enough. So timber counts
// for several kinds here; that they share it is left to budgets and to plans.
func (s *search) count(k *kind) {
	sh, n := s.physics.Shop(), s.needOf(k.strip.Width)
	all := int64(0)
	for _, r := range s.ready[k.timber] {
		if r.Width == k.strip.Width && serves(r.Rings, k.strip.Rings) {
			all += int64(r.Quantity)
		}
	}
	for _, l := range s.lots[k.timber] {
		if s.stop.stopped() {
			return
		}
		up, over := perSection(sh, l.end, n)
		if !serves(l.rings, k.strip.Rings) {
			up = 0
		}
		if !serves(l.rings.Rolled(), k.strip.Rings) {
			over = 0
		}
		all += l.sections * int64(max(up, over))
	}
	k.count = int(min(all, pattern.MaxStrips)) // no layout has more
}

// ringsWithin is how far, in degrees, rings may lie from those asked for, as package
// cutting has it.
const ringsWithin = 15

// serves reports whether plans take timber that shows rings where asked is asked for.
func serves(rings, asked pattern.Rings) bool {
	return !asked.Known() || rings.Known() && math.Abs(rings.Degrees()-asked.Degrees()) <= ringsWithin
}

// needOf returns what one strip takes of the timber, of whatever species.
func (s *search) needOf(width length.Length) cutting.Strip {
	n, there := s.needs[width]
	if !there {
		p := pattern.Pattern{Panel: s.ask.Panel(), Strips: []pattern.Strip{{Width: width}}}
		n = cutting.Needs(cutting.Job{Shop: s.physics.Shop(),
			Patterns: []cutting.Demand{{Stem: "one", Pattern: p, Copies: 1}}})[0]
		s.needs[width] = n
	}
	return n
}

// fits returns how many parts go into whole with a kerf between each two.
func fits(whole, part, kerf length.Length) int {
	if whole < part {
		return 0
	}
	return int((whole + kerf) / (part + kerf))
}

// perSection returns how many strips of one kind a section yields as it lies and
// side-sliced: slices times strips of a slice, which no mix of them exceeds. A planed
// one is not resawn, and one wider than the bandsaw is high gives one slice.
func perSection(sh shop.Shop, c end, n cutting.Strip) (upright, side int) {
	if c.planed {
		if n.Least > c.thickness {
			return 0, 0
		}
		return fits(c.width, n.Across, sh.Kerf.Rip), 0
	}
	way := func(through, thick length.Length) int {
		slices := fits(thick, n.Sawn, sh.Kerf.Resaw+sh.Allowance.Cleaning)
		if high := sh.Machine.BandsawHeight; high > 0 && through > high {
			slices = min(slices, 1)
		}
		return slices * fits(through, n.Across, sh.Kerf.Rip)
	}
	w, t := c.width-sh.Allowance.Truing, c.thickness-sh.Allowance.Truing
	return way(w, t), way(t, w)
}

// perMM2 is how many units of a budget a square millimetre of a section's end is.
const perMM2 = 1000

// setBudgets computes what each timber's kinds may take together: the end of each
// strip with its kerfs, out of the ends of all sections and of the ready strips.
//
// No plan takes more. In a slice strips and the kerfs between them take no more than
// the width and one kerf, in a section slices and the cuts between them no more than
// the thickness and one cut, so that the products add up to no more than that of both;
// the wider of the two ways to lay the section is counted. Where some of the timber is
// planed a strip takes the thinner of what it takes of either sort, and no kerf is
// counted. A ready strip serves one strip as wide, and brings what that takes. What is
// taken is rounded down, what there is rounded up.
func (s *search) setBudgets(ks *kinds) {
	sh := s.physics.Shop()
	for at := range s.timbers {
		planed := slices.ContainsFunc(s.lots[at], func(l lot) bool { return l.planed })
		rip, resaw := sh.Kerf.Rip, sh.Kerf.Resaw+sh.Allowance.Cleaning
		if planed {
			rip, resaw = 0, 0
		}
		takes := func(w length.Length) float64 {
			n := s.needOf(w)
			thick := n.Sawn
			if planed {
				thick = min(thick, n.Least)
			}
			return math.Floor((n.Across + rip).MM() * (thick + resaw).MM() * perMM2)
		}
		b := budget{takes: make([]int64, len(ks.list))}
		most := 0.0
		for i, k := range ks.list {
			if k.timber == at {
				b.takes[i] = int64(takes(k.strip.Width))
			}
		}
		for _, l := range s.lots[at] {
			most += float64(l.sections) * area(sh, l.end, rip, resaw)
		}
		for _, r := range s.ready[at] {
			most += float64(r.Quantity) * takes(r.Width)
		}
		b.most = int64(math.Ceil(most*(1+1e-9))) + 1
		s.budgets = append(s.budgets, b)
	}
}

// area returns the end of a section with a kerf each way, in units of a budget.
func area(sh shop.Shop, c end, rip, resaw length.Length) float64 {
	w, t := c.width, c.thickness
	if !c.planed {
		w, t = w-sh.Allowance.Truing, t-sh.Allowance.Truing
	}
	if w <= 0 || t <= 0 {
		return 0
	}
	return perMM2 * max((w+rip).MM()*(t+resaw).MM(), (w+resaw).MM()*(t+rip).MM())
}

// setCapacities adds what each timber's strips may come to together, in number and in
// width, which mixed widths seldom reach. No plan has more: capacity bounds what each
// section yields, and a ready strip serves one strip of its own width.
func (s *search) setCapacities(ks *kinds) {
	for at := range s.timbers {
		for _, weigh := range []func(length.Length) int64{
			func(length.Length) int64 { return 1 },
			func(w length.Length) int64 { return int64(w) / int64(length.Micrometre) },
		} {
			b := budget{takes: make([]int64, len(ks.list))}
			var items []item
			for i, k := range ks.list {
				if k.timber == at {
					b.takes[i] = weigh(k.strip.Width)
					items = append(items, item{s.needOf(k.strip.Width), b.takes[i]})
				}
			}
			b.most = capacity(s.physics.Shop(), s.lots[at], items, s.stop)
			for _, r := range s.ready[at] {
				b.most += int64(r.Quantity) * weigh(r.Width)
			}
			s.budgets = append(s.budgets, b)
		}
		width := s.budgets[len(s.budgets)-1].most // each strip's is rounded down
		s.wide = append(s.wide, length.Length(width+pattern.MaxStrips)*length.Micrometre)
	}
}
