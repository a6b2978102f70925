package findings

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "findings"

// Keys lists what can be done on the findings. The keys of the bench do
// nothing there: the strip that they would change is out of sight.
func Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the findings", At: Place}
	return []keymap.Action{
		on.Bind(keymap.FindUp, "finding", "go to the finding above and choose its strip", 1, "up"),
		on.Bind(keymap.FindDown, "finding below", "go to the finding below and choose its strip", 0, "down"),
		on.Bind(keymap.FindPageUp, "five above", "go five findings up", 0, "pgup"),
		on.Bind(keymap.FindPageDn, "five below", "go five findings down", 0, "pgdown"),
		on.Bind(keymap.FindTake, "take remedy", "make the change that would help, as it stands beneath the finding", 2, "enter"),
	}
}
