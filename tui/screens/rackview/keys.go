package rackview

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "rack"

// The actions of the screen.
const (
	rackEdit   keymap.ID = "rack-edit"
	rackAgain  keymap.ID = "rack-again"
	rackUsedUp keymap.ID = "rack-used-up"
	rackOne    keymap.ID = "rack-one"
	rackFirst  keymap.ID = "rack-first"
	rackRings  keymap.ID = "rack-rings"
	rackOrder  keymap.ID = "rack-order"
	rackFilter keymap.ID = "rack-filter"
	rackUp     keymap.ID = "rack-up"
	rackDown   keymap.ID = "rack-down"
)

// Keys lists what is done on the rack.
func (Screen) Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the rack", At: Place}
	return []keymap.Action{
		on.Bind(rackUp, "piece", "go to the piece above", 0, "up"),
		on.Bind(rackDown, "piece below", "go to the piece below", 0, "down"),
		on.Bind(keymap.RackAdd, "add", "type a piece as it is spoken: timber, length, width, thickness, then what else there is to say", 1, "a", "insert"),
		on.Bind(rackEdit, "edit", "change the piece's line", 2, "enter", "e"),
		on.Bind(rackAgain, "another", "add another piece just like this one", 3, "t"),
		on.Bind(rackOne, "one used", "take one of several alike off the rack", 4, "-"),
		on.Bind(rackUsedUp, "used up", "take the piece off the rack", 5, "x", "delete"),
		on.Bind(rackFirst, "use first", "mark the piece to be used first, or take the mark off", 6, "f"),
		on.Bind(rackRings, "rings", "say how the rings stand: flat, rift, quarter, unknown", 7, "g"),
		on.Bind(rackOrder, "order", "go on to the next order: timber, length, volume, id, use first", 8, "o"),
		on.Bind(rackFilter, "which", "show only some of the pieces, by words like cherry, planed, over 300", 9, "w"),
	}
}
