package main_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/creack/pty"
)

// A program on a terminal that never answers.
type mute struct {
	cmd *exec.Cmd
	pty *os.File

	mu   sync.Mutex
	sent []byte
	more chan struct{} // closed when the program's output ends
}

// A shipped program is where it lies and what its linker said.
type shipped struct {
	program string
	links   string
	err     error
}

// folder holds the programs that are built, until all tests are over.
var folder string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "oddments-program")
	if err != nil {
		panic(err)
	}
	folder = dir
	code := m.Run()
	_ = os.RemoveAll(dir)
	os.Exit(code)
}

// ship builds the program as it is shipped, once for all tests: without the debugger's
// tables, with every call told of by the linker.
var ship = sync.OnceValue(func() shipped {
	program := filepath.Join(folder, "oddments")
	out, err := exec.Command("go", "build", "-ldflags=-s -w -dumpdep", "-o", program, ".").CombinedOutput()
	return shipped{program, string(out), err}
})

// build returns the program as it is shipped.
func build(t *testing.T) string {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("skipped: no pseudo-terminals here")
	}
	s := ship()
	if s.err != nil {
		t.Fatalf("go build: %v\n%.3000s", s.err, s.links)
	}
	return s.program
}

func run(t *testing.T, program string, args ...string) *mute {
	t.Helper()
	return runAt(t, program, 80, "ODDMENTS_HOME="+filepath.Join(t.TempDir(), "home"), args...)
}

// runAt runs the program at a terminal so wide, with one more variable of the environment.
func runAt(t *testing.T, program string, columns uint16, env string, args ...string) *mute {
	t.Helper()
	m := &mute{cmd: exec.Command(program, args...), more: make(chan struct{})}
	m.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "COLORTERM=truecolor", "NO_COLOR=", "CI=", env)
	var err error
	if m.pty, err = pty.StartWithSize(m.cmd, &pty.Winsize{Cols: columns, Rows: 24}); err != nil {
		t.Skipf("skipped: no pseudo-terminal: %v", err)
	}
	go m.read()
	t.Cleanup(func() {
		_ = m.cmd.Process.Kill()
		_ = m.cmd.Wait()
		_ = m.pty.Close()
	})
	return m
}

func (m *mute) read() {
	defer close(m.more)
	buf := make([]byte, 64<<10)
	for {
		n, err := m.pty.Read(buf)
		m.mu.Lock()
		m.sent = append(m.sent, buf[:n]...)
		m.mu.Unlock()
		if err != nil {
			return
		}
	}
}

func (m *mute) output() []byte {
	m.mu.Lock()
	defer m.mu.Unlock()
	return bytes.Clone(m.sent)
}

// waitFor waits until the program has sent text, a second at most: longer is a stall.
func (m *mute) waitFor(t *testing.T, text string) {
	t.Helper()
	deadline := time.After(time.Second)
	for {
		if bytes.Contains(m.output(), []byte(text)) {
			return
		}
		select {
		case <-deadline:
			t.Fatalf("%q did not appear within a second; sent: %q", text, m.output())
		case <-m.more:
			if !bytes.Contains(m.output(), []byte(text)) {
				t.Fatalf("the program ended without %q; sent: %q", text, m.output())
			}
			return
		case <-time.After(2 * time.Millisecond):
		}
	}
}

// asksNothing fails when the program asked the terminal something, which one that
// does not answer would let it wait for.
func (m *mute) asksNothing(t *testing.T) {
	t.Helper()
	for _, query := range []string{"\x1b]10;?", "\x1b]11;?", "\x1b[6n", "\x1b[c", "\x1b[>c", "\x1b[?u"} {
		if bytes.Contains(m.output(), []byte(query)) {
			t.Errorf("the terminal is asked %q", query)
		}
	}
}

// A plain command appears at once on a terminal that never answers.
func TestCommandDoesNotWaitForTheTerminal(t *testing.T) {
	m := run(t, build(t), "species", "black_walnut")
	m.waitFor(t, "Juglans nigra")
	m.asksNothing(t)
}

// So does the first screen; and leaving gives the terminal back as it was.
func TestBenchDoesNotWaitForTheTerminal(t *testing.T) {
	m := run(t, build(t))
	m.waitFor(t, "Rookery")
	m.waitFor(t, "hornbeam")
	m.asksNothing(t)
	if _, err := m.pty.WriteString("q"); err != nil {
		t.Fatal(err)
	}
	select {
	case <-m.more:
	case <-time.After(5 * time.Second):
		t.Fatal("q does not leave")
	}
	out := string(m.output())
	for _, escape := range []string{"\x1b[?1049", "\x1b[?1002", "\x1b[?1006"} {
		on, off := strings.LastIndex(out, escape+"h"), strings.LastIndex(out, escape+"l")
		if on < 0 || off < on {
			t.Errorf("%q is not taken back", escape)
		}
	}
	if strings.Contains(out, "\ue000") {
		t.Error("the token that stands for a frame reached the terminal")
	}
	m.asksNothing(t)
}
