// Package cutting plans how the strips of patterns are cut from the pieces on a
// rack: which ready strips serve, which pieces are opened, and how each is crosscut
// into sections, resawn into slices and ripped into strips.
//
// The plan with the fewest strips short is sought, and among those the one that
// draws the least timber. Plans are proved optimal, or come with a lower bound that
// holds. Timbers never mix, so each is solved by itself; the same job gives the same
// plan unless its context ended the work.
//
// Whether something fits is decided in whole nanometres. Volumes are compared in
// millionths of a cubic centimetre, rounded once for each opened piece and each of its
// sections: two plans closer than that count as equal. Volumes handed out are
// float64 in cubic centimetres.
package cutting

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A Demand is one pattern and how many times it is made.
type Demand struct {
	Stem    string // what the plan calls the pattern; no two alike in a job
	Pattern pattern.Pattern
	Copies  int
}

// A Job is what is asked and what there is.
type Job struct {
	Patterns []Demand
	Rack     rack.Rack
	Shop     shop.Shop
}

// Options are how a job is worked on; the zero value works quietly on one core.
type Options struct {
	// Progress is told how far the work is, one call at a time, each time Tick
	// fires, and at every change where Tick is nil. It must not wait.
	Progress func(Progress)
	// Tick says when to tell Progress, for example time.Tick(time.Second / 10).
	Tick <-chan time.Time
	// Workers is how many work at a time, on a timber each, and together where
	// fewer timbers are left; below 1 it is 1.
	Workers int

	tamper  func([]*solver) // tests have solvers claim what is not so
	without parts           // tests switch parts of the search off
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
	LowerBoundCM3 float64 // equal to DrawnCM3 when optimal; else no plan with Short strips short draws less
	Missing       []Missing
	Ready         []Ready
	Cuts          []Cut // in the rack's order
	// Broken is a *Broken where the search contradicted itself. The plan can be cut, and
	// nothing is claimed of it: it is Feasible with a bound of 0. Nil: all claims hold.
	Broken error
}

// A Ref names one strip of a job.
type Ref struct {
	Pattern string // stem
	Copy    int    // of the pattern
	Strip   int    // left to right
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

// Solve plans a job. It returns when the plan is proved, when no more is to be
// gained in reasonable work, or soon after ctx ends, always with a plan that can be
// cut, as Verify has found; ending ctx is no error. An error says that the job itself is
// wrong, or is a *Broken: the search made a plan that cannot be cut, and there is none.
func Solve(ctx context.Context, job Job, opt Options) (Plan, error) {
	if err := job.Check(); err != nil {
		return Plan{}, err
	}
	var stop atomic.Bool
	defer context.AfterFunc(ctx, func() { stop.Store(true) })()
	if ctx.Err() != nil {
		stop.Store(true)
	}
	needs := Needs(job)
	timbers := sortTimbers(job, needs)
	board := newBoard(timbers, opt)
	var free idleWorkers
	solvers := make([]*solver, len(timbers))
	for i, t := range timbers {
		solvers[i] = newSolver(t, stopper{&stop}, func(n note) { board.post(i, n) }, &free)
		solvers[i].without, solvers[i].pr.without = opt.without, opt.without
	}
	if opt.tamper != nil {
		opt.tamper(solvers)
	}
	share(solvers, opt.Workers, &free)
	answers := make([]answer, len(timbers))
	for i, s := range solvers {
		answers[i] = s.answer()
	}
	return finish(job, needs, timbers, answers)
}

// share lets workers step the solvers until none has more to do. Those least far
// come first, then those with the widest gap; a solver's own steps depend on no
// other's. Workers without one are free to help.
func share(solvers []*solver, workers int, free *idleWorkers) {
	var mu sync.Mutex
	var crew crew
	waiting := slices.Clone(solvers)
	next := func(done *solver) *solver {
		mu.Lock()
		defer mu.Unlock()
		if done != nil {
			waiting = append(waiting, done)
		}
		if len(waiting) == 0 {
			return nil
		}
		slices.SortStableFunc(waiting, func(a, b *solver) int {
			return cmp.Or(cmp.Compare(min(a.steps, 5), min(b.steps, 5)), cmp.Compare(b.gap(), a.gap()))
		})
		s := waiting[0]
		waiting = waiting[1:]
		return s
	}
	own := max(1, min(workers, len(solvers)))
	free.free.Store(int32(max(0, workers-own)))
	for range own {
		crew.start(func() {
			defer free.back()
			var done *solver
			for {
				s := next(done)
				if s == nil {
					return
				}
				if done = nil; s.step() {
					done = s
				}
			}
		}, func() {
			for _, s := range solvers {
				s.stop.end()
			}
		})
	}
	crew.join()
}

// Check reports what makes a job no job.
func (job Job) Check() error {
	stems := map[string]bool{}
	for _, d := range job.Patterns {
		if stems[d.Stem] {
			return fmt.Errorf("pattern %q stands twice in the job: ask for its copies together", d.Stem)
		}
		stems[d.Stem] = true
		if d.Copies < 0 {
			return fmt.Errorf("pattern %q: %d copies: must be 0 or more", d.Stem, d.Copies)
		}
	}
	ids := map[string]bool{}
	name := func(id string) error {
		if ids[id] {
			return fmt.Errorf("rack: id %q stands twice: ids of pieces and ready strips must differ", id)
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
