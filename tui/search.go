package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/opening"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/overlay/help"
)

// searchActions lists what can be done: here first, then everywhere, then on the other
// screens, which are gone to when one of theirs is taken.
func (a App) searchActions() (App, tea.Cmd) {
	at := a.here()
	var here, everywhere, elsewhere []choose.Item
	for _, action := range a.keys.Actions() {
		item := choose.Item{Name: action.Name, Says: action.Does, Words: action.Words, Shows: action.Shows, Detail: action.Key(), Value: action.ID}
		switch p := action.Place(); {
		case p == keymap.InLists || a.hidden(p) && p != at:
			// Fields and lists tell their own keys; the layouts lie over the bench only
			// while they are asked for.
		case p == at:
			here = append(here, item)
		case p == keymap.Everywhere:
			everywhere = append(everywhere, item)
		default:
			item.Detail = string(p) + "  " + item.Detail
			elsewhere = append(elsewhere, item)
		}
	}
	list := choose.New("what can be done", "nothing of that name", slices.Concat(here, everywhere, elsewhere, opening.Chapters(a.keys, help.Page{Place: at})))
	return a.show(list.Careful(), func(a App, value any) (App, tea.Cmd) {
		if page, ok := value.(help.Page); ok {
			return a.show(page, nil), nil
		}
		return a.actThere(value.(keymap.ID))
	}), nil
}

// hidden reports whether a place is a screen that the line at the bottom leaves out.
func (a App) hidden(p keymap.Place) bool {
	i, ok := a.find(p)
	return ok && !a.screens[i].listed()
}

// actThere makes an action on the screen that it belongs to.
func (a App) actThere(id keymap.ID) (App, tea.Cmd) {
	action, _ := a.keys.ByID(id)
	i, ok := a.find(action.Place())
	if !ok || i == a.at {
		return a.act(id)
	}
	a, going := a.goScreen(i)
	a, doing := a.act(id)
	return a, tea.Batch(going, doing)
}
