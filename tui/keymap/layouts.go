package keymap

// The actions of the gallery of layouts.
const (
	LayOut       ID = "lay-out"
	LayAgain     ID = "lay-again"
	LayUp        ID = "lay-up"
	LayDown      ID = "lay-down"
	LayLeft      ID = "lay-left"
	LayRight     ID = "lay-right"
	LayTake      ID = "lay-take"
	LayPin       ID = "lay-pin"
	LayAsk       ID = "lay-ask"
	LayMore      ID = "lay-more"
	LayStop      ID = "lay-stop"
	LayClose     ID = "lay-close"
	LayTell      ID = "lay-tell"
	LayWider     ID = "lay-wider"
	LayTighter   ID = "lay-tighter"
	LayLevel     ID = "lay-level"
	LayAim       ID = "lay-aim"
	LayContrast  ID = "lay-contrast"
	LayContrastN ID = "lay-contrast-less"
	LayMirror    ID = "lay-mirror"
	LayTwins     ID = "lay-twins"
	LayStrips    ID = "lay-strips"
	LayCount     ID = "lay-count"
	LayCountN    ID = "lay-count-less"
	LayDiffer    ID = "lay-differ"
	LayDifferN   ID = "lay-differ-less"
	LayWidths    ID = "lay-widths"
	LayFrom      ID = "lay-from"
	LayCopies    ID = "lay-copies"
	LayCopiesN   ID = "lay-copies-less"
)

// layoutActions lists what is done in the gallery of layouts.
func layoutActions() []Action {
	return []Action{
		{LayTake, []string{"enter"}, "take", "put this layout on the bench, or loosen as it says", OnLayouts, 1},
		{LayClose, []string{"esc", "v"}, "bench", "go back to the bench; a search goes on", OnLayouts, 2},
		{LayStop, []string{"x"}, "stop", "stop the search with the best so far", OnLayouts, 3},
		{LayAsk, []string{"g"}, "ask again", "ask again, with the pins as they are now", OnLayouts, 4},
		{LayMore, []string{"a"}, "more", "find more, unlike these", OnLayouts, 5},
		{LayUp, []string{"up"}, "layout", "go to the layout above", OnLayouts, 6},
		{LayDown, []string{"down"}, "layout below", "go to the layout below", OnLayouts, 0},
		{LayLeft, []string{"left"}, "strip", "look at the strip to the left", OnLayouts, 7},
		{LayRight, []string{"right"}, "strip right", "look at the strip to the right", OnLayouts, 0},
		{LayPin, []string{"p"}, "pin", "pin this strip at its place for the next ask, or take its pin out", OnLayouts, 8},
		{LayTell, []string{"o"}, "tell all", "tell all of this layout: each strip that differs, each glue line, the order of work", OnLayouts, 9},
		{LayWider, []string{"t"}, "looser", "let the width differ by more", OnLayouts, 0},
		{LayTighter, []string{"T"}, "tighter", "let the width differ by less", OnLayouts, 0},
		{LayLevel, []string{"l"}, "level", "go on to the next worst level that a glue line may have", OnLayouts, 0},
		{LayAim, []string{"m"}, "aim", "aim at using up what is marked use first, or at contrast", OnLayouts, 0},
		{LayContrast, []string{"c"}, "more contrast", "ask for 2 more contrast between neighbours, where the aim is to use up", OnLayouts, 0},
		{LayContrastN, []string{"C"}, "less contrast", "ask for 2 less contrast between neighbours", OnLayouts, 0},
		{LayMirror, []string{"s"}, "symmetric", "ask for layouts that are their own mirror image, or for any", OnLayouts, 0},
		{LayTwins, []string{"b"}, "twins", "forbid a timber beside itself, or allow it", OnLayouts, 0},
		{LayStrips, []string{"n"}, "how many strips", "say how many strips, as 11 or 9-13", OnLayouts, 0},
		{LayWidths, []string{"w"}, "strip widths", "say what widths strips may have, parted by commas", OnLayouts, 0},
		{LayFrom, []string{"f"}, "from", "lay out ready strips alone, or cut strips from pieces too", OnLayouts, 0},
		{LayCount, []string{"k"}, "more layouts", "ask for one layout more", OnLayouts, 0},
		{LayCountN, []string{"K"}, "fewer layouts", "ask for one layout fewer", OnLayouts, 0},
		{LayDiffer, []string{"d"}, "more apart", "let layouts differ by one strip more", OnLayouts, 0},
		{LayDifferN, []string{"D"}, "less apart", "let layouts differ by one strip less", OnLayouts, 0},
		{LayCopies, []string{"+", "="}, "one more", "make one copy more of a pattern that is made again", OnLayouts, 0},
		{LayCopiesN, []string{"-"}, "one fewer", "make one copy fewer", OnLayouts, 0},
	}
}
