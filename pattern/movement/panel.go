package movement

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
)

// A Panel is a pattern prepared for computation. Strips can be swapped and replaced in
// it, and each glue line computed on its own, so that trying a remedy is cheap. It
// belongs to whoever prepared it and is not for sharing between goroutines.
type Panel struct {
	physics   Physics
	limits    shop.Limits
	thickness length.Length
	pattern   pattern.Pattern
	ups       []second.GlueUp
	contrasts map[[2]species.RGB]float64
	strips    []*strip
	middles   []length.Length // by strip: that of its run, from where the strip begins and twice as far as it is
	shares    []float64       // those of the last jumps
}

// A strip is what a glue line needs to know of one strip.
type strip struct {
	species  string      // key
	oiled    species.RGB // its colour under oil
	seen     bool        // that is its own
	rings    pattern.Rings
	bark     pattern.Bark
	width    length.Length
	moisture float64              // at glue-up, percent
	known    bool                 // the coefficients are
	flush    [seasonCount]float64 // free change through, from when the panel was made flush
	move     [seasonCount]change
}

// A change holds the free changes of one strip in one season, as fractions.
type change struct {
	width                 float64 // across, from the moisture at glue-up
	glued                 float64 // through, from the moisture at glue-up
	gluedLeast, gluedMost float64 // glued, over all angles that the rings may have
	flushLeast, flushMost float64 // flush, likewise
}

// Panel prepares p.
func (r Physics) Panel(p pattern.Pattern) *Panel {
	ups, n := second.Of(p, r.shop.Takes()), len(p.Strips)
	p.Panel.Flattened = flattened(p, ups)
	prepared := &Panel{physics: r, limits: r.shop.Limits, thickness: thickness(p, ups), ups: ups, pattern: p, strips: make([]*strip, n),
		middles: make([]length.Length, n)}
	for i, s := range p.Strips {
		if i > 0 && s == p.Strips[i-1] {
			prepared.strips[i] = prepared.strips[i-1]
			continue
		}
		prepared.strips[i] = r.strip(p, s)
	}
	if n > 0 {
		prepared.join(0, n-1)
	}
	return prepared
}

