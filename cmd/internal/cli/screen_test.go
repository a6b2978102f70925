package cli_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
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

// TestScreenShowsTheNumbersOfTheCommand compares what check --json prints of the demo's
// patterns with what stands on the bench: width, seasons, timber, and every glue line
// as the maker goes from strip to strip.
func TestScreenShowsTheNumbersOfTheCommand(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	home := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = home.Close() })
	if _, err := home.SaveShop(demo.Shop, store.Absent); err != nil {
		t.Fatal(err)
	}
	physics := movement.New(species.Builtin(), demo.Shop)
	for _, p := range demo.Patterns {
		if _, err := home.SavePattern(p.Stem, p.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
		var model tea.Model = tui.New(tui.Setup{Home: home, Open: p, Profile: paint.None,
			Physics: physics})
		model, _ = model.Update(tea.WindowSizeMsg{Width: 200, Height: 60})
		got := printed(t, home.Dir(), p.Stem)
		shows(t, model, fmt.Sprintf("wide %s of", short(got.Width)))
		for _, s := range got.Seasons {
			shows(t, model, fmt.Sprintf("%-6s %.1f %%", s.Name, s.EMC), signed(s.Width)+" mm")
		}
		for _, timber := range got.Timber {
			shows(t, model, fmt.Sprintf("%.2f  %.2f kg", timber.Rough/1000, timber.Mass))
		}
		for _, l := range got.Lines {
			shows(t, model, fmt.Sprintf("%d|%d ", l.Line, l.Line+1))
			if l.Step == nil {
				t.Fatalf("%s line %d has no figure", p.Stem, l.Line)
			}
			moves, gap := physics.Levels(*l.Step, *l.Strain, l.Gap)
			step := fmt.Sprintf("%.0f ±%.0f um %s, %s", *l.Step, *l.StepPM, *l.Season, moves)
			if *l.StepPM == 0 {
				step = fmt.Sprintf("%.0f um %s, %s", *l.Step, *l.Season, moves)
			}
			shows(t, model, step)
			if gap > moves {
				shows(t, model, fmt.Sprintf("gap %.1f %s", l.Gap, l.Level))
			}
			model, _ = model.Update(tea.KeyMsg{Type: tea.KeyDown})
		}
		if len(got.Lines) != len(p.Pattern.Strips)-1 {
			t.Errorf("%s: %d lines", p.Stem, len(got.Lines))
		}
	}
}

// printedCheck is what this test reads of check --json.
type printedCheck struct {
	Width   float64 `json:"glue_up_width_mm"`
	Seasons []struct {
		Name  string  `json:"name"`
		EMC   float64 `json:"emc_pct"`
		Width float64 `json:"width_change_mm"`
	} `json:"seasons"`
	Lines []struct {
		Line   int      `json:"line"`
		Step   *float64 `json:"step_um"`
		StepPM *float64 `json:"step_pm_um"`
		Strain *float64 `json:"strain_pct"`
		Gap    float64  `json:"moisture_gap_pct"`
		Season *string  `json:"season"`
		Level  string   `json:"level"`
	} `json:"glue_lines"`
	Timber []struct {
		Rough float64 `json:"rough_cm3"`
		Mass  float64 `json:"mass_kg"`
	} `json:"timber"`
}

func printed(t *testing.T, home, stem string) printedCheck {
	t.Helper()
	var out, errs bytes.Buffer
	code := cli.Run(context.Background(), []string{"check", "--json", "--home", home, stem}, command.Env{
		Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errs,
		Getenv: func(string) string { return "" }, IsTerminal: func() bool { return false },
	})
	if code > 1 {
		t.Fatalf("check %s: exit %d: %s", stem, code, errs.String())
	}
	var got printedCheck
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatalf("%v: %s", err, out.String())
	}
	return got
}

func shows(t *testing.T, model tea.Model, texts ...string) {
	t.Helper()
	frame := ansi.Strip(model.View())
	for _, text := range texts {
		if !strings.Contains(frame, text) {
			t.Errorf("the bench does not show %q:\n%s", text, frame)
		}
	}
}

// short prints millimetres to a tenth, as the screen does.
func short(mm float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", mm), ".0") }

func signed(mm float64) string {
	if text := short(mm); mm > 0 && text != "0" {
		return "+" + text
	} else if text == "-0" {
		return "0"
	} else {
		return text
	}
}
