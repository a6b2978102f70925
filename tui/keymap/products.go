package keymap

// The actions where products are cut out, on the working figures and on what was made,
// that are no hand moves.
const (
	CutLeft      ID = "cut-left"
	CutRight     ID = "cut-right"
	CutUp        ID = "cut-up"
	CutDown      ID = "cut-down"
	CutLeftFine  ID = "cut-left-fine"
	CutRightFine ID = "cut-right-fine"
	CutUpFine    ID = "cut-up-fine"
	CutDownFine  ID = "cut-down-fine"
	CutNext      ID = "cut-next"
	CutLast      ID = "cut-last"
	CutMore      ID = "cut-more"
	CutFewer     ID = "cut-fewer"
	CutCentre    ID = "cut-centre"
	CutBevel     ID = "cut-bevel"
	CutSide      ID = "cut-side"
	CutSlideFar  ID = "cut-slide-far"
	CutSlideNear ID = "cut-slide-near"
	CutSlideFine ID = "cut-slide-fine"
	CutNearFine  ID = "cut-near-fine"
	CutKeep      ID = "cut-keep"
	CutShort     ID = "cut-short"
	CutSheet     ID = "cut-sheet"

	WorkUp      ID = "work-up"
	WorkDown    ID = "work-down"
	WorkPageUp  ID = "work-page-up"
	WorkPageDn  ID = "work-page-down"
	WorkMore    ID = "work-more"
	WorkFewer   ID = "work-fewer"
	WorkMinutes ID = "work-minutes"
	WorkAsked   ID = "work-asked"
	WorkClamps  ID = "work-clamps"
	WorkBefore  ID = "work-before"
	WorkOil     ID = "work-oil"

	MadeUp    ID = "made-up"
	MadeDown  ID = "made-down"
	MadeAgain ID = "made-again"
	MadeLabel ID = "made-label"
)

