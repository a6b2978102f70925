package export

import (
	"fmt"
	"html/template"
	"image"
	"math"

	"golang.org/x/image/vector"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/work"
	"example.com/oddments/species"
)

// A tile is one cell of a board as it lies in it.
type tile struct {
	points []point
	shades [shadeCount]species.RGB
	veins  []vein
}

// boardOf returns the board of a second glue-up as wood: one plank with its cells on it.
func boardOf(j Job, g second.GlueUp) wood {
	if len(g.Cells) == 0 {
		return wood{}
	}
	planks := panelOf(j).planks
	w := wood{x1: g.Size.Length.MM(), high: g.Size.Width.MM()}
	for _, c := range g.Cells {
		t := tile{shades: planks[c.Strip-1].shades}
		for _, p := range c.Points {
			t.points = append(t.points, point{p.X.MM(), p.Y.MM()})
		}
		w.tiles = append(w.tiles, t)
	}
	w.cells = g
	w.planks = []plank{{number: 1, x1: w.x1, y1: w.high, shades: w.tiles[0].shades}}
	return w
}

// mostTileVeins bounds the grain of a board: beyond it cells are plain.
const mostTileVeins = 30_000

// grainTiles draws the grain of every cell: the rings of end grain, the lines of long.
func (w *wood) grainTiles(j Job, fine float64) {
	total := 0
	for i, c := range w.cells.Cells {
		t := &w.tiles[i]
		if total > mostTileVeins {
			return
		}
		low, high := c.Box()
		if min(high.X-low.X, high.Y-low.Y).MM() < 3*fine {
			continue
		}
		s := j.Work.Pattern.Strips[c.Strip-1]
		r := rngOf(s.Species, c.Strip)
		if w.cells.EndGrain {
			t.rings(c, &r, s.Rings.Degrees(), fine)
		} else {
			t.lines(c, &r, fine)
		}
		total += len(t.veins)
	}
}

// rings draws the growth rings of end grain: arcs about the heart of the log, which lies
// where the strip's rings say, alike in every cell of a strip.
func (t *tile) rings(c second.Cell, r *rng, degrees, fine float64) {
	heart, gap := r.between(20, 50), max(r.between(1.6, 2.6), 1.5*fine)
	if r.next() < 0.5 {
		degrees = -degrees // the side that the rings lean to
	}
	const aside = 9 // no heart lies just below the middle of its strip
	sin, cos := math.Sincos((degrees + r.between(-aside, aside)) * math.Pi / 180)
	middle := t.middle()
	// Across the rings: through the panel where they are flat, across the strip where they
	// are upright.
	toHeart := point{-c.Across.X*sin + c.Along.X*cos, -c.Across.Y*sin + c.Along.Y*cos}
	pith := point{middle.x - heart*toHeart.x, middle.y - heart*toHeart.y}
	most := 0.0
	for _, p := range t.points {
		most = max(most, math.Hypot(p.x-middle.x, p.y-middle.y))
	}
	towards := math.Atan2(toHeart.y, toHeart.x)
	for n, radius := 0, heart-most+gap*r.next(); radius < heart+most; n, radius = n+1, radius+gap*r.between(0.6, 1.5) {
		wide := math.Asin(min(1, 1.05*most/max(most, radius)))
		const steps = 8
		on := func(k, radius float64) point {
			sin, cos := math.Sincos(towards + wide*(2*k/steps-1))
			return point{pith.x + radius*cos, pith.y + radius*sin}
		}
		var points, by []point
		for k := range steps + 1 {
			points = append(points, on(float64(k), radius))
			by = append(by, on(float64(k)-0.5, radius/math.Cos(wide/steps))) // where the tangents meet
		}
		t.draw(points, by, n, fine)
	}
}

