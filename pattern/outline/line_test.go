package outline

import (
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

func TestParseLine(t *testing.T) {
	block := pattern.Product{Shape: Block, Length: 400 * mm, Width: 95 * mm, Count: 1, Hole: 40 * mm, Holes: 3, HoleDepth: 18 * mm}
	topped := block
	topped.Bevel, topped.BevelSide = 3*mm, pattern.BevelTop
	candles := block
	candles.For = pattern.ForCandles
	for text, want := range map[string]pattern.Product{
		"round 290":                                           {Shape: Round, Diameter: 290 * mm, Count: 1},
		"Round 290 mm, x2, bevel 8":                           {Shape: Round, Diameter: 290 * mm, Count: 2, Bevel: 8 * mm},
		"disc 29cm x2 bevel 8 both centre strip 6":            {Shape: Round, Diameter: 290 * mm, Count: 2, Bevel: 8 * mm, BevelSide: pattern.BevelBoth, Centre: pattern.Centre{Strip: 6}},
		"round 12,5 fill":                                     {Shape: Round, Diameter: 12500 * length.Micrometre},
		"rectangle 240 by 160 count 4 centred on joint 3":     {Shape: Rectangle, Length: 240 * mm, Width: 160 * mm, Count: 4, Centre: pattern.Centre{Joint: 3}},
		"rect 240 x 160 centre panel":                         {Shape: Rectangle, Length: 240 * mm, Width: 160 * mm, Count: 1},
		"block 400 95 holes 3 of 40 deep 18":                  block,
		"block 400 95 holes 3 40 18 bevel 3 top":              topped,
		"block bevel 3 top 400 mm x 95 mm holes 3 40 18 deep": topped,
		"round 11 1/2 in":                                     {Shape: Round, Diameter: 23 * length.Inch / 2, Count: 1},
		"rect 12 x 8 in":                                      {Shape: Rectangle, Length: 12 * length.Inch, Width: 8 * length.Inch, Count: 1},
		"block 16 4 in holes 3 of 1 deep 3/4 in":              {Shape: Block, Length: 16 * length.Inch, Width: 4 * length.Inch, Count: 1, Hole: length.Inch, Holes: 3, HoleDepth: 3 * length.Inch / 4},
		"oval 340 220":                                        {Shape: Oval, Length: 340 * mm, Width: 220 * mm, Count: 1},
		"ellipse 340 by 220 x3 bevel 4 top":                   {Shape: Oval, Length: 340 * mm, Width: 220 * mm, Count: 3, Bevel: 4 * mm, BevelSide: pattern.BevelTop},
		"300x200":                                             {Shape: Rectangle, Length: 300 * mm, Width: 200 * mm, Count: 1},
		"300×200 x3":                                          {Shape: Rectangle, Length: 300 * mm, Width: 200 * mm, Count: 3},
		"400 x 95":                                            {Shape: Rectangle, Length: 400 * mm, Width: 95 * mm, Count: 1},
		"400 x 95 x 4":                                        {Shape: Rectangle, Length: 400 * mm, Width: 95 * mm, Count: 4},
		"12 x 8 in":                                           {Shape: Rectangle, Length: 12 * length.Inch, Width: 8 * length.Inch, Count: 1},
		"12in x 8in x 2":                                      {Shape: Rectangle, Length: 12 * length.Inch, Width: 8 * length.Inch, Count: 2},
		"400 x180 board":                                      {Shape: Rectangle, Length: 400 * mm, Width: 180 * mm, Count: 1},
		"board 300x200 x 2":                                   {Shape: Rectangle, Length: 300 * mm, Width: 200 * mm, Count: 2},
		"rect 240 x4 160":                                     {Shape: Rectangle, Length: 240 * mm, Width: 160 * mm, Count: 4},
		"rect 240x15":                                         {Shape: Rectangle, Length: 240 * mm, Width: 15 * mm, Count: 1},
		"rect 240 x 15":                                       {Shape: Rectangle, Length: 240 * mm, Width: 15 * mm, Count: 1},
		"square 250":                                          {Shape: Rectangle, Length: 250 * mm, Width: 250 * mm, Count: 1},
		"square 250 x 2":                                      {Shape: Rectangle, Length: 250 * mm, Width: 250 * mm, Count: 2},
		"square 250 x 250":                                    {Shape: Rectangle, Length: 250 * mm, Width: 250 * mm, Count: 1},
		"square 250 250 x4":                                   {Shape: Rectangle, Length: 250 * mm, Width: 250 * mm, Count: 4},
		"3 squares of 9,5 cm":                                 {Shape: Rectangle, Length: 95 * mm, Width: 95 * mm, Count: 3},
		"circle 320 x 2":                                      {Shape: Round, Diameter: 320 * mm, Count: 2},
		"4 rounds of 90":                                      {Shape: Round, Diameter: 90 * mm, Count: 4},
		"290 disk":                                            {Shape: Round, Diameter: 290 * mm, Count: 1},
		"rounds 90 x6":                                        {Shape: Round, Diameter: 90 * mm, Count: 6},
		"discs 90 fill":                                       {Shape: Round, Diameter: 90 * mm},
		"400 x 95 holes 3 40 18":                              block,
		"400x95 with 3 holes of 40 deep 18":                   block,
		"block 400 95 holes 3 of 40 deep 18 for candles":             candles,
		"block 400 x 95, 3 holes of 40, 18 deep, for tea lights x 1": candles,
		"400x95, holes 3 of 40 deep 18, for a tealight":              candles,
		`round 11-1/2in`: {Shape: Round, Diameter: 23 * length.Inch / 2, Count: 1},
	} {
		if got, err := ParseLine(text, length.InMM); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	if got, err := ParseLine("round 11 1/2", length.InInches); err != nil || got.Diameter != 23*length.Inch/2 {
		t.Errorf("in inches: %+v, %v", got, err)
	}
}

// What is wrong is named with what would be right.
func TestParseLineRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"":                                   "missing: round, rectangle, block or oval",
		"round":                              "missing: the diameter",
		"block":                              "missing: the length along the grain, then the width",
		"rect 240 by":                        "missing: the width across",
		"290":                                "name the shape first",
		"oval":                               "missing: the length along the grain, then the width",
		"oval 340":                           "missing: the width across",
		"oval 340 220 round":                 "round: it is an oval already",
		"oval 340 220 holes 2 of 40 deep 18": "an oval has no holes: must be a block",
		"round 290 50":                       "not a word I know",
		"round 290 block":                    "it is a round already",
		"round by 290":                       "belongs only between length and width",
		"round 290 x0":                       "from 1 to 10000",
		"round 290 bevel":                    "how large the bevel is",
		"round 290 bevel 150":                "less than half",
		"round 290 centre":                   "must be panel, strip N or joint N",
		"round 290 centre leg 3":             "must be panel, strip N or joint N",
		"round 290 holes 2 of 40 deep 18":    "must be a block",
		"block 100 95 holes 3 of 40 deep 18": "must fit the length",
		"rect 12 in x 240":                   "unit after each, or only after the last",
		"320 x 2":                            "name the shape first",
		"320 x2":                             "name the shape first",
		"square":                             "missing: the length",
		"square 240 160":                     "not a word I know",
		"240 160 square":                     "a square takes 1 size",
		"300 200 round":                      "a round takes 1 size",
		"square 250 round":                   "round: it is a square already",
		"round 290 x 2.5":                    "must be a whole number from 1 to 10000",
		"4 rounds":                           "missing: the diameter",
		"rect 240 x foo":                     "write a number",
		"holes 3":                            "how large the hole is",
		"round 290 for candles":              "must be a block with holes",
		"block 400 95 for candles":           "must be a block with holes",
		"block 400 95 for oil":               "write for candles or for tea lights",
		"block 400 95 for":                   "write for candles or for tea lights",
		"round 1e3":                          "write a number",
		"round 0":                            "must be 1 mm to",
		"round " + strings.Repeat("9", 2000): "letters",
	} {
		if got, err := ParseLine(text, length.InMM); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %+v, %v; want %q", text, got, err, says)
		}
	}
}

