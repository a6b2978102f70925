package export

import "example.com/oddments/species"

// An op is one thing drawn on a page, in either form.
type op interface {
	svg(*svgPen)
	png(*pngPen)
}

// An area is a part of the wood: what a form has in a rectangle.
type area struct {
	form           form
	x0, y0, x1, y1 float64
}

// points returns its outline as a polygon.
func (a area) points() []point { return a.form.points(a) }

func (a area) moved(by point) area {
	a.x0, a.x1, a.y0, a.y1 = a.x0+by.x, a.x1+by.x, a.y0+by.y, a.y1+by.y
	return a
}

func rectangle(x0, y0, x1, y1 float64) []point {
	return []point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// A woodOp shows what of the wood lies in an area, the wood's origin at a point of the
// page.
type woodOp struct {
	at point
	in area
}

// A fillOp fills a polygon without hollows.
type fillOp struct {
	points []point
	colour species.RGB
}

// A hatchOp fills a rectangle with slanted lines: what is not used.
type hatchOp struct {
	box  []point
	size float64 // of the letters beside it: the lines lie by it
}

// A strokeOp draws a line, closed or not.
type strokeOp struct {
	points []point
	closed bool
	wide   float64
	colour species.RGB
	dashed bool
}

// A discOp fills a round, or darkens what was drawn there before.
type discOp struct {
	centre point
	r      float64
	colour species.RGB
	shade  bool
}

// A bevelOp lights the bevel along the upper edge of what was drawn before.
type bevelOp struct {
	of   area
	deep float64
}

// A textOp writes a line: from its point, about it, or up to it.
type textOp struct {
	at          point // on the line that letters stand on
	size        float64
	text        string
	colour      species.RGB
	bold        bool
	middle, end bool
}
