// Package second lays second glue-ups: bars cut off a glued panel, laid anew and glued
// again, up to three times.
//
// What comes out of it is the one list of cells that pictures, products, volumes and
// figures go by: each the part of one strip in one bar, as it lies in the board. On a
// panel x runs along the strips from the datum end and y across from edge A; on a board
// x runs from bar to bar from its datum end, and y from its edge A. Lengths are whole
// nanometres; where cuts are square everything is exact, else corners lie at the nearest
// nanometre. Volumes are cubic centimetres.
package second

import (
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// MaxCells is the most cells that a board is laid with.
const MaxCells = 20_000

// Takes is what the work takes off: the crosscut's kerf, a bar or a panel less the board
// made flat of it, and a strip at glue-up less the panel.
type Takes struct{ Crosscut, Second, Length length.Length }

// A Size is that of a panel or a board. Nothing is left of one whose sides are 0.
type Size struct{ Length, Width, Thickness length.Length }

// CM3 returns its volume.
func (s Size) CM3() float64 { return length.VolumeCM3(s.Length, s.Width, s.Thickness) }

// A Taken says where the timber of what is cut goes; all of it together is that.
type Taken struct {
	Board, Flattened, Trim, Kerf float64
	Left                         float64 // before the first bar and behind the last
}

// A GlueUp is one second glue-up, and the board that it gives.
type GlueUp struct {
	pattern.Second
	From       Size          // what is cut: squared and flattened, turned a quarter before a later glue-up
	Bars       int           // that come out and are laid
	Short      int           // that were asked for and do not come out
	More       int           // that would come out besides
	Pitch      length.Length // from bar to bar along edge A
	Left       length.Length // behind the last bar, square to the cut
	Size       Size          // of the board; all 0: there is none
	Taken      Taken
	EndGrain   bool            // the board's faces are end grain
	Across     length.Length   // one laid bar, from its neighbour to its neighbour
	Shifts     []length.Length // one a bar
	Cells      []Cell          // by bar, then across
	Unlaid     bool            // there would be more than MaxCells
	TurnsAlike bool            // bars lie end for end, and look as if they did not

	kerf length.Length
	saw  mitre
}

// A mitre is the angle between cut and strips.
type mitre struct{ sin, cos float64 }

func mitreOf(s pattern.Second) mitre {
	if !s.Mitred() {
		return mitre{sin: 1}
	}
	sin, cos := math.Sincos(s.Degrees() * math.Pi / 180)
	return mitre{sin, cos}
}

// cot returns the cotangent.
func (m mitre) cot() float64 { return m.cos / m.sin }

// Of lays the second glue-ups of p, one after another. There are none where p has none.
func Of(p pattern.Pattern, t Takes) []GlueUp {
	ups := make([]GlueUp, 0, len(p.Seconds))
	from, cells, first := panel(p, t)
	for i, s := range p.Seconds {
		g := GlueUp{Second: s, From: from, EndGrain: p.EndGrain(), kerf: t.Crosscut, saw: mitreOf(s)}
		g.measure(t.Second, first)
		if i > 0 && ups[i-1].Unlaid {
			g.Unlaid = true
		} else {
			g.lay(cells, p.Strips, i)
		}
		ups = append(ups, g)
		if i == len(p.Seconds)-1 {
			break
		}
		from = Size{g.Size.Width, g.Size.Length, g.Size.Thickness}
		cells, first = turned(g.Cells, g.Size.Width), g.Across
	}
	return ups
}

// Last returns the glue-up that gives the board of p, and whether it has any.
func Last(ups []GlueUp) (GlueUp, bool) {
	if len(ups) == 0 {
		return GlueUp{}, false
	}
	return ups[len(ups)-1], true
}

// Ground returns what products are laid on: p, or, where it has second glue-ups, the board
// that they give, as a panel of one strip.
func Ground(p pattern.Pattern, ups []GlueUp) pattern.Pattern {
	g, ok := Last(ups)
	if !ok {
		return p
	}
	p.Panel.Length, p.Panel.Thickness, p.Strips = g.Size.Length, g.Size.Thickness, nil
	if g.Size.Width > 0 {
		p.Strips = []pattern.Strip{{Width: g.Size.Width, Length: g.Size.Length}}
	}
	return p
}

// panel returns the squared and flattened panel of p with its strips as cells, and the
// width of the first.
func panel(p pattern.Pattern, t Takes) (s Size, cells []Cell, first length.Length) {
	if len(p.Strips) == 0 {
		return Size{}, nil, 0
	}
	s = Size{p.Panel.Length, p.Width(), p.Panel.Thickness}
	nearest, furthest := length.Length(math.MaxInt64), length.Length(0)
	for _, one := range p.Strips {
		nearest = min(nearest, one.Start+p.StripLength(one, t.Length))
		furthest = max(furthest, one.Start)
	}
	s.Length = max(0, min(s.Length, nearest-furthest-t.Length))
	across := length.Length(0)
	for i, one := range p.Strips {
		cells = append(cells, Cell{Strip: i + 1, Across: vector{0, 1}, Along: vector{1, 0},
			Points: rectangle(0, across, s.Length, across+one.Width)})
		across += one.Width
	}
	return s, cells, p.Strips[0].Width
}

// alikeOf returns the strip as it looks and moves, whatever its place and length are.
func alikeOf(s pattern.Strip) pattern.Strip {
	return pattern.Strip{Species: s.Species, Rings: s.Rings, Moisture: s.Moisture}
}

// Height returns how high a joint is when it is glued.
func (g GlueUp) Height() length.Length {
	if g.Lay == pattern.LayEnd {
		return g.Bar
	}
	return g.From.Thickness
}

// measure works out how many bars there are, and the board's size. The first strip, or
// bar of the glue-up before, is so wide.
func (g *GlueUp) measure(flattened, first length.Length) {
	x, y := float64(g.From.Length), float64(g.From.Width)
	bar, kerf := float64(g.Bar), float64(g.kerf)
	reach := x*g.saw.sin - y*g.saw.cos
	most := max(0, int(math.Floor((reach+kerf)/(bar+kerf))))
	g.Bars = most
	if g.Second.Bars > 0 {
		g.Bars = min(most, g.Second.Bars)
		g.Short, g.More = g.Second.Bars-g.Bars, most-g.Bars
	}
	g.Pitch = rounded((bar + kerf) / g.saw.sin)
	g.Left = length.Length(math.Floor(reach - float64(g.Bars)*bar - float64(max(0, g.Bars-1))*kerf))
	g.Across = g.Bar
	if g.Lay == pattern.LayEnd {
		g.Across = g.From.Thickness
	}
	for i := range g.Bars {
		g.Shifts = append(g.Shifts, g.shift(i, first))
	}
	g.Size = g.size(flattened)
	g.Taken = g.taken()
}

// shift returns how far bar i, counted from 0, is moved along.
func (g *GlueUp) shift(i int, first length.Length) length.Length {
	shows := float64(first) / g.saw.sin
	switch s := g.ShiftAt(i); s.Step {
	case pattern.ShiftHalf:
		return length.Length(math.Floor(shows / 2))
	case pattern.ShiftStrip:
		return length.Length(math.Floor(shows))
	default:
		return s.By
	}
}

func (g *GlueUp) size(flattened length.Length) Size {
	if g.Bars == 0 {
		return Size{}
	}
	s := Size{Length: length.Length(g.Bars)*g.Across - 2*g.Trim, Thickness: g.Height() - flattened}
	s.Width = length.Length(math.Floor(float64(g.From.Width)/g.saw.sin-g.lost())) -
		(slices.Max(g.Shifts) - slices.Min(g.Shifts)) - 2*g.Trim
	if min(s.Length, s.Width, s.Thickness) <= 0 {
		return Size{}
	}
	return s
}

// lost returns what the slant of the bars' ends takes of the width; bars on end have none.
func (g *GlueUp) lost() float64 {
	if g.Lay == pattern.LayEnd {
		return 0
	}
	return float64(g.Bar) * g.saw.cot()
}

func (g *GlueUp) taken() (t Taken) {
	t.Board = g.Size.CM3()
	flat := length.VolumeCM3(g.Size.Length, g.Size.Width, g.Height())
	t.Flattened = flat - t.Board
	// One millimetre of cut is so much.
	cut := length.AreaCM2(g.From.Width, g.From.Thickness) / g.saw.sin / 10
	bars := float64(g.Bars) * g.Bar.MM() * cut
	t.Kerf = float64(max(0, g.Bars-1)) * g.kerf.MM() * cut
	t.Left = g.From.CM3() - bars - t.Kerf
	t.Trim = bars - flat
	return t
}

// Cuts returns where the near side of each bar meets edge A of what is cut.
func (g GlueUp) Cuts() []length.Length {
	all := make([]length.Length, g.Bars)
	for i := range all {
		all[i] = rounded(g.offset(i) / g.saw.sin)
	}
	return all
}

// offset returns where bar i, counted from 0, begins square to the cut.
func (g GlueUp) offset(i int) float64 { return float64(length.Length(i) * (g.Bar + g.kerf)) }

// Joints returns the length of each joint between two bars.
func (g GlueUp) Joints() []length.Length {
	var all []length.Length
	side := func(i int, far bool) float64 {
		if far != g.OverAt(i) {
			return g.lost() + float64(g.Shifts[i])
		}
		return float64(g.Shifts[i])
	}
	for i := 1; i < g.Bars; i++ {
		apart := math.Abs(side(i-1, true) - side(i, false))
		all = append(all, max(0, rounded(float64(g.From.Width)/g.saw.sin-apart)))
	}
	return all
}

func rounded(nm float64) length.Length { return length.Length(math.Round(nm)) }
