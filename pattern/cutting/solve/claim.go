package solve

import (
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/prefer"
	"example.com/oddments/pattern/cutting/solve/sections"
)

// withJob returns an error with the job that it is of.
func withJob(b *cutting.Broken, job cutting.Job) *cutting.Broken {
	with := *b
	with.Job = job
	return &with
}

// breaks takes back what the solver has claimed, and ends its work: what goes on from a
// contradiction proves anything. Its best solution stays, for a plan is checked by itself.
func (s *solver) breaks(kind cutting.Contradiction, claimed, found float64) {
	if s.broken == nil {
		s.broken = &cutting.Broken{Kind: kind, Species: s.t.species, Claimed: claimed, Found: found}
	}
	s.bound, s.proved = 0, true
}

// accepts looks at a solution, which is better than the best so far, for what it
// contradicts of that which was proved before.
func (s *solver) accepts(n *solution) {
	switch {
	case n.missing < s.best.missing && s.fewest:
		s.breaks(cutting.Fewer, float64(s.best.missing), float64(n.missing))
	case n.missing == s.best.missing && n.cost < s.bound:
		s.breaks(cutting.Undercut, cm3(s.bound), cm3(n.cost))
	}
}

// believes reports whether a bound may be raised so far: not above a solution that is
// there, with as few short as the bound is for.
func (s *solver) believes(bound int64) bool {
	if s.broken == nil && bound > s.best.cost && (s.target == nil || s.target.short == s.best.missing) {
		s.breaks(cutting.Undercut, cm3(bound), cm3(s.best.cost))
	}
	return s.broken == nil
}

// answer returns what there is, without a claim where one broke.
func (s *solver) answer() answer {
	return answer{solution: s.best, bound: s.bound, proved: s.proved && s.broken == nil, broken: s.broken}
}

// cm3 returns a cost as a volume.
func cm3(units int64) float64 { return float64(units) / sections.PerCM3 }

// slack is by how much, in units, the cost of any solution of so many strips may differ
// from the volume that it draws. A cost adds up numbers each of which is rounded once to
// a whole unit, so that each is off by half a unit at most: one for the opened piece, one
// for the length of each of its sections, one for the credit of each of its sections. A
// section yields a strip at least, and a piece a section; so n strips have n pieces and n
// sections at most, and their cost is off by n/2 + n/2 + n/2.
//
// So every plan of n strips, the best one too, draws its cost less slack at least, and
// its cost is the proved bound at least: the bound less slack holds for what is drawn.
func slack(strips int) float64 { return 1.5 * float64(strips) }

// lowerCM3 returns a bound in units as a volume that no plan of so many strips draws less
// than.
func lowerCM3(bound int64, strips int) float64 {
	return max(0, float64(bound)-slack(strips)) / sections.PerCM3
}

// rounding is how far two sums of n volumes, of which one comes to sum, may differ by
// rounding alone: each is off by a few last places, and each addition by one of the sum.
func rounding(n int, sum float64) float64 { return float64(n+16) * 0x1p-52 * sum }

// finish writes the plan of a job, and lets out what is claimed of it after it was
// checked: the plan by Verify, which shares nothing with the search; the bounds against
// it, in whole units; what it draws against what the search took it for. The error is a
// *Broken, of a plan that cannot be cut.
func finish(job cutting.Job, choices []cutting.Choice, timbers []*timber, answers []answer) (cutting.Plan, error) {
	plan, drawn := assemble(choices, job.Rack, timbers, answers)
	prefer.Recorded(job, &plan)
	plan.Status = cutting.Feasible
	if broken := contradiction(timbers, answers, drawn); broken != nil {
		plan.Broken = withJob(broken, job)
	} else {
		claim(&plan, timbers, answers)
	}
	if err := cutting.Verify(job, plan); err != nil {
		return cutting.Plan{}, &cutting.Broken{Kind: cutting.Unfit, Err: err, Job: job}
	}
	return plan, nil
}

// contradiction returns the first claim of the timbers that does not hold; nil: all do.
// drawn is what the cuts of each draw, in cubic centimetres.
func contradiction(timbers []*timber, answers []answer, drawn []float64) *cutting.Broken {
	for i, t := range timbers {
		a := &answers[i]
		broken := func(kind cutting.Contradiction, claimed, found float64) *cutting.Broken {
			return &cutting.Broken{Kind: kind, Species: t.species, Claimed: claimed, Found: found}
		}
		strips := t.strips()
		off := slack(strips)/sections.PerCM3 + rounding(strips, drawn[i])
		switch {
		case a.broken != nil:
			return a.broken
		case a.bound > a.cost:
			return broken(cutting.Undercut, cm3(a.bound), cm3(a.cost))
		case a.proved && a.bound < a.cost:
			return broken(cutting.NotTheLeast, cm3(a.cost), cm3(a.bound))
		case drawn[i] < cm3(a.cost)-off || drawn[i] > cm3(a.cost)+off:
			return broken(cutting.OtherDrawn, cm3(a.cost), drawn[i])
		}
	}
	return nil
}

// claim says how sure a plan is, by answers of which none contradicts another. Each
// bound is at most its solution's cost, and what is drawn at least the cost less slack;
// so the sum of the bounds less slack is above what is drawn by the rounding of its sums
// alone, which is taken off. What the joints of the plan count for is taken off the bound.
func claim(p *cutting.Plan, timbers []*timber, answers []answer) {
	p.Status = cutting.Optimal
	bound := 0.0
	for i, t := range timbers {
		if !answers[i].proved {
			p.Status = cutting.Feasible
		}
		bound += lowerCM3(answers[i].bound, t.strips())
	}
	p.LowerBoundCM3 = min(max(0, bound-p.JointsCM3), p.DrawnCM3)
	if p.Status == cutting.Optimal {
		p.LowerBoundCM3 = p.DrawnCM3
	}
}

// strips returns how many strips are asked of a timber; where strips are made of pieces,
// twice as many as there may be pieces, for a joint's cost is rounded too.
func (t *timber) strips() int {
	n := int(total(t.Want))
	if t.joined() {
		n *= 2
	}
	return n
}

// Against returns a plan, which was found in part of what there is, with what is proved of
// it by least, a plan of the same strips from all that job has. What is said of p itself
// is left aside. Both are to have nothing short.
func Against(job cutting.Job, p, least cutting.Plan) cutting.Plan {
	strips := 0
	for _, d := range job.Patterns {
		strips += d.Copies * len(d.Pattern.Strips)
	}
	p.Status, p.LowerBoundCM3 = cutting.Feasible, 0
	if least.Broken != nil {
		p.Broken = least.Broken
	}
	if p.Broken != nil {
		return p
	}
	// The least by its proof may draw more than another by the rounding of both costs,
	// each off by slack; a bound has it taken off already.
	off := rounding(strips, least.LowerBoundCM3)
	if least.Status == cutting.Optimal {
		off += 2 * slack(strips) / sections.PerCM3
	}
	switch {
	case p.DrawnCM3 < least.LowerBoundCM3-off:
		p.Broken = &cutting.Broken{Kind: cutting.Undercut, Claimed: least.LowerBoundCM3, Found: p.DrawnCM3, Job: job}
	case p.DrawnCM3 <= least.LowerBoundCM3+slack(strips)/sections.PerCM3:
		p.Status, p.LowerBoundCM3 = cutting.Optimal, p.DrawnCM3
	default:
		p.LowerBoundCM3 = least.LowerBoundCM3
	}
	return p
}