// strip computes the free changes of s, a strip of p.
func (r Physics) strip(p pattern.Pattern, s pattern.Strip) *strip {
	timber, _ := r.table.Get(s.Species)
	key, _ := species.TimberOf(s.Species) // shades of one timber move as one
	out := &strip{
		species: key, oiled: s.Colour.Or(timber.ColourOiled), seen: s.Colour.Known, rings: s.Rings, bark: s.Bark, width: s.Width,
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
		}
		out.flush[season] = FreeChange(through, fsp, flattened, to)
		c.gluedLeast, c.gluedMost, c.flushLeast, c.flushMost = c.glued, c.glued, out.flush[season], out.flush[season]
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

// alike reports whether strips a and b, side by side, count as one run: same species, rings,
// moisture and bark side, as far as that is known.
func (a *strip) alike(b *strip) bool {
	return a.moisture == b.moisture && a.rings == b.rings && a.bark == b.bark && a.species == b.species
}

// Len returns the number of strips.
func (p *Panel) Len() int { return len(p.strips) }

// Swap lets strips i and j, counted from 0, change places.
func (p *Panel) Swap(i, j int) {
	p.strips[i], p.strips[j] = p.strips[j], p.strips[i]
	p.join(i, i)
	p.join(j, j)
}

// Replace puts s in the place of strip i, counted from 0, and returns what puts the
// old one back.
func (p *Panel) Replace(i int, s pattern.Strip) (restore func()) {
	old := p.strips[i]
	put := func(s *strip) {
		p.strips[i] = s
		p.join(i, i)
	}
	put(p.physics.strip(p.pattern, s))
	return func() { put(old) }
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
// A line depends on the strips that lie within far thicknesses of where its height is
// taken, and on the whole of both runs, whose middles are these places; so what changes
// when strip i does lies within its reach before and its reach after.
func (p *Panel) Reach(i int) (first, last int) {
	reach, width := 2*far*p.thickness, 2*p.strips[i].width
	at := length.Length(0) // from where strip i begins, twice as far as it is; likewise below
	for first = i; first > 1; first-- {
		s := p.strips[first-1] // right of the line before
		at -= 2 * s.width
		middle := at + p.middles[first-1]
		counts := middle
		if !s.rings.Known() {
			counts = max(middle, at+s.width)
		}
		if middle != p.middles[i] && counts+reach <= 0 {
			break
		}
	}
	at = width
	for last = i + 1; last < len(p.strips)-1; last++ {
		s := p.strips[last] // left of the line after
		middle := at + p.middles[last]
		counts := middle
		if !s.rings.Known() {
			counts = min(middle, at+s.width)
		}
		if middle != p.middles[i] && counts-reach >= width {
			break
		}
		at += 2 * s.width
	}
	return max(first, 1), min(last, len(p.strips)-1)
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
		line.Level = LevelOf(line.GapPct, p.limits.MoisturePct)
		return line
	}
	line.Known = true
	p.takeStep(&line)
	leastStrain, mostStrain := line.takeStrain(a, b)
	limits := &p.limits
	line.Level = level(limits, line.StepUM, line.StrainPct, line.GapPct)
	line.Settled = level(limits, line.LeastUM, leastStrain, line.GapPct) == level(limits, line.MostUM, mostStrain, line.GapPct)
	line.Borderline = near(line.StepUM, line.StepPM, limits.StepUM.Care, limits.StepUM.Much) ||
		near(line.StrainPct, line.StrainPM, limits.StrainPct.Care, limits.StrainPct.Much)
	return line
}

// takeStep computes the step of a line, its scatter and its range.
func (p *Panel) takeStep(line *Line) {
	n, half := line.Line, p.halfUM()
	if half == 0 {
		return // end grain has no step
	}
	j := p.own(n)
	for season, step := range p.steps(j) {
		step = half * math.Abs(step)
		line.In[season].StepUM = step
		if season := Season(season); season == Dry || step > line.StepUM+tie {
			line.StepUM, line.Season = step, season
		}
	}
	line.StepPM = half * p.deviation(j, line.Season)
	line.LeastUM, line.MostUM = line.StepUM, line.StepUM
	if p.strips[n-1].rings.Known() && p.strips[n].rings.Known() {
		return
	}
	least, most := p.ranges(n)
	line.LeastUM, line.MostUM = min(half*least, line.StepUM), max(half*most, line.StepUM)
}

// takeStrain computes the strain of a line between a and b, and its scatter; it returns the
// range over rings that nobody has looked at.
func (line *Line) takeStrain(a, b *strip) (least, most float64) {
	deviation := scatter
	if a.alike(b) {
		deviation = 0
	}
	for season := range seasonCount {
		ca, cb := &a.move[season], &b.move[season]
		strain := 100 * math.Abs(ca.glued-cb.glued)
		line.In[season].StrainPct = strain
		if season == Dry || strain > line.StrainPct+tie {
			line.StrainPct = strain
			line.StrainPM = 100 * deviation * math.Hypot(ca.glued, cb.glued)
		}
		least = max(least, 100*(ca.gluedLeast-cb.gluedMost), 100*(cb.gluedLeast-ca.gluedMost))
		most = max(most, 100*(ca.gluedMost-cb.gluedLeast), 100*(cb.gluedMost-ca.gluedLeast))
	}
	return least, most
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

// halfUM returns half the thickness, in micrometres.
func (p *Panel) halfUM() float64 { return 500 * p.thickness.MM() }

// A Figure is the part of a Line that a remedy is judged by. Where a coefficient is
// missing it holds the gap and the level by the gap.
type Figure struct {
	StepUM, StrainPct, GapPct float64
	Level                     pattern.Level
}

// Figure computes glue line n, counted from 1, as Line does, and leaves out what a
// remedy is not judged by. It reports false where a coefficient is missing.
func (p *Panel) Figure(n int) (f Figure, known bool) {
	f, known = p.Beside(n-1, n)
	if !known || p.thickness == 0 || p.strips[n-1].alike(p.strips[n]) {
		return f, known
	}
	steps := p.steps(p.own(n))
	f.StepUM = p.halfUM() * max(math.Abs(steps[Dry]), math.Abs(steps[Humid]))
	f.Level = max(f.Level, LevelOf(f.StepUM, p.limits.StepUM))
	return f, known
}

// Beside computes what strips i and j, counted from 0, decide by themselves where they lie
// side by side, which is all but the step: a Figure of such a line is at no lower level. It
// takes a small part of the time.
func (p *Panel) Beside(i, j int) (f Figure, known bool) {
	a, b := p.strips[i], p.strips[j]
	f.GapPct = math.Abs(a.moisture - b.moisture)
	f.Level = LevelOf(f.GapPct, p.limits.MoisturePct)
	if known = a.known && b.known; known {
		f.StrainPct = strain(a, b)
		f.Level = max(f.Level, LevelOf(f.StrainPct, p.limits.StrainPct))
	}
	return f, known
}

// strain returns that of two strips, in percent, in the season where it is larger.
func strain(a, b *strip) float64 {
	return 100 * max(math.Abs(a.move[Dry].glued-b.move[Dry].glued), math.Abs(a.move[Humid].glued-b.move[Humid].glued))
}

// Pair computes the glue line between two strips of a panel of which nothing else is known:
// its step shows the relief of each strip's own width. It reports false where a coefficient
// is missing.
func (r Physics) Pair(panel pattern.Panel, left, right pattern.Strip) (f Figure, known bool) {
	p := pattern.Pattern{Panel: panel}
	a, b := r.strip(p, left), r.strip(p, right)
	f.GapPct = math.Abs(a.moisture - b.moisture)
	known = a.known && b.known
	if known {
		t := panel.Thickness
		half := 500 * t.MM() * (Relief(left.Width, t) + Relief(right.Width, t)) / 2
		for season := range seasonCount {
			f.StepUM = max(f.StepUM, half*math.Abs(a.flush[season]-b.flush[season]))
		}
		f.StrainPct = strain(a, b)
	}
	f.Level = level(&r.shop.Limits, f.StepUM, f.StrainPct, f.GapPct)
	return f, known
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
