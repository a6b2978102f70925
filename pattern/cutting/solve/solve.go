// Package solve finds the plan with the fewest strips short, and among those the one that
// draws the least timber. Plans are proved optimal, or come with a lower bound that holds.
// Timbers never mix, so each is solved by itself; the same job gives the same plan unless
// its context ended the work.
//
// Volumes are compared in millionths of a cubic centimetre, rounded once for each opened
// piece and each of its sections: two plans closer than that count as equal.
package solve

import (
	"cmp"
	"context"
	"slices"
	"sync"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/crew"
	"example.com/oddments/pattern/cutting/solve/sections"
)

// A Panic is what a goroutine of this package panicked with.
type Panic = crew.Panic

// Options are how a job is worked on; the zero value works quietly on one core.
type Options struct {
	// Progress is told how far the work is, one call at a time, each time Tick
	// fires, and at every change where Tick is nil. It must not wait.
	Progress func(cutting.Progress)
	// Tick says when to tell Progress, for example time.Tick(time.Second / 10).
	Tick <-chan time.Time
	// Workers is how many work at a time, on a timber each, and together where
	// fewer timbers are left; below 1 it is 1.
	Workers int
	// Steps bounds the steps of work on each timber, so that much is planned in little time
	// and the same plan comes of the same job; 0: until it is proved, or no more is to be
	// gained in reasonable work.
	Steps int

	tamper  func([]*solver) // tests have solvers claim what is not so
	without parts           // tests switch parts of the search off
}

// Plan plans a job. It returns when the plan is proved, when no more is to be
// gained in reasonable work, or soon after ctx ends, always with a plan that can be
// cut, as Verify has found; ending ctx is no error. An error says that the job itself is
// wrong, or is a *Broken: the search made a plan that cannot be cut, and there is none.
func Plan(ctx context.Context, job cutting.Job, opt Options) (cutting.Plan, error) {
	if err := job.Check(); err != nil {
		return cutting.Plan{}, err
	}
	stop, release := sections.StopWith(ctx)
	defer release()
	sides := job.Sides()
	told := &gatherer{opt: opt}
	var free idleWorkers
	var all []*solver
	works := make([]work, len(sides))
	for i, side := range sides {
		w := work{job: side, choices: cutting.Choices(side)}
		w.timbers = sortTimbers(side, w.choices)
		told.expect(w.timbers)
		for k, t := range w.timbers {
			s := newSolver(t, stop, func(n note) { told.post(i, k, n) }, &free)
			s.without, s.pr.without = opt.without, opt.without
			w.solvers = append(w.solvers, s)
		}
		works[i], all = w, append(all, w.solvers...)
	}
	if opt.tamper != nil {
		opt.tamper(all)
	}
	share(all, opt, &free)
	plans := make([]cutting.Plan, len(sides))
	for i, w := range works {
		var err error
		if plans[i], err = w.finish(); err != nil {
			return cutting.Plan{}, err
		}
	}
	if len(plans) == 1 {
		return plans[0], nil
	}
	return betterSide(plans[0], plans[1]), nil
}

// A work is a job, or one side of it, with those who work on its timbers.
type work struct {
	job     cutting.Job
	choices []cutting.Choice
	timbers []*timber
	solvers []*solver
}

func (w work) finish() (cutting.Plan, error) {
	answers := make([]answer, len(w.timbers))
	for i, s := range w.solvers {
		answers[i] = s.answer()
	}
	return finish(w.job, w.choices, w.timbers, answers)
}

// betterSide returns the better of the plans of two sides, the first on a tie, with what is
// proved of both: that neither side has a better one, or that neither has one under the
// lower of the two bounds. Where the other has more short, and is not proved, it may have
// a plan with as few that draws anything.
func betterSide(a, b cutting.Plan) cutting.Plan {
	if b.Compare(a) < 0 {
		a, b = b, a
	}
	if a.Broken == nil {
		a.Broken = b.Broken
	}
	switch {
	case a.Broken != nil:
		a.Status, a.LowerBoundCM3 = cutting.Feasible, 0
	case b.Status == cutting.Optimal:
	case b.Short > a.Short:
		a.Status, a.LowerBoundCM3 = cutting.Feasible, 0
	default:
		bound := max(0, b.LowerBoundCM3+b.JointsCM3-a.JointsCM3)
		if bound < a.LowerBoundCM3 {
			a.Status, a.LowerBoundCM3 = cutting.Feasible, bound
		}
	}
	return a
}

// share lets workers step the solvers until none has more to do. Those least far
// come first, then those with the widest gap; a solver's own steps depend on no
// other's. Workers without one are free to help.
func share(solvers []*solver, opt Options, free *idleWorkers) {
	var mu sync.Mutex
	var together crew.Crew
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
	own := max(1, min(opt.Workers, len(solvers)))
	free.free.Store(int32(max(0, opt.Workers-own)))
	for range own {
		together.Start(func() {
			defer free.back()
			var done *solver
			for {
				s := next(done)
				if s == nil {
					return
				}
				if done = nil; s.step() && (opt.Steps == 0 || s.steps < opt.Steps) {
					done = s
				}
			}
		}, func() {
			for _, s := range solvers {
				s.stop.End()
			}
		})
	}
	together.Join()
}
