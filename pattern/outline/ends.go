package outline

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// ownLengths returns the length that each touched strip needs for what is cut from it.
func (f frame) ownLengths(bands []band) []OwnLength {
	near, end := make([]length.Length, len(f.spans)), make([]length.Length, len(f.spans))
	touched := make([]bool, len(f.spans))
	for _, b := range bands {
		for _, p := range b.places {
			r := b.rows[p.row]
			for i := r.touches; i < r.end; i++ {
				inset := r.insets[i-r.touches]
				from := p.left + inset - f.cut.EndMargin
				to := p.left + b.body.along - inset + f.cut.EndMargin
				if !touched[i] {
					touched[i], near[i], end[i] = true, from, to
				}
				near[i], end[i] = min(near[i], from), max(end[i], to)
			}
		}
	}
	var out []OwnLength
	for i := range f.spans {
		if touched[i] {
			out = append(out, OwnLength{Strip: i + 1, Start: near[i], Length: end[i] - near[i]})
		}
	}
	return out
}

// A Saving is what short ends outside leave on the rack.
type Saving struct {
	Length length.Length // of strips, put end to end
	CM3    float64       // of finished thickness
}

// ShortEnds returns p with every strip that a product of layout touches as long as its
// products need, and what that saves. No strip gets longer. A start beyond what a
// pattern may hold stays at the most that it may, and the strip is as much longer. Straight rows laid anew
// on the result stand where they stood; staggered rows are for panels without ragged
// ends and do not.
func ShortEnds(p pattern.Pattern, allowance length.Length, layout Layout) (pattern.Pattern, Saving) {
	var saving Saving
	p.Strips = slices.Clone(p.Strips)
	for _, own := range layout.OwnLengths {
		s := &p.Strips[own.Strip-1]
		start := min(own.Start, pattern.MaxStart)
		needs := own.Start + own.Length - start
		saved := p.StripLength(*s, allowance) - needs
		saving.Length += saved
		saving.CM3 += length.VolumeCM3(s.Width, p.Panel.Thickness, saved)
		s.Start, s.Length = start, needs
	}
	return p, saving
}
