package job_test

import (
	"context"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"example.com/oddments/tui/job"
)

// A job that is stopped gives its best so far; what it reported before comes first.
func TestStop(t *testing.T) {
	started := make(chan struct{})
	j, next := job.Start(3, time.Hour, func(ctx context.Context, _ <-chan time.Time, report func(any)) any {
		report("half way")
		report("dropped: nobody looked at the first yet")
		close(started)
		<-ctx.Done()
		return "the best so far"
	})
	<-started
	if got, want := next(), (job.Progress{ID: 3, At: "half way"}); got != want {
		t.Errorf("first %v, want %v", got, want)
	}
	j.Stop()
	if got, want := j.Next()(), (job.Done{ID: 3, Result: "the best so far"}); got != want {
		t.Errorf("then %v, want %v", got, want)
	}
	j.Stop()
	job.Job{}.Stop()
}

// The limit ends the work.
func TestLimit(t *testing.T) {
	_, next := job.Start(1, 0, func(ctx context.Context, _ <-chan time.Time, _ func(any)) any {
		<-ctx.Done()
		return ctx.Err() == context.DeadlineExceeded
	})
	if got := next(); got != (job.Done{ID: 1, Result: true}) {
		t.Errorf("got %v", got)
	}
}

// A job that nobody listens to any more ends all the same, and its result is the last
// word.
func TestOvertakenJobEnds(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		j, _ := job.Start(1, time.Minute, func(_ context.Context, _ <-chan time.Time, report func(any)) any {
			report("half way")
			return "done"
		})
		synctest.Wait() // the goroutine has ended, or the test fails for one that is left
		if got, ok := j.Next()().(job.Done); !ok || got.Result != "done" {
			t.Errorf("the last word is %+v", got)
		}
	})
}

// A job that panics has whoever waits for it panic, with where the job was.
func TestPanicIsPassedOn(t *testing.T) {
	_, next := job.Start(1, time.Minute, func(context.Context, <-chan time.Time, func(any)) any {
		panic("a fault")
	})
	defer func() {
		p, ok := recover().(job.Panic)
		if !ok || p.Value != "a fault" || !strings.Contains(string(p.Stack), "TestPanicIsPassedOn") {
			t.Errorf("passed on: %v\n%s", p.Value, p.Stack)
		}
	}()
	next()
	t.Error("nothing is passed on")
}
