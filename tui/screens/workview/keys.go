package workview

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "work"

// Keys lists what can be done on the working figures.
func Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the working figures", At: Place}
	return []keymap.Action{
		on.Bind(keymap.WorkUp, "figure above", "go to the figure above", 0, "up"),
		on.Bind(keymap.WorkDown, "figure", "go to the figure below", 1, "down"),
		on.Bind(keymap.WorkPageUp, "step before", "go back to the step of the work before", 0, "pgup"),
		on.Bind(keymap.WorkPageDn, "next step", "go to the next step of the work", 2, "pgdown"),
		on.Bind(keymap.WorkMore, "more", "make one copy more", 3, "+", "="),
		on.Bind(keymap.WorkFewer, "fewer", "make one copy fewer", 4, "-"),
		on.Bind(keymap.WorkMinutes, "minutes", "say how long all copies take", 5, "m"),
		on.Bind(keymap.WorkAsked, "price asked", "say what you ask for one product", 6, "p"),
		on.Bind(keymap.WorkClamps, "clamps", "say how many clamps you have", 7, "c"),
		on.Bind(keymap.WorkBefore, "day", "say which day the products are to be ready before", 8, "d"),
		on.Bind(keymap.WorkOil, "drying oil", "change between an oil that stays oil and one that hardens", 9, "o"),
	}
}
