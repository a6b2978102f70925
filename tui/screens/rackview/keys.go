package rackview

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "rack"

// Keys lists what is done on the rack.
func Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the rack", At: Place}
	return []keymap.Action{
		on.Bind(keymap.RackUp, "piece", "go to the piece above", 0, "up"),
		on.Bind(keymap.RackDown, "piece below", "go to the piece below", 0, "down"),
		on.Bind(keymap.RackAdd, "add", "type a piece as it is spoken: timber, length, width, thickness, then what else there is to say", 1, "a", "insert"),
		on.Bind(keymap.RackEdit, "edit", "change the piece's line", 2, "enter", "e"),
		on.Bind(keymap.RackAgain, "another", "add another piece just like this one", 3, "t"),
		on.Bind(keymap.RackOne, "one used", "take one of several alike off the rack", 4, "-"),
		on.Bind(keymap.RackUsedUp, "used up", "take the piece off the rack", 5, "x", "delete"),
		on.Bind(keymap.RackFirst, "use first", "mark the piece to be used first, or take the mark off", 6, "f"),
		on.Bind(keymap.RackRings, "rings", "say how the rings stand: flat, rift, quarter, unknown", 7, "g"),
		on.Bind(keymap.RackOrder, "order", "go on to the next order: timber, length, volume, id, use first", 8, "o"),
		on.Bind(keymap.RackFilter, "which", "show only some of the pieces, by words like cherry, planed, over 300", 9, "w"),
	}
}
