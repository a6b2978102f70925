package bench

import "example.com/oddments/tui/keymap"

// Keys lists the hand moves of the bench.
func (Screen) Keys() []keymap.Action {
	on := func(heading string) keymap.Group { return keymap.Group{Heading: heading, At: keymap.Bench} }
	choose, arrange, mill := on("choose a strip"), on("arrange"), on("turn and mill")
	size, panel, look := on("strip by figures"), on("panel by figures"), on("look")
	return []keymap.Action{
		choose.Bind("select-left", "strip", "choose the strip to the left", 1, "left"),
		choose.Bind("select-right", "strip right", "choose the strip to the right", 0, "right"),
		choose.Bind("select-first", "first strip", "choose the strip at the left edge", 0, "home"),
		choose.Bind("select-last", "last strip", "choose the strip at the right edge", 0, "end"),
		choose.Bind("select", "number", "choose a strip by its number", 0, "n"),
		choose.Bind(keymap.NextCare, "next care", "go to the next glue line that asks for care", 12, "."),
		choose.Bind(keymap.PreviousCare, "care before", "go back to the glue line before that asks for care", 0, ","),

		arrange.Bind("carry-left", "carry left", "carry the strip past its left neighbour", 2, "shift+left", "<"),
		arrange.Bind("carry-right", "carry right", "carry the strip past its right neighbour", 0, "shift+right", ">"),
		arrange.Bind("carry-to", "carry to", "carry the strip to a place, by its number", 0, "Z"),
		arrange.Bind("swap", "swap", "swap the strip with another, by its number", 0, "z"),
		arrange.Bind("put-in", "put in", "put a strip of a timber in after this one", 3, "a", "insert"),
		arrange.Bind("change-timber", "change timber", "put another timber in this strip's place", 4, "c"),
		arrange.Bind("lay-aside", "lay aside", "lay the strip aside on the tray", 5, "x", "delete"),
		arrange.Bind("bring-back", "bring back", "bring a strip back from the tray", 0, "b"),
		arrange.Bind("twin", "twin", "put a twin of the strip in after it", 15, "t"),
		arrange.Bind("mirror", "mirror", "mirror the half you stand in onto the other", 11, "m"),
		arrange.Bind("pin", "pin", "pin the strip, or take its pin out: mirror and fill leave it alone", 0, "p"),
		arrange.Bind("fill", "fill", "share out what is wanting of the width over the strips", 13, "f"),
		arrange.Bind(keymap.LayOut, "lay out", "see the best layouts of what the rack holds", 6, "v"),
		arrange.Bind(keymap.LayAgain, "again", "make this pattern again from what the rack holds now, timber for timber", 16, "V"),

		mill.Bind("roll", "roll", "roll the strip a quarter turn: width and thickness change places, the rings too", 7, "r"),
		mill.Bind("turn", "end for end", "turn the strip end for end", 0, "e"),
		mill.Bind("turn-over", "turn over", "turn the strip over to its other face", 0, "o"),
		mill.Bind("split", "split", "rip the strip in two", 0, "s"),
		mill.Bind("join", "join", "join the strip with its right neighbour", 0, "j"),
		mill.Bind("short-ends", "short ends", "crosscut every strip to what its products need, short ends outside", 0, "h"),

		size.Bind("widen", "wider", "make the strip wider by 1 mm, or 1/16 in", 8, "+", "="),
		size.Bind("narrow", "narrower", "make the strip narrower by 1 mm, or 1/16 in", 0, "-"),
		size.Bind(keymap.WidenFine, "hair wider", "make the strip wider by 0.1 mm, or 1/64 in", 0, "]"),
		size.Bind(keymap.NarrowFine, "hair narrower", "make the strip narrower by 0.1 mm, or 1/64 in", 0, "["),
		size.Bind("set-width", "width", "make the strip as wide as you say", 9, "w"),
		size.Bind("set-length", "own length", "give the strip a length of its own", 0, "l"),
		size.Bind("slide-far", "slide far", "slide the strip 5 mm, or 1/4 in, towards the far end", 14, "up"),
		size.Bind("slide-near", "slide near", "slide the strip 5 mm, or 1/4 in, towards the datum end", 0, "down"),
		size.Bind(keymap.SlideFarFine, "slide far, fine", "slide the strip 1 mm, or 1/16 in, towards the far end", 0, "shift+up"),
		size.Bind(keymap.SlideNearFine, "slide near, fine", "slide the strip 1 mm, or 1/16 in, towards the datum end", 0, "shift+down"),
		size.Bind("set-start", "start", "say how far from the datum end the strip starts", 0, "d"),
		size.Bind("next-rings", "rings", "go on to the next kind of rings: flat, rift, quarter, unknown", 10, "g"),
		size.Bind("set-rings", "ring angle", "say at what angle the rings of the strip stand", 0, "k"),
		size.Bind("set-moisture", "moisture", "say what the strip's moisture reads", 0, "%"),

		panel.Bind("another-width", "another width", "make the pattern for an order of another width: more or fewer repeats, or other strip widths", 0, "R"),
		panel.Bind("set-panel-length", "panel length", "say how long the finished panel is", 0, "L"),
		panel.Bind("set-thickness", "panel thickness", "say how thick the finished panel is", 0, "T"),
		panel.Bind("set-panel-width", "wanted width", "say how wide the panel should be", 0, "W"),
		panel.Bind("set-make", "flat or edge", "change between strips cut flat and on edge", 0, "E"),
		panel.Bind("set-panel-moisture", "glue-up moisture", "say what moisture the panel is glued at", 0, "M"),
		panel.Bind("set-flattened", "flush moisture", "say what moisture the panel is made flush at", 0, "F"),
		panel.Bind("set-name", "name", "name the pattern", 0, "N"),
		panel.Bind("set-notes", "notes", "write notes on the pattern", 0, "O"),

		look.Bind(keymap.Advice, "take advice", "make the change that the advice on this strip offers", 0, "enter"),
	}
}
