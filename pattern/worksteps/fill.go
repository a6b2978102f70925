package worksteps

import (
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// A filling is strips for the rack that are ripped at one setting out of the slices of a set.
type filling struct {
	ripped, wide length.Length
	edge         bool
	count        int
}

// fillings lists those of a set, whose lengths are all filled alike.
func fillings(set stretch, sh shop.Shop) []filling {
	var of tell.Groups[filling, int]
	for _, sl := range set.sections[0].Slices {
		for _, w := range sl.Fill.Widths {
			f := filling{ripped: w + sh.Allowance.Jointing, wide: w, edge: sl.Fill.Edge}
			if f.edge {
				f.ripped = sl.Fill.Glued
			}
			of.Add(f, 1)
		}
	}
	var out []filling
	for f, all := range of.All() {
		f.count = len(all)
		out = append(out, f)
	}
	return out
}
