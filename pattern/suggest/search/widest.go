package search

import "example.com/oddments/pattern/length"

// A reach says whether a layout can be as wide as is asked for.
type reach int

const (
	reachUnknown reach = iota
	inReach            // as far as can be told with next to no work
	outOfReach
)

// tooWide reports whether no layout can be as wide as is asked for. It takes next to no
// work, so that what is far out of reach is known at once.
func (s *search) tooWide() bool {
	if s.width == reachUnknown {
		s.width = inReach
		if s.tooFew() || s.tooTight() {
			s.width = outOfReach
		}
	}
	return s.width == outOfReach
}

// tooFew reports whether the strips of no layout come to the width: they all hang
// together by kinds that may lie side by side, and those that do are too few. Each strip
// of a layout lies beside the next, so that all are of one part; and no layout has more
// of a kind than there is, nor more from a timber than its sections have room for.
func (s *search) tooFew() bool {
	least, _ := s.ask.Limits()
	for _, kinds := range s.hangs() {
		if s.widest(kinds) >= least {
			return false
		}
	}
	return true
}

// tooTight reports whether prices tell that there is no layout: where width, number,
// what there is and neighbours are weighed together. Each layout is worth 0 to the target
// that counts nothing, so where the bound of every walk is below 0 there is none.
func (s *search) tooTight() bool {
	for _, w := range s.problems {
		if w.k > relaxMost {
			return false
		}
		x := w.tightening(s.graphOf(s.contrasts[0]), target{}, infeasible, s.stop)
		if _, b := x.relax(); b == nil || b.all() >= 0 {
			return false
		}
	}
	return true
}

// hangs parts the kinds into those that hang together: no two of different parts may
// lie side by side. Couples count as kinds, and join nothing that their own kinds do not.
func (s *search) hangs() [][]int {
	part := make([]int, len(s.Kinds)) // of each kind, from 1
	var out [][]int
	for i := range s.Kinds {
		if part[i] > 0 {
			continue
		}
		part[i] = len(out) + 1
		kinds := []int{i}
		for at := 0; at < len(kinds); at++ {
			for j := range s.Kinds {
				if part[j] == 0 && s.beside(kinds[at], j) {
					part[j] = part[i]
					kinds = append(kinds, j)
				}
			}
		}
		out = append(out, kinds)
	}
	return out
}

// widest returns how wide the strips of such kinds are at most together.
func (s *search) widest(kinds []int) length.Length {
	sum := length.Length(0)
	cut := make([]length.Length, len(s.Timbers)) // from each timber
	for _, i := range kinds {
		k := &s.Kinds[i]
		if i >= s.plain {
			continue // its strips are counted as what they are
		}
		if all := length.Length(k.Count) * k.Strip.Width; k.Timber < 0 {
			sum += all
		} else {
			cut[k.Timber] += all
		}
	}
	for at, all := range cut {
		sum += min(all, s.Timbers[at].Widest)
	}
	return sum
}
