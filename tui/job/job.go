// Package job runs work that takes longer than a frame beside the screen: it reports
// how far it is, can be stopped, and gives its best result so far.
//
// A job is one goroutine, which ends when its work does. What it tells is typed, by what
// it reports and what it comes to, and belongs to it alone: a Job knows its own messages,
// so that those of an older one can be dropped.
package job

import (
	"context"
	"runtime/debug"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// A Job is work under way that reports how far it is by a P and comes to an R. The zero
// value is none.
type Job[P, R any] struct {
	stop    context.CancelFunc
	updates chan tea.Msg
}

// Progress says how far a job is.
type Progress[P any] struct {
	At P
	of chan tea.Msg // the job's
}

// Done brings a job's result.
type Done[R any] struct {
	Result R
	of     chan tea.Msg
}

// A Panic is what a job panicked with. It is raised again where the job's messages are
// waited for, so that it is caught like any other of the screen's.
type Panic struct {
	Value any
	Stack []byte // of the job
}

// Panicked returns what the panic was, and the stack it was caught on.
func (p Panic) Panicked() (value any, stack []byte) { return p.Value, p.Stack }

// reportsASecond is how often a job tells how far it is, at most.
const reportsASecond = 10

// Start starts work for at most limit, and returns the command that waits for its first
// message: a Progress[P], or a Done[R], which is the last. The work is told when to report
// by tick, and must end soon after its context does.
func Start[P, R any](limit time.Duration, work func(ctx context.Context, tick <-chan time.Time, report func(P)) R) (Job[P, R], tea.Cmd) {
	ctx, stop := context.WithTimeout(context.Background(), limit)
	j := Job[P, R]{stop: stop, updates: make(chan tea.Msg, 1)}
	go func() {
		defer stop()
		ticker := time.NewTicker(time.Second / reportsASecond)
		defer ticker.Stop()
		done := caught(func() tea.Msg {
			return Done[R]{work(ctx, ticker.C, func(at P) {
				select {
				case j.updates <- j.Reports(at):
				default: // the last one was not looked at yet
				}
			}), j.updates}
		})
		for {
			select {
			case j.updates <- done:
				return
			case <-j.updates: // what nobody has looked at gives way, so that the goroutine ends
			}
		}
	}()
	return j, j.Next()
}

// Reports returns the message by which the job says that it is so far.
func (j Job[P, R]) Reports(at P) Progress[P] { return Progress[P]{at, j.updates} }

// Sent reports whether m is of this job and not of another.
func (j Job[P, R]) Sent(m Progress[P]) bool { return m.of == j.updates && m.of != nil }

// Ended reports whether m is the result of this job and not of another.
func (j Job[P, R]) Ended(m Done[R]) bool { return m.of == j.updates && m.of != nil }

// caught returns what work does, or the Panic that ended it.
func caught(work func() tea.Msg) (done tea.Msg) {
	defer func() {
		if r := recover(); r != nil {
			done = Panic{r, debug.Stack()}
		}
	}()
	return work()
}

// Next waits for the job's next message. Where the job panicked it panics with a Panic.
func (j Job[P, R]) Next() tea.Cmd {
	return func() tea.Msg {
		msg := <-j.updates
		if p, ok := msg.(Panic); ok {
			panic(p)
		}
		return msg
	}
}

// Beside runs work beside the screen and does not wait for it. The work must end by
// itself, and is not to be waited for by a frame.
func Beside(work func()) { go work() }

// Within runs work beside the screen and waits for it, but no longer than limit.
func Within(limit time.Duration, work func()) {
	done := make(chan struct{})
	Beside(func() {
		defer close(done)
		work()
	})
	end := time.NewTimer(limit)
	defer end.Stop()
	select {
	case <-done:
	case <-end.C:
	}
}

// Stop tells the job to end with the best it has. Stopping none does nothing.
func (j Job[P, R]) Stop() {
	if j.stop != nil {
		j.stop()
	}
}
