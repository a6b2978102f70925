package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/help"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/rackview"
	"example.com/oddments/tui/screens/settings"
	"example.com/oddments/tui/workshop"
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

// A way goes through what has steps, back or forth.
type way struct {
	bench func(edit.History) (edit.History, string, bool)
	rack  func(rack.History) (rack.History, string, bool)
	shop  func(workshop.File) (workshop.File, string, error)
	does  string // undo or redo
}

func (a App) undo() (App, tea.Cmd) {
	return a.through(way{edit.History.Undo, rack.History.Undo, workshop.File.Undo, "undo"})
}

func (a App) redo() (App, tea.Cmd) {
	return a.through(way{edit.History.Redo, rack.History.Redo, workshop.File.Redo, "redo"})
}

// through goes one step through what is shown: the settings, the rack, a screen with steps of
// its own, or else the bench.
func (a App) through(w way) (App, tea.Cmd) {
	change, label, where, ok := App.changed, "", "", false
	_, own := a.screens[a.at].Screen.(screen.Undoer)
	booking, booked := a.lastBooking()
	switch here := a.here(); {
	case here == settings.Place:
		return a.changeShop(w.shop(a.shop))
	case own:
		return a.tell(a.at, screen.Undone{Redo: w.does == "redo"})
	case booked && w.does == "undo":
		return a, a.saveBooking(booking)
	case here == rackview.Place:
		change, where = App.rackChanged, " on the rack"
		a.rack.History, label, ok = w.rack(a.rack.History)
	default:
		a.doc.History, label, ok = w.bench(a.doc.History)
	}
	if was := a.replaced.Of(a.doc.Document); !ok && was != nil && where == "" && w.does == "undo" {
		return a.tell(was.From, screen.Undone{Bench: true})
	}
	if !ok {
		return a.say("nothing to " + w.does + where), nil
	}
	a, cmd := change(a)
	return a.say(w.does + "ne: " + label), cmd
}
