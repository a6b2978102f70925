//go:build !windows

package main_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// TestTerminal drives the program as it is shipped at a terminal that does what
// terminals do at their worst.
func TestTerminal(t *testing.T) {
	program := build(t)
	for _, c := range []struct {
		name string
		test func(*testing.T, string)
	}{
		{"at rest", atRest},
		{"resized without end", resized},
		{"keys in parts", keysInParts},
		{"a paste of 100 kB", largePaste},
		{"a paste without end", endlessPaste},
		{"a burst of the mouse", mouseBurst},
		{"suspended by its key", suspendedByKey},
		{"suspended from outside", suspendedFromOutside},
		{"suspended where no shell is", notSuspended},
		{"hung up", hungUp},
		{"told to end", toldToEnd},
		{"told to end twice", toldTwice},
		{"killed", killed},
		{"two on one home", twoPrograms},
		{"told to end beside another", toldToEndBeside},
		{"a newcomer's first hour", firstHour},
		{"a pile of short ends", shortEnds},
		{"a pile for a market", market},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, program) })
	}
}

// bench opens the program and waits for its first frame.
func bench(t *testing.T, program, home string) *session {
	t.Helper()
	s := open(t, home, program)
	s.shows("Rookery")
	s.shows("? keys")
	s.taken()
	return s
}

// The demo's first pattern is 13 strips, the first 22 mm wide; + makes it wider.
const (
	change     = "+"
	changed    = "Rookery square *"
	offered    = "unsaved work from last time"
	keptToldOf = "changes that are not saved; they are kept"
)

// At rest nothing is written, so that a laptop sleeps and a slow line stays free.
func atRest(t *testing.T, program string) {
	s := bench(t, program, t.TempDir())
	s.types(change)
	s.shows(changed)
	s.until("recovery copy", func() bool { return len(kept(t, homeOf(s))) == 1 })
	s.quiet()
	before := len(s.output())
	rest := 1500 * time.Millisecond
	if testing.Short() {
		rest /= 3
	}
	time.Sleep(rest)
	if n := len(s.output()) - before; n != 0 {
		t.Errorf("%d bytes were written at rest: %q", n, s.output()[before:])
	}
}

func homeOf(s *session) string {
	for _, e := range slices.Backward(s.cmd.Env) {
		if home, ok := strings.CutPrefix(e, "ODDMENTS_HOME="); ok {
			return home
		}
	}
	return ""
}

// After a storm of sizes and keys the screen is that of a program that never saw one.
func resized(t *testing.T, program string) {
	s := bench(t, program, t.TempDir())
	rng := rand.New(rand.NewPCG(21, 22))
	for i := range 300 {
		s.resize(1+rng.IntN(200), 1+rng.IntN(60))
		if i%10 == 0 {
			s.types("\x1b[F")
		}
		if i%50 == 0 {
			s.quiet()
		}
	}
	s.resize(80, 24)
	s.quiet()
	other := bench(t, program, t.TempDir())
	other.types("\x1b[F") // to the last strip
	other.shows(">11<")
	other.quiet()
	if diff := cmp.Diff(other.screen(), s.screen()); diff != "" {
		t.Errorf("after the storm the screen is another:\n%s", diff)
	}
}

// A key's sequence that comes in parts, as over a slow line, is that key and no other.
func keysInParts(t *testing.T, program string) {
	s := bench(t, program, t.TempDir())
	s.quiet()
	before := s.screen()
	for range 10 {
		for _, part := range []string{"\x1b", "[", "B"} {
			s.types(part)
		}
	}
	s.until("last strip chosen", func() bool { return strings.Contains(strings.Join(s.screen(), "\n"), ">11<") })
	if strings.Contains(strings.Join(s.screen(), "\n"), changed) {
		t.Errorf("a key in parts changed the pattern; before\n%s\nafter\n%s", strings.Join(before, "\n"), strings.Join(s.screen(), "\n"))
	}
	s.types("Q")
	s.shows("Q does nothing here")
	s.types("\x1b") // alone a key of its own, which takes the words away
	s.until("words gone", func() bool { return !strings.Contains(strings.Join(s.screen(), "\n"), "does nothing") })
	s.types("N") // name
	s.shows("> ")
	for _, part := range []string{"\xc3", "\xa9", "\xe2", "\x82\xac"} { // é and €, each torn
		s.types(part)
	}
	s.shows("é€")
}

