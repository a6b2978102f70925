package edit

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Moves lists every hand move: choosing first, then arranging, milling, and the
// values of strip and panel.
func Moves() []Move {
	return slices.Concat(choosing(), arranging(), milling(), ofStrips(), ofPanel(), ofBoards(), ofProducts(), ofBatches())
}

// ByID returns every hand move by its ID.
func ByID() map[string]Move {
	out := map[string]Move{}
	for _, m := range Moves() {
		out[m.ID] = m
	}
	return out
}

func choosing() []Move {
	return []Move{
		{"select", "choose a strip by its number", false, []Arg{{Kind: AtStrip, What: "choose strip number"}}, Said{}, at(Select)},
		{"select-left", "choose the strip to the left", false, nil, Said{}, do(SelectLeft)},
		{"select-right", "choose the strip to the right", false, nil, Said{}, do(SelectRight)},
		{"select-first", "choose the strip at the left edge", false, nil, Said{}, do(SelectFirst)},
		{"select-last", "choose the strip at the right edge", false, nil, Said{}, do(SelectLast)},
	}
}

func arranging() []Move {
	return []Move{
		{"carry-left", "carry the strip past its left neighbour", true, nil, Said{}, do(CarryLeft)},
		{"carry-right", "carry the strip past its right neighbour", true, nil, Said{}, do(CarryRight)},
		{"put-in", "put a strip of a timber in after this one", true, []Arg{
			{Kind: OfTimber, What: "put in a strip (movement per 1 % moisture; contrast with the strip)"}, {Kind: OfLength, What: "width", Word: "WIDTH"},
			{Kind: OfRings, Optional: true}, {Kind: After, Optional: true}},
			Said{"put", "", "put a strip in, after the last one or after strip N"}, func(s State, t Args) (State, error) {
				return PutIn(s, pattern.Strip{Species: t.Timber, Width: t.Length, Rings: t.Rings, Colour: t.Colour})
			}},
		{"put-in-row", "put several strips in after this one, typed in one line like " + exampleRow, true, []Arg{
			{Kind: OfStrips, What: "strips from left to right, each a timber and its width, like " + exampleRow}},
			Said{"row", "", "put strips in after the last one, like " + exampleRow}, func(s State, t Args) (State, error) { return PutInRow(s, t.Strips) }},
		{"lay-aside", "lay the strip aside", true, on(), Said{"out", "", "take strip N out"}, do(LayAside)},
		{"bring-back", "bring back a strip that was laid aside", true, []Arg{{Kind: OnTray, What: "bring back a strip"}}, Said{}, at(BringBack)},
		{"swap", "swap the strip with another, by its number", true, on(Arg{Kind: AtStrip, What: "swap", Then: "with strip number"}),
			Said{"swap", "", "swap strips N and M"}, at(Swap)},
		{"carry-to", "carry the strip to a place, by its number", true, on(Arg{Kind: AtStrip, What: "move", Then: "to place number"}),
			Said{"carry", "", "carry strip N to place M"}, at(CarryTo)},
		{"twin", "put a copy of the strip in after it", true, on(), Said{"twin", "", "put a copy of strip N after it"}, do(Twin)},
		{"mirror", "mirror the half with the chosen strip onto the other", true, on(), Said{"mirror", "", "mirror the half with strip N onto the other"}, do(Mirror)},
	}
}

func milling() []Move {
	return []Move{
		{"roll", "roll the strip a quarter turn: width and thickness change places, the rings too", true, on(),
			Said{"roll", "", "roll strip N a quarter turn"}, allowed(Roll)},
		{"turn", "turn the strip end for end", true, on(), Said{"turn", "", "turn strip N end for end"}, allowed(Turn)},
		{"turn-over", "turn the strip over, face down", true, on(), Said{"over", "", "turn strip N over"}, do(TurnOver)},
		{"split", "rip the strip in two", true, on(), Said{"split", "", "rip strip N into two"}, allowed(Split)},
		{"join", "join the strip with its right neighbour", true, on(), Said{"join", "", "make one strip of N and the next"}, do(Join)},
		{"pin", "pin the strip, or take its pin out: mirror and fit to width leave it alone", true, on(),
			Said{"pin", "", "pin strip N, or take its pin out"}, do(Pin)},
	}
}

