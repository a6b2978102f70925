package made

import (
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "made"

const madeLabel keymap.ID = "made-label"

// table lists what can be done with what was made.
func table() screen.Table[Screen] {
	move := edit.ByID()
	on := keymap.Group{Heading: "on what was made", At: Place}
	any := func(_ Screen, ctx screen.Context) bool { return len(ctx.State.Pattern.Made) > 0 }
	return screen.Table[Screen]{Offers: []keymap.ID{keymap.Undo, keymap.Save}, Wheel: Screen.Go, Entries: []screen.Entry[Screen]{
		screen.Steps(on.Bind("made-up", "batch above", "go to the batch above", 0, "up"), -1, Screen.Go),
		screen.Steps(on.Bind("made-down", "batch", "go to the batch below", 1, "down"), 1, Screen.Go).When(any),
		screen.Does(on.Hand(move["add-made"], "add", 2, "a", "insert"), Screen.add),
		screen.Does(on.Hand(move["set-made"], "change", 3, "enter", "e"), Screen.change).When(any),
		screen.Asks(on.Hand(move["drop-made"], "remove", 4, "x", "delete"), Screen.strike).When(any),
		screen.Asks(on.Bind("made-again", "make again", "plan as many copies as in this batch", 5, "g"), Screen.again).When(any),
		screen.Asks(on.Bind(madeLabel, "label", "show the text of the label in full", 6, "l"), Screen.showLabels),
	}}
}

// Keys lists what can be done with what was made.
func (Screen) Keys() []keymap.Action { return table().Actions() }
