//go:build !windows

package main_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// faults is a file of package tui that makes keys panic.
const faults = `package tui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/job"
)

func faulty(a App, key string) (App, tea.Cmd) {
	switch key {
	case "&":
		panic("injected in Update")
	case "$":
		return a, tea.Batch(func() tea.Msg { panic("injected in a command") }, nil)
	case "!":
		_, next := job.Start(time.Hour, func(context.Context, <-chan time.Time, func(int)) int { panic("injected in a job") })
		return a, next
	case "#":
		return a.say("draw a fault"), nil
	default:
		return a, nil
	}
}

func (a App) drawFault() {
	if a.notice.Text == "draw a fault" {
		panic("injected in View")
	}
}
`

// faultyProgram builds the program with faults in it.
func faultyProgram(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs("../../tui")
	if err != nil {
		t.Fatal(err)
	}
	replaced := map[string]string{}
	with := func(name, text string) {
		file := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		replaced[filepath.Join(dir, name)] = file
	}
	after := func(name, head, more string) {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || !strings.Contains(string(text), head) {
			t.Fatalf("%s has no %q: %v", name, head, err)
		}
		with(name, strings.Replace(string(text), head, head+more, 1))
	}
	with("faults.go", faults)
	after("input.go", "func (a App) key(k tea.KeyMsg) (App, tea.Cmd) {\n",
		"if strings.Contains(\"&$!#\", k.String()) {\nreturn faulty(a, k.String())\n}\n")
	after("view.go", "func (a App) View() string {\n", "a.drawFault()\n")
	if text, err := os.ReadFile(replaced[filepath.Join(dir, "input.go")]); err != nil {
		t.Fatal(err)
	} else {
		with("input.go", strings.Replace(string(text), "import (\n", "import (\n\"strings\"\n", 1))
	}
	overlay, err := json.Marshal(map[string]any{"Replace": replaced})
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "overlay.json")
	if err := os.WriteFile(file, overlay, 0o644); err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(t.TempDir(), "faulty")
	if out, err := exec.Command("go", "build", "-ldflags=-s -w", "-overlay", file, "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return program
}

// A panic, wherever it is, keeps the work first, gives the terminal back, and says in
// plain words where the work lies and where more about the panic is written.
func TestPanicKeepsTheWork(t *testing.T) {
	program := faultyProgram(t)
	for _, c := range []struct{ key, what, stack string }{
		{"&", "injected in Update", "tui.faulty"},
		{"#", "injected in View", "tui.App.drawFault"},
		{"$", "injected in a command", "tui.faulty"},
		{"!", "injected in a job", "job.Start"},
	} {
		t.Run(c.what, func(t *testing.T) {
			home := t.TempDir()
			s := bench(t, program, home)
			s.types(change)
			s.shows(changed)
			s.types(c.key)
			s.ends()
			s.givenBack(c.what)
			if code := s.cmd.ProcessState.ExitCode(); code != 3 {
				t.Errorf("exit %d", code)
			}
			copies, err := filepath.Glob(filepath.Join(home, "recovery", "*.toml"))
			if err != nil || len(copies) != 1 {
				t.Fatalf("kept %v, %v", copies, err)
			}
			reports, err := filepath.Glob(filepath.Join(home, "recovery", "fault-*.txt"))
			if err != nil || len(reports) != 1 {
				t.Fatalf("written %v, %v", reports, err)
			}
			said := s.stderr.String()
			for _, text := range []string{keptToldOf, copies[0], c.what, reports[0]} {
				if !strings.Contains(said, text) {
					t.Errorf("%q is not said: %q", text, said)
				}
			}
			if all := said + s.output(); strings.Contains(all, "goroutine") || strings.Contains(all, ".go:") {
				t.Errorf("the stack is on the screen: %q", said)
			}
			report, err := os.ReadFile(reports[0])
			if err != nil || !strings.Contains(string(report), c.what) || !strings.Contains(string(report), c.stack) {
				t.Errorf("the report is %q, %v", report, err)
			}
			offers(t, program, home)
		})
	}
}