// lines draws the grain of long wood.
func (t *tile) lines(c second.Cell, r *rng, fine float64) {
	gap, middle, most := max(r.between(2, 3.2), 1.5*fine), t.middle(), 0.0
	for _, p := range t.points {
		most = max(most, math.Hypot(p.x-middle.x, p.y-middle.y))
	}
	for n, off := 0, -most+gap*r.next(); off < most; n, off = n+1, off+gap*r.between(0.6, 1.5) {
		var points []point
		const steps = 10
		for k := range steps + 1 {
			on, aside := most*(2*float64(k)/steps-1), off+0.15*gap*r.between(-1, 1)
			points = append(points, point{middle.x + on*c.Along.X + aside*c.Across.X, middle.y + on*c.Along.Y + aside*c.Across.Y})
		}
		t.draw(points, nil, n, fine)
	}
}

// draw adds the parts of a line that lie well within the cell; by has, where there are any,
// the controls of the curves that end at the points.
func (t *tile) draw(points, by []point, n int, fine float64) {
	v := vein{shade: shadeEarly, wide: max(0.3, fine/3)}
	if n%4 == 0 {
		v.shade, v.wide = shadeLate, max(0.45, fine/2)
	}
	for i := 1; i < len(points); i++ {
		if a, b, ok := t.clip(points[i-1], points[i]); ok {
			line, control := v, point{(a.x + b.x) / 2, (a.y + b.y) / 2}
			if by != nil && a == points[i-1] && b == points[i] {
				control = by[i]
			}
			line.from, line.curves = a, []curve{{by: control, to: b}}
			t.veins = append(t.veins, line)
		}
	}
}

// clip returns the part of a line that lies in the cell.
func (t *tile) clip(a, b point) (point, point, bool) {
	for i, p := range t.points {
		q := t.points[(i+1)%len(t.points)]
		in := func(s point) float64 { return (q.x-p.x)*(s.y-p.y) - (q.y-p.y)*(s.x-p.x) }
		da, db := in(a), in(b)
		switch {
		case da < 0 && db < 0:
			return a, b, false
		case da < 0 || db < 0:
			share := da / (da - db)
			cut := point{a.x + share*(b.x-a.x), a.y + share*(b.y-a.y)}
			if da < 0 {
				a = cut
			} else {
				b = cut
			}
		}
	}
	return a, b, math.Hypot(b.x-a.x, b.y-a.y) > 0.05
}

func (t *tile) middle() (m point) {
	for _, p := range t.points {
		m.x, m.y = m.x+p.x/float64(len(t.points)), m.y+p.y/float64(len(t.points))
	}
	return m
}

// tiles writes the cells with their grain.
func (p *svgPen) tiles(w wood) {
	for _, t := range w.tiles {
		p.put(`<path d="%v" fill="%v" stroke="%v" stroke-width=".1"/>`+"\n", path(t.points, true), t.shades[shadeBase], t.shades[shadeLate])
		p.veins(plank{shades: t.shades, veins: t.veins})
	}
}

// tiles draws the cells that lie in a pane, with their grain.
func (p *pngPen) tiles(v pane) {
	v.left, v.right, v.top, v.bottom = v.x0, v.x1, v.y0, v.y1
	all := make([]placedTile, 0, len(p.wood.tiles))
	for _, t := range p.wood.tiles {
		if at, ok := p.placed(v, t); ok {
			all = append(all, at)
		}
	}
	for _, t := range all {
		p.fillIn(v, t, func(x, y, covered int) {
			if covered >= 127 {
				p.dot(x, y, t.base, mixLevels)
			}
		})
	}
	for _, t := range all { // what a neighbour covers in part shows of both
		if t.slanted {
			p.fillIn(v, t, func(x, y, covered int) {
				if covered < 127 {
					p.dot(x, y, t.base, covered*mixLevels/255)
				}
			})
		}
	}
	for _, t := range all {
		for _, vein := range t.veins {
			n, from := p.inks.at(t.shades[vein.shade]), v.on(p, vein.from)
			for _, c := range vein.curves {
				to := v.on(p, c.to)
				p.curve(from, v.on(p, c.by), to, p.px(vein.wide), func(x, y, level int) {
					if v.inside(x, y) && (image.Point{X: x, Y: y}).In(t.box) {
						p.dot(x, y, n, level)
					}
				})
				from = to
			}
		}
	}
}

