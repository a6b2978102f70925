package main_test

import (
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
)

// What tcflow(3) asks of a terminal: to hold its output, and to go on with it.
const (
	holdOutput = 0
	goOn       = 1
)

// A terminal that takes no output, as over a line that stalls, holds neither the recovery
// copy up nor what tells the program to end. When the line goes on, the screen is that of
// the last key.
func TestStalledTerminal(t *testing.T) {
	program := build(t)
	home := t.TempDir()
	s := stalled(t, program, home)
	if err := s.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	s.ends()
	other := open(t, home, program)
	other.shows(offered)

	s = stalled(t, program, t.TempDir())
	s.types("\x1b[F")
	if err := unix.IoctlSetInt(int(s.line.Fd()), unix.TCXONC, goOn); err != nil {
		t.Fatal(err)
	}
	s.shows(changed)
	s.shows(">11<")
}

// stalled opens the program, has its terminal take nothing any more while keys that
// change the pattern come, and waits until the work is kept.
func stalled(t *testing.T, program, home string) *session {
	t.Helper()
	s := bench(t, program, home)
	s.quiet()
	if err := unix.IoctlSetInt(int(s.line.Fd()), unix.TCXONC, holdOutput); err != nil {
		t.Skipf("skipped: the terminal's output cannot be held: %v", err)
	}
	for range 30 { // frames that differ, more than a terminal holds
		s.types(change + "\x1b[B")
	}
	s.until("recovery copy", func() bool { return len(kept(t, home)) == 1 })
	return s
}
