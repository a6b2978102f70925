package work

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// By habit, without a source: what is smaller than this in its outline is hard to hold
// under a router; a cutter of common length reaches so deep; so much wood is left beside
// and between holes.
const (
	leastHeld  = 50 * length.Millimetre
	usualReach = 30 * length.Millimetre
	leastWall  = 6 * length.Millimetre
)

func small(b *bench) []Remark {
	return b.each(func(p pattern.Product, _ ProductFigures) []Remark {
		shape := outline.ShapeOf(p)
		along, across := shape.Size()
		return one(min(along, across) < leastHeld, "too small to hold under a router: %s", shape.Small())
	})
}

// sawn says what to mind where a shape is rather sawn than routed.
func sawn(b *bench) []Remark {
	return b.each(func(p pattern.Product, _ ProductFigures) []Remark {
		_, mind := outline.ShapeOf(p).Sawn()
		return one(mind != "", "%s", mind)
	})
}

func cutterReach(b *bench) []Remark {
	deep := b.job.Pattern.Panel.Thickness + b.shop.Cut.Base
	return one(len(b.job.Products) > 0 && b.shop.Cut.Pass > 0 && deep > usualReach,
		"the cutter must reach %s deep: look at its cutting length; a straight side is better sawn, then planed", deep.With(b.unit))
}

// blankFits looks whether the panel leaves what a blank is larger by than its product.
func blankFits(b *bench) []Remark {
	wide := b.job.Pattern.Width()
	return b.each(func(_ pattern.Product, f ProductFigures) []Remark {
		return one(f.PerPanel > 0 && f.Blank.Across > wide, "a blank of %s across is wanted by habit, the panel is %s wide: little is left to cut away",
			f.Blank.Across.With(b.unit), wide.With(b.unit))
	})
}

// walls returns the least wood beside the holes and between them.
func walls(p pattern.Product, f ProductFigures) length.Length {
	_, across := outline.ShapeOf(p).Size()
	least := (across - p.Hole) / 2
	if p.Holes > 1 {
		least = min(least, f.HoleGap)
	}
	return least
}

func thinWalls(b *bench) []Remark {
	return b.each(func(p pattern.Product, f ProductFigures) []Remark {
		least := walls(p, f)
		return one(p.Holes > 0 && least > 0 && least < leastWall, "only %s of wood beside or between the holes", least.With(b.unit))
	})
}

func noWalls(b *bench) []Remark {
	return b.each(func(p pattern.Product, f ProductFigures) []Remark {
		return one(p.Holes > 0 && walls(p, f) <= 0, "no wood is left beside or between the holes: fewer, or smaller ones")
	})
}

// CandleCareText is the care text of a block whose holes a tea light may stand in. What
// it asks for is that of fire services (see candlesApart).
func CandleCareText() string {
	return fmt.Sprintf("For tea lights in a metal or glass cup only, %d cm apart. Never leave a burning candle unattended; keep it from draughts, children and "+
		"all that burns. Wipe with a damp cloth and dry at once; oil when dull.", candleGap/length.Centimetre)
}
