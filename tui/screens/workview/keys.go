package workview

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "work"

// table lists what can be done on the working figures.
func table() screen.Table[Screen] {
	on := keymap.Group{Heading: "on the working figures", At: Place}
	any := func(s Screen, _ screen.Context) bool { return !s.shown.empty() }
	entries := []screen.Entry[Screen]{
		screen.Steps(on.Bind("work-up", "figure above", "go to the figure above", 0, "up"), -1, Screen.Go),
		screen.Steps(on.Bind("work-down", "figure", "go to the figure below", 1, "down"), 1, Screen.Go),
		screen.Steps(on.Bind("work-page-up", "previous step", "go to the previous step of the work", 0, "pgup"), -1, Screen.Step),
		screen.Steps(on.Bind("work-page-down", "next step", "go to the next step of the work", 2, "pgdown"), 1, Screen.Step),
		screen.Does(on.Bind("work-more", "more", "make one copy more", 3, "+", "="), screen.Copies(1, Screen.gather)),
		screen.Does(on.Bind("work-fewer", "fewer", "make one copy fewer", 4, "-"), screen.Copies(-1, Screen.gather)),
		screen.Asks(on.Bind("work-minutes", "minutes", "set how long all copies take", 5, "m"), Screen.askMinutes),
		screen.Asks(on.Bind("work-asked", "price", "set the price of one product", 6, "p"), Screen.askPrice),
		screen.Asks(on.Bind("work-clamps", "clamps", "set how many clamps you have", 7, "c"), Screen.askClamps),
		screen.Asks(on.Bind("work-before", "day", "set the day before which products must be ready", 8, "d"), Screen.askDay),
		screen.Does(on.Bind("work-oil", "drying oil", "switch between an oil that stays oil and one that hardens", 9, "o"), Screen.otherOil),
	}
	for i := range entries {
		entries[i] = entries[i].When(any)
	}
	return screen.Table[Screen]{Wheel: Screen.Go, Entries: entries}
}

// Keys lists what can be done on the working figures.
func (Screen) Keys() []keymap.Action { return table().Actions() }
