package panel

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/species"
)

// grain is the shade of each half cell of one strip. It depends on the timber,
// the strip's place and what is known of it alone, so that a frame drawn twice is
// the same.
type grain struct {
	w, h           int
	seed           uint32
	look           rune // as Rings.Mark has it
	apex           float64
	rings, bend    float64
	slant          float64
	pores          uint32 // of 256 half cells, how many show a dark pore
	turned, across bool   // mirrored along and across
}

func newGrain(t species.Species, s pattern.Strip, at Span) grain {
	g := grain{
		w: at.W, h: max(1, at.To-at.From),
		seed: seedOf(t.Key, at.Strip),
		look: s.Rings.Mark(),
		// End for end mirrors both ways, the other face up only across.
		turned: s.Turned, across: s.Turned != s.Over,
	}
	g.apex = 0.7 * (g.random(1) - 0.5)
	g.rings = 1.4 + 1.2*g.random(2)
	g.bend = 1.3 + 0.8*g.random(3)
	g.slant = 0.03 + 0.03*g.random(4)
	if g.random(5) < 0.5 {
		g.rings, g.slant = -g.rings, -g.slant
	}
	switch {
	case t.Pores == "ring":
		g.pores = 20
	case t.OpenPored:
		g.pores = 12
	}
	return g
}

// rays is of how many of 256 places of a quarter face that show a ray across the grain.
const rays = 16

// at returns the shade at column x, half row y, both from the strip's corner.
func (g grain) at(x, y int) int {
	if g.turned {
		y = g.h - 1 - y
	}
	if g.across {
		x = g.w - 1 - x
	}
	var v float64 // -1 dark to 1 light
	switch g.look {
	case '=':
		v = g.arches(x, y)
	case '|':
		v = 1.3*(g.noise(11, float64(x)*1.7, 0)-0.5) + 0.5*(g.noise(12, float64(x), float64(y)/14)-0.5)
		if hash(g.seed^0x2a17, uint32(x/2), uint32(y))&255 < rays {
			return shadeCount - 1
		}
		v = min(v, 0.6)
	default:
		v = 1.9 * (g.noise(13, float64(x)*1.1+float64(y)*g.slant, float64(y)/30) - 0.5)
	}
	v += 0.4 * (g.noise(14, float64(x), float64(y)/9) - 0.5)
	if g.pores > 0 && hash(g.seed^0x51ed, uint32(x), uint32(y/3))&255 < g.pores {
		v -= 0.3
	}
	return g.shade(v)
}

// arches returns the look of rings that the face cuts flat: nested arches about a
// middle line, each growing slowly darker to its late wood and ending soon after.
func (g grain) arches(x, y int) float64 {
	u := (float64(x)+0.5)/float64(g.w)*2 - 1 - g.apex
	along := float64(y) / float64(g.h)
	t := g.rings*along + g.bend*u*u + 0.4*g.noise(15, float64(x)/4, float64(y)/12)
	f := t - math.Floor(t)
	const late = 0.75 // of a ring, where its late wood is darkest
	if f < late {
		return 0.5 - 1.1*smooth(f/late)
	}
	return -0.6 + 1.1*smooth((f-late)/(1-late))
}

// noise returns a smooth chance value from 0 to 1 that goes its own way in each
// channel, with bumps one unit apart.
func (g grain) noise(channel uint32, x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	ix, iy := uint32(int32(fx)), uint32(int32(fy))
	dx, dy := smooth(x-fx), smooth(y-fy)
	seed := g.seed ^ channel*0x9e3779b9
	a := mix(unit(hash(seed, ix, iy)), unit(hash(seed, ix+1, iy)), dx)
	if dy == 0 {
		return a
	}
	b := mix(unit(hash(seed, ix, iy+1)), unit(hash(seed, ix+1, iy+1)), dx)
	return mix(a, b, dy)
}

// random returns the strip's n-th chance value, from 0 to 1.
func (g grain) random(n uint32) float64 { return unit(hash(g.seed, n, 0)) }

func smooth(d float64) float64    { return d * d * (3 - 2*d) }
func mix(a, b, d float64) float64 { return a + (b-a)*d }
func unit(h uint32) float64       { return float64(h>>8) / (1 << 24) }

// seedOf returns a strip's seed: FNV-1a of its timber's key, with its place.
func seedOf(key string, strip int) uint32 {
	h := uint32(2166136261)
	for i := range len(key) {
		h = (h ^ uint32(key[i])) * 16777619
	}
	return hash(h, uint32(strip), 7)
}

// hash scatters three numbers into one (the finish of MurmurHash3).
func hash(a, b, c uint32) uint32 {
	h := a ^ b*0x85ebca6b ^ c*0xc2b2ae35
	h ^= h >> 16
	h *= 0x85ebca6b
	h ^= h >> 13
	h *= 0xc2b2ae35
	return h ^ h>>16
}
