package movement

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/second"
)

// A BarLine holds the figures of the glue line between two bars. Where a coefficient is
// missing, or the cells are not laid, Known is false and only Slope says something.
type BarLine struct {
	Second, Line    int // from 1
	Known           bool
	CellPct, CellPM float64 // what the cells at it would do apart, and one standard deviation of it
	LeastPct        float64 // over rings that nobody has looked at
	MostPct         float64
	Season          Season
	StepUM          float64 // at most; none where the faces are end grain
	SlopeDeg        float64 // of the grain to the joint, at most
	Level           pattern.Level
	Settled         bool // the unknown rings cannot change the level of the cells
	Borderline      bool // the scatter may
}

// steep is the slope in degrees above which glue on cut grain is weak, and across is that
// above which it is glued end to end: the Wood Handbook (FPL-GTR-190) chapter 10 has scarf
// joints at their best at 1 in 12 and end-grain butt joints at 25 percent at most.
const (
	steep    = 15
	endToEnd = 75
)

// Cuts reports whether the joint cuts the grain, so that it drinks the glue.
func (l BarLine) Cuts() bool { return l.SlopeDeg > steep }

// Butts reports whether end grain is glued to end grain.
func (l BarLine) Butts() bool { return l.SlopeDeg > endToEnd }

// lines computes every bar line of every glue-up, and returns the contacts of the last.
func (b *Board) lines(r Physics, p pattern.Pattern) (contacts [][]second.Contact) {
	flush := p
	flush.Panel.Flattened = flattened(p, b.Ups)
	for n, g := range b.Ups {
		j := joint{physics: r, up: g, frees: r.frees(p, g.Moisture)}
		if !g.EndGrain && b.Up().Size.Thickness > 0 {
			j.steps = r.steps(flush, g, b.Up())
		}
		contacts = g.Contacts()
		for i := range max(0, g.Bars-1) {
			var at []second.Contact
			if contacts != nil {
				at = contacts[i]
			}
			b.Lines = append(b.Lines, j.line(n+1, i+1, at))
		}
	}
	return contacts
}

// flattened returns the moisture at which the faces are made flush, where it is not that
// of each strip at glue-up.
func flattened(p pattern.Pattern, ups []second.GlueUp) pattern.Reading {
	if g, ok := second.Last(ups); ok && g.Moisture.Known {
		return g.Moisture
	}
	return p.Panel.Flattened
}

// A joint computes the lines of one glue-up.
type joint struct {
	physics Physics
	up      second.GlueUp
	frees   []free
	steps   []step // by strip; nil: none
	found   found
}

// A step is half of what a strip rises over a face, in micrometres by season, and k1 of it.
type step struct {
	um     [seasonCount]float64
	relief float64
}

// steps returns what the strips of p rise over the faces of a board, in bars of g.
func (r Physics) steps(p pattern.Pattern, g, board second.GlueUp) []step {
	all := make([]step, len(p.Strips))
	for i, s := range p.Strips {
		prepared := r.strip(p, s)
		all[i].relief = Relief(min(g.Across, s.Width), board.Size.Thickness)
		for season := range Humid + 1 {
			all[i].um[season] = 500 * board.Size.Thickness.MM() * prepared.flush[season]
		}
	}
	return all
}

// A found is the larger of what cells do apart, so far.
type found struct {
	pct, pm, least, most float64
}

func (j *joint) line(n, line int, contacts []second.Contact) BarLine {
	out := BarLine{Second: n, Line: line, Known: !j.up.Unlaid, Settled: true}
	for _, c := range contacts {
		for _, cell := range [...]int{c.Left, c.Right} {
			out.Known = out.Known && j.frees[j.up.Cells[cell].Strip-1].known
			out.SlopeDeg = max(out.SlopeDeg, j.up.SlopeDegrees(cell))
		}
	}
	if !out.Known {
		return out
	}
	for season := range Humid + 1 {
		f := j.season(season, contacts)
		if season == Dry || f.pct > out.CellPct+tie {
			out.CellPct, out.CellPM, out.Season = f.pct, f.pm, season
		}
		out.LeastPct, out.MostPct = max(out.LeastPct, f.least), max(out.MostPct, f.most)
		for _, c := range contacts {
			out.StepUM = max(out.StepUM, j.step(season, c))
		}
	}
	limits := j.physics.shop.Limits
	out.Level = max(LevelOf(out.CellPct, limits.StrainPct), LevelOf(out.StepUM, limits.StepUM))
	out.Settled = LevelOf(out.LeastPct, limits.StrainPct) == LevelOf(out.MostPct, limits.StrainPct)
	out.Borderline = near(out.CellPct, out.CellPM, limits.StrainPct.Care, limits.StrainPct.Much)
	return out
}

