package tui

import (
	"context"
	"fmt"
	"runtime/debug"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
)

// A guard is a model whose panics end the program in order: the model stays as it was
// before the message, so that its work can be kept, and the screen library gives the
// terminal back. Its commands are guarded too, and its jobs by them.
type guard struct {
	tea.Model
	fault *fault
}

// newGuard guards a model; end is called when it panics.
func newGuard(m tea.Model, end context.CancelFunc) guard {
	return guard{m, &fault{end: end, last: m}}
}

// A fault is the first panic, if there was one.
type fault struct {
	end context.CancelFunc

	mu    sync.Mutex
	last  tea.Model // as the last message left it
	value any       // nil: there was none
	stack []byte
}

// catch is deferred where something may panic.
func (f *fault) catch() {
	r := recover()
	if r == nil {
		return
	}
	stack := debug.Stack()
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.value == nil {
		f.value, f.stack = r, stack
	}
	f.end()
}

// Init starts the model.
func (g guard) Init() tea.Cmd { return g.watched(g.Model.Init()) }

// Update passes a message on; a panic leaves the model as it was.
func (g guard) Update(msg tea.Msg) (m tea.Model, cmd tea.Cmd) {
	m = g
	defer g.fault.catch()
	g.Model, cmd = g.Model.Update(msg)
	g.fault.mu.Lock()
	g.fault.last = g.Model
	g.fault.mu.Unlock()
	return g, g.watched(cmd)
}

// View draws the model; a panic leaves nothing to be seen, for the program ends.
func (g guard) View() (frame string) {
	defer g.fault.catch()
	return g.Model.View()
}

// watched gives cmd, and those it stands for, with their panics caught.
func (g guard) watched(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() (msg tea.Msg) {
		defer g.fault.catch()
		msg = cmd()
		if batch, ok := msg.(tea.BatchMsg); ok {
			watched := make(tea.BatchMsg, len(batch))
			for i, one := range batch {
				watched[i] = g.watched(one)
			}
			return watched
		}
		return msg
	}
}

// report writes down what the panic was and where, and gives the error that tells of it;
// nil where there was none. What cannot be written down is lost, since a maker could do
// nothing with it on the screen.
func (f *fault) report(files *store.Home, at time.Time) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.value == nil {
		return nil
	}
	return mistake.Teller{Home: files, At: at}.Panic(f.value, f.stack)
}

// kept runs what keeps the work, and gives its error, or that of its panic.
func kept(keep func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the work could not be kept: %v", r)
		}
	}()
	return keep()
}
