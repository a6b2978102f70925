package work

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
)

// GlueFigures are what gluing the panels takes. Grams and area are for all copies,
// the rest is for one panel.
type GlueFigures struct {
	Joints        int
	AreaM2        float64
	Grams         float64
	Minutes       float64  // to spread every joint in one go
	Parts         int      // sub-panels, of whole strips, that the thicknesser takes; 1: it takes the panel
	GlueUps       Estimate // that spreading within the open time makes
	Stages        Estimate // the larger of both
	ForceN        float64  // on the longest joint: the same force goes through all of them
	ClampsByForce Estimate
	ClampsByReach Estimate
	Clamps        Estimate // the larger
	WaterPoints   Estimate // moisture that the glue adds to the narrowest strip, averaged
}

func glueOf(r movement.Physics, j Job) GlueFigures {
	strips, shop := j.Pattern.Strips, r.Shop()
	g := shop.Glue
	thickness := shop.Glued(j.Pattern.Panel.Thickness)
	f := GlueFigures{Joints: max(0, len(strips)-1), Parts: parts(strips, shop.Machine.ThicknesserWidth)}
	var area float64 // cm2, one panel
	var longest length.Length
	for i := 1; i < len(strips); i++ {
		l := overlap(j.Pattern, strips[i-1], strips[i], shop.Allowance.Length)
		area += length.AreaCM2(l, thickness)
		longest = max(longest, l)
	}
	f.AreaM2 = area / 1e4 * float64(j.Copies)
	f.Grams = GlueGrams(f.AreaM2, g)
	f.Minutes = float64(f.Joints) * g.SecondsJoint / 60
	f.GlueUps = glueUps(f.Joints, g)
	if f.GlueUps.Known && f.Joints > 0 {
		f.Stages = known(max(f.GlueUps.Value, float64(f.Parts)))
	}
	f.ForceN = ClampForceN(g.PressureMPa, longest, thickness)
	if f.Joints == 0 {
		return f
	}
	if g.ClampForceN > 0 {
		f.ClampsByForce = known(float64(ClampsByForce(f.ForceN, g.ClampForceN)))
	}
	if g.ClampReach > 0 {
		f.ClampsByReach = known(float64(ClampsByReach(longest, g.ClampReach)))
	}
	f.Clamps = f.ClampsByForce
	if f.ClampsByReach.Known {
		f.Clamps = known(max(f.ClampsByForce.Value, f.ClampsByReach.Value))
	}
	f.WaterPoints = waterOf(r, strips, g)
	return f
}

// overlap returns the length of the joint of two neighbours, less what stands open.
func overlap(p pattern.Pattern, a, b pattern.Strip, allowance length.Length) (sum length.Length) {
	for _, one := range p.PiecesOf(a, allowance) {
		for _, other := range p.PiecesOf(b, allowance) {
			sum += max(0, min(one.End(), other.End())-max(one.Start, other.Start))
		}
	}
	return sum
}

// parts counts the sub-panels of whole strips that a thicknesser of that width
// takes; a strip that is wider alone is one of them.
func parts(strips []pattern.Strip, width length.Length) int {
	n, now := 1, length.Length(0)
	for _, s := range strips {
		if width > 0 && now > 0 && now+s.Width > width {
			n, now = n+1, 0
		}
		now += s.Width
	}
	return n
}

// glueUps counts the goes in which so many joints are spread, each within the open
// time.
func glueUps(joints int, g shop.Glue) Estimate {
	if g.SecondsJoint <= 0 || joints == 0 {
		return known(min(1, float64(joints)))
	}
	each := math.Floor(g.OpenMinutes*60/g.SecondsJoint + epsilon)
	if each < 1 {
		return Estimate{}
	}
	return known(ceil(float64(joints) / each))
}

// GlueGrams returns the glue that so many square metres of joint take, waste included.
func GlueGrams(areaM2 float64, g shop.Glue) float64 {
	return areaM2 * g.SpreadGM2 * (1 + g.WastePct/100)
}

// ClampForceN returns the force that presses one joint of length l in a panel t thick.
// It is counted once: the same force goes through every joint of the stack.
func ClampForceN(pressureMPa float64, l, t length.Length) float64 {
	return pressureMPa * l.MM() * t.MM()
}

// ClampsByForce returns the clamps of clampN newtons each that make up forceN.
func ClampsByForce(forceN, clampN float64) int { return int(ceil(forceN / clampN)) }

// ClampsByReach returns the clamps along a joint of length l when pressure spreads at 45
// degrees from pads that lie reach from it.
func ClampsByReach(l, reach length.Length) int { return ceilDiv(l, 2*reach) }

// The water in a white glue, and how much heavier wood is at the 12 percent of the
// table's densities than oven-dry.
const (
	waterShare = 0.5
	at12Pct    = 1.12
)

func waterOf(r movement.Physics, strips []pattern.Strip, g shop.Glue) Estimate {
	narrowest := strips[0]
	for _, s := range strips {
		if s.Width < narrowest.Width {
			narrowest = s
		}
	}
	timber, _ := r.Table().Get(narrowest.Species)
	if timber.DensityKgM3 <= 0 {
		return Estimate{}
	}
	return known(WaterPoints(g.SpreadGM2, waterShare, narrowest.Width, timber.DensityKgM3/at12Pct))
}

// WaterPoints returns the points of moisture, averaged over a strip w wide, that the
// water of a glue spread on its joints adds; far more lies beside the line at first.
func WaterPoints(spreadGM2, share float64, w length.Length, dryKgM3 float64) float64 {
	return 100 * spreadGM2 * share / (w.MM() * dryKgM3)
}
