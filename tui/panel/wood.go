package panel

import (
	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/pattern"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

const (
	shadeCount = 8
	// seamBelow is the colour difference (CIEDE2000) of the colours shown below
	// which a seam is drawn between two strips, to the eye that sees least of it.
	seamBelow = 8.0
	// quiet256 is how far a darker shade may stand off among 256 colours: the
	// steps there are coarse, and a loud grain is worse than none.
	quiet256 = 7.0
)

// lightening is by how much L* each shade stands off the timber's colour: late
// wood darker in fine steps, early wood hardly lighter, and last the rays of a quarter face.
var lightening = [shadeCount]float64{-5.5, -3.8, -2.5, -1.4, -0.5, 0.3, 1.0, 3.4}

// A Palette keeps the shades of timbers and the colour differences between them.
// The zero value is ready; it is not for several goroutines at once, and it is
// for one profile.
type Palette struct {
	timbers  map[timberKey]*timberShades
	contrast map[[2]species.RGB]float64
}

type timberKey struct {
	colour  species.RGB
	pores   string
	profile paint.Profile
}

// timberShades are a timber's colours as the terminal shows them.
type timberShades struct {
	base   species.RGB
	shades [shadeCount]paint.Colour
	seam   paint.Colour
}

// of returns the shades of timber s.
func (p *Palette) of(s species.Species, colours *paint.Palette) *timberShades {
	key := timberKey{s.ColourOiled, s.Pores, colours.Profile()}
	if t, ok := p.timbers[key]; ok {
		return t
	}
	if p.timbers == nil {
		p.timbers = make(map[timberKey]*timberShades)
	}
	t := newShades(s, colours)
	p.timbers[key] = t
	return t
}

func newShades(s species.Species, colours *paint.Palette) *timberShades {
	t := &timberShades{base: colours.Shown(s.ColourOiled)}
	for i, by := range lightening {
		shade := colours.Shown(s.ColourOiled.Lighter(by * coarseness(s.Pores)))
		if colours.Profile() == paint.ANSI256 && (i > 1 || difference(shade, t.base) > quiet256) {
			shade = t.base
		}
		t.shades[i] = paint.Of(shade)
	}
	seam := -13.0
	if t.base.Lightness() < 32 {
		seam = 13
	}
	t.seam = paint.Of(colours.Shown(t.base.Lighter(seam)))
	return t
}

// coarseness returns how much a timber's grain shows, by its pores: large ones in
// the early wood alone mark every ring.
func coarseness(pores string) float64 {
	switch pores {
	case "ring", "softwood":
		return 1.25
	case "semi-ring":
		return 1.1
	default:
		return 1
	}
}

// differ returns the CIEDE2000 difference of two colours to the eye that sees least of
// it, and remembers it.
func (p *Palette) differ(a, b species.RGB) float64 {
	key := [2]species.RGB{a, b}
	if d, ok := p.contrast[key]; ok {
		return d
	}
	if p.contrast == nil {
		p.contrast = make(map[[2]species.RGB]float64)
	}
	d := leastDifference(a, b)
	p.contrast[key] = d
	return d
}

func difference(a, b species.RGB) float64 { return 100 * exact(a).DistanceCIEDE2000(exact(b)) }

func exact(c species.RGB) colorful.Color {
	return colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}
}

// wood paints the panel in half blocks; where something is cut out of it the waste is faded.
func (d drawing) wood() {
	colours := d.c.Palette()
	p := newPixels(d.l)
	seams := make([]*timberShades, len(d.l.Strips)) // what the seam before a strip is drawn in
	var before *timberShades
	for i, s := range d.l.Strips {
		t := d.palette.of(d.timbers[i], colours)
		waste := faded(d.timbers[i].ColourOiled, colours)
		p.strip(s, t, newGrain(d.timbers[i], d.v.Pattern.Strips[s.Strip], s), func(at int) (paint.Colour, bool) {
			return waste, d.within != nil && d.within[at] == 0
		})
		usual := d.palette.of(lookUp(d.v.Timber, d.v.Pattern.Strips[s.Strip].Species).As(d.v.Pattern.Strips[s.Strip].Colour), colours)
		if before != nil && d.within == nil && d.palette.differ(before.base, usual.base) < seamBelow {
			seams[i] = t
		}
		before = usual
		p.joints(s, d.l.joints(s, d.v.Pattern.Strips[s.Strip]), t.seam)
	}
	if d.v.Board != nil {
		d.tiles.Paint(colours, d.palette, func(x, half int, c paint.Colour) {
			at := half*p.l.Wood.W + x
			if rgb, ok := c.RGB(); ok && d.within != nil && d.within[at] == 0 {
				c = faded(rgb, colours)
			}
			p.cells[at] = c
		})
	}
	d.holes(func(x, y int) { p.cells[y*p.l.Wood.W+x] = paint.Of(colours.Shown(species.RGB{R: 24, G: 18, B: 14})) })
	p.show(d.c)
	for i, t := range seams {
		if t != nil {
			p.seam(d.c, d.l.Strips[i-1], d.l.Strips[i], t)
		}
	}
}

