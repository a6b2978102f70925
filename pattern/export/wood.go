package export

import (
	"slices"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/species"
)

// A point lies on a page or a panel, in millimetres of wood.
type point struct{ x, y float64 }

// Shades of a board: its colour, two for the grain, one for the rays that a quarter face
// shows, and one for a seam beside a strip that looks much like it.
const (
	shadeBase = iota
	shadeEarly
	shadeLate
	shadeRay
	shadeSeam
	shadeCount
)

// A plank is one strip of the wood as it lies in the panel: x along the grain from the
// datum end, y across from edge A.
type plank struct {
	number int // from 1
	x0, x1 float64
	y0, y1 float64
	shades [shadeCount]species.RGB
	seam   bool // it looks much like the one before it
	gaps   []gap
	veins  []vein
}

// A wood is the glued panel. An empty one is a draft.
type wood struct {
	planks []plank
	tiles  []tile // of a board, on its one plank
	cells  second.GlueUp
	x0, x1 float64 // the furthest ends
	high   float64 // glue-up width
}

// seamBelow is the colour difference (CIEDE2000) below which a hairline parts two
// strips.
const seamBelow = 8.0

// woodOf returns what products of a job are cut from, its board or its panel, without the
// grain.
func woodOf(j Job) wood {
	if j.Work.Board != nil {
		return boardOf(j, j.Work.Board.Up())
	}
	return panelOf(j)
}

// panelOf returns the panel of a job, without its grain.
func panelOf(j Job) wood {
	p := j.Work.Pattern
	allowance := j.Physics.Shop().Allowance.Length
	shades := shades{}
	var w wood
	var at length.Length
	var before species.RGB
	for i, s := range p.Strips {
		timber, _ := j.Physics.Table().Get(s.Species)
		k := plank{
			number: i + 1, x0: s.Start.MM(), x1: (s.Start + p.StripLength(s, allowance)).MM(),
			y0: at.MM(), y1: (at + s.Width).MM(), shades: shades.of(timber, s.Colour, i+1, j.Look.Raw),
		}
		for _, g := range s.Joints.All() {
			k.gaps = append(k.gaps, gap{g.From.MM(), g.To.MM()})
		}
		at += s.Width
		base := k.shades[shadeBase]
		k.seam = i > 0 && species.Contrast(before, base) < seamBelow
		before = base
		if i == 0 {
			w.x0, w.x1 = k.x0, k.x1
		}
		w.x0, w.x1 = min(w.x0, k.x0), max(w.x1, k.x1)
		w.planks = append(w.planks, k)
	}
	w.high = at.MM()
	return w
}

// grained returns w with its grain; veins that would lie closer than fine millimetres are
// left out.
func (w wood) grained(j Job, fine float64) wood {
	if len(w.tiles) > 0 {
		w.tiles = slices.Clone(w.tiles)
		w.grainTiles(j, fine)
		return w
	}
	w.planks = slices.Clone(w.planks)
	for i, s := range j.Work.Pattern.Strips {
		timber, _ := j.Physics.Table().Get(s.Species)
		w.planks[i].veins = veinsOf(timber, s, w.planks[i], fine)
	}
	return w
}

// under returns the planks that lie from..to across, as places in planks.
func (w wood) under(from, to float64) (first, end int) {
	first = len(w.planks)
	for i, k := range w.planks {
		if k.y1 > from && k.y0 < to {
			first, end = min(first, i), i+1
		}
	}
	return min(first, end), end
}

// at returns the plank that lies at y, or the nearest.
func (w wood) at(y float64) plank {
	for _, k := range w.planks {
		if y < k.y1 {
			return k
		}
	}
	return w.planks[len(w.planks)-1]
}

// unknownWood stands for a timber without a colour.
var unknownWood = species.RGB{R: 0xB4, G: 0xAC, B: 0xA0}

// A shown is what the shades of a strip go by.
type shown struct {
	base  species.RGB
	pores string
}

// shades keeps those that strips have in common.
type shades map[shown][shadeCount]species.RGB

// of returns the shades of strip number n. A strip with a colour of its own has that; others
// differ as boards of their timber do.
func (k shades) of(t species.Species, own colour.Own, n int, raw bool) [shadeCount]species.RGB {
	one := shown{faceOf(t, own, raw), t.Pores}
	if !own.Known {
		one.base = one.base.Shifted(colour.Board(t.Key, n))
	}
	if _, ok := k[one]; !ok {
		k[one] = shadesOf(one.base, one.pores)
	}
	return k[one]
}

// faceOf returns the colour that a board shows, oiled or raw. What is its own is so under oil,
// and is shifted back as oil shifts its timber.
func faceOf(t species.Species, own colour.Own, raw bool) species.RGB {
	base := own.Or(t.ColourOiled)
	switch {
	case raw && own.Known:
		base = base.Lab().Plus(t.ColourOiled.Lab(), t.Colour.Lab()).RGB()
	case raw:
		base = t.Colour
	}
	if base == (species.RGB{}) {
		return unknownWood
	}
	return base
}

// shadesOf returns the shades of a board. The grain is darker than its timber, on a dark one
// lighter, so that it is seen.
func shadesOf(base species.RGB, pores string) [shadeCount]species.RGB {
	const dark = 32
	grain, seam := -coarse(pores), -14.0
	if base.Lightness() < dark {
		grain, seam = 0.8*coarse(pores), 14
	}
	return [shadeCount]species.RGB{
		shadeBase:  base,
		shadeEarly: base.Lighter(5.5 * grain),
		shadeLate:  base.Lighter(10.5 * grain),
		shadeRay:   base.Lighter(5),
		shadeSeam:  base.Lighter(seam),
	}
}

// coarse returns how much a timber's grain shows, by its pores.
func coarse(pores string) float64 {
	switch pores {
	case "ring", "softwood":
		return 1.5
	case "semi-ring":
		return 1.2
	default:
		return 0.9
	}
}
