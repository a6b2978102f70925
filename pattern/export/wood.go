package export

import (
	"slices"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
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
	veins  []vein
}

// A wood is the glued panel. An empty one is a draft.
type wood struct {
	planks []plank
	x0, x1 float64 // the furthest ends
	high   float64 // glue-up width
}

// seamBelow is the colour difference (CIEDE2000) below which a hairline parts two
// strips.
const seamBelow = 8.0

// woodOf returns the panel of a job, without its grain.
func woodOf(j Job) wood {
	p := j.Work.Pattern
	allowance := j.Physics.Shop().Allowance.Length
	boards := boards{shades: map[board][shadeCount]species.RGB{}}
	var w wood
	var at length.Length
	var before species.RGB
	for i, s := range p.Strips {
		timber, _ := j.Physics.Table().Get(s.Species)
		k := plank{
			number: i + 1, x0: s.Start.MM(), x1: (s.Start + p.StripLength(s, allowance)).MM(),
			y0: at.MM(), y1: (at + s.Width).MM(), shades: boards.of(timber, s.Colour, i+1, j.Look.Raw),
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

// A board is what one strip's shades depend on: its timber, the colour that it has of its own,
// and which of the boards of its timber it is.
type board struct {
	timber string
	own    colour.Own
	which  int
}

// boards keeps the shades of boards; last is the one before.
type boards struct {
	shades map[board][shadeCount]species.RGB
	last   board
}

// differing is how boards of one timber differ from its colour, in CIELAB: about 1 to 3 in
// CIEDE2000, as boards do (common practice, no source). They are few, since a picture in
// pixels has few inks.
func differing() []colour.Lab {
	return []colour.Lab{{}, {L: 2.4, A: -0.4, B: 0.7}, {L: -2.6, A: 0.5, B: -0.6}, {L: 1.1, A: 0.5, B: 1.6}, {L: -1.2, A: -0.3, B: -1.5}}
}

// of returns the shades of strip number n. A strip with a colour of its own has that; of the
// others, two beside each other are never the same board.
func (b *boards) of(t species.Species, own colour.Own, n int, raw bool) [shadeCount]species.RGB {
	all := differing()
	one := board{timber: t.Key, own: own}
	if !own.Known {
		r := rngOf(t.Key+" board", n)
		one.which = int(r.next() * float64(len(all)))
		if one == b.last {
			one.which = (one.which + 1) % len(all)
		}
	}
	b.last = one
	if _, ok := b.shades[one]; !ok {
		base := faceOf(t, own, raw)
		if one.which > 0 {
			base = base.Lab().Plus(colour.Lab{}, all[one.which]).RGB()
		}
		b.shades[one] = shadesOf(base, t.Pores)
	}
	return b.shades[one]
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
		shadeEarly: base.Lighter(4.2 * grain),
		shadeLate:  base.Lighter(9 * grain),
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
