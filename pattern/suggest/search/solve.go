// Package search finds the best layouts that a suggest.Request allows, proved or with a
// bound. The same request gives the same result unless its context ended the work.
package search

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"sync/atomic"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
)

// Solve looks for layouts. It returns when they are proved, when no more is to be
// gained in reasonable work, or soon after ctx ends; ending ctx is no error. An error
// says that the ask itself is wrong.
func Solve(ctx context.Context, r movement.Physics, a suggest.Request, opt suggest.Options) (suggest.Result, error) {
	if err := a.Check(r); err != nil {
		return suggest.Result{}, err
	}
	until := ctx
	if deadline, ok := ctx.Deadline(); ok {
		var cancel context.CancelFunc
		until, cancel = context.WithDeadline(ctx, deadline.Add(-opt.Reserve))
		defer cancel()
	}
	stop, release := stopAt(until)
	defer release()
	return solveUntil(ctx, r, a, opt, hooks{}, stop)
}

// solveUntil is Solve until stop, or ctx ends.
func solveUntil(ctx context.Context, r movement.Physics, a suggest.Request, opt suggest.Options, h hooks, stop stopper) (suggest.Result, error) {
	s, err := newSearch(r, a, stop)
	if errors.Is(err, errStopped) {
		return suggest.Result{Status: suggest.Open, Aim: a.AimFor(r.Shop()), Layouts: []suggest.Layout{}, PlansProved: true, Stopped: true}, nil
	}
	if err != nil {
		return suggest.Result{}, err
	}
	s.lose = h.lose
	j := suggest.NewJudge(r, s.ask)
	soon, tell := s.findSoon(ctx), opt.Progress
	if tell == nil {
		tell = func(suggest.Progress) {}
	}
	opt.Progress = func(p suggest.Progress) {
		if p.Layouts > 0 {
			soon.answerFar(ctx)
		}
		with := suggest.Result{Layouts: p.Found}
		fillUp(&with, s.ask, soon.found)
		p.Found = slices.DeleteFunc(slices.Clone(with.Layouts), func(l suggest.Layout) bool { _, b := j.Layout(l); return b != nil })
		tell(p)
	}
	if len(soon.found) > 0 {
		opt.Progress(suggest.Progress{Wanted: a.Layouts})
	}
	answer := s.layouts(ctx, opt)
	if answer.Status == suggest.Open || answer.Status == suggest.Feasible {
		soon.answerFar(ctx)
		fillUp(&answer, s.ask, soon.found)
	}
	s.doubts.note(settle(ctx, &answer, s.ask, r))
	if answer.Status == suggest.Feasible {
		answer.Bound = s.boundBeside(answer.Layouts[0])
	}
	if h.spoil != nil {
		h.spoil(&answer)
	}
	answer.Uphold(j, soon.found)
	switch {
	case len(a.Unlike) > 0 || answer.Broken != nil:
	case answer.Status == suggest.Infeasible:
		tell(suggest.Progress{Wanted: a.Layouts, None: true, Aim: answer.Aim})
		answer.Loosen = s.loosenWithin(ctx, opt.LoosenFor)
	case answer.Status == suggest.Open && !stop.stopped():
		s.unsure = true // what was asked for may do as it is
		answer.Loosen = s.loosen(ctx)
	}
	answer.Broken = cmp.Or(answer.Broken, s.doubts.first)
	answer.Withdraw()
	brief := answer.Loosen != nil && answer.Loosen.Brief
	answer.Stopped = answer.Status != suggest.Optimal && !brief && (stop.stopped() || ctx.Err() != nil)
	return answer, nil
}

// hooks are what tests have a search do.
type hooks struct {
	spoil func(*suggest.Result) // makes claims wrong before they are looked at
	lose  func() bool           // whether the next plan is lost, as when the time runs out
}

// A stopper says whether the work is to end. Once it says so, it always does.
type stopper struct {
	flag  *atomic.Bool
	looks *atomic.Int64 // in tests: how often it may be asked before it says so
}

func (s stopper) stopped() bool {
	if s.looks != nil && s.looks.Add(-1) < 0 {
		s.end()
	}
	return s.flag.Load()
}

func (s stopper) end() { s.flag.Store(true) }

// stopAt returns the stopper of ctx and what lets go of it.
func stopAt(ctx context.Context) (stopper, func()) {
	s := stopper{flag: new(atomic.Bool)}
	release := context.AfterFunc(ctx, s.end)
	if ctx.Err() != nil {
		s.end()
	}
	return s, func() { release() }
}
