package tui

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.com/oddments/tui/keymap"
)

// What the chosen action of the search does is said in whole.
func TestSearchSaysWhatActionsDoInWhole(t *testing.T) {
	d := onDemo(t, 80, 24)
	for _, a := range d.app.keys.Actions() {
		if a.Place() == keymap.InLists || d.app.hidden(a.Place()) {
			continue
		}
		s := d.keys("/").text(a.Does).keys("down").screen()
		if !strings.Contains(strings.Join(strings.Fields(s), " "), a.Name+": "+a.Does+" ") {
			t.Errorf("%s: the search cuts %q off", a.ID, a.Does)
		}
		d.keys("esc")
	}
}

// cutCare finds a row that asks for care, or says what a key does, and is cut off.
var cutCare = regexp.MustCompile(`(?m)^.*(take care|too much|caution|Enter |look at |check end|check the end|ask for |more: ).*~ *$`)

// No caution and nothing that a key does is cut off at 80x24: on any screen of the demo's
// patterns, at any of their strips, nor in any picture that is kept.
func TestNoCautionIsCutOff(t *testing.T) {
	files, err := filepath.Glob("testdata/*/*80x24.golden")
	if err != nil || len(files) < 25 {
		t.Fatal(len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if row := cutCare.Find(text); row != nil {
			t.Errorf("%s: %s", file, row)
		}
	}
	for _, name := range []string{"rookery", "saltings", "candle"} {
		d := onDemo(t, 80, 24).keys("ctrl+o").text(name).keys("enter")
		for range d.app.state().Pattern.Strips {
			for _, screen := range strings.Split("1234567", "") {
				if row := cutCare.FindString(d.keys(screen).screen()); row != "" {
					t.Errorf("%s, screen %s: %s", name, screen, row)
				}
			}
			next, _ := d.app.keys.ByID("select-right")
			d.keys("1 " + next.Keys[0])
		}
	}
}
