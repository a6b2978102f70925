package suggest

import (
	"cmp"
	"fmt"
	"math"

	"example.com/oddments/pattern/cutting"
)

// Uphold looks at every claim before it is handed out, and is the one place that does.
// A layout that is not what it says is left out. Where any claim is wrong, nothing is
// claimed to be proved any more, there is no bound, and Broken says what was wrong
// first. Others are layouts that were found by the way: none of them may be better than
// what is proved the best, nor come by what is said to be impossible.
func (a *Result) Uphold(j *Judge, others []Layout) {
	var first *Broken
	note := func(b *Broken) { first = cmp.Or(first, b) }
	kept, merits := make([]Layout, 0, len(a.Layouts)), []Merit(nil)
	for i, l := range a.Layouts {
		m, b := j.Layout(l)
		if b == nil {
			b = j.unlike(kept, l)
		}
		if b != nil {
			b.Layout = i + 1
			note(b)
			continue
		}
		kept, merits = append(kept, l), append(merits, m)
	}
	a.Layouts = kept
	note(a.ordered(merits))
	note(a.stated(j.ask))
	note(a.bounded(merits))
	if first == nil {
		first = a.unbeaten(j, merits, others)
	}
	if first != nil {
		a.breaks(first)
		a.Layouts = a.Layouts[:min(len(a.Layouts), j.ask.Layouts)]
	}
}

// breaks takes back what may depend on a claim that is wrong.
func (a *Result) breaks(b *Broken) {
	a.Broken, a.Bound = b, nil
	for i := range a.Layouts {
		l := &a.Layouts[i]
		l.Proved, l.LeastOfTimber = false, false
		if l.Plan != nil {
			plan := *l.Plan
			plan.Status, plan.LowerBoundCM3 = cutting.Feasible, 0
			l.Plan = &plan
		}
	}
	if a.Status = Feasible; len(a.Layouts) == 0 {
		a.Status = Open
	}
}

// unlike looks whether a layout differs enough from those before it.
func (j *Judge) unlike(before []Layout, l Layout) *Broken {
	far := func(strips []Placed, what string) *Broken {
		if n := apartBy(strips, l.Strips, Placed.Kind); n < j.ask.Differ {
			return NewBroken(ClaimUnlike, fmt.Sprintf("%d strips from %s", j.ask.Differ, what), n)
		}
		return nil
	}
	for i, strips := range j.ask.Unlike {
		if b := far(strips, fmt.Sprintf("earlier layout %d", i+1)); b != nil {
			return b
		}
	}
	for i := range before {
		if b := far(before[i].Strips, fmt.Sprintf("layout %d", i+1)); b != nil {
			return b
		}
	}
	return nil
}

// ordered looks whether each layout is at most as good as the one before it.
func (a *Result) ordered(merits []Merit) *Broken {
	for i := 1; i < len(merits); i++ {
		if merits[i].Compare(merits[i-1]) > 0 {
			return &Broken{ClaimOrder, i + 1, "no better than " + merits[i-1].String(), merits[i].String()}
		}
	}
	return nil
}

// stated looks at the status.
func (a *Result) stated(ask Request) *Broken {
	n, proved := len(a.Layouts), 0
	for _, l := range a.Layouts {
		if l.Proved {
			proved++
		}
	}
	found := fmt.Sprintf("%d layouts of %d, %d proved, a bound: %v, plans proved: %v", n, ask.Layouts, proved, a.Bound != nil, a.PlansProved)
	ok := false
	switch a.Status {
	case Optimal:
		ok = n > 0 && proved == n && a.Bound == nil && a.PlansProved
	case Feasible:
		ok = n > 0 && a.Bound != nil
	case Infeasible:
		ok = n == 0 && a.Bound == nil && a.PlansProved
	case Open:
		ok = n == 0 && a.Bound == nil
	}
	if !ok || n > ask.Layouts {
		return NewBroken(ClaimStatus, a.Status, found)
	}
	return nil
}

// bounded looks whether any layout exceeds the bound: none ranks above it, and none
// with as much as the first layout has more of the rest.
func (a *Result) bounded(merits []Merit) *Broken {
	if a.Bound == nil || len(merits) == 0 {
		return nil
	}
	most := a.Bound.merit(a.Aim)
	for i, m := range merits {
		first := merits[0]
		if m.Use > most.Use || m.Use >= first.Use && (m.Least > most.Least || m.Least >= first.Least && m.Sum > most.Sum) {
			return &Broken{ClaimBound, i + 1, most.String(), m.String()}
		}
	}
	return nil
}

// merit returns a bound as what layouts are ranked by.
func (b *Bound) merit(aim Aim) Merit {
	m := Merit{Use: b.UseFirst, Least: int64(math.Round(b.SmallestContrast * PerContrast)), Sum: int64(math.Round(b.TotalContrast * PerContrast))}
	if aim != UseUp {
		m.Use = 0
	}
	return m
}

// unbeaten looks whether a layout that was found by the way undercuts a proof.
func (a *Result) unbeaten(j *Judge, merits []Merit, others []Layout) *Broken {
	for _, l := range others {
		l.Proved = false
		m, b := j.Layout(l)
		if b == nil {
			b = j.unlike(nil, l)
		}
		if b != nil {
			continue // it is not handed out, and shows nothing
		}
		switch {
		case a.Status == Infeasible:
			a.Layouts = []Layout{l}
			return NewBroken(ClaimStatus, Infeasible, "a layout with "+m.String())
		case a.PlansProved && len(merits) > 0 && a.Layouts[0].Proved && m.Compare(merits[0]) > 0:
			return &Broken{ClaimProof, 1, "none is better than " + merits[0].String(), m.String()}
		case a.Bound != nil && m.Compare(a.Bound.merit(a.Aim)) > 0:
			return NewBroken(ClaimBound, a.Bound.merit(a.Aim), m)
		}
	}
	return nil
}
