package gallery

import (
	"cmp"
	"context"
	"slices"
)

// A dive looks through the walks of one table, the most promising first. It leaves out what
// its bound says cannot be worth more than the best so far, what runs short of timber, and
// what can no longer look different enough.
type dive struct {
	*seek
	ctx     context.Context
	t       *table
	steps   []int
	counts  []uint16
	wide    []int64 // of each timber
	val     int64   // priced
	differs [][]int64
}

// An option is one step that a dive may take.
type option struct {
	e    edge
	most int64
	show int64 // how much of it differs from rivals
}

// run dives; it reports false where it was cut short.
func (d *dive) run() bool {
	d.steps, d.counts, d.wide, d.val = nil, make([]uint16, len(d.g.classes)), make([]int64, len(d.g.timbers)), 0
	starts := make([]int, d.t.f.starts)
	for i := range starts {
		starts[i] = i
	}
	slices.SortStableFunc(starts, func(a, b int) int { return cmp.Compare(d.t.best[b][0], d.t.best[a][0]) })
	for _, i := range starts {
		if d.t.best[i][0]+d.t.weigh.credit <= d.above {
			break
		}
		d.differs = make([][]int64, i+1)
		d.differs[i] = make([]int64, len(d.rivals))
		if !d.from(i, 0, 0) {
			return false
		}
	}
	return true
}

// from goes on after i steps, at an offset in a state.
func (d *dive) from(i, x, s int) bool {
	if d.nodes--; d.nodes < 0 || d.nodes&63 == 0 && d.stop() {
		return false
	}
	if i == len(d.t.f.copies) {
		return d.leaf(d.ctx, d.t.f, d.steps, d.counts)
	}
	for _, o := range d.options(i, x, s) {
		if d.val+o.most+d.t.weigh.credit <= d.above {
			break
		}
		if !d.put(i, x, o) {
			d.take(i, o)
			continue
		}
		at := int(d.t.onto[i][x*len(d.t.widths)+d.t.wide[o.e.class]])
		done := d.from(i+1, at, int(o.e.to))
		if d.take(i, o); !done {
			return false
		}
		if d.any && d.best != nil {
			return true
		}
	}
	return true
}

// options returns the steps that may come next, the most promising first; of those that
// promise as much, what looks most different from the rivals.
func (d *dive) options(i, x, s int) []option {
	var out []option
	for _, e := range d.t.m.edges[s] {
		if most := d.t.along(i, x, s, e); most > never {
			o := option{e: e, most: most}
			for r := range d.rivals { // the more, the more it still lacks
				if lacks := d.rivals[r].needs - float64(d.differs[i][r]); lacks > 0 {
					o.show += int64(1000 * min(1, float64(d.shows(i, d.t.xs[i][x], int(e.class), r))/lacks))
				}
			}
			out = append(out, o)
		}
	}
	slices.SortStableFunc(out, func(a, b option) int {
		switch {
		case a.most != b.most:
			return int(min(1, max(-1, b.most-a.most)))
		default:
			return int(min(1, max(-1, b.show-a.show)))
		}
	})
	return out
}

// shows returns how much of what step i puts at an offset may differ from a rival.
func (d *dive) shows(i int, x int64, c, r int) int64 {
	f, g := d.t.f, d.g
	slack := f.most - f.least
	class := &g.classes[c]
	sum := int64(0)
	for copy := range f.copies[i] {
		a := 2*x - (f.least+f.most)/2 // the panel's left edge lies give or take the slack
		if f.period > 0 {
			a += 2 * int64(copy) * f.period
		} else if copy == 1 { // mirrored
			a = -a - 2*class.width
		}
		sum += d.rivals[r].differs(class.timber, a, a+2*class.width, (slack+1)/2)
	}
	return sum
}

// put takes a step, and reports whether what it comes to may still be a layout.
func (d *dive) put(i, x int, o option) bool {
	c, f := int(o.e.class), d.t.f
	class := &d.g.classes[c]
	d.val += d.t.brings(i, o.e)
	d.steps = append(d.steps, c)
	d.counts[c] += uint16(f.copies[i])
	d.wide[class.timber] += int64(f.copies[i]) * class.width
	was := d.differs[i]
	now := make([]int64, len(was))
	for r := range was {
		now[r] = was[r] + d.shows(i, d.t.xs[i][x], c, r)
	}
	d.differs = append(d.differs[:i+1], now)
	if !d.g.fits(c, d.t.xs[i][x], -1) || int(d.counts[c]) > class.count || d.wide[class.timber] > d.g.timbers[class.timber].most || !d.g.mayYield(class.timber, d.counts) {
		return false
	}
	placed := int64(0)
	for _, w := range d.wide {
		placed += w
	}
	if use := d.mayUse(f.most - placed); use < d.use || d.worth == byUse && use <= d.above {
		return false
	}
	for _, like := range d.shared {
		if 2*d.g.alike(like, d.counts) > f.most {
			return false
		}
	}
	for r := range d.rivals {
		if float64(now[r]+2*(f.most-placed)) < d.rivals[r].needs {
			return false
		}
	}
	return true
}

// take takes a step back.
func (d *dive) take(i int, o option) {
	c, f := int(o.e.class), d.t.f
	d.val -= d.t.brings(i, o.e)
	d.steps = d.steps[:len(d.steps)-1]
	d.counts[c] -= uint16(f.copies[i])
	d.wide[d.g.classes[c].timber] -= int64(f.copies[i]) * d.g.classes[c].width
}

// mayUse returns how much use-first width may still come about, with so much to be put.
func (d *dive) mayUse(rest int64) int64 {
	have, with := rest, int64(0)
	for t := range d.wide {
		have += d.g.timbers[t].use(d.wide[t])
		with += d.g.timbers[t].use(d.wide[t] + rest)
	}
	return min(have, with)
}

// mayYield reports whether nothing is known that counts of a timber are short of; of one of which
// strips are only given these are among the counts, and nothing is.
func (g *goods) mayYield(at int, counts []uint16) bool {
	t := &g.timbers[at]
	for _, b := range t.budgets {
		if b.Overdrawn(counts) {
			return false
		}
	}
	return t.given || !slices.ContainsFunc(t.fails[anyMark], func(f []uint16) bool { return within(f, counts) })
}
