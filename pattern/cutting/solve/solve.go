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
	"example.com/oddments/pattern/cutting/solve/sections"
)

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
	needs := cutting.Needs(job)
	timbers := sortTimbers(job, needs)
	told := newGatherer(timbers, opt)
	var free idleWorkers
	solvers := make([]*solver, len(timbers))
	for i, t := range timbers {
		solvers[i] = newSolver(t, stop, func(n note) { told.post(i, n) }, &free)
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
				s.stop.End()
			}
		})
	}
	crew.join()
}
