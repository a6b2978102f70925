package workview

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "work"

// The actions of the screen.
const (
	workUp      keymap.ID = "work-up"
	workDown    keymap.ID = "work-down"
	workPageUp  keymap.ID = "work-page-up"
	workPageDn  keymap.ID = "work-page-down"
	workMore    keymap.ID = "work-more"
	workFewer   keymap.ID = "work-fewer"
	workMinutes keymap.ID = "work-minutes"
	workAsked   keymap.ID = "work-asked"
	workClamps  keymap.ID = "work-clamps"
	workBefore  keymap.ID = "work-before"
	workOil     keymap.ID = "work-oil"
)

// Keys lists what can be done on the working figures.
func (Screen) Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the working figures", At: Place}
	return []keymap.Action{
		on.Bind(workUp, "figure above", "go to the figure above", 0, "up"),
		on.Bind(workDown, "figure", "go to the figure below", 1, "down"),
		on.Bind(workPageUp, "step before", "go back to the step of the work before", 0, "pgup"),
		on.Bind(workPageDn, "next step", "go to the next step of the work", 2, "pgdown"),
		on.Bind(workMore, "more", "make one copy more", 3, "+", "="),
		on.Bind(workFewer, "fewer", "make one copy fewer", 4, "-"),
		on.Bind(workMinutes, "minutes", "say how long all copies take", 5, "m"),
		on.Bind(workAsked, "price asked", "say what you ask for one product", 6, "p"),
		on.Bind(workClamps, "clamps", "say how many clamps you have", 7, "c"),
		on.Bind(workBefore, "day", "say which day the products are to be ready before", 8, "d"),
		on.Bind(workOil, "drying oil", "change between an oil that stays oil and one that hardens", 9, "o"),
	}
}
