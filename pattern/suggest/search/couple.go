package search

import (
	"slices"

	"example.com/oddments/pattern/suggest/stock"
)

// A couple is one strip each of two kinds of one class: in a symmetric layout they may
// lie at mirrored places, for the eye sees no difference between them. All strips of a
// kind that is in a couple are use-first ones, or none is (stock keeps them apart).
type couple struct{ left, right int }

// coupleOf returns the couple that a kind stands for; false where it stands for itself.
func (s *search) coupleOf(kind int) (couple, bool) {
	if kind < s.plain {
		return couple{kind, kind}, false
	}
	return s.couples[kind-s.plain], true
}

// addCouples adds a kind for each couple, behind all others. Its strips are counted two
// by two, and a step of a walk puts one couple.
//
// Without couples a proof for symmetric layouts would be none: a step puts two strips
// of one kind, so a layout with one kind at one place and another of its class at the
// mirrored place would not be looked at. With them every symmetric layout is a walk: at
// mirrored places lie two strips of one class, which are of one kind or are a couple. No
// walk has a couple in its middle, where one strip lies (run.endOdd). Which of the two
// lies left matters only where they may lie beside different kinds, or strips are
// pinned. What kinds may be taken of in several couples is a budget for each (coupled).
func (s *search) addCouples() {
	s.plain = s.matrix.n
	if !s.ask.Symmetric {
		return
	}
	for i := range s.plain {
		for j := range s.plain {
			a, b := &s.Kinds[i], &s.Kinds[j]
			if i == j || a.Class != b.Class || i > j && len(s.ask.Pinned) == 0 && s.matrix.alike(i, j) {
				continue
			}
			n, first := min(a.Count, b.Count), 0
			for _, k := range []*stock.Kind{a, b} {
				if k.First > 0 {
					first += n
				}
			}
			s.couples = append(s.couples, couple{i, j})
			s.Kinds = append(s.Kinds, stock.Kind{Strip: a.Strip, Class: a.Class, Timber: -1, Count: 2 * n, First: first, Given: a.Given || b.Given})
		}
	}
	s.matrix = s.matrix.coupled(s)
}

// coupled returns the budgets for a walk with couples. Where a couple's two strips take of
// two budgets, half of what both take stands for each of its strips; so budgets are
// counted double, and stay whole. Added is for each kind that there are not more of it
// than there are, whether by itself or in a couple.
func (s *search) coupled() []stock.Budget {
	if s.plain == len(s.Kinds) {
		return s.Budgets
	}
	double := func(takes func(kind int) int64, most int64) stock.Budget {
		b := stock.Budget{Takes: make([]int64, len(s.Kinds)), Most: 2 * most}
		for i := range s.Kinds {
			c, _ := s.coupleOf(i)
			b.Takes[i] = takes(c.left) + takes(c.right)
		}
		return b
	}
	var out []stock.Budget
	for _, b := range s.Budgets {
		out = append(out, double(func(kind int) int64 { return b.Takes[kind] }, b.Most))
	}
	for i, k := range s.Kinds[:s.plain] {
		if slices.ContainsFunc(s.couples, func(c couple) bool { return c.left == i || c.right == i }) {
			out = append(out, double(func(kind int) int64 {
				if kind == i {
					return 1
				}
				return 0
			}, int64(k.Count)))
		}
	}
	return out
}

// apartCounts returns how many strips of each kind counts come to, with the couples taken
// apart into their two kinds; out is written over and given back.
func (s *search) apartCounts(counts, out []uint16) []uint16 {
	copy(out, counts[:s.plain])
	for i := s.plain; i < len(counts); i++ {
		c := s.couples[i-s.plain]
		out[c.left] += counts[i] / 2
		out[c.right] += counts[i] / 2
	}
	return out
}
