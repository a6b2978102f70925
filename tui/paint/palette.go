package paint

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/species"
)

// The part of the 256 colours that every terminal shows alike: a cube of 6x6x6
// and a ramp of greys. The 16 before it are the user's own.
const (
	firstFixed = 16
	firstGrey  = 232
	allColours = 256
)

// A Palette says what a colour becomes in its profile, and remembers what it
// searched for. It is not for several goroutines at once.
type Palette struct {
	profile Profile
	looks   [RoleCount]Style
	fixed   []fixedColour // 16..255; built when first needed
	found   map[Colour]uint8
	recent  [1 << recentBits]recentColour // before found, which costs ten times as much
}

const recentBits = 10

type recentColour struct {
	key   Colour
	index uint8
}

// fixedColour is one of the 256 with its lightness, which the search starts from.
type fixedColour struct {
	rgb     species.RGB
	exact   colorful.Color
	l, a, b float64 // CIE L*a*b*, L* 0..100
}

// NewPalette returns the palette of a profile.
func NewPalette(p Profile) *Palette { return &Palette{profile: p, looks: looks(p)} }

// Profile returns the profile that the palette is for.
func (p *Palette) Profile() Profile { return p.profile }

// Index256 returns the number of the colour from 16 to 255 that is nearest to c by
// CIEDE2000, the lowest of equals.
func (p *Palette) Index256(c species.RGB) uint8 {
	key := Of(c)
	recent := &p.recent[uint32(key)*0x9e3779b1>>(32-recentBits)]
	if recent.key == key { // no colour of wood has the key 0
		return recent.index
	}
	i := p.remembered(key, c)
	*recent = recentColour{key, i}
	return i
}

func (p *Palette) remembered(key Colour, c species.RGB) uint8 {
	const most = 1 << 14 // a run of odd colours must not fill the memory
	if i, ok := p.found[key]; ok {
		return i
	}
	if p.found == nil || len(p.found) >= most {
		p.found = make(map[Colour]uint8)
	}
	i := p.search(c)
	p.found[key] = i
	return i
}

// Shown returns the colour that the terminal really shows for c: c itself, or the
// nearest of the 256.
func (p *Palette) Shown(c species.RGB) species.RGB {
	if p.profile != ANSI256 {
		return c
	}
	return RGB256(p.Index256(c))
}

// OnWood returns the style of a label on wood of colour c: pure black or pure white,
// whichever stands out more from the colour shown, which is at least 4.58 to 1
// (WCAG 2.1 relative luminance). Without wood colours it is plain.
func (p *Palette) OnWood(c species.RGB) Style {
	if !p.profile.ShowsWood() {
		return Style{}
	}
	label := species.RGB{}
	if contrastRatio(species.RGB{R: 255, G: 255, B: 255}, p.Shown(c)) > contrastRatio(label, p.Shown(c)) {
		label = species.RGB{R: 255, G: 255, B: 255}
	}
	return Style{FG: Of(label), BG: Of(c)}
}

// RGB256 returns the colour of number i of the 256, from 16 on, as xterm defines it: those
// before are the user's own.
func RGB256(i uint8) species.RGB {
	if i >= firstGrey {
		grey := 8 + 10*(i-firstGrey)
		return species.RGB{R: grey, G: grey, B: grey}
	}
	levels := [...]uint8{0, 95, 135, 175, 215, 255}
	n := i - firstFixed
	return species.RGB{R: levels[n/36], G: levels[n/6%6], B: levels[n%6]}
}

// search finds the nearest of 16..255. It starts from the nearest by plain distance
// in Lab; the lightness term of CIEDE2000 alone, which the others can only add to
// (the rotation term is smaller than the product it turns), then rules most of the
// others out before the costly formula.
func (p *Palette) search(c species.RGB) uint8 {
	p.build()
	from := fixedOf(c)
	best, plain := 0, math.Inf(1)
	for i, f := range p.fixed {
		if d := (f.l-from.l)*(f.l-from.l) + (f.a-from.a)*(f.a-from.a) + (f.b-from.b)*(f.b-from.b); d < plain {
			best, plain = i, d
		}
	}
	if p.fixed[best].rgb == c {
		return uint8(best + firstFixed)
	}
	nearest := 100 * from.exact.DistanceCIEDE2000(p.fixed[best].exact)
	for i, f := range p.fixed {
		if i == best || lightnessTerm(from.l, f.l) > nearest {
			continue
		}
		if d := 100 * from.exact.DistanceCIEDE2000(f.exact); d < nearest || d == nearest && i < best {
			best, nearest = i, d
		}
	}
	return uint8(best + firstFixed)
}

func (p *Palette) build() {
	if p.fixed != nil {
		return
	}
	p.fixed = make([]fixedColour, allColours-firstFixed)
	for i := range p.fixed {
		p.fixed[i] = fixedOf(RGB256(uint8(i + firstFixed)))
	}
}

func fixedOf(c species.RGB) fixedColour {
	exact := toColorful(c)
	l, a, b := exact.Lab()
	return fixedColour{rgb: c, exact: exact, l: 100 * l, a: 100 * a, b: 100 * b}
}

// lightnessTerm returns the first term of CIEDE2000 for two lightnesses (CIE
// 142-2001), less a hair for rounding.
func lightnessTerm(a, b float64) float64 {
	mid := (a+b)/2 - 50
	weight := 1 + 0.015*mid*mid/math.Sqrt(20+mid*mid)
	return math.Abs(a-b)/weight - 1e-6
}

func toColorful(c species.RGB) colorful.Color {
	return colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}
}

// contrastRatio returns the contrast ratio of WCAG 2.1, 1 to 21.
func contrastRatio(a, b species.RGB) float64 {
	la, lb := luminance(a), luminance(b)
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

// luminance returns the relative luminance of WCAG 2.1, 0 to 1.
func luminance(c species.RGB) float64 {
	r, g, b := toColorful(c).LinearRgb()
	return 0.2126*r + 0.7152*g + 0.0722*b
}
