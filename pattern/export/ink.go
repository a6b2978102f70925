package export

import (
	"image/color"

	"example.com/oddments/species"
)

// mixLevels is how many steps lie between two colours at an edge.
const mixLevels = 4

// Inks are the colours of a picture in pixels, at most 256. What comes when all are
// taken gets the nearest of them, so what must be exact comes first.
type inks struct {
	list  []species.RGB
	of    map[species.RGB]uint8
	mixes []uint16 // by level, under and over: the ink and 1; 0: not asked for yet
	lit   [7][256]uint16
}

func newInks() *inks {
	return &inks{of: map[species.RGB]uint8{}, mixes: make([]uint16, (mixLevels-1)<<16)}
}

// at returns the ink of a colour.
func (k *inks) at(c species.RGB) uint8 {
	if n, ok := k.of[c]; ok {
		return n
	}
	n := uint8(0)
	if len(k.list) < 256 {
		n = uint8(len(k.list))
		k.list = append(k.list, c)
	} else {
		n = k.nearest(c)
	}
	k.of[c] = n
	return n
}

func (k *inks) nearest(c species.RGB) uint8 {
	best, least := 0, 1<<30
	for i, o := range k.list {
		r, g, b := int(c.R)-int(o.R), int(c.G)-int(o.G), int(c.B)-int(o.B)
		if d := 2*r*r + 4*g*g + 3*b*b; d < least {
			best, least = i, d
		}
	}
	return uint8(best)
}

// mix returns ink under with level of mixLevels of over upon it.
func (k *inks) mix(under, over uint8, level int) uint8 {
	switch {
	case level <= 0 || under == over:
		return under
	case level >= mixLevels:
		return over
	}
	known := &k.mixes[(level-1)<<16|int(under)<<8|int(over)]
	if *known == 0 {
		*known = 1 + uint16(k.at(between(k.list[under], k.list[over], float64(level)/mixLevels)))
	}
	return uint8(*known - 1)
}

// light returns an ink in the light of a bevel: -3 in its shade to 3 full upon it.
func (k *inks) light(under uint8, level int) uint8 {
	known := &k.lit[level+3][under]
	if *known == 0 {
		over := paper
		if level < 0 {
			over = species.RGB{}
		}
		*known = 1 + uint16(k.at(between(k.list[under], over, 0.09*float64(max(level, -level)))))
	}
	return uint8(*known - 1)
}

// between returns a with so much of b.
func between(a, b species.RGB, share float64) species.RGB {
	part := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*share + 0.5) }
	return species.RGB{R: part(a.R, b.R), G: part(a.G, b.G), B: part(a.B, b.B)}
}

// palette returns the inks as an image has them.
func (k *inks) palette() color.Palette {
	out := make(color.Palette, len(k.list))
	for i, c := range k.list {
		out[i] = color.RGBA{R: c.R, G: c.G, B: c.B, A: 255}
	}
	return out
}
