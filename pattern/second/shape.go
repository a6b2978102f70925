package second

import (
	"math"
	"slices"

	"example.com/oddments/pattern/length"
)

// A Point is a corner of a cell.
type Point struct{ X, Y length.Length }

// A vector points somewhere in plan; those of cells are one long.
type vector struct{ X, Y float64 }

// quarter returns v turned a quarter to the left.
func (v vector) quarter() vector { return vector{-v.Y, v.X} }

// A spot is a corner in nanometres before it is rounded.
type spot struct{ x, y float64 }

func rectangle(x0, y0, x1, y1 length.Length) []Point {
	return []Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// A clipper cuts one convex shape after another and uses its room again.
type clipper struct {
	at, room []spot
	corners  []Point // that what is handed out lies in
}

// take begins with a copy of a shape, which it returns.
func (c *clipper) take(shape []spot) []spot {
	c.at = append(c.at[:0], shape...)
	return c.at
}

// between keeps what lies from x = 0 to x = wide.
func (c *clipper) between(wide float64) {
	c.half(func(s spot) float64 { return s.x }, func(s *spot) { s.x = 0 })
	c.half(func(s spot) float64 { return wide - s.x }, func(s *spot) { s.x = wide })
}

// to keeps what lies in the rectangle from the origin.
func (c *clipper) to(long, wide float64) {
	c.between(long)
	c.half(func(s spot) float64 { return s.y }, func(s *spot) { s.y = 0 })
	c.half(func(s spot) float64 { return wide - s.y }, func(s *spot) { s.y = wide })
}

// half keeps what is not on the wrong side of a line, where in is below 0; onto puts a
// corner onto the line.
func (c *clipper) half(in func(spot) float64, onto func(*spot)) {
	out := c.room[:0]
	for i, a := range c.at {
		b := c.at[(i+1)%len(c.at)]
		da, db := in(a), in(b)
		if da >= 0 {
			out = append(out, a)
		}
		if da < 0 && db > 0 || da > 0 && db < 0 {
			t := da / (da - db)
			s := spot{a.x + t*(b.x-a.x), a.y + t*(b.y-a.y)}
			onto(&s)
			out = append(out, s)
		}
	}
	c.at, c.room = out, c.at
}

// sliver is the width in nanometres up to which a shape with slanted sides is no more than
// the rounding of its neighbours.
const sliver = 2

// points returns the shape in whole nanometres, nil where none is left of it. Corners that
// rounding made one are one.
func (c *clipper) points(slanted bool) []Point {
	near := length.Length(0)
	if slanted {
		near = 1
	}
	if cap(c.corners)-len(c.corners) < len(c.at) {
		c.corners = make([]Point, 0, 1024+len(c.at))
	}
	from := len(c.corners)
	all := c.corners[from:]
	for _, s := range c.at {
		p := Point{rounded(s.x), rounded(s.y)}
		if len(all) == 0 || !p.beside(all[len(all)-1], near) {
			all = append(all, p)
		}
	}
	for len(all) > 1 && all[0].beside(all[len(all)-1], near) {
		all = all[:len(all)-1]
	}
	twice, round := around(all)
	if len(all) < 3 || twice <= 0 || slanted && twice < sliver*round {
		return nil
	}
	first := 0
	for i, p := range all {
		if p.X < all[first].X || p.X == all[first].X && p.Y < all[first].Y {
			first = i
		}
	}
	if first > 0 {
		copy(all, slices.Concat(all[first:], all[:first]))
	}
	c.corners = c.corners[:from+len(all)]
	return slices.Clip(all)
}

func (p Point) beside(q Point, near length.Length) bool {
	return max(p.X-q.X, q.X-p.X) <= near && max(p.Y-q.Y, q.Y-p.Y) <= near
}

// around returns twice the area of a shape in square nanometres, and half the length of
// its outline.
func around(all []Point) (twice, round float64) {
	for i, p := range all {
		q := all[(i+1)%len(all)]
		twice += float64(p.X)*float64(q.Y) - float64(q.X)*float64(p.Y)
		round += math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)) / 2
	}
	return twice, round
}

// AreaMM2 returns the area of the cell in square millimetres.
func (c Cell) AreaMM2() float64 {
	// From a corner of its own, so that a small cell far out loses no digits.
	at := c.Points[0]
	var twice float64
	for i, p := range c.Points[1:] {
		q := c.Points[(i+2)%len(c.Points)]
		twice += (p.X-at.X).MM()*(q.Y-at.Y).MM() - (q.X-at.X).MM()*(p.Y-at.Y).MM()
	}
	return twice / 2
}

// Box returns the least and the greatest corner of the rectangle about the cell.
func (c Cell) Box() (least, most Point) {
	least, most = c.Points[0], c.Points[0]
	for _, p := range c.Points {
		least = Point{min(least.X, p.X), min(least.Y, p.Y)}
		most = Point{max(most.X, p.X), max(most.Y, p.Y)}
	}
	return least, most
}

// Meets reports whether more than an outline of the cell lies in a rectangle.
func (c Cell) Meets(least, most Point) bool {
	low, high := c.Box()
	if high.X <= least.X || low.X >= most.X || high.Y <= least.Y || low.Y >= most.Y {
		return false
	}
	var clip clipper
	for _, p := range c.Points {
		clip.at = append(clip.at, spot{float64(p.X - least.X), float64(p.Y - least.Y)})
	}
	clip.to(float64(most.X-least.X), float64(most.Y-least.Y))
	return clip.points(c.slanted()) != nil
}

// Holds reports whether a point, in millimetres, lies in the cell or on its outline.
func (c Cell) Holds(x, y float64) bool {
	for i, p := range c.Points {
		q := c.Points[(i+1)%len(c.Points)]
		if (q.X-p.X).MM()*(y-p.Y.MM())-(q.Y-p.Y).MM()*(x-p.X.MM()) < -1e-9 {
			return false
		}
	}
	return true
}