// pixels are the half cells of a panel's wood, row by row.
type pixels struct {
	l     Layout
	cells []paint.Colour
}

func newPixels(l Layout) pixels {
	return pixels{l: l, cells: make([]paint.Colour, l.Wood.W*2*l.Wood.H)}
}

// at returns the half cell of a strip so far across and along it.
func (p pixels) at(s Span, across, along int) int {
	if p.l.Lies {
		return (s.X-2*p.l.Wood.Y+across)*p.l.Wood.W + along
	}
	return along*p.l.Wood.W + s.X - p.l.Wood.X + across
}

// strip paints a strip, but where instead has another colour. Its grain is the same either
// way: it begins at the far end.
func (p pixels) strip(s Span, t *timberShades, g grain, instead func(at int) (paint.Colour, bool)) {
	for along := s.From; along < s.To; along++ {
		y := along - s.From
		if p.l.Lies {
			y = s.To - 1 - along
		}
		for across := range s.W {
			at := p.at(s, across, along)
			colour, other := instead(at)
			if !other {
				colour = t.shades[g.at(across, y)]
			}
			p.cells[at] = colour
		}
	}
}

// joints opens a strip where its pieces stand apart, and draws a seam where they touch.
func (p pixels) joints(s Span, all []opening, seam paint.Colour) {
	for _, o := range all {
		for across := range s.W {
			for along := o.from; along < o.to; along++ {
				if p.cells[p.at(s, across, along)] = paint.Default; o.seam {
					p.cells[p.at(s, across, along)] = seam
				}
			}
		}
	}
}

// show draws them.
func (p pixels) show(c *paint.Canvas) {
	w := p.l.Wood
	for y := range w.H {
		for x := range w.W {
			c.Halves(w.X+x, w.Y+y, p.cells[2*y*w.W+x], p.cells[(2*y+1)*w.W+x])
		}
	}
}

// seam draws a hairline along the edge of strip s, where the one before it lies beside it.
func (p pixels) seam(c *paint.Canvas, before, s Span, t *timberShades) {
	from, to := max(before.From, s.From), min(before.To, s.To)
	if s.W < 2 {
		return
	}
	if p.l.Lies {
		for x := from; x < to && s.X%2 == 0; x++ {
			c.Set(p.l.Wood.X+x, s.X/2, '▔', paint.Style{FG: t.seam, BG: p.cells[p.at(s, 1, x)]})
		}
		return
	}
	for row := (from + 1) / 2; row < to/2; row++ {
		c.Set(s.X, p.l.Wood.Y+row, '▏', paint.Style{FG: t.seam, BG: p.cells[p.at(s, 0, 2*row)]})
	}
}

// Swatch fills r with timber s as the panel shows it: its colour with some grain,
// or its texture.
func Swatch(c *paint.Canvas, r paint.Rect, s species.Species, palette *Palette) {
	r = r.Intersect(c.Bounds())
	if r.Empty() {
		return
	}
	if !c.Profile().ShowsWood() {
		c.Fill(r, textures[naturalTexture(s.ColourOiled)], paint.Style{})
		return
	}
	span := Span{X: r.X, W: r.W, To: 2 * r.H}
	p := newPixels(Layout{Wood: r})
	g := newGrain(s, pattern.Strip{Species: s.Key, Rings: pattern.RingsQuarter()}, span)
	p.strip(span, palette.of(s, c.Palette()), g, func(int) (none paint.Colour, other bool) { return none, false })
	p.show(c)
}
