package solve

import (
	"context"
	"errors"
	"strings"
	"sync/atomic"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/crew"
	"example.com/oddments/pattern/cutting/solve/sections"
	"example.com/oddments/pattern/cutting/solve/solvetest"
)

// caughtPanic returns the Panic that f ends with.
func caughtPanic(t *testing.T, f func()) (p Panic) {
	t.Helper()
	defer func() {
		t.Helper()
		r := recover()
		var ok bool
		if p, ok = r.(Panic); !ok {
			t.Errorf("%v is no Panic", r)
		}
	}()
	f()
	return p
}

// faulty is what panics, to be looked for on stacks.
func faulty(value any) { panic(value) }

// A panic of a worker reaches the caller of Solve with the stack that it began on, and
// the other workers are through by then.
func TestPanicsReachTheCaller(t *testing.T) {
	job := solvetest.RandomJob(3, 60, 80, 4)
	for _, workers := range []int{1, 2, 8} {
		for at := 1; at <= 3; at++ {
			var inside atomic.Int32
			p := caughtPanic(t, func() {
				_, _ = Plan(context.Background(), job, Options{Workers: workers, tamper: func(all []*solver) {
					for _, s := range all {
						tell := s.tell
						s.tell = func(n note) {
							inside.Add(1)
							defer inside.Add(-1)
							tell(n)
						}
					}
					n := 0
					all[1].tell = func(note) {
						if n++; n == at {
							faulty("injected")
						}
					}
				}})
			})
			if p.Value != "injected" || !strings.Contains(string(p.Stack), "solve.faulty") {
				t.Errorf("%d workers: %v\n%s", workers, p.Value, p.Stack)
			}
			if n := inside.Load(); n != 0 {
				t.Errorf("%d workers: %d still at work", workers, n)
			}
			if value, stack := p.Panicked(); value != p.Value || string(stack) != string(p.Stack) || !strings.Contains(p.Error(), "injected") {
				t.Errorf("%v", p)
			}
		}
	}
}

// A panic of a helper, or of the worker that it helps, is handed on once all have ended;
// through a crew about it its stack stays that of where it began.
func TestPanicsOfHelpers(t *testing.T) {
	cause := errors.New("injected")
	job := solvetest.RandomJob(1, 17, 40, 1)
	tm := sortTimbers(job, cutting.Choices(job))[0]
	for _, own := range []bool{true, false} {
		var free idleWorkers
		free.free.Store(3)
		stop, release := sections.StopWith(t.Context())
		defer release()
		pr := newPricer(tm, stop)
		pr.idle = &free
		p := caughtPanic(t, func() {
			var outer crew.Crew
			outer.Start(func() {
				pr.together(func(mate *pricer) {
					if own == (mate == pr) {
						faulty(cause)
					}
					for !pr.stop.Stopped() { // goes on until it is told
					}
				})
			}, func() {})
			outer.Join()
		})
		if p.Value != error(cause) || !strings.Contains(string(p.Stack), "solve.faulty") {
			t.Errorf("%v\n%s", p.Value, p.Stack)
		}
		if free.free.Load() != 3 {
			t.Errorf("%d workers are idle, of 3", free.free.Load())
		}
	}
}
