// Package cutting states how the strips of patterns are cut from the pieces on a rack:
// which ready strips serve, which pieces are opened, and how each is crosscut into
// sections, resawn into slices and ripped into strips. It has the job and the plan, what
// is claimed of a plan, and the check that holds a plan to its job; package solve under it
// finds plans.
//
// Whether something fits is decided in whole nanometres. Volumes are float64 in cubic
// centimetres.
package cutting

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A Demand is one pattern and how many times it is made.
type Demand struct {
	Stem    string // what the plan calls the pattern; no two alike in a job
	Pattern pattern.Pattern
	Copies  int
	// Ways are the ways in which each strip may be made of pieces, the whole first; nil: as
	// the pattern has it. Other are likewise; where a job has them, all of its strips take
	// their ways, or all their other ones. See Job.Joined.
	Ways, Other [][]joints.Way
}

// A Job is what is asked and what there is.
type Job struct {
	Patterns []Demand
	Rack     rack.Rack
	Shop     shop.Shop
}

// Of returns the part of a job that is about one timber; every pattern stays, with its strips
// of that timber.
func (job Job) Of(species string) Job {
	part := Job{Shop: job.Shop}
	for _, p := range job.Rack.Pieces {
		if p.Species == species {
			part.Rack.Pieces = append(part.Rack.Pieces, p)
		}
	}
	for _, s := range job.Rack.Strips {
		if s.Species == species {
			part.Rack.Strips = append(part.Rack.Strips, s)
		}
	}
	for _, d := range job.Patterns {
		whole := d
		d.Pattern.Strips, d.Ways, d.Other = nil, nil, nil
		for i, s := range whole.Pattern.Strips {
			if s.Species != species {
				continue
			}
			d.Pattern.Strips = append(d.Pattern.Strips, s)
			if whole.Ways != nil {
				d.Ways = append(d.Ways, whole.Ways[i])
			}
			if whole.Other != nil {
				d.Other = append(d.Other, whole.Other[i])
			}
		}
		part.Patterns = append(part.Patterns, d)
	}
	return part
}

// AnyRings returns the job with no wish for rings: timber with any rings serves.
func (job Job) AnyRings() Job {
	patterns := make([]Demand, len(job.Patterns))
	for i, d := range job.Patterns {
		d.Pattern.Strips = slices.Clone(d.Pattern.Strips)
		for k := range d.Pattern.Strips {
			d.Pattern.Strips[k].Lay(pattern.Grain{})
		}
		patterns[i] = d
	}
	job.Patterns = patterns
	return job
}

// Progress is how far a job is.
type Progress struct {
	Timbers, Done int     // timbers in the job, and how many of them are done with
	Short         int     // strips short in the best plan so far
	DrawnCM3      float64 // what it draws
	LowerBoundCM3 float64 // no plan with so few short draws less
}

// Status says how sure a plan is.
type Status int

// The two kinds of plans.
const (
	Feasible Status = iota // can be cut, and its bound holds
	Optimal                // proved the best
)

// String returns feasible or optimal.
func (s Status) String() string {
	switch s {
	case Feasible:
		return "feasible"
	case Optimal:
		return "optimal"
	default:
		return fmt.Sprintf("status(%d)", int(s))
	}
}

// A Plan says how a job is cut. Everything in it counts from 1.
type Plan struct {
	Status        Status
	Short         int
	DrawnCM3      float64
	GoneCM3       float64
	LowerBoundCM3 float64 // equal to DrawnCM3 when optimal; else no plan with Short strips short draws less, joints counted
	Missing       []Missing
	JointsCM3     float64  // what its joints count for, which DrawnCM3 is without
	Pieced        []Pieced // the strips that are not whole, in the order of Needs
	Ready         []Ready
	Cuts          []Cut  // in the rack's order
	Fills         []Fill // strips for the rack out of what slices leave, where they are asked for
	// Broken is a *Broken where the search contradicted itself. The plan can be cut, and
	// nothing is claimed of it: it is Feasible with a bound of 0. Nil: all claims hold.
	Broken error
}

