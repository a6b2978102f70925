package solve

import (
	"context"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/sections"
)

// An Attempt is what a few steps of the search came to.
type Attempt struct {
	Plan   cutting.Plan // where it Fits
	Fits   bool         // nothing is short
	Sure   bool         // where it does not: that is proved
	Broken error        // the first claim that broke
}

// Try plans a job until nothing is short, in so many steps a timber at most. Steps and not
// time bound it, so that the same job gives the same unless ctx ends the work.
func Try(ctx context.Context, job cutting.Job, steps int) Attempt {
	stop, release := sections.StopWith(ctx)
	defer release()
	choices := cutting.Choices(job)
	timbers := sortTimbers(job, choices)
	var answers []answer
	for _, t := range timbers {
		s := newSolver(t, stop, func(note) {}, nil)
		for range steps {
			if stop.Stopped() || !s.step() || s.best.missing == 0 || s.fewest {
				break
			}
		}
		if s.best.missing > 0 {
			var broken error
			if s.broken != nil {
				broken = withJob(s.broken, job)
			}
			return Attempt{Sure: s.fewest && broken == nil, Broken: broken}
		}
		answers = append(answers, s.answer())
	}
	plan, err := finish(job, choices, timbers, answers)
	if err != nil {
		return Attempt{Broken: err}
	}
	return Attempt{Plan: plan, Fits: true, Sure: true, Broken: plan.Broken}
}