// step returns how far one contact steps at most.
func (j *joint) step(season Season, c second.Contact) float64 {
	if j.steps == nil {
		return 0
	}
	a, b := &j.steps[j.up.Cells[c.Left].Strip-1], &j.steps[j.up.Cells[c.Right].Strip-1]
	return (a.relief + b.relief) / 2 * math.Abs(a.um[season]-b.um[season])
}

// touching is how far apart two contacts may lie in nanometres and still meet, by the
// rounding of corners.
const touching = 2

// season returns what the cells at a line would do apart in a season.
func (j *joint) season(season Season, contacts []second.Contact) found {
	j.found = found{}
	for i, c := range contacts {
		// Beside each other, along the line.
		left, right := &j.up.Cells[c.Left], &j.up.Cells[c.Right]
		j.parts(season, part{left.Strip, planOf(left, j.up.EndGrain).y, 1}, part{right.Strip, planOf(right, j.up.EndGrain).y, -1})
		if i == 0 || c.From-contacts[i-1].To > touching {
			continue
		}
		// Where two pairs meet, the tips of their cells.
		before := contacts[i-1]
		l, r := &j.up.Cells[before.Left], &j.up.Cells[before.Right]
		j.parts(season,
			part{r.Strip, planOf(r, j.up.EndGrain).slant, 0.5}, part{l.Strip, planOf(l, j.up.EndGrain).slant, -0.5},
			part{right.Strip, planOf(right, j.up.EndGrain).slant, -0.5}, part{left.Strip, planOf(left, j.up.EndGrain).slant, 0.5})
	}
	return j.found
}

// A part is what one cell has in a difference.
type part struct {
	strip int // from 1
	share [2]float64
	times float64
}

// parts adds one difference to what was found.
func (j *joint) parts(season Season, all ...part) {
	pct := 100 * math.Abs(j.sum(season, all, 0))
	if pct > j.found.pct+tie || j.found.pct == 0 {
		j.found.pct, j.found.pm = pct, 100*scatter*j.spread(season, all)
	}
	least, most := pct, pct
	if open := j.open(all); len(open) > 0 {
		least, most = math.Inf(1), 0
		for way := range 1 << len(open) {
			taken := 0
			for k, strips := range open {
				if way>>k&1 > 0 {
					taken |= strips
				}
			}
			pct := 100 * math.Abs(j.turned(season, all, taken))
			least, most = min(least, pct), max(most, pct)
		}
	}
	j.found.least, j.found.most = max(j.found.least, least), max(j.found.most, most)
}

// open lists the strips of unknown rings among the parts, each as the set of its parts.
func (j *joint) open(all []part) (sets []int) {
	done := 0
	for i, p := range all {
		if done>>i&1 > 0 || !j.frees[p.strip-1].open {
			continue
		}
		set := 0
		for k := i; k < len(all); k++ {
			if all[k].strip == p.strip {
				set |= 1 << k
			}
		}
		done |= set
		sets = append(sets, set)
	}
	return sets
}

// sum adds up the parts as they are figured.
func (j *joint) sum(season Season, all []part, how int) (sum float64) {
	for _, p := range all {
		sum += p.times * j.frees[p.strip-1].by[how].of(p.share, season)
	}
	return sum
}

// turned adds up the parts, those of unknown rings as quarter where they are taken so and
// else as flat.
func (j *joint) turned(season Season, all []part, quarter int) (sum float64) {
	for i, p := range all {
		how := asFigured
		switch f := &j.frees[p.strip-1]; {
		case f.open && quarter>>i&1 > 0:
			how = asQuarter
		case f.open:
			how = asFlat
		}
		sum += p.times * j.frees[p.strip-1].by[how].of(p.share, season)
	}
	return sum
}

// spread returns the root of the sum of squares of what each kind of strip has in a
// difference.
func (j *joint) spread(season Season, all []part) float64 {
	var squares float64
	for i, p := range all {
		first, sum := true, 0.0
		for k, q := range all {
			if j.frees[q.strip-1].kind != j.frees[p.strip-1].kind {
				continue
			}
			first = first && k >= i
			sum += q.times * j.frees[q.strip-1].by[asFigured].of(q.share, season)
		}
		if first {
			squares += sum * sum
		}
	}
	return math.Sqrt(squares)
}
