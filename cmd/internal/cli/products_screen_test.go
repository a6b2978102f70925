package cli_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui"
	"example.com/oddments/tui/paint"
)

// TestScreensShowWhatMarkAndWorkPrint compares what mark and work print of the demo's
// patterns, line by line, with what the screens of the same patterns show.
func TestScreensShowWhatMarkAndWorkPrint(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	home := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = home.Close() })
	if _, err := home.SaveShop(demo.Shop, store.Absent); err != nil {
		t.Fatal(err)
	}
	for _, p := range demo.Patterns {
		if _, err := home.SavePattern(p.Stem, p.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
		var model tea.Model = tui.New(tui.Setup{Home: home, Open: p, Profile: paint.None, Physics: movement.New(species.Builtin(), demo.Shop)})
		model, _ = model.Update(tea.WindowSizeMsg{Width: 300, Height: 220})
		model = pressed(model, "shift+tab", "shift+tab", "shift+tab", "s")
		frame := plain(model)
		for _, line := range linesOf(t, "mark", "--home", home.Dir(), p.Stem)[1:] {
			if !strings.Contains(frame, line) {
				t.Errorf("%s: the cut out screen does not show %q", p.Stem, line)
			}
		}
		model = pressed(model, "esc", "tab")
		frame = plain(model)
		for _, line := range linesOf(t, "work", "--home", home.Dir(), p.Stem)[2:] {
			for _, part := range partsOf(line) {
				if !strings.Contains(frame, part) {
					t.Errorf("%s: the work screen does not show %q of %q", p.Stem, part, line)
				}
			}
		}
	}
}

// partsOf returns what of a printed line stands on the screen as it is: the figure with
// the end of its name, and its source.
func partsOf(line string) []string {
	if _, caution, ok := strings.Cut(line, "caution, "); ok {
		_, text, _ := strings.Cut(caution, ": ")
		return []string{text}
	}
	figure, source, reckoned := strings.Cut(line, "; source: ")
	name, text, named := strings.Cut(figure, ": ")
	if !named {
		return []string{figure}
	}
	parts := []string{strings.TrimPrefix(name[strings.LastIndex(name, ", ")+1:], " ") + ": " + text}
	if reckoned {
		parts = append(parts, source)
	}
	return parts
}

func pressed(model tea.Model, names ...string) tea.Model {
	for _, name := range names {
		msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
		switch name {
		case "tab":
			msg = tea.KeyMsg{Type: tea.KeyTab}
		case "shift+tab":
			msg = tea.KeyMsg{Type: tea.KeyShiftTab}
		case "esc":
			msg = tea.KeyMsg{Type: tea.KeyEsc}
		}
		model, _ = model.Update(msg)
	}
	return model
}

// plain returns a frame as one line, each run of blanks one.
func plain(model tea.Model) string {
	return strings.Join(strings.Fields(ansi.Strip(model.View())), " ")
}

func linesOf(t *testing.T, args ...string) []string {
	t.Helper()
	var out, errs bytes.Buffer
	code := cli.Run(context.Background(), args, command.Env{
		Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errs,
		Getenv: func(string) string { return "" }, IsTerminal: func() bool { return false },
	})
	if code > 1 {
		t.Fatalf("%v: exit %d: %s", args, code, errs.String())
	}
	var lines []string
	for line := range strings.Lines(out.String()) {
		lines = append(lines, strings.Join(strings.Fields(line), " "))
	}
	return lines
}
