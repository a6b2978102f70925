package frames

import (
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// newFile returns a Terminal on a file, and what was written there since it was last
// asked for.
func newFile(t *testing.T) (*Terminal, func() string) {
	t.Helper()
	f, err := os.Create(filepath.Join(t.TempDir(), "terminal"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	read := 0
	terminal := New(f)
	return terminal, func() string {
		t.Helper()
		if !terminal.Flush(time.Minute) {
			t.Fatal("a file takes nothing")
		}
		all, err := os.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		since := string(all[read:])
		read = len(all)
		return since
	}
}

func TestShowWritesWhatChanged(t *testing.T) {
	const whole = "\x1b[1;1Haaa\x1b[2;1Hbbb\x1b[3;1Hccc"
	terminal, written := newFile(t)
	for _, step := range []struct {
		name, want string
		do         func()
	}{
		{"the first frame", whole, func() { terminal.Show("aaa\nbbb\nccc") }},
		{"the same frame", "", func() { terminal.Show("aaa\nbbb\nccc") }},
		{"one line", "\x1b[2;1HBBB", func() { terminal.Show("aaa\nBBB\nccc") }},
		{"another window", "\x1b[1;1Haaa\x1b[2;1HBBB", func() { terminal.Show("aaa\nBBB") }},
		{"forgotten", whole, func() { terminal.Forget(); terminal.Show("aaa\nbbb\nccc") }},
		{"the library's mode", "\x1b[?1049h", func() { _, _ = terminal.WriteString("\x1b[?1049h") }},
		{"left, which is waited for", "\x1b[?1049l", func() {
			_, _ = terminal.WriteString("\x1b[?1049l")
			if !terminal.Flush(0) {
				t.Error("what is written at the end is not waited for")
			}
		}},
		{"whole after that", whole, func() { terminal.Show("aaa\nbbb\nccc") }},
		{"the library's frame", "", func() { _, _ = terminal.Write([]byte("\x1b[H\r" + token + "\x1b[K")) }},
		{"nothing forgotten by it", "\x1b[3;1HCCC", func() { terminal.Show("aaa\nbbb\nCCC") }},
	} {
		step.do()
		if got := written(); got != step.want {
			t.Errorf("%s: %q was written, want %q", step.name, got, step.want)
		}
	}
}

// still is a model that shows one frame.
type still struct{ told []tea.Msg }

func (still) Init() tea.Cmd  { return nil }
func (s still) View() string { return "one" }
func (s still) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	s.told = append(s.told, msg)
	return s, nil
}

func TestModelShowsItsFrames(t *testing.T) {
	terminal, written := newFile(t)
	var m tea.Model = On(terminal, still{})
	if got := m.View(); got != token {
		t.Errorf("the library is given %q, want the token", got)
	}
	if got, want := written(), "\x1b[1;1Hone"; got != want {
		t.Errorf("the terminal was given %q, want %q", got, want)
	}
	m, _ = m.Update(tea.FocusMsg{})
	m.View()
	if got := written(); got != "" {
		t.Errorf("the same frame wrote %q", got)
	}
	m, _ = m.Update(tea.WindowSizeMsg{Width: 3, Height: 1})
	m.View()
	if got, want := written(), "\x1b[1;1Hone"; got != want {
		t.Errorf("after the window changed %q was written, want %q", got, want)
	}
	if told := m.(Model).Model.(still).told; len(told) != 2 {
		t.Errorf("the model was told of %d messages, want 2", len(told))
	}
}

// A terminal that takes nothing holds nothing up; when it takes again it is given the
// last frame, and none of those that nobody could see.
func TestStuckTerminalHoldsNothingUp(t *testing.T) {
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	terminal := New(out)
	frame := func(n int) string { return strings.Repeat(string(rune('a'+n%26)), 100_000) + strconv.Itoa(n) + "." }
	const last = 500
	for n := range last + 1 {
		terminal.Show(frame(n)) // more than a pipe takes
		terminal.Forget()
	}
	if terminal.Flush(0) {
		t.Fatal("the pipe took everything")
	}
	if _, err := terminal.WriteString("\x1b[?1049l"); err != nil {
		t.Fatal(err)
	}
	go func() {
		terminal.Flush(time.Minute)
		_ = out.Close()
	}()
	all, err := io.ReadAll(in)
	if err != nil || !strings.HasSuffix(string(all), "500.\x1b[?1049l") {
		t.Errorf("it ends with %q: %v", all[max(0, len(all)-40):], err)
	}
	if frames := strings.Count(string(all), "."); frames > 3 {
		t.Errorf("%d frames were written", frames)
	}
}
