package layouts

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "laid out for you"

// Keys lists what is done in the gallery of layouts.
func Keys() []keymap.Action {
	on := keymap.Group{Heading: "laid out for you", At: Place}
	return []keymap.Action{
		on.Bind(keymap.LayTake, "take", "put this layout on the bench, or loosen as it says", 1, "enter"),
		on.Bind(keymap.LayClose, "bench", "go back to the bench; a search goes on", 2, "esc", "v"),
		on.Bind(keymap.LayStop, "stop", "stop the search with the best so far", 3, "x"),
		on.Bind(keymap.LayAsk, "ask again", "ask again, with the pins as they are now", 4, "g"),
		on.Bind(keymap.LayMore, "more", "find more, unlike these", 5, "a"),
		on.Bind(keymap.LayUp, "layout", "go to the layout above", 6, "up"),
		on.Bind(keymap.LayDown, "layout below", "go to the layout below", 0, "down"),
		on.Bind(keymap.LayLeft, "strip", "look at the strip to the left", 7, "left"),
		on.Bind(keymap.LayRight, "strip right", "look at the strip to the right", 0, "right"),
		on.Bind(keymap.LayPin, "pin", "pin this strip at its place for the next ask, or take its pin out", 8, "p"),
		on.Bind(keymap.LayTell, "tell all", "tell all of this layout: each strip that differs, each glue line, the order of work", 9, "o"),
		on.Bind(keymap.LayWider, "looser", "let the width differ by more", 0, "t"),
		on.Bind(keymap.LayTighter, "tighter", "let the width differ by less", 0, "T"),
		on.Bind(keymap.LayLevel, "level", "go on to the next worst level that a glue line may have", 0, "l"),
		on.Bind(keymap.LayAim, "aim", "aim at using up what is marked use first, or at contrast", 0, "m"),
		on.Bind(keymap.LayContrast, "more contrast", "ask for 2 more contrast between neighbours, where the aim is to use up", 0, "c"),
		on.Bind(keymap.LayContrastN, "less contrast", "ask for 2 less contrast between neighbours", 0, "C"),
		on.Bind(keymap.LayMirror, "symmetric", "ask for layouts that are their own mirror image, or for any", 0, "s"),
		on.Bind(keymap.LayTwins, "twins", "forbid a timber beside itself, or allow it", 0, "b"),
		on.Bind(keymap.LayStrips, "how many strips", "say how many strips, as 11 or 9-13", 0, "n"),
		on.Bind(keymap.LayWidths, "strip widths", "say what widths strips may have, parted by commas", 0, "w"),
		on.Bind(keymap.LayFrom, "from", "lay out ready strips alone, or cut strips from pieces too", 0, "f"),
		on.Bind(keymap.LayCount, "more layouts", "ask for one layout more", 0, "k"),
		on.Bind(keymap.LayCountN, "fewer layouts", "ask for one layout fewer", 0, "K"),
		on.Bind(keymap.LayDiffer, "more apart", "let layouts differ by one strip more", 0, "d"),
		on.Bind(keymap.LayDifferN, "less apart", "let layouts differ by one strip less", 0, "D"),
		on.Bind(keymap.LayCopies, "one more", "make one copy more of a pattern that is made again", 0, "+", "="),
		on.Bind(keymap.LayCopiesN, "one fewer", "make one copy fewer", 0, "-"),
	}
}