func ofStrips() []Move {
	return []Move{
		{"change-timber", "make the strip of another timber", true, on(Arg{Kind: OfTimber, What: "movement per 1 % moisture; contrast with it"}),
			Said{"timber", "", "make strip N of another timber"}, func(s State, t Args) (State, error) { return ChangeTimber(s, t.Timber, t.Colour) }},
		{"set-width", "set the width of the strip", true, on(Arg{Kind: OfLength, What: "width",
			Now: sized(func(s pattern.Strip) length.Length { return s.Width })}), Said{"width", "", "set the width of strip N"}, by(SetWidth)},
		{"set-length", "give the strip a length of its own", true, on(Arg{Kind: OfLength, What: "own length", None: "no own length: as long as the panel",
			Now: sized(func(s pattern.Strip) length.Length { return s.Length })}), Said{"length", "", "set the length of strip N; 0: as the panel"}, by(SetLength)},
		{"set-start", "set how far from the datum end the strip starts", true, on(Arg{Kind: OfLength, What: "start, from the datum end,", None: "at the datum end",
			Now: sized(func(s pattern.Strip) length.Length { return s.Start })}), Said{"start", "", "set how far from the datum end strip N starts"}, by(SetStart)},
		{"set-joints", "make the strip of several pieces that meet at joints", true, on(Arg{Kind: OfJoints,
			What: "joints from the datum end, like " + exampleJoints + ",", None: "no joint: the strip in one piece",
			Now: now(func(s pattern.Strip) Args { return Args{Joints: s.Joints} })}),
			Said{"joints", "", "make strip N of pieces that meet there; none: of one piece"}, func(s State, t Args) (State, error) { return SetJoints(s, t.Joints, t.Allow) }},
		{"slide-far", "slide the strip towards the far end", true, on(Arg{Kind: ByStep}), Said{}, by(SlideFar)},
		{"slide-near", "slide the strip towards the datum end", true, on(Arg{Kind: ByStep}), Said{}, by(SlideNear)},
		{"widen", "make the strip wider", true, on(Arg{Kind: ByStep}), Said{}, by(Widen)},
		{"narrow", "make the strip narrower", true, on(Arg{Kind: ByStep}), Said{}, by(Narrow)},
		{"next-rings", "change the rings: flat, rift, quarter, unknown", true, nil, Said{}, do(NextRings)},
		{"set-rings", "set the angle of the rings", true, on(Arg{Kind: OfRings, What: "rings (flat, rift, quarter, unknown or degrees)",
			Now: now(func(s pattern.Strip) Args { return Args{Rings: s.Rings} })}),
			Said{"rings", "", "set the rings: flat, rift, quarter, unknown or degrees"}, func(s State, t Args) (State, error) { return SetRings(s, t.Rings) }},
		{"set-bark", "set the side where the bark was, seen on the end grain at the datum end", true, on(Arg{Kind: OfBark, What: "bark side",
			Now: now(func(s pattern.Strip) Args { return Args{Bark: s.Bark} })}),
			Said{"bark", "", "up, down, left, right, up left and the like, or none"},
			func(s State, t Args) (State, error) { return SetBark(s, t.Bark) }},
		{"set-heart", "set how far the pith is from the middle of the strip, away from the bark", true, on(Arg{Kind: OfLength, What: "distance to the pith", None: "not known",
			Now: sized(func(s pattern.Strip) length.Length { return s.Heart })}), Said{"heart", "", "set how far away the pith of strip N is; 0: not known"}, by(SetHeart)},
		{"set-moisture", "set the moisture reading of the strip", true, on(Arg{Kind: OfReading, What: "moisture reading", None: "no reading: as the panel",
			Now: now(func(s pattern.Strip) Args { return Args{Reading: s.Moisture} })}),
			Said{"moisture", "", "set the moisture reading; none removes it"}, reading(SetMoisture)},
	}
}

