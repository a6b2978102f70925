package main_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
)

// demoHome returns a home with the demo in it.
func demoHome(t *testing.T) string {
	t.Helper()
	home, demo := t.TempDir(), "../../pattern/store/demo"
	for _, file := range []string{"rack.toml", "shop.toml", "candle-sill.toml", "rookery-square.toml", "saltings-round.toml"} {
		data, err := os.ReadFile(filepath.Join(demo, file))
		if err != nil {
			t.Fatal(err)
		}
		if file != "rack.toml" && file != "shop.toml" {
			file = filepath.Join("patterns", file)
		}
		_ = os.MkdirAll(filepath.Dir(filepath.Join(home, file)), 0o755) // or the file is not written
		if err := os.WriteFile(filepath.Join(home, file), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return home
}

// all returns what a program has sent once it has ended.
func (m *mute) all(t *testing.T) string {
	t.Helper()
	select {
	case <-m.more:
	case <-time.After(time.Minute):
		t.Fatalf("%q does not end", m.cmd.Args)
	}
	return strings.ReplaceAll(string(m.output()), "\r\n", "\n")
}

// At a terminal commands print tables that fit it, in colours, and ask it nothing; with
// --plain the lines of a pipe; without colours nothing but text.
func TestTablesAtATerminal(t *testing.T) {
	program := build(t)
	home := "ODDMENTS_HOME=" + demoHome(t)
	for _, args := range [][]string{
		{"check", "candle-sill"}, {"rack", "list"}, {"plan", "rookery-square", "--time", "60"}, {"species"}, {"made", "candle-sill"},
		{"work", "candle-sill"}, {"mark", "saltings-round"},
		{"suggest", "--width", "120", "--thickness", "22", "--length", "400", "--widths", "20,25", "--layouts", "2", "--time", "60"},
	} {
		piped := exec.Command(program, args...)
		piped.Env = append(os.Environ(), home)
		lines, _ := piped.Output() // exits are others' to test
		for _, columns := range []uint16{80, 120} {
			m := runAt(t, program, columns, home, args...)
			out := m.all(t)
			m.asksNothing(t)
			if out == string(lines) || !strings.Contains(out, "\x1b[1m") {
				t.Errorf("%q at %d columns is no table:\n%s", args, columns, out)
			}
			for line := range strings.Lines(out) {
				if wide := ansi.StringWidth(strings.TrimSuffix(line, "\n")); wide > int(columns) {
					t.Errorf("%q at %d columns: %d wide: %q", args, columns, wide, line)
				}
			}
		}
		if plain := runAt(t, program, 80, home, append(args, "--plain")...).all(t); plain != string(lines) {
			t.Errorf("%q --plain at a terminal:\n%s\nthrough a pipe:\n%s", args, plain, lines)
		}
		if bare := runAt(t, program, 80, home, append(args, "--color", "none")...).all(t); strings.Contains(bare, "\x1b") {
			t.Errorf("%q without colours: %q", args, bare)
		}
	}
}
