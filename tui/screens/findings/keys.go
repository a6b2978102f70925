package findings

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "findings"

// The actions of the screen.
const (
	findUp       keymap.ID = "find-up"
	findDown     keymap.ID = "find-down"
	findPageUp   keymap.ID = "find-page-up"
	findPageDown keymap.ID = "find-page-down"
	findTake     keymap.ID = "find-take"
)

// Keys lists what can be done on the findings. The keys of the bench do
// nothing there: the strip that they would change is out of sight.
func (List) Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the findings", At: Place}
	return []keymap.Action{
		on.Bind(findUp, "finding", "go to the finding above and choose its strip", 1, "up"),
		on.Bind(findDown, "finding below", "go to the finding below and choose its strip", 0, "down"),
		on.Bind(findPageUp, "five above", "go five findings up", 0, "pgup"),
		on.Bind(findPageDown, "five below", "go five findings down", 0, "pgdown"),
		on.Bind(findTake, "take remedy", "make the change that would help, as it stands beneath the finding", 2, "enter"),
	}
}
