package edit

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A rerun is one way to change the number of repeats: in strips from to until, period
// strips repeat; so many repeats are added, or taken out where it is below 0.
type rerun struct {
	from, until, period int
	both                bool // the same at the mirror image of the strips
	by                  int
	width               length.Length // of the panel then
}

// strips returns how many strips a rerun adds or takes out.
func (run rerun) strips() int {
	n := max(run.by, -run.by) * run.period
	if run.both {
		n *= 2
	}
	return n
}

// byRepeats changes the number of repeats. What is symmetric stays so only where the
// run lies in the middle, or its mirror image is changed with it.
func (r *resizing) byRepeats() error {
	n := len(r.strips)
	mirror := symmetric(r.strips)
	var best rerun
	runs := r.runs()
	for _, run := range runs {
		middle := run.from+run.until == n
		if !mirror || middle {
			best = r.nearer(best, run)
		} else if run.until <= n/2 {
			run.both = true
			best = r.nearer(best, run)
		}
	}
	switch {
	case len(runs) == 0:
		return refuse("nothing in the pattern repeats")
	case best.by == 0:
		return refuse("no repeat can be added or removed: pins or the mirror image hold them")
	case !r.within(best.width):
		return refuse("no number of repeats adds up to %v within %v: %v is the nearest", r.to.Width, r.to.Tolerance, best.width)
	}
	if best.both { // from the right, so that places on the left stay
		r.change(best.mirrored(n))
	}
	r.change(best)
	return nil
}

// nearer returns the better one of best, where it is one, and run with any number of
// repeats more or fewer.
func (r *resizing) nearer(best, run rerun) rerun {
	for _, by := range r.near(run) {
		run.by, run.width = by, r.width()+length.Length(by)*r.one(run)
		if best.by == 0 || cmp.Or(
			cmp.Compare(away(run.width, r.to.Width), away(best.width, r.to.Width)),
			cmp.Compare(run.strips(), best.strips()),
			cmp.Compare(run.period, best.period),
			cmp.Compare(run.from, best.from),
		) < 0 {
			best = run
		}
	}
	return best
}

// runs lists the stretches of strips that repeat twice or more, as long as they go,
// with the fewest strips to a repeat.
func (r *resizing) runs() []rerun {
	n := len(r.strips)
	var out []rerun
	for period := 1; period <= n/2; period++ {
		for from := 0; from+2*period <= n; {
			until := from + period
			for until < n && sameForm(r.strips[until], r.strips[until-period]) {
				until++
			}
			within := func(o rerun) bool { return period%o.period == 0 && o.from <= from && until <= o.until }
			if until-from >= 2*period && !slices.ContainsFunc(out, within) {
				out = append(out, rerun{from: from, until: until, period: period})
			}
			from = max(from+1, until-period+1)
		}
	}
	return out
}

// one returns how much wider one repeat more makes the panel.
func (r *resizing) one(run rerun) length.Length {
	one := pattern.Pattern{Strips: r.strips[run.from : run.from+run.period]}.Width()
	if run.both {
		one *= 2
	}
	return one
}

// near returns the numbers of repeats to try: those that come nearest to the width wanted
// from below and above, as far as there are so many.
func (r *resizing) near(run rerun) []int {
	least, most := -r.spare(run), (pattern.MaxStrips-len(r.strips))/run.period
	if run.both {
		least, most = max(least, -r.spare(run.mirrored(len(r.strips)))), most/2
	}
	by := int((r.to.Width - r.width()) / r.one(run))
	var out []int
	for _, b := range []int{by - 1, by, by + 1} {
		if b = min(max(b, least), most); b != 0 {
			out = append(out, b)
		}
	}
	return out
}

// mirrored returns the same run at the mirror image of its place among n strips.
func (run rerun) mirrored(n int) rerun {
	run.from, run.until = n-run.until, n-run.from
	return run
}

// spare returns how many repeats of a run can be taken out: one stays, and so do pins.
func (r *resizing) spare(run rerun) int {
	return min(len(r.unpinned(run)), (run.until-run.from)/run.period-1)
}

// unpinned returns where repeats of a run without a pin begin, the rightmost first. Each
// repeat in a run may be cut out anywhere: what is left is the same.
func (r *resizing) unpinned(run rerun) []int {
	var out []int
	for at := run.until - run.period; at >= run.from; {
		pin := slices.IndexFunc(r.strips[at:at+run.period], func(s pattern.Strip) bool { return s.Pinned })
		if pin >= 0 {
			at += pin - run.period // the next one ends before that pin
			continue
		}
		out = append(out, at)
		at -= run.period
	}
	return out
}

// change adds or takes out the repeats of one run.
func (r *resizing) change(run rerun) {
	if run.by > 0 {
		var more []pattern.Strip
		for range run.by {
			for _, s := range r.strips[run.until-run.period : run.until] {
				more = append(more, unpinned(s))
			}
		}
		r.strips = splice(r.strips, run.until, 0, more)
		r.from = slices.Insert(r.from, run.until, slices.Repeat([]int{-1}, len(more))...)
		return
	}
	for _, at := range r.unpinned(run)[:-run.by] {
		r.strips = splice(r.strips, at, run.period, nil)
		r.from = slices.Delete(r.from, at, at+run.period)
	}
}
