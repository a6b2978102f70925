package outline

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A Layout is where products stand on a panel.
type Layout struct {
	Placed     []Placed // product by product, in the order of the copies
	NotPlaced  []NotPlaced
	Full       int    // the product, from 1, of which no more were placed for MaxPlaced or MaxHoles; 0: none
	Bands      []Band // of the products that have a copy placed
	Left       Left
	OwnLengths []OwnLength // what short ends outside would set, from strip 1
	Stretches  []Stretch   // what products take of each strip, from strip 1, along each
}

// A Placed is one copy of a product on the panel.
type Placed struct {
	Product int // from 1
	Copy    int // from 1
	Row     int // of its band, from 1 at edge A
	Shape   pattern.ShapeName

	Along, Across length.Length // its centre, rounded down to a nanometre
	From, Side    length.Length // its edges towards the datum end and towards edge A

	// Slide is how far it may move towards the far end when those after it in its row
	// and band are moved to their latest. The bands after it stay where they are.
	Slide length.Length

	// BindingStrip is the lowest strip, from 1, whose near end, or that of one of its
	// pieces, keeps it from lying nearer the datum end; 0 where only a neighbour, the band before or a circle to
	// avoid does.
	BindingStrip int
}

// A NotPlaced says how many copies of a product found no place.
type NotPlaced struct {
	Product   int // from 1
	Copies    int
	TooNarrow length.Length // by how much the panel is too narrow, or its row lies off it; 0 where it is not
	TooShort  length.Length // by how much every strip would have to reach further, where it is wide enough
	Avoided   bool          // without the circles to avoid more would find a place
	Jointed   int           // the strip, from 1, without whose joint, or joints, more would find a place; 0: none
	Joint     pattern.Joint // that joint; where it takes several of a strip, the first
	Full      bool          // more are asked for than MaxPlaced and MaxHoles leave
}

// A Band is the stretch of the panel in which the copies of one product stand. The
// panel can be crosscut between bands.
type Band struct {
	Product   int // from 1
	Rows      int
	Staggered bool
	From, End length.Length // edges of what stands in it
}

// Left is the rectangle behind the last band over the full glue-up width that every
// strip covers. Its near end is the edge of what stands there: the cut comes off it.
type Left struct{ From, Length, Width length.Length }

// An OwnLength is a strip's length of its own that its products need.
type OwnLength struct {
	Strip         int // from 1
	Start, Length length.Length
}

// Lay lays products on p: bands of straight rows, one listed product after another.
// On a panel without ragged ends rounds stand in staggered rows, and other shapes that
// gain by them, where these place more of the copies asked for. allowance is what strips without a length of their
// own are longer than the panel.
func Lay(p pattern.Pattern, allowance length.Length, products []pattern.Product, avoids []pattern.Avoid, cut Cut) (Layout, error) {
	return LayWithFixed(p, allowance, products, avoids, cut, nil)
}

// A Fixed is a copy that is slid by hand from where it would lie: its edge towards the
// datum end is to lie at From or, where From is beyond its slide, as far as it may.
type Fixed struct {
	Product, Copy int // from 1
	From          length.Length
}

