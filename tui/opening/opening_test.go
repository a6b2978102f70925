package opening_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/opening"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
)

// What can be opened is kept work, saved patterns and the demo's; a file that cannot be read
// is listed and says why, and what lies on the bench is not listed once more.
func TestList(t *testing.T) {
	demo, _ := screentest.Read(t)
	home := store.OpenHome(t.TempDir())
	defer func() { _ = home.Close() }()
	for _, s := range demo.Patterns[:2] {
		if _, err := home.SavePattern(s.Stem, s.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
	}
	broken := filepath.Join(home.Dir(), "patterns", "broken.toml")
	if err := os.WriteFile(broken, []byte("format = 1\nnonsense = 2\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	work := demo.Patterns[2].Pattern
	work.Name = "Half done"
	copied, err := home.Keep(store.Recovery{Stem: "half-done", Pattern: work})
	if err != nil {
		t.Fatal(err)
	}
	found, err := opening.Find(home, nil)
	if err != nil {
		t.Fatal(err)
	}
	ctx := screentest.Demo(t)
	draw := func(onBench string) string {
		l := found.List(onBench, demo.Patterns[2:3], length.InMM)
		return screentest.Drawn(110, 30, func(c *paint.Canvas, r paint.Rect) { l.Draw(c, r, ctx) })
	}
	for _, want := range []string{"not saved: Half done", "kept ", "broken.toml", "cannot be read: line 1: ", demo.Patterns[0].Pattern.Name, demo.Patterns[2].Pattern.Name} {
		if !strings.Contains(draw(""), want) {
			t.Errorf("no %q in\n%s", want, draw(""))
		}
	}
	if strings.Contains(draw(copied), "Half done") {
		t.Errorf("what lies on the bench is offered:\n%s", draw(copied))
	}
	others, err := opening.Others(home, nil, demo.Patterns[2:3], demo.Patterns[0].Stem)
	if err != nil || len(others) != 2 || others[0].Stem != demo.Patterns[1].Stem || others[1].Stem != demo.Patterns[2].Stem {
		t.Errorf("others: %v, %v", others, err)
	}
	offer := opening.Offer(found.Kept, "Ctrl-o")
	text := screentest.Drawn(110, 30, func(c *paint.Canvas, r paint.Rect) { offer.Draw(c, r, ctx) })
	for _, want := range []string{"not saved: Half done", "Ctrl-o finds it", "give it up"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}