// Counted returns what plans are compared by: what one draws, with its joints.
func (p Plan) Counted() float64 { return p.DrawnCM3 + p.JointsCM3 }

// Compare returns less than 0 where p is the better plan of one job: it is short of fewer
// strips, or of as many and counts less.
func (p Plan) Compare(other Plan) int {
	return cmp.Or(cmp.Compare(p.Short, other.Short), cmp.Compare(p.Counted(), other.Counted()))
}

// A Ref names one strip of a job.
type Ref struct {
	Pattern string // stem
	Copy    int    // of the pattern
	Strip   int    // left to right
	Piece   int    // of the strip, datum end first; 0: it is in one piece
}

// A Pieced strip is made of several pieces, or of one that is not as the pattern has it.
type Pieced struct {
	Ref
	Pieces joints.Way
}

// A Missing strip is one that the rack does not yield.
type Missing struct {
	Ref
	Species string
}

// A Ready strip of the rack serves a strip of the job.
type Ready struct {
	ID   string // of the ready strip
	Copy int    // of the ready strip
	For  Ref
}

// A Cut is one opened piece. A clear rectangle of a faulty piece is a piece of its
// own (rack.Piece.Clear gives its name).
type Cut struct {
	Piece    string
	Copy     int
	Tail     length.Length // what goes back of its length; 0: nothing
	Sections []Section
}

// A Section is crosscut from a piece.
type Section struct {
	Length   length.Length
	Side     bool          // resawn across the piece's width
	SlabLeft length.Length // thickness of the slab that goes back; 0: none
	Slices   []Slice
}

// A Slice is resawn from a section.
type Slice struct {
	Thickness length.Length // as sawn; the piece's where that is planed
	RipLeft   length.Length // width of what goes back beside the strips; 0: nothing
	Strips    []Ref
}

// A Fill is strips for the rack that come out of a slice beside those of the plan. It is no
// part of what plans are compared by: what the plan draws, and what is proved of it, are as
// without it.
type Fill struct {
	Piece                string
	Copy, Section, Slice int // of the plan, from 1
	Widths               []length.Length
	Edge                 bool          // they are rolled a quarter turn
	Glued                length.Length // their thickness as they lie on the rack
	Takes                length.Length // of the slice, with their kerfs
	RipLeft              length.Length // what goes back of the slice's width then
	InsteadOfRip         bool          // a spare width would go back without it
	Made                 bool          // it is made; else it is only offered
	CM3                  float64
}

// In returns the section and slice of plan that the fill is of; nil: there are none.
func (f Fill) In(plan Plan) (*Section, *Slice) {
	for _, c := range plan.Cuts {
		if c.Piece == f.Piece && c.Copy == f.Copy && f.Section <= len(c.Sections) && f.Slice <= len(c.Sections[f.Section-1].Slices) {
			s := &c.Sections[f.Section-1]
			return s, &s.Slices[f.Slice-1]
		}
	}
	return nil, nil
}

// Check reports what makes a job no job.
func (job Job) Check() error {
	stems := map[string]bool{}
	for _, d := range job.Patterns {
		if stems[d.Stem] {
			return fmt.Errorf("pattern %q is in the job twice: ask for its copies together", d.Stem)
		}
		stems[d.Stem] = true
		if d.Copies < 0 {
			return fmt.Errorf("pattern %q: %d copies: must be 0 or more", d.Stem, d.Copies)
		}
	}
	ids := map[string]bool{}
	name := func(id string) error {
		if ids[id] {
			return fmt.Errorf("rack: id %q is there twice: ids of pieces and ready strips must differ", id)
		}
		ids[id] = true
		return nil
	}
	for _, p := range job.Rack.Pieces {
		if err := name(p.ID); err != nil {
			return err
		}
	}
	for _, s := range job.Rack.Strips {
		if err := name(s.ID); err != nil {
			return err
		}
	}
	return nil
}
