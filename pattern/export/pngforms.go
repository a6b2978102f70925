package export

import "math"

// A cover says which pixels an outline covers.
type cover interface {
	span(y int) (x0, in0, in1, x1 int) // of a row: what it touches, and in that what it covers
	level(x, y int) int                // how much of a pixel it covers, in mixLevels
	inside(x, y int) bool              // well within
	reach() int                        // how many pixels it may touch beyond its rectangle
}

// coverRow inks what of a row lies in a cover and between left and right.
func (p *pngPen) coverRow(c cover, y, left, right int, n uint8) {
	x0, in0, in1, x1 := c.span(y)
	p.row(y, max(left, in0), min(right, in1), n)
	for x := max(left, x0); x < min(right, in0); x++ {
		p.dot(x, y, n, c.level(x, y))
	}
	for x := max(left, in1); x < min(right, x1); x++ {
		p.dot(x, y, n, c.level(x, y))
	}
}

// A box covers whole pixels, as far as it is asked for.
func (box) span(int) (x0, in0, in1, x1 int) {
	return math.MinInt32, math.MinInt32, math.MaxInt32, math.MaxInt32
}
func (box) level(int, int) int   { return mixLevels }
func (box) inside(int, int) bool { return true }
func (box) reach() int           { return 0 }

func (b box) cover(*pngPen, area) cover { return b }

func (box) pngBevel(p *pngPen, a area, deep float64) {
	c := p.px(deep)
	x0, y0, x1, y1 := p.px(a.x0), p.px(a.y0), p.px(a.x1), p.px(a.y1)
	for y := max(0, int(y0)); y < min(p.h, int(math.Ceil(y1))); y++ {
		fy := float64(y) + 0.5
		for x := max(0, int(x0)); x < min(p.w, int(math.Ceil(x1))); x++ {
			fx := float64(x) + 0.5
			sides := [4]float64{fy - y0, fx - x0, x1 - fx, y1 - fy}
			best := 0
			for i, s := range sides {
				if s < sides[best] {
					best = i
				}
			}
			if sides[best] >= 0 && sides[best] < c {
				p.lit(x, y, [4]int{3, 2, -2, -3}[best])
			} else if sides[0] > c && sides[3] > c && sides[1] > c {
				x = max(x, int(x1-c)-1) // nothing to light in the middle
			}
		}
	}
}

func (circle) cover(p *pngPen, a area) cover {
	return disc{p.px((a.x0 + a.x1) / 2), p.px((a.y0 + a.y1) / 2), p.px((a.x1 - a.x0) / 2)}
}

func (circle) pngBevel(p *pngPen, a area, deep float64) {
	c := p.px(deep)
	x0, y0, x1, y1 := p.px(a.x0), p.px(a.y0), p.px(a.x1), p.px(a.y1)
	r := (x1 - x0) / 2
	for y := max(0, int(y0)); y < min(p.h, int(math.Ceil(y1))); y++ {
		for x := max(0, int(x0)); x < min(p.w, int(math.Ceil(x1))); x++ {
			dx, dy := float64(x)+0.5-(x0+x1)/2, float64(y)+0.5-(y0+y1)/2
			if d := math.Hypot(dx, dy); d <= r-0.3 && d > r-c {
				p.lit(x, y, int(math.Round(-3*(dx+dy)/(d*math.Sqrt2))))
			}
		}
	}
}

// lit lights a pixel of the picture, or shades it.
func (p *pngPen) lit(x, y, level int) {
	if at := p.pixel(x, y); at != nil {
		*at = p.inks.light(*at, level)
	}
}

// fine is into how many lines a row is parted to see how much of a pixel is covered.
const fine = 4

// A hull is what lies on each line between the sides of a polygon without hollows, in
// pixels: from left to right on the lines from the top row on.
type hull struct {
	top         int
	left, right []float64
}

