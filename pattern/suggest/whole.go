package suggest

import (
	"context"
	"slices"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
)

// sameDrawn is how far apart in cm³ two volumes may be that count as equal: a planner
// rounds each opened piece and each section to a millionth, and a strip has at most
// one of either.
const sameDrawn = 1.5e-6

// alone takes from a plan what is proved of it among those that take the timber the
// layout counts on, since a plan from all of the rack may draw less.
func (l *Layout) alone() {
	l.LeastOfTimber = l.Plan.Status == cutting.Optimal
	l.Plan.Status, l.Plan.LowerBoundCM3 = cutting.Feasible, 0
}

// settle says of each layout's plan what is proved of it among all plans of the whole
// rack, as far as that is found out before ctx ends.
func (a *Answer) settle(ctx context.Context, ask Ask, r movement.Reckoner) {
	for i := range a.Layouts {
		l := &a.Layouts[i]
		if l.Plan == nil || l.given() || ctx.Err() != nil {
			continue
		}
		least, err := cutting.Solve(ctx, ask.wholeJob(r, *l), cutting.Options{})
		if err != nil || least.Short > 0 {
			continue // the time ran out, or a ready strip of the rack has the name of one named on the spot
		}
		plan := against(*l.Plan, least, len(l.Strips))
		l.Plan = &plan
	}
}

// against gives a plan of so many strips with what is proved of it by the least plan
// of the same strips from as much timber, or more: what bounds plans from more timber
// bounds this one, and one that draws no more than that is the least of all. Names of
// timber that keep marks apart are the only difference between the two jobs, and a plan
// of the first is one of the second.
func against(p, least cutting.Plan, strips int) cutting.Plan {
	p.Status, p.LowerBoundCM3 = cutting.Feasible, least.LowerBoundCM3
	if p.DrawnCM3 <= least.LowerBoundCM3+sameDrawn*float64(strips) {
		p.Status, p.LowerBoundCM3 = cutting.Optimal, p.DrawnCM3
	}
	return p
}

// wholeJob gives the job of a layout's pattern on all that there is: where ready strips
// were named on the spot, on these and on the rack's own, which stay where they are.
func (a Ask) wholeJob(r movement.Reckoner, l Layout) cutting.Job {
	job := a.Job(r, l)
	if len(a.Have) > 0 && len(a.Rack.Strips) > 0 {
		job.Rack.Strips = append(a.named(r.Shop()), a.Rack.Strips...)
	}
	return job
}

// given reports whether a layout has a pinned strip that its plan does not cut.
func (l Layout) given() bool {
	return slices.ContainsFunc(l.Strips, func(p Placed) bool { return p.Source == "" })
}
