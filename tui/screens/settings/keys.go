package settings

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "settings"

// The actions of the screen.
const (
	setUp       keymap.ID = "set-up"
	setDown     keymap.ID = "set-down"
	setPageUp   keymap.ID = "set-page-up"
	setPageDown keymap.ID = "set-page-down"
	setChange   keymap.ID = "set-change"
	setFind     keymap.ID = "set-find"
	setBack     keymap.ID = "set-back"
)

// Keys lists what can be done with the settings.
func (Screen) Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the settings", At: Place}
	return []keymap.Action{
		on.Bind(setUp, "setting", "go to the setting above", 1, "up"),
		on.Bind(setDown, "setting below", "go to the setting below", 0, "down"),
		on.Bind(setPageUp, "page up", "go ten settings up", 0, "pgup"),
		on.Bind(setPageDown, "page", "go ten settings down", 2, "pgdown"),
		on.Bind(setChange, "change", "type another value, which is saved to shop.toml", 3, "enter", "e"),
		on.Bind(setFind, "find", "find a setting by a word of what it is for", 4, "f"),
		on.Bind(setBack, "back", "go back to the screen before", 5, "esc"),
	}
}
