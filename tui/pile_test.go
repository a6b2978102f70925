package tui

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/store"
)

// savedWants returns what orders.toml holds.
func savedWants(t *testing.T, home *store.Home) []orders.Want {
	t.Helper()
	wants, _, err := home.Orders(store.Against{})
	if err != nil {
		t.Fatal(err)
	}
	return wants
}

// typing returns the keys that type a line.
func typing(line string) string {
	return strings.Join(strings.Split(strings.ReplaceAll(line, " ", "*"), ""), " ")
}

// wantKeys types a want on the pile.
func wantKeys(line string) string {
	return strings.ReplaceAll("a "+typing(line)+" enter", "*", "space")
}

// Leaving right after a want is typed waits until it is in its file.
func TestQuitWaitsForWants(t *testing.T) {
	d, home := ownHome(t)
	d.keys("3")
	cmd := d.held(wantKeys("round 200 x 20 thick") + " " + wantKeys("round 120 x 20 thick") + " q") // the second waits for the first
	if d.quit || !d.app.quitPending {
		t.Fatal("q does not wait for the wants")
	}
	d.run(cmd)
	if got := savedWants(t, home); len(got) != 2 || !d.quit {
		t.Errorf("quit %v, %d wants saved", d.quit, len(got))
	}
}

// Ended by a signal, the program saves the wants itself, however far the save was.
func TestWantsAreSavedAtTheEnd(t *testing.T) {
	for _, done := range []bool{false, true} {
		d, home := ownHome(t)
		d.keys("3")
		cmd := d.held(wantKeys("round 200 x 20 thick"))
		d.held(wantKeys("round 120 x 20 thick"))
		if done {
			cmd() // and its message never comes
		}
		if err := d.app.keepLast(nil); err != nil {
			t.Fatal(err)
		}
		if got := savedWants(t, home); len(got) != 2 {
			t.Errorf("first save done %v: %d wants saved", done, len(got))
		}
	}
}

// Wants that cannot be saved are told of when leaving; a second q leaves all the same.
func TestQuitTellsOfWantsThatAreNotSaved(t *testing.T) {
	d, home := ownHome(t)
	d.keys("3")
	if err := os.Mkdir(filepath.Join(home.Dir(), "orders.toml"), 0o755); err != nil {
		t.Fatal(err)
	}
	d.keys(wantKeys("round 200 x 20 thick")).shows("is a folder, and must be a file")
	if d.keys("q"); d.quit {
		t.Fatal("the program leaves without a word")
	}
	d.shows("q again leaves anyway. Not saved: is a folder")
	if d.keys("q"); !d.quit {
		t.Error("a second q does not leave")
	}
	if err := d.app.keepLast(nil); err == nil || !strings.Contains(err.Error(), "not saved and are lost") {
		t.Errorf("said at the end: %v", err)
	}
}

// A file of wants that cannot be read is not written over.
func TestBrokenWantsAreKept(t *testing.T) {
	d, home := ownHome(t)
	file := filepath.Join(home.Dir(), "orders.toml")
	if err := os.WriteFile(file, []byte("format = \"oddments/orders 1\"\n[[want]]\nid = 3\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	d.keys("3").shows("orders.toml", "id").keys("a").shows("mend orders.toml first").hides(" > ")
	d.keys("esc 3 down").shows("Mend orders.toml, then come back: ")
	d.keys("q")
	if text, _ := os.ReadFile(file); !d.quit || !strings.Contains(string(text), "id = 3") {
		t.Errorf("quit %v; the file holds\n%s", d.quit, text)
	}
}

// All panels are taken, planned and brought back by one undo, whether on the pile, the plan or the
// bench; what was typed on the bench before is there again.
func TestTakeAllIsOneUndo(t *testing.T) {
	for _, at := range []string{"3", "1", "4", "6"} {
		d, _ := ownHome(t)
		d.keys("+ 3 " + wantKeys("rectangle 200 x 90 x 18 thick, up to 3") + " g")
		before, batch := d.app.state(), d.app.batch
		d.keys("t").shows("[PLAN]", "3 patterns, each made once: rectangle-1, ", "u undo", "strips   uses up")
		if d.app.doc.Stem != "rectangle-1" || len(d.app.batch.With) == 0 {
			t.Fatalf("on the bench lies %s, with %d", d.app.doc.Stem, len(d.app.batch.With))
		}
		d.keys(at + " u").shows("undone: take all")
		if got := d.app.state(); got.Pattern.Width() != before.Pattern.Width() || len(d.app.batch.With) != len(batch.With) {
			t.Errorf("after %s u on the bench lies a panel %v wide, with %d", at, got.Pattern.Width(), len(d.app.batch.With))
		}
		d.keys("1 u").shows("undone: wider").keys("u").shows("nothing to undo")
	}
}

// What was done on the pile since keeps its own undo steps; what the maker opens since is not
// taken off the bench.
func TestUndoOnTheBenchAfterMore(t *testing.T) {
	d, _ := ownHome(t)
	d.keys("3 " + wantKeys("rectangle 200 x 90 x 18 thick, up to 3") + " g t 3 + 1")
	d.shows("u undo").keys("u").shows("what was on the bench before is back")
	if d.app.doc.Stem == "rectangle-1" {
		t.Error("the panel is still on the bench")
	}
	if d.keys("3 u").shows("undone: bring back the bench"); d.app.doc.Stem != "rectangle-1" {
		t.Errorf("on the bench lies %s", d.app.doc.Stem)
	}
	d.keys("u").shows("undone: more").keys("u").shows("undone: take all").keys("U").shows("redone: take all")
	if d.app.doc.Stem != "rectangle-1" || len(d.app.batch.With) == 0 {
		t.Errorf("made again on the bench lies %s", d.app.doc.Stem)
	}
	d.keys("ctrl+n enter u").shows("nothing to undo").keys("3 u").shows("undone: take all")
	if d.app.doc.Stem != "" {
		t.Errorf("the new pattern made room for %s", d.app.doc.Stem)
	}
}

// Panels that are saved after they were taken count as saved, on the bench too; and a set is
// booked as it was taken.
func TestTakenSetIsSavedAndBooked(t *testing.T) {
	take := wantKeys("rectangle 200 x 90 x 18 thick, up to 3") + " g t "
	d, _ := ownHome(t)
	d.keys("3 " + take + "3 k").shows("saved ")
	if d.app.doc.Base == store.Absent || d.app.batch.With[0].Saved.Version == store.Absent {
		t.Error("what was saved counts as not saved")
	}
	d.keys("1 + S").shows("saved as rectangle-1")
	if d.keys("q"); !d.quit {
		t.Error("a saved set keeps the program")
	}

	d, home := ownHome(t)
	before := savedRack(t, home).Entries()
	d.keys("3 " + take + "q").shows("the set is not saved: k on the pile saves it, q again leaves anyway")
	if d.quit {
		t.Fatal("a set that is not saved is lost without a word")
	}
	d.keys("d").shows("booked")
	for _, stem := range []string{"rectangle-1", "rectangle-2"} {
		if s, err := home.Pattern(stem, nil); err != nil || len(s.Pattern.Made) != 1 {
			t.Errorf("%s: made %v: %v", stem, s.Pattern.Made, err)
		}
	}
	after := savedRack(t, home).Entries()
	d.keys("u").shows("undone: booking")
	if now := savedRack(t, home).Entries(); reflect.DeepEqual(after, before) || !reflect.DeepEqual(now, before) {
		t.Errorf("%v on the rack, %v after booking, %v undone", before, after, now)
	}
}
