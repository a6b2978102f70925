package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/help"
	"example.com/oddments/tui/screens/rackview"
	"example.com/oddments/tui/screens/settings"
)

// handlers returns what makes each action that holds everywhere; those of a screen are told
// to it.
func handlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.Season:     App.nextSeason,
		keymap.Unit:       App.otherUnit,
		keymap.Screen:     toScreen(1),
		keymap.LastScreen: toScreen(-1),
		keymap.Undo:       App.undo,
		keymap.Redo:       App.redo,

		keymap.Save:    App.save,
		keymap.SaveAs:  App.saveAs,
		keymap.Open:    App.listPatterns,
		keymap.New:     App.newPattern,
		keymap.Picture: App.exportPicture,
		keymap.Sheet:   App.exportSheet,
		keymap.Help:    func(a App) (App, tea.Cmd) { return a.show(help.Page{Place: a.here()}, nil), nil },
		keymap.Search:  App.searchActions,

		keymap.Settings: toSettings,

		keymap.Suspend: func(a App) (App, tea.Cmd) { return a, tea.Suspend },
		keymap.Quit:    App.quit,
	}
}

func (a App) nextSeason() (App, tea.Cmd) {
	a.season = a.season.Next()
	return a.say("figures of the " + a.season.String()), nil
}

func (a App) otherUnit() (App, tea.Cmd) {
	a.unit = length.InInches - a.unit
	return a.checked(), nil
}

// A way goes through the histories of bench and rack, back or forth.
type way struct {
	bench func(edit.History) (edit.History, string, bool)
	rack  func(rack.History) (rack.History, string, bool)
	done  string
	none  string // is said where nothing is left
}

func (a App) undo() (App, tea.Cmd) {
	if a.here() == settings.Place {
		return a.changeShop(a.shop.Undo())
	}
	if back, ok := a.lastBooking(); ok {
		return a, a.saveBooking(back)
	}
	return a.through(way{edit.History.Undo, rack.History.Undo, "undone: ", "nothing to undo"})
}

func (a App) redo() (App, tea.Cmd) {
	if a.here() == settings.Place {
		return a.changeShop(a.shop.Redo())
	}
	return a.through(way{edit.History.Redo, rack.History.Redo, "redone: ", "nothing to redo"})
}

// through goes one step through the history of the rack, where that is shown, or else of the
// bench.
func (a App) through(w way) (App, tea.Cmd) {
	var label string
	var ok bool
	change, where := App.changed, ""
	if a.here() == rackview.Place {
		change, where = App.rackChanged, " on the rack"
		a.rack.History, label, ok = w.rack(a.rack.History)
	} else {
		a.doc.History, label, ok = w.bench(a.doc.History)
	}
	if !ok {
		return a.say(w.none + where), nil
	}
	a, cmd := change(a)
	return a.say(w.done + label), cmd
}
