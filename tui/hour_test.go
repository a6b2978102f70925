package tui

import (
	"os"
	"path/filepath"
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
