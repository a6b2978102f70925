package export

import (
	"image"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font"
)

// A pngPen draws the ops of a page in pixels, each of which is one of few inks: so a
// picture is quick to draw and to pack (BenchmarkPNG8000 has the figures). An op knows
// how it is drawn in either form; what is laid out on a page does not.
type pngPen struct {
	img   *image.Paletted
	inks  *inks
	scale float64 // pixels to a millimetre
	w, h  int
	wood  wood
	bases []uint8 // inks of the planks
	faces map[fontKey]font.Face
}

// writePNG writes the picture of a job.
func writePNG(w io.Writer, j Job) error {
	s, err := displayOf(j)
	if err != nil {
		return err
	}
	var img image.Image
	if len(s.pages) > 1 {
		img = s.drawn(j.Look.width())
	} else {
		img = s.pages[0].drawn(j.Look.width())
	}
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	return encoder.Encode(w, img)
}

// drawn returns a page in pixels.
func (pg page) drawn(across int) *image.Paletted {
	p := newPNGPen(pg, across)
	for _, o := range pg.ops {
		o.png(p)
	}
	p.img.Palette = p.inks.palette()
	return p.img
}

func newPNGPen(pg page, across int) *pngPen {
	scale := float64(across) / pg.wide
	p := &pngPen{inks: newInks(), scale: scale, w: across, h: max(1, int(math.Ceil(pg.high*scale-1e-6))), wood: pg.wood,
		faces: map[fontKey]font.Face{}}
	p.img = image.NewPaletted(image.Rect(0, 0, p.w, p.h), nil)
	p.inks.at(pg.ground) // ink 0: the picture starts as what all lies on
	p.inks.at(paper)
	p.inks.at(ink)
	p.inks.at(faint)
	for _, k := range pg.wood.planks {
		p.bases = append(p.bases, p.inks.at(k.shades[shadeBase]))
	}
	return p
}

// row fills pixels x0 up to x1 of a row.
func (p *pngPen) row(y, x0, x1 int, n uint8) {
	x0, x1 = max(0, x0), min(p.w, x1)
	if y < 0 || y >= p.h || x0 >= x1 {
		return
	}
	line := p.img.Pix[y*p.img.Stride+x0 : y*p.img.Stride+x1]
	line[0] = n
	for done := 1; done < len(line); done *= 2 {
		copy(line[done:], line[:done])
	}
}

// dot puts so much of an ink over a pixel.
func (p *pngPen) dot(x, y int, n uint8, level int) {
	if at := p.pixel(x, y); at != nil && level > 0 {
		*at = p.inks.mix(*at, n, level)
	}
}

// pixel returns the ink of a pixel, or nil outside the picture.
func (p *pngPen) pixel(x, y int) *uint8 {
	if x < 0 || y < 0 || x >= p.w || y >= p.h {
		return nil
	}
	return &p.img.Pix[y*p.img.Stride+x]
}

func (p *pngPen) px(mm float64) float64 { return mm * p.scale }

// whole returns the pixel edge nearest to mm, within what an image can have.
func (p *pngPen) whole(mm float64) int {
	return int(math.Round(math.Max(-1e6, math.Min(1e6, p.px(mm)))))
}

// A disc is a round in pixels.
type disc struct{ x, y, r float64 }

// level returns how much of a pixel lies in the disc.
func (d disc) level(x, y int) int {
	off := math.Hypot(float64(x)+0.5-d.x, float64(y)+0.5-d.y) - d.r
	return int(math.Round(mixLevels * math.Max(0, math.Min(1, 0.5-off))))
}

// edge is how far, in pixels, the edge of a disc reaches either way.
const edge = 0.75

// span returns the pixels of a row that the disc touches, x0 up to x1, and those in it
// that it covers, in0 up to in1, which may be none.
func (d disc) span(y int) (x0, in0, in1, x1 int) {
	dy := math.Abs(float64(y) + 0.5 - d.y)
	if dy >= d.r+edge {
		return 0, 0, 0, 0
	}
	outer := math.Sqrt((d.r+edge)*(d.r+edge) - dy*dy)
	x0, x1 = int(math.Floor(d.x-outer)), int(math.Ceil(d.x+outer))
	if dy >= d.r-edge {
		middle := (x0 + x1) / 2
		return x0, middle, middle, x1
	}
	inner := math.Sqrt((d.r-edge)*(d.r-edge) - dy*dy)
	in0, in1 = int(math.Ceil(d.x-inner)), int(math.Floor(d.x+inner))
	if in1 < in0 {
		in0, in1 = (in0+in1)/2, (in0+in1)/2
	}
	return x0, in0, in1, x1
}

