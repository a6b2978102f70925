package findings

import (
	"slices"

	"example.com/oddments/pattern/check"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "findings"

const findTake keymap.ID = "find-take"

// table lists what can be done on the findings. The keys of the bench do
// nothing there: the strip that they would change is out of sight.
func table() screen.Table[List] {
	const page = 5 // findings
	on := keymap.Group{Heading: "on the findings", At: Place}
	steps := func(by int) func(List, screen.Context) (screen.Screen, []screen.Request) {
		return func(l List, ctx screen.Context) (screen.Screen, []screen.Request) { return l.goBy(by, ctx) }
	}
	several := func(_ List, ctx screen.Context) bool { return len(ctx.Report.Groups) > 1 }
	helped := func(_ List, ctx screen.Context) bool {
		return slices.ContainsFunc(ctx.Report.Groups, func(g check.Group) bool { return len(g.Remedies()) > 0 })
	}
	return screen.Table[List]{Offers: []keymap.ID{keymap.Undo, keymap.Save}, Entries: []screen.Entry[List]{
		screen.Does(on.Bind("find-up", "finding", "go to the finding above and choose its strip", 1, "up"), steps(-1)).When(several),
		screen.Does(on.Bind("find-down", "finding below", "go to the finding below and choose its strip", 0, "down"), steps(1)),
		screen.Does(on.Bind("find-page-up", "five above", "go five findings up", 0, "pgup"), steps(-page)),
		screen.Does(on.Bind("find-page-down", "five below", "go five findings down", 0, "pgdown"), steps(page)),
		screen.Asks(on.Bind(findTake, "take remedy", "make the change shown below the finding", 2, "enter"),
			List.take).When(helped),
	}}
}

// Keys lists what can be done on the findings.
func (List) Keys() []keymap.Action { return table().Actions() }
