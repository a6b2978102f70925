package relief

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

const takeTurn keymap.ID = "relief-take"

// table lists what can be done on the relief.
func table() screen.Table[Screen] {
	on := keymap.Group{Heading: "relief", At: keymap.ReliefPlace}
	bench := func(id, name, does string, move keymap.ID, foot int, keys ...string) screen.Entry[Screen] {
		return screen.Asks(on.Bind(keymap.ID(id), name, does, foot, keys...), func(Screen, screen.Context) []screen.Request {
			return []screen.Request{screen.Act{ID: move}}
		}).When(func(_ Screen, ctx screen.Context) bool { return len(ctx.State.Pattern.Strips) > 0 })
	}
	back := func(Screen, screen.Context) []screen.Request { return []screen.Request{screen.Go{To: keymap.Bench}} }
	turns := func(s Screen, _ screen.Context) bool { return s.current() && s.shown.Turn.Strip > 0 }
	return screen.Table[Screen]{Offers: []keymap.ID{keymap.Undo, keymap.Season}, Entries: []screen.Entry[Screen]{
		screen.Asks(on.Bind(takeTurn, "take remedy", "turn the strip end for end that closes the gap most", 1, "enter"), Screen.take).When(turns),
		screen.Goes(on.Bind("relief-face", "face", "draw the other face: visible face, underside", 2, "f"), Screen.flip),
		screen.Does(on.Bind("relief-wetter", "wetter", "assume a wetter face: neither, the visible face, the underside, by 1 point of moisture", 4, "w"), Screen.wet),
		screen.Goes(on.Bind("relief-numbers", "numbers", "show numbers instead of the drawing: the crown of each strip, the step of each line", 5, "n"), Screen.number),
		bench("relief-left", "strip", "choose the strip to the left", "select-left", 6, "left"),
		bench("relief-right", "strip right", "choose the strip to the right", "select-right", 0, "right"),
		bench("relief-turn", "end for end", "turn the chosen strip end for end", "turn", 7, "e"),
		bench("relief-over", "turn over", "turn the chosen strip over", "turn-over", 0, "o"),
		bench("relief-bark", "bark side", "set where the bark side of the chosen strip lies", "set-bark", 8, "K"),
		bench("relief-carry-left", "carry left", "carry the chosen strip one place to the left", "carry-left", 0, "shift+left", "<"),
		bench("relief-carry-right", "carry right", "carry the chosen strip one place to the right", "carry-right", 0, "shift+right", ">"),
		screen.Asks(on.Bind("relief-close", "bench", "go back to the bench", 3, "esc", "X"), back),
	}}
}

// Keys lists what can be done on the relief.
func (Screen) Keys() []keymap.Action { return table().Actions() }
