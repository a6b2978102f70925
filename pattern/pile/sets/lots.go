package sets

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// A lot is timber that nothing tells apart but its sizes.
type lot struct {
	lotKey
	name  string // its species, as plans of the search call it
	rack  rack.Rack
	cm3   float64 // all of it
	kinds []kind  // strips that it may give

	units   []unit  // of it, for the packer
	fullest float64 // the part of it that was found to be given at once
}

type lotKey struct {
	species  string
	rings    pattern.Rings
	moisture pattern.Reading
	first    bool
	colour   colour.Own
}

func keyOf(species string, rings pattern.Rings, m pattern.Reading, first bool, c colour.Own) lotKey {
	return lotKey{species, rings, m, first, c}
}

// A kind is strips of one lot that are alike but for their lengths.
type kind struct {
	strip pattern.Strip
	lot   int
	light float64 // CIELAB L of its colour under oil
	// reach is the longest such strip, by the thickness before flattening that each want has.
	reach map[length.Length]length.Length
}

// gather parts the rack, in its order.
func (s *search) gather() {
	at := map[lotKey]int{}
	of := func(k lotKey) *lot {
		if _, there := at[k]; !there {
			at[k] = len(s.lots)
			s.lots = append(s.lots, lot{lotKey: k, name: fmt.Sprintf("%s %d", k.species, len(s.lots)+1)})
		}
		return &s.lots[at[k]]
	}
	for _, p := range s.Rack.Pieces {
		l := of(keyOf(p.Species, p.Rings, p.Moisture, p.UseFirst, p.Colour))
		l.cm3 += p.VolumeCM3()
		p.Species = l.name
		l.rack.Pieces = append(l.rack.Pieces, p)
	}
	for _, r := range s.Rack.Strips {
		l := of(keyOf(r.Species, r.Rings, r.Moisture, r.UseFirst, r.Colour))
		l.cm3 += float64(float64(r.Quantity) * length.VolumeCM3(r.Length, r.Width, r.Thickness))
		r.Species = l.name
		l.rack.Strips = append(l.rack.Strips, r)
	}
	for i := range s.lots {
		s.list(i)
	}
}

// widths returns what pieces are ripped to.
func (s *search) widths() []length.Length {
	pieces := s.Rack
	pieces.Strips = nil
	sh := &s.shop
	out := suggest.UsualWidths(pattern.Pattern{}, pieces, sh.Standing, sh.Units)
	slices.Sort(out)
	return slices.Compact(out)
}

// narrow returns how wide strips of an accent are sawn.
func (s *search) narrow() length.Length { return min(suggest.DefaultAccent, s.usual[0]) }

// list lists the kinds of strips that a lot may give: of the usual widths from its pieces, as
// they lie and side-sliced, and its ready strips. Where a want has an accent, so narrow strips
// as accents are.
func (s *search) list(at int) {
	l := &s.lots[at]
	widths := s.usual
	if s.accents {
		if narrow := s.narrow(); narrow < s.usual[0] {
			widths = append([]length.Length{narrow}, widths...)
		}
	}
	put := func(width length.Length, rings pattern.Rings) *kind {
		strip := pattern.Strip{Species: l.species, Width: width, Rings: rings, Moisture: l.moisture, Colour: l.colour}
		i := slices.IndexFunc(l.kinds, func(k kind) bool { return k.strip == strip })
		if i < 0 {
			i = len(l.kinds)
			l.kinds = append(l.kinds, kind{strip: strip, lot: at, light: s.oiled(strip).Lightness(), reach: map[length.Length]length.Length{}})
		}
		return &l.kinds[i]
	}
	sh := &s.shop
	for _, glued := range s.glued {
		for _, p := range l.rack.Pieces {
			for _, c := range p.Clear() {
				long := c.Length - 2*sh.Allowance.EndTrim
				for _, w := range widths {
					upright, side := s.section(c.Piece).gives(w, glued)
					if upright {
						k := put(w, p.Rings)
						k.reach[glued] = max(k.reach[glued], long)
					}
					if side {
						k := put(w, p.Rings.Rolled())
						k.reach[glued] = max(k.reach[glued], long)
					}
				}
			}
		}
		for _, r := range l.rack.Strips {
			if r.Thickness >= glued {
				k := put(r.Width, r.Rings)
				k.reach[glued] = max(k.reach[glued], r.Length)
			}
		}
	}
	slices.SortStableFunc(l.kinds, func(a, b kind) int { return cmp.Compare(a.strip.Width, b.strip.Width) })
}
