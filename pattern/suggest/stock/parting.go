package stock

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
)

// A parting says what a strip takes of lengths at least where strips may be in pieces. Then
// a length gives no whole number of strips, and what there is of it counts in micrometres:
// all pieces of a strip, each with its crosscut, take per of them at least. Where strips stay
// whole, sections are counted, and a strip takes one.
//
// No plan has more: in a section so long, each of its strips or pieces is no longer than that,
// with its crosscut, so that the part it is of all that its strip takes is no more than the
// section's length, with its crosscut, of per.
type parting struct {
	on             bool
	whole          length.Length
	shortest, need length.Length // of the pieces of any strip; of all pieces of one strip, with their crosscuts
	of             map[length.Length]length.Length
	places         joints.Places
	known          bool // places are
}

// part says what strips take at least.
func (s *Stock) part() {
	a, sh := s.request, s.physics.Shop()
	s.parting = parting{on: a.Join.On(), whole: a.Length + sh.Allowance.Length}
	if !s.parting.on {
		return
	}
	p := pattern.Pattern{Panel: a.Panel(), Products: a.Join.Products, Avoids: a.Join.Avoids}
	widths := slices.Clone(a.Widths)
	for _, pin := range a.Pinned {
		widths = append(widths, pin.Strip.Width)
	}
	slices.Sort(widths)
	widths = slices.Compact(widths)
	least, most := a.Limits()
	t := &s.parting
	t.shortest = min(t.whole, sh.Cut.Shortest)
	t.need = t.shortest + sh.Kerf.Crosscut
	if t.places, t.known = joints.PlacesOf(p, sh, a.Join.How, widths, least, most); !t.known {
		return
	}
	t.of, t.need, t.shortest = map[length.Length]length.Length{}, 0, t.whole
	for _, w := range widths {
		least := length.Length(0)
		for _, way := range t.places.Ways(w) {
			all := length.Length(0)
			for _, piece := range way {
				all += piece.Length + sh.Kerf.Crosscut
				t.shortest = min(t.shortest, piece.Length)
			}
			if least == 0 || all < least {
				least = all
			}
		}
		if t.of[w] = least; t.need == 0 || least < t.need {
			t.need = least
		}
	}
}

// per returns how much of lengths a strip takes at least: of one width, or where that is 0 of
// whatever width.
func (t parting) per(width length.Length) int64 {
	if !t.on {
		return 1
	}
	if need, known := t.of[width]; known {
		return micrometres(need)
	}
	return micrometres(t.need)
}

func micrometres(l length.Length) int64 { return int64(l / length.Micrometre) }

// count returns how much there is of a length that is crosscut from.
func (t parting) count(long length.Length, sh shop.Shop) int64 {
	if !t.on {
		return int64(fits(long, t.whole, sh.Kerf.Crosscut))
	}
	if long < t.shortest {
		return 0
	}
	return micrometres(long+sh.Kerf.Crosscut) + 1
}

// ready returns how much there is of a ready strip, which serves one strip or one piece.
func (t parting) ready(r rack.Strip, sh shop.Shop, width length.Length) int64 {
	per := t.per(width)
	if r.Length >= t.whole {
		return per
	}
	return min(per, t.count(r.Length, sh))
}

// Fits reports whether a strip of a kind may begin at across at all, of either side of bricks:
// some piece of its timber is long enough for what products take of it there.
func (s *Stock) Fits(kind int, across length.Length) (sides [2]bool) {
	k := &s.Kinds[kind]
	longest := s.parting.places.Longest(k.Strip.Width, across)
	for side := range sides {
		sides[side] = !s.parting.known || k.Given || longest[side] <= k.longest
	}
	return sides
}

// ByPlace reports whether it depends on its place what a strip takes.
func (s *Stock) ByPlace() bool { return s.parting.known }

// Gives reports whether a pinned strip is of a kind that cannot be had, and so only given.
func (s *Stock) Gives() bool {
	return slices.ContainsFunc(s.Kinds, func(k Kind) bool { return k.Given })
}

// ceil returns a/b, rounded up.
func ceil(a, b int64) int64 { return (a + b - 1) / b }

// Anywhere returns the job of cutting strips wherever they lie, from timber that is longer than
// they are by whatever much: where it is proved to be short, strips of such counts cannot be
// had. False where the ways of strips are not known.
func (s *Stock) Anywhere(r rack.Rack, strips []pattern.Strip) (cutting.Job, bool) {
	sh := s.physics.Shop()
	d := cutting.Demand{Stem: suggest.Stem, Copies: 1, Pattern: pattern.Pattern{Panel: s.request.Panel(), Strips: strips}}
	if s.parting.on {
		sh.Allowance.OverLength = max(sh.Allowance.OverLength, s.parting.whole)
		if !s.parting.known {
			return cutting.Job{}, false
		}
		for _, one := range strips {
			d.Ways = append(d.Ways, s.parting.places.Ways(one.Width))
		}
	}
	return cutting.Job{Rack: r, Shop: sh, Patterns: []cutting.Demand{d}}, true
}