// LayWithFixed is Lay with copies held where a hand slid them to. Those after a held one
// in its row give way no further than they must; the bands after it stay where they
// are. A Fixed that names no copy, or one nearer than the copy lies, does nothing.
func LayWithFixed(p pattern.Pattern, allowance length.Length, products []pattern.Product, avoids []pattern.Avoid, cut Cut, held []Fixed) (Layout, error) {
	if err := Check(p, products, avoids, cut); err != nil {
		return Layout{}, err
	}
	f := newFrame(p, allowance, avoids, cut)
	var layout Layout
	var bands []band
	after := -far                        // left edges lie at or behind it
	copies, holes := MaxPlaced, MaxHoles // that may still be placed
	for i, product := range products {
		room := copies
		if product.Holes > 0 {
			room = min(room, holes/product.Holes)
		}
		b := f.lay(product, room, after)
		full := product.Count > room
		if full || product.Count == 0 && len(b.places) == room {
			layout.Full = cmp.Or(layout.Full, i+1)
		}
		copies, holes = copies-len(b.places), holes-len(b.places)*product.Holes
		switch missing := product.Count - len(b.places); {
		case missing > 0 && full:
			layout.NotPlaced = append(layout.NotPlaced, NotPlaced{Product: i + 1, Copies: missing, Full: true})
		case missing > 0:
			layout.NotPlaced = append(layout.NotPlaced, f.missed(i+1, product, b, after))
		}
		if len(b.places) == 0 {
			continue
		}
		after = b.end + cut.Gap
		bands = append(bands, b)
		layout.Bands = append(layout.Bands,
			Band{Product: i + 1, Rows: len(b.rows), Staggered: b.stagger > 0, From: b.from, End: b.end})
	}
	for i, b := range bands {
		end := far
		if i+1 < len(bands) {
			end = bands[i+1].from - cut.Gap
		}
		b.hold(layout.Bands[i].Product, held, end)
		bands[i], layout.Bands[i].From, layout.Bands[i].End = b, b.from, b.end
		layout.Placed = append(layout.Placed, b.placed(layout.Bands[i].Product, products, end)...)
	}
	layout.Left = f.left(layout.Bands)
	layout.Stretches = f.stretches(bands)
	layout.OwnLengths = ownLengths(layout.Stretches)
	return layout, nil
}

// lay returns the band of up to room copies of product with left edges at or behind after.
func (f frame) lay(product pattern.Product, room int, after length.Length) band {
	want := product.Count
	if want == 0 {
		want = MaxCopies
	}
	want = min(want, room)
	b := f.straight(product)
	b.fill(want, after)
	if len(b.places) == want || f.ragged() {
		return b
	}
	if s, ok := f.staggered(product); ok {
		s.fill(want, after)
		if len(s.places) > len(b.places) {
			return s
		}
	}
	return b
}

// missed says what keeps copies of a product from standing in its band.
func (f frame) missed(number int, product pattern.Product, b band, after length.Length) NotPlaced {
	out := NotPlaced{Product: number, Copies: product.Count - len(b.places)}
	out.TooShort = b.tooShort(product.Count, after)
	if len(f.avoids) > 0 {
		open := f
		open.avoids = nil
		free := open.lay(product, MaxCopies, after)
		out.Avoided = len(free.places) > len(b.places)
	}
	out.Jointed, out.Joint = f.jointed(product, len(b.places), after)
	out.TooNarrow = max(0, b.body.across+2*f.cut.SideMargin-f.width)
	if out.TooNarrow > 0 {
		return out
	}
	for i, r := range b.rows {
		if r.open() {
			out.TooNarrow = 0
			break
		}
		if i == 0 || r.outside < out.TooNarrow {
			out.TooNarrow = r.outside
		}
	}
	return out
}

// jointed returns the first strip, from 1, and its joint without which more copies than
// placed would find a place, or without all of whose joints; 0: none alone is in the way.
func (f frame) jointed(product pattern.Product, placed int, after length.Length) (int, pattern.Joint) {
	more := func(strip int, left []pattern.Joint) bool {
		open := f
		open.spans = slices.Clone(f.spans)
		open.spans[strip].joints = left
		return len(open.lay(product, MaxCopies, after).places) > placed
	}
	for i, s := range f.spans {
		for k, j := range s.joints {
			if more(i, slices.Delete(slices.Clone(s.joints), k, k+1)) {
				return i + 1, j
			}
		}
		if len(s.joints) > 1 && more(i, nil) {
			return i + 1, s.joints[0]
		}
	}
	return 0, pattern.Joint{}
}

func (b *band) placed(number int, products []pattern.Product, end length.Length) []Placed {
	slides := b.slides(end)
	out := make([]Placed, len(b.places))
	for i, p := range b.places {
		r := b.rows[p.row]
		out[i] = Placed{
			Product: number, Copy: i + 1, Row: p.row + 1, Shape: products[number-1].Shape,
			Along: p.left + floorHalf(b.body.along), Across: r.side + floorHalf(b.body.across),
			From: p.left, Side: r.side, Slide: slides[i],
		}
		out[i].BindingStrip = r.binds(p.left)
	}
	return out
}
