package tui

import (
	"cmp"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

// firstHour is all that a newcomer presses from an empty home to a sheet: a pile of twelve
// pieces as they would call them, three answers, a board, a layout, a plan. What stands in
// quotes is typed letter by letter, and the rest are keys.
const firstHour = `
2 a
"walnut 620 85 40" enter 1
"walnut 540 70 40" enter
"walnut 450 60 35" enter
"maple 700 90 40" enter 1
"maple 640 80 40" enter
"maple 500 75 35 split 0-40" enter
"ash 800 95 40" enter 1
"ash 620 80 40" enter
"ash 560 70 35" enter
"pear 600 85 40" enter
"pear 520 70 40" enter
"pear 480 65 35" enter
esc
enter enter enter
ctrl+n "450 x 250 x 22" enter esc
v enter
3
B enter
`

// mostKeys is how many keys that may take.
const mostKeys = 260

// From an empty home to a sheet on paper is no more than 260 keys: the pile is typed, the
// board is laid out of it, planned whole and written.
func TestNewcomerNeedsFewKeys(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	home := filepath.Join(dir, "home")
	d := inHome(t, home, Options{})
	pressed := 0
	for i, part := range strings.Split(firstHour, `"`) {
		if i%2 == 1 {
			d.text(part)
			pressed += len(part)
			continue
		}
		for _, k := range strings.Fields(part) {
			d.keys(k)
			pressed++
		}
	}
	t.Logf("%d keys", pressed)
	if pressed > mostKeys {
		t.Errorf("%d keys, at most %d", pressed, mostKeys)
	}
	r, _, err := d.app.files.Rack(species.Builtin())
	if err != nil || len(r.Pieces) != 12 || r.Pieces[11].Species != "pear" || r.Pieces[5].Faults[0].Kind != "split" {
		t.Errorf("on the rack lies %+v, %v", r.Pieces, err)
	}
	p := d.app.state().Pattern
	if width := p.Width().MM(); len(p.Strips) < 5 || width < 246 || width > 254 {
		t.Errorf("%d strips, %.1f mm wide", len(p.Strips), width)
	}
	if !d.app.plan.Have || d.app.plan.Plan.Short > 0 || d.app.plan.Of != d.app.stamp() {
		t.Errorf("the plan is of %+v, %d short", d.app.plan.Of, d.app.plan.Plan.Short)
	}
	sheets, err := filepath.Glob(filepath.Join(dir, "*.html"))
	if err != nil || len(sheets) != 1 {
		t.Fatalf("sheets %v, %v; the screen is\n%s", sheets, err, d.screen())
	}
	if text, err := os.ReadFile(sheets[0]); err != nil || !strings.Contains(string(text), "walnut") {
		t.Errorf("the sheet has no walnut: %v", err)
	}
	if f, _, err := d.app.files.ShopFile(); err != nil || f == (store.ShopFile{}) {
		t.Errorf("the workshop is not begun: %v", err)
	}
}

// plays makes the steps of a script, as cmd/oddments does at a terminal.
func (d *hand) plays(file string) {
	d.t.Helper()
	script, err := os.ReadFile(file)
	if err != nil {
		d.t.Fatal(err)
	}
	for i, step := range strings.Split(string(script), "\n") {
		verb, rest, _ := strings.Cut(step, ":")
		switch {
		case step == "" || step[0] == '#' || step == "quiet":
		case verb == "text":
			d.text(rest)
		case verb == "waitfor", verb == "expect", verb == "absent":
			if regexp.MustCompile(rest).MatchString(d.screen()) == (verb == "absent") {
				d.t.Fatalf("line %d, %s:\n%s", i+1, step, d.screen())
			}
		case verb == "exit":
			if !d.quit {
				d.t.Fatalf("line %d: the program goes on:\n%s", i+1, d.screen())
			}
		default:
			names := map[string]string{"Enter": "enter", "Escape": "esc", "Tab": "tab", "BTab": "shift+tab", "Home": "home", "Down": "down"}
			letter, control := strings.CutPrefix(step, "C-")
			if control {
				letter = "ctrl+" + letter
			}
			d.keys(cmp.Or(names[step], letter))
		}
	}
}

// From a typed pile to the sheet of a market's boards and their booking, by the script that is played
// at a terminal too.
func TestMarketHour(t *testing.T) {
	script, err := filepath.Abs("../testdata/market.steps")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	t.Chdir(dir)
	home := filepath.Join(dir, "home")
	inHome(t, home, Options{}).plays(script)
	if sheet, err := os.ReadFile(filepath.Join(dir, "market.html")); err != nil || !strings.Contains(string(sheet), "dish-1") {
		t.Errorf("the sheet of the set: %v", err)
	}
	for _, file := range []string{"orders.toml", "rack.toml", "shop.toml", "patterns/tray-1.toml", "patterns/dish-2.toml"} {
		if _, err := os.Stat(filepath.Join(home, file)); err != nil {
			t.Error(err)
		}
	}
}
