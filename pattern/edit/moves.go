package edit

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Moves lists every hand move: choosing first, then arranging, milling, and the
// values of strip and panel.
func Moves() []Move {
	return slices.Concat(choosing(), arranging(), milling(), ofStrips(), ofPanel(), ofProducts(), ofBatches())
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
			{Kind: OfTimber, What: "put in: movement a point, contrast with the strip"}, {Kind: OfLength, What: "width", Word: "WIDTH"},
			{Kind: OfRings, Optional: true}, {Kind: After, Optional: true}},
			Said{"put", "", "put a strip in, behind the last one or after strip N"}, func(s State, t Args) (State, error) {
				return PutIn(s, pattern.Strip{Species: t.Timber, Width: t.Length, Rings: t.Rings, Colour: t.Colour})
			}},
		{"put-in-row", "put several strips in after this one, typed in one line like " + exampleRow, true, []Arg{
			{Kind: OfStrips, What: "strips from left to right, each a timber and its width, like " + exampleRow}},
			Said{"row", "", "put strips in behind the last one, like " + exampleRow}, func(s State, t Args) (State, error) { return PutInRow(s, t.Strips) }},
		{"lay-aside", "lay the strip aside on the tray", true, on(), Said{"out", "", "take strip N out"}, do(LayAside)},
		{"bring-back", "bring a strip back from the tray", true, []Arg{{Kind: OnTray, What: "bring back from the tray"}}, Said{}, at(BringBack)},
		{"swap", "swap the strip with another, by its number", true, on(Arg{Kind: AtStrip, What: "number of the strip to change places with,"}),
			Said{"swap", "", "let strips N and M change places"}, at(Swap)},
		{"carry-to", "carry the strip to a place, by its number", true, on(Arg{Kind: AtStrip, What: "number of the place to carry it to, for"}),
			Said{"carry", "", "carry strip N to place M"}, at(CarryTo)},
		{"twin", "put a twin of the strip in after it", true, on(), Said{"twin", "", "put a copy of strip N beside it"}, do(Twin)},
		{"mirror", "mirror the half you stand in onto the other", true, on(), Said{"mirror", "", "mirror the half that strip N stands in"}, do(Mirror)},
	}
}

func milling() []Move {
	return []Move{
		{"roll", "roll the strip a quarter turn: width and thickness change places, the rings too", true, on(),
			Said{"roll", "", "roll strip N a quarter turn"}, allowed(Roll)},
		{"turn", "turn the strip end for end", true, on(), Said{"turn", "", "turn strip N end for end"}, allowed(Turn)},
		{"turn-over", "turn the strip over to its other face", true, on(), Said{"over", "", "turn strip N over"}, do(TurnOver)},
		{"split", "rip the strip in two", true, on(), Said{"split", "", "rip strip N into two"}, allowed(Split)},
		{"join", "join the strip with its right neighbour", true, on(), Said{"join", "", "make one strip of N and the next"}, do(Join)},
		{"pin", "pin the strip, or take its pin out: mirror and fill leave it alone", true, on(),
			Said{"pin", "", "pin strip N, or take its pin out"}, do(Pin)},
	}
}

