package suggest

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// usualMost is how many widths UsualWidths takes from a pattern: each more makes the
// search a good deal longer.
const usualMost = 3

// UsualWidths returns the widths that strips are likely to be wanted in, where the maker
// names none: the standing ones, where the workshop has some, and those of p's pinned
// strips. Else they are those that most strips of p have, the earlier ones first where
// as many do, three at most, and those of its pinned strips; without strips those of
// the rack's ready ones, three at most, and what some piece is large enough for of 20, 25, 30
// and 40 mm, or in inches of 3/4, 1, 1 1/4 and 1 1/2 (common practice, no source).
func UsualWidths(p pattern.Pattern, r rack.Rack, standing shop.Standing, u length.Unit) []length.Length {
	if out := standing.Widths(); len(out) > 0 {
		return withPinned(out, p)
	}
	type use struct {
		width  length.Length
		strips int
	}
	var uses []use
	add := func(w length.Length, strips int) {
		i := slices.IndexFunc(uses, func(u use) bool { return u.width == w })
		if i < 0 {
			i = len(uses)
			uses = append(uses, use{width: w})
		}
		uses[i].strips += strips
	}
	for _, s := range p.Strips {
		add(s.Width, 1)
	}
	bare := len(uses) == 0
	if bare {
		for _, s := range r.Strips {
			add(s.Width, s.Quantity)
		}
	}
	slices.SortStableFunc(uses, func(a, b use) int { return cmp.Compare(b.strips, a.strips) })
	var out []length.Length
	for _, u := range uses[:min(usualMost, len(uses))] {
		out = append(out, u.width)
	}
	for _, w := range common(p, r, u) {
		if bare && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return withPinned(out, p)
}

// common returns the widths of common practice that some piece of the rack is wide enough
// for, or where strips are made on edge thick enough; all of them where none is.
func common(p pattern.Pattern, r rack.Rack, u length.Unit) []length.Length {
	const mm, inch = length.Millimetre, length.Inch
	all := []length.Length{20 * mm, 25 * mm, 30 * mm, 40 * mm}
	if u == length.InInches {
		all = []length.Length{3 * inch / 4, inch, 5 * inch / 4, 3 * inch / 2}
	}
	out := slices.DeleteFunc(slices.Clone(all), func(w length.Length) bool {
		return !slices.ContainsFunc(r.Pieces, func(piece rack.Piece) bool {
			if p.Panel.Make == pattern.MakeEdge {
				return piece.Thickness > w
			}
			return piece.Width > w
		})
	})
	if len(out) == 0 {
		return all
	}
	return out
}

// withPinned returns widths and those of the pinned strips of p, ascending.
func withPinned(out []length.Length, p pattern.Pattern) []length.Length {
	for _, s := range p.Strips {
		if s.Pinned && !slices.Contains(out, s.Width) {
			out = append(out, s.Width)
		}
	}
	slices.Sort(out)
	return out
}

// Pins returns the pinned strips of p, each held at its place.
func Pins(p pattern.Pattern) []Pin {
	var out []Pin
	for i, s := range p.Strips {
		if s.Pinned {
			out = append(out, Pin{Place: i + 1, Strip: plainStrip(s)})
		}
	}
	return out
}

// MarkedFirst reports whether anything on the rack is marked to be used first.
func MarkedFirst(r rack.Rack) bool {
	return slices.ContainsFunc(r.Pieces, func(p rack.Piece) bool { return p.UseFirst }) ||
		slices.ContainsFunc(r.Strips, func(s rack.Strip) bool { return s.UseFirst })
}
