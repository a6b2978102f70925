package movement

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/moisture"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
)

// Figures are what a maker reads of a pattern.
type Figures struct {
	Width   length.Length // glue-up width
	Seasons []SeasonFigures
	Colours []Colour // of each strip
	Lines   []Line   // one less than strips
	Look    []Look
	Timber  []Timber // in the order in which the strips bring them
	Board   *Board   // what second glue-ups give; nil: the panel is it
}

// A Colour is that of one strip under oil: its own, or that of its timber.
type Colour struct {
	RGB species.RGB
	Own bool
}

// SeasonFigures say what a season does to the panel.
type SeasonFigures struct {
	Season         Season
	Air            moisture.Air
	EquilibriumPct float64
	WidthChangeMM  float64
	LengthChangeMM float64 // of a board; a panel's is left out
	Known          bool    // every timber's coefficients are; else the changes are 0
}

// A Look says that the end grain of strip Strip, counted from 1, would settle Lines
// glue lines.
type Look struct{ Strip, Lines int }

// String says what to look at, and why.
func (l Look) String() string { return tell.Look(fmt.Sprintf("strip %d", l.Strip), l.Lines) }

// Timber is what a pattern takes of one species.
type Timber struct {
	Species     string
	Strips      int
	Width       length.Length // of its strips together
	FinishedCM3 float64
	RoughCM3    float64 // with kerfs and allowances, without a plan
	MassKg      float64
	MassKnown   bool // the density is
}

// Of computes every figure of p.
func (r Physics) Of(p pattern.Pattern) Figures { return r.Panel(p).Figures() }

// Figures computes every figure of a panel that stands as it was prepared.
func (p *Panel) Figures() Figures {
	f := Figures{Width: p.pattern.Width(), Seasons: p.Seasons(), Lines: p.Lines()}
	for _, s := range p.strips {
		f.Colours = append(f.Colours, Colour{s.oiled, s.seen})
	}
	f.Look = p.LookFirst(f.Lines)
	f.Timber = p.physics.Timber(p.pattern)
	if f.Board = p.physics.board(p.pattern, p.ups); f.Board != nil {
		f.Board.into(&f, p.pattern)
	}
	return f
}

// Lines computes every glue line.
func (p *Panel) Lines() []Line {
	if len(p.strips) < 2 {
		return nil
	}
	lines := make([]Line, len(p.strips)-1)
	for i := range lines {
		lines[i] = p.Line(i + 1)
	}
	return lines
}

// Seasons computes the change of the panel's width in each season. Strips are free
// across the width, so their changes add up.
func (p *Panel) Seasons() []SeasonFigures {
	airs := [seasonCount]moisture.Air{Dry: p.physics.shop.Dry, Humid: p.physics.shop.Humid}
	out := make([]SeasonFigures, 0, seasonCount)
	for _, season := range Seasons() {
		f := SeasonFigures{Season: season, Air: airs[season], EquilibriumPct: p.physics.season[season], Known: true}
		for i := range p.strips {
			f.WidthChangeMM += p.strips[i].width.MM() * p.strips[i].move[season].width
			f.Known = f.Known && p.strips[i].known
		}
		if !f.Known {
			f.WidthChangeMM = 0
		}
		out = append(out, f)
	}
	return out
}

// Moves says how the line moves: step and strain in the season that they are worst in, or in
// end grain, which has no step, the strain.
func (l Line) Moves(end bool, u length.Unit) string {
	switch {
	case !l.Known:
		return "no figure for the movement"
	case end:
		return fmt.Sprintf("strain %.2f ±%.2f %% in the %s season", l.StrainPct, l.StrainPM, l.Season)
	}
	return fmt.Sprintf("step %s a face in the %s season, strain %.2f ±%.2f %%", length.Step(l.StepUM, l.StepPM, u), l.Season, l.StrainPct, l.StrainPM)
}

// LookFirst says whose end grain to look at so that every unsettled line of lines
// has one strip looked at: again and again the strip of unknown rings that touches
// most lines not yet covered, the lowest number on a tie.
//
// A strip touches two lines at most, and ever fewer that are not covered: so those with
// two come first, from left to right, and then those with one.
func (p *Panel) LookFirst(lines []Line) []Look {
	open := make([]bool, len(p.strips)+1) // by line, from 1
	for _, l := range lines {
		open[l.Line] = !l.Settled
	}
	var looks []Look
	for _, most := range [...]int{2, 1} {
		for i, s := range p.strips {
			touched := 0
			for _, n := range [...]int{i, i + 1} {
				if open[n] && !s.rings.Known() {
					touched++
				}
			}
			if touched == most {
				open[i], open[i+1] = false, false
				looks = append(looks, Look{Strip: i + 1, Lines: touched})
			}
		}
	}
	return looks
}

// Timber sums what p takes of each species.
func (r Physics) Timber(p pattern.Pattern) []Timber {
	var out []Timber
	at := map[string]int{}
	for _, s := range p.Strips {
		i, ok := at[s.Species]
		if !ok {
			i = len(out)
			at[s.Species] = i
			out = append(out, Timber{Species: s.Species})
		}
		out[i].Strips++
		out[i].Width += s.Width
		out[i].FinishedCM3 += FinishedCM3(p, s)
		out[i].RoughCM3 += RoughCM3(p, s, r.shop)
	}
	for i := range out {
		timber, _ := r.table.Get(out[i].Species)
		out[i].MassKnown = timber.DensityKgM3 > 0
		out[i].MassKg = out[i].FinishedCM3 * timber.DensityKgM3 / 1e6
	}
	return out
}

// FinishedCM3 returns the volume of strip s in the finished panel p: its width times
// the panel's thickness, as long as the panel or as its own length, whichever is
// less.
func FinishedCM3(p pattern.Pattern, s pattern.Strip) float64 {
	return length.VolumeCM3(s.Width, p.Panel.Thickness, min(p.StripLength(s, 0), p.Panel.Length))
}

// RoughCM3 returns what strip s of p takes from a slice, its kerfs included, without a
// plan: from a flat slice (w + jointing + rip)(t + flattening + planing + resaw) l,
// from one on edge (t + flattening + rip)(w + planing + resaw) l, l its length at
// glue-up.
func RoughCM3(p pattern.Pattern, s pattern.Strip, shop shop.Shop) float64 {
	w, glued := s.Width, shop.Glued(p.Panel.Thickness)
	across, thick := w+shop.Allowance.Jointing, glued
	if p.Panel.Make == pattern.MakeEdge {
		across, thick = glued, w
	}
	return length.VolumeCM3(across+shop.Kerf.Rip, thick+shop.Allowance.Planing+shop.Kerf.Resaw,
		p.StripLength(s, shop.Allowance.Length))
}