// A large paste on the bench is turned away as a whole, and in a field it is cut.
func largePaste(t *testing.T, program string) {
	s := bench(t, program, t.TempDir())
	paste := "\x1b[200~" + strings.Repeat("x+-wq", 20_000) + "\x1b[201~"
	s.types(paste)
	s.shows("paste works only in a text field")
	if strings.Contains(strings.Join(s.screen(), "\n"), changed) {
		t.Error("a paste changed the pattern")
	}
	s.types("N")
	s.shows("Enter sets it")
	s.types(paste)
	s.shows("wqx+-wq")
	s.types("\x1b")
	s.gone("wqx+-wq")
	s.types(change)
	s.shows(changed)
}

// A paste whose end never comes is over when nothing more comes, and keys work again.
func endlessPaste(t *testing.T, program string) {
	s := bench(t, program, t.TempDir())
	s.types("\x1b[200~")
	s.shows("paste works only in a text field")
	s.types(change)
	s.shows(changed)
	s.types("q")
	s.ends()
}

// Whatever the mouse does, the program answers the next key.
func mouseBurst(t *testing.T, program string) {
	s := bench(t, program, t.TempDir())
	rng := rand.New(rand.NewPCG(23, 24))
	var b strings.Builder
	for range 3000 {
		final := "M"
		if rng.IntN(3) == 0 {
			final = "m"
		}
		// Buttons, moves with a button held, wheels, each with Shift, Alt and Ctrl.
		fmt.Fprintf(&b, "\x1b[<%d;%d;%d%s", rng.IntN(128), rng.IntN(300), rng.IntN(100), final)
	}
	s.types(b.String())
	s.types("\x1b\x1b?")
	s.shows("All keys")
}

// job starts the program from a shell with job control, and gives the file that holds
// its process's number.
func job(t *testing.T, program, home string) (s *session, pid func() int) {
	t.Helper()
	shell, err := exec.LookPath("sh")
	if err != nil {
		t.Skipf("skipped: %v", err)
	}
	file := filepath.Join(t.TempDir(), "pid")
	s = open(t, home, shell, "-i")
	s.until("prompt", func() bool { return strings.Contains(s.output()+s.stderr.String(), "shell> ") })
	s.types(fmt.Sprintf("sh -c 'echo $$ >%s; exec %s'\n", file, program))
	s.shows("? keys")
	s.taken()
	return s, func() int {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n, err := strconv.Atoi(strings.TrimSpace(string(text)))
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
}

func suspendedByKey(t *testing.T, program string) {
	s, pid := job(t, program, t.TempDir())
	s.types(change)
	s.shows(changed)
	s.types("\x1a")
	s.stops(pid())
	s.comesBack(pid())
}

func suspendedFromOutside(t *testing.T, program string) {
	s, pid := job(t, program, t.TempDir())
	s.types(change)
	s.shows(changed)
	for range 2 { // the second time too
		if err := syscall.Kill(pid(), syscall.SIGTSTP); err != nil {
			t.Fatal(err)
		}
		s.stops(pid())
		s.comesBack(pid())
	}
}

// In a window of its own, where nobody could bring it back, the program goes on.
func notSuspended(t *testing.T, program string) {
	s := bench(t, program, t.TempDir())
	s.types("\x1a")
	s.shows("no shell started oddments here")
	s.types(change)
	s.shows(changed)
	s.taken()
	s.types("q")
	s.ends()
}

// stops waits until the program is stopped, with the terminal as it was.
func (s *session) stops(pid int) {
	s.t.Helper()
	s.until("stopped program", func() bool { return stopped(pid) })
	s.takesBack("stopped")
	out := s.output()
	s.types("stty -a\n")
	s.until("terminal in its plain mode", func() bool { return strings.Contains(s.output()[len(out):], " icanon") })
}

// comesBack brings the program back, whose screen and keys are as before.
func (s *session) comesBack(pid int) {
	s.t.Helper()
	s.types("fg\n")
	s.until("program going on", func() bool { return !stopped(pid) })
	s.taken()
	s.shows(changed)
	s.types("?")
	s.shows("All keys")
	s.types("\x1b")
	s.gone("All keys")
}

// stopped reports whether a process is stopped by a signal.
func stopped(pid int) bool {
	out, err := exec.Command("ps", "-o", "stat=", "-p", strconv.Itoa(pid)).Output()
	return err == nil && strings.HasPrefix(strings.TrimSpace(string(out)), "T")
}

func hungUp(t *testing.T, program string) {
	home := t.TempDir()
	s := bench(t, program, home)
	s.types(change)
	s.shows(changed)
	if err := s.window.Close(); err != nil {
		t.Fatal(err)
	}
	s.ends()
	offers(t, program, home)
}

func toldToEnd(t *testing.T, program string) {
	for _, signal := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGINT} {
		home := t.TempDir()
		s := bench(t, program, home)
		s.types(change)
		s.shows(changed)
		if err := s.cmd.Process.Signal(signal); err != nil {
			t.Fatal(err)
		}
		s.ends()
		s.givenBack(signal.String())
		if !strings.Contains(s.stderr.String(), keptToldOf) {
			t.Errorf("%v: the program says %q", signal, s.stderr.String())
		}
		offers(t, program, home)
	}
}

