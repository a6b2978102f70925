package settings

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "settings"

// table lists what can be done with the settings.
func table() screen.Table[Screen] {
	const page = 10 // settings
	on := keymap.Group{Heading: "on the settings", At: Place}
	back := func(Screen, screen.Context) []screen.Request {
		return []screen.Request{screen.Act{ID: keymap.Settings}}
	}
	return screen.Table[Screen]{Wheel: Screen.goBy, Offers: []keymap.ID{keymap.Undo}, Entries: []screen.Entry[Screen]{
		screen.Steps(on.Bind("set-up", "setting", "go to the setting above", 1, "up"), -1, Screen.goBy),
		screen.Steps(on.Bind("set-down", "setting below", "go to the setting below", 0, "down"), 1, Screen.goBy),
		screen.Steps(on.Bind("set-page-up", "page up", "go ten settings up", 0, "pgup"), -page, Screen.goBy),
		screen.Steps(on.Bind("set-page-down", "page", "go ten settings down", 2, "pgdown"), page, Screen.goBy),
		screen.Asks(on.Bind("set-change", "change", "type another value, which is saved to shop.toml", 3, "enter", "e"), Screen.change),
		screen.Asks(on.Bind("set-built-in", "built in", "put the setting back to the built-in value, and take it out of shop.toml", 6, "x", "delete"), Screen.builtIn).When(Screen.yours),
		screen.Asks(on.Bind("set-find", "find", "find a setting by a word of what it is for", 4, "f"), Screen.find),
		screen.Asks(on.Bind("set-back", "back", "go back to the screen before", 5, "esc"), back),
	}}
}

// Keys lists what can be done with the settings.
func (Screen) Keys() []keymap.Action { return table().Actions() }
