package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/help"
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

		keymap.Settings: App.settings,

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

func (a App) undo() (App, tea.Cmd) {
	switch {
	case a.onSettings():
		return a.stepShop(a.shop.Undo, "undo", "taken back: ")
	case a.bookingIsLast():
		return a.unbook()
	case a.onRack():
		return a.undoRack()
	}
	history, label, ok := a.doc.History.Undo()
	if !ok {
		return a.say("there is nothing to undo"), nil
	}
	a.doc.History = history
	a, cmd := a.changed()
	return a.say("taken back: " + label), cmd
}

func (a App) redo() (App, tea.Cmd) {
	switch {
	case a.onSettings():
		return a.stepShop(a.shop.Redo, "redo", "made again: ")
	case a.onRack():
		return a.redoRack()
	}
	history, label, ok := a.doc.History.Redo()
	if !ok {
		return a.say("there is nothing to redo"), nil
	}
	a.doc.History = history
	a, cmd := a.changed()
	return a.say("made again: " + label), cmd
}
