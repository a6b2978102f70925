package sets

import (
	"math"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
)

// linesOf returns the step in micrometres, the strain in percent and the gap of moisture of each
// glue line, worked out from the statement (relief.md, A; design.md, 5.3 and 5.5) and not by
// package movement, of which it takes only the seasons' moisture.
func linesOf(r Request, p pattern.Pattern) (lines [][3]float64) {
	t := p.Panel.Thickness.MM()
	air := r.Physics.Moisture(pattern.Pattern{}, pattern.Strip{})
	var from, to []float64
	var h [][2]float64
	var wet []float64
	at := 0.0
	starts := []int{}
	for i, s := range p.Strips {
		timber, _ := r.Physics.Table().Get(s.Species)
		own := s.Moisture.Or(air)
		var free [2]float64
		for k, season := range []movement.Season{movement.Dry, movement.Humid} {
			angle := s.Rings.Degrees() * math.Pi / 180
			c := timber.CR*math.Pow(math.Cos(angle), 2) + timber.CT*math.Pow(math.Sin(angle), 2)
			a, b := min(own, timber.FSP()), min(r.Physics.EquilibriumPct(season), timber.FSP())
			if free[k] = c * (b - a); a < 6 || a > 14 || b < 6 || b > 14 {
				free[k] = (b - a) / (1/c - 10 + a)
			}
		}
		h, wet = append(h, free), append(wet, own)
		from, to = append(from, at), append(to, at+s.Width.MM())
		at += s.Width.MM()
		if i == 0 || s.Species != p.Strips[i-1].Species || s.Rings != p.Strips[i-1].Rings || s.Bark != p.Strips[i-1].Bark || own != wet[i-1] {
			starts = append(starts, i)
		}
	}
	// rise is half the change of thickness at x, the panel between its mirror images.
	rise := func(x float64, season int) (um float64) {
		for i := range h {
			a, b := from[i], to[i]
			um += h[i][season] * (share((x-a)/t) - share((x-b)/t))
			la, lb := -b, -a
			ra, rb := 2*at-b, 2*at-a
			if i == len(h)-1 {
				la = -1e9
			}
			if i == 0 {
				rb = 1e9
			}
			um += h[i][season] * (share((x-la)/t) - share((x-lb)/t) + share((x-ra)/t) - share((x-rb)/t))
		}
		return 500 * t * um
	}
	middle := make([]float64, len(h))
	for n, first := range starts {
		last := len(h) - 1
		if n+1 < len(starts) {
			last = starts[n+1] - 1
		}
		for i := first; i <= last; i++ {
			middle[i] = (from[first] + to[last]) / 2
		}
	}
	for i := 1; i < len(h); i++ {
		var l [3]float64
		for season := range 2 {
			l[0] = max(l[0], math.Abs(rise(middle[i], season)-rise(middle[i-1], season)))
			l[1] = max(l[1], 100*math.Abs(h[i][season]-h[i-1][season]))
		}
		l[2] = math.Abs(wet[i] - wet[i-1])
		lines = append(lines, l)
	}
	return lines
}

// share is S of relief.md.
func share(q float64) float64 {
	table := [][2]float64{{0, .5}, {.01, .5638}, {.02, .6064}, {.035, .6582}, {.05, .7006}, {.075, .7578}, {.1, .8033}, {.15, .8706}, {.2, .9167},
		{.25, .9486}, {.3, .9707}, {.35, .9858}, {.4, .9959}, {.45, 1.0024}, {.5, 1.0064}, {.6, 1.0097}, {.7, 1.0097}, {.8, 1.0084}, {.9, 1.0067},
		{1, 1.0051}, {1.25, 1.0023}, {1.5, 1.001}, {2, 1.0001}, {3, 1}}
	if q < 0 {
		return 1 - share(-q)
	}
	for i := 1; i < len(table); i++ {
		if a, b := table[i-1], table[i]; q <= b[0] {
			return a[1] + (b[1]-a[1])*(q-a[0])/(b[0]-a[0])
		}
	}
	return 1
}

// holdLevel holds the glue lines of a panel to a level.
func holdLevel(t *testing.T, r Request, most pattern.Level, p Panel) {
	t.Helper()
	limits := r.Physics.Shop().Limits
	said := r.Physics.Panel(p.Pattern).Lines()
	for i, l := range linesOf(r, p.Pattern) {
		if s := said[i]; s.Known && math.Abs(s.StepUM-l[0])+math.Abs(s.StrainPct-l[1])+math.Abs(s.GapPct-l[2]) > 1e-6 {
			t.Errorf("%s line %d: %v, said %v, %v and %v", p.Stem, i+1, l, s.StepUM, s.StrainPct, s.GapPct)
		}
		for k, limit := range [][2]float64{{limits.StepUM.Care, limits.StepUM.Much}, {limits.StrainPct.Care, limits.StrainPct.Much}, {limits.MoisturePct.Care, limits.MoisturePct.Much}} {
			if most < pattern.TooMuch && l[k] > limit[most]*(1+1e-6)+1e-9 {
				t.Errorf("%s line %d: %v, level %v asked for", p.Stem, i+1, l, most)
			}
		}
	}
}
