package outline

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern/length"
)

// A Stretch is what products take of one strip without a break: no joint of its pieces may
// lie within.
type Stretch struct {
	Strip    int // from 1
	From, To length.Length
	Gap      int // the number, from 0, of the gap between products that lies behind it; see stretches
}

// stretches returns what is taken of each strip that a product touches. Stretches that
// overlap are one. The gaps between products are numbered along the panel: behind the n-th
// copy of each row lies gap n-1, and the numbers go on from band to band behind those of
// the row with most copies.
func (f frame) stretches(bands []band) []Stretch {
	of := make([][]Stretch, len(f.spans))
	gaps := 0
	for _, b := range bands {
		standing := make([]int, len(b.rows)) // copies so far
		for _, p := range b.places {
			r := b.rows[p.row]
			for i := r.touches; i < r.end; i++ {
				inset := r.insets[i-r.touches]
				from := p.left + inset - f.cut.EndMargin
				of[i] = append(of[i], Stretch{i + 1, from, p.left + b.body.along - inset + f.cut.EndMargin, gaps + standing[p.row]})
			}
			standing[p.row]++
		}
		gaps += slices.Max(standing)
	}
	var out []Stretch
	for _, all := range of {
		out = append(out, Joined(all)...)
	}
	return out
}

// Joined returns what is taken of one strip with stretches that overlap made one.
func Joined(all []Stretch) (out []Stretch) {
	slices.SortFunc(all, func(a, b Stretch) int { return cmp.Compare(a.From, b.From) })
	for i, s := range all {
		if last := len(out) - 1; i > 0 && s.From < out[last].To {
			out[last].To, out[last].Gap = max(out[last].To, s.To), max(out[last].Gap, s.Gap)
			continue
		}
		out = append(out, s)
	}
	return out
}

// ownLengths returns the length that each touched strip needs for what is cut from it.
func ownLengths(stretches []Stretch) []OwnLength {
	var out []OwnLength
	for _, s := range stretches {
		last := len(out) - 1
		if last < 0 || out[last].Strip != s.Strip {
			out, last = append(out, OwnLength{Strip: s.Strip, Start: s.From}), last+1
		}
		out[last].Length = s.To - out[last].Start
	}
	return out
}
