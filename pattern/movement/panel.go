package movement

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
)

// A Panel is a pattern prepared for computation. Strips can be swapped and replaced in
// it, and each glue line computed on its own, so that trying a remedy is cheap. It
// belongs to whoever prepared it and is not for sharing between goroutines.
type Panel struct {
	physics   Physics
	thickness length.Length
	pattern   pattern.Pattern
	contrasts map[[2]species.RGB]float64
	strips    []*strip
	reliefs   map[length.Length]float64 // k1 of runs by width, as far as it was asked for
}

// A strip is what a glue line needs to know of one strip.
type strip struct {
	species  string      // key
	oiled    species.RGB // its colour under oil
	seen     bool        // that is its own
	rings    pattern.Rings
	width    length.Length
	moisture float64 // at glue-up, percent
	known    bool    // the coefficients are
	move     [seasonCount]change

	// k1 of the strip alone, within the panel and at its edge; 0: not asked for yet.
	within, edge float64
}

// A change holds the free changes of one strip in one season, as fractions.
type change struct {
	width                 float64 // across, from the moisture at glue-up
	glued                 float64 // through, from the moisture at glue-up
	flush                 float64 // through, from when the panel was made flush
	gluedLeast, gluedMost float64 // glued, over all angles that the rings may have
	flushLeast, flushMost float64 // flush, likewise
}

// Panel prepares p.
func (r Physics) Panel(p pattern.Pattern) *Panel {
	prepared := &Panel{physics: r, thickness: p.Panel.Thickness, pattern: p, strips: make([]*strip, len(p.Strips))}
	for i, s := range p.Strips {
		if i > 0 && s == p.Strips[i-1] {
			prepared.strips[i] = prepared.strips[i-1]
			continue
		}
		prepared.strips[i] = r.strip(p, s)
	}
	return prepared
}

// strip computes the free changes of s, a strip of p.
func (r Physics) strip(p pattern.Pattern, s pattern.Strip) *strip {
	timber, _ := r.table.Get(s.Species)
	out := &strip{
		species: s.Species, oiled: s.Colour.Or(timber.ColourOiled), seen: s.Colour.Known, rings: s.Rings, width: s.Width,
		moisture: r.Moisture(p, s), known: timber.Moves(),
	}
	if !out.known {
		return out
	}
	cr, ct, fsp := timber.CR, timber.CT, timber.FSP()
	flattened := p.Panel.Flattened.Or(out.moisture)
	degrees := s.Rings.Degrees()
	for season, to := range r.season {
		through := through(cr, ct, degrees)
		c := change{
			width: FreeChange(across(cr, ct, degrees), fsp, out.moisture, to),
			glued: FreeChange(through, fsp, out.moisture, to),
			flush: FreeChange(through, fsp, flattened, to),
		}
		c.gluedLeast, c.gluedMost, c.flushLeast, c.flushMost = c.glued, c.glued, c.flush, c.flush
		if !s.Rings.Known() {
			// The free change is monotone in the coefficient, and the coefficient in
			// the angle, so the ends of the range are those of flat and quarter.
			c.gluedLeast, c.gluedMost = order(FreeChange(cr, fsp, out.moisture, to), FreeChange(ct, fsp, out.moisture, to))
			c.flushLeast, c.flushMost = order(FreeChange(cr, fsp, flattened, to), FreeChange(ct, fsp, flattened, to))
		}
		out.move[season] = c
	}
	return out
}

func order(a, b float64) (least, most float64) { return min(a, b), max(a, b) }

// alike reports whether strips a and b count as one: same species, rings and
// moisture.
func (a *strip) alike(b *strip) bool {
	return a.moisture == b.moisture && a.rings == b.rings && a.species == b.species
}

// Len returns the number of strips.
func (p *Panel) Len() int { return len(p.strips) }

// Swap lets strips i and j, counted from 0, change places.
func (p *Panel) Swap(i, j int) { p.strips[i], p.strips[j] = p.strips[j], p.strips[i] }