func ofStrips() []Move {
	return []Move{
		{"change-timber", "put another timber in this strip's place", true, on(Arg{Kind: OfTimber, What: "movement a point, contrast with it"}),
			Said{"timber", "", "put another timber in its place"}, func(s State, t Args) (State, error) { return ChangeTimber(s, t.Timber, t.Colour) }},
		{"set-width", "make the strip as wide as you say", true, on(Arg{Kind: OfLength, What: "width",
			Now: sized(func(s pattern.Strip) length.Length { return s.Width })}), Said{"width", "", "make strip N so wide"}, by(SetWidth)},
		{"set-length", "give the strip a length of its own", true, on(Arg{Kind: OfLength, What: "own length", None: "none of its own: as long as the panel",
			Now: sized(func(s pattern.Strip) length.Length { return s.Length })}), Said{"length", "", "make strip N so long; 0 as the panel"}, by(SetLength)},
		{"set-start", "say how far from the datum end the strip starts", true, on(Arg{Kind: OfLength, What: "start, from the datum end,", None: "at the datum end",
			Now: sized(func(s pattern.Strip) length.Length { return s.Start })}), Said{"start", "", "begin strip N so far from the datum end"}, by(SetStart)},
		{"set-joints", "lay the strip from several pieces: say where they meet", true, on(Arg{Kind: OfJoints,
			What: "joints from the datum end, like " + exampleJoints + ",", None: "none: the strip in one piece",
			Now: now(func(s pattern.Strip) Args { return Args{Joints: s.Joints} })}),
			Said{"joints", "", "lay strip N from pieces that meet there; none: in one"}, func(s State, t Args) (State, error) { return SetJoints(s, t.Joints, t.Allow) }},
		{"slide-far", "slide the strip towards the far end", true, on(Arg{Kind: ByStep}), Said{}, by(SlideFar)},
		{"slide-near", "slide the strip towards the datum end", true, on(Arg{Kind: ByStep}), Said{}, by(SlideNear)},
		{"widen", "make the strip wider", true, on(Arg{Kind: ByStep}), Said{}, by(Widen)},
		{"narrow", "make the strip narrower", true, on(Arg{Kind: ByStep}), Said{}, by(Narrow)},
		{"next-rings", "go on to the next kind of rings: flat, rift, quarter, unknown", true, nil, Said{}, do(NextRings)},
		{"set-rings", "say at what angle the rings of the strip stand", true, on(Arg{Kind: OfRings, What: "rings (flat, rift, quarter, unknown or degrees)",
			Now: now(func(s pattern.Strip) Args { return Args{Rings: s.Rings} })}),
			Said{"rings", "", "flat, rift, quarter, unknown or degrees"}, func(s State, t Args) (State, error) { return SetRings(s, t.Rings) }},
		{"set-bark", "say on which side the bark lay, seen on the end grain at the datum end", true, on(Arg{Kind: OfBark, What: "bark side",
			Now: now(func(s pattern.Strip) Args { return Args{Bark: s.Bark} })}),
			Said{"bark", "", "up, down, left, right, up left and the like, or none"},
			func(s State, t Args) (State, error) { return SetBark(s, t.Bark) }},
		{"set-heart", "say how far the pith lies from the middle of the strip, away from the bark", true, on(Arg{Kind: OfLength, What: "distance to the pith", None: "not known",
			Now: sized(func(s pattern.Strip) length.Length { return s.Heart })}), Said{"heart", "", "say how far the pith of strip N lies; 0: not known"}, by(SetHeart)},
		{"set-moisture", "say what the strip's moisture reads", true, on(Arg{Kind: OfReading, What: "moisture reading", None: "no reading: as the panel",
			Now: now(func(s pattern.Strip) Args { return Args{Reading: s.Moisture} })}),
			Said{"moisture", "", "write its reading down; none takes it away"}, reading(SetMoisture)},
	}
}

