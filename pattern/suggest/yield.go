package suggest

import (
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A mark tells timbers apart that must not stand in for one another in a plan.
type mark struct {
	species  string
	moisture float64
	first    bool // kept apart only where it counts
}

// name is what a plan's job calls the timber.
func (m mark) name() string { return fmt.Sprintf("%s at %v first %v", m.species, m.moisture, m.first) }

// yield gives the kinds of the widths asked for, ready or cut from pieces, and prepares
// the rack that plans take from. How many strips the pieces yield is reckoned as if
// every piece gave strips of that kind alone; budgets and plans do the rest.
func (s *search) yield() *kinds {
	ks := &kinds{}
	var widths []length.Length // each once
	for _, w := range s.ask.Widths {
		if !slices.Contains(widths, w) {
			widths = append(widths, w)
		}
	}
	ready := s.readyTimber()
	marked := slices.ContainsFunc(ready, func(r rack.Strip) bool { return r.UseFirst }) ||
		slices.ContainsFunc(s.ask.Rack.Pieces, func(p rack.Piece) bool { return p.UseFirst })
	s.settleAim(marked)
	for _, r := range ready {
		if slices.Contains(widths, r.Width) {
			at := s.timber(mark{r.Species, s.moisture(r.Moisture), r.UseFirst})
			t := pattern.Strip{Species: r.Species, Width: r.Width, Rings: r.Rings, Moisture: r.Moisture}
			k := ks.find(ks.class(s.ask.standOf(s.reckoner, t)), at, t)
			k.count += r.Quantity
			r.Species = s.timbers[at]
			s.rack.Strips = append(s.rack.Strips, r)
		}
	}
	for _, p := range s.ask.Rack.Pieces {
		at := s.timber(mark{p.Species, s.moisture(p.Moisture), p.UseFirst})
		for _, width := range widths {
			s.yieldOf(ks, p, width, at)
		}
		p.Species = s.timbers[at]
		s.rack.Pieces = append(s.rack.Pieces, p)
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

// readyTimber gives the ready strips as a rack has them; those named on the spot get
// ids that no other has.
func (s *search) readyTimber() []rack.Strip {
	if len(s.ask.Have) == 0 {
		return s.ask.serving(s.reckoner.Shop())
	}
	out := s.ask.named(s.reckoner.Shop())
	for i, h := range s.ask.Have {
		s.named[out[i].ID] = h.Source
	}
	return out
}

// named gives the ready strips named on the spot as a rack has them.
func (a Ask) named(sh shop.Shop) []rack.Strip {
	var out []rack.Strip
	for i, h := range a.Have {
		out = append(out, rack.Strip{ID: fmt.Sprintf("named %d", i+1), Species: h.Species, Width: h.Width, Rings: h.Rings,
			Moisture: h.Moisture, Thickness: sh.Glued(a.Thickness), Length: a.Length + sh.Allowance.Length,
			Quantity: h.Count, UseFirst: h.UseFirst})
	}
	return out
}

// serving gives the rack's ready strips that are long and thick enough.
func (a Ask) serving(sh shop.Shop) []rack.Strip {
	var out []rack.Strip
	for _, r := range a.Rack.Strips {
		if r.Thickness >= sh.Glued(a.Thickness) && r.Length >= a.Length+sh.Allowance.Length && r.Quantity > 0 {
			out = append(out, r)
		}
	}
	return out
}

// moisture gives what a reading comes to at glue-up.
func (s *search) moisture(r pattern.Reading) float64 {
	return s.reckoner.Moisture(pattern.Pattern{Panel: s.ask.panel()}, pattern.Strip{Moisture: r})
}

// timber gives the place of a timber among those that kinds are cut from.
func (s *search) timber(m mark) int {
	m.first = m.first && s.ask.Aim == UseUp
	name := m.name()
	at := slices.Index(s.timbers, name)
	if at < 0 {
		at = len(s.timbers)
		s.timbers, s.isFirst = append(s.timbers, name), append(s.isFirst, m.first)
	}
	return at
}

// yieldOf adds the strips of one width that piece p yields, as it lies and
// side-sliced.
func (s *search) yieldOf(ks *kinds, p rack.Piece, width length.Length, timber int) {
	sh := s.reckoner.Shop()
	n := s.needOf(p.Species, width)
	upright, side := int64(0), int64(0)
	for _, c := range p.Clear() {
		sections := fits(c.Length-2*sh.Allowance.EndTrim, n.Length, sh.Kerf.Crosscut)
		up, over := perSection(sh, c.Piece, n)
		copies := int64(sections) * int64(p.Quantity)
		upright, side = upright+copies*int64(up), side+copies*int64(over)
	}
	asLies := p.Rings
	if s.ask.Make == pattern.MakeEdge {
		asLies = asLies.Rolled()
	}
	add := func(rings pattern.Rings, count int64) {
		if count > 0 {
			t := pattern.Strip{Species: p.Species, Width: width, Rings: rings, Moisture: p.Moisture}
			ks.find(ks.class(s.ask.standOf(s.reckoner, t)), timber, t).count += int(min(count, pattern.MaxStrips))
		}
	}
	if asLies == asLies.Rolled() {
		add(asLies, max(upright, side))
		return
	}
	add(asLies, upright)
	add(asLies.Rolled(), side)
}

// needOf gives what one strip takes of the timber.
func (s *search) needOf(species string, width length.Length) cutting.Strip {
	p := pattern.Pattern{Panel: s.ask.panel(), Strips: []pattern.Strip{{Species: species, Width: width}}}
	return cutting.Needs(cutting.Job{Shop: s.reckoner.Shop(),
		Patterns: []cutting.Demand{{Stem: "one", Pattern: p, Copies: 1}}})[0]
}

// fits gives how many parts go into whole with a kerf between each two.
func fits(whole, part, kerf length.Length) int {
	if whole < part {
		return 0
	}
	return int((whole + kerf) / (part + kerf))
}

// perSection gives how many strips one section of c yields as it lies and side-sliced.
func perSection(sh shop.Shop, c rack.Piece, n cutting.Strip) (upright, side int) {
	if c.Planed {
		if n.Least > c.Thickness {
			return 0, 0
		}
		return fits(c.Width, n.Across, sh.Kerf.Rip), 0
	}
	way := func(through, thick length.Length) int {
		slices := fits(thick, n.Sawn, sh.Kerf.Resaw+sh.Allowance.Cleaning)
		if high := sh.Machine.BandsawHeight; high > 0 && through > high {
			slices = min(slices, 1)
		}
		return slices * fits(through, n.Across, sh.Kerf.Rip)
	}
	w, t := c.Width-sh.Allowance.Truing, c.Thickness-sh.Allowance.Truing
	return way(w, t), way(t, w)
}

// perMM2 is how many units of a budget a square millimetre of a section's end is.
const perMM2 = 1000

// setBudgets reckons what each timber's kinds may take together: the end of each
// strip with its kerfs, out of the ends of all sections and of the ready strips.
func (s *search) setBudgets(ks *kinds) {
	sh := s.reckoner.Shop()
	for at, name := range s.timbers {
		planed := slices.ContainsFunc(s.rack.Pieces, func(p rack.Piece) bool { return p.Species == name && p.Planed })
		rip, resaw := sh.Kerf.Rip, sh.Kerf.Resaw+sh.Allowance.Cleaning
		if planed {
			rip, resaw = 0, 0
		}
		takes := func(w length.Length) float64 {
			n := s.needOf("", w)
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
		for _, p := range s.rack.Pieces {
			if p.Species == name {
				most += s.ends(p, rip, resaw)
			}
		}
		for _, r := range s.rack.Strips {
			if r.Species == name {
				most += float64(r.Quantity) * takes(r.Width)
			}
		}
		b.most = int64(math.Ceil(most*(1+1e-9))) + 1
		s.budgets = append(s.budgets, b)
	}
}

// setCapacities adds what each timber's strips may come to together, in number and in
// width, which mixed widths seldom reach.
func (s *search) setCapacities(ks *kinds) {
	sh := s.reckoner.Shop()
	long := s.ask.Length + sh.Allowance.Length
	for at, name := range s.timbers {
		for _, weigh := range []func(length.Length) int64{
			func(length.Length) int64 { return 1 },
			func(w length.Length) int64 { return int64(w) / int64(length.Micrometre) },
		} {
			b := budget{takes: make([]int64, len(ks.list))}
			var items []item
			for i, k := range ks.list {
				if k.timber == at {
					b.takes[i] = weigh(k.strip.Width)
					items = append(items, item{s.needOf("", k.strip.Width), b.takes[i]})
				}
			}
			for _, p := range s.rack.Pieces {
				if p.Species == name {
					b.most += capacity(sh, p, long, items)
				}
			}
			for _, r := range s.rack.Strips {
				if r.Species == name {
					b.most += int64(r.Quantity) * weigh(r.Width)
				}
			}
			s.budgets = append(s.budgets, b)
		}
		width := s.budgets[len(s.budgets)-1].most // each strip's is rounded down
		s.wide = append(s.wide, length.Length(width+pattern.MaxStrips)*length.Micrometre)
	}
}

// ends gives the ends of all sections of p together, in units of a budget.
func (s *search) ends(p rack.Piece, rip, resaw length.Length) float64 {
	sh := s.reckoner.Shop()
	sum := 0.0
	for _, c := range p.Clear() {
		sections := fits(c.Length-2*sh.Allowance.EndTrim, s.ask.Length+sh.Allowance.Length, sh.Kerf.Crosscut)
		w, t := c.Width, c.Thickness
		if !c.Planed {
			w, t = w-sh.Allowance.Truing, t-sh.Allowance.Truing
		}
		if w <= 0 || t <= 0 {
			continue
		}
		end := max((w+rip).MM()*(t+resaw).MM(), (w+resaw).MM()*(t+rip).MM())
		sum += float64(sections) * float64(p.Quantity) * end * perMM2
	}
	return sum
}