// Replace puts s in the place of strip i, counted from 0, and returns what puts the
// old one back.
func (p *Panel) Replace(i int, s pattern.Strip) (restore func()) {
	old := p.strips[i]
	p.strips[i] = p.physics.strip(p.pattern, s)
	return func() { p.strips[i] = old }
}

// SwapIsMove reports whether swapping strips i and j would change anything that the
// figures depend on.
func (p *Panel) SwapIsMove(i, j int) bool {
	return !p.strips[i].alike(p.strips[j]) || p.strips[i].width != p.strips[j].width
}

// Run returns the first and last strip, counted from 0, of those joined to strip i
// that count as one with it.
func (p *Panel) Run(i int) (first, last int) {
	first, last = i, i
	for first > 0 && p.strips[first-1].alike(p.strips[i]) {
		first--
	}
	for last < len(p.strips)-1 && p.strips[last+1].alike(p.strips[i]) {
		last++
	}
	return first, last
}

// Reach returns the first and last glue line, counted from 1, whose figures depend on
// what strip i, counted from 0, is. There is none where last is below first.
//
// A line depends on its two strips and on how wide the runs are that they belong to,
// so what changes when strip i does lies within its reach before and its reach
// after.
func (p *Panel) Reach(i int) (first, last int) {
	left, right := p.Run(i)
	return max(left, 1), min(right+1, len(p.strips)-1)
}

// relief returns k1 of the run that strip i belongs to. The two outermost runs of a
// panel count twice their width: a free edge holds like a mirror.
func (p *Panel) relief(i int) float64 {
	first, last := p.Run(i)
	edge := first == 0 || last == len(p.strips)-1
	if first == last {
		return p.strips[i].relief(edge, p.thickness)
	}
	var w length.Length
	for _, s := range p.strips[first : last+1] {
		w += s.width
	}
	if edge {
		w *= 2
	}
	k1, ok := p.reliefs[w]
	if !ok {
		if p.reliefs == nil {
			p.reliefs = map[length.Length]float64{}
		}
		k1 = Relief(w, p.thickness)
		p.reliefs[w] = k1
	}
	return k1
}

// relief returns k1 of a strip that has none alike beside it, and keeps it.
func (s *strip) relief(edge bool, t length.Length) float64 {
	k1, w := &s.within, s.width
	if edge {
		k1, w = &s.edge, 2*w
	}
	if *k1 == 0 {
		*k1 = Relief(w, t)
	}
	return *k1
}

// A Line holds the figures of one glue line. Where a coefficient is missing, Known is
// false and only Gap, Contrast and the level by the gap say something.
type Line struct {
	Line       int // from 1, lying right of strip Line
	Known      bool
	StrainPct  float64
	StrainPM   float64 // one standard deviation, percent
	StepUM     float64
	StepPM     float64 // one standard deviation, micrometres
	LeastUM    float64 // the step's range over rings that nobody has looked at
	MostUM     float64
	Season     Season // that of the step
	GapPct     float64
	Contrast   float64 // CIEDE2000 of the oiled colours
	Seen       bool    // both are the strips' own
	Level      pattern.Level
	Settled    bool // the unknown rings cannot change the level
	Borderline bool // the scatter may
	In         [seasonCount]InSeason
}

// InSeason holds the figures of one glue line in one season.
type InSeason struct{ StepUM, StrainPct float64 }

// tie is the difference of two seasons' figures below which they are equal and the
// dry one counts.
const tie = 1e-9

