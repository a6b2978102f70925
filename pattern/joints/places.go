package joints

import (
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
)

// mostPlaces bounds the places at which strips are looked at, panel by panel.
const mostPlaces = 200_000

// Places are where strips of some widths may lie in panels that are from least to most wide,
// all made of such strips, with what pieces each may be laid from there.
//
// All widths are multiples of one unit, and so is where a strip begins; what products take of
// a strip is what they take of the slips of that unit which it is made up of.
type Places struct {
	unit    length.Length
	ways    map[length.Length][]Way
	longest map[length.Length][][2]length.Length // of strips as wide, by where they begin and by side
}

// Ways returns the ways of strips so wide wherever they lie: the whole first, then those that
// no other undercuts piece by piece. No strip takes one that asks for less. Where their pieces
// lie means nothing.
func (p Places) Ways(width length.Length) []Way { return p.ways[width] }

// Longest returns how long the longest piece of a strip so wide that begins at across is at
// least: of an even strip of even bricks, or an odd one of odd bricks (Sides); of another one.
func (p Places) Longest(width, across length.Length) [2]length.Length {
	all := p.longest[width]
	if at := int(across / max(1, p.unit)); at < len(all) {
		return all[at]
	}
	return [2]length.Length{}
}

// Side returns in which of the two ways strip i, from 1, of bricks that how names is parted: 0
// in even gaps, 1 in odd ones.
func (h How) Side(i int) int {
	if h == Odd {
		i++
	}
	return i % 2
}

// PlacesOf looks at the places in panels with the products of p. False where they are not known:
// a product's place goes by a strip, or there are too many.
func PlacesOf(p pattern.Pattern, sh shop.Shop, how How, widths []length.Length, least, most length.Length) (Places, bool) {
	whole := Way{{Length: p.Panel.Length + sh.Allowance.Length}}
	out := Places{ways: map[length.Length][]Way{}, longest: map[length.Length][][2]length.Length{}}
	for _, w := range widths {
		out.unit, out.ways[w] = gcd(out.unit, w), []Way{whole}
	}
	if out.unit == 0 || len(p.Products) == 0 || len(p.Seconds) > 0 || how == AsTheyAre {
		return out, true
	}
	from := max(out.unit, (least+out.unit-1)/out.unit*out.unit)
	if places := int64(most-from+out.unit) / int64(out.unit) * int64(most/out.unit) * int64(len(widths)); places > mostPlaces ||
		slices.ContainsFunc(p.Products, func(one pattern.Product) bool { return one.Centre != pattern.Centre{} }) {
		return Places{}, false
	}
	l := looking{cut: sh.Cut, how: how, whole: whole, known: map[string][2][]Way{}}
	for wide := from; wide <= most; wide += out.unit {
		slips, ok := l.slips(p, sh.Allowance.Length, int(wide/out.unit), out.unit)
		if !ok {
			return Places{}, false
		}
		for _, w := range widths {
			for at := 0; at+int(w/out.unit) <= len(slips); at++ {
				out.add(w, at, l.of(slips[at:at+int(w/out.unit)]))
			}
		}
	}
	for w, ways := range out.ways { // in any order
		out.ways[w] = append([]Way{whole}, slices.DeleteFunc(ways, func(o Way) bool { return slices.Equal(o.Lengths(), whole.Lengths()) })...)
	}
	return out, true
}

// add adds the ways of strips that begin at a place, of either side.
func (p *Places) add(width length.Length, at int, sides [2][]Way) {
	longest := [2]length.Length{longestOf(sides[0]), longestOf(sides[1])}
	if at == len(p.longest[width]) {
		p.longest[width] = append(p.longest[width], longest)
	}
	for side, ways := range sides {
		p.longest[width][at][side] = min(p.longest[width][at][side], longest[side])
		for _, way := range ways {
			p.ways[width] = undercut(p.ways[width], way)
		}
	}
}

// longestOf returns the least that the longest piece of some ways is.
func longestOf(ways []Way) length.Length {
	least := slices.Max(ways[0].Lengths())
	for _, way := range ways[1:] {
		least = min(least, slices.Max(way.Lengths()))
	}
	return least
}

func gcd(a, b length.Length) length.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// A looking finds ways by what is taken of strips, each once.
type looking struct {
	cut   shop.Cut
	how   How
	whole Way
	known map[string][2][]Way
}

// rounding is taken off stretches: chords of slips and of strips are rounded apart.
const rounding = length.Micrometre

// slips returns what the products take of each of n slips of a panel; of none where they
// stand in staggered rows, for then all strips are whole.
func (l *looking) slips(p pattern.Pattern, allowance length.Length, n int, unit length.Length) ([][]outline.Stretch, bool) {
	p.Strips = make([]pattern.Strip, n)
	for i := range p.Strips {
		p.Strips[i].Width = unit
	}
	layout, err := outline.Lay(p, allowance, p.Products, p.Avoids, l.cut)
	if err != nil {
		return nil, false
	}
	out := make([][]outline.Stretch, n)
	if slices.ContainsFunc(layout.Bands, func(b outline.Band) bool { return b.Staggered }) {
		return out, true
	}
	for _, s := range layout.Stretches {
		out[s.Strip-1] = append(out[s.Strip-1], outline.Stretch{From: s.From + rounding, To: s.To - rounding, Gap: s.Gap})
	}
	return out, true
}

// of returns the ways of the strip that slips make up, its whole first, of either side.
func (l *looking) of(slips [][]outline.Stretch) [2][]Way {
	stretches := outline.Joined(slices.Concat(slips...))
	key := fmt.Sprint(stretches)
	sides, known := l.known[key]
	if known {
		return sides
	}
	for side, how := range []How{Even, Odd} {
		if l.how == Anywhere {
			how = Anywhere
		}
		sides[side] = []Way{l.whole}
		for _, way := range parted(stretches, l.cut, func(z int) bool { return how.lets(0, z) }) {
			if len(way) > 1 || len(way) == 1 && way[0].Length < l.whole[0].Length {
				sides[side] = append(sides[side], way)
			}
		}
	}
	l.known[key] = sides
	return sides
}

// undercut returns ways with one more, without those of which another asks for no more pieces,
// each no longer.
func undercut(ways []Way, way Way) []Way {
	if slices.ContainsFunc(ways, func(o Way) bool { return o.within(way) }) {
		return ways
	}
	return append(slices.DeleteFunc(ways, way.within), way)
}

// within reports whether w asks for no more pieces than o, each no longer.
func (w Way) within(o Way) bool {
	a, b := w.Lengths(), o.Lengths()
	if len(a) > len(b) {
		return false
	}
	for i, long := range b[len(b)-len(a):] {
		if a[i] > long {
			return false
		}
	}
	return true
}
