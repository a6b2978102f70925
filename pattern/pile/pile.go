// Package pile says what a whole pile of timber becomes: how many copies of which patterns are
// cut from one rack together, so that they are worth most.
//
// The search parts boxes of copies. What the rack gives of each timber is bounded by whole
// numbers (solve.Limits), so that a claim holds without a tolerance; whether one choice can be
// cut is for the planner to say, timber by timber.
package pile

import (
	"context"
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// An Offer is a pattern that the pile may become, and how often.
type Offer struct {
	Stem    string
	Pattern pattern.Pattern
	// Least and Most bound the copies; Most 0: as many as the rack gives.
	Least, Most int
	Worth       float64 // of one copy, above 0
}

// A Request is what is asked: which of the offers, and how many of each.
type Request struct {
	Offers []Offer
	Rack   rack.Rack
	Shop   shop.Shop
}

// MostCopies bounds the copies of one offer.
const MostCopies = 1000

// Check reports what makes a request none.
func (r Request) Check() error {
	for _, o := range r.Offers {
		switch {
		case o.Least < 0 || o.Most < 0 || max(o.Least, o.Most) > MostCopies:
			return fmt.Errorf("%s: the number of copies must be 0 to %d", o.Stem, MostCopies)
		case o.Most > 0 && o.Least > o.Most:
			return fmt.Errorf("%s: at least %d copies and at most %d contradict each other", o.Stem, o.Least, o.Most)
		case !(o.Worth > 0) || math.IsInf(o.Worth, 1):
			return fmt.Errorf("%s: what one copy is worth must be above 0", o.Stem)
		}
	}
	return nil
}

// A Choice is how many copies of each offer are made. The goal, in this order: the fewest copies
// wanting of what each offer has at least; the greatest worth; the least drawn.
type Choice struct {
	Copies []int // of each offer
	Short  int   // copies wanting of the least
	Worth  float64
	// Bound is what no choice with as few copies wanting is worth more than; the worth itself
	// where that is proved.
	Bound float64
	// Fewest says that Short is proved, Greatest that Worth is too, and Least that the plan is
	// proved to draw the least of all choices worth as much.
	Fewest, Greatest, Least bool
	Plan                    cutting.Plan // of all copies; nothing is short
	// Lacks are the timbers that one copy more of each offer has too little of, by key. None
	// where no more are asked for, or where it is not known.
	Lacks [][]string
}

// Status says whether no choice is better.
func (c Choice) Status() cutting.Status {
	if c.Fewest && c.Greatest && c.Least {
		return cutting.Optimal
	}
	return cutting.Feasible
}

// Find returns the best choice of copies, or, when ctx ends first, the best so far with what is
// known of it. Tell, where it is not nil, is told each better choice, without its plan.
func Find(ctx context.Context, r Request, tell func(Choice)) (Choice, error) {
	if err := r.Check(); err != nil {
		return Choice{}, err
	}
	f, err := newFinder(ctx, r, tell)
	if err != nil {
		return Choice{}, err
	}
	defer f.release()
	f.greatest()
	f.leastDrawn()
	return f.done(), nil
}

// job returns the job of making so many of each.
func (r Request) job(copies []int) cutting.Job {
	job := cutting.Job{Rack: r.Rack, Shop: r.Shop}
	for i, o := range r.Offers {
		if copies[i] > 0 {
			job.Patterns = append(job.Patterns, cutting.Demand{Stem: o.Stem, Pattern: o.Pattern, Copies: copies[i]})
		}
	}
	return job
}

// mosts returns how many copies of each offer there may be at most: as many as are asked for,
// and as the volume of each timber on the rack gives.
func (r Request) mosts() []int {
	have := map[string]float64{}
	for _, p := range r.Rack.Pieces {
		have[p.Species] += float64(p.Quantity) * length.VolumeCM3(p.Length, p.Width, p.Thickness)
	}
	for _, s := range r.Rack.Strips {
		have[s.Species] += float64(s.Quantity) * length.VolumeCM3(s.Length, s.Width, s.Thickness)
	}
	out := make([]int, len(r.Offers))
	for i, o := range r.Offers {
		needs := map[string]float64{}
		for _, s := range cutting.Needs(cutting.Job{Patterns: []cutting.Demand{{Stem: o.Stem, Pattern: o.Pattern, Copies: 1}}, Shop: r.Shop}) {
			needs[s.Species] += length.VolumeCM3(s.Length, s.Width, o.Pattern.Panel.Thickness)
		}
		out[i] = MostCopies
		if o.Most > 0 {
			out[i] = o.Most
		}
		for species, need := range needs {
			if need > 0 {
				out[i] = min(out[i], int(have[species]/need))
			}
		}
	}
	return out
}
