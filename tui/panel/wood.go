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
// wood darker in fine steps, early wood hardly lighter.
var lightening = [shadeCount]float64{-5.5, -3.8, -2.5, -1.4, -0.5, 0.3, 1.0, 1.8}

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
		return 1
	default:
		return 0.75
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

// wood paints the strips in half blocks.
func (d drawing) wood() {
	colours := d.c.Palette()
	var before *timberShades
	var left Span
	for i, s := range d.l.Strips {
		t := d.palette.of(d.timbers[i], colours)
		g := newGrain(d.timbers[i], d.v.Pattern.Strips[s.Strip], s)
		d.strip(s, t, g)
		if before != nil && d.palette.differ(before.base, t.base) < seamBelow {
			d.seam(left, s, t, g)
		}
		before, left = t, s
	}
}

func (d drawing) strip(s Span, t *timberShades, g grain) {
	for row := s.Top / 2; row < (s.Bottom+1)/2; row++ {
		for x := range s.W {
			var top, bottom paint.Colour
			if y := 2 * row; y >= s.Top {
				top = t.shades[g.at(x, y-s.Top)]
			}
			if y := 2*row + 1; y < s.Bottom {
				bottom = t.shades[g.at(x, y-s.Top)]
			}
			d.c.Halves(s.X+x, d.l.Wood.Y+row, top, bottom)
		}
	}
}

// seam draws a hairline down the left edge of strip s, where the strip left of it
// lies beside it.
func (d drawing) seam(left, s Span, t *timberShades, g grain) {
	if s.W < 2 {
		return
	}
	from, to := max(left.Top, s.Top), min(left.Bottom, s.Bottom)
	for row := (from + 1) / 2; row < to/2; row++ {
		shade := t.shades[g.at(0, 2*row-s.Top)]
		d.c.Set(s.X, d.l.Wood.Y+row, '▏', paint.Style{FG: t.seam, BG: shade})
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
	span := Span{X: r.X, W: r.W, Bottom: 2 * r.H}
	l := Layout{Rect: r, Wood: r}
	g := newGrain(s, pattern.Strip{Species: s.Key, Rings: pattern.RingsQuarter()}, span)
	drawing{c: c, l: l}.strip(span, palette.of(s, c.Palette()), g)
}
