// Package document is what the program saves: the pattern on the bench as a document (where
// it came from, what of it is saved and kept, and how it is written), the rack, and bookings,
// which change both.
//
// All of them are values. What writes them runs beside the screen and is asked for its
// outcome once; what came of it is taken over by Took and TookSave. Only a save that
// succeeded whole makes a document or rack count as saved.
package document

import (
	"errors"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
)

// Files is where a document is saved and kept: the home.
type Files interface {
	FreeStem(name string) (string, error)
	SavePattern(stem string, p pattern.Pattern, base store.Version) (store.Version, error)
	Keep(store.Recovery) (string, error)
	DropRecovery(stem string) error
}

// A Document is the pattern on the bench with where it came from.
type Document struct {
	Serial  int             // each that comes onto the bench has the next
	Saving  func() SavedMsg // of a save under way, how it went; nil: there is none
	Stem    string          // empty: never saved
	File    string          // a file outside the home; empty: the stem's
	Base    store.Version
	Perhaps store.Version // what a save that failed may have left in the file
	History edit.History
	Kept    int            // the revision that the recovery copy holds
	Copy    string         // what that goes by; empty: there is none
	Keeping func() KeptMsg // while it is being written, how that went; nil: it is not
}

// A KeptMsg says how keeping a document went.
type KeptMsg struct {
	Serial   int    // of the document that was kept
	Copy     string // what its recovery copy goes by now; empty: it has none
	Revision int
	Err      error
	Quitting bool
	Again    bool // it was tried again by itself, after it had failed
}

// A SavedMsg says how a save went.
type SavedMsg struct {
	Serial  int // of the document that was saved
	Stem    string
	File    string
	Pattern pattern.Pattern // as it was written
	Version store.Version
	Err     error
}

// State returns what lies on the bench.
func (d Document) State() edit.State { return d.History.Now() }

// RecoveryStem is the stem that the document's work goes by where it is kept or planned.
func (d Document) RecoveryStem() string {
	if d.Stem == "" {
		return store.Untitled
	}
	return d.Stem
}

// UpToDate reports whether the recovery copy holds the work, or is away where nothing
// would be lost.
func (d Document) UpToDate() bool {
	return d.Kept == d.History.Revision() && (d.Unsaved() || d.Copy == "")
}

// Unsaved reports whether work would be lost if the program ended now.
func (d Document) Unsaved() bool { return d.History.Dirty() || len(d.History.Now().Tray) > 0 }

// KeepIn writes the document's recovery copy, or takes it away where nothing would
// be lost, and returns what the copy goes by.
func (d Document) KeepIn(files Files) (string, error) {
	switch {
	case d.Unsaved():
		return files.Keep(d.recovery())
	case d.Copy == "":
		return "", nil
	default:
		return "", files.DropRecovery(d.Copy)
	}
}

func (d Document) recovery() store.Recovery {
	s := d.History.Now()
	return store.Recovery{Copy: d.Copy, Stem: d.RecoveryStem(), Pattern: s.Pattern, Tray: s.Tray, Base: d.Base}
}

// KeptLast returns the document kept once more, when nobody can try it again. Where its copy
// cannot be written, as in a home that another oddments holds, beside writes one of its
// own. Where that fails too the error says that work is lost.
func (d Document) KeptLast(files Files, beside func(store.Recovery) (string, error)) (Document, error) {
	if d.UpToDate() {
		return d, nil
	}
	m := KeptMsg{Revision: d.History.Revision()}
	m.Copy, m.Err = d.KeepIn(files)
	if m.Err == nil || !d.Unsaved() {
		return d.Took(m), m.Err
	}
	d = d.Took(m)
	why := m.Err
	if m.Copy, m.Err = beside(d.recovery()); m.Err == nil {
		return d.Took(m), nil
	}
	lost := errors.New("unsaved work on the bench is lost")
	if d.Copy != "" {
		lost = errors.New("changes on the bench since the last recovery copy are lost")
	}
	return d, errors.Join(lost, why, m.Err)
}

// Took returns the document with the outcome of keeping it. One that failed may have left a
// copy all the same, which is the document's then.
func (d Document) Took(m KeptMsg) Document {
	d.Keeping = nil
	switch {
	case m.Err == nil:
		d.Kept, d.Copy = m.Revision, m.Copy
	case m.Copy != "":
		d.Copy = m.Copy
	}
	return d
}

// SaveIn saves p where the document lies; where it lies nowhere, under a free stem.
func (d Document) SaveIn(files Files, stem *string, p pattern.Pattern, base store.Version) (v store.Version, err error) {
	switch {
	case d.File != "":
		return store.SavePatternFile(d.File, p, base)
	case d.Stem != "":
		return files.SavePattern(d.Stem, p, base)
	}
	if *stem, err = files.FreeStem(p.Name); err != nil {
		return store.Absent, err
	}
	return files.SavePattern(*stem, p, store.Absent)
}

// TookSave returns the document with the outcome of a save. One that failed leaves it as
// it was: what is on the bench is in no file, and its recovery copy stays. Only what the
// file may hold all the same is noted, so that it is not taken for another's change.
func (d Document) TookSave(m SavedMsg) Document {
	d.Saving = nil
	if m.Err != nil {
		if m.Version != store.Overwrite {
			d.Perhaps = m.Version
		}
		return d
	}
	d.Stem, d.File, d.Base, d.Perhaps = m.Stem, m.File, m.Version, ""
	d.History = d.History.MarkSaved(edit.New(m.Pattern))
	return d
}

// Settled returns the document once what was being saved and kept of it has ended. Where
// that panics the document counts as neither, and is kept anew.
func (d Document) Settled() (after Document) {
	saving, keeping := d.Saving, d.Keeping
	d.Saving, d.Keeping = nil, nil
	after = d
	defer func() { _ = recover() }()
	if saving != nil {
		after = after.TookSave(saving())
	}
	if keeping != nil {
		after = after.Took(keeping())
	}
	return after
}
