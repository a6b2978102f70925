package export

import (
	"image"
	"math"

	"golang.org/x/image/vector"
)

// curve draws a quadratic curve in pixels, as straight pieces that nobody sees.
func (p *pngPen) curve(from, by, to point, wide float64, put func(x, y, level int)) {
	long := math.Hypot(by.x-from.x, by.y-from.y) + math.Hypot(to.x-by.x, to.y-by.y)
	// How far the curve leaves its chord says how many pieces it takes.
	bow := math.Hypot(from.x-2*by.x+to.x, from.y-2*by.y+to.y) / 4
	n := max(1, min(64, int(math.Ceil(math.Sqrt(2*bow))), int(long/2)))
	at := from
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		a, b, c := (1-t)*(1-t), 2*t*(1-t), t*t
		next := point{a*from.x + b*by.x + c*to.x, a*from.y + b*by.y + c*to.y}
		p.line(at, next, wide, put)
		at = next
	}
}

// line draws a straight line so many pixels wide: pixel by pixel along its longer way,
// and across it as much of each pixel as it covers.
func (p *pngPen) line(a, b point, wide float64, put func(x, y, level int)) {
	dx, dy := b.x-a.x, b.y-a.y
	if steep := math.Abs(dy) > math.Abs(dx); steep {
		along(a.y, a.x, b.y, b.x, wide, p.h, func(y, x, level int) { put(x, y, level) })
		return
	}
	along(a.x, a.y, b.x, b.y, wide, p.w, put)
}

// along draws a line that goes further in u than in v; u stays within 0 up to most.
func along(u0, v0, u1, v1, wide float64, most int, put func(u, v, level int)) {
	if u0 > u1 {
		u0, v0, u1, v1 = u1, v1, u0, v0
	}
	if u1 == u0 {
		return
	}
	lean := (v1 - v0) / (u1 - u0)
	half := wide / 2 * math.Sqrt(1+lean*lean)
	for u := max(0, int(math.Round(u0))); u < min(most, int(math.Round(u1))); u++ {
		v := v0 + lean*(float64(u)+0.5-u0)
		low, high := v-half, v+half
		first := math.Floor(low)
		for c := first; c < high; c++ {
			cover := min(high, c+1) - max(low, c)
			put(u, int(c), int(cover*mixLevels+0.5))
		}
	}
}

func (o strokeOp) png(p *pngPen) {
	n := p.inks.at(o.colour)
	points := o.points
	if o.closed && len(points) > 0 {
		points = append(append([]point(nil), points...), points[0])
	}
	wide := max(1, p.px(o.wide))
	draw := func(a, b point) {
		p.line(point{p.px(a.x), p.px(a.y)}, point{p.px(b.x), p.px(b.y)}, wide, func(x, y, level int) { p.dot(x, y, n, level) })
	}
	if !o.dashed {
		for i := 1; i < len(points); i++ {
			a, b := points[i-1], points[i]
			if long := math.Hypot(b.x-a.x, b.y-a.y); long > 4*o.wide {
				// Corners are filled by lines that reach over them.
				e := o.wide / 2 / long
				a, b = point{a.x - e*(b.x-a.x), a.y - e*(b.y-a.y)}, point{b.x + e*(b.x-a.x), b.y + e*(b.y-a.y)}
			}
			draw(a, b)
		}
		return
	}
	dashes(points, dashOf(o.wide), dashOf(o.wide)*0.7, draw)
}

// dashes parts a line into dashes on long and off between.
func dashes(points []point, on, off float64, draw func(a, b point)) {
	if on <= 0 || off <= 0 {
		return
	}
	at := 0.0 // along the dash and the gap behind it
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		for done := 0.0; done < long; {
			end := on
			if at >= on {
				end = on + off
			}
			step := min(end-at, long-done)
			if at < on {
				p := func(d float64) point { return point{a.x + (b.x-a.x)*d/long, a.y + (b.y-a.y)*d/long} }
				draw(p(done), p(done+step))
			}
			done += step
			if at += step; at >= on+off-1e-9 {
				at = 0
			}
			if step <= 0 {
				break
			}
		}
	}
}

func (o fillOp) png(p *pngPen) {
	// Corners on whole pixels, so that neighbours leave no seam.
	x0, y0, x1, y1 := p.w, p.h, 0, 0
	pts := make([][2]int, len(o.points))
	for i, at := range o.points {
		x, y := p.whole(at.x), p.whole(at.y)
		pts[i] = [2]int{x, y}
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
	}
	x0, y0, x1, y1 = max(0, x0), max(0, y0), min(p.w, x1), min(p.h, y1)
	if x1 <= x0 || y1 <= y0 {
		return
	}
	r := vector.NewRasterizer(x1-x0, y1-y0)
	for i, at := range pts {
		x, y := float32(at[0]-x0), float32(at[1]-y0)
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
	mask := image.NewAlpha(image.Rect(0, 0, x1-x0, y1-y0))
	r.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	p.stamp(mask, x0, y0, p.inks.at(o.colour))
}

// Hatching stands on sheets alone; a picture in pixels that had some would show its
// paper.
func (o hatchOp) png(p *pngPen) { fillOp{o.box, paper}.png(p) }

// stamp puts an ink where a mask says.
func (p *pngPen) stamp(mask *image.Alpha, x0, y0 int, n uint8) {
	b := mask.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			if a := mask.Pix[y*mask.Stride+x]; a > 31 {
				p.dot(x0+x, y0+y, n, (int(a)*mixLevels+127)/255)
			}
		}
	}
}

func (o bevelOp) png(p *pngPen) { o.of.form.pngBevel(p, o.of, o.deep) }
