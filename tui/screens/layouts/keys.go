package layouts

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "layouts"

// The actions that are named elsewhere too.
const (
	layUp        keymap.ID = "lay-up"
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
	layHold      keymap.ID = "lay-hold"
	layTimbers   keymap.ID = "lay-timbers"
	layHowMany   keymap.ID = "lay-how-many"
	layVary      keymap.ID = "lay-vary"
	layWithin    keymap.ID = "lay-within"
	layLongest   keymap.ID = "lay-longest"
	layJoin      keymap.ID = "lay-join"
)

// table lists what is done in the gallery of layouts.
func table() screen.Table[Screen] {
	return screen.Table[Screen]{Entries: append(galleryEntries(), wishEntries()...)}
}

// Keys lists what is done in the gallery of layouts.
func (Screen) Keys() []keymap.Action { return table().Actions() }

func group() keymap.Group { return keymap.Group{Heading: "layouts", At: Place} }

// galleryEntries lists what is done with what was found.
func galleryEntries() []screen.Entry[Screen] {
	on := group()
	return []screen.Entry[Screen]{
		screen.Does(on.Bind(layTake, "take", "put this layout on the bench, or make the chosen change", 1, "enter"), Screen.take),
		screen.Asks(on.Bind(layClose, "bench", "go back to the bench; a search continues", 2, "esc", "v"), Screen.close),
		screen.Asks(on.Bind(layStop, "stop", "stop the search with the best so far", 3, "x"), Screen.stop),
		screen.Does(on.Bind(layAsk, "ask again", "search again, with the pins as they are now", 4, "g"), Screen.askAnew),
		screen.Does(on.Bind(layMore, "more", "find more layouts that differ from these", 5, "a"), Screen.more),
		screen.Steps(on.Bind(layUp, "layout", "go to the layout above", 6, "up"), -1, Screen.goBy),
		screen.Steps(on.Bind("lay-down", "layout below", "go to the layout below", 0, "down"), 1, Screen.goBy),
		screen.Steps(on.Bind(layLeft, "strip", "look at the strip to the left", 7, "left"), -1, Screen.goStrip),
		screen.Steps(on.Bind(layRight, "strip right", "look at the strip to the right", 0, "right"), 1, Screen.goStrip),
		screen.Does(on.Bind(layPin, "pin", "pin this strip at its place for the next search, or take its pin out", 8, "p"), Screen.pin),
		screen.Asks(on.Bind(layTell, "show all", "show all of this layout: each strip that differs, each glue line, the order of work", 9, "o"),
			Screen.tell),
	}
}

// wishEntries lists what changes what is asked for.
func wishEntries() []screen.Entry[Screen] {
	on := group()
	return []screen.Entry[Screen]{
		screen.Asks(on.Bind(layHold, "look", "hold one look, or ask for one of each", 0, "h"), Screen.hold),
		screen.Asks(on.Bind(layTimbers, "timbers", "take timbers in or out, and set how much of one there may be", 0, "e"), Screen.pickTimbers),
		screen.Asks(on.Bind(layHowMany, "how many timbers", "set how many different timbers a layout has", 0, "N"), Screen.askTimbers),
		screen.Does(on.Bind(layVary, "other timbers", "ask for other timbers in each look, or allow the same", 0, "O"), forNew(wishVary)),
		screen.Asks(on.Bind(layWithin, "range of width", "set the least and the most width of the panel", 0, "r"), Screen.askWithin),
		screen.Asks(on.Bind(layLongest, "longest piece", "leave rough pieces alone that are longer", 0, "L"), Screen.askLongest),
		screen.Does(on.Bind(layWider, "looser", "let the width differ by more", 0, "t"), forNew(wishTolerance(1))),
		screen.Does(on.Bind(layTighter, "tighter", "let the width differ by less", 0, "T"), forNew(wishTolerance(-1))),
		screen.Does(on.Bind(layLevel, "level", "change the worst level that a glue line may have", 0, "l"), forBoth(wishLevel)),
		screen.Does(on.Bind(layAim, "aim", "aim at wood marked use first, or at contrast", 0, "m"), forNew(wishAim)),
		screen.Does(on.Bind(layContrast, "more contrast", "ask for 2 more contrast between neighbours, where the aim is use-first wood", 0, "c"),
			forNew(wishContrast(2))),
		screen.Does(on.Bind(layContrastN, "less contrast", "ask for 2 less contrast between neighbours", 0, "C"), forNew(wishContrast(-2))),
		screen.Does(on.Bind(layMirror, "symmetric", "ask for layouts that are their own mirror image, or for any", 0, "s"),
			forNew(wishMirror)),
		screen.Does(on.Bind(layTwins, "twins", "forbid or allow the same wood side by side", 0, "b"), forNew(wishTwins)),
		screen.Asks(on.Bind(layStrips, "how many strips", "set how many strips, like 11 or 9-13", 0, "n"), Screen.askStrips),
		screen.Asks(on.Bind(layWidths, "strip widths", "set which widths strips may have, separated by commas", 0, "w"), Screen.askWidths),
		screen.Does(on.Bind(layFrom, "from", "use ready strips alone, or cut strips from pieces too", 0, "f"), forNew(wishFrom)),
		screen.Does(on.Bind(layJoin, "joints", "let strips be made of several pieces, joints in the waste between products: as bricks, in any gap, or whole again", 0, "j"), Screen.joinStrips),
		screen.Does(on.Bind(layCount, "more layouts", "ask for one layout more", 0, "k"), showBy(1)),
		screen.Does(on.Bind(layCountN, "fewer layouts", "ask for one layout fewer", 0, "K"), showBy(-1)),
		screen.Does(on.Bind(layDiffer, "more apart", "let layouts differ by more: a share of the width, or strips", 0, "d"), forNew(wishDiffer(1))),
		screen.Does(on.Bind(layDifferN, "less apart", "let layouts differ by less", 0, "D"), forNew(wishDiffer(-1))),
		screen.Does(on.Bind(layCopies, "one more", "make one copy more of a pattern that is made again", 0, "+", "="), copies(1)),
		screen.Does(on.Bind(layCopiesN, "one fewer", "make one copy fewer", 0, "-"), copies(-1)),
	}
}
