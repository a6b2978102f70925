package solve

import (
	"math"

	"example.com/oddments/pattern/length"
)

// perCM3 is how many units of cost a cubic centimetre is. Costs are whole units, so
// that bounds are proved without a tolerance.
const perCM3 = 1e6

// units returns a volume as a cost.
func units(cm3 float64) int64 { return int64(math.Round(cm3 * perCM3)) }

// slackUnits keeps the float64 bounds on the far side of the whole numbers.
const slackUnits = 4

// costs is what opening a piece costs: open and the sections' own length when
// its tail goes back, all of it when not.
type costs struct {
	open    int64           // end trim and the charge for opening
	all     int64           // the whole piece and the charge for opening
	along   []int64         // of each of the timber's lengths with its crosscut
	credit  float64         // units a cubic centimetre of slabs and rips brings
	span    length.Length   // sections and their crosscuts may take so much
	keeping length.Length   // and so much when a tail is to be kept; negative: none can
	steps   []length.Length // each of the timber's lengths with its crosscut
}

// costsOf returns the costs of a piece of a cross, so long.
func (c *catalogue) costsOf(x cross, long length.Length, useFirst bool) costs {
	sh := c.shop
	counts := 1.0
	if useFirst {
		counts = sh.Draw.UseFirstPct / 100
	}
	p := costs{
		open:   units(counts*length.VolumeCM3(sh.Allowance.EndTrim, x.width, x.thickness) + sh.Draw.OpenedCM3),
		all:    units(counts*length.VolumeCM3(long, x.width, x.thickness) + sh.Draw.OpenedCM3),
		credit: counts * sh.Draw.ReturnedPct / 100 * perCM3,
		span:   long - 2*sh.Allowance.EndTrim + sh.Kerf.Crosscut,
	}
	p.keeping = min(p.span, long-sh.Allowance.EndTrim-sh.Keep.Length)
	for _, l := range c.lengths {
		step := l + sh.Kerf.Crosscut
		p.steps = append(p.steps, step)
		p.along = append(p.along, units(counts*length.VolumeCM3(step, x.width, x.thickness)))
	}
	return p
}

// credited returns what the leftovers of a section bring.
func (p *costs) credited(s *section) int64 { return int64(s.credit*p.credit + 0.5) }

// cost returns what a piece costs when it is cut into those chosen of the sections of its
// cross.
func (p *costs) cost(sections []section, chosen []int32) int64 {
	var used length.Length
	sum, lengths := int64(0), int64(0)
	for _, n := range chosen {
		s := &sections[n]
		used += p.steps[s.along]
		lengths += p.along[s.along]
		sum -= p.credited(s)
	}
	if used <= p.keeping {
		return p.open + lengths + sum
	}
	return p.all + sum
}
