package search

// A couple is one strip each of two kinds of one class: in a symmetric layout they may
// lie at mirrored places, for the maker sees no difference between them. Kinds of one
// class differ in their timber alone, of which one is marked use first and the other is
// not (yield tells timbers apart by species, moisture and mark, and the first two
// belong to the class); so there are two of them at most, and exactly one strip of a
// couple is a use-first one.
type couple struct{ left, right int }

// addCouples adds a kind for each couple, behind all others. Its strips are counted two
// by two, and a step of a walk puts one couple.
//
// Without couples a proof for symmetric layouts would be none: a step puts two strips
// of one kind, so a layout with a marked strip at one place and one like it, without a
// mark, at the mirrored place would not be looked at. With them every symmetric layout
// is a walk: at mirrored places lie two strips of one class, which are of one kind or
// are a couple. No walk has a couple in its middle, where one strip lies (walk.single).
// What the two kinds may be taken of together is a budget for each (coupled).
func (s *search) addCouples() {
	s.plain = len(s.kinds)
	if !s.ask.Symmetric {
		return
	}
	for i := range s.plain {
		for j := i + 1; j < s.plain; j++ {
			a, b := &s.kinds[i], &s.kinds[j]
			if a.class != b.class {
				continue
			}
			n := min(a.count, b.count)
			s.kinds = append(s.kinds, kind{strip: a.strip, moisture: a.moisture, class: a.class, timber: -1,
				count: 2 * n, first: n, couple: &couple{i, j}})
		}
	}
}

// coupled returns the budgets for a walk with couples. Where a couple's two strips take of
// two budgets, half of what both take stands for each of its strips; so budgets are
// counted double, and stay whole. Added is for each kind that there are not more of it
// than there are, whether by itself or in a couple.
func (s *search) coupled() []budget {
	if s.plain == len(s.kinds) {
		return s.budgets
	}
	var out []budget
	for _, b := range s.budgets {
		double := budget{takes: make([]int64, len(s.kinds)), most: 2 * b.most}
		for i := range s.kinds {
			if c := s.kinds[i].couple; c != nil {
				double.takes[i] = b.takes[c.left] + b.takes[c.right]
			} else {
				double.takes[i] = 2 * b.takes[i]
			}
		}
		out = append(out, double)
	}
	for i := range s.plain {
		own := budget{takes: make([]int64, len(s.kinds)), most: 2 * int64(s.kinds[i].count)}
		own.takes[i] = 2
		shared := false
		for j, k := range s.kinds[s.plain:] {
			if k.couple.left == i || k.couple.right == i {
				own.takes[s.plain+j], shared = 1, true
			}
		}
		if shared {
			out = append(out, own)
		}
	}
	return out
}

// apartCounts returns how many strips of each kind counts come to, with the couples taken
// apart into their two kinds; out is written over and given back.
func (s *search) apartCounts(counts, out []uint16) []uint16 {
	copy(out, counts[:s.plain])
	for i := s.plain; i < len(counts); i++ {
		c := s.kinds[i].couple
		out[c.left] += counts[i] / 2
		out[c.right] += counts[i] / 2
	}
	return out
}
