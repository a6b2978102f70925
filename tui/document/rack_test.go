package document_test

import (
	"errors"
	"testing"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
	"example.com/oddments/tui/screen/screentest"
)

// A rack counts as saved once its save came back, and what is changed meanwhile waits; the
// last save writes that too. A demo's rack and one that stands in are never saved.
func TestRackIsSaved(t *testing.T) {
	demo, _ := screentest.Read(t)
	home := store.OpenHome(t.TempDir())
	defer func() { _ = home.Close() }()
	r := document.Rack{History: rack.NewHistory(rack.Rack{}).Do("add", demo.Rack), Base: store.Absent}
	if !r.Own() || !r.Unsaved() {
		t.Fatal("a changed rack counts as saved")
	}
	r, save := r.Save(home)
	less, err := demo.Rack.Remove(demo.Rack.Pieces[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	r.History = r.History.Do("used up", less)
	failed := r.TookSave(document.RackSavedMsg{Err: errors.New("full")})
	if failed.Saving || !failed.Unsaved() || failed.Base != store.Absent {
		t.Error("a failed save counts")
	}
	if r = r.TookSave(save()); r.Saving || !r.Unsaved() || r.Base == store.Absent {
		t.Error("what was changed meanwhile counts as saved")
	}
	if err := r.SaveLast(home); err != nil {
		t.Fatal(err)
	}
	if there, _, err := home.Rack(nil); err != nil || len(there.Pieces) != len(less.Pieces) {
		t.Errorf("%d pieces are saved at the end, %v", len(there.Pieces), err)
	}
	for _, other := range []document.Rack{{Demo: true, History: r.History}, {File: "rack.toml", History: r.History}} {
		if other.Own() || other.Unsaved() || other.SaveLast(home) != nil {
			t.Errorf("%+v is saved", other)
		}
	}
}

// A booking is saved over the versions that it names, and taken back from those that it wrote.
func TestBookingIsTakenBack(t *testing.T) {
	demo, _ := screentest.Read(t)
	home := store.OpenHome(t.TempDir())
	defer func() { _ = home.Close() }()
	before := demo.Patterns[0].Pattern
	after := before
	after.Notes = "made"
	base, err := home.SavePattern("board", before, store.Absent)
	if err != nil {
		t.Fatal(err)
	}
	b := document.Booking{Rack: demo.Rack, Version: store.Absent, Patterns: []document.Booked{{Stem: "board", Before: before, After: after, Version: base}}}
	done := b.Save(home)
	if done.Err != nil || done.Version == store.Absent || done.Patterns[0].Version == base || b.Patterns[0].Version != base {
		t.Fatalf("saved as %+v", done)
	}
	if again := b.Back(rack.Rack{}).Save(home); !errors.Is(again.Err, store.ErrChanged) {
		t.Errorf("over versions that are gone: %v", again.Err)
	}
	back := b.Back(rack.Rack{}).Over(done).Save(home)
	if back.Err != nil || !back.Undone {
		t.Fatalf("undone: %+v", back)
	}
	if s, err := home.Pattern("board", nil); err != nil || s.Pattern.Notes != before.Notes {
		t.Errorf("the pattern is %q, %v", s.Pattern.Notes, err)
	}
}
