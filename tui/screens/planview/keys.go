package planview

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "plan"

// The actions that are named elsewhere too.
const (
	planRun  keymap.ID = "plan-run"
	planWays keymap.ID = "plan-ways"
	planFill keymap.ID = "plan-fill"
	planMark keymap.ID = "plan-mark"
)

// table lists what is done on the plan.
func table() screen.Table[Screen] {
	on := keymap.Group{Heading: "on the plan", At: Place}
	fresh := func(l Screen, ctx screen.Context) bool { return ctx.Planned() && !l.works }
	something := func(_ Screen, ctx screen.Context) bool { return !nothingToPlan(ctx) }
	together := func(_ Screen, ctx screen.Context) bool { return len(ctx.Batch.With) > 0 }
	cuts := func(_ Screen, ctx screen.Context) bool { return ctx.Plan.Have && len(ctx.Plan.Plan.Cuts) > 0 }
	short := func(l Screen, ctx screen.Context) bool { return fresh(l, ctx) && ctx.Plan.Plan.Short > 0 }
	whole := func(l Screen, ctx screen.Context) bool {
		return fresh(l, ctx) && ctx.Plan.Plan.Short == 0 && !nothingToPlan(ctx)
	}
	drawn := func(l Screen, ctx screen.Context) bool {
		return fresh(l, ctx) && len(ctx.Plan.Plan.Cuts)+len(ctx.Plan.Plan.Ready) > 0
	}
	filled := func(l Screen, ctx screen.Context) bool { return fresh(l, ctx) && len(ctx.Plan.Plan.Fills) > 0 }
	parted := func(l Screen, ctx screen.Context) bool {
		return whole(l, ctx) && ctx.Batch.Join != screen.Whole && len(ctx.Plan.Plan.Pieced) > 0
	}
	return screen.Table[Screen]{Wheel: Screen.Go, Offers: []keymap.ID{keymap.Undo}, Entries: []screen.Entry[Screen]{
		screen.Steps(on.Bind("plan-up", "cut piece", "go to the piece above", 0, "up"), -1, Screen.Go),
		screen.Steps(on.Bind("plan-down", "cut piece below", "go to the piece below", 0, "down"), 1, Screen.Go),
		screen.Does(on.Bind("plan-more", "more", "plan one copy more", 1, "+", "="), screen.Copies(1, Screen.gather)),
		screen.Does(on.Bind("plan-fewer", "fewer", "plan one copy fewer", 2, "-"), screen.Copies(-1, Screen.gather)),
		screen.Asks(on.Bind("plan-with", "add pattern", "add another saved pattern to this plan", 3, "a"), Screen.readSaved),
		screen.Does(on.Bind("plan-alone", "alone", "plan the bench's pattern alone again", 4, "x"), Screen.alone).When(together),
		screen.Does(on.Bind(planRun, "plan", "plan again, or stop the planning", 5, "enter", "p"),
			Screen.startOrStop).When(something),
		screen.Asks(on.Bind("plan-steps", "steps", "show the order of work", 6, "s"), Screen.steps).When(cuts),
		screen.Does(on.Bind(planWays, "ways out", "find ways out where the rack runs short", 7, "w"), Screen.findWays).When(short),
		screen.Does(on.Bind("plan-rings", "any rings", "use timber whatever its rings, or only with the rings asked for", 10, "R"), Screen.anyRings).When(
			func(l Screen, ctx screen.Context) bool { return short(l, ctx) || ctx.Batch.AnyRings }),
		screen.Does(on.Bind("plan-join", "joints", "let strips be made of several pieces: as bricks, with joints anywhere, in one short piece, or whole again", 11, "j"), Screen.join).When(something),
		screen.Asks(on.Bind("plan-adopt", "take joints", "lay the strips on the bench from the pieces that the plan chose", 12, "J"), Screen.adopt).When(parted),
		screen.Does(on.Bind(planFill, "fill slices", "rip strips for the rack out of what slices leave: of widths cut there anyway, of standing ones too, or none", 13, "f"), Screen.fills).When(cuts),
		screen.Asks(on.Bind(planMark, "choose fills", "choose which of the strips for the rack are made", 14, "F"), Screen.mark).When(filled),
		screen.Asks(on.Bind("plan-real", "copy readings", "copy moisture and rings of the planned pieces into the strips", 8, "r"),
			Screen.realPieces).When(drawn),
		screen.Asks(on.Bind("plan-book", "book", "book the plan as made: timber off the rack, offcuts back on it; undo takes it back", 9, "d"), Screen.book).When(whole),
	}}
}

// Keys lists what is done on the plan.
func (Screen) Keys() []keymap.Action { return table().Actions() }
