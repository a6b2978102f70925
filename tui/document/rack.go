package document

import (
	"errors"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

// A Rack is the rack with its history and where it is saved. It is saved after every
// change: a pile is typed in one go, and undo has no limit.
type Rack struct {
	History rack.History
	Base    store.Version
	Demo    bool      // the demo's: changes are tried and not saved
	File    string    // a file that stands in for the home's: nothing is saved
	Saving  bool      // a save is under way; the next waits for its version
	sent    rack.Rack // what is being saved
}

// A RackSavedMsg says how saving the rack went.
type RackSavedMsg struct {
	Rack    rack.Rack
	Version store.Version
	Err     error
}

// A RackReadMsg brings the rack as another program left it.
type RackReadMsg RackSavedMsg

// Own reports whether the rack is the maker's own, which is saved.
func (r Rack) Own() bool { return !r.Demo && r.File == "" }

// Unsaved reports whether the maker's own rack has changes that are in no file.
func (r Rack) Unsaved() bool { return r.Own() && (r.Saving || r.History.Dirty()) }

// Save returns the rack with a save under way, and what makes that save.
func (r Rack) Save(files *store.Home) (Rack, func() RackSavedMsg) {
	r.Saving, r.sent = true, r.History.Now()
	return r, func() RackSavedMsg {
		version, err := files.SaveRack(r.sent, r.Base)
		return RackSavedMsg{r.sent, version, err}
	}
}

// TookSave returns the rack with the outcome of a save.
func (r Rack) TookSave(m RackSavedMsg) Rack {
	r.Saving = false
	if m.Err == nil {
		r.Base, r.History = m.Version, r.History.MarkSaved(m.Rack)
	}
	return r
}

// SaveLast saves the rack when the screen is gone. A save that was under way may have
// been done or not: to save the same again is right either way.
func (r Rack) SaveLast(files *store.Home) error {
	if !r.Unsaved() {
		return nil
	}
	base, err := r.Base, error(nil)
	if r.Saving {
		base, err = files.SaveRack(r.sent, base)
	}
	if err == nil {
		_, err = files.SaveRack(r.History.Now(), base)
	}
	if err != nil {
		return errors.Join(errors.New("changes on the rack were not saved and are lost"), err)
	}
	return nil
}
