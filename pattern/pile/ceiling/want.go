package ceiling

import (
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// A want is one that is wanted, with what its panels may be of.
type want struct {
	orders.Want
	glued       int // the place of its thickness
	each, most  float64
	floor       float64       // least contrast of neighbours
	least, wide length.Length // glue-up widths
	shape       outline.Shape
	cut         shop.Cut
	allowance   length.Length

	kinds    []kind
	cells    []int  // of each kind: how many it is wide
	beside   []bool // of each two kinds, row by row
	machines []*machine
	spans    []*span
	was      was
	runs     [][2]int // how many products of a panel one piece serves, from and to, each a way to cost a panel
}

// loosely is how many rows of products a panel may hold at most for its strips to be followed.
const loosely = 1

// want prepares one.
func (c *Ceiling) want(at int, fits *fitting) *want {
	one := c.job.Wants[at]
	w := &want{Want: one, glued: slices.Index(c.glued, c.shop.Glued(one.Thickness)), each: one.Each(), floor: one.LeastContrast,
		shape: one.Shape(), cut: c.shop.Cut, allowance: c.shop.Allowance.Length}
	w.least, w.wide = one.Widths(c.shop.Cut)
	if one.Look == look.Fade {
		w.floor = min(w.floor, fadeContrast)
	}
	w.most = math.Floor(c.job.volumeDM3() / max(1e-9, one.VolumeDM3()) * (1 + 1e-9))
	if one.Most > 0 {
		w.most = min(w.most, float64(one.Most))
	}
	if one.Joints {
		w.runs = [][2]int{{1, one.Along.Most}}
	} else {
		for n := one.Along.Least; n <= one.Along.Most; n++ {
			w.runs = append(w.runs, [2]int{n, n})
		}
	}
	for _, k := range c.kinds {
		if k.reach[w.glued] > 0 && !slices.Contains(one.Without, c.pools[c.woods[k.wood].pool].species) && (one.Look == look.Accent || k.ready || slices.Contains(c.job.Widths, k.width)) {
			w.kinds = append(w.kinds, k)
		}
	}
	n := len(w.kinds)
	w.beside = make([]bool, n*n)
	for a := range w.kinds {
		for b := range w.kinds {
			pair := w.kinds[a].wood*len(c.woods) + w.kinds[b].wood
			w.beside[a*n+b] = fits.level[pair] <= w.Level && fits.contrast[pair] >= w.floor
		}
	}
	w.lay()
	w.looks(c)
	return w
}

// fadeContrast is how near neighbours in a fade may be (looks.md, section 2).
const fadeContrast = 4

// A fitting is what two woods decide where they lie side by side, row by row.
type fitting struct {
	level    []pattern.Level
	contrast []float64
}

// beside computes it. A level in full is never lower, whatever else the panel is of.
func (c *Ceiling) beside() *fitting {
	var all pattern.Pattern
	for _, w := range c.woods {
		p := c.pools[w.pool]
		all.Strips = append(all.Strips, pattern.Strip{Species: p.species, Width: length.Millimetre, Rings: w.rings, Moisture: p.moisture, Colour: p.colour})
	}
	n := len(c.woods)
	out := &fitting{level: make([]pattern.Level, n*n), contrast: make([]float64, n*n)}
	if c.coarse { // some of the one may go with some of the other
		for i := range out.contrast {
			out.contrast[i] = math.Inf(1)
		}
		return out
	}
	panel := c.job.Physics.Panel(all)
	for a := range n {
		for b := range n {
			f, _ := panel.Beside(a, b)
			out.level[a*n+b], out.contrast[a*n+b] = f.Level, panel.Contrast(a, b)
		}
	}
	return out
}

// told returns whether a timber is far enough from each other for an accent, by its name.
func (w *want) told(c *Ceiling, key string) map[string]bool {
	rules := suggest.Request{LeastContrast: w.LeastContrast}.Rules(c.job.Physics)
	out := map[string]bool{}
	for _, o := range w.timbers(c) {
		out[o] = rules.Contrast(key, o) >= 2*w.LeastContrast
	}
	return out
}

// A span is one glue-up width, or all of them where there are many: in cells, and how long a
// strip is at least by where it lies, how wide it is and how many products a piece serves.
type span struct {
	least, most int             // cells from edge to edge
	longs       []length.Length // [run][cell][width]
	marks       []int16         // likewise, the place of its mark
	widths      []length.Length
	of          []int // of each kind: the place of its width
	runs        int
}

func (s *span) place(run, cell, width int) int { return (run*(s.most+1)+cell)*len(s.widths) + width }

// lay parts widths into cells, so that every offset of a strip is whole where widths are
// multiples of a millimetre or more.
func (w *want) lay() {
	unit := length.Length(0)
	narrow := w.wide
	for _, k := range w.kinds {
		unit, narrow = common(unit, k.width), min(narrow, k.width)
	}
	slack := length.Length(0) // by how many cells a strip may lie further than is counted
	if unit < length.Millimetre {
		unit = length.Millimetre
		slack = w.wide/max(narrow, unit) + 1
	}
	var widths []length.Length
	for _, k := range w.kinds {
		w.cells = append(w.cells, int(k.width/unit))
		if !slices.Contains(widths, k.width) {
			widths = append(widths, k.width)
		}
	}
	add := func(least, most length.Length) {
		s := &span{least: int(max(0, (least+unit-1)/unit-slack)), most: int(most / unit), widths: widths, runs: w.Along.Most}
		for _, k := range w.kinds {
			s.of = append(s.of, slices.Index(widths, k.width))
		}
		s.longs = make([]length.Length, s.runs*(s.most+1)*len(widths))
		for run := range s.runs {
			for x := range s.most + 1 {
				at := length.Length(x) * unit
				for i, width := range widths {
					s.longs[s.place(run, x, i)] = w.shortest(run+1, at, at+slack*unit, width, least, most)
				}
			}
		}
		w.spans = append(w.spans, s)
	}
	const apart = 4 // so many widths are looked at one by one
	first := (w.least + unit - 1) / unit
	if n := w.wide/unit - first + 1; slack == 0 && n <= apart {
		for x := first; x < first+n; x++ {
			add(x*unit, x*unit)
		}
		return
	}
	add(w.least, w.wide)
}

// common returns the greatest common divisor.
func common(a, b length.Length) length.Length {
	for b > 0 {
		a, b = b, a%b
	}
	return a
}

// rows returns how many rows of products a panel may hold.
func (w *want) rows() int {
	_, body := w.shape.Size()
	return int((w.wide - 2*w.cut.SideMargin + w.cut.Gap) / (body + w.cut.Gap))
}

// shortest returns how long a strip is at least that begins between two offsets, in a panel as
// wide as one of a range, where a piece serves so many products of a row.
func (w *want) shortest(run int, from, to, width, least, most length.Length) length.Length {
	size, body := w.shape.Size()
	away := func(at, wide length.Length) length.Length { // of the strip from the middle, doubled
		return max(0, max(2*at-wide, wide-2*at-2*width))
	}
	near, far := length.Length(math.MaxInt64), length.Length(0)
	for _, at := range []length.Length{from, to} {
		for _, wide := range []length.Length{least, most} {
			near, far = min(near, away(at, wide)), max(far, away(at, wide))
		}
	}
	if 2*from <= most && 2*(to+width) >= least {
		near = 0
	}
	whole := w.PanelLength(run, w.cut) + w.allowance
	if near >= body {
		return whole
	}
	serves := length.Length(run-1)*(size+w.cut.Gap) + 2*w.cut.EndMargin
	half := w.shape.Half(0, min(far, body).MM()/2)
	long := length.Length(2*half*float64(length.Millimetre)) - 2 // rounding may have taken it up by one
	if half == w.shape.Half(0, 0) {
		long = size
	}
	const grain = length.Millimetre / 10 // so that rounding shows in no digit
	return min(whole, serves+max(0, long/grain*grain))
}

// lengths returns all lengths that strips have.
func (w *want) lengths() (out []length.Length) {
	for _, s := range w.spans {
		out = append(out, s.longs...)
	}
	if w.rows() > loosely {
		out = append(out, 2*w.cut.EndMargin)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// place finds the marks of all lengths, and of every kind's reach.
func (w *want) place(c *Ceiling) {
	for _, s := range w.spans {
		for _, l := range s.longs {
			s.marks = append(s.marks, int16(c.floor(w.glued, l)))
		}
	}
}

// twin reports whether two kinds are alike to the eye.
func (w *want) twin(c *Ceiling, a, b int) bool {
	return w.kinds[a].width == w.kinds[b].width && w.timber(c, a) == w.timber(c, b)
}

func (w *want) timber(c *Ceiling, k int) string {
	return c.pools[c.woods[w.kinds[k].wood].pool].species
}

func (w *want) light(c *Ceiling, k int) float64 { return c.woods[w.kinds[k].wood].light }
