package gallery

import (
	"slices"

	"example.com/oddments/pattern/suggest/look"
)

// A fold is how a panel of so many strips is walked: each step puts one strip, or as many as
// the look has alike. A mirror is walked from an edge to its middle, a repeat once along its
// period; all else from edge to edge. Offsets are of a step's first strip from the left
// edge, in nanometres.
type fold struct {
	look   look.Look
	strips int   // the most; of a walk from edge to edge that any number does, it begins the later the fewer there are
	starts int   // at how many steps it may begin
	copies []int // strips of each step
	lines  []int // glue lines between a step and the one before
	close  int   // glue lines between the last step and, in a repeat, the first; in a mirror, itself
	period int64 // width of a repeat's period
	odd    bool  // a mirror with one strip in its middle
	least  int64 // width of the panel
	most   int64
	way    int64 // calm: 1 where widths never shrink towards the middle, -1 where they never grow
}

// plainFold walks n strips one by one.
func plainFold(l look.Look, n int, least, most int64) *fold {
	f := &fold{look: l, strips: n, starts: 1, least: least, most: most}
	for i := range n {
		f.copies, f.lines = append(f.copies, 1), append(f.lines, min(i, 1))
	}
	return f
}

// mirrorFold walks half of n strips.
func mirrorFold(n int, least, most int64) *fold {
	f := &fold{look: look.Mirror, strips: n, starts: 1, least: least, most: most, odd: n%2 == 1}
	for i := range (n + 1) / 2 {
		f.copies, f.lines = append(f.copies, 2), append(f.lines, min(2*i, 2))
	}
	if f.odd {
		f.copies[len(f.copies)-1] = 1
	} else {
		f.close = 1
	}
	return f
}

// repeatFold walks the first p of n strips.
func repeatFold(n, p int, period, least, most int64) *fold {
	f := &fold{look: look.Repeat, strips: n, starts: 1, least: least, most: most, period: period}
	for i := range p {
		copies := n / p
		if i < n%p {
			copies++
		}
		f.copies, f.lines = append(f.copies, copies), append(f.lines, copies)
	}
	f.lines[0], f.close = 0, f.copies[0]-1
	return f
}

// fits reports whether step i may put strips so wide at x.
func (f *fold) fits(i int, x, wide int64) bool {
	end, last := x+wide, i == len(f.copies)-1
	within := func(w int64) bool { return w >= f.least && w <= f.most }
	switch {
	case f.period > 0:
		whole, rest := int64(f.strips/len(f.copies)), f.strips%len(f.copies)
		if end > f.period || last != (end == f.period) {
			return false
		}
		if rest > 0 {
			return i != rest-1 || within(whole*f.period+end)
		}
		return !last || within(whole*f.period)
	case f.look != look.Mirror:
		return end <= f.most && (!last || end >= f.least)
	case last && f.odd:
		return within(x + end)
	case last:
		return within(2 * end)
	default:
		return 2*end < f.most
	}
}

// swells reports whether step i may put a strip so wide after one as wide as before.
func (f *fold) swells(i int, before, wide int64) bool {
	n := f.strips
	return f.way == 0 || i == 0 || (i >= (n+1)/2 || f.way*(wide-before) >= 0) && (i < n/2+1 || f.way*(before-wide) >= 0)
}

// unfold returns what the strips from edge to edge are, of what each step puts.
func (f *fold) unfold(steps []int) []int {
	if f.period == 0 && f.look != look.Mirror {
		return slices.Clone(steps)
	}
	out := make([]int, f.strips)
	for i := range out {
		out[i] = steps[f.step(i)]
	}
	return out
}

// step returns which step puts the strip at place i, from 0.
func (f *fold) step(i int) int {
	switch {
	case f.period > 0:
		return i % len(f.copies)
	case f.look == look.Mirror:
		return min(i, f.strips-1-i)
	default:
		return i
	}
}
