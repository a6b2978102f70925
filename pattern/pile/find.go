package pile

import (
	"context"
	"math"
	"slices"

	"example.com/oddments/pattern/cutting/solve"
)

// same is the difference below which two worths are one: that of adding them up.
const same = 1e-9

// A finder searches boxes of copies, the most promising first.
type finder struct {
	ctx     context.Context
	r       Request
	most    []int
	limits  *solve.Limits
	release func() bool
	demands []int // the offers that the limits' demands are, in order
	oracle  *oracle
	relaxer
	tell func(Choice)

	best  Choice
	value float64 // of best
	bound float64 // no choice has a greater value
	open  []box
}

// A box is the copies from lo to hi, both with them; no choice in it has a greater value than
// bound.
type box struct {
	lo, hi []int
	bound  float64
}

func newFinder(ctx context.Context, r Request, tell func(Choice)) (*finder, error) {
	f := &finder{ctx: ctx, r: r, most: r.mosts(), oracle: newOracle(ctx, r), tell: tell, release: func() bool { return true }}
	f.relaxer = newRelaxer(r, f.most)
	f.best.Copies = make([]int, len(r.Offers))
	f.value = f.valueOf(f.best.Copies)
	for i, n := range f.most {
		if n > 0 {
			f.demands = append(f.demands, i)
		}
	}
	if len(f.demands) == 0 {
		return f, nil
	}
	var err error
	f.limits, f.release, err = solve.NewLimits(ctx, r.job(f.most))
	return f, err
}

// greatest finds the choice of the greatest value.
func (f *finder) greatest() {
	f.bound = f.valueOf(f.most)
	f.open = []box{{make([]int, len(f.most)), f.most, f.bound}}
	doubt := math.Inf(-1)
	for len(f.open) > 0 && f.ctx.Err() == nil {
		at := 0
		for i, b := range f.open {
			if b.bound > f.open[at].bound {
				at = i
			}
		}
		b := f.open[at]
		f.open = slices.Delete(f.open, at, at+1)
		if f.better(b.bound) {
			doubt = max(doubt, f.part(b))
		}
	}
	f.bound = max(f.value, doubt)
	for _, b := range f.open {
		f.bound = max(f.bound, b.bound)
	}
}

// better reports whether a value leaves room for one that is greater than the best.
func (f *finder) better(value float64) bool {
	near := same * max(1, f.value)
	return value > f.value+max(near, f.grain-near)
}

// part searches a box, or parts it in two. It returns the value that may be in what is neither
// searched nor left open.
func (f *finder) part(b box) (doubt float64) {
	none := math.Inf(-1)
	if f.oracle.hopeless(b.lo) {
		return none
	}
	at, bound, ok := f.tighten(b)
	if f.ctx.Err() != nil {
		f.open = append(f.open, b)
		return none
	}
	if b.bound = min(b.bound, bound); !ok || !f.better(b.bound) {
		return none
	}
	whole, split := rounded(at)
	f.climb(whole)
	if !f.better(b.bound) {
		return none
	}
	if split >= 0 {
		f.halve(b, split, whole[split])
		return none
	}
	doubt = none
	switch f.oracle.ask(whole, trySteps) {
	case fits:
		f.take(whole)
		if !f.better(b.bound) {
			return none // nothing in the box is worth more than the linear program's best
		}
	case unsure:
		doubt = f.valueOf(whole)
	}
	split = -1
	for i := range whole {
		if split < 0 || whole[i]-b.lo[i] > whole[split]-b.lo[split] {
			split = i
		}
	}
	if whole[split] == b.lo[split] { // all of the box has as many of each
		if doubt > none {
			return b.bound
		}
		return none
	}
	f.halve(b, split, whole[split]-1)
	return doubt
}

// halve opens the two parts of a box, at most n and more of offer i.
func (f *finder) halve(b box, i, n int) {
	few, many := b, b
	few.hi, many.lo = slices.Clone(b.hi), slices.Clone(b.lo)
	few.hi[i], many.lo[i] = n, n+1
	f.open = append(f.open, few, many)
}

// mostCuts bounds the limits that are looked for in one box.
const mostCuts = 200

// tighten returns the best of a box by the linear program over the limits that are known, to
// which those are added that it breaks.
func (f *finder) tighten(b box) (at []float64, bound float64, ok bool) {
	for range mostCuts {
		if at, bound, ok = f.relax(b); !ok || !f.better(bound) {
			return at, bound, ok
		}
		copies := make([]float64, len(f.demands))
		for d, i := range f.demands {
			copies[d] = at[i]
		}
		limit, broken := f.limits.Break(copies)
		if !broken {
			return at, bound, ok
		}
		f.add(limit, f.demands)
	}
	return f.relax(b)
}

// rounded rounds down, and returns the place of what is furthest from whole; -1 where all are.
func rounded(at []float64) (whole []int, split int) {
	const near = 1e-6
	split, far := -1, near
	for i, x := range at {
		n := math.Round(x)
		if off := math.Abs(x - n); off > far {
			split, far = i, off
		}
		if math.Abs(x-n) > near {
			n = math.Floor(x)
		}
		whole = append(whole, int(n))
	}
	return whole, split
}

// climb looks for a better choice near one: with fewer of all until it can be cut, then with
// more of each.
func (f *finder) climb(from []int) {
	if !f.better(f.valueOf(from)) && f.value > f.valueOf(make([]int, len(from))) {
		return
	}
	const parts = 16
	at := slices.Clone(from)
	for part := parts; f.oracle.ask(at, quickSteps) != fits; {
		if part--; part == 0 || f.ctx.Err() != nil {
			return
		}
		for i, n := range from {
			at[i] = n * part / parts
		}
	}
	for f.ctx.Err() == nil {
		more := -1
		for i, n := range at {
			if n >= f.most[i] || more >= 0 && f.gain(at, i) <= f.gain(at, more) {
				continue
			}
			at[i]++
			if f.oracle.ask(at, quickSteps) == fits {
				more = i
			}
			at[i]--
		}
		if more < 0 {
			break
		}
		at[more]++
	}
	f.take(at)
}

// gain returns what one copy more of offer i brings.
func (f *finder) gain(at []int, i int) float64 {
	more := slices.Clone(at)
	more[i]++
	return f.valueOf(more) - f.valueOf(at)
}

// take keeps a choice that can be cut, where it is better.
func (f *finder) take(copies []int) {
	value := f.valueOf(copies)
	if !f.better(value) {
		return
	}
	f.value = value
	f.best.Copies = slices.Clone(copies)
	f.best.Short, f.best.Worth = f.shortOf(copies), f.worthOf(copies)
	if f.tell != nil {
		f.tell(f.best)
	}
}

// done returns the best choice with what is known of it.
func (f *finder) done() Choice {
	c := f.best
	c.Short, c.Worth = f.shortOf(c.Copies), f.worthOf(c.Copies)
	kept := f.keptOf(c.Copies)
	c.Fewest = f.bound < f.each*float64(kept+1)
	c.Bound = f.worthOf(f.most)
	if c.Fewest {
		c.Bound = min(c.Bound, f.bound-f.each*float64(kept))
	}
	if c.Greatest = !f.better(f.bound); c.Greatest {
		c.Bound = c.Worth
	}
	c.Least = c.Least && c.Greatest
	for i, o := range f.r.Offers {
		var lacks []string
		if o.Most == 0 || c.Copies[i] < o.Most {
			lacks = f.oracle.lacks(c.Copies, i)
		}
		c.Lacks = append(c.Lacks, lacks)
	}
	return c
}
