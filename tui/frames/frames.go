// Package frames puts each frame on the terminal the moment it is drawn.
//
// bubbletea's renderer looks for a new frame by the clock, at most 120 times a second:
// a key waits some 4 ms for its frame, up to 8, and the clock ticks while nobody
// types. Here the library keeps what it is good at (raw mode, alternate screen,
// mouse, paste, suspend), and its frames are replaced: View hands the real one to a
// Terminal, which writes the lines that changed at once, and gives the library a
// token in its place. The library's output runs through the same Terminal, which
// drops whatever carries the token.
//
// A frame is as many lines as the window is high, each as wide as the window, as
// tui/paint draws them.
package frames

import (
	"bytes"
	"os"
	"strconv"
	"strings"
	"sync"

	tea "github.com/charmbracelet/bubbletea"
)

// token stands for a frame in what the library writes: one cell of a code point that
// nothing else writes, so that no window is too narrow for it.
const token = "\ue000"

// A Terminal is a file that shows frames. It is safe for the library's goroutines.
type Terminal struct {
	*os.File
	mu    sync.Mutex
	shown []string // the lines on the screen; none where they are not known
	out   []byte
}

// New gives a Terminal on f.
func New(f *os.File) *Terminal { return &Terminal{File: f} }

// Write passes on what the library writes, except for its frames. What it writes may
// clear the screen, so the next frame is written whole.
func (t *Terminal) Write(p []byte) (int, error) {
	if bytes.Contains(p, []byte(token)) {
		return len(p), nil
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	t.shown = nil
	return t.File.Write(p)
}

// WriteString is Write, for the library takes it where there is one.
func (t *Terminal) WriteString(s string) (int, error) { return t.Write([]byte(s)) }

// Forget has the next frame written whole, since the screen may no longer show the
// last one.
func (t *Terminal) Forget() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.shown = nil
}

// Show writes the lines of a frame that differ from the frame before. An error is
// not told of: a terminal that is gone ends the program by its own signal.
func (t *Terminal) Show(frame string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	lines := strings.Split(frame, "\n")
	if len(lines) != len(t.shown) {
		t.shown = nil
	}
	out := t.out[:0]
	for i, line := range lines {
		if t.shown != nil && t.shown[i] == line {
			continue
		}
		out = append(out, "\x1b["...)
		out = strconv.AppendInt(out, int64(i+1), 10)
		out = append(out, ";1H"...)
		out = append(out, line...)
	}
	t.shown, t.out = lines, out
	if len(out) > 0 {
		_, _ = t.File.Write(out)
	}
}

// Model is a model whose frames go straight to a Terminal.
type Model struct {
	tea.Model
	terminal *Terminal
}

// On gives m with its frames shown on t; the program's output is to be t too.
func On(t *Terminal, m tea.Model) Model { return Model{Model: m, terminal: t} }

// Update passes a message on. The terminal may have moved what it shows when its
// window changed.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := msg.(tea.WindowSizeMsg); ok {
		m.terminal.Forget()
	}
	var cmd tea.Cmd
	m.Model, cmd = m.Model.Update(msg)
	return m, cmd
}

// View shows the frame and gives the library the token.
func (m Model) View() string {
	m.terminal.Show(m.Model.View())
	return token
}
