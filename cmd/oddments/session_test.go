//go:build !windows

package main_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"
	"github.com/google/go-cmp/cmp"
	"golang.org/x/sys/unix"
)

// A session is the program at a terminal whose other end the test holds, as a
// terminal's window would.
type session struct {
	t        *testing.T
	cmd      *exec.Cmd
	window   *os.File // what the maker sees and types
	line     *os.File // the terminal's own end, kept open to look at its settings
	settings *term.State
	ended    chan struct{} // closed when the program is gone
	stderr   said

	rows int

	mu    sync.Mutex
	sent  []byte
	from  int      // of what was sent, from where on it is not on shown yet
	shown []string // the rows of the screen
}

// open starts a command at a terminal of 80x24 with a home.
func open(t *testing.T, home string, command string, args ...string) *session {
	t.Helper()
	s := &session{t: t, ended: make(chan struct{})}
	var err error
	if s.window, s.line, err = pty.Open(); err != nil {
		t.Skipf("skipped: no pseudo-terminal: %v", err)
	}
	// A window that reads without blocking can be closed while it is read.
	s.window = unblocked(t, s.window)
	s.resize(80, 24)
	if s.settings, err = term.GetState(s.line.Fd()); err != nil {
		t.Fatal(err)
	}
	s.cmd = exec.Command(command, args...)
	s.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "COLORTERM=truecolor", "NO_COLOR=", "CI=", "PS1=shell> ", "ENV=", "ODDMENTS_HOME="+home)
	s.cmd.Dir = t.TempDir()
	s.cmd.Stdin, s.cmd.Stdout, s.cmd.Stderr = s.line, s.line, &s.stderr
	s.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	s.cmd.WaitDelay = time.Second // a shell's job may outlive it
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go s.read()
	go func() {
		_ = s.cmd.Wait() // by a signal, mostly
		close(s.ended)
	}()
	t.Cleanup(func() {
		_ = s.window.Close() // which hangs up on all that run there
		_ = s.cmd.Process.Kill()
		<-s.ended
		_ = s.line.Close()
	})
	return s
}

func unblocked(t *testing.T, f *os.File) *os.File {
	t.Helper()
	fd, err := unix.FcntlInt(f.Fd(), unix.F_DUPFD_CLOEXEC, 0)
	if err == nil {
		err = syscall.SetNonblock(fd, true)
	}
	if err = errors.Join(err, f.Close()); err != nil {
		t.Fatal(err)
	}
	return os.NewFile(uintptr(fd), "window")
}

func (s *session) read() {
	buf := make([]byte, 64<<10)
	for {
		n, err := s.window.Read(buf)
		s.mu.Lock()
		s.sent = append(s.sent, buf[:n]...)
		s.mu.Unlock()
		if err != nil {
			return
		}
	}
}

func (s *session) output() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return string(s.sent)
}

func (s *session) resize(columns, rows int) {
	s.t.Helper()
	if err := pty.Setsize(s.line, &pty.Winsize{Cols: uint16(columns), Rows: uint16(rows)}); err != nil {
		s.t.Fatal(err)
	}
	s.rows = rows
}

func (s *session) types(text string) {
	s.t.Helper()
	if _, err := s.window.WriteString(text); err != nil {
		s.t.Fatal(err)
	}
}

// until waits until what is asked holds, and fails with what is asked for after ten
// seconds, which no part of the program takes even on a busy machine.
func (s *session) until(what string, holds func() bool) {
	s.t.Helper()
	deadline := time.Now().Add(10 * time.Second)
	for !holds() {
		if time.Now().After(deadline) {
			s.t.Fatalf("no %s; the screen is\n%s", what, strings.Join(s.screen(), "\n"))
		}
		time.Sleep(2 * time.Millisecond)
	}
}

// shows waits until the screen shows a text.
func (s *session) shows(text string) {
	s.t.Helper()
	s.until(strconv.Quote(text)+" on the screen", func() bool { return strings.Contains(strings.Join(s.screen(), "\n"), text) })
}

