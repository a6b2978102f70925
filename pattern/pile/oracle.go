package pile

import (
	"context"

	"example.com/oddments/pattern/cutting/solve"
)

// An oracle says whether so many copies can be cut together, timber by timber, and remembers
// what it found: what fits, fits with fewer, and what does not, does not with more.
type oracle struct {
	ctx     context.Context
	r       Request
	timbers []string           // of all offers
	uses    map[string][]int   // the offers that take a timber
	known   map[string][]known // what was found of their copies
}

type known struct {
	copies []int // of the offers that use the timber
	fits   bool
}

type verdict int

const (
	fits verdict = iota
	breaks
	unsure
)

// How many steps the planner takes on one timber of one choice: for a look, which says only
// what fits, and until it knows.
const (
	quickSteps = 2
	trySteps   = 7
)

func newOracle(ctx context.Context, r Request) *oracle {
	o := &oracle{ctx: ctx, r: r, uses: map[string][]int{}, known: map[string][]known{}}
	for i, offer := range r.Offers {
		seen := map[string]bool{}
		for _, s := range offer.Pattern.Strips {
			if seen[s.Species] {
				continue
			}
			seen[s.Species] = true
			if o.uses[s.Species] == nil {
				o.timbers = append(o.timbers, s.Species)
			}
			o.uses[s.Species] = append(o.uses[s.Species], i)
		}
	}
	return o
}

// of returns the copies of the offers that use a timber.
func (o *oracle) of(species string, copies []int) []int {
	out := make([]int, len(o.uses[species]))
	for n, i := range o.uses[species] {
		out[n] = copies[i]
	}
	return out
}

// covers reports whether a has at least as many of each as b.
func covers(a, b []int) bool {
	for i := range a {
		if a[i] < b[i] {
			return false
		}
	}
	return true
}

// recalls returns what is known of copies of one timber.
func (o *oracle) recalls(species string, of []int) verdict {
	for _, k := range o.known[species] {
		if k.fits && covers(k.copies, of) {
			return fits
		}
		if !k.fits && covers(of, k.copies) {
			return breaks
		}
	}
	return unsure
}

// hopeless reports whether copies are known not to fit.
func (o *oracle) hopeless(copies []int) bool {
	for _, species := range o.timbers {
		if o.recalls(species, o.of(species, copies)) == breaks {
			return true
		}
	}
	return false
}

// ask says whether copies can be cut, as far as so many steps tell.
func (o *oracle) ask(copies []int, steps int) verdict {
	if o.hopeless(copies) {
		return breaks
	}
	all := fits
	for _, species := range o.timbers {
		switch o.askOf(species, copies, steps) {
		case breaks:
			return breaks
		case unsure:
			if steps == quickSteps {
				return unsure
			}
			all = unsure
		}
	}
	return all
}

// askOf says whether the rack has enough of one timber.
func (o *oracle) askOf(species string, copies []int, steps int) verdict {
	of := o.of(species, copies)
	if known := o.recalls(species, of); known != unsure {
		return known
	}
	try := solve.Try(o.ctx, o.r.job(copies).Of(species), steps)
	if try.Broken != nil || !try.Fits && !try.Sure {
		return unsure
	}
	o.known[species] = append(o.known[species], known{of, try.Fits})
	if try.Fits {
		return fits
	}
	return breaks
}

// lacks returns the timbers that one copy more of offer i has too little of.
func (o *oracle) lacks(copies []int, i int) (timbers []string) {
	more := append([]int{}, copies...)
	more[i]++
	for _, species := range o.timbers {
		if o.askOf(species, more, trySteps) == breaks {
			timbers = append(timbers, species)
		}
	}
	return timbers
}
