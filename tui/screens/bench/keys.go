package bench

import (
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
)

// Keys lists the hand moves of the bench.
func (Screen) Keys() []keymap.Action {
	move := edit.ByID()
	on := func(heading string) keymap.Group { return keymap.Group{Heading: heading, At: keymap.Bench} }
	choose, arrange, mill := on("choose a strip"), on("arrange"), on("turn and mill")
	size, panel, look := on("strip by figures"), on("panel by figures"), on("look")
	again := on("second glue-up")
	return []keymap.Action{
		choose.Hand(move["select-left"], "strip", 16, "left"),
		choose.Hand(move["select-right"], "strip right", 0, "right"),
		choose.Hand(move["select-first"], "first strip", 0, "home"),
		choose.Hand(move["select-last"], "last strip", 0, "end"),
		choose.Hand(move["select"], "number", 0, "n"),
		choose.Bind(keymap.NextCare, "next problem", "go to the next glue line that asks for care", 13, "."),
		choose.Bind(keymap.PreviousCare, "previous problem", "go back to the previous glue line that asks for care", 0, ","),

		arrange.Hand(move["carry-left"], "carry left", 17, "shift+left", "<"),
		arrange.Hand(move["carry-right"], "carry right", 0, "shift+right", ">"),
		arrange.Hand(move["carry-to"], "carry to", 0, "Z"),
		arrange.Hand(move["swap"], "swap", 0, "z"),
		arrange.Hand(move["put-in"], "put in", 1, "a", "insert"),
		arrange.Hand(move["put-in-row"], "strips in a line", 20, "I"),
		arrange.Hand(move["change-timber"], "change timber", 2, "c"),
		arrange.Hand(move["lay-aside"], "lay aside", 3, "x", "delete"),
		arrange.Hand(move["bring-back"], "bring back", 4, "b"),
		arrange.Hand(move["twin"], "twin", 12, "t"),
		arrange.Hand(move["mirror"], "mirror", 10, "m"),
		arrange.Hand(move["pin"], "pin", 0, "p"),
		arrange.Hand(move["fill"], "fit to width", 15, "f"),
		arrange.Bind(keymap.LayOut, "layouts", "show the best layouts of what the rack holds", 5, "v"),
		arrange.Bind(keymap.LayAgain, "again", "make this pattern again from what the rack holds now, timber for timber", 19, "V"),

		mill.Hand(move["roll"], "roll", 14, "r"),
		mill.Hand(move["turn"], "end for end", 0, "e"),
		mill.Hand(move["turn-over"], "turn over", 0, "o"),
		mill.Hand(move["split"], "split", 0, "s"),
		mill.Hand(move["join"], "join", 0, "j"),
		mill.Hand(move["short-ends"], "short ends", 0, "h"),

		size.Hand(move["widen"], "wider", 8, "+", "=").As("widen", "make the strip wider by 1 mm, or 1/16 in"),
		size.Hand(move["narrow"], "narrower", 0, "-").As("narrow", "make the strip narrower by 1 mm, or 1/16 in"),
		size.Hand(move["widen"], "hair wider", 0, "]").As(keymap.WidenFine, "make the strip wider by 0.1 mm, or 1/64 in"),
		size.Hand(move["narrow"], "hair narrower", 0, "[").As(keymap.NarrowFine, "make the strip narrower by 0.1 mm, or 1/64 in"),
		size.Hand(move["set-width"], "width", 7, "w"),
		size.Hand(move["set-length"], "own length", 0, "l"),
		size.Hand(move["slide-far"], "slide far", 18, "up").As("slide-far", "slide the strip 5 mm, or 1/4 in, towards the far end"),
		size.Hand(move["slide-near"], "slide near", 0, "down").As("slide-near", "slide the strip 5 mm, or 1/4 in, towards the datum end"),
		size.Hand(move["slide-far"], "slide far, fine", 0, "shift+up").As(keymap.SlideFarFine, "slide the strip 1 mm, or 1/16 in, towards the far end"),
		size.Hand(move["slide-near"], "slide near, fine", 0, "shift+down").As(keymap.SlideNearFine, "slide the strip 1 mm, or 1/16 in, towards the datum end"),
		size.Hand(move["set-start"], "start", 0, "d"),
		size.Hand(move["set-joints"], "joints", 0, "J"),
		size.Hand(move["next-rings"], "rings", 11, "g"),
		size.Hand(move["set-rings"], "ring angle", 0, "k"),
		size.Hand(move["set-bark"], "bark side", 0, "K"),
		size.Hand(move["set-heart"], "pith", 0, "C"),
		size.Hand(move["set-moisture"], "moisture", 0, "%"),

		panel.Hand(move["another-width"], "another width", 0, "R"),
		panel.Hand(move["set-panel-length"], "panel length", 0, "L"),
		panel.Hand(move["set-thickness"], "panel thickness", 0, "T"),
		panel.Hand(move["set-panel-width"], "wanted width", 0, "W"),
		panel.Hand(move["set-make"], "flat or edge", 0, "E"),
		panel.Hand(move["set-panel-moisture"], "glue-up moisture", 0, "M"),
		panel.Hand(move["set-flattened"], "flattened at", 0, "F"),
		panel.Hand(move["set-name"], "name", 0, "N"),
		panel.Hand(move["set-notes"], "notes", 0, "O"),

		again.Hand(move["glue-again"], "glue again", 9, "G"),
		again.Hand(move["for-board"], "board of a size", 0, "H"),
		again.Bind(keymap.ShowBoard, "show board", "show the board that second glue-ups give, or the panel", 6, "Y"),

		look.Bind(keymap.TurnPanel, "turn panel", "draw the panel along the screen, or upright", 21, "|", "D"),
		look.Bind(keymap.Relief, "relief", "show how both faces will stand in the dry and the humid season", 22, "X"),
		look.Bind(keymap.Advice, "take remedy", "make the change that the line above offers", 0, "enter"),
	}
}
