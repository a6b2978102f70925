package rackview

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "rack"

// table lists what is done on the rack.
func table() screen.Table[Screen] {
	on := keymap.Group{Heading: "on the rack", At: Place}
	any := func(l Screen, ctx screen.Context) bool { return len(l.Entries(ctx)) > 0 }
	several := func(l Screen, ctx screen.Context) bool {
		e, ok := l.Chosen(ctx)
		return ok && e.Quantity > 1
	}
	return screen.Table[Screen]{Offers: []keymap.ID{keymap.Undo}, Wheel: Screen.Go, Entries: []screen.Entry[Screen]{
		screen.Steps(on.Bind("rack-up", "piece", "go to the piece above", 0, "up"), -1, Screen.Go),
		screen.Steps(on.Bind("rack-down", "piece below", "go to the piece below", 0, "down"), 1, Screen.Go),
		screen.Asks(on.Bind(keymap.RackAdd, "add", "type a piece: timber, length, width, thickness, then its faults and the rest", 1, "a", "insert"),
			Screen.add),
		screen.Asks(on.Bind("rack-edit", "edit", "change the piece's line", 3, "enter", "e"), Screen.edit).When(any),
		screen.Does(on.Bind("rack-again", "another", "add another piece like this one", 4, "t"), onEntry(another)).When(any),
		screen.Does(on.Bind("rack-one", "one used", "take one of several alike off the rack, as used", 5, "-"), onEntry(useOne)).When(several),
		screen.Does(on.Bind("rack-used-up", "used up", "take the piece off the rack, as used", 6, "x", "delete"), onEntry(useUp)).When(any),
		screen.Does(on.Bind("rack-first", "use first", "mark the piece to be used first, or take the mark off", 7, "f"),
			onEntry(useFirst)).When(any),
		screen.Does(on.Bind("rack-rings", "rings", "change the rings: flat, rift, quarter, unknown", 8, "g"),
			onEntry(nextRings)).When(any),
		screen.Goes(on.Bind("rack-order", "order", "change the order: timber, length, volume, id, use first", 9, "o"),
			Screen.nextOrder).When(any),
		screen.Asks(on.Bind("rack-photo", "colour", "read the colours of this piece and those below it from a photo", 11, "p"), Screen.askPhoto).When(any),
		screen.Asks(on.Bind("rack-pile", "pile", "see which boards the whole rack can become for your market", 2, "m"), func(Screen, screen.Context) []screen.Request {
			return []screen.Request{screen.Go{To: keymap.PilePlace}}
		}),
		screen.Asks(on.Bind("rack-filter", "which", "show only some of the pieces, by words like cherry, planed, over 300", 10, "w"),
			Screen.askWhich),
	}}
}

// Keys lists what is done on the rack.
func (Screen) Keys() []keymap.Action { return table().Actions() }

// noPiece says why no piece is chosen.
func noPiece(ctx screen.Context) string {
	if len(ctx.Rack.Pieces)+len(ctx.Rack.Strips) > 0 {
		return "no piece shown: " + ctx.Keys.KeyOf("rack-filter") + ", then Enter on an empty line, shows all again"
	}
	return "the rack is empty: " + ctx.Keys.KeyOf(keymap.RackAdd) + " adds the first piece"
}

// onEntry makes a change to the chosen entry.
func onEntry(change func(rack.Entry, screen.Context) (rack.Rack, error)) func(Screen, screen.Context) (screen.Screen, []screen.Request) {
	return func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		e, ok := l.Chosen(ctx)
		if !ok {
			return l, []screen.Request{screen.Say(noPiece(ctx))}
		}
		next, err := change(e, ctx)
		if err == nil {
			if _, still := next.Get(e.ID); !still {
				l = l.After(ctx)
			}
		}
		return l.changed(next, err)
	}
}

func another(e rack.Entry, ctx screen.Context) (rack.Rack, error) {
	next, _, err := ctx.Rack.Add(rack.Again(e), ctx.Lookup())
	return next, err
}

func useOne(e rack.Entry, ctx screen.Context) (rack.Rack, error) { return ctx.Rack.UseOne(e.ID) }

func useUp(e rack.Entry, ctx screen.Context) (rack.Rack, error) { return ctx.Rack.Remove(e.ID) }

func useFirst(e rack.Entry, ctx screen.Context) (rack.Rack, error) {
	return ctx.Rack.SetUseFirst(e.ID, !e.UseFirst)
}

func nextRings(e rack.Entry, ctx screen.Context) (rack.Rack, error) {
	next := map[string]pattern.Rings{"unknown": pattern.RingsFlat(), "flat": pattern.RingsRift(), "rift": pattern.RingsQuarter()}
	return ctx.Rack.SetRings(e.ID, next[e.Rings.String()])
}
