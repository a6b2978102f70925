package cutout

import (
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// Place is where the keys of the screen hold.
const Place keymap.Place = "cut out"

// The actions that are named elsewhere too.
const (
	cutBevel    keymap.ID = "cut-bevel"
	cutSlideFar keymap.ID = "cut-slide-far"
	cutKeep     keymap.ID = "cut-keep"
	cutSheet    keymap.ID = "cut-sheet"
)

// table lists what can be done where products are cut out.
func table() screen.Table[Screen] {
	entries := cursorEntries()
	entries = append(entries, productEntries()...)
	entries = append(entries, slideEntries()...)
	return screen.Table[Screen]{Offers: []keymap.ID{keymap.Undo, keymap.Save}, Wheel: Screen.Go, Entries: entries}
}

// Keys lists what can be done where products are cut out.
func (Screen) Keys() []keymap.Action { return table().Actions() }

func group() keymap.Group { return keymap.Group{Heading: "where products are cut out", At: Place} }

// listed, strips, onPanel and knotted say when keys matter: where a copy or product is chosen,
// where there is a panel or a board, where what is chosen lies on a panel, where the cursor is
// on a knot.
func listed(s Screen, _ screen.Context) bool {
	_, any := s.Chosen()
	return any
}

func strips(_ Screen, ctx screen.Context) bool { return len(ground(ctx).Strips) > 0 }

func onPanel(s Screen, ctx screen.Context) bool { return listed(s, ctx) && board(ctx) == nil }

func knotted(s Screen, ctx screen.Context) bool {
	_, knot := s.Knot(ground(ctx))
	return knot
}

// cursorEntries lists what takes the cursor about and chooses copies.
func cursorEntries() []screen.Entry[Screen] {
	on := group()
	// The steps of the cursor, in the maker's unit.
	far := screen.Step{MM: 10 * length.Millimetre, Inches: length.Inch / 2}
	fine := screen.Step{MM: length.Millimetre, Inches: length.Inch / 16}
	by := func(along, across length.Length, step screen.Step) func(Screen, screen.Context) Screen {
		return func(s Screen, ctx screen.Context) Screen {
			size := step.In(ctx.Unit)
			return s.Move(along*size, across*size, ctx)
		}
	}
	return []screen.Entry[Screen]{
		screen.Goes(on.Bind("cut-left", "cursor", "move the cursor 10 mm, or 1/2 in, towards the datum end", 1, "left"),
			by(-1, 0, far)).When(strips),
		screen.Goes(on.Bind("cut-right", "cursor right", "move the cursor 10 mm, or 1/2 in, towards the far end", 0, "right"), by(1, 0, far)),
		screen.Goes(on.Bind("cut-up", "cursor up", "move the cursor 10 mm, or 1/2 in, towards edge A", 0, "up"), by(0, -1, far)),
		screen.Goes(on.Bind("cut-down", "cursor down", "move the cursor 10 mm, or 1/2 in, away from edge A", 0, "down"), by(0, 1, far)),
		screen.Goes(on.Bind("cut-left-fine", "cursor left, fine", "move the cursor 1 mm, or 1/16 in, towards the datum end", 0, "shift+left"),
			by(-1, 0, fine)),
		screen.Goes(on.Bind("cut-right-fine", "cursor right, fine", "move the cursor 1 mm, or 1/16 in, towards the far end", 0, "shift+right"),
			by(1, 0, fine)),
		screen.Goes(on.Bind("cut-up-fine", "cursor up, fine", "move the cursor 1 mm, or 1/16 in, towards edge A", 0, "shift+up"),
			by(0, -1, fine)),
		screen.Goes(on.Bind("cut-down-fine", "cursor down, fine", "move the cursor 1 mm, or 1/16 in, away from edge A", 0, "shift+down"),
			by(0, 1, fine)),
		screen.Steps(on.Bind("cut-next", "next copy", "choose the next copy", 2, ".", "pgdown"), 1, Screen.Go).When(listed),
		screen.Steps(on.Bind("cut-last", "previous copy", "choose the previous copy", 0, ",", "pgup"), -1, Screen.Go),
	}
}

// productEntries lists what is done on products and knots.
func productEntries() []screen.Entry[Screen] {
	move, on := edit.ByID(), group()
	return []screen.Entry[Screen]{
		screen.Asks(on.Hand(move["add-product"], "add", 3, "a", "insert"), Screen.addProduct),
		screen.Asks(on.Hand(move["set-product"], "change", 4, "enter", "e"), Screen.changeProduct).When(listed),
		screen.Asks(on.Bind("cut-more", "more", "cut out one more of the product", 5, "+", "="), moreOf(1)).When(listed),
		screen.Asks(on.Bind("cut-fewer", "fewer", "cut out one fewer; below one, the last product fills the rows", 0, "-"), moreOf(-1)),
		screen.Asks(on.Hand(move["drop-product"], "remove", 6, "x", "delete"), Screen.dropProduct).When(listed),
		screen.Asks(on.Hand(move["product-sooner"], "sooner", 0, "<"), Screen.sooner),
		screen.Asks(on.Bind("cut-centre", "centre", "set what the middle row is centred on: panel, a strip or a glue line", 7, "c"),
			Screen.askCentre).When(onPanel),
		screen.Asks(on.Bind(cutBevel, "bevel", "set how deep the bevel is", 8, "b"), Screen.askBevel).When(listed),
		screen.Asks(on.Bind("cut-side", "bevel side", "change the side of the bevel: under, top, both", 0, "o"), Screen.nextBevelSide),
		screen.Asks(on.Hand(move["add-avoid"], "knot", 9, "k"), Screen.addKnot).When(strips),
		screen.Asks(on.Hand(move["set-avoid"], "knot by figures", 0, "K"), Screen.askKnot),
		screen.Asks(on.Hand(move["drop-avoid"], "remove knot", 10, "j"), Screen.dropKnot).When(knotted),
	}
}

// slideEntries lists what slides copies to try, and the rest.
func slideEntries() []screen.Entry[Screen] {
	on := group()
	far, fine := screen.SlideStep(), screen.FineSlideStep()
	loose := func(s Screen, _ screen.Context) bool {
		at, ok := s.Copy()
		return ok && at.Slide > 0
	}
	held := func(s Screen, _ screen.Context) bool { return len(s.shown.Held) > 0 }
	return []screen.Entry[Screen]{
		screen.Does(on.Bind(cutSlideFar, "move", "move the copy 5 mm, or 1/4 in, towards the far end, as a trial", 11, "]"),
			slide(1, far)).When(loose),
		screen.Does(on.Bind("cut-slide-near", "move back", "move the copy 5 mm, or 1/4 in, back towards the datum end", 0, "["),
			slide(-1, far)),
		screen.Does(on.Bind("cut-slide-fine", "move, fine", "move the copy 1 mm, or 1/16 in, towards the far end, as a trial", 0, "}"),
			slide(1, fine)),
		screen.Does(on.Bind("cut-near-fine", "move back, fine", "move the copy 1 mm, or 1/16 in, back towards the datum end", 0, "{"),
			slide(-1, fine)),
		screen.Asks(on.Bind(cutKeep, "keep here", "keep the moved copy here, by a keep-clear mark", 12, "z"), Screen.keepSlid).When(held),
		screen.Does(on.Bind(keymap.ShortEnds, "short ends", "make strips as short as their products need where that draws less, short ends outside", 13, "h"),
			Screen.shortEnds).When(onPanel),
		screen.Asks(on.Bind(cutSheet, "mark-out", "show the whole mark-out, to read it at the bench", 14, "s"), Screen.markSheet).When(listed),
	}
}
