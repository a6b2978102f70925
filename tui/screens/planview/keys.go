package planview

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "plan"

// The actions of the screen.
const (
	planUp    keymap.ID = "plan-up"
	planDown  keymap.ID = "plan-down"
	planMore  keymap.ID = "plan-more"
	planFewer keymap.ID = "plan-fewer"
	planWith  keymap.ID = "plan-with"
	planAlone keymap.ID = "plan-alone"
	planRun   keymap.ID = "plan-run"
	planSteps keymap.ID = "plan-steps"
	planWays  keymap.ID = "plan-ways"
	planReal  keymap.ID = "plan-real"
	planBook  keymap.ID = "plan-book"
)

// Keys lists what is done on the plan.
func (Screen) Keys() []keymap.Action {
	on := keymap.Group{Heading: "on the plan", At: Place}
	return []keymap.Action{
		on.Bind(planUp, "cut piece", "go to the piece above", 0, "up"),
		on.Bind(planDown, "cut piece below", "go to the piece below", 0, "down"),
		on.Bind(planMore, "more", "make one copy more", 1, "+", "="),
		on.Bind(planFewer, "fewer", "make one copy fewer", 2, "-"),
		on.Bind(planWith, "together with", "plan another saved pattern together with this one", 3, "a"),
		on.Bind(planAlone, "alone", "plan the bench's pattern alone again", 4, "x"),
		on.Bind(planRun, "plan", "plan anew, or stop a plan that is being worked on", 5, "enter", "p"),
		on.Bind(planSteps, "steps", "show the order of work", 6, "s"),
		on.Bind(planWays, "ways out", "find ways out where the rack runs short", 7, "w"),
		on.Bind(planReal, "real pieces", "give the strips the moisture and rings of the pieces they come from", 8, "r"),
		on.Bind(planBook, "done", "book the plan: it was done at the bench", 9, "d"),
	}
}
