// Package workshop is the maker's workshop as the screens change it: its file with its
// history, saved after every change, and the questions with which it begins.
//
// A File is a value. What writes it runs beside the screen and comes back as a SavedMsg.
package workshop

import (
	"errors"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/history"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/overlay/form"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/setup"
)

// A File is the workshop. Build one with New.
type File struct {
	history  history.Of[store.ShopFile]
	base     store.Version
	standsIn string // a file that stands in for the home's: nothing is changed
	demo     bool   // the demo's, until the maker's own begins
	saving   bool   // a save is under way; the next waits for its version
	sent     store.ShopFile
	turns    int // how often it became another
}

// A SavedMsg says how a save went, or brings what another program made of the file.
type SavedMsg struct {
	File    store.ShopFile
	Version store.Version
	Err     error
	Read    bool // it was not saved but read again
}

// New returns the workshop as it was read.
func New(s setup.Shop) File {
	return File{history: history.New(s.File), base: s.From, standsIn: s.StandsIn, demo: s.Demo}
}

// Shop returns the workshop that counts.
func (f File) Shop() shop.Shop { return f.history.Now().Shop() }

// Demo reports whether it is the demo's.
func (f File) Demo() bool { return f.demo }

// New reports whether there is no file of it yet.
func (f File) New() bool { return f.base == store.Absent }

// Turns returns a number that is another one after each change.
func (f File) Turns() int { return f.turns }

// CanUndo reports whether a change can be taken back.
func (f File) CanUndo() bool {
	_, ok := f.history.NextUndo()
	return ok
}

// Told returns what the screens are told of it.
func (f File) Told() screen.Workshop {
	return screen.Workshop{Settings: f.history.Now().Settings(), Demo: f.demo}
}

// Own returns the maker's own workshop in place of the demo's: nothing of that is taken
// over.
func (f File) Own() File {
	if f.demo {
		f.demo, f.history = false, history.New(store.ShopFile{})
		f.turns++
	}
	return f
}

func (f File) do(label string, next store.ShopFile) File {
	f.history = f.history.Do(label, next)
	f.turns++
	return f
}

// Set returns the maker's own workshop with a key as it was typed or built in, and says what it is
// now. Lengths without a unit are in u.
func (f File) Set(r screen.SetShop, u length.Unit) (next File, said string, err error) {
	if f.standsIn != "" {
		return f, "", errors.New("this workshop stands in from " + f.standsIn + " and is changed in that file")
	}
	if f.demo {
		said = "your own workshop begins: "
	}
	next = f.Own()
	file := next.history.Now()
	if r.BuiltIn {
		file, err = file.Unset(r.Setting)
	} else {
		file, err = file.Set(r.Setting, r.Typed, u)
	}
	if err != nil {
		return f, "", err
	}
	set, err := file.Setting(r.Setting.Key)
	said += set.Key + " is " + set.Shown(u) + " now"
	if r.BuiltIn {
		said += ", as built in"
	}
	return next.do(set.Key, file), said, err
}

// Undo takes the last change back, and says which.
func (f File) Undo() (next File, said string, err error) {
	return f.step(f.history.Undo, "taken back: ", "there is nothing to undo of the settings")
}

// Redo makes it again, likewise.
func (f File) Redo() (next File, said string, err error) {
	return f.step(f.history.Redo, "made again: ", "there is nothing to redo of the settings")
}

func (f File) step(way func() (history.Of[store.ShopFile], string, bool), did, none string) (File, string, error) {
	to, label, ok := way()
	if !ok {
		return f, none, nil
	}
	f.history = to
	f.turns++
	return f, did + label, nil
}

// Unsaved reports whether it has changes that are in no file.
func (f File) Unsaved() bool {
	return !f.demo && f.standsIn == "" && (f.saving || f.history.Dirty())
}

// Saving reports whether a save is under way.
func (f File) Saving() bool { return f.saving }

// Save saves what is not saved, one save at a time.
func (f File) Save(files *store.Home) (File, tea.Cmd) {
	if f.saving || !f.Unsaved() {
		return f, nil
	}
	f.saving, f.sent = true, f.history.Now()
	file, base := f.sent, f.base
	return f, func() tea.Msg {
		version, err := files.SaveShopFile(file, base)
		if errors.Is(err, store.ErrChanged) { // what another program wrote is not written over
			file, version, err = files.ShopFile()
			return SavedMsg{file, version, err, true}
		}
		return SavedMsg{file, version, err, false}
	}
}

// Took returns the workshop with the outcome of a save, and saves what came since.
func (f File) Took(m SavedMsg, files *store.Home) (File, tea.Cmd) {
	f.saving = false
	if m.Err != nil {
		return f, nil
	}
	f.base = m.Version
	if m.Read {
		f = f.do("read again", m.File)
	}
	f.history = f.history.MarkSaved(m.File)
	return f.Save(files)
}

// SaveLast saves the workshop when the screen is gone. A save that was under way may have
// been done or not.
func (f File) SaveLast(files *store.Home) error {
	if !f.Unsaved() {
		return nil
	}
	base := f.base
	if file, version, err := files.ShopFile(); err == nil && f.saving && file == f.sent {
		base = version
	}
	if _, err := files.SaveShopFile(f.history.Now(), base); err != nil {
		return errors.Join(errors.New("what was changed of the workshop is not saved, and lost"), err)
	}
	return nil
}

// Questions asks what is to be known of a workshop that begins; key is that of the
// settings.
func Questions(u length.Unit, key string) form.Page {
	usual := store.UsualBeginning()
	told := func(read func(string, length.Unit) (length.Length, error)) func(string) (string, error) {
		return func(typed string) (string, error) {
			l, err := read(typed, u)
			return l.With(u), err
		}
	}
	return form.New("Your own workshop begins",
		"The demo's figures do not count any more. Three answers, each the usual one; all else is built in, and the settings ("+key+") change it at any time.",
		[]form.Question{
			{Asks: fmt.Sprintf("How thick do you saw for a board of %s?", store.BeginsWith.With(u)), Text: usual.Sawn.Typed(u), Read: told(store.ReadSawn)},
			{Asks: "How much longer than the board do you cut strips?", Text: usual.Longer.Typed(u), Read: told(store.ReadLonger)},
			{Asks: "Millimetres or inches? mm or in", Text: u.String(), Read: func(typed string) (string, error) {
				unit, err := length.ParseUnit(typed)
				return unit.String(), err
			}},
		})
}

// Answered returns the maker's own workshop as the Questions were answered.
func (f File) Answered(texts []string, u length.Unit) (File, error) {
	var b store.Beginning
	var wrong [3]error
	b.Sawn, wrong[0] = store.ReadSawn(texts[0], u)
	b.Longer, wrong[1] = store.ReadLonger(texts[1], u)
	b.Units, wrong[2] = length.ParseUnit(texts[2])
	if err := errors.Join(wrong[:]...); err != nil {
		return f, err
	}
	file, err := b.ShopFile()
	if err != nil {
		return f, err
	}
	return f.Own().do("your own workshop", file), nil
}
