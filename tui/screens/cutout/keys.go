package cutout

import "example.com/oddments/tui/keymap"

// Place is where the keys of the screen hold.
const Place keymap.Place = "cut out"

// Keys lists what can be done where products are cut out.
func Keys() []keymap.Action {
	on := keymap.Group{Heading: "where products are cut out", At: Place}
	return []keymap.Action{
		on.Bind(keymap.CutLeft, "cursor", "take the cursor 10 mm, or 1/2 in, towards the datum end", 1, "left"),
		on.Bind(keymap.CutRight, "cursor right", "take the cursor 10 mm, or 1/2 in, towards the far end", 0, "right"),
		on.Bind(keymap.CutUp, "cursor up", "take the cursor 10 mm, or 1/2 in, towards edge A", 0, "up"),
		on.Bind(keymap.CutDown, "cursor down", "take the cursor 10 mm, or 1/2 in, away from edge A", 0, "down"),
		on.Bind(keymap.CutLeftFine, "cursor left, fine", "take the cursor 1 mm, or 1/16 in, towards the datum end", 0, "shift+left"),
		on.Bind(keymap.CutRightFine, "cursor right, fine", "take the cursor 1 mm, or 1/16 in, towards the far end", 0, "shift+right"),
		on.Bind(keymap.CutUpFine, "cursor up, fine", "take the cursor 1 mm, or 1/16 in, towards edge A", 0, "shift+up"),
		on.Bind(keymap.CutDownFine, "cursor down, fine", "take the cursor 1 mm, or 1/16 in, away from edge A", 0, "shift+down"),
		on.Bind(keymap.CutNext, "next copy", "choose the next copy of what is cut out", 2, ".", "pgdown"),
		on.Bind(keymap.CutLast, "copy before", "choose the copy before", 0, ",", "pgup"),
		on.Bind("add-product", "add", "type another product as it is spoken: round 290 x2 bevel 8", 3, "a", "insert"),
		on.Bind("set-product", "change", "change the product's line", 4, "enter", "e"),
		on.Bind(keymap.CutMore, "more", "cut out one more of the product", 5, "+", "="),
		on.Bind(keymap.CutFewer, "fewer", "cut out one fewer; below one, the last product fills the rows", 0, "-"),
		on.Bind("drop-product", "take away", "take the product off the list", 6, "x", "delete"),
		on.Bind("product-sooner", "sooner", "let the product lie nearer the datum end, before the one ahead of it", 0, "<"),
		on.Bind(keymap.CutCentre, "centre", "say what the middle row lies on: panel, a strip or a glue line", 7, "c"),
		on.Bind(keymap.CutBevel, "bevel", "say how deep the bevel is", 8, "b"),
		on.Bind(keymap.CutSide, "bevel side", "go on to the next side of the bevel: under, top, both", 0, "o"),
		on.Bind("add-avoid", "knot", "mark a knot at the cursor, which no product may take in", 9, "k"),
		on.Bind("set-avoid", "knot by figures", "type where the knot at the cursor lies and how large it is", 0, "K"),
		on.Bind("drop-avoid", "knot away", "take the knot at the cursor away", 10, "j"),
		on.Bind(keymap.CutSlideFar, "slide", "slide the copy 5 mm, or 1/4 in, towards the far end, to try", 11, "]"),
		on.Bind(keymap.CutSlideNear, "slide back", "slide the copy 5 mm, or 1/4 in, back towards the datum end", 0, "["),
		on.Bind(keymap.CutSlideFine, "slide, fine", "slide the copy 1 mm, or 1/16 in, towards the far end, to try", 0, "}"),
		on.Bind(keymap.CutNearFine, "slide back, fine", "slide the copy 1 mm, or 1/16 in, back towards the datum end", 0, "{"),
		on.Bind(keymap.CutKeep, "keep slid", "keep what was slid where it is, by a mark before it", 12, "z"),
		on.Bind(keymap.CutShort, "short ends", "crosscut every strip to what its products need, short ends outside", 13, "h"),
		on.Bind(keymap.CutSheet, "mark-out", "show the whole mark-out, to read it at the bench", 14, "s"),
	}
}
