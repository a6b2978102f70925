// Package frames puts each frame on the terminal the moment it is drawn.
//
// bubbletea's renderer looks for a new frame by the clock, at most 120 times a second:
// a key waits some 4 ms for its frame, up to 8, and the clock ticks while nobody
// types. Here the library keeps what it is good at (raw mode, alternate screen,
// mouse, paste, suspend), and its frames are replaced: View hands the real one to a
// Terminal, which writes the lines that changed at once, beside the screen, and gives the library a
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
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/job"
)

// token stands for a frame in what the library writes: one cell of a code point that
// nothing else writes, so that no window is too narrow for it.
const token = "\ue000"

// A Terminal is a file that shows frames. It is safe for the library's goroutines.
//
// A terminal that takes nothing, as over a line that stalls, must not hold up the
// program: work is kept and signals are heard all the same. So what is written waits in
// memory for a goroutine of its own, which is there as long as something waits. A frame
// that waits gives way to the next; the little that the library writes is all kept.
type Terminal struct {
	*os.File
	mu     sync.Mutex
	shown  []string      // the lines on the screen once out is written; none where they are not known
	out    []byte        // is to be written
	spare  []byte        // was written, and may be written over
	frame  string        // is to be written after out
	framed bool          // there is one
	idle   chan struct{} // closed when nothing waits any more; nil: nothing waits
	left   bool          // the library has left the alternate screen
	stuck  bool          // the terminal took nothing the last time that it was waited for
}

// New returns a Terminal on f.
func New(f *os.File) *Terminal { return &Terminal{File: f} }

// patience is how long the library waits for what it writes once it leaves the alternate
// screen: the program stops or ends then, and what comes after that is another program's.
const patience = 500 * time.Millisecond

// What the library writes to enter the alternate screen, and to leave it.
const (
	enterScreen = "\x1b[?1049h"
	leaveScreen = "\x1b[?1049l"
)

// Write passes on what the library writes, except for its frames. What it writes may
// clear the screen, so the next frame is written whole. An error is not told of: a
// terminal that is gone ends the program by its own signal.
func (t *Terminal) Write(p []byte) (int, error) {
	if bytes.Contains(p, []byte(token)) {
		return len(p), nil
	}
	t.mu.Lock()
	t.draw()
	t.out, t.shown = append(t.out, p...), nil
	t.start()
	switch {
	case bytes.Contains(p, []byte(leaveScreen)):
		t.left = true
	case bytes.Contains(p, []byte(enterScreen)):
		t.left = false
	}
	wait := t.left && !t.stuck
	t.mu.Unlock()
	if wait {
		t.Flush(patience)
	}
	return len(p), nil
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

// Show has the lines of a frame written that differ from the frame before.
func (t *Terminal) Show(frame string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.frame, t.framed = frame, true
	t.start()
}

// Flush waits until everything is written, and reports whether it is; a terminal that
// takes nothing is waited for no longer than within.
func (t *Terminal) Flush(within time.Duration) bool {
	t.mu.Lock()
	idle := t.idle
	t.mu.Unlock()
	if idle == nil {
		return true
	}
	limit := time.NewTimer(within)
	defer limit.Stop()
	select {
	case <-idle:
		return true
	case <-limit.C:
		t.mu.Lock()
		t.stuck = t.idle == idle
		t.mu.Unlock()
		return false
	}
}

// start has what waits written.
func (t *Terminal) start() {
	if t.idle == nil {
		t.idle = make(chan struct{})
		job.Beside(t.write)
	}
}

// write writes until nothing waits.
func (t *Terminal) write() {
	for {
		t.mu.Lock()
		t.draw()
		out := t.out
		if len(out) == 0 {
			close(t.idle)
			t.idle = nil
			t.mu.Unlock()
			return
		}
		t.out, t.spare = t.spare[:0], nil
		t.mu.Unlock()
		_, _ = t.File.Write(out)
		t.mu.Lock()
		t.spare, t.stuck = out, false
		t.mu.Unlock()
	}
}

// draw puts the frame that waits behind what is to be written.
func (t *Terminal) draw() {
	if !t.framed {
		return
	}
	lines := strings.Split(t.frame, "\n")
	if len(lines) != len(t.shown) {
		t.shown = nil
	}
	for i, line := range lines {
		if t.shown != nil && t.shown[i] == line {
			continue
		}
		t.out = append(t.out, "\x1b["...)
		t.out = strconv.AppendInt(t.out, int64(i+1), 10)
		t.out = append(t.out, ";1H"...)
		t.out = append(t.out, line...)
	}
	t.shown, t.frame, t.framed = lines, "", false
}

// Model is a model whose frames go straight to a Terminal.
type Model struct {
	tea.Model
	terminal *Terminal
}

// On returns m with its frames shown on t; the program's output is to be t too.
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
