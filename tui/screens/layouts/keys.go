package layouts

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "laid out for you"

// The actions of the screen.
const (
	layUp        keymap.ID = "lay-up"
	layDown      keymap.ID = "lay-down"
	layLeft      keymap.ID = "lay-left"
	layRight     keymap.ID = "lay-right"
	layTake      keymap.ID = "lay-take"
	layPin       keymap.ID = "lay-pin"
	layAsk       keymap.ID = "lay-ask"
	layMore      keymap.ID = "lay-more"
	layStop      keymap.ID = "lay-stop"
	layClose     keymap.ID = "lay-close"
	layTell      keymap.ID = "lay-tell"
	layWider     keymap.ID = "lay-wider"
	layTighter   keymap.ID = "lay-tighter"
	layLevel     keymap.ID = "lay-level"
	layAim       keymap.ID = "lay-aim"
	layContrast  keymap.ID = "lay-contrast"
	layContrastN keymap.ID = "lay-contrast-less"
	layMirror    keymap.ID = "lay-mirror"
	layTwins     keymap.ID = "lay-twins"
	layStrips    keymap.ID = "lay-strips"
	layCount     keymap.ID = "lay-count"
	layCountN    keymap.ID = "lay-count-less"
	layDiffer    keymap.ID = "lay-differ"
	layDifferN   keymap.ID = "lay-differ-less"
	layWidths    keymap.ID = "lay-widths"
	layFrom      keymap.ID = "lay-from"
	layCopies    keymap.ID = "lay-copies"
	layCopiesN   keymap.ID = "lay-copies-less"
)

// Keys lists what is done in the gallery of layouts.
func (Screen) Keys() []keymap.Action {
	on := keymap.Group{Heading: "laid out for you", At: Place}
	return []keymap.Action{
		on.Bind(layTake, "take", "put this layout on the bench, or loosen as it says", 1, "enter"),
		on.Bind(layClose, "bench", "go back to the bench; a search goes on", 2, "esc", "v"),
		on.Bind(layStop, "stop", "stop the search with the best so far", 3, "x"),
		on.Bind(layAsk, "ask again", "ask again, with the pins as they are now", 4, "g"),
		on.Bind(layMore, "more", "find more, unlike these", 5, "a"),
		on.Bind(layUp, "layout", "go to the layout above", 6, "up"),
		on.Bind(layDown, "layout below", "go to the layout below", 0, "down"),
		on.Bind(layLeft, "strip", "look at the strip to the left", 7, "left"),
		on.Bind(layRight, "strip right", "look at the strip to the right", 0, "right"),
		on.Bind(layPin, "pin", "pin this strip at its place for the next ask, or take its pin out", 8, "p"),
		on.Bind(layTell, "tell all", "tell all of this layout: each strip that differs, each glue line, the order of work", 9, "o"),
		on.Bind(layWider, "looser", "let the width differ by more", 0, "t"),
		on.Bind(layTighter, "tighter", "let the width differ by less", 0, "T"),
		on.Bind(layLevel, "level", "go on to the next worst level that a glue line may have", 0, "l"),
		on.Bind(layAim, "aim", "aim at using up what is marked use first, or at contrast", 0, "m"),
		on.Bind(layContrast, "more contrast", "ask for 2 more contrast between neighbours, where the aim is to use up", 0, "c"),
		on.Bind(layContrastN, "less contrast", "ask for 2 less contrast between neighbours", 0, "C"),
		on.Bind(layMirror, "symmetric", "ask for layouts that are their own mirror image, or for any", 0, "s"),
		on.Bind(layTwins, "twins", "forbid a timber beside itself, or allow it", 0, "b"),
		on.Bind(layStrips, "how many strips", "say how many strips, as 11 or 9-13", 0, "n"),
		on.Bind(layWidths, "strip widths", "say what widths strips may have, parted by commas", 0, "w"),
		on.Bind(layFrom, "from", "lay out ready strips alone, or cut strips from pieces too", 0, "f"),
		on.Bind(layCount, "more layouts", "ask for one layout more", 0, "k"),
		on.Bind(layCountN, "fewer layouts", "ask for one layout fewer", 0, "K"),
		on.Bind(layDiffer, "more apart", "let layouts differ by one strip more", 0, "d"),
		on.Bind(layDifferN, "less apart", "let layouts differ by one strip less", 0, "D"),
		on.Bind(layCopies, "one more", "make one copy more of a pattern that is made again", 0, "+", "="),
		on.Bind(layCopiesN, "one fewer", "make one copy fewer", 0, "-"),
	}
}
