package guard_test

import (
	"context"
	"errors"
	"io"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/guard"
)

// A frail model counts its messages, and panics where it is told to.
type frail struct{ count int }

func (frail) Init() tea.Cmd { return nil }

func (f frail) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	f.count++
	switch msg {
	case "update":
		panic("in Update")
	case "command":
		return f, tea.Batch(func() tea.Msg { panic("in a command") }, func() tea.Msg { return nil })
	case "sequence":
		return f, tea.Batch(nil, tea.Sequence(func() tea.Msg { return nil }, func() tea.Msg { panic("in a sequence") }), func() tea.Msg { return nil })
	}
	return f, nil
}

func (f frail) View() string {
	if f.count > 2 {
		panic("in View")
	}
	return "a frame"
}

// Wherever the model panics it stays as the message before left it, the program is ended,
// and what happened is written down with where it was.
func TestPanics(t *testing.T) {
	for _, c := range []struct {
		name string
		fail func(m tea.Model)
		left int // the messages that the model has taken
	}{
		{"in Update", func(m tea.Model) { m.Update("update") }, 1},
		{"in a command", func(m tea.Model) {
			_, cmd := m.Update("command")
			for _, one := range cmd().(tea.BatchMsg) {
				one()
			}
		}, 2},
		{"in a sequence", func(m tea.Model) {
			_, cmd := m.Update("sequence")
			runAll(cmd)
		}, 2},
		{"in View", func(m tea.Model) {
			m, _ = m.Update("")
			m, _ = m.Update("")
			if frame := m.View(); frame != "" {
				t.Errorf("a frame of nothing: %q", frame)
			}
		}, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			ended := false
			g := guard.On(frail{}, func() { ended = true })
			m, _ := g.Update("")
			c.fail(m)
			if last := g.Last().(frail); !ended || last.count != c.left {
				t.Errorf("ended %v, left at %d", ended, last.count)
			}
			home := store.OpenHome(t.TempDir())
			defer home.Close()
			err := g.Report(home, time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC))
			var told *mistake.Panic
			if !errors.As(err, &told) || told.What != c.name || !strings.Contains(err.Error(), told.Report) {
				t.Fatalf("told: %v", err)
			}
			if text, err := os.ReadFile(told.Report); err != nil || !strings.Contains(string(text), "frail") {
				t.Errorf("written down: %s, %v", text, err)
			}
		})
	}
}

// runAll runs a command and those in the lists that come of it.
func runAll(cmd tea.Cmd) {
	v := reflect.ValueOf(cmd())
	if v.Kind() != reflect.Slice {
		return
	}
	for i := range v.Len() {
		runAll(v.Index(i).Interface().(tea.Cmd))
	}
}

// A real program runs a sequence in its order, and its panic ends the program in order.
func TestSequenceInAProgram(t *testing.T) {
	ctx, end := context.WithCancel(t.Context())
	g := guard.On(frail{}, end)
	p := tea.NewProgram(g, tea.WithContext(ctx), tea.WithInput(nil), tea.WithOutput(io.Discard), tea.WithoutSignalHandler())
	go p.Send("sequence")
	if _, err := p.Run(); !errors.Is(err, context.Canceled) {
		t.Errorf("the program ends with %v", err)
	}
	var told *mistake.Panic
	if home := store.OpenHome(t.TempDir()); !errors.As(g.Report(home, time.Time{}), &told) || told.What != "in a sequence" {
		t.Errorf("told: %v", told)
	}
}

// Without a panic there is nothing to report.
func TestNoFault(t *testing.T) {
	g := guard.On(frail{}, func() { t.Error("it is ended") })
	if g.View() != "a frame" || g.Report(nil, time.Time{}) != nil {
		t.Error("a fault is told of")
	}
	if err := guard.Kept(func() error { panic("full") }); err == nil || !strings.Contains(err.Error(), "full") {
		t.Errorf("keeping says %v", err)
	}
	if err := guard.Kept(func() error { return nil }); err != nil {
		t.Error(err)
	}
}
