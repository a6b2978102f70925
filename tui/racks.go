package tui

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/settings"
	"example.com/oddments/tui/workshop"
)

func newRack(s Setup) document.Rack {
	return document.Rack{History: rack.NewHistory(s.Rack), Base: s.RackFrom, File: s.RackFile,
		Demo: len(s.Demo) > 0 && s.RackFrom == store.Absent && s.RackFile == ""}
}

// changeRack makes a rack the rack, as one undo step, and saves it.
func (a App) changeRack(r screen.EditRack) (App, tea.Cmd) {
	if a.rack.Demo && r.Own { // the maker's own begins here
		a.rack.Demo, a.rack.History = false, rack.NewHistory(rack.Rack{})
	}
	a.rack.History = a.rack.History.Do(a.action, r.Next)
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
	case a.rack.Demo:
		return a.say("changed on the demo rack only (not saved); " + a.keys.KeyOf(keymap.RackAdd) + " starts your own rack"), nil
	case a.rack.File != "":
		return a.say("this rack is read from " + a.rack.File + " and is not saved"), nil
	case a.rack.Saving || !a.rack.History.Dirty():
		return a, nil
	}
	var save func() document.RackSavedMsg
	a.rack, save = a.rack.Save(a.files)
	return a, func() tea.Msg { return save() }
}

func (a App) rackSaved(m document.RackSavedMsg) (App, tea.Cmd) {
	a.rack = a.rack.TookSave(m)
	switch {
	case errors.Is(m.Err, store.ErrChanged):
		a.quitPending = false
		return a.askRackOver(), nil
	case m.Err != nil:
		return a.fail(m.Err).resumeQuit(nil, m.Err)
	}
	a, cmd := a.saveRack()
	return a.resumeQuit(cmd, nil)
}

// askRackOver asks which rack to keep when another program changed the file.
func (a App) askRackOver() App {
	const what = "rack.toml was changed elsewhere"
	list := choose.New(what, "", []choose.Item{
		{Name: "read the other change", Detail: "undo brings yours back", Value: underAnother},
		{Name: "overwrite it with yours", Detail: "the other stays as .bak", Value: overTheirs},
	}).Answers()
	return a.askWhenFree(what, func(App) bool { return true }, list, func(a App, value any) (App, tea.Cmd) {
		if value == overTheirs {
			a.rack.Base = store.Overwrite
			return a.saveRack()
		}
		files, known := a.files, a.physics.Table()
		return a, func() tea.Msg {
			r, version, err := files.Rack(known)
			return document.RackReadMsg{Rack: r, Version: version, Err: err}
		}
	})
}

func (a App) rackRead(m document.RackReadMsg) (App, tea.Cmd) {
	if m.Err != nil {
		return a.fail(m.Err), nil
	}
	a.rack.Base = m.Version
	a.rack.History = a.rack.History.Do("read again", m.Rack).MarkSaved(m.Rack)
	a, cmd := a.tellAll(screen.RackChanged{})
	return a.say("read rack.toml again"), cmd
}

// ownBegins has the maker's own workshop count in place of the demo's as soon as a piece or
// a pattern is theirs, and asks what makes it differ most from others.
func (a App) ownBegins() App {
	if !a.shop.Demo() || a.rack.Demo && a.onDemo() {
		return a
	}
	a, cmd := a.changeShop(a.shop.Own(), "", nil)
	ask := workshop.Questions(a.unit, a.keys.KeyOf(keymap.Settings))
	return a.asks(cmd).askWhenFree("your own workshop", func(a App) bool { return a.shop.New() }, ask, func(a App, value any) (App, tea.Cmd) {
		next, err := a.shop.Answered(value.([]string), a.unit)
		return a.changeShop(next, "your workshop is saved in shop.toml; the settings ("+a.keys.KeyOf(keymap.Settings)+") show all of it", err)
	})
}

// changeShop makes next the workshop, has it count everywhere and saves it; said is what was
// done, and err why it was not.
func (a App) changeShop(next workshop.File, said string, err error) (App, tea.Cmd) {
	if err != nil {
		return a.refuse(err.Error()), nil
	}
	a.shop = next
	before, now := a.physics.Shop(), next.Shop()
	a.physics = movement.New(a.physics.Table(), now)
	if before.Units != now.Units {
		a.unit = now.Units
	}
	a, told := a.checked().tellAll(next.Told())
	if said != "" {
		a = a.say(said)
	}
	var save tea.Cmd
	a.shop, save = a.shop.Save(a.files)
	return a, tea.Batch(told, save)
}

func (a App) shopSaved(m workshop.SavedMsg) (App, tea.Cmd) {
	var cmd tea.Cmd
	a.shop, cmd = a.shop.Took(m, a.files)
	switch {
	case m.Err != nil:
		a = a.fail(m.Err)
	case m.Read:
		a, cmd = a.changeShop(a.shop, "shop.toml was changed elsewhere and is read again without your last setting; "+
			a.keys.KeyOf(keymap.Undo)+" brings that back", nil)
	}
	return a.resumeQuit(cmd, m.Err)
}

// toSettings goes to the settings, and from there back to where that was done.
func toSettings(a App) (App, tea.Cmd) {
	if a.here() == settings.Place {
		return a.goScreen(a.before)
	}
	i, _ := a.find(settings.Place)
	return a.goScreen(i)
}
