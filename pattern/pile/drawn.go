package pile

import (
	"context"
	"slices"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
)

// mostTies bounds the boxes that are gone through for choices of the same value.
const mostTies = 4000

// leastDrawn plans the best choice, and looks among all of the same value for the one that
// draws least.
func (f *finder) leastDrawn() {
	f.best.Plan, f.best.Least = f.plan(f.best.Copies)
	if f.limits == nil || f.better(f.bound) {
		f.best.Least = f.best.Least && f.limits == nil
		return
	}
	copies := make([]int, len(f.demands))
	of := func(all []int) []int {
		for d, i := range f.demands {
			copies[d] = all[i]
		}
		return copies
	}
	floor := f.limits.Floor(of(f.best.Copies))
	stack := []box{{make([]int, len(f.most)), f.most, f.bound}}
	for n := 0; len(stack) > 0; n++ {
		if n == mostTies || f.ctx.Err() != nil {
			f.best.Least = false
			return
		}
		b := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		_, bound, ok := f.relax(b)
		if !ok || f.value > bound+same*max(1, f.value) || f.oracle.hopeless(b.lo) || floor.Of(of(b.lo)) >= f.best.Plan.DrawnCM3 {
			continue
		}
		widest := 0
		for i := range b.lo {
			if b.hi[i]-b.lo[i] > b.hi[widest]-b.lo[widest] {
				widest = i
			}
		}
		if middle := (b.lo[widest] + b.hi[widest]) / 2; middle < b.hi[widest] {
			few, many := b, b
			few.hi, many.lo = slices.Clone(b.hi), slices.Clone(b.lo)
			few.hi[widest], many.lo[widest] = middle, middle+1
			stack = append(stack, few, many)
			continue
		}
		f.try(b.lo)
	}
}

// try keeps a choice of the same value that draws less.
func (f *finder) try(copies []int) {
	if slices.Equal(copies, f.best.Copies) {
		return
	}
	switch f.oracle.ask(copies, trySteps) {
	case unsure:
		f.best.Least = false
	case fits:
		plan, proved := f.plan(copies)
		if plan.DrawnCM3 < f.best.Plan.DrawnCM3 {
			f.best.Copies, f.best.Plan = slices.Clone(copies), plan
		}
		f.best.Least = f.best.Least && proved
	}
}

// plan plans copies that can be cut, and reports whether the plan is proved the least.
func (f *finder) plan(copies []int) (cutting.Plan, bool) {
	job := f.r.job(copies)
	if len(job.Patterns) == 0 {
		return cutting.Plan{Status: cutting.Optimal, Missing: []cutting.Missing{}, Ready: []cutting.Ready{}, Cuts: []cutting.Cut{}}, true
	}
	plan, err := solve.Plan(f.ctx, job, solve.Options{})
	if err != nil || plan.Short > 0 { // the time was over; what was tried before can be cut
		return solve.Try(context.WithoutCancel(f.ctx), job, trySteps).Plan, false
	}
	return plan, plan.Claim().Sure == cutting.Least
}