// productActions lists what can be done with what is cut out and made.
func productActions() []Action {
	return []Action{
		{CutLeft, []string{"left"}, "cursor", "take the cursor 10 mm, or 1/2 in, towards the datum end", OnCutOut, 1},
		{CutRight, []string{"right"}, "cursor right", "take the cursor 10 mm, or 1/2 in, towards the far end", OnCutOut, 0},
		{CutUp, []string{"up"}, "cursor up", "take the cursor 10 mm, or 1/2 in, towards edge A", OnCutOut, 0},
		{CutDown, []string{"down"}, "cursor down", "take the cursor 10 mm, or 1/2 in, away from edge A", OnCutOut, 0},
		{CutLeftFine, []string{"shift+left"}, "cursor left, fine", "take the cursor 1 mm, or 1/16 in, towards the datum end", OnCutOut, 0},
		{CutRightFine, []string{"shift+right"}, "cursor right, fine", "take the cursor 1 mm, or 1/16 in, towards the far end", OnCutOut, 0},
		{CutUpFine, []string{"shift+up"}, "cursor up, fine", "take the cursor 1 mm, or 1/16 in, towards edge A", OnCutOut, 0},
		{CutDownFine, []string{"shift+down"}, "cursor down, fine", "take the cursor 1 mm, or 1/16 in, away from edge A", OnCutOut, 0},
		{CutNext, []string{".", "pgdown"}, "next copy", "choose the next copy of what is cut out", OnCutOut, 2},
		{CutLast, []string{",", "pgup"}, "copy before", "choose the copy before", OnCutOut, 0},
		{"add-product", []string{"a", "insert"}, "add", "type another product as it is spoken: round 290 x2 bevel 8", OnCutOut, 3},
		{"set-product", []string{"enter", "e"}, "change", "change the product's line", OnCutOut, 4},
		{CutMore, []string{"+", "="}, "more", "cut out one more of the product", OnCutOut, 5},
		{CutFewer, []string{"-"}, "fewer", "cut out one fewer; below one, the last product fills the rows", OnCutOut, 0},
		{"drop-product", []string{"x", "delete"}, "take away", "take the product off the list", OnCutOut, 6},
		{"product-sooner", []string{"<"}, "sooner", "let the product lie nearer the datum end, before the one ahead of it", OnCutOut, 0},
		{CutCentre, []string{"c"}, "centre", "say what the middle row lies on: panel, a strip or a glue line", OnCutOut, 7},
		{CutBevel, []string{"b"}, "bevel", "say how deep the bevel is", OnCutOut, 8},
		{CutSide, []string{"o"}, "bevel side", "go on to the next side of the bevel: under, top, both", OnCutOut, 0},
		{"add-avoid", []string{"k"}, "knot", "mark a knot at the cursor, which no product may take in", OnCutOut, 9},
		{"set-avoid", []string{"K"}, "knot by figures", "type where the knot at the cursor lies and how large it is", OnCutOut, 0},
		{"drop-avoid", []string{"j"}, "knot away", "take the knot at the cursor away", OnCutOut, 10},
		{CutSlideFar, []string{"]"}, "slide", "slide the copy 5 mm, or 1/4 in, towards the far end, to try", OnCutOut, 11},
		{CutSlideNear, []string{"["}, "slide back", "slide the copy 5 mm, or 1/4 in, back towards the datum end", OnCutOut, 0},
		{CutSlideFine, []string{"}"}, "slide, fine", "slide the copy 1 mm, or 1/16 in, towards the far end, to try", OnCutOut, 0},
		{CutNearFine, []string{"{"}, "slide back, fine", "slide the copy 1 mm, or 1/16 in, back towards the datum end", OnCutOut, 0},
		{CutKeep, []string{"z"}, "keep slid", "keep what was slid where it is, by a mark before it", OnCutOut, 12},
		{CutShort, []string{"h"}, "short ends", "crosscut every strip to what its products need, short ends outside", OnCutOut, 13},
		{CutSheet, []string{"s"}, "mark-out", "show the whole mark-out, to read it at the bench", OnCutOut, 14},

		{WorkUp, []string{"up"}, "figure above", "go to the figure above", OnWork, 0},
		{WorkDown, []string{"down"}, "figure", "go to the figure below", OnWork, 1},
		{WorkPageUp, []string{"pgup"}, "step before", "go back to the step of the work before", OnWork, 0},
		{WorkPageDn, []string{"pgdown"}, "next step", "go to the next step of the work", OnWork, 2},
		{WorkMore, []string{"+", "="}, "more", "make one copy more", OnWork, 3},
		{WorkFewer, []string{"-"}, "fewer", "make one copy fewer", OnWork, 4},
		{WorkMinutes, []string{"m"}, "minutes", "say how long all copies take", OnWork, 5},
		{WorkAsked, []string{"p"}, "price asked", "say what you ask for one product", OnWork, 6},
		{WorkClamps, []string{"c"}, "clamps", "say how many clamps you have", OnWork, 7},
		{WorkBefore, []string{"d"}, "day", "say which day the products are to be ready before", OnWork, 8},
		{WorkOil, []string{"o"}, "drying oil", "change between an oil that stays oil and one that hardens", OnWork, 9},

		{MadeUp, []string{"up"}, "batch above", "go to the batch above", OnMade, 0},
		{MadeDown, []string{"down"}, "batch", "go to the batch below", OnMade, 1},
		{"add-made", []string{"a", "insert"}, "add", "write down a batch as it is spoken: 4, 299.5 wide, 310 min, note oiled twice", OnMade, 2},
		{"set-made", []string{"enter", "e"}, "change", "change what is written of the batch", OnMade, 3},
		{"drop-made", []string{"x", "delete"}, "strike out", "strike the batch out", OnMade, 4},
		{MadeAgain, []string{"g"}, "make again", "plan as many copies again as in this batch", OnMade, 5},
		{MadeLabel, []string{"l"}, "label", "show the text of the label in full", OnMade, 6},
	}
}
