// Package job runs work that takes longer than a frame beside the screen: it reports
// how far it is, can be stopped, and gives its best result so far.
//
// A job is one goroutine, which ends when its work does. Its messages carry the number
// it was started with, so that those of an older job can be dropped.
package job

import (
	"context"
	"runtime/debug"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// A Job is work under way. The zero value is none.
type Job struct {
	ID      int
	stop    context.CancelFunc
	updates chan tea.Msg
}

// Progress says how far a job is.
type Progress struct {
	ID int
	At any
}

// Done brings a job's result.
type Done struct {
	ID     int
	Result any
}

// A Panic is what a job panicked with. It is raised again where the job's messages are
// waited for, so that it is caught like any other of the screen's.
type Panic struct {
	Value any
	Stack []byte // of the job
}

// Panicked gives what the panic was, and the stack it was caught on.
func (p Panic) Panicked() (value any, stack []byte) { return p.Value, p.Stack }

// reportsASecond is how often a job tells how far it is, at most.
const reportsASecond = 10

// Start starts work under a number, for at most limit, and gives the command that
// waits for its first message. The work is told when to report by tick, and must end
// soon after its context does.
func Start(id int, limit time.Duration, work func(ctx context.Context, tick <-chan time.Time, report func(any)) any) (Job, tea.Cmd) {
	ctx, stop := context.WithTimeout(context.Background(), limit)
	j := Job{ID: id, stop: stop, updates: make(chan tea.Msg, 1)}
	go func() {
		defer stop()
		ticker := time.NewTicker(time.Second / reportsASecond)
		defer ticker.Stop()
		done := caught(func() tea.Msg {
			return Done{id, work(ctx, ticker.C, func(at any) {
				select {
				case j.updates <- Progress{id, at}:
				default: // the last one was not looked at yet
				}
			})}
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
func (j Job) Next() tea.Cmd {
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

// Stop tells the job to end with the best it has. Stopping none does nothing.
func (j Job) Stop() {
	if j.stop != nil {
		j.stop()
	}
}
