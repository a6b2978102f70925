package sections

import (
	"math"

	"example.com/oddments/pattern/length"
)

// PerCM3 is how many units of cost a cubic centimetre is. Costs are whole units, so
// that bounds are proved without a tolerance.
const PerCM3 = 1e6

// Units returns a volume as a cost.
func Units(cm3 float64) int64 { return int64(math.Round(cm3 * PerCM3)) }

// SlackUnits keeps the float64 bounds on the far side of the whole numbers.
const SlackUnits = 4

// Costs is what opening a piece costs: open and the sections' own length when
// its tail goes back, all of it when not.
type Costs struct {
	Open    int64           // end trim and the charge for opening
	All     int64           // the whole piece and the charge for opening
	Along   []int64         // of each of the timber's lengths with its crosscut
	Credit  float64         // units a cubic centimetre of slabs and rips brings
	Span    length.Length   // sections and their crosscuts may take so much
	Keeping length.Length   // and so much when a tail is to be kept; negative: none can
	Steps   []length.Length // each of the timber's lengths with its crosscut
}

// CostsOf returns the costs of a piece of a cross, so long.
func (c *Catalogue) CostsOf(x Cross, long length.Length, useFirst bool) Costs {
	sh := c.Shop
	counts := 1.0
	if useFirst {
		counts = sh.Draw.UseFirstPct / 100
	}
	// Of a tail that goes back a share is credited. What is cut off before it is the end trim
	// and the sections with their crosscuts, so the cost is the whole piece less its share
	// and the share of each of these: still a sum over the sections.
	tails := sh.Draw.TailsPct / 100
	whole, trim := length.VolumeCM3(long, x.Width, x.Thickness), length.VolumeCM3(sh.Allowance.EndTrim, x.Width, x.Thickness)
	p := Costs{
		Open:   Units(counts*((1-tails)*whole+tails*trim) + sh.Draw.OpenedCM3),
		All:    Units(counts*whole + sh.Draw.OpenedCM3),
		Credit: counts * sh.Draw.ReturnedPct / 100 * PerCM3,
		Span:   long - 2*sh.Allowance.EndTrim + sh.Kerf.Crosscut,
	}
	p.Keeping = min(p.Span, long-sh.Allowance.EndTrim-sh.Keep.Length)
	for _, l := range c.Lengths {
		step := l + sh.Kerf.Crosscut
		p.Steps = append(p.Steps, step)
		p.Along = append(p.Along, Units(counts*tails*length.VolumeCM3(step, x.Width, x.Thickness)))
	}
	return p
}

// Credited returns what the leftovers of a section bring.
func (p *Costs) Credited(s *Section) int64 { return int64(s.credit*p.Credit + 0.5) }

// Cost returns what a piece costs when it is cut into those chosen of the sections of its
// cross.
func (p *Costs) Cost(sections []Section, chosen []int32) int64 {
	var used length.Length
	sum, lengths := int64(0), int64(0)
	for _, n := range chosen {
		s := &sections[n]
		used += p.Steps[s.Along]
		lengths += p.Along[s.Along]
		sum -= p.Credited(s)
	}
	if used <= p.Keeping {
		return p.Open + lengths + sum
	}
	return p.All + sum
}
