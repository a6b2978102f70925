package opening_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/opening"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
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
	offer := found.Offer("Ctrl-o")
	text := screentest.Drawn(110, 30, func(c *paint.Canvas, r paint.Rect) { offer.Draw(c, r, ctx) })
	for _, want := range []string{"not saved: Half done", "Ctrl-o finds it", "give it up"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

// Work that is older than the file of its pattern never stands above that, neither in what is
// offered at the start nor in the list to open from; which is newer is said of both.
func TestOlderWorkStandsBelowTheFile(t *testing.T) {
	demo, _ := screentest.Read(t)
	home := store.OpenHome(t.TempDir())
	defer func() { _ = home.Close() }()
	board := demo.Patterns[0]
	first, err := home.SavePattern("board", board.Pattern, store.Absent)
	if err != nil {
		t.Fatal(err)
	}
	work := board.Pattern
	work.Notes = "tried"
	if _, err := home.Keep(store.Recovery{Stem: "board", Pattern: work, Base: first}); err != nil {
		t.Fatal(err)
	}
	ctx := screentest.Demo(t)
	drawn := func() (offer, list string) {
		found, err := opening.Find(home, nil)
		if err != nil {
			t.Fatal(err)
		}
		draw := func(l interface {
			Draw(*paint.Canvas, paint.Rect, screen.Context)
		}) string {
			return screentest.Drawn(110, 30, func(c *paint.Canvas, r paint.Rect) { l.Draw(c, r, ctx) })
		}
		return draw(found.Offer("Ctrl-o")), draw(found.List("", nil, length.InMM))
	}
	name := board.Pattern.Name
	offer, _ := drawn()
	if strings.Contains(offer, "newer, saved") {
		t.Errorf("the file that the work began with is offered:\n%s", offer)
	}
	saved := board.Pattern
	saved.Notes = "saved since"
	if _, err := home.SavePattern("board", saved, first); err != nil {
		t.Fatal(err)
	}
	at := func(kept, file time.Time) {
		for path, at := range map[string]time.Time{"recovery/board.toml": kept, "patterns/board.toml": file} {
			if err := os.Chtimes(filepath.Join(home.Dir(), path), at, at); err != nil {
				t.Fatal(err)
			}
		}
	}
	early, late := time.Date(2026, 11, 3, 9, 0, 0, 0, time.Local), time.Date(2026, 11, 4, 10, 0, 0, 0, time.Local)
	at(early, late)
	offer, list := drawn()
	row := func(text, want string) int { return screentest.RowOf(t, text, want) }
	if row(offer, "newer, saved 4 Nov 10:00") > row(offer, "older than the file, kept 3 Nov 09:00") {
		t.Errorf("older work is offered above the file:\n%s", offer)
	}
	if row(list, "> "+name) > row(list, "older than the file, kept 3 Nov 09:00") {
		t.Errorf("older work stands above the file:\n%s", list)
	}
	at(late, early)
	offer, list = drawn()
	if strings.Contains(offer, "newer, saved") || row(list, "newer than the file, kept 4 Nov 10:00") > row(list, "  "+name) {
		t.Errorf("newer work stands below the file:\n%s\n%s", offer, list)
	}
}
