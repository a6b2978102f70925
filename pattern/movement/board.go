package movement

import (
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
)

// Board holds the figures of what the last second glue-up gives.
//
// In plan a cell moves as its strip does across, in the direction that this points to;
// end grain moves as the strip does through its thickness too, long grain along it not at
// all. Left out are the side that rings lean to, the glue, the time while one face is wet,
// and how large cells are against cracks.
type Board struct {
	Ups      []second.GlueUp
	Known    bool // every timber's coefficients are, and the cells are laid; else there are no figures
	Rows     bool // Along and Across are
	Along    Row  // of the rows along the board
	Across   Row  // of those across it
	RowLevel pattern.Level
	BowMM    float64 // that one point of moisture between top and underside bends it
	ZigzagMM float64 // that a straight edge over its mitres breaks
	Lines    []BarLine
	change   [seasonCount][2]float64 // of its length and width, as fractions
	strips   []float64               // mm2 of the board, by strip from 0
}

// A Row is the row that is stretched or pressed most over its whole length.
type Row struct {
	Pct, MostPct float64       // the latter over rings that nobody has looked at
	From, To     length.Length // where it lies across its direction
}

// Up returns the glue-up that gives the board.
func (b *Board) Up() second.GlueUp {
	g, _ := second.Last(b.Ups)
	return g
}

// Change returns the fraction by which a season changes the length and the width.
func (b *Board) Change(s Season) (along, across float64) { return b.change[s][0], b.change[s][1] }

// AreaMM2 returns how much of the board strip i, counted from 0, has.
func (b *Board) AreaMM2(i int) float64 { return b.strips[i] }

// A free holds the free changes of a strip from one moisture, as fractions: as its rings
// are computed, and with unknown ones flat and quarter.
type free struct {
	known bool
	open  bool // its rings are unknown
	kind  int  // strips of one kind are alike in species, rings and moisture
	by    [3]directions
}

// The ways that rings are taken.
const (
	asFigured = iota
	asFlat
	asQuarter
)

// directions are the changes, by season, across the width and through the thickness.
type directions struct{ across, through [seasonCount]float64 }

// Board computes the figures of the board of p; nil where it has no second glue-up.
func (r Physics) Board(p pattern.Pattern) *Board { return r.board(p, second.Of(p, r.shop.Takes())) }

// board computes them from its glue-ups; nil where it has no second glue-up.
func (r Physics) board(p pattern.Pattern, ups []second.GlueUp) *Board {
	if len(ups) == 0 {
		return nil
	}
	b := &Board{Ups: ups, strips: make([]float64, len(p.Strips))}
	g := b.Up()
	for _, c := range g.Cells {
		b.strips[c.Strip-1] += c.AreaMM2()
	}
	frees := r.frees(p, g.Moisture)
	b.Known = !g.Unlaid
	for i, f := range frees {
		b.Known = b.Known && (f.known || b.strips[i] == 0)
	}
	contacts := b.lines(r, p)
	if b.Known && len(g.Cells) > 0 {
		b.whole(r, p, frees, contacts)
		b.rows(r, p, frees)
	}
	return b
}

// frees computes the free changes of the strips of p from the moisture at a glue-up, where
// it is known.
func (r Physics) frees(p pattern.Pattern, at pattern.Reading) []free {
	type kind struct {
		species  string
		rings    pattern.Rings
		moisture float64
	}
	kinds := map[kind]free{}
	all := make([]free, len(p.Strips))
	for i, s := range p.Strips {
		k := kind{s.Species, s.Rings, at.Or(r.Moisture(p, s))}
		f, ok := kinds[k]
		if !ok {
			f = r.free(s, k.moisture)
			f.kind = len(kinds)
			kinds[k] = f
		}
		all[i] = f
	}
	return all
}

