package made

import (
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "made"

// The actions of the screen.
const (
	madeUp    keymap.ID = "made-up"
	madeDown  keymap.ID = "made-down"
	madeAgain keymap.ID = "made-again"
	madeLabel keymap.ID = "made-label"
)

// Keys lists what can be done with what was made.
func (Screen) Keys() []keymap.Action {
	move := edit.ByID()
	on := keymap.Group{Heading: "on what was made", At: Place}
	return []keymap.Action{
		on.Bind(madeUp, "batch above", "go to the batch above", 0, "up"),
		on.Bind(madeDown, "batch", "go to the batch below", 1, "down"),
		on.Hand(move["add-made"], "add", 2, "a", "insert"),
		on.Hand(move["set-made"], "change", 3, "enter", "e"),
		on.Hand(move["drop-made"], "strike out", 4, "x", "delete"),
		on.Bind(madeAgain, "make again", "plan as many copies again as in this batch", 5, "g"),
		on.Bind(madeLabel, "label", "show the text of the label in full", 6, "l"),
	}
}
