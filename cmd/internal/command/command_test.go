package command_test

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
)

// run does one thing in place of the commands, and returns what was printed and the exit.
func run(t *testing.T, args []string, stdin string, terminal bool, do func(a *command.App) error) (out, errs string, exit int) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	env := command.Env{
		Stdin: strings.NewReader(stdin), Stdout: &stdout, Stderr: &stderr, Version: "1",
		Getenv: func(string) string { return "" }, IsTerminal: func() bool { return terminal },
		TerminalSize: func() (columns, rows int) { return 80, 24 },
	}
	a := command.New(env)
	exit = a.Run(context.Background(), args, func() *cobra.Command {
		root := &cobra.Command{Use: "oddments", SilenceErrors: true, SilenceUsage: true, RunE: func(*cobra.Command, []string) error {
			a.AsJSON = a.Flags.JSON
			return do(a)
		}}
		a.Flags.Add(root.PersistentFlags())
		return root
	})
	return stdout.String(), stderr.String(), exit
}

// Text is a fact a line, with nothing that acts on a terminal; JSON leaves it out.
func TestPrints(t *testing.T) {
	say := func(a *command.App) error {
		a.Fact("strip 1", "pear, %s", "31 mm\x1b[2J")
		a.Of("piece PE2").Fact("gives", "3")
		a.Result(func() result.Object { return result.Object{{"format", "f"}} })
		return nil
	}
	out, _, exit := run(t, nil, "", false, say)
	if lines := strings.Split(out, "\n"); len(lines) != 3 || !strings.HasPrefix(lines[0], "strip 1: pear, 31 mm") || strings.Contains(out, "\x1b") || exit != 0 {
		t.Errorf("printed %q, exit %d", out, exit)
	}
	if out, _, _ := run(t, []string{"--json"}, "", false, say); out != `{"format":"f"}`+"\n" {
		t.Errorf("printed %q", out)
	}
}

// The worst exit counts, and each failure has its line and its hint.
func TestReports(t *testing.T) {
	for _, c := range []struct {
		name string
		err  error
		exit int
		says string
	}{
		{"usage", failure.Usage("do this", "that is wrong"), 2, "oddments: that is wrong\nhint: do this\n"},
		{"failed", errors.New("no such disk"), 3, "no such disk"},
		{"both", errors.Join(failure.Usage("", "a"), errors.New("b")), 3, "b"},
	} {
		_, errs, exit := run(t, nil, "", false, func(*command.App) error { return c.err })
		if exit != c.exit || !strings.Contains(errs, c.says) {
			t.Errorf("%s: exit %d, %q", c.name, exit, errs)
		}
	}
	_, errs, _ := run(t, []string{"--json"}, "", false, func(*command.App) error { return errors.New("no such disk") })
	if !strings.HasPrefix(errs, `{"format":"oddments/error 1"`) {
		t.Errorf("as JSON %q", errs)
	}
}

// What panics is told of, and does not reach the terminal as a trace.
func TestPanics(t *testing.T) {
	_, errs, exit := run(t, []string{"--home", t.TempDir() + "/none"}, "", false, func(*command.App) error { panic("a knot") })
	if exit != 3 || !strings.Contains(errs, "a knot") || strings.Contains(errs, "goroutine") {
		t.Errorf("exit %d, %q", exit, errs)
	}
}

// One of several is picked by its number, at a terminal alone.
func TestChoose(t *testing.T) {
	for _, c := range []struct {
		typed    string
		terminal bool
		want     int
	}{{"2\n", true, 1}, {"3\n", true, -1}, {"", true, -1}, {"two\n", true, -1}, {"2\n", false, -1}} {
		got := -2
		run(t, nil, c.typed, c.terminal, func(a *command.App) error {
			got = a.Choose("which walnut", []string{"black walnut", "European walnut"})
			return nil
		})
		if got != c.want {
			t.Errorf("%q at a terminal %t: %d, want %d", c.typed, c.terminal, got, c.want)
		}
	}
}

// A pattern's copies stand behind its name; in the name of a file = may stand.
func TestWithCopies(t *testing.T) {
	for _, c := range []struct {
		arg, name string
		copies    int
	}{{"trivet", "trivet", 1}, {"trivet=4", "trivet", 4}, {"./a=b.toml", "./a=b.toml", 1}, {"./a.toml=3", "./a.toml", 3}, {"./a=", "./a=", 1}} {
		if name, n, err := command.WithCopies(c.arg); name != c.name || n != c.copies || err != nil {
			t.Errorf("%q: %q, %d, %v", c.arg, name, n, err)
		}
	}
	for _, arg := range []string{"trivet=0", "trivet=4.5", "trivet=", "trivet=10001"} {
		if _, _, err := command.WithCopies(arg); err == nil {
			t.Errorf("%q is taken", arg)
		}
	}
}

func TestWords(t *testing.T) {
	if got := command.Together("", "proved", "", "late"); got != "proved, late" {
		t.Errorf("together %q", got)
	}
	if got := command.Padded([]string{"a", "bcd"}, func(s string) string { return s }); got[0] != "a  " || got[1] != "bcd" {
		t.Errorf("padded %q", got)
	}
	if err := command.OneLine("pear 500\x00"); err == nil {
		t.Error("a control character is taken")
	}
	if err := command.OneLine("pear 500"); err != nil {
		t.Error(err)
	}
}
