package stock

import (
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

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
func perSection(sh shop.Shop, c section, n cutting.Strip) (upright, side int) {
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

// setBudget computes what the kinds of a timber may take together: the end of each strip
// with its kerfs, out of the ends of all sections and of the ready strips.
//
// No plan takes more. In a slice strips and the kerfs between them take no more than
// the width and one kerf, in a section slices and the cuts between them no more than
// the thickness and one cut, so that the products add up to no more than that of both;
// the wider of the two ways to lay the section is counted. Where some of the timber is
// planed a strip takes the thinner of what it takes of either sort, and no kerf is
// counted. A ready strip serves one strip as wide, and brings what that takes. What is
// taken is rounded down, what there is rounded up.
func (s *Stock) setBudget(at int) {
	sh, t := s.physics.Shop(), s.Timbers[at]
	rip, resaw := sh.Kerf.Rip, sh.Kerf.Resaw+sh.Allowance.Cleaning
	planed := slices.ContainsFunc(t.lots, func(l lot) bool { return l.planed })
	if planed {
		rip, resaw = 0, 0
	}
	b := s.budget(at, func(w length.Length) int64 {
		n := s.need(w)
		thick := n.Sawn
		if planed {
			thick = min(thick, n.Least)
		}
		return int64(math.Floor((n.Across + rip).MM() * (thick + resaw).MM() * perMM2))
	})
	most := 0.0
	for _, l := range t.lots {
		most += float64(l.count) * area(sh, l.section, rip, resaw)
	}
	most /= float64(s.parting.per(0))
	b.Most = int64(math.Ceil((most+float64(b.Most))*(1+1e-9))) + 1
	s.Budgets = append(s.Budgets, b)
}

// budget returns the budget of a timber's kinds by what a strip of a width takes, with what
// its ready strips bring.
func (s *Stock) budget(at int, takes func(length.Length) int64) Budget {
	b := Budget{Takes: make([]int64, len(s.Kinds))}
	for i, k := range s.Kinds {
		if k.Timber == at {
			b.Takes[i] = takes(k.Strip.Width)
		}
	}
	for _, r := range s.Timbers[at].ready {
		b.Most += ceil(int64(r.Quantity)*takes(r.Width)*s.parting.ready(r, s.physics.Shop(), r.Width), s.parting.per(r.Width))
	}
	return b
}

// area returns the end of a section with a kerf each way, in units of a budget.
func area(sh shop.Shop, c section, rip, resaw length.Length) float64 {
	w, t := c.width, c.thickness
	if !c.planed {
		w, t = w-sh.Allowance.Truing, t-sh.Allowance.Truing
	}
	if w <= 0 || t <= 0 {
		return 0
	}
	return perMM2 * max((w+rip).MM()*(t+resaw).MM(), (w+resaw).MM()*(t+rip).MM())
}

// setCapacities adds what a timber's strips may come to together, in number and in width,
// which mixed widths seldom reach. No plan has more: capacity bounds what each section
// yields, and a ready strip serves one strip of its own width.
func (s *Stock) setCapacities(at int) {
	for _, weigh := range []func(length.Length) int64{
		func(length.Length) int64 { return 1 },
		func(w length.Length) int64 { return int64(w) / int64(length.Micrometre) },
	} {
		b := s.budget(at, weigh)
		var items []item
		for i, k := range s.Kinds {
			if k.Timber == at {
				items = append(items, item{s.need(k.Strip.Width), b.Takes[i]})
			}
		}
		b.Most += s.capacity(s.Timbers[at].lots, items)
		s.Budgets = append(s.Budgets, b)
	}
	width := s.Budgets[len(s.Budgets)-1].Most // each strip's is rounded down
	s.Timbers[at].Widest = length.Length(width+pattern.MaxStrips) * length.Micrometre
}

// An item is a strip of one width as a section gives it, with what it counts.
type item struct {
	needs cutting.Strip
	worth int64
}

// capacity returns what the strips of all sections are worth at most together, whatever
// widths are mixed and however sections are sliced. Rings are not looked at: a strip may
// come from either way of slicing, which can only make it more. Each level is filled by
// itself: a slice with the strips that are worth most, a section with the slices that
// are; since a section's slices do not depend on one another, no mix is worth more. Where
// the work is stopped on the way the result means nothing.
func (s *Stock) capacity(lots []lot, items []item) int64 {
	sum := int64(0)
	for _, l := range lots {
		if s.stop() {
			break
		}
		sum += l.count * ofSection(s.physics.Shop(), l.section, items)
	}
	return sum / s.parting.per(0)
}

// ofSection is capacity for one section: the better of the two ways to lay it.
func ofSection(sh shop.Shop, c section, items []item) int64 {
	if c.planed {
		return ofSlice(sh, c.width, slices.DeleteFunc(slices.Clone(items), func(i item) bool { return i.needs.Least > c.thickness }))
	}
	w, t := c.width-sh.Allowance.Truing, c.thickness-sh.Allowance.Truing
	return max(ofStack(sh, w, t, items), ofStack(sh, t, w, items))
}

// ofStack is capacity for a section that is sawn through so wide and is so thick. Strips of
// one slice are sawn as thick, so each thickness has its best slice, and slices fill the
// section; one wider than the bandsaw is high gives a single slice.
func ofStack(sh shop.Shop, through, thick length.Length, items []item) int64 {
	between := sh.Kerf.Resaw + sh.Allowance.Cleaning
	var sizes []length.Length
	var worths []int64
	for _, one := range items {
		if slices.Contains(sizes, one.needs.Sawn) {
			continue
		}
		alike := slices.DeleteFunc(slices.Clone(items), func(i item) bool { return i.needs.Sawn != one.needs.Sawn })
		sizes, worths = append(sizes, one.needs.Sawn), append(worths, ofSlice(sh, through, alike))
	}
	if high := sh.Machine.BandsawHeight; high > 0 && through > high {
		most := int64(0)
		for i, size := range sizes {
			if size <= thick {
				most = max(most, worths[i])
			}
		}
		return most
	}
	return fill(thick, between, sizes, worths)
}

// ofSlice is capacity for a slice so wide.
func ofSlice(sh shop.Shop, wide length.Length, items []item) int64 {
	var sizes []length.Length
	var worths []int64
	for _, i := range items {
		sizes, worths = append(sizes, i.needs.Across), append(worths, i.worth)
	}
	return fill(wide, sh.Kerf.Rip, sizes, worths)
}

// fillMost is how fine a whole is filled; a finer one is filled by what fits best alone.
const fillMost = 20_000

// fill returns the most that parts are worth that fit into whole with a kerf between each
// two, any number of each; or more, where sizes are too fine to say. With a kerf to each
// part, parts go into the whole and one kerf; all parts being multiples of the unit, what
// is left of the whole below one unit is of no use. Where there are too many units, no
// part brings more for its room than the best one does, and the whole room is paid at
// that, rounded up.
func fill(whole, kerf length.Length, sizes []length.Length, worths []int64) int64 {
	room := whole + kerf
	unit := int64(0)
	for _, size := range sizes {
		unit = gcd(unit, int64(size+kerf))
	}
	if room <= 0 || unit == 0 {
		return 0
	}
	cells := int64(room) / unit
	if cells > fillMost {
		most := 0.0
		for i, size := range sizes {
			if size <= whole {
				most = max(most, float64(worths[i])/float64(size+kerf))
			}
		}
		return int64(most*float64(room)*(1+1e-9)) + 1
	}
	best := make([]int64, cells+1)
	for cell := range best {
		for i, size := range sizes {
			if from := int64(cell) - int64(size+kerf)/unit; from >= 0 {
				best[cell] = max(best[cell], best[from]+worths[i])
			}
		}
	}
	return best[cells]
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
