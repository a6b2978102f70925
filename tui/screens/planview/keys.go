package planview

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "plan"

// Keys lists what is done on the plan.
func Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the plan", At: Place}
	return []keymap.Action{
		on.Bind(keymap.PlanUp, "cut piece", "go to the piece above", 0, "up"),
		on.Bind(keymap.PlanDown, "cut piece below", "go to the piece below", 0, "down"),
		on.Bind(keymap.PlanMore, "more", "make one copy more", 1, "+", "="),
		on.Bind(keymap.PlanFewer, "fewer", "make one copy fewer", 2, "-"),
		on.Bind(keymap.PlanWith, "together with", "plan another saved pattern together with this one", 3, "a"),
		on.Bind(keymap.PlanAlone, "alone", "plan the bench's pattern alone again", 4, "x"),
		on.Bind(keymap.PlanRun, "plan", "plan anew, or stop a plan that is being worked on", 5, "enter", "p"),
		on.Bind(keymap.PlanSteps, "steps", "show the order of work", 6, "s"),
		on.Bind(keymap.PlanWays, "ways out", "find ways out where the rack runs short", 7, "w"),
		on.Bind(keymap.PlanReal, "real pieces", "give the strips the moisture and rings of the pieces they come from", 8, "r"),
		on.Bind(keymap.PlanBook, "done", "book the plan: it was done at the bench", 9, "d"),
	}
}