// A placedTile is a cell in pixels: square ones end with whole pixels, others where they do.
type placedTile struct {
	tile
	at      []point
	box     image.Rectangle
	base    uint8
	slanted bool
}

func (p *pngPen) placed(v pane, t tile) (placedTile, bool) {
	out := placedTile{tile: t, base: p.inks.at(t.shades[shadeBase])}
	for i, at := range t.points {
		next := t.points[(i+1)%len(t.points)]
		out.slanted = out.slanted || min(math.Abs(next.x-at.x), math.Abs(next.y-at.y)) > 1e-3
		out.at = append(out.at, v.on(p, at))
	}
	least, most := out.at[0], out.at[0]
	for i, at := range out.at {
		if !out.slanted {
			at = point{math.Round(at.x), math.Round(at.y)}
			out.at[i] = at
		}
		if i == 0 {
			least, most = at, at
		}
		least, most = point{min(least.x, at.x), min(least.y, at.y)}, point{max(most.x, at.x), max(most.y, at.y)}
	}
	out.box = image.Rect(int(math.Floor(least.x)), int(math.Floor(least.y)), int(math.Ceil(most.x)), int(math.Ceil(most.y)))
	out.box = out.box.Intersect(image.Rect(max(v.left, 0), max(v.top, 0), min(v.right, p.w), min(v.bottom, p.h)))
	return out, !out.box.Empty()
}

// fillIn hands every pixel of a pane that a cell covers to dot, with how much of 255 it does.
func (p *pngPen) fillIn(v pane, t placedTile, dot func(x, y, covered int)) {
	box := t.box
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	for i, at := range t.at {
		x, y := float32(at.x-float64(box.Min.X)), float32(at.y-float64(box.Min.Y))
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
	mask := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	r.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	for y := range box.Dy() {
		for x := range box.Dx() {
			if c := mask.Pix[y*mask.Stride+x]; c > 0 && v.inside(x+box.Min.X, y+box.Min.Y) {
				dot(x+box.Min.X, y+box.Min.Y, int(c))
			}
		}
	}
}

// boardPictures draws each board as it is laid, its bars numbered in the order of laying,
// and the products on the last.
func boardPictures(j Job) (all []template.HTML) {
	if j.Work.Board == nil {
		return nil
	}
	for i, g := range j.Work.Board.Ups {
		w := boardOf(j, g)
		if len(w.tiles) == 0 {
			continue
		}
		size := 2.6 * max(1.12*w.x1/printedWide, 1.1*w.high/printedHigh)
		l := &layout{job: j, size: size, margin: 1.2 * size, page: page{wood: w}}
		l.wide = w.x1 + 2*l.margin
		l.wood.grainTiles(j, 2.2*l.wide/900)
		at := point{l.margin, 3 * size}
		l.add(woodOp{at: at, in: area{box{}, 0, 0, w.x1, w.high}})
		for n := range g.Bars {
			x0, x1 := barAt(g, n, 0), barAt(g, n, 1)
			l.add(strokeOp{[]point{{at.x + x1, at.y}, {at.x + x1, at.y + w.high}}, false, size / 14, ink, false})
			mark := fmt.Sprint(n + 1)
			if (x1-x0) < wide(mark, size) && n%5 != 4 {
				continue
			}
			l.add(textOp{at: point{at.x + (x0+x1)/2, 2.2 * size}, size: size, text: mark, colour: ink, middle: true})
		}
		if i == len(j.Work.Board.Ups)-1 {
			l.products(at)
		}
		l.high = at.y + w.high + 1.2*size
		says := fmt.Sprintf("The board of second glue-up %d from above, bar 1 at the datum end: %s. %s.", i+1, work.SecondText(g, j.Unit), work.LyingText(g, j.Unit))
		all = append(all, inline(l.page, fmt.Sprintf("%sb%d", j.mark, i+1), "The board", says, ""))
	}
	return all
}

// barAt returns where bar n, from 0, begins on the board, or ends.
func barAt(g second.GlueUp, n, end int) float64 {
	return max(0, min(g.Size.Length, length.Length(n+end)*g.Across-g.Trim)).MM()
}