// inside reports whether the middle of a pixel lies well within the disc.
func (d disc) inside(x, y int) bool {
	dx, dy, r := float64(x)+0.5-d.x, float64(y)+0.5-d.y, d.r-edge
	return dx*dx+dy*dy < r*r
}

func (disc) reach() int { return 1 }

func (o discOp) png(p *pngPen) {
	d := disc{p.px(o.centre.x), p.px(o.centre.y), p.px(o.r)}
	for y := max(0, int(d.y-d.r-1)); y < min(p.h, int(d.y+d.r+2)); y++ {
		if !o.shade {
			p.coverRow(d, y, 0, p.w, p.inks.at(o.colour))
			continue
		}
		x0, _, _, x1 := d.span(y)
		for x := x0; x < x1; x++ {
			if d.level(x, y) > mixLevels/2 {
				p.lit(x, y, -3)
			}
		}
	}
}

// A pane is the part of the picture that a woodOp draws in.
type pane struct {
	cover       cover
	x0, x1      int
	y0, y1      int
	dx, dy      float64 // what of the wood lies where, in pixels
	left, right int     // of the plank that is being drawn
	top, bottom int
}

func (o woodOp) png(p *pngPen) {
	a := o.in.moved(o.at)
	v := pane{cover: a.form.cover(p, a), x0: p.whole(a.x0), x1: p.whole(a.x1), y0: p.whole(a.y0), y1: p.whole(a.y1),
		dx: p.px(o.at.x), dy: p.px(o.at.y)}
	e := v.cover.reach()
	v.x0, v.x1, v.y0, v.y1 = v.x0-e, v.x1+e, v.y0-e, v.y1+e
	first, end := p.wood.under(o.in.y0, o.in.y1)
	for i := first; i < end; i++ {
		k := p.wood.planks[i]
		v.left, v.right = max(v.x0, p.whole(k.x0+o.at.x)), min(v.x1, p.whole(k.x1+o.at.x))
		v.top, v.bottom = p.whole(k.y0+o.at.y), p.whole(k.y1+o.at.y)
		if i == first {
			v.top = v.y0
		}
		if i == end-1 {
			v.bottom = v.y1
		}
		v.top, v.bottom = max(v.top, v.y0), min(v.bottom, v.y1)
		p.plank(v, i)
	}
}

// plank draws one plank in a pane, with its grain and its seam.
func (p *pngPen) plank(v pane, i int) {
	k, base := p.wood.planks[i], p.bases[i]
	for y := max(0, v.top); y < min(p.h, v.bottom); y++ {
		p.coverRow(v.cover, y, v.left, v.right, base)
	}
	for _, vein := range k.veins {
		n, wide := p.inks.at(k.shades[vein.shade]), p.px(vein.wide)
		from := v.on(p, vein.from)
		for _, c := range vein.curves {
			by, to := v.on(p, c.by), v.on(p, c.to)
			p.curve(from, by, to, wide, func(x, y, level int) {
				if v.inside(x, y) && p.img.Pix[y*p.img.Stride+x] == base {
					p.dot(x, y, n, level)
				}
			})
			from = to
		}
	}
	if k.seam && i > 0 && v.top > v.y0 {
		before := p.wood.planks[i-1]
		n := p.inks.at(k.shades[shadeSeam])
		from, to := v.on(p, point{max(before.x0, k.x0), 0}), v.on(p, point{min(before.x1, k.x1), 0})
		for x := max(v.left, int(from.x)); x < min(v.right, int(to.x)); x++ {
			if v.inside(x, v.top) {
				p.dot(x, v.top, n, 3)
			}
		}
	}
}

// on returns a point of the wood in pixels.
func (v pane) on(p *pngPen, at point) point {
	return point{p.px(at.x) + v.dx, p.px(at.y) + v.dy}
}

// inside reports whether a pixel lies well within the plank in the pane.
func (v pane) inside(x, y int) bool {
	if x < v.left || x >= v.right || y < v.top || y >= v.bottom || x < 0 || y < 0 {
		return false
	}
	return v.cover.inside(x, y)
}
