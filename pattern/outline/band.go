package outline

import (
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// far stands for a place that no panel reaches.
const far = length.Length(math.MaxInt64 / 4)

// A band is the rows of one product.
type band struct {
	body      body
	rows      []row
	pitch     length.Length // between left edges in a row
	stagger   length.Length // between left edges in neighbouring rows; 0: straight rows
	places    []place       // in the order of the copies
	from, end length.Length // edges of what stands in it
}

// A place is where one copy stands.
type place struct {
	row  int           // from 0
	left length.Length // left edge
}

// straight returns the straight rows of a product.
func (f frame) straight(p pattern.Product) band {
	b := band{body: bodyOf(p)}
	b.pitch = b.body.along + f.cut.Gap
	n := (f.width - 2*f.cut.SideMargin + f.cut.Gap) / (b.body.across + f.cut.Gap)
	b.rows = f.rows(b.body, n, b.body.across+f.cut.Gap, p.Centre)
	return b
}

// staggered returns rows in which every other one is shifted by half a pitch, so that
// they lie closer; none where the shape gains nothing by it. Nothing lies closer than
// the gap: neighbouring rows keep what Footprint.Apart gives. Those next but one lie
// twice that apart, and that is at least a copy and the gap: where a copy may lie
// relative to another is all that is outside a figure that bulges and is a pitch from
// its middle along, a copy and the gap across; half of a pitch along, such a figure
// still reaches half of its size across.
func (f frame) staggered(p pattern.Product) (band, bool) {
	b := band{body: bodyOf(p)}
	apart, ok := b.body.shape.Apart(f.cut.Gap)
	free := f.width - 2*f.cut.SideMargin - b.body.across
	if !ok || free < 0 {
		return b, false
	}
	b.pitch = b.body.along + f.cut.Gap
	b.stagger = ceilHalf(b.pitch)
	b.rows = f.rows(b.body, 1+free/apart, apart, p.Centre)
	return b, true
}

// rows returns n rows so far apart about the axis. A row off the panel keeps its
// number and holds nothing.
func (f frame) rows(b body, n, apart length.Length, centre pattern.Centre) []row {
	if n < 1 {
		return nil
	}
	n = min(n, MaxCopies)
	twice := f.width // of the axis
	if n%2 == 1 {
		twice = f.axis(centre)
	}
	first := floorHalf(twice - b.across - (n-1)*apart)
	out := make([]row, n)
	for i := range out {
		out[i] = f.row(b, first+length.Length(i)*apart)
	}
	return out
}

// axis returns twice the distance of centre from edge A.
func (f frame) axis(centre pattern.Centre) length.Length {
	switch {
	case centre.Strip > 0:
		s := f.spans[centre.Strip-1]
		return s.low + s.high
	case centre.Joint > 0:
		return 2 * f.spans[centre.Joint-1].high
	default:
		return f.width
	}
}

// fill puts up to want copies at the earliest places of all rows with left edges at
// or after from, the lowest row first on a tie.
func (b *band) fill(want int, from length.Length) {
	b.places = b.earliest(want, from, func(r row, left length.Length) (length.Length, bool) {
		return left, left <= r.most
	})
	b.measure()
}

// measure sets the edges of what stands in the band.
func (b *band) measure() {
	for i, p := range b.places {
		end := p.left + b.body.along
		if i == 0 {
			b.from, b.end = p.left, end
		}
		b.from, b.end = min(b.from, p.left), max(b.end, end)
	}
}

// hold moves the copies of product number that are held to where they are wanted, or
// as far as they may go with nothing beyond end, and those after them out of the way.
func (b *band) hold(number int, held []Fixed, end length.Length) {
	wanted := map[int]length.Length{}
	for _, h := range held {
		if h.Product == number {
			wanted[h.Copy-1] = h.From
		}
	}
	if len(wanted) == 0 {
		return
	}
	b.places = slices.Clone(b.places)
	slides := b.slides(end)
	next := make([]length.Length, len(b.rows))
	for i := range next {
		next[i] = -far
	}
	for i, p := range b.places {
		from := max(p.left, next[p.row])
		if at, ok := wanted[i]; ok {
			from = max(from, min(at, p.left+slides[i]))
		}
		left := b.rows[p.row].earliest(from)
		b.places[i].left, next[p.row] = left, left+b.pitch
		for _, r := range b.beside(p.row) {
			next[r] = max(next[r], left+b.stagger)
		}
	}
	b.measure()
}

// earliest takes up to want places one after another, each time the one that ranks
// least.
func (b *band) earliest(want int, from length.Length, rank func(row, length.Length) (length.Length, bool)) []place {
	next := make([]length.Length, len(b.rows))
	for i, r := range b.rows {
		next[i] = r.earliest(from)
	}
	var out []place
	for len(out) < want {
		best, least := -1, length.Length(0)
		for i, r := range b.rows {
			if !r.open() {
				continue
			}
			if rank, ok := rank(r, next[i]); ok && (best < 0 || rank < least) {
				best, least = i, rank
			}
		}
		if best < 0 {
			break
		}
		left := next[best]
		out = append(out, place{best, left})
		next[best] = b.rows[best].earliest(left + b.pitch)
		for _, i := range b.beside(best) {
			next[i] = b.rows[i].earliest(max(next[i], left+b.stagger))
		}
	}
	return out
}

// beside lists the rows that copies in a row must keep clear of besides their own: its
// neighbours, where rows are staggered.
func (b *band) beside(row int) []int {
	switch {
	case b.stagger == 0 || len(b.rows) < 2:
		return nil
	case row == 0:
		return []int{1}
	case row == len(b.rows)-1:
		return []int{row - 1}
	default:
		return []int{row - 1, row + 1}
	}
}

// tooShort returns by how much every strip would have to reach further for want copies
// to stand in the band, or 0 where it has no row.
func (b *band) tooShort(want int, from length.Length) length.Length {
	var most length.Length
	for _, p := range b.earliest(want, from, func(r row, left length.Length) (length.Length, bool) {
		return left - r.most, true
	}) {
		most = max(most, p.left-b.rows[p.row].most)
	}
	return most
}

// slides returns how far each copy may move towards the far end when those after it
// are moved to their latest and nothing goes beyond end.
func (b *band) slides(end length.Length) []length.Length {
	limit := make([]length.Length, len(b.rows))
	for i := range limit {
		limit[i] = end - b.body.along
	}
	out := make([]length.Length, len(b.places))
	for i := len(b.places) - 1; i >= 0; i-- {
		p := b.places[i]
		latest := b.rows[p.row].latest(limit[p.row])
		out[i] = latest - p.left
		limit[p.row] = latest - b.pitch
		for _, r := range b.beside(p.row) {
			limit[r] = min(limit[r], latest-b.stagger)
		}
	}
	return out
}
