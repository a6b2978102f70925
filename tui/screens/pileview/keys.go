package pileview

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place = keymap.PilePlace

// The actions that are named elsewhere too.
const (
	pileSearch keymap.ID = "pile-search"
	pileStop   keymap.ID = "pile-stop"
	pileAdd    keymap.ID = "pile-add"
	pileLook   keymap.ID = "pile-look"
	pileWhy    keymap.ID = "pile-why"
	pileTake   keymap.ID = "pile-take"
)

// table lists what can be done with the pile.
func table() screen.Table[Screen] {
	on := keymap.Group{Heading: "on the pile", At: Place}
	wants := func(s Screen, _ screen.Context) bool { return len(s.now.wants) > 0 }
	idle := func(s Screen, _ screen.Context) bool { return len(s.now.wants) > 0 && !s.works }
	works := func(s Screen, _ screen.Context) bool { return s.works }
	panels := func(s Screen, _ screen.Context) bool { return len(s.now.found.set.Panels) > 0 }
	sought := func(s Screen, _ screen.Context) bool { return s.now.found.have && !s.works }
	whole := func(s Screen, ctx screen.Context) bool { return panels(s, ctx) && !s.works }
	return screen.Table[Screen]{Offers: []keymap.ID{keymap.Undo}, Wheel: Screen.goPanel, Entries: []screen.Entry[Screen]{
		screen.Does(on.Bind(pileSearch, "search", "search the whole rack for the panels that are worth most together", 1, "g"), Screen.search).When(idle),
		screen.Asks(on.Bind(pileStop, "stop", "stop the search with the best set so far", 2, "s"), Screen.stop).When(works),
		screen.Does(on.Bind(pileLook, "look", "look at the chosen panel on the bench", 3, "enter"), Screen.look).When(whole),
		screen.Does(on.Bind("pile-hold", "hold", "hold the chosen panel as it is in the next search, or let it go", 4, "h"), Screen.hold).When(whole),
		screen.Does(on.Bind("pile-drop", "drop", "drop the chosen panel from the set", 5, "x"), Screen.drop).When(whole),
		screen.Does(on.Bind(pileTake, "take all", "plan all panels together, the first of them on the bench", 6, "t"), Screen.take).When(whole),
		screen.Asks(on.Bind("pile-keep", "save", "save every panel as a pattern of yours", 13, "k"), Screen.saveAll).When(whole),
		screen.Does(on.Bind("pile-sheet", "sheet", "write the sheet for the bench of all panels: the evenings, one cut list, a page each", 14, "b"), Screen.sheet).When(whole),
		screen.Does(on.Bind(pileWhy, "stays", "show what stays on the rack, and why", 7, "w"), Screen.why).When(sought),
		screen.Steps(on.Bind("pile-left", "panel", "choose the panel before this one", 15, "left"), -1, Screen.goPanel).When(panels),
		screen.Steps(on.Bind("pile-right", "panel on", "choose the panel after this one", 0, "right"), 1, Screen.goPanel),
		screen.Steps(on.Bind("pile-up", "want", "choose the want above", 16, "up"), -1, Screen.goWant).When(wants),
		screen.Steps(on.Bind("pile-down", "want below", "choose the want below", 0, "down"), 1, Screen.goWant),
		screen.Does(on.Bind("pile-more", "more", "ask for one more of the chosen want", 8, "+", "="), by(1)).When(wants),
		screen.Does(on.Bind("pile-fewer", "fewer", "ask for one fewer of the chosen want", 9, "-"), by(-1)).When(wants),
		screen.Asks(on.Bind(pileAdd, "add", "add a want: a product, how thick, how many, what one is worth, its look, timbers", 10, "a", "insert"), Screen.add),
		screen.Asks(on.Bind("pile-change", "edit", "change the chosen want's line", 11, "e"), Screen.change).When(wants),
		screen.Does(on.Bind("pile-remove", "remove", "remove the chosen want", 12, "r", "delete"), Screen.remove).When(wants),
		screen.Does(on.Bind("pile-close", "rack", "go back to the rack; a search continues", 17, "esc", "m"), Screen.close),
	}}
}

// Keys lists what can be done with the pile.
func (Screen) Keys() []keymap.Action { return table().Actions() }
