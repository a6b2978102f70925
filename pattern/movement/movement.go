// Package movement computes what moisture does to a panel: the free change of each
// strip, the strain and the step at each glue line, the change of the panel's
// width, with levels from the workshop's limits.
//
// The free changes are those of the USDA Wood Handbook (FPL-GTR-190, 2010), chapter
// 13. Across the panel strips are free, so changes of width add up and stress no
// glue line; through the thickness a glue line couples all strips that lie near it.
// Movement along the grain is left out. Moisture is percent of oven-dry mass, a step is
// micrometres per face, a strain is percent; all are estimates in float64, with a
// scatter given beside them, since boards of one species differ by some 15 percent.
package movement

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
)

// A Season is one of the two airs that a board will live in.
type Season int

// The seasons. On a tie between them Dry counts.
const (
	Dry Season = iota
	Humid
	seasonCount
)

// Seasons lists both.
func Seasons() []Season { return []Season{Dry, Humid} }

// String returns dry or humid.
func (s Season) String() string {
	switch s {
	case Dry:
		return "dry"
	case Humid:
		return "humid"
	default:
		return fmt.Sprintf("season(%d)", int(s))
	}
}

// The bounds of the linear rule, in percent: "use eq. 13-2 from 6 to 14 percent"
// (Wood Handbook, chapter 13).
const (
	linearFromPct = 6
	linearToPct   = 14
)

// scatter is the coefficient of variation of shrinkage within a species (Wood
// Handbook chapter 4, from memory).
const scatter = 0.15

// FreeChange returns the fraction by which wood with coefficient c (fraction per
// point) and fibre saturation fsp (percent) changes its size when it goes from
// moisture from to moisture to, both in percent. Both are capped at fsp, above which
// wood does not move. From 6 to 14 percent it is Wood Handbook eq. 13-2, otherwise
// eq. 13-3 with fsp in place of 30; the two differ by up to 1.4 percent of the
// change where they meet.
func FreeChange(c, fsp, from, to float64) float64 {
	from, to = min(from, fsp), min(to, fsp)
	if from >= linearFromPct && from <= linearToPct && to >= linearFromPct && to <= linearToPct {
		return c * (to - from)
	}
	// Eq. 13-3 divides by 100 F/S - F + M. With S = 100 F C/(1 + (F - 10) C), the
	// total shrinkage that C stands for, F cancels out.
	return (to - from) / (1/c - 10 + from)
}

// The fit of the share k1 of a free difference that shows as a step beside a strip
// w wide in a panel t thick: 1 - exp(-factor (w/t)^power). Fitted by us to
// plane-stress finite elements; derived, not published.
const (
	reliefFactor = 3.5
	reliefPower  = 1.46
)

// Relief returns k1, the share of a difference in free movement through the thickness
// that a strip w wide shows as a step in a panel t thick; both above 0. A strip much
// narrower than the panel is thick is held by its neighbours and shows little. Layouts are
// searched by it, see Pair; a finished panel is computed by the closed form.
func Relief(w, t length.Length) float64 {
	return 1 - math.Exp(-reliefFactor*math.Pow(float64(w)/float64(t), reliefPower))
}

// across and through give the coefficients in the two directions of a strip whose
// rings meet the face at an angle, as the square of the cosine mixes them.
func across(cr, ct, degrees float64) float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return ct*cos*cos + cr*sin*sin
}

func through(cr, ct, degrees float64) float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return cr*cos*cos + ct*sin*sin
}

// Physics works with one species table and one workshop. It is a value
// without state and may be shared.
type Physics struct {
	table  *species.Table
	shop   shop.Shop
	air    float64 // equilibrium of the workshop's air, percent
	season [seasonCount]float64
}

// New returns what moves by timbers of table and the airs and limits of s.
func New(table *species.Table, s shop.Shop) Physics {
	return Physics{
		table: table, shop: s,
		air:    s.Air.EquilibriumPct(),
		season: [seasonCount]float64{Dry: s.Dry.EquilibriumPct(), Humid: s.Humid.EquilibriumPct()},
	}
}

// Table returns the species table that r computes with.
func (r Physics) Table() *species.Table { return r.table }

// Shop returns the workshop that r computes with.
func (r Physics) Shop() shop.Shop { return r.shop }

// EquilibriumPct returns the moisture that wood settles to in a season.
func (r Physics) EquilibriumPct(s Season) float64 { return r.season[s] }

// Moisture returns the moisture of strip s of p at glue-up, in percent: its reading,
// else the panel's, else that of the workshop's air.
func (r Physics) Moisture(p pattern.Pattern, s pattern.Strip) float64 {
	return s.Moisture.Or(p.Panel.Moisture.Or(r.air))
}

// LevelOf returns the level of a figure by its limit.
func LevelOf(figure float64, limit shop.Limit) pattern.Level {
	switch {
	case figure > limit.Much:
		return pattern.TooMuch
	case figure > limit.Care:
		return pattern.TakeCare
	default:
		return pattern.Fine
	}
}

// Levels returns the level of how a glue line moves, by its step in micrometres and its
// strain in percent, and that of the gap between the moistures beside it, in points.
func (r Physics) Levels(stepUM, strainPct, gapPct float64) (moves, gap pattern.Level) {
	limits := r.shop.Limits
	return max(LevelOf(stepUM, limits.StepUM), LevelOf(strainPct, limits.StrainPct)), LevelOf(gapPct, limits.MoisturePct)
}

// Beyond returns the largest of step, strain and moisture gap in parts of the limit that
// each has to take care at: above 1 it is beyond it.
func (r Physics) Beyond(stepUM, strainPct, gapPct float64) float64 {
	limits := r.shop.Limits
	return max(stepUM/limits.StepUM.Care, strainPct/limits.StrainPct.Care, gapPct/limits.MoisturePct.Care)
}

// Worst returns the glue line of p that asks for most, as WorstOf does.
func (r Physics) Worst(p pattern.Pattern) Line { return r.WorstOf(r.Panel(p).Lines()) }

// WorstOf returns the line that asks for most: of those at the worst level the one that is
// furthest beyond a limit, the first on a tie. It is the zero Line where there is none.
func (r Physics) WorstOf(lines []Line) Line {
	var worst Line
	for _, l := range lines {
		if r.Worse(l, worst) {
			worst = l
		}
	}
	return worst
}

// Worse reports whether a asks for more than b, as WorstOf has it.
func (r Physics) Worse(a, b Line) bool {
	beyond := func(l Line) float64 { return r.Beyond(l.StepUM, l.StrainPct, l.GapPct) }
	return b.Line == 0 || a.Level > b.Level || a.Level == b.Level && beyond(a) > beyond(b)
}

// level returns the level of a glue line with such figures.
func level(l *shop.Limits, stepUM, strainPct, gapPct float64) pattern.Level {
	return max(LevelOf(stepUM, l.StepUM), LevelOf(strainPct, l.StrainPct), LevelOf(gapPct, l.MoisturePct))
}
