package search

import (
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

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
func capacity(sh shop.Shop, lots []lot, items []item, stop stopper) int64 {
	sum := int64(0)
	for _, l := range lots {
		if stop.stopped() {
			break
		}
		sum += l.sections * ofSection(sh, l.end, items)
	}
	return sum
}

// ofSection is capacity for one section: the better of the two ways to lay it.
func ofSection(sh shop.Shop, c end, items []item) int64 {
	if c.planed {
		var fit []item
		for _, i := range items {
			if i.needs.Least <= c.thickness {
				fit = append(fit, i)
			}
		}
		return ofSlice(sh, c.width, fit)
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
	for i, one := range items {
		alike := items[:0:0] // all of a slice are sawn as thick
		for j, other := range items {
			if other.needs.Sawn == one.needs.Sawn {
				if j < i {
					alike = nil
					break
				}
				alike = append(alike, other)
			}
		}
		if len(alike) > 0 {
			sizes, worths = append(sizes, one.needs.Sawn), append(worths, ofSlice(sh, through, alike))
		}
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
