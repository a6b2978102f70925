package colour

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "colour"

// The actions that are named elsewhere too.
const (
	colourOn   keymap.ID = "colour-on"
	colourKeep keymap.ID = "colour-keep"
	colourStop keymap.ID = "colour-stop"
)

// table lists what can be done on a photo.
func table() screen.Table[Screen] {
	const far = 10 // points
	on := keymap.Group{Heading: "on a photo", At: Place}
	read := func(s Screen, _ screen.Context) bool { return s.photo != nil }
	pieces := func(s Screen, _ screen.Context) bool { return s.now.onward && len(s.ids) > 1 }
	some := func(s Screen, _ screen.Context) bool { return len(s.got.pieces) > 0 }
	zoomed := func(by float64) func(Screen, screen.Context) (screen.Screen, []screen.Request) {
		return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) { return s.zoom(by, ctx) }
	}
	return screen.Table[Screen]{Offers: []keymap.ID{keymap.Undo}, Entries: []screen.Entry[Screen]{
		screen.Does(on.Bind("colour-left", "frame", "move the frame by a point to the left", 2, "left"), move(-1, 0)).When(read),
		screen.Does(on.Bind("colour-right", "frame right", "move the frame by a point to the right", 0, "right"), move(1, 0)),
		screen.Does(on.Bind("colour-up", "frame up", "move the frame up by a point", 0, "up"), move(0, -1)),
		screen.Does(on.Bind("colour-down", "frame down", "move the frame down by a point", 0, "down"), move(0, 1)),
		screen.Does(on.Bind("colour-far-left", "far left", "move the frame by ten points to the left", 0, "shift+left"), move(-far, 0)),
		screen.Does(on.Bind("colour-far-right", "far right", "move the frame by ten points to the right", 0, "shift+right"), move(far, 0)),
		screen.Does(on.Bind("colour-far-up", "far up", "move the frame up by ten points", 0, "shift+up", "pgup"), move(0, -far)),
		screen.Does(on.Bind("colour-far-down", "far down", "move the frame down by ten points", 0, "shift+down", "pgdown"), move(0, far)),
		screen.Does(on.Bind("colour-side", "side", "choose what the arrows move: the frame, or one of its four sides", 3, " "), Screen.nextSide).When(read),
		screen.Does(on.Bind("colour-wider", "wider", "make the frame wider by a point", 4, "]"), grow(1, 0)).When(read),
		screen.Does(on.Bind("colour-narrower", "narrower", "make the frame narrower by a point", 0, "["), grow(-1, 0)),
		screen.Does(on.Bind("colour-higher", "higher", "make the frame higher by a point", 10, "}"), grow(0, 1)).When(read),
		screen.Does(on.Bind("colour-lower", "lower", "make the frame lower by a point", 0, "{"), grow(0, -1)),
		screen.Does(on.Bind("colour-nearer", "nearer", "show the photo nearer, about the frame", 5, "+", "="), zoomed(nearerBy)).When(read),
		screen.Does(on.Bind("colour-further", "further", "show more of the photo", 11, "-"), zoomed(1/nearerBy)).When(read),
		screen.Does(on.Bind("colour-set", "set", "set the frame as white paper, or as the piece that is named", 1, "enter"), Screen.set).When(read),
		screen.Does(on.Bind(colourOn, "pieces", "go on from the papers to the pieces, or back", 6, "n"), Screen.on).When(read),
		screen.Does(on.Bind("colour-next", "next piece", "choose the next piece", 9, "."), other(1)).When(pieces),
		screen.Does(on.Bind("colour-last", "previous piece", "choose the previous piece", 0, ","), other(-1)),
		screen.Does(on.Bind("colour-clear", "clear", "take the box of the piece away, or the last paper", 12, "x", "delete"), Screen.clear).When(read),
		screen.Does(on.Bind("colour-light", "light", "set what the photo was taken by: daylight or a lamp", 13, "l"), Screen.otherLight).When(read),
		screen.Does(on.Bind("colour-surface", "surface", "set how the timber was finished: oiled, wetted or raw", 14, "f"), Screen.otherSurface).When(read),
		screen.Asks(on.Bind(colourKeep, "keep", "keep the colours that are read on the rack", 7, "k"), Screen.keep).When(some),
		screen.Does(on.Bind(colourStop, "back", "stop reading the photo, or go back to the rack", 8, "esc"), Screen.stop),
	}}
}

// Keys lists what can be done on a photo.
func (Screen) Keys() []keymap.Action { return table().Actions() }
