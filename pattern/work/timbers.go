package work

import (
	"math"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/species"
)

// inUsePoints is how far timber may lie from the moisture that it will live at (a
// university's advice on stock for furniture).
const inUsePoints = 2

// inUse tells of a panel that is glued far from the moisture that it settles to over
// the year: the mean of its two seasons. The panel's is that of its strips by width.
func (b *bench) inUse() []Remark {
	p := b.job.Pattern
	if len(p.Strips) == 0 {
		return nil
	}
	sum := 0.0
	for _, s := range p.Strips {
		sum += b.physics.Moisture(p, s) * s.Width.MM()
	}
	now := sum / p.Width().MM()
	live := (b.physics.EquilibriumPct(movement.Dry) + b.physics.EquilibriumPct(movement.Humid)) / 2
	return one(math.Abs(now-live) > inUsePoints,
		"the panel is glued at %.1f %% moisture and will live at about %.1f %%: it moves after it is sold, cracks and cupping are likely; let the wood settle first",
		now, live)
}

// hardRatio is from how many times as hard a neighbour ridges are likely in sanding:
// common practice, no published limit was found.
const hardRatio = 1.5

// hardBesideSoft tells of the neighbours that differ most in hardness.
func (b *bench) hardBesideSoft() []Remark {
	most := hardRatio
	var told []Remark
	b.neighbours(func(hard, soft species.Species) {
		if soft.JankaN > 0 && hard.JankaN/soft.JankaN > most {
			most = hard.JankaN / soft.JankaN
			told = one(true, "%s is %.1f times as hard as %s next to it: sand with a hard flat block, few minutes on fine grits, or the soft strip dips",
				hard.Name, most, soft.Name)
		}
	})
	return told
}

// The lightness (CIE L*, 0 to 100, oiled) below which a timber counts as dark, and
// above which as pale: a habit's words put into figures of our own.
const (
	dark = 45
	pale = 62
)

// colourTravels tells of dark or oily timber beside pale.
func (b *bench) colourTravels() []Remark {
	var told []Remark
	b.neighbours(func(from, onto species.Species) {
		if told == nil && onto.ColourOiled.Lightness() > pale && (from.ColourOiled.Lightness() < dark || from.Oily) {
			told = one(true, "colour of %s can travel into %s next to it: scrape or sand from pale to dark, vacuum the dust off, try the finish on scrap",
				from.Name, onto.Name)
		}
	})
	return told
}

// neighbours goes through the pairs of timbers that lie beside each other, those that
// the table has: each pair one way round, then the other.
func (b *bench) neighbours(see func(one, other species.Species)) {
	strips, table := b.job.Pattern.Strips, b.physics.Table()
	for i := 1; i < len(strips); i++ {
		left, known := table.Get(strips[i-1].Species)
		right, too := table.Get(strips[i].Species)
		if known && too && left.Key != right.Key {
			see(left, right)
			see(right, left)
		}
	}
}