// A line reads back to the product that it is of, in either unit.
func TestLineReadsBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	size := func(most length.Length) length.Length {
		switch rng.IntN(3) {
		case 0:
			return length.Length(1+rng.Int64N(int64(most/mm))) * mm
		case 1:
			return max(mm, length.Length(rng.Int64N(int64(most*64/length.Inch)))*length.Inch/64)
		default:
			return mm + length.Length(rng.Int64N(int64(most-mm)))
		}
	}
	for range 2000 {
		p := pattern.Product{Shape: Shapes()[rng.IntN(4)].Name(), Count: rng.IntN(20), Centre: pattern.Centre{Strip: rng.IntN(3)}}
		if p.Centre.Strip == 0 {
			p.Centre.Joint = rng.IntN(3)
		}
		if p.Shape == Round {
			p.Diameter = size(600 * mm)
		} else {
			p.Length, p.Width = size(900*mm), size(400*mm)
		}
		if rng.IntN(2) == 0 {
			along, across := ShapeOf(p).Size()
			p.Bevel, p.BevelSide = max(1, min(along, across)/5), pattern.BevelSide(rng.IntN(3))
		}
		if p.Shape == Block && rng.IntN(2) == 0 {
			p.Holes, p.Hole, p.HoleDepth = 1+rng.IntN(4), min(p.Width, p.Length)/8, size(30*mm)
			p.For = pattern.Purposes()[rng.IntN(2)]
		}
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			line := Line(p, u)
			if got, err := ParseLine(line, u); err != nil || got != p {
				t.Fatalf("%q in %v: %+v, %v; want %+v", line, u, got, err, p)
			}
		}
	}
}

