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
	j, next := job.Start(time.Hour, func(ctx context.Context, _ <-chan time.Time, report func(string)) string {
		report("half way")
		report("dropped: nobody looked at the first yet")
		close(started)
		<-ctx.Done()
		return "the best so far"
	})
	<-started
	first, ok := next().(job.Progress[string])
	if !ok || first.At != "half way" || !j.Sent(first) {
		t.Errorf("first %+v", first)
	}
	j.Stop()
	then, ok := j.Next()().(job.Done[string])
	if !ok || then.Result != "the best so far" || !j.Ended(then) {
		t.Errorf("then %+v", then)
	}
	j.Stop()
	none := job.Job[string, string]{}
	none.Stop()
	if none.Sent(first) || none.Ended(then) || none.Sent(job.Progress[string]{}) || none.Ended(job.Done[string]{}) {
		t.Error("no job takes a message for its own")
	}
}

// What one job tells, another of the same kind does not take for its own.
func TestJobsKnowTheirOwn(t *testing.T) {
	work := func(context.Context, <-chan time.Time, func(int)) int { return 7 }
	one, first := job.Start(time.Hour, work)
	two, second := job.Start(time.Hour, work)
	a, b := first().(job.Done[int]), second().(job.Done[int])
	if !one.Ended(a) || !two.Ended(b) || one.Ended(b) || two.Ended(a) {
		t.Error("two jobs are taken for one another")
	}
	if at := one.Reports(3); at.At != 3 || !one.Sent(at) || two.Sent(at) {
		t.Errorf("reports %+v", at)
	}
}

// The limit ends the work.
func TestLimit(t *testing.T) {
	_, next := job.Start(0, func(ctx context.Context, _ <-chan time.Time, _ func(int)) bool {
		<-ctx.Done()
		return ctx.Err() == context.DeadlineExceeded
	})
	if got, ok := next().(job.Done[bool]); !ok || !got.Result {
		t.Errorf("got %v", got)
	}
}

// A job that nobody listens to any more ends all the same, and its result is the last
// word.
func TestOvertakenJobEnds(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		j, _ := job.Start(time.Minute, func(_ context.Context, _ <-chan time.Time, report func(string)) string {
			report("half way")
			return "done"
		})
		synctest.Wait() // the goroutine has ended, or the test fails for one that is left
		if got, ok := j.Next()().(job.Done[string]); !ok || got.Result != "done" {
			t.Errorf("the last word is %+v", got)
		}
	})
}

// A job that panics has whoever waits for it panic, with where the job was.
func TestPanicIsPassedOn(t *testing.T) {
	_, next := job.Start(time.Minute, func(context.Context, <-chan time.Time, func(int)) int {
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

// What has an end is waited for, and what has none is not.
func TestWithin(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		did, began := false, time.Now()
		job.Within(time.Minute, func() { did = true })
		if !did || time.Since(began) != 0 {
			t.Errorf("done %v after %v", did, time.Since(began))
		}
		goOn := make(chan struct{})
		job.Within(time.Minute, func() { <-goOn })
		if took := time.Since(began); took != time.Minute {
			t.Errorf("waited for %v", took)
		}
		close(goOn)
	})
}