func (r Physics) free(s pattern.Strip, from float64) free {
	timber, _ := r.table.Get(s.Species)
	f := free{known: timber.Moves(), open: !s.Rings.Known()}
	if !f.known {
		return f
	}
	for how, degrees := range [...]float64{asFigured: s.Rings.Degrees(), asFlat: 0, asQuarter: 90} {
		w, z := across(timber.CR, timber.CT, degrees), through(timber.CR, timber.CT, degrees)
		for season, to := range r.season {
			f.by[how].across[season] = FreeChange(w, timber.FSP(), from, to)
			f.by[how].through[season] = FreeChange(z, timber.FSP(), from, to)
		}
	}
	return f
}

// A plan says how much of the two changes of its strip a cell has along x, along y, and in
// the slant between them.
type plan struct{ x, y, slant [2]float64 }

func planOf(c *second.Cell, end bool) (p plan) {
	p.x[0], p.y[0], p.slant[0] = c.Across.X*c.Across.X, c.Across.Y*c.Across.Y, c.Across.X*c.Across.Y
	if end {
		p.x[1], p.y[1], p.slant[1] = c.Along.X*c.Along.X, c.Along.Y*c.Along.Y, c.Along.X*c.Along.Y
	}
	return p
}

// of mixes the changes of a season.
func (d *directions) of(share [2]float64, s Season) float64 {
	return share[0]*d.across[s] + share[1]*d.through[s]
}

// whole computes what the board does as a whole, with the contacts at its bar lines.
func (b *Board) whole(r Physics, p pattern.Pattern, frees []free, contacts [][]second.Contact) {
	g := b.Up()
	board := g.Size.Length.MM() * g.Size.Width.MM()
	var c [2]float64 // the mean coefficient along and across
	for i := range g.Cells {
		cell := &g.Cells[i]
		share, s := cell.AreaMM2()/board, p.Strips[cell.Strip-1]
		timber, _ := r.table.Get(s.Species)
		w, z := across(timber.CR, timber.CT, s.Rings.Degrees()), through(timber.CR, timber.CT, s.Rings.Degrees())
		lies := planOf(cell, g.EndGrain)
		for k, part := range [...][2]float64{lies.x, lies.y} {
			c[k] += share * (part[0]*w + part[1]*z)
			for _, season := range Seasons() {
				b.change[season][k] += share * frees[cell.Strip-1].by[asFigured].of(part, season)
			}
		}
	}
	l, w := g.Size.Length.MM(), g.Size.Width.MM()
	b.BowMM = max(l*l*c[0], w*w*c[1]) / (8 * g.Size.Thickness.MM())
	for _, line := range contacts {
		for _, at := range line {
			left, right := &g.Cells[at.Left], &g.Cells[at.Right]
			for _, season := range Seasons() {
				bends := frees[left.Strip-1].by[asFigured].of(planOf(left, g.EndGrain).slant, season) -
					frees[right.Strip-1].by[asFigured].of(planOf(right, g.EndGrain).slant, season)
				b.ZigzagMM = max(b.ZigzagMM, g.Across.MM()*math.Abs(bends))
			}
		}
	}
}

// into writes the board over what f says of the panel: how it changes, and the timber that
// is in it.
func (b *Board) into(f *Figures, p pattern.Pattern) {
	size := b.Up().Size
	for i := range f.Seasons {
		s := &f.Seasons[i]
		along, across := b.Change(s.Season)
		s.Known, s.LengthChangeMM, s.WidthChangeMM = b.Known, size.Length.MM()*along, size.Width.MM()*across
	}
	for i := range f.Timber {
		t := &f.Timber[i]
		density := 0.0
		if t.FinishedCM3 > 0 {
			density = t.MassKg / t.FinishedCM3
		}
		t.FinishedCM3 = 0
		for k, s := range p.Strips {
			if s.Species == t.Species {
				t.FinishedCM3 += b.strips[k] * size.Thickness.MM() / 1000
			}
		}
		t.MassKg = t.FinishedCM3 * density
	}
}

// thickness returns how thick the panel of p is for its strip lines: as the board where
// there is one, and 0, which makes no step, where its faces are end grain.
func thickness(p pattern.Pattern, ups []second.GlueUp) length.Length {
	g, ok := second.Last(ups)
	switch {
	case !ok:
		return p.Panel.Thickness
	case g.EndGrain:
		return 0
	default:
		return g.Size.Thickness
	}
}
