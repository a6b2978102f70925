package tui

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
)

// racks is the rack with its history and where it is saved. It is saved after every
// change: a pile is typed in one go, and undo has no limit.
type racks struct {
	history rack.History
	base    store.Version
	demo    bool      // the demo's: changes are tried and not saved
	file    string    // a file that stands in for the home's: nothing is saved
	saving  bool      // a save is under way; the next waits for its version
	sent    rack.Rack // what is being saved
}

func newRacks(s Setup) racks {
	return racks{history: rack.NewHistory(s.Rack), base: s.RackFrom, file: s.RackFile,
		demo: len(s.Demo) > 0 && s.RackFrom == store.Absent && s.RackFile == ""}
}

type rackSavedMsg struct {
	rack    rack.Rack
	version store.Version
	err     error
}

// changeRack makes a rack the rack, as one undo step, and saves it.
func (a App) changeRack(r screen.EditRack) (App, tea.Cmd) {
	if a.racks.demo && r.Own { // the maker's own begins here
		a.racks.demo, a.racks.history = false, rack.NewHistory(rack.Rack{})
	}
	a.racks.history = a.racks.history.Do(a.action, r.Next)
	return a.rackChanged()
}

// rackChanged saves the rack and tells the screens of it.
func (a App) rackChanged() (App, tea.Cmd) {
	a, save := a.saveRack()
	a, told := a.tellAll(screen.RackChanged{})
	return a, tea.Batch(save, told)
}

// saveRack saves the rack where it is the maker's own, one save at a time.
func (a App) saveRack() (App, tea.Cmd) {
	switch {
	case a.racks.demo:
		return a.say("tried on the demo's rack, which is not saved; " + a.keys.KeyOf(keymap.RackAdd) + " begins your own"), nil
	case a.racks.file != "":
		return a.say("this rack stands in from " + a.racks.file + " and is not saved"), nil
	case a.racks.saving || !a.racks.history.Dirty():
		return a, nil
	}
	a.racks.saving, a.racks.sent = true, a.racks.history.Now()
	files, r, base := a.files, a.racks.history.Now(), a.racks.base
	return a, func() tea.Msg {
		version, err := files.SaveRack(r, base)
		return rackSavedMsg{r, version, err}
	}
}

func (a App) rackSaved(m rackSavedMsg) (App, tea.Cmd) {
	a.racks.saving = false
	if errors.Is(m.err, store.ErrChanged) {
		a.parting = false
		return a.askRackOver(), nil
	}
	if m.err != nil {
		return a.fail(m.err).part(nil, m.err)
	}
	a.racks.base = m.version
	a.racks.history = a.racks.history.MarkSaved(m.rack)
	a, cmd := a.saveRack()
	return a.part(cmd, nil)
}

// unsaved reports whether the maker's own rack has changes that are in no file.
func (r racks) unsaved() bool { return !r.demo && r.file == "" && (r.saving || r.history.Dirty()) }

// saveLast saves the rack when the screen is gone. A save that was under way may have
// been done or not: to save the same again is right either way.
func (r racks) saveLast(files *store.Home) error {
	if !r.unsaved() {
		return nil
	}
	base, err := r.base, error(nil)
	if r.saving {
		base, err = files.SaveRack(r.sent, base)
	}
	if err == nil {
		_, err = files.SaveRack(r.history.Now(), base)
	}
	if err != nil {
		return errors.Join(errors.New("what was changed on the rack is not saved, and lost"), err)
	}
	return nil
}

// askRackOver asks which rack to keep when another program changed the file.
func (a App) askRackOver() App {
	const what = "another program changed rack.toml"
	list := choose.New(what, "", []choose.Item{
		{Name: "read the other one", Detail: "undo brings this one back", Value: underAnother},
		{Name: "save this one over it", Detail: "the other stays as .bak", Value: overTheirs},
	}).Answers()
	return a.askWhenFree(what, func(App) bool { return true }, list, func(a App, value any) (App, tea.Cmd) {
		if value == overTheirs {
			a.racks.base = store.Overwrite
			return a.saveRack()
		}
		files, known := a.files, a.physics.Table()
		return a, func() tea.Msg {
			r, version, err := files.Rack(known)
			return rackReadMsg{r, version, err}
		}
	})
}

// A rackReadMsg brings the rack as another program left it.
type rackReadMsg rackSavedMsg

func (a App) rackRead(m rackReadMsg) (App, tea.Cmd) {
	if m.err != nil {
		return a.fail(m.err), nil
	}
	a.racks.base = m.version
	a.racks.history = a.racks.history.Do("read again", m.rack).MarkSaved(m.rack)
	a, cmd := a.tellAll(screen.RackChanged{})
	return a.say("read rack.toml again"), cmd
}

func (a App) undoRack() (App, tea.Cmd) {
	history, label, ok := a.racks.history.Undo()
	if !ok {
		return a.say("there is nothing to undo on the rack"), nil
	}
	a.racks.history = history
	a, cmd := a.rackChanged()
	return a.say("taken back: " + label), cmd
}

func (a App) redoRack() (App, tea.Cmd) {
	history, label, ok := a.racks.history.Redo()
	if !ok {
		return a.say("there is nothing to redo on the rack"), nil
	}
	a.racks.history = history
	a, cmd := a.rackChanged()
	return a.say("made again: " + label), cmd
}