// Line computes glue line n, counted from 1: that between strips n and n+1.
func (p *Panel) Line(n int) Line {
	a, b := p.strips[n-1], p.strips[n]
	line := Line{Line: n, GapPct: math.Abs(a.moisture - b.moisture), Settled: true,
		Contrast: p.Contrast(n-1, n), Seen: a.seen && b.seen}
	if !a.known || !b.known {
		line.Level = LevelOf(line.GapPct, p.physics.shop.Limits.MoisturePct)
		return line
	}
	line.Known = true
	perFace := p.perFace(n)
	var least, most, leastStrain, mostStrain float64
	for season := range Humid + 1 {
		ca, cb := &a.move[season], &b.move[season]
		deviation := scatter
		if a.alike(b) {
			deviation = 0
		}
		step, strain := perFace*math.Abs(ca.flush-cb.flush), 100*math.Abs(ca.glued-cb.glued)
		line.In[season] = InSeason{StepUM: step, StrainPct: strain}
		if season == Dry || step > line.StepUM+tie {
			line.StepUM, line.Season = step, season
			line.StepPM = perFace * deviation * math.Hypot(ca.flush, cb.flush)
		}
		if season == Dry || strain > line.StrainPct+tie {
			line.StrainPct = strain
			line.StrainPM = 100 * deviation * math.Hypot(ca.glued, cb.glued)
		}
		nearest, furthest := span(ca.flushLeast, ca.flushMost, cb.flushLeast, cb.flushMost)
		least, most = max(least, nearest), max(most, furthest)
		nearest, furthest = span(ca.gluedLeast, ca.gluedMost, cb.gluedLeast, cb.gluedMost)
		leastStrain, mostStrain = max(leastStrain, nearest), max(mostStrain, furthest)
	}
	line.LeastUM, line.MostUM = perFace*least, perFace*most
	line.Level = p.physics.level(line.StepUM, line.StrainPct, line.GapPct)
	line.Settled = p.physics.level(line.LeastUM, 100*leastStrain, line.GapPct) ==
		p.physics.level(line.MostUM, 100*mostStrain, line.GapPct)
	limits := p.physics.shop.Limits
	line.Borderline = near(line.StepUM, line.StepPM, limits.StepUM.Care, limits.StepUM.Much) ||
		near(line.StrainPct, line.StrainPM, limits.StrainPct.Care, limits.StrainPct.Much)
	return line
}

// Contrast returns the colour difference of strips i and j, counted from 0; few colours make
// many glue lines.
func (p *Panel) Contrast(i, j int) float64 {
	a, b := p.strips[i].oiled, p.strips[j].oiled
	pair := [2]species.RGB{a, b}
	c, ok := p.contrasts[pair]
	if !ok {
		if p.contrasts == nil {
			p.contrasts = map[[2]species.RGB]float64{}
		}
		c = species.Contrast(a, b)
		p.contrasts[pair] = c
	}
	return c
}

// perFace returns the step in micrometres that a difference of 1 in free change makes
// on each face at glue line n: half the thickness, times k.
func (p *Panel) perFace(n int) float64 {
	k := (p.relief(n-1) + p.relief(n)) / 2
	return 500 * k * p.thickness.MM()
}

// A Figure is the part of a Line that a remedy is judged by. Where a coefficient is
// missing it holds the gap and the level by the gap.
type Figure struct {
	StepUM, StrainPct, GapPct float64
	Level                     pattern.Level
}

// Figure computes glue line n, counted from 1, as Line does, and leaves out what a
// remedy is not judged by. It reports false where a coefficient is missing.
func (p *Panel) Figure(n int) (f Figure, known bool) {
	a, b := p.strips[n-1], p.strips[n]
	f.GapPct = math.Abs(a.moisture - b.moisture)
	known = a.known && b.known
	if known {
		for season := range Humid + 1 {
			f.StepUM = max(f.StepUM, math.Abs(a.move[season].flush-b.move[season].flush))
			f.StrainPct = max(f.StrainPct, 100*math.Abs(a.move[season].glued-b.move[season].glued))
		}
	}
	if f.StepUM > 0 {
		f.StepUM *= p.perFace(n)
	}
	f.Level = p.physics.level(f.StepUM, f.StrainPct, f.GapPct)
	return f, known
}

// span returns the least and the most that a value of a's range can differ from one
// of b's.
func span(aLeast, aMost, bLeast, bMost float64) (least, most float64) {
	return max(0, aLeast-bMost, bLeast-aMost), max(aMost-bLeast, bMost-aLeast)
}

// near reports whether a figure lies within its scatter of one of the limits.
func near(figure, scatter float64, limits ...float64) bool {
	for _, limit := range limits {
		if math.Abs(figure-limit) <= scatter {
			return true
		}
	}
	return false
}
