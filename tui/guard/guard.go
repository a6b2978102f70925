// Package guard ends the program in order when something in it panics: the work can then
// be kept and the terminal is given back, and what happened is written down.
package guard

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"runtime/debug"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
)

// A Model is a model whose panics end the program in order: the model stays as it was
// before the message, so that its work can be kept, and the screen library gives the
// terminal back. Its commands are guarded too, and its jobs by them.
type Model struct {
	tea.Model
	fault *fault
}

// On guards a model; end is called when it panics.
func On(m tea.Model, end context.CancelFunc) Model {
	return Model{m, &fault{end: end, last: m}}
}

// Ended drops the errors that only say that the program was told to end.
func Ended(err error) error {
	if errors.Is(err, tea.ErrProgramPanic) {
		return err
	}
	if errors.Is(err, tea.ErrProgramKilled) || errors.Is(err, tea.ErrInterrupted) || errors.Is(err, context.Canceled) {
		return nil
	}
	return err
}

// Last returns the guarded model as the last message left it.
func (g Model) Last() tea.Model {
	g.fault.mu.Lock()
	defer g.fault.mu.Unlock()
	return g.fault.last
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
func (g Model) Init() tea.Cmd { return g.watched(g.Model.Init()) }

// Update passes a message on; a panic leaves the model as it was.
func (g Model) Update(msg tea.Msg) (m tea.Model, cmd tea.Cmd) {
	m = g
	defer g.fault.catch()
	g.Model, cmd = g.Model.Update(msg)
	g.fault.mu.Lock()
	g.fault.last = g.Model
	g.fault.mu.Unlock()
	return g, g.watched(cmd)
}

// View draws the model; a panic leaves nothing to be seen, for the program ends.
func (g Model) View() (frame string) {
	defer g.fault.catch()
	return g.Model.View()
}

// watched returns cmd, and those it stands for, with their panics caught.
func (g Model) watched(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() (msg tea.Msg) {
		defer g.fault.catch()
		return g.watchedAll(cmd())
	}
}

// watchedAll returns a message with the commands in it watched where it is a list of them: a
// batch, or a sequence, whose type has no name outside of the screen library.
func (g Model) watchedAll(msg tea.Msg) tea.Msg {
	v := reflect.ValueOf(msg)
	if v.Kind() != reflect.Slice || v.Type().Elem() != reflect.TypeFor[tea.Cmd]() {
		return msg
	}
	watched := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
	for i := range v.Len() {
		watched.Index(i).Set(reflect.ValueOf(g.watched(v.Index(i).Interface().(tea.Cmd))))
	}
	return watched.Interface()
}

// Report writes down what the panic was and where, and returns the error that tells of it;
// nil where there was none. What cannot be written down is lost, since a maker could do
// nothing with it on the screen.
func (g Model) Report(files *store.Home, at time.Time) error {
	f := g.fault
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.value == nil {
		return nil
	}
	return mistake.Teller{Home: files, At: at}.Panic(f.value, f.stack)
}

// Kept runs what keeps the work, and returns its error, or that of its panic.
func Kept(keep func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the work could not be kept: %v", r)
		}
	}()
	return keep()
}
