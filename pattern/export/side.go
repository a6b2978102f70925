package export

import (
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/work"
)

// side draws a thing as it is seen from the side of its nearer edge, its thickness
// with the bevels.
func (l *layout) side(t thing, x float64) {
	a := t.outline()
	half := (a.x1 - a.x0) / 2
	if len(l.wood.tiles) > 0 {
		l.boardSide(t, point{x + half, l.y})
		l.y += t.t + 0.4*l.size
		return
	}
	for _, s := range t.slabs() {
		for _, f := range l.facesOf(t, s) {
			middle, top, foot := x+half, s.z0+l.y, s.z1+l.y
			points := []point{{middle - f.top, top}, {middle + f.top, top}, {middle + f.foot, foot}, {middle - f.foot, foot}}
			colour := l.wood.planks[f.plank].shades[shadeBase]
			if s.lit != 0 {
				colour = colour.Lighter(s.lit)
			}
			l.add(fillOp{points, colour})
		}
	}
	l.y += t.t + 0.4*l.size
}

// sideSteps is how many places of a board's edge are looked at, from its middle either way.
const sideSteps = 200

// boardSide draws the edge of a thing that is cut from a board: the cells that lie at its
// nearer rim. at is the middle of its top.
func (l *layout) boardSide(t thing, at point) {
	a := t.outline()
	shape, middle := outline.ShapeOf(t.product), point{(a.x0 + a.x1) / 2, (a.y0 + a.y1) / 2}
	cells := make([]int, 2*sideSteps)
	for i := range cells {
		u := (float64(i)+0.5)/sideSteps - 1
		off := rim(shape, math.Abs(u), (a.y1-a.y0)/2)
		where := point{middle.x + u*shape.Half(0, 0), middle.y + off*(1-1e-6)}
		cells[i] = slices.IndexFunc(l.wood.cells.Cells, func(c second.Cell) bool { return c.Holds(where.x, where.y) })
	}
	for _, s := range t.slabs() {
		top, foot := shape.Half(s.in0, 0), shape.Half(s.in1, 0)
		for from := 0; from < len(cells); {
			to := from + 1
			for to < len(cells) && cells[to] == cells[from] {
				to++
			}
			if cells[from] >= 0 {
				u0, u1 := float64(from)/sideSteps-1, float64(to)/sideSteps-1
				l.add(fillOp{[]point{{at.x + u0*top, at.y + s.z0}, {at.x + u1*top, at.y + s.z0}, {at.x + u1*foot, at.y + s.z1}, {at.x + u0*foot, at.y + s.z1}},
					l.wood.tiles[cells[from]].shades[shadeBase].Lighter(s.lit)})
			}
			from = to
		}
	}
}

// rim returns how far from the middle the rim of a shape lies where it is so far along, of 1,
// and most is half its width.
func rim(shape outline.Shape, along, most float64) float64 {
	least, reach := 0.0, along*shape.Half(0, 0)
	if shape.Half(0, most) >= reach {
		return most
	}
	for range 30 {
		if middle := (least + most) / 2; shape.Half(0, middle) >= reach {
			least = middle
		} else {
			most = middle
		}
	}
	return least
}

// A slab is a part of a thing's edge: from z0 to z1 below its top, set in by so much.
type slab struct{ z0, z1, in0, in1, lit float64 }

// slabs returns the parts of the edge: bevel, upright, bevel. Bevels that meet share the
// thickness.
func (t thing) slabs() []slab {
	bevel, top, under := t.product.Bevel.MM(), 0.0, 0.0
	if bevel > 0 && t.product.BevelSide != pattern.BevelUnder {
		top = bevel
	}
	if bevel > 0 && t.product.BevelSide != pattern.BevelTop {
		under = bevel
	}
	if over := top + under - t.t; over > 0 {
		share := t.t / (top + under)
		top, under = top*share, under*share
	}
	const lit, shaded = 7, -11
	var out []slab
	if top > 0 {
		out = append(out, slab{0, top, top, 0, lit})
	}
	if t.t-under > top {
		out = append(out, slab{top, t.t - under, 0, 0, 0})
	}
	if under > 0 {
		out = append(out, slab{t.t - under, t.t, 0, under, shaded})
	}
	return out
}

// A face is what of one plank shows in a slab: so far from the middle either way, at the
// slab's top and at its foot.
type face struct {
	plank     int
	top, foot float64
}

// facesOf returns what shows of each plank, those further off first.
func (l *layout) facesOf(t thing, s slab) []face {
	a := t.outline()
	middle := (a.y0 + a.y1) / 2
	first, end := l.wood.under(a.y0, a.y1)
	shape := outline.ShapeOf(t.product)
	var out []face
	for i := first; i < end; i++ {
		k := l.wood.planks[i]
		near := min(k.y1, a.y1) - middle // towards who looks
		if near <= 0 {
			continue
		}
		// What lies nearer covers the middle: so it is enough to draw each over the one
		// before, as wide as the rim is at its far edge.
		far := max(0, k.y0-middle)
		f := face{i, shape.Half(s.in0, far), shape.Half(s.in1, far)}
		if n := len(out) - 1; n >= 0 && f.top >= out[n].top && f.foot >= out[n].foot {
			out = out[:n] // it would not be seen
		}
		out = append(out, f)
	}
	return out
}

// holes draws the holes of a block as they are seen from above.
func (l *layout) holes(t thing, at point) {
	a := t.outline()
	centres, _ := work.HoleCentres(t.product)
	r := t.product.Hole.MM() / 2
	y := (a.y0 + a.y1) / 2
	if len(l.wood.planks) == 0 {
		return
	}
	base := l.wood.at(y).shades[shadeBase]
	for _, c := range centres {
		centre := point{a.x0 + c.MM() + at.x, y + at.y}
		l.add(discOp{centre: centre, r: r, colour: base.Lighter(-32)})
		// The floor shows the strips again, beneath the shadow of the rim.
		floor := area{form: circle{}, x0: a.x0 + c.MM() - r, y0: y - r, x1: a.x0 + c.MM() + r, y1: y + r}
		const rim = 0.1
		floor.x0, floor.y0 = floor.x0+2*rim*r, floor.y0+2*rim*r
		l.add(woodOp{at: at, in: floor})
		l.add(discOp{centre: point{(floor.x0+floor.x1)/2 + at.x, (floor.y0+floor.y1)/2 + at.y}, r: r * (1 - rim), shade: true})
	}
}
