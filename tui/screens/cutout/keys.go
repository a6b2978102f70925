package cutout

import (
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "cut out"

// The actions of the screen.
const (
	cutLeft      keymap.ID = "cut-left"
	cutRight     keymap.ID = "cut-right"
	cutUp        keymap.ID = "cut-up"
	cutDown      keymap.ID = "cut-down"
	cutLeftFine  keymap.ID = "cut-left-fine"
	cutRightFine keymap.ID = "cut-right-fine"
	cutUpFine    keymap.ID = "cut-up-fine"
	cutDownFine  keymap.ID = "cut-down-fine"
	cutNext      keymap.ID = "cut-next"
	cutLast      keymap.ID = "cut-last"
	cutMore      keymap.ID = "cut-more"
	cutFewer     keymap.ID = "cut-fewer"
	cutCentre    keymap.ID = "cut-centre"
	cutBevel     keymap.ID = "cut-bevel"
	cutSide      keymap.ID = "cut-side"
	cutSlideFar  keymap.ID = "cut-slide-far"
	cutSlideNear keymap.ID = "cut-slide-near"
	cutSlideFine keymap.ID = "cut-slide-fine"
	cutNearFine  keymap.ID = "cut-near-fine"
	cutKeep      keymap.ID = "cut-keep"
	cutSheet     keymap.ID = "cut-sheet"
)

// Keys lists what can be done where products are cut out.
func (Screen) Keys() []keymap.Action {
	move := edit.ByID()
	on := keymap.Group{Heading: "where products are cut out", At: Place}
	return []keymap.Action{
		on.Bind(cutLeft, "cursor", "take the cursor 10 mm, or 1/2 in, towards the datum end", 1, "left"),
		on.Bind(cutRight, "cursor right", "take the cursor 10 mm, or 1/2 in, towards the far end", 0, "right"),
		on.Bind(cutUp, "cursor up", "take the cursor 10 mm, or 1/2 in, towards edge A", 0, "up"),
		on.Bind(cutDown, "cursor down", "take the cursor 10 mm, or 1/2 in, away from edge A", 0, "down"),
		on.Bind(cutLeftFine, "cursor left, fine", "take the cursor 1 mm, or 1/16 in, towards the datum end", 0, "shift+left"),
		on.Bind(cutRightFine, "cursor right, fine", "take the cursor 1 mm, or 1/16 in, towards the far end", 0, "shift+right"),
		on.Bind(cutUpFine, "cursor up, fine", "take the cursor 1 mm, or 1/16 in, towards edge A", 0, "shift+up"),
		on.Bind(cutDownFine, "cursor down, fine", "take the cursor 1 mm, or 1/16 in, away from edge A", 0, "shift+down"),
		on.Bind(cutNext, "next copy", "choose the next copy of what is cut out", 2, ".", "pgdown"),
		on.Bind(cutLast, "copy before", "choose the copy before", 0, ",", "pgup"),
		on.Hand(move["add-product"], "add", 3, "a", "insert"),
		on.Hand(move["set-product"], "change", 4, "enter", "e"),
		on.Bind(cutMore, "more", "cut out one more of the product", 5, "+", "="),
		on.Bind(cutFewer, "fewer", "cut out one fewer; below one, the last product fills the rows", 0, "-"),
		on.Hand(move["drop-product"], "take away", 6, "x", "delete"),
		on.Hand(move["product-sooner"], "sooner", 0, "<"),
		on.Bind(cutCentre, "centre", "say what the middle row lies on: panel, a strip or a glue line", 7, "c"),
		on.Bind(cutBevel, "bevel", "say how deep the bevel is", 8, "b"),
		on.Bind(cutSide, "bevel side", "go on to the next side of the bevel: under, top, both", 0, "o"),
		on.Hand(move["add-avoid"], "knot", 9, "k"),
		on.Hand(move["set-avoid"], "knot by figures", 0, "K"),
		on.Hand(move["drop-avoid"], "knot away", 10, "j"),
		on.Bind(cutSlideFar, "slide", "slide the copy 5 mm, or 1/4 in, towards the far end, to try", 11, "]"),
		on.Bind(cutSlideNear, "slide back", "slide the copy 5 mm, or 1/4 in, back towards the datum end", 0, "["),
		on.Bind(cutSlideFine, "slide, fine", "slide the copy 1 mm, or 1/16 in, towards the far end, to try", 0, "}"),
		on.Bind(cutNearFine, "slide back, fine", "slide the copy 1 mm, or 1/16 in, back towards the datum end", 0, "{"),
		on.Bind(cutKeep, "keep slid", "keep what was slid where it is, by a mark before it", 12, "z"),
		on.Bind(keymap.ShortEnds, "short ends", "crosscut every strip to what its products need, short ends outside", 13, "h"),
		on.Bind(cutSheet, "mark-out", "show the whole mark-out, to read it at the bench", 14, "s"),
	}
}
