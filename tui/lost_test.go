package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// ownHome starts on a home with a pattern and a rack of the maker's own.
func ownHome(t *testing.T) (*hand, *store.Home) {
	t.Helper()
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	home := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = home.Close() })
	s := Setup{Home: home, Rack: demo.Rack, Reckoner: movement.New(species.Builtin(), shop.Default()), Profile: paint.None}
	if s.RackFrom, err = home.SaveRack(demo.Rack, store.Absent); err != nil {
		t.Fatal(err)
	}
	for _, p := range demo.Patterns {
		if p.Version, err = home.SavePattern(p.Stem, p.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
		if s.Open.Stem == "" {
			s.Open = p
		}
	}
	return start(t, s, 80, 24), home
}

// held presses keys without running what they ask for, and gives that.
func (d *hand) held(names string) tea.Cmd {
	d.t.Helper()
	var all []tea.Cmd
	for name := range strings.FieldsSeq(names) {
		model, cmd := d.app.Update(key(name))
		d.app = model.(App)
		all = append(all, cmd)
	}
	return tea.Batch(all...)
}

func savedRack(t *testing.T, home *store.Home) rack.Rack {
	t.Helper()
	r, _, err := home.Rack(nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Leaving waits for what is being saved, on the bench and on the rack, and for the
// changes that came after it.
func TestQuitWaitsForSaves(t *testing.T) {
	d, home := ownHome(t)
	cmd := d.held("+ S q")
	if d.quit || !d.app.parting {
		t.Fatal("q does not wait for the save")
	}
	d.run(cmd)
	saved, err := home.Pattern(d.app.doc.stem, nil)
	if err != nil || !d.quit || d.app.doc.history.Dirty() || saved.Pattern.Width() != d.app.state().Pattern.Width() {
		t.Errorf("quit %v, saved %v wide, %v", d.quit, saved.Pattern.Width(), err)
	}

	d, home = ownHome(t)
	before := len(d.app.rack().Pieces)
	d.keys("tab down")
	cmd = d.held("t t q") // two more of a piece; the second waits for the first to be saved
	if d.quit {
		t.Fatal("q does not wait for the rack")
	}
	d.run(cmd)
	if got := len(savedRack(t, home).Pieces); got != before+2 || !d.quit {
		t.Errorf("quit %v, %d pieces saved, want %d", d.quit, got, before+2)
	}
}

// Ended by a signal, the program saves the rack itself, however far the save was.
func TestRackIsSavedAtTheEnd(t *testing.T) {
	for _, done := range []bool{false, true} {
		d, home := ownHome(t)
		before := len(d.app.rack().Pieces)
		d.keys("tab down")
		cmd := d.held("t")
		d.held("t")
		if done {
			cmd() // and its message never comes
		}
		if err := d.app.keepLast(nil); err != nil {
			t.Fatal(err)
		}
		if got := len(savedRack(t, home).Pieces); got != before+2 {
			t.Errorf("first save done %v: %d pieces saved, want %d", done, got, before+2)
		}
	}
}

// A rack that cannot be saved is told of when leaving; a second q leaves all the same.
func TestQuitTellsOfARackThatIsNotSaved(t *testing.T) {
	d, home := ownHome(t)
	file := filepath.Join(home.Dir(), "rack.toml")
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(file, 0o755); err != nil {
		t.Fatal(err)
	}
	d.keys("tab down t").shows("is a folder, and must be a file")
	d.keys("q")
	if d.quit {
		t.Fatal("the program leaves without a word")
	}
	d.shows("q again leaves all the same. Not saved: is a folder")
	d.keys("q")
	if !d.quit {
		t.Error("a second q does not leave")
	}
	if err := d.app.keepLast(nil); err == nil {
		t.Error("nothing is said of it at the end")
	}
}

// A save that comes back after another pattern came onto the bench leaves that alone.
func TestLateSaveLeavesTheBenchAlone(t *testing.T) {
	d, _ := ownHome(t)
	was := d.app.doc.stem
	cmd := d.held("+ S")
	d.keys("ctrl+n")
	d.run(cmd)
	if d.app.doc.stem != "" || d.app.doc.base != store.Absent {
		t.Errorf("the new pattern goes by %q now", d.app.doc.stem)
	}
	d.shows("saved as " + was)
}
