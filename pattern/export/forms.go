package export

import (
	"math"

	"example.com/oddments/pattern/outline"
	"example.com/oddments/species"
)

// A form is an outline as pictures draw it, whatever its size: one of the few that
// shapes draw themselves with.
type form interface {
	points(a area) []point
	svgClip(p *svgPen, a area)
	svgBevel(p *svgPen, a area, deep float64)
	cover(p *pngPen, a area) cover
	pngBevel(p *pngPen, a area, deep float64)
}

// A sketch is a pen that keeps the form it drew.
type sketch struct{ a area }

func (s *sketch) Rectangle(x0, y0, x1, y1 float64) { s.a = area{box{}, x0, y0, x1, y1} }
func (s *sketch) Circle(x0, y0, x1, y1 float64)    { s.a = area{circle{}, x0, y0, x1, y1} }

func (s *sketch) Polygon(points [][2]float64) {
	a := area{x0: math.Inf(1), y0: math.Inf(1), x1: math.Inf(-1), y1: math.Inf(-1)}
	for _, at := range points {
		a.x0, a.x1, a.y0, a.y1 = min(a.x0, at[0]), max(a.x1, at[0]), min(a.y0, at[1]), max(a.y1, at[1])
	}
	of := make(polygon, len(points))
	for i, at := range points {
		of[i] = point{(at[0] - a.x0) / (a.x1 - a.x0), (at[1] - a.y0) / (a.y1 - a.y0)}
	}
	a.form = of
	s.a = a
}

// areaOf returns the area of a shape with the corner of what it fills at x, y.
func areaOf(shape outline.Shape, x, y float64) area {
	var s sketch
	shape.Draw(x, y, &s)
	return s.a
}

// A box fills its rectangle.
type box struct{}

func (box) points(a area) []point { return rectangle(a.x0, a.y0, a.x1, a.y1) }

func (box) svgClip(p *svgPen, a area) {
	p.put(`<rect x="%v" y="%v" width="%v" height="%v"/>`, a.x0, a.y0, a.x1-a.x0, a.y1-a.y0)
}

// svgBevel draws the four faces of the bevel in the light from the upper left.
func (box) svgBevel(p *svgPen, a area, c float64) {
	black := species.RGB{}
	for _, f := range []struct {
		face    []point
		fill    species.RGB
		opacity float64
	}{
		{[]point{{a.x0, a.y0}, {a.x1, a.y0}, {a.x1 - c, a.y0 + c}, {a.x0 + c, a.y0 + c}}, paper, 0.26},
		{[]point{{a.x0, a.y0}, {a.x0 + c, a.y0 + c}, {a.x0 + c, a.y1 - c}, {a.x0, a.y1}}, paper, 0.14},
		{[]point{{a.x1, a.y0}, {a.x1, a.y1}, {a.x1 - c, a.y1 - c}, {a.x1 - c, a.y0 + c}}, black, 0.14},
		{[]point{{a.x0, a.y1}, {a.x0 + c, a.y1 - c}, {a.x1 - c, a.y1 - c}, {a.x1, a.y1}}, black, 0.26},
	} {
		p.put(`<path d="%v" fill="%v" fill-opacity="%v"/>`+"\n", path(f.face, true), f.fill, f.opacity)
	}
}

// A circle is the round that fills its square.
type circle struct{}

// points returns a polygon with sides too short to see.
func (circle) points(a area) []point {
	const sides = 120
	r := (a.x1 - a.x0) / 2
	out := make([]point, sides)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
		out[i] = point{a.x0 + r + r*cos, a.y0 + r + r*sin}
	}
	return out
}

func (circle) svgClip(p *svgPen, a area) {
	r := (a.x1 - a.x0) / 2
	p.put(`<circle cx="%v" cy="%v" r="%v"/>`, a.x0+r, a.y0+r, r)
}

func (circle) svgBevel(p *svgPen, a area, deep float64) {
	r := (a.x1 - a.x0) / 2
	p.put(`<circle cx="%v" cy="%v" r="%v" fill="none" stroke="url(#%vlit)" stroke-width="%v"/>`+"\n",
		a.x0+r, a.y0+r, r-deep/2, p.id, deep)
}

// A polygon has its corners in parts of its rectangle, from 0 to 1.
type polygon []point

func (f polygon) points(a area) []point {
	out := make([]point, len(f))
	for i, at := range f {
		out[i] = point{a.x0 + at.x*(a.x1-a.x0), a.y0 + at.y*(a.y1-a.y0)}
	}
	return out
}

func (f polygon) svgClip(p *svgPen, a area) { p.put(`<path d="%v"/>`, path(f.points(a), true)) }

// svgBevel draws twice the bevel's depth along the rim, and shows the half within.
func (f polygon) svgBevel(p *svgPen, a area, deep float64) {
	p.clips++
	p.put(`<clipPath id="%vc%d">`, p.id, p.clips)
	f.svgClip(p, a)
	p.put(`</clipPath><path d="%v" clip-path="url(#%vc%d)" fill="none" stroke="url(#%vlit)" stroke-width="%v"/>`+"\n",
		path(f.points(a), true), p.id, p.clips, p.id, 2*deep)
}
