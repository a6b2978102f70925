package cli_test

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/exp/golden"
)

// printing are commands that print what they find, without writing anything.
func printing() [][]string {
	return [][]string{
		{"check", "candle-sill"}, {"check", "rookery-square", "saltings-round", "--units", "in"}, {"relief", "candle-sill"},
		{"rack", "list"}, {"rack", "list", "--for", "rookery-square=2", "maple"},
		{"plan", "candle-sill", "--time", "60"}, {"plan", "rookery-square", "--time", "60"},
		{"suggest", "--width", "120", "--thickness", "22", "--length", "400", "--widths", "20,25", "--layouts", "2", "--time", "60"},
		{"again", "rookery-square", "--answers", "2", "--time", "60"},
		{"resize", "candle-sill", "--width", "150"}, {"mark", "saltings-round", "--short-ends"},
		{"work", "candle-sill=3"}, {"made", "candle-sill"}, {"arrange", "saltings-round"},
		{"species"}, {"species", "damson"}, {"species", "pear"}, {"keys"},
	}
}

// atTerminal is the demo's home, with somebody before a terminal so wide.
func atTerminal(t *testing.T, columns int, env map[string]string) stage {
	t.Helper()
	s := demoStage(t)
	s.terminal, s.columns = true, columns
	s.env = map[string]string{"TERM": "xterm-256color"}
	maps.Copy(s.env, env)
	return s
}

// What the commands print at terminals of two widths, and what of it is coloured.
func TestTables(t *testing.T) {
	for name, args := range map[string][]string{
		"check": {"check", "candle-sill"}, "rack": {"rack", "list"}, "plan": {"plan", "candle-sill", "--time", "60"},
		"suggest": {"suggest", "--width", "120", "--thickness", "22", "--length", "400", "--widths", "20,25", "--layouts", "2", "--time", "60"},
		"relief":  {"relief", "candle-sill"},
		"mark":    {"mark", "saltings-round"}, "made": {"made", "candle-sill"}, "work": {"work", "candle-sill"}, "arrange": {"arrange", "candle-sill"},
	} {
		for _, columns := range []int{80, 120} {
			t.Run(fmt.Sprintf("%s_%d", name, columns), func(t *testing.T) {
				out, _, _ := atTerminal(t, columns, map[string]string{"NO_COLOR": "1"}).run(t, args...)
				golden.RequireEqual(t, []byte(out))
			})
		}
	}
	t.Run("coloured", func(t *testing.T) {
		out, _, _ := atTerminal(t, 80, nil).run(t, "check", "candle-sill")
		golden.RequireEqual(t, []byte(strings.ReplaceAll(out, "\x1b", "^[")))
	})
}

// Whatever a command prints fits the terminal, in its colours or none, and nothing in it
// but colours acts on it.
func TestTablesFit(t *testing.T) {
	for _, columns := range []int{60, 67, 80, 132, 250} {
		for _, colours := range []string{"", "1"} {
			s := atTerminal(t, columns, map[string]string{"NO_COLOR": colours})
			for _, args := range printing() {
				if testing.Short() && (args[0] == "plan" || args[0] == "suggest" || args[0] == "again") {
					continue
				}
				out, messages, exit := s.run(t, args...)
				if exit > 1 && args[len(args)-1] != "damson" {
					t.Fatalf("%q: exit %d: %s", args, exit, messages)
				}
				for line := range strings.Lines(out) {
					bare := ansi.Strip(line)
					if wide := ansi.StringWidth(strings.TrimSuffix(bare, "\n")); wide > columns {
						t.Errorf("%q in %d columns: %d wide: %q", args, columns, wide, line)
					}
					if (colours != "") != (bare == line) && colours != "" {
						t.Errorf("%q without colours: %q", args, line)
					}
				}
			}
		}
	}
}

// With --plain, and at a terminal that shows no tables, the lines are those of a pipe,
// letter for letter.
func TestPlainIsAsThroughAPipe(t *testing.T) {
	pipe := demoStage(t)
	for _, args := range printing() {
		want, _, _ := pipe.run(t, args...)
		for name, s := range map[string]stage{
			"--plain": atTerminal(t, 80, nil), "dumb": atTerminal(t, 80, map[string]string{"TERM": "dumb"}), "narrow": atTerminal(t, 59, nil),
		} {
			if name != "--plain" && testing.Short() {
				continue
			}
			with := args
			if name == "--plain" {
				with = append([]string{"--plain"}, args...)
			}
			if got, _, _ := s.run(t, with...); got != want {
				t.Errorf("%s, %q:\n%s\nthrough a pipe:\n%s", name, args, got, want)
			}
		}
	}
}

// JSON is one line wherever it goes.
func TestJSONIsNoTable(t *testing.T) {
	s := atTerminal(t, 80, nil)
	for _, args := range [][]string{{"check", "candle-sill"}, {"species", "pear"}, {"made", "candle-sill"}, {"mark", "saltings-round"}} {
		want, _, _ := demoStage(t).run(t, append(args, "--json")...)
		if got, _, _ := s.run(t, append(args, "--json")...); got != want || strings.Count(got, "\n") != 1 {
			t.Errorf("%q: %q, want %q", args, got, want)
		}
	}
}

// What a name or a word of the command line would do to a terminal is written, not done.
func TestTablesAreHarmless(t *testing.T) {
	s := atTerminal(t, 80, map[string]string{"NO_COLOR": "1"})
	file := s.write(t, "odd \x1b[2J\u202e name.toml", "format = \"oddments/pattern 1\"\n[panel]\nlength = \"300 mm\"\nthickness = \"20 mm\"\n")
	for _, args := range [][]string{{"check", file}, {"made", file}, {"mark", file}, {"arrange", file}, {"plan", file}} {
		out, messages, _ := s.run(t, args...)
		if !strings.Contains(out+messages, `\x1b[2J`) || strings.ContainsAny(out+messages, "\x1b\u202e") {
			t.Errorf("%q: %q, %q", args[0], out, messages)
		}
	}
}