// gone waits until the screen does not show a text any more.
func (s *session) gone(text string) {
	s.t.Helper()
	s.until("screen without "+text, func() bool { return !strings.Contains(strings.Join(s.screen(), "\n"), text) })
}

// ends waits until the program is gone.
func (s *session) ends() {
	s.t.Helper()
	select {
	case <-s.ended:
	case <-time.After(10 * time.Second):
		s.t.Fatal("the program does not end")
	}
}

// said keeps what is written to it while others read it.
type said struct {
	mu   sync.Mutex
	text strings.Builder
}

func (s *said) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *said) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// quiet waits until nothing was sent for a while, so that the frame stands.
func (s *session) quiet() {
	s.t.Helper()
	const still = 60 * time.Millisecond
	size, since := -1, time.Now()
	s.until("rest", func() bool {
		if n := len(s.output()); n != size {
			size, since = n, time.Now()
		}
		return time.Since(since) > still
	})
}

var row = regexp.MustCompile(`\x1b\[(\d+);1H`)

// screen returns the rows as they stand on the alternate screen, without colours.
func (s *session) screen() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := string(s.sent[s.from:])
	if at := strings.LastIndex(out, "\x1b[2J"); at > 0 {
		s.from, s.shown = s.from+at, nil
		out = out[at:]
	}
	marks := row.FindAllStringSubmatchIndex(out, -1)
	for i, m := range marks {
		end := len(out)
		if i+1 < len(marks) {
			end = marks[i+1][0]
		}
		n, _ := strconv.Atoi(out[m[2]:m[3]]) // digits
		for len(s.shown) < n {
			s.shown = append(s.shown, "")
		}
		s.shown[n-1] = strings.TrimRight(ansi.Strip(out[m[1]:end]), "\r\n")
	}
	if len(marks) > 0 { // the last row may not be whole yet
		s.from += marks[len(marks)-1][0]
	}
	return slices.Clone(s.shown[:min(len(s.shown), s.rows)])
}

// modes lists what the program sets at a terminal, with what takes each back.
func modes() map[string][2]string {
	return map[string][2]string{
		"alternate screen": {"\x1b[?1049h", "\x1b[?1049l"},
		"mouse":            {"\x1b[?1002h", "\x1b[?1002l"},
		"mouse's figures":  {"\x1b[?1006h", "\x1b[?1006l"},
		"marked paste":     {"\x1b[?2004h", "\x1b[?2004l"},
		"hidden cursor":    {"\x1b[?25l", "\x1b[?25h"},
	}
}

// givenBack fails unless the terminal is as the program found it.
func (s *session) givenBack(when string) {
	s.t.Helper()
	s.takesBack(when)
	now, err := term.GetState(s.line.Fd())
	if err != nil {
		s.t.Fatal(err)
	}
	if diff := cmp.Diff(s.settings, now, cmp.Exporter(func(reflect.Type) bool { return true })); diff != "" {
		s.t.Errorf("%s: the terminal's settings are not what they were:\n%s", when, diff)
	}
}

// takesBack waits until every mode that was set is taken back. What the program sent
// last may still be on its way when it is seen to end or to stop.
func (s *session) takesBack(when string) {
	s.t.Helper()
	for name, m := range modes() {
		s.until(fmt.Sprintf("%s, and the %s taken back", when, name), func() bool {
			out := s.output()
			on, off := strings.LastIndex(out, m[0]), strings.LastIndex(out, m[1])
			return on >= 0 && off > on
		})
	}
}

// taken waits until the program has the terminal.
func (s *session) taken() {
	s.t.Helper()
	s.until("mode set", func() bool {
		out := s.output()
		for _, m := range modes() {
			if strings.LastIndex(out, m[0]) < strings.LastIndex(out, m[1]) || !strings.Contains(out, m[0]) {
				return false
			}
		}
		return true
	})
}

// kept returns the names of the recovery copies in a home.
func kept(t *testing.T, home string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(home, "recovery", "*.toml"))
	if err != nil {
		t.Fatal(err)
	}
	return names
}