// The second of two signals that come together does not end the program in the midst of
// keeping the work, which was changed a moment before.
func toldTwice(t *testing.T, program string) {
	for _, both := range [][2]syscall.Signal{
		{syscall.SIGTERM, syscall.SIGTERM}, {syscall.SIGINT, syscall.SIGINT}, {syscall.SIGHUP, syscall.SIGTERM}, {syscall.SIGTERM, syscall.SIGINT},
	} {
		home := t.TempDir()
		s := bench(t, program, home)
		s.types(change)
		s.shows(changed)
		for _, signal := range both {
			if err := s.cmd.Process.Signal(signal); err != nil {
				t.Fatal(err)
			}
		}
		s.ends()
		s.givenBack(both[0].String())
		if code := s.cmd.ProcessState.ExitCode(); code != 0 {
			t.Errorf("%v: exit %d", both, code)
		}
		if n := len(kept(t, home)); n != 1 {
			t.Errorf("%v: %d recovery copies", both, n)
		}
	}
}

// Killed a little more than a second after a change, the program has kept it.
func killed(t *testing.T, program string) {
	home := t.TempDir()
	s := bench(t, program, home)
	s.types(change)
	s.until("recovery copy", func() bool { return len(kept(t, home)) == 1 })
	if err := s.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	s.ends()
	offers(t, program, home)
}

// offers starts the program again: it offers what was kept, and brings it back.
func offers(t *testing.T, program, home string) {
	t.Helper()
	s := open(t, home, program)
	s.shows(offered)
	s.types("\r")
	s.shows(changed)
	s.types("q")
	s.ends()
	s.givenBack("q")
}

// The second program on a home says what is wrong and what to do, and keeps its work
// from being lost unseen.
func twoPrograms(t *testing.T, program string) {
	home := t.TempDir()
	first := bench(t, program, home)
	first.types(change)
	first.until("recovery copy", func() bool { return len(kept(t, home)) == 1 })
	second := open(t, home, program)
	second.shows(offered)
	second.types("\x1b")
	second.gone(offered)
	second.types(change)
	second.shows("another oddments is writing to this home")
	second.types("q")
	second.shows("again leaves anyway")
	second.types("q")
	second.ends()
	first.types("q")
	first.ends()
}

// Told to end beside another oddments in its home, the program keeps its work in a copy of
// its own and says where; when the other one ends first, it keeps it in a second by itself.
func toldToEndBeside(t *testing.T, program string) {
	home := t.TempDir()
	first := bench(t, program, home)
	first.types(change)
	first.until("recovery copy", func() bool { return len(kept(t, home)) == 1 })
	beside := func() *session {
		s := open(t, home, program)
		s.shows(offered)
		s.types("\x1b")
		s.gone(offered)
		s.types(change)
		s.shows("Not kept: another oddments is writing to this home")
		return s
	}
	second := beside()
	if err := second.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	second.ends()
	second.givenBack("SIGTERM")
	copies := kept(t, home)
	said := second.stderr.String()
	if len(copies) != 2 || second.cmd.ProcessState.ExitCode() != 0 || !strings.Contains(said, keptToldOf) || !strings.Contains(said, "rookery-square-2.toml") {
		t.Errorf("kept %v; exit %d, %s", copies, second.cmd.ProcessState.ExitCode(), said)
	}
	third := beside()
	first.types("q")
	first.ends()
	third.until("recovery copy of the third", func() bool { return len(kept(t, home)) == 3 })
	third.shows("kept now")
	third.types("q")
	third.ends()
}