func ofPanel() []Move {
	size := Said{"panel", "", "set the size of the panel; width 0: no wanted width"}
	second := func(word string) Said { return Said{size.Word, word, size.Does} }
	return []Move{
		{"fill", "spread the missing or spare width over the unpinned strips", true, nil, Said{"fill", "", "spread the missing or spare width over the unpinned strips"}, do(Fill)},
		{"another-width", "make the pattern for an order of another width: more or fewer repeats, or other strip widths", true,
			[]Arg{{Kind: ForWidth, What: "glue-up width of the other order"}}, Said{}, func(s State, t Args) (State, error) { return AnotherWidth(s, t.Size) }},
		{"set-panel-length", "set the length of the finished panel", true, []Arg{{Kind: OfLength, What: "length of the finished panel",
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Length: p.Length} })}}, second("length"), by(SetPanelLength)},
		{"set-panel-width", "set the wanted width of the panel", true, []Arg{{Kind: OfLength, What: "wanted width of the finished panel", None: "no width wanted",
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Length: p.Width} })}}, second("width"), by(SetPanelWidth)},
		{"set-thickness", "set the thickness of the finished panel", true, []Arg{{Kind: OfLength, What: "thickness of the finished panel",
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Length: p.Thickness} })}}, second("thickness"), by(SetThickness)},
		{"set-make", "change between strips cut flat and on edge", true, []Arg{{Kind: OfMake,
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Make: p.Make} })}},
			Said{"strips", "", "set how strips are made"}, func(s State, t Args) (State, error) { return SetMake(s, t.Make) }},
		{"set-panel-moisture", "set the moisture at which the panel is glued", true, []Arg{{Kind: OfReading, What: "moisture at glue-up, for strips without a reading",
			None: "that of the workshop's air", Now: nowPanel(func(p pattern.Panel) Args { return Args{Reading: p.Moisture} })}},
			Said{"glue-up", "", "set the moisture at glue-up; none: that of the workshop's air"}, reading(SetPanelMoisture)},
		{"set-flattened", "set the moisture when the panel is flattened", true, []Arg{{Kind: OfReading, What: "moisture when the panel is flattened",
			None: "each strip's own at glue-up", Now: nowPanel(func(p pattern.Panel) Args { return Args{Reading: p.Flattened} })}},
			Said{"flush", "", "set the moisture when flattened; none: each strip's own"}, reading(SetFlattened)},
		{"set-name", "name the pattern", true, []Arg{{Kind: OfName, What: "name of the pattern", Now: func(s State) Args { return Args{Text: s.Pattern.Name} }}},
			Said{"name", "", "set the name of the pattern"}, text(SetName)},
		{"set-notes", "write notes on the pattern", true, []Arg{{Kind: OfText, What: "notes on the pattern", Now: func(s State) Args { return Args{Text: s.Pattern.Notes} }}},
			Said{"notes", "", "set the notes of the pattern"}, text(SetNotes)},
	}
}

func ofBoards() []Move {
	return []Move{
		{"glue-again", "cut the panel into bars and glue them again, or change that: " + ExampleAgain, true, []Arg{{Kind: OfAgain, What: "second glue-up, like " + ExampleAgain + ", 1 shift 0 half or 1 out"}},
			Said{"second", "", "glue bars again: " + ExampleAgain + ", 1 shift 0 half, or 1 out"},
			func(s State, t Args) (State, error) { return GlueAgain(s, t.Again) }},
		{"for-board", "make panel, strips and bars for a board of a size", true, []Arg{{Kind: OfBoard, What: "finished board, like 400 x 300 x 38 x16"}},
			Said{"board", "", "size all for a board: 400 x 300 x 38 x16"},
			func(s State, t Args) (State, error) { return ForBoard(s, t.Board, t.Allow.Takes) }},
	}
}

func ofProducts() []Move {
	item := Arg{Kind: OnItem}
	return []Move{
		{"add-product", "add a product, like round 290 x2 bevel 8", true, []Arg{{Kind: OfProduct}}, Said{},
			func(s State, t Args) (State, error) { return AddProduct(s, t.Product) }},
		{"set-product", "change the product's line", true, []Arg{item, {Kind: OfProduct}}, Said{},
			func(s State, t Args) (State, error) { return SetProduct(s, t.Number, t.Product) }},
		{"drop-product", "take the product off the list", true, []Arg{item}, Said{}, at(DropProduct)},
		{"product-sooner", "move the product nearer the datum end, before the one ahead of it", true, []Arg{item}, Said{}, at(ProductSooner)},
		{"add-avoid", "mark a knot at the cursor, which products keep clear of", true, []Arg{{Kind: OfKnot}}, Said{},
			func(s State, t Args) (State, error) { return AddAvoid(s, t.Avoid) }},
		{"set-avoid", "type the place and size of the knot at the cursor", true, []Arg{item, {Kind: OfKnot}}, Said{},
			func(s State, t Args) (State, error) { return SetAvoid(s, t.Number, t.Avoid) }},
		{"drop-avoid", "remove the knot at the cursor", true, []Arg{item}, Said{}, at(DropAvoid)},
		{"short-ends", "make strips as short as their products need where that draws less, short ends outside", true, []Arg{{Kind: ForProducts}}, Said{},
			func(s State, t Args) (State, error) { return ShortEnds(s, t.Laid) }},
	}
}

func ofBatches() []Move {
	item := Arg{Kind: OnItem}
	return []Move{
		{"add-made", "add a batch, like 4, 299.5 wide, 310 min, note oiled twice", true, []Arg{{Kind: OfMade}}, Said{},
			func(s State, t Args) (State, error) { return AddMade(s, t.Made) }},
		{"set-made", "change the batch's line", true, []Arg{item, {Kind: OfMade}}, Said{},
			func(s State, t Args) (State, error) { return SetMade(s, t.Number, t.Made) }},
		{"drop-made", "remove the batch", true, []Arg{item}, Said{}, at(DropMade)},
	}
}
