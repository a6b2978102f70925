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

// texture draws the strips by textures, with a bar at each glue line; the chosen
// strip is bold.
func (d drawing) texture() {
	of := texturesIn(d.v.Pattern, d.v.Timber)
	for i, s := range d.l.Strips {
		style := paint.Style{}
		if s.Strip == d.v.Selected {
			style = style.Bolder()
		}
		top, rows := s.rows()
		d.c.Fill(paint.Rect{X: s.X, Y: d.l.Wood.Y + top, W: s.W, H: rows}, textures[of[d.v.Pattern.Strips[s.Strip].Species]], style)
		if i > 0 {
			d.bar(d.l.Strips[i-1], s)
		}
	}
}

// bar draws the glue line between two strips, as far as either reaches.
func (d drawing) bar(left, right Span) {
	for _, s := range [...]Span{left, right} {
		top, rows := s.rows()
		d.c.Fill(paint.Rect{X: right.X, Y: d.l.Wood.Y + top, W: 1, H: rows}, '|', paint.Style{})
	}
}

// rows returns the whole rows that a strip stands for: those it fills by half or
// more, at least one.
func (s Span) rows() (top, rows int) {
	top = s.Top / 2
	return top, max(1, (s.Bottom+1)/2-top)
}
