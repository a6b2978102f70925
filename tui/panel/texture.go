package panel

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// textures stand for timbers where no wood colour is shown, dark timbers dense.
var textures = [...]rune{'#', '%', '*', 'x', '+', '-', ':', '.'}

// The oiled colours' L* that have the densest and the lightest texture.
const (
	darkest  = 22.0
	lightest = 82.0
)

// naturalTexture returns the texture that goes with a colour's lightness.
func naturalTexture(c species.RGB) int {
	l, _, _ := exact(c).Lab()
	n := float64(len(textures))
	return min(len(textures)-1, max(0, int((100*l-darkest)/(lightest-darkest)*n)))
}

// texturesOf returns the texture of each timber of the pattern, by its key: that of
// its lightness, or the nearest one free where a neighbour of another timber has
// that already. Lighter timbers give way.
func texturesOf(keys []string, timber func(string) species.Species) map[string]int {
	beside := make(map[string]map[string]bool)
	var kinds []species.Species
	for i, key := range keys {
		if beside[key] == nil {
			beside[key] = make(map[string]bool)
			s := timber(key)
			s.Key = key
			kinds = append(kinds, s)
		}
		if i > 0 && keys[i-1] != key {
			beside[key][keys[i-1]], beside[keys[i-1]][key] = true, true
		}
	}
	slices.SortFunc(kinds, func(a, b species.Species) int {
		la, _, _ := exact(a.ColourOiled).Lab()
		lb, _, _ := exact(b.ColourOiled).Lab()
		return cmp.Or(cmp.Compare(la, lb), cmp.Compare(a.Key, b.Key))
	})
	out := make(map[string]int, len(kinds))
	for _, s := range kinds {
		taken := make([]bool, len(textures))
		for neighbour := range beside[s.Key] {
			if t, ok := out[neighbour]; ok {
				taken[t] = true
			}
		}
		out[s.Key] = nearestFree(naturalTexture(s.ColourOiled), taken)
	}
	return out
}

// nearestFree returns the free texture nearest to want, the lighter of two, or want
// itself where none is free.
func nearestFree(want int, taken []bool) int {
	for off := range taken {
		for _, i := range [...]int{want + off, want - off} {
			if i >= 0 && i < len(taken) && !taken[i] {
				return i
			}
		}
	}
	return want
}

// TexturesIn returns the character that stands for each timber of p where no wood colour is
// shown, by its key.
func TexturesIn(p pattern.Pattern, timber func(string) (species.Species, bool)) map[string]rune {
	out := map[string]rune{}
	for key, n := range texturesIn(p, timber) {
		out[key] = textures[n]
	}
	return out
}

// texturesIn is texturesOf for the strips of a pattern.
func texturesIn(p pattern.Pattern, timber func(string) (species.Species, bool)) map[string]int {
	keys := make([]string, len(p.Strips))
	for i, s := range p.Strips {
		keys[i] = s.Species
	}
	return texturesOf(keys, func(key string) species.Species { return lookUp(timber, key) })
}

// texture draws the strips by textures; the chosen one is bold. Where they stand a bar is at
// each glue line, where they lie the rule before them tells, and what is cut out is between
// brackets: round ones where it is shorter at its sides, square ones for others.
func (d drawing) texture() {
	of := texturesIn(d.v.Pattern, d.v.Timber)
	for i, s := range d.l.Strips {
		style := paint.Style{}
		if s.Strip == d.v.Selected {
			style = style.Bolder()
		}
		d.c.Fill(d.l.cells(s), textures[of[d.v.Pattern.Strips[s.Strip].Species]], style)
		for _, o := range d.l.joints(s, d.v.Pattern.Strips[s.Strip]) {
			part := ' ' // open
			switch {
			case o.seam && d.l.Lies:
				part = '|'
			case o.seam:
				part = '_'
			}
			s.From, s.To = o.from, o.to
			d.c.Fill(d.l.cells(s), part, style)
			s = d.l.Strips[i]
		}
		if i > 0 && !d.l.Lies {
			d.bar(d.l.Strips[i-1], s)
		}
	}
	if d.v.Board != nil {
		w := d.l.Wood.W
		d.tiles.Letters(func(x, y int, r rune) {
			if d.within != nil && d.within[2*y*w+x] == 0 && d.within[(2*y+1)*w+x] == 0 {
				r = ' ' // among cells an outline alone is not seen: what is waste is blank
			}
			d.c.Set(d.l.Wood.X+x, d.l.Wood.Y+y, r, paint.Style{})
		})
	}
	if len(d.v.Cuts) == 0 {
		return
	}
	for row := range d.l.Wood.H {
		for x := range d.l.Wood.W {
			d.bracket(x, row)
		}
	}
	d.holes(func(x, y int) { d.c.Set(d.l.Wood.X+x, d.l.Wood.Y+y/2, 'o', paint.Style{}) })
}

// bar draws the glue line between two strips, as far as either reaches.
func (d drawing) bar(left, right Span) {
	for _, s := range [...]Span{left, right} {
		r := d.l.cells(s)
		r.X, r.W = right.X, 1
		d.c.Fill(r, '|', paint.Style{})
	}
}

// cells returns the whole cells that a strip is drawn in: along, where it stands, those that
// it fills by half or more, at least one; across, where it lies, those whose middle it has.
func (l Layout) cells(s Span) paint.Rect {
	if l.Lies {
		return paint.Rect{X: l.Wood.X + s.From, Y: s.X / 2, W: s.To - s.From, H: (s.X+s.W)/2 - s.X/2}
	}
	top := s.From / 2
	return paint.Rect{X: s.X, Y: l.Wood.Y + top, W: s.W, H: max(1, (s.To+1)/2-top)}
}
