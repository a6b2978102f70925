package search

import (
	"context"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
)

// alone takes from a plan what is proved of it among those that take the timber the
// layout counts on, since a plan from all of the rack may draw less.
func alone(l *suggest.Layout) {
	l.LeastOfTimber = l.Plan.Claim().Sure == cutting.Least
	l.Plan.Status, l.Plan.LowerBoundCM3 = cutting.Feasible, 0
}

// settle says of each layout's plan what is proved of it among all plans of the whole
// rack, as far as that is found out before ctx ends. It gives the first claim that broke.
func settle(ctx context.Context, a *suggest.Result, ask suggest.Request, r movement.Physics) error {
	var doubts doubts
	for i := range a.Layouts {
		l := &a.Layouts[i]
		if l.Plan == nil || l.Given() || ctx.Err() != nil {
			continue
		}
		job := wholeJob(r, ask, *l)
		least, err := solve.Plan(ctx, job, solve.Options{})
		if err != nil {
			least, _ = suggest.NoPlan(len(l.Strips), err) // else a ready strip of the rack has the name of one named on the spot
		}
		if doubts.note(least.Broken); err != nil || least.Short > 0 {
			continue // the time ran out
		}
		plan := solve.Against(job, *l.Plan, least)
		doubts.note(plan.Broken)
		l.Plan, l.LeastOfTimber = &plan, l.LeastOfTimber && plan.Broken == nil
	}
	return doubts.first
}

// wholeJob returns the job of a layout's pattern on all that there is: where ready strips
// were named on the spot, on these and on the rack's own, which stay where they are.
func wholeJob(r movement.Physics, a suggest.Request, l suggest.Layout) cutting.Job {
	job := a.Job(r, l)
	if len(a.Have) > 0 && len(a.Rack.Strips) > 0 {
		job.Rack.Strips = append(a.NamedStrips(r.Shop()), a.Rack.Strips...)
	}
	return job
}