// hullOf returns the hull of points in pixels, parted into so many lines a row.
func hullOf(p *pngPen, points []point, lines int) hull {
	low, high := math.Inf(1), math.Inf(-1)
	for _, at := range points {
		low, high = min(low, at.y), max(high, at.y)
	}
	h := hull{top: max(0, int(low))}
	n := lines * max(0, min(p.h, int(math.Ceil(high)))-h.top)
	h.left, h.right = make([]float64, n), make([]float64, n)
	for i := range n {
		h.left[i], h.right[i] = math.Inf(1), math.Inf(-1)
	}
	at := func(y float64) float64 { return (y-float64(h.top))*float64(lines) - 0.5 } // in lines
	for i, a := range points {
		b := points[(i+1)%len(points)]
		if a.y > b.y {
			a, b = b, a
		}
		for k := max(0, int(math.Ceil(at(a.y)))); k < n && float64(k) < at(b.y); k++ {
			x := a.x + (b.x-a.x)*(float64(k)-at(a.y))/(at(b.y)-at(a.y))
			h.left[k], h.right[k] = min(h.left[k], x), max(h.right[k], x)
		}
	}
	return h
}

// span returns the pixels of a row that some line touches, x0 up to x1, and those that
// all lines cover.
func (h hull) span(y int) (x0, in0, in1, x1 int) {
	k := (y - h.top) * fine
	if k < 0 || k >= len(h.left) {
		return 0, 0, 0, 0
	}
	least, most, from, to := math.Inf(1), math.Inf(-1), math.Inf(-1), math.Inf(1)
	for i := k; i < k+fine; i++ {
		least, most = min(least, h.left[i]), max(most, h.right[i])
		from, to = max(from, h.left[i]), min(to, h.right[i])
	}
	if least > most {
		return 0, 0, 0, 0
	}
	x0, x1 = int(math.Floor(least)), int(math.Ceil(most))
	if from >= to {
		return x0, x1, x1, x1
	}
	in0, in1 = int(math.Ceil(from)), int(math.Floor(to))
	return x0, min(in0, x1), max(in0, in1), x1
}

// level returns how much of a pixel is covered.
func (h hull) level(x, y int) int {
	sum, k := 0.0, (y-h.top)*fine
	for i := k; i < k+fine; i++ {
		sum += max(0, min(h.right[i], float64(x+1))-max(h.left[i], float64(x)))
	}
	return int(math.Round(sum / fine * mixLevels))
}

func (h hull) inside(x, y int) bool {
	_, in0, in1, _ := h.span(y)
	return x >= in0 && x < in1
}

func (hull) reach() int { return 1 }

// pixels returns the corners in pixels.
func (f polygon) pixels(p *pngPen, a area) []point {
	out := f.points(a)
	for i, at := range out {
		out[i] = point{p.px(at.x), p.px(at.y)}
	}
	return out
}

func (f polygon) cover(p *pngPen, a area) cover { return hullOf(p, f.pixels(p, a), fine) }

// pngBevel lights the bevel side by side of the polygon, each down to where its
// neighbours' meet it; none goes beyond the middle lines, where opposite sides meet.
func (f polygon) pngBevel(p *pngPen, a area, deep float64) {
	at, n := f.pixels(p, a), len(f)
	middle := point{p.px((a.x0 + a.x1) / 2), p.px((a.y0 + a.y1) / 2)}
	out := make([]point, n) // outward, of the side behind each corner
	for i := range out {
		b := at[(i+1)%n]
		long := math.Hypot(b.x-at[i].x, b.y-at[i].y)
		out[i] = point{(b.y - at[i].y) / long, (at[i].x - b.x) / long}
		if out[i].x*(at[i].x-middle.x)+out[i].y*(at[i].y-middle.y) < 0 {
			out[i] = point{-out[i].x, -out[i].y}
		}
	}
	foot := make([]point, n) // of the bevel, beneath each corner
	for i := range foot {
		u, v := out[(i+n-1)%n], out[i]
		by := 1 + u.x*v.x + u.y*v.y
		x, y := -(u.x+v.x)/by, -(u.y+v.y)/by
		down := p.px(deep)
		if to := (middle.x - at[i].x) / x; to > 0 {
			down = min(down, to)
		}
		if to := (middle.y - at[i].y) / y; to > 0 {
			down = min(down, to)
		}
		foot[i] = point{at[i].x + down*x, at[i].y + down*y}
	}
	for i, o := range out {
		k := (i + 1) % n
		side := hullOf(p, []point{at[i], at[k], foot[k], foot[i]}, 1)
		level := int(math.Round(-3 * (o.x + o.y) / math.Sqrt2))
		for row := range side.left {
			// The middles of pixels: so each belongs to one side.
			for x := int(math.Ceil(side.left[row] - 0.5)); float64(x)+0.5 < side.right[row]; x++ {
				p.lit(x, side.top+row, level)
			}
		}
	}
}
