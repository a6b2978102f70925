package solve

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
)

// ringsWithin is how far, in degrees, rings may lie from those asked for.
const ringsWithin = 15

// shows reports whether timber recorded as showing rings may serve where asked is
// asked for. Rings are a wish, so timber that nobody has looked at serves any strip.
func shows(rings, asked pattern.Rings) bool {
	if !asked.Known() || !rings.Known() {
		return true
	}
	apart := rings.Degrees() - asked.Degrees()
	return -ringsWithin <= apart && apart <= ringsWithin
}

// A kind is a set of strips that are alike for the saw and for ready strips.
type kind struct {
	cutting.Strip       // what they share; its Ref is the first one's
	needs         []int // places in the list of needs, ascending
}

// sortKinds gathers alike strips, the longest first.
func sortKinds(needs []cutting.Strip, places []int) []kind {
	type key struct {
		make                 pattern.Make
		width, glued, length length.Length
		rings                pattern.Rings
	}
	at := map[key]int{}
	var kinds []kind
	for _, place := range places {
		n := needs[place]
		k := key{n.Make, n.Width, n.Glued, n.Length, n.Rings}
		i, ok := at[k]
		if !ok {
			i = len(kinds)
			at[k] = i
			kinds = append(kinds, kind{Strip: n})
		}
		kinds[i].needs = append(kinds[i].needs, place)
	}
	slices.SortStableFunc(kinds, func(a, b kind) int {
		return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(b.Across, a.Across), cmp.Compare(b.Sawn, a.Sawn))
	})
	return kinds
}
