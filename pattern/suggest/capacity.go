package suggest

import (
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// An item is a strip of one width as a section gives it, with what it counts.
type item struct {
	needs cutting.Strip
	worth int64
}

// capacity gives what the strips of all sections of p are worth at most together,
// whatever widths are mixed and however sections are sliced. Rings are not looked at:
// a strip may come from either way of slicing.
func capacity(sh shop.Shop, p rack.Piece, long length.Length, items []item) int64 {
	sum := int64(0)
	for _, c := range p.Clear() {
		sections := fits(c.Length-2*sh.Allowance.EndTrim, long, sh.Kerf.Crosscut)
		sum += int64(sections) * int64(p.Quantity) * ofSection(sh, c.Piece, items)
	}
	return sum
}

// ofSection is capacity for one section of c.
func ofSection(sh shop.Shop, c rack.Piece, items []item) int64 {
	if c.Planed {
		var fit []item
		for _, i := range items {
			if i.needs.Least <= c.Thickness {
				fit = append(fit, i)
			}
		}
		return ofSlice(sh, c.Width, fit)
	}
	w, t := c.Width-sh.Allowance.Truing, c.Thickness-sh.Allowance.Truing
	return max(ofStack(sh, w, t, items), ofStack(sh, t, w, items))
}

// ofStack is capacity for a section that is sawn through so wide and is so thick.
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

// fill gives the most that parts are worth that fit into whole with a kerf between each
// two, any number of each; or more, where sizes are too fine to say.
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
