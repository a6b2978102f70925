package document_test

import (
	"errors"
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
	saved.Version = store.Whatever
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
