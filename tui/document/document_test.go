package document_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
)

// changed is a document with a strip that is in no file.
func changed() document.Document {
	d := document.Document{Serial: 1, Stem: "trivet", Base: "before"}
	next := edit.New(pattern.Pattern{Strips: []pattern.Strip{{Species: "pear", Width: 20 * length.Millimetre}}})
	d.History = edit.NewHistory(edit.New(pattern.Pattern{})).Do("put in", next)
	return d
}

// A save counts only where it succeeded whole; what one that failed may have left in the
// file is noted, unless that is not known.
func TestTookSave(t *testing.T) {
	d := changed()
	saved := document.SavedMsg{Serial: 1, Stem: "trivet", Pattern: d.State().Pattern, Version: "after"}
	if got := d.TookSave(saved); got.Unsaved() || got.Base != "after" || got.Perhaps != "" {
		t.Errorf("saved: %+v", got)
	}
	saved.Err = errors.New("the disk is full")
	got := d.TookSave(saved)
	if !got.Unsaved() || got.Base != "before" || got.Perhaps != "after" {
		t.Errorf("a save that failed late: base %q, perhaps %q", got.Base, got.Perhaps)
	}
	saved.Version = store.Overwrite
	if got := d.TookSave(saved); got.Perhaps != "" || !got.Unsaved() {
		t.Errorf("a save that failed at once: %q", got.Perhaps)
	}
}

// A copy counts as kept only where it was written, and only for the revision that it holds.
func TestTook(t *testing.T) {
	d := changed()
	kept := document.KeptMsg{Serial: 1, Copy: "trivet", Revision: d.History.Revision()}
	if got := d.Took(kept); !got.UpToDate() || got.Copy != "trivet" {
		t.Errorf("kept: %+v", got)
	}
	kept.Err = errors.New("the disk is full")
	if d.Took(kept).UpToDate() {
		t.Error("what could not be kept counts as kept")
	}
	kept.Err, kept.Revision = nil, d.History.Revision()-1
	if d.Took(kept).UpToDate() {
		t.Error("a copy of an older revision counts")
	}
}

// What was going on is waited for at the end; where it panics it counts for nothing.
func TestSettled(t *testing.T) {
	d := changed()
	d.Saving = func() document.SavedMsg {
		return document.SavedMsg{Serial: 1, Stem: "trivet", Pattern: d.State().Pattern, Version: "after"}
	}
	if got := d.Settled(); got.Unsaved() || got.Saving != nil {
		t.Error("the save under way does not count")
	}
	d.Saving = func() document.SavedMsg { panic("a fault") }
	if got := d.Settled(); !got.Unsaved() || got.Saving != nil || got.Base != "before" {
		t.Error("a save that panicked counts")
	}
}

// Work without a file goes by the name of what has none, and is saved under a free one.
func TestSaveIn(t *testing.T) {
	home := store.OpenHome(t.TempDir())
	defer home.Close()
	if stem := (document.Document{}).RecoveryStem(); stem != store.Untitled {
		t.Errorf("it is kept as %q", stem)
	}
	p := pattern.Pattern{Name: "Trivet", Panel: pattern.Panel{Length: 300 * length.Millimetre, Thickness: 20 * length.Millimetre}}
	for _, want := range []string{"trivet", "trivet-2"} {
		stem := ""
		version, err := document.Document{}.SaveIn(home, &stem, p, store.Absent)
		if err != nil || stem != want || version == store.Absent {
			t.Errorf("saved under %q: %v", stem, err)
		}
	}
}

// unwritable is where nothing can be kept.
type unwritable struct{ document.Files }

func (unwritable) Keep(r store.Recovery) (string, error) { return r.Copy, store.ErrBusy }
func (unwritable) DropRecovery(string) error             { return store.ErrBusy }

// At the end work is kept beside where it cannot be kept in its copy; only where that
// fails too is it lost, and that is said.
func TestKeptLast(t *testing.T) {
	full := errors.New("the disk is full")
	for _, c := range []struct {
		name   string
		doc    document.Document
		beside error
		copy   string
		lost   string // what the error says of the work
	}{
		{"beside", changed(), nil, "trivet-2", ""},
		{"nowhere", changed(), full, "", "unsaved work on the bench is lost"},
		{"nowhere since", changed().Took(document.KeptMsg{Copy: "trivet", Revision: -1}), full, "trivet", "since the last recovery copy are lost"},
	} {
		asked := 0
		got, err := c.doc.KeptLast(unwritable{}, func(r store.Recovery) (string, error) {
			asked++
			if r.Stem != "trivet" || len(r.Pattern.Strips) != 1 || r.Base != "before" {
				t.Errorf("%s: kept %+v", c.name, r)
			}
			return "trivet-2", c.beside
		})
		if asked != 1 || got.Copy != c.copy || got.UpToDate() != (c.lost == "") || (err == nil) != (c.lost == "") {
			t.Errorf("%s: asked %d times, copy %q, %v", c.name, asked, got.Copy, err)
		}
		if err != nil && (!strings.Contains(err.Error(), c.lost) || !errors.Is(err, store.ErrBusy) || !errors.Is(err, full)) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	none := func(store.Recovery) (string, error) { t.Error("saved work is kept beside"); return "", nil }
	saved := document.Document{Stem: "trivet", Copy: "trivet", History: edit.NewHistory(edit.New(pattern.Pattern{})), Kept: -1}
	if _, err := saved.KeptLast(unwritable{}, none); !errors.Is(err, store.ErrBusy) {
		t.Errorf("a copy of saved work that stays: %v", err)
	}
}

// A copy that was written before keeping failed belongs to the document.
func TestTookACopyThatFailedLate(t *testing.T) {
	got := changed().Took(document.KeptMsg{Copy: "trivet", Revision: 1, Err: errors.New("input/output error")})
	if got.Copy != "trivet" || got.UpToDate() {
		t.Errorf("copy %q, kept %v", got.Copy, got.UpToDate())
	}
}