func ofPanel() []Move {
	size := Said{"panel", "", "say how large the panel is; width 0: as it comes"}
	second := func(word string) Said { return Said{size.Word, word, size.Does} }
	return []Move{
		{"fill", "share out what is wanting of the width over the strips", true, nil, Said{"fill", "", "share out what is wanting of the width"}, do(Fill)},
		{"another-width", "make the pattern for an order of another width: more or fewer repeats, or other strip widths", true,
			[]Arg{{Kind: ForWidth, What: "glue-up width of the other order"}}, Said{}, func(s State, t Args) (State, error) { return AnotherWidth(s, t.Size) }},
		{"set-panel-length", "say how long the finished panel is", true, []Arg{{Kind: OfLength, What: "length of the finished panel",
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Length: p.Length} })}}, second("length"), by(SetPanelLength)},
		{"set-panel-width", "say how wide the panel should be", true, []Arg{{Kind: OfLength, What: "wanted width of the finished panel", None: "no width wanted",
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Length: p.Width} })}}, second("width"), by(SetPanelWidth)},
		{"set-thickness", "say how thick the finished panel is", true, []Arg{{Kind: OfLength, What: "thickness of the finished panel",
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Length: p.Thickness} })}}, second("thickness"), by(SetThickness)},
		{"set-make", "change between strips cut flat and on edge", true, []Arg{{Kind: OfMake,
			Now: nowPanel(func(p pattern.Panel) Args { return Args{Make: p.Make} })}},
			Said{"strips", "", "say how the strips are made"}, func(s State, t Args) (State, error) { return SetMake(s, t.Make) }},
		{"set-panel-moisture", "say what moisture the panel is glued at", true, []Arg{{Kind: OfReading, What: "moisture at glue-up, for strips without a reading",
			None: "that of the workshop's air", Now: nowPanel(func(p pattern.Panel) Args { return Args{Reading: p.Moisture} })}},
			Said{"glue-up", "", "say what moisture the panel is glued at; none: the air's"}, reading(SetPanelMoisture)},
		{"set-flattened", "say what moisture the panel is made flush at", true, []Arg{{Kind: OfReading, What: "moisture when the panel is made flush",
			None: "each strip's own at glue-up", Now: nowPanel(func(p pattern.Panel) Args { return Args{Reading: p.Flattened} })}},
			Said{"flush", "", "say what moisture it is made flush at; none: each strip's"}, reading(SetFlattened)},
		{"set-name", "name the pattern", true, []Arg{{Kind: OfName, What: "name of the pattern", Now: func(s State) Args { return Args{Text: s.Pattern.Name} }}},
			Said{"name", "", "call the pattern so"}, text(SetName)},
		{"set-notes", "write notes on the pattern", true, []Arg{{Kind: OfText, What: "notes on the pattern", Now: func(s State) Args { return Args{Text: s.Pattern.Notes} }}},
			Said{"notes", "", "write notes into it"}, text(SetNotes)},
	}
}

func ofProducts() []Move {
	item := Arg{Kind: OnItem}
	return []Move{
		{"add-product", "type another product as it is spoken: round 290 x2 bevel 8", true, []Arg{{Kind: OfProduct}}, Said{},
			func(s State, t Args) (State, error) { return AddProduct(s, t.Product) }},
		{"set-product", "change the product's line", true, []Arg{item, {Kind: OfProduct}}, Said{},
			func(s State, t Args) (State, error) { return SetProduct(s, t.Number, t.Product) }},
		{"drop-product", "take the product off the list", true, []Arg{item}, Said{}, at(DropProduct)},
		{"product-sooner", "let the product lie nearer the datum end, before the one ahead of it", true, []Arg{item}, Said{}, at(ProductSooner)},
		{"add-avoid", "mark a knot at the cursor, which no product may take in", true, []Arg{{Kind: OfKnot}}, Said{},
			func(s State, t Args) (State, error) { return AddAvoid(s, t.Avoid) }},
		{"set-avoid", "type where the knot at the cursor lies and how large it is", true, []Arg{item, {Kind: OfKnot}}, Said{},
			func(s State, t Args) (State, error) { return SetAvoid(s, t.Number, t.Avoid) }},
		{"drop-avoid", "take the knot at the cursor away", true, []Arg{item}, Said{}, at(DropAvoid)},
		{"short-ends", "crosscut every strip to what its products need, short ends outside", true, []Arg{{Kind: ForProducts}}, Said{},
			func(s State, t Args) (State, error) { return ShortEnds(s, t.Ends, t.Allow) }},
	}
}

func ofBatches() []Move {
	item := Arg{Kind: OnItem}
	return []Move{
		{"add-made", "write down a batch as it is spoken: 4, 299.5 wide, 310 min, note oiled twice", true, []Arg{{Kind: OfMade}}, Said{},
			func(s State, t Args) (State, error) { return AddMade(s, t.Made) }},
		{"set-made", "change what is written of the batch", true, []Arg{item, {Kind: OfMade}}, Said{},
			func(s State, t Args) (State, error) { return SetMade(s, t.Number, t.Made) }},
		{"drop-made", "strike the batch out", true, []Arg{item}, Said{}, at(DropMade)},
	}
}