func TestText(t *testing.T) {
	p, err := ParseLine("block 400 95 holes 3 of 40 deep 18 bevel 3 top centre joint 2", length.InMM)
	if err != nil {
		t.Fatal(err)
	}
	const want = "block 400 mm x 95 mm, 3 holes of 40 mm, 18 mm deep, bevel 3 mm (top), centred on glue line 2|3"
	if got := Text(p, length.InMM); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	p.Holes = 1
	if got := Text(p, length.InMM); !strings.Contains(got, ", 1 hole of 40 mm") {
		t.Errorf("%q", got)
	}
}

// No typed line panics, and one that is read reads back.
func FuzzParseLine(f *testing.F) {
	for _, s := range []string{"round 290 x2 bevel 8 under", "block 400 95 holes 3 of 40 deep 18", "rect 9-1/2in by 4 fill", "x", "centre strip", "holes"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := ParseLine(text, length.InMM)
		if err != nil {
			return
		}
		if again, err := ParseLine(Line(p, length.InMM), length.InMM); err != nil || again != p {
			t.Errorf("%q: %+v reads back as %+v, %v", text, p, again, err)
		}
	})
}

func TestKnotLine(t *testing.T) {
	for text, want := range map[string]pattern.Avoid{
		"210, 96, 8":          knot(210*mm, 96*mm, 8*mm),
		"210 96,5 0":          knot(210*mm, 96500*length.Micrometre, 0),
		"1 1/2 in 3/4 in 5mm": knot(3*length.Inch/2, 3*length.Inch/4, 5*mm),
	} {
		got, err := ParseKnot(text, length.InMM)
		if err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			if again, err := ParseKnot(KnotLine(want, u), u); err != nil || again != want {
				t.Errorf("%q in %v: %+v, %v", KnotLine(want, u), u, again, err)
			}
		}
	}
	// A fraction behind a comma is the next number, not the rest of the one before.
	if got, err := ParseKnot("8, 3/4, 1", length.InInches); err != nil || got != knot(8*length.Inch, 3*length.Inch/4, length.Inch) {
		t.Errorf("in inches: %+v, %v", got, err)
	}
	for text, says := range map[string]string{
		"": "distance along", "210": "distance across", "210, 96": "the radius", "210, 96, 8, 9": "along, across and radius",
		"a b c": "write a number", strings.Repeat("1", 2000): "letters",
	} {
		if got, err := ParseKnot(text, length.InMM); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %+v, %v; want %q", text, got, err, says)
		}
	}
}
