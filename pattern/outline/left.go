package outline

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// left returns what is left behind the last band.
func (f frame) left(bands []Band) Left {
	from, to := f.shared()
	if n := len(bands); n > 0 {
		from = max(from, bands[n-1].End)
	}
	for _, s := range f.spans {
		for _, j := range s.joints { // what lies behind the last of them is whole
			if j.To > from && j.To <= to {
				from = j.To
			}
		}
	}
	return Left{From: from, Length: max(0, to-from), Width: f.width}
}

// A Remaining says how many copies of a listed product would come out of what is left.
type Remaining struct{ Product, Copies int }

// RemainingCopies says for every listed product how many copies would still come out of the
// rectangle that layout leaves, if it were used for that product alone: gap behind
// the last band, end margin from the panel's ends.
func RemainingCopies(p pattern.Pattern, allowance length.Length, products []pattern.Product, avoids []pattern.Avoid, cut Cut, layout Layout) []Remaining {
	f := newFrame(p, allowance, avoids, cut)
	near, to := f.shared()
	for i := range f.spans {
		f.spans[i].near, f.spans[i].far = near, to
	}
	after := -far
	if n := len(layout.Bands); n > 0 {
		after = layout.Bands[n-1].End + cut.Gap
	}
	out := make([]Remaining, len(products))
	for i, product := range products {
		product.Count = 0
		out[i] = Remaining{Product: i + 1, Copies: f.holds(product, after)}
	}
	return out
}

// holds says how many copies of a product have room behind after, up to MaxCopies. Where
// straight rows hold so many it is row by row, which is far quicker than in the order of
// the copies.
func (f frame) holds(product pattern.Product, after length.Length) int {
	b, n := f.straight(product), 0
	for _, r := range b.rows {
		if !r.open() {
			continue
		}
		for left := r.earliest(after); left <= r.most; left = r.earliest(left + b.pitch) {
			if n++; n == MaxCopies {
				return n
			}
		}
	}
	return len(f.lay(product, MaxCopies, after).places)
}
