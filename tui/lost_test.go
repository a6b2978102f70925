package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/document"
	"example.com/oddments/tui/paint"
)

// ownHome starts on a home with a pattern and a rack of the maker's own.
func ownHome(t *testing.T) (*hand, *store.Home) {
	t.Helper()
	home := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = home.Close() })
	return ownHomeAt(t, home, nil)
}

// ownHomeAt starts on a home again, which has these recovery copies.
func ownHomeAt(t *testing.T, home *store.Home, kept []store.Recovery) (*hand, *store.Home) {
	t.Helper()
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	s := Setup{Home: home, Rack: demo.Rack, Physics: movement.New(species.Builtin(), shoptest.Roomy()), Profile: paint.None, Kept: kept}
	if s.RackFrom, err = home.SaveRack(demo.Rack, store.Overwrite); err != nil {
		t.Fatal(err)
	}
	for _, p := range demo.Patterns {
		if p.Version, err = home.SavePattern(p.Stem, p.Pattern, store.Overwrite); err != nil {
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
	if d.quit || !d.app.quitPending {
		t.Fatal("q does not wait for the save")
	}
	d.run(cmd)
	saved, err := home.Pattern(d.app.doc.Stem, nil)
	if err != nil || !d.quit || d.app.doc.History.Dirty() || saved.Pattern.Width() != d.app.state().Pattern.Width() {
		t.Errorf("quit %v, saved %v wide, %v", d.quit, saved.Pattern.Width(), err)
	}

	d, home = ownHome(t)
	before := len(d.app.rack.History.Now().Pieces)
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
		before := len(d.app.rack.History.Now().Pieces)
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
	d.shows("q again leaves anyway. Not saved: is a folder")
	d.keys("q")
	if !d.quit {
		t.Error("a second q does not leave")
	}
	if err := d.app.keepLast(nil); err == nil {
		t.Error("nothing is said of it at the end")
	}
}

// What takes the bench while a save is under way waits for it: the change is in the file,
// and is not offered as work that was not saved.
func TestLeavingWaitsForTheSave(t *testing.T) {
	d, home := ownHome(t)
	was, wide := d.app.doc.Stem, d.app.state().Pattern.Width()
	cmd := d.held("+ S")
	d.keys("ctrl+n enter")
	if d.app.doc.Stem != was {
		t.Fatal("the pattern leaves the bench before it is saved")
	}
	d.run(cmd)
	if d.app.doc.Stem != "" || d.app.doc.Base != store.Absent {
		t.Errorf("the new pattern goes by %q", d.app.doc.Stem)
	}
	saved, err := home.Pattern(was, nil)
	if err != nil || saved.Pattern.Width() == wide || len(copies(t, home)) != 0 {
		t.Errorf("saved %v wide, kept %v, %v", saved.Pattern.Width(), copies(t, home), err)
	}
}

// A save that comes back after another pattern came onto the bench leaves that alone.
func TestLateSaveLeavesTheBenchAlone(t *testing.T) {
	d, _ := ownHome(t)
	late := document.SavedMsg{Serial: d.app.doc.Serial, Stem: d.app.doc.Stem, Version: d.app.doc.Base, Pattern: d.app.state().Pattern}
	d.keys("ctrl+n enter").send(late)
	if d.app.doc.Stem != "" || d.app.doc.Base != store.Absent {
		t.Errorf("the new pattern goes by %q now", d.app.doc.Stem)
	}
	d.shows("saved as " + late.Stem)
}

// copies returns the strips of each recovery copy of a home, by what it goes by.
func copies(t *testing.T, home *store.Home) map[string]int {
	t.Helper()
	kept, err := home.Recoveries(nil)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]int{}
	for _, r := range kept {
		all[r.Copy] = len(r.Pattern.Strips)
	}
	return all
}

// Patterns that have no name yet are kept each for itself, and each comes back.
func TestEveryNewPatternIsKept(t *testing.T) {
	d, home := ownHome(t)
	d.keys("ctrl+n enter a enter").aSecond().keys("ctrl+n enter a enter t t").aSecond().keys("ctrl+n enter a enter t t t t t")
	d.aSecond()
	if got := copies(t, home); len(got) != 3 || got["untitled"] != 1 || got["untitled-2"] != 3 || got["untitled-3"] != 6 {
		t.Fatalf("kept %v", got)
	}
	d.keys("ctrl+o").shows("bring back untitled").text("bring back").keys("enter")
	if n := len(d.app.state().Pattern.Strips); n != 1 {
		t.Fatalf("%d strips are brought back", n)
	}
	d.keys("t").aSecond()
	if got := copies(t, home); len(got) != 3 || got["untitled"] != 2 {
		t.Errorf("brought back and changed: kept %v", got)
	}
	d.keys("N").text("Larch").keys("enter S").aSecond()
	if got := copies(t, home); len(got) != 2 || got["untitled"] != 0 {
		t.Errorf("saved: kept %v", got)
	}
}

// Work that is left for later stays, whatever is done to the same pattern meanwhile;
// given up it is not offered again.
func TestWorkLeftForLaterStays(t *testing.T) {
	d, home := ownHome(t)
	d.keys("+ + +").aSecond()
	kept, err := home.Recoveries(nil)
	if err != nil || len(kept) != 1 {
		t.Fatal(kept, err)
	}
	d, _ = ownHomeAt(t, home, kept)
	d.shows("unsaved work from last time").keys("down enter")
	d.keys("x").aSecond()
	if got := copies(t, home); len(got) != 2 || got[kept[0].Copy] != len(kept[0].Pattern.Strips) {
		t.Errorf("kept %v", got)
	}
	kept, err = home.Recoveries(nil)
	if err != nil {
		t.Fatal(err)
	}
	d, _ = ownHomeAt(t, home, kept)
	d.shows("it stays as .bak").text("discard").keys("down down down enter") // letters hide no answer
	if got := copies(t, home); len(got) != 0 {
		t.Errorf("given up, and kept %v", got)
	}
	if _, err := os.Stat(filepath.Join(home.Dir(), "recovery", kept[0].Copy+".toml.bak")); err != nil {
		t.Error(err)
	}
}

// What cannot be kept stays on the bench; asked once more it makes room.
func TestNothingTakesThePlaceOfWhatIsNotKept(t *testing.T) {
	for _, keys := range []string{"ctrl+n enter", "ctrl+o enter"} {
		d, home := ownHome(t)
		other := heldByAnother(t, home)
		d.keys("x x x")
		n := len(d.app.state().Pattern.Strips)
		d.keys(keys).shows("press again to leave anyway. Not kept")
		if len(d.app.state().Pattern.Strips) != n {
			t.Errorf("%s: the work is gone", keys)
		}
		d.keys(keys)
		if len(d.app.state().Pattern.Strips) == n {
			t.Errorf("%s: asked again, it stays", keys)
		}
		if err := other.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// Leaving while the copy is being written waits for it, and makes no second one.
func TestOneCopyAtATime(t *testing.T) {
	for _, keys := range []string{"q", "ctrl+n enter"} {
		d, home := ownHome(t)
		d.keys("x")
		model, cmd := d.app.Update(keepMsg{})
		d.app = model.(App)
		d.keys(keys)
		if d.quit || len(d.app.state().Pattern.Strips) == 0 {
			t.Fatalf("%s does not wait for the copy", keys)
		}
		d.run(cmd)
		if got := copies(t, home); len(got) != 1 || !d.quit && len(d.app.state().Pattern.Strips) != 0 {
			t.Errorf("%s: kept %v, quit %v", keys, got, d.quit)
		}
	}
}
