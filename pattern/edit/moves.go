package edit

// A Move names one hand move. Its ID is the name of its function in lower case with
// hyphens, and stays for ever.
type Move struct {
	ID   string
	Does string // what it does, as one plain sentence without a full stop
	Step bool   // it is an undo step; choosing a strip is none
}

// Moves lists every hand move: choosing first, then arranging, milling, and the
// values of strip and panel.
func Moves() []Move {
	return []Move{
		{"select", "choose a strip by its number", false},
		{"select-left", "choose the strip to the left", false},
		{"select-right", "choose the strip to the right", false},
		{"select-first", "choose the strip at the left edge", false},
		{"select-last", "choose the strip at the right edge", false},

		{"carry-left", "carry the strip past its left neighbour", true},
		{"carry-right", "carry the strip past its right neighbour", true},
		{"carry-to", "carry the strip to a place that you say", true},
		{"swap", "let the strip change places with another", true},
		{"put-in", "put a strip of a timber in after this one", true},
		{"change-timber", "put another timber in this strip's place", true},
		{"lay-aside", "lay the strip aside on the tray", true},
		{"bring-back", "bring a strip back from the tray", true},
		{"twin", "put a twin of the strip in after it", true},
		{"mirror", "mirror the half you stand in onto the other", true},

		{"turn", "turn the strip end for end", true},
		{"turn-over", "turn the strip over to its other face", true},
		{"roll", "roll the strip a quarter turn", true},
		{"split", "rip the strip in two", true},
		{"join", "join the strip with its right neighbour", true},

		{"slide-far", "slide the strip towards the far end", true},
		{"slide-near", "slide the strip towards the datum end", true},
		{"set-start", "say how far from the datum end the strip starts", true},
		{"set-length", "give the strip a length of its own", true},
		{"widen", "make the strip wider", true},
		{"narrow", "make the strip narrower", true},
		{"set-width", "make the strip as wide as you say", true},
		{"next-rings", "go on to the next kind of rings", true},
		{"set-rings", "say how the rings of the strip stand", true},
		{"set-moisture", "say what the strip's moisture reads", true},
		{"pin", "pin the strip, or take its pin out", true},

		{"fill", "share out what is wanting of the width", true},
		{"another-width", "make the pattern for an order of another width", true},
		{"set-panel-length", "say how long the panel is", true},
		{"set-thickness", "say how thick the panel is", true},
		{"set-panel-width", "say how wide the panel should be", true},
		{"set-make", "say whether strips are cut flat or on edge", true},
		{"set-panel-moisture", "say what moisture the panel is glued at", true},
		{"set-flattened", "say what moisture the panel is made flush at", true},
		{"set-name", "name the pattern", true},
		{"set-notes", "write notes on the pattern", true},

		{"add-product", "list another product to cut out", true},
		{"set-product", "change a listed product", true},
		{"drop-product", "take a product off the list", true},
		{"product-sooner", "let a product lie nearer the datum end", true},
		{"add-avoid", "mark a knot that no product may take in", true},
		{"set-avoid", "change the mark of a knot", true},
		{"drop-avoid", "take the mark of a knot away", true},
		{"short-ends", "give the strips the lengths that the products need", true},

		{"add-made", "write down a batch that was made", true},
		{"set-made", "change what is written of a batch", true},
		{"drop-made", "strike a batch out", true},
	}
}
