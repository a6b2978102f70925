package suggest

import (
	"cmp"
	"errors"
	"fmt"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
)

// doubts keeps the first claim of a plan that broke while layouts were sought. Searches
// that one another begins share theirs.
type doubts struct{ first error }

// note keeps err where it is the first.
func (d *doubts) note(err error) { d.first = cmp.Or(d.first, err) }

// noPlan returns what counts as the plan where one was made that cannot be cut: all strips
// short, of no timber, and nothing proved. It reports false where err is another error.
func noPlan(strips int, err error) (cutting.Plan, bool) {
	var broken *cutting.Broken
	if !errors.As(err, &broken) {
		return cutting.Plan{}, false
	}
	return cutting.Plan{Short: strips, Broken: broken}, true
}

// Found returns the job of all layouts that an ask has found, each a pattern, from all that
// there is: what a report of a mistake has of it.
func (a Request) Found(r movement.Physics, layouts []Layout) cutting.Job {
	job := cutting.Job{Rack: a.Rack, Shop: r.Shop()}
	for i, l := range layouts {
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprintf("%s-%d", stem, i+1), Pattern: a.Pattern(l), Copies: 1})
	}
	return job
}

// withdraw takes back what an answer says is proved where a claim broke on the way: what
// rests on it is not told apart.
func (a *Result) withdraw() {
	if a.Broken == nil {
		return
	}
	a.Status, a.Bound, a.PlansProved = unproved(a.Status, len(a.Layouts)), nil, false
	for i := range a.Layouts {
		a.Layouts[i].Proved = false
	}
	if a.Loosen != nil {
		a.Loosen.Proved = false
	}
}

// unproved returns what is left of a status of n layouts or answers without its proof.
func unproved(s Status, n int) Status {
	switch {
	case n == 0:
		return Open
	case s == Optimal:
		return Feasible
	default:
		return s
	}
}
