package rack_test

import (
	"errors"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/species"
)

// lookup knows every timber; those of a small pile come first.
func lookup() rack.Lookup {
	return rack.NewLookup(species.Builtin(), []string{"black_cherry", "black_walnut", "hard_maple", "sapele"})
}

func sameRings(a, b pattern.Rings) bool { return a == b }

func same(t *testing.T, got, want any) {
	t.Helper()
	if d := cmp.Diff(want, got, cmp.Comparer(sameRings)); d != "" {
		t.Errorf("not as wanted (-want +got):\n%s", d)
	}
}

// cherry is the piece that most cases below say in other words.
func cherry(change ...func(*rack.Entry)) rack.Entry {
	e := rack.Entry{Piece: rack.Piece{Species: "black_cherry", Length: 620 * mm, Width: 85 * mm, Thickness: 77 * mm, Quantity: 1}}
	for _, c := range change {
		c(&e)
	}
	return e
}

func TestParseLine(t *testing.T) {
	at := func(degrees float64) pattern.Rings { r, _ := pattern.RingsAt(degrees); return r }
	flat := func(e *rack.Entry) { e.Rings = pattern.RingsFlat() }
	fault := func(f ...rack.Fault) func(*rack.Entry) { return func(e *rack.Entry) { e.Faults = f } }
	for _, c := range []struct {
		name, text string
		want       rack.Entry
	}{
		{"sizes parted by blanks", "cherry 620 85 77", cherry()},
		{"sizes parted by x", "cherry 620x85x77", cherry()},
		{"blanks around the x", "cherry 620 x 85 x 77", cherry()},
		{"a blank on one side", "cherry 620 x85 x77", cherry()},
		{"the sign for times", "cherry 620×85 × 77", cherry()},
		{"by", "cherry 620 by 85 by 77", cherry()},
		{"units", `cherry 62cm 8.5 cm 77mm`, cherry()},
		{"units and x", `cherry 62cmx8.5cmx77mm`, cherry()},
		{"metres and a decimal comma", `cherry 0,62 m 85 77`, cherry()},
		{"words behind the sizes", "cherry 620mm long 85 wide 77 thick", cherry()},
		{"sizes in another order", "cherry 85 wide 77 thick 620 long", cherry()},
		{"one size named", "cherry 85 wide 620 77", cherry()},
		{"words and x", "cherry 620 long x 85 wide by 77 thick flat", cherry(flat)},
		{"a unit behind the last of named sizes", "cherry 7.7 thick, 8.5 wide, 62 cm long", cherry()},
		{"a crack", "cherry 620 85 77 crack 0-40, bark along 30-45, pith 100-110",
			cherry(fault(rack.Fault{To: 40 * mm, Kind: "crack"}, rack.Fault{Along: true, From: 30 * mm, To: 45 * mm, Kind: "bark"}, rack.Fault{From: 100 * mm, To: 110 * mm, Kind: "pith"}))},
		{"a bark side", "cherry 620 85 77 flat bark down", cherry(flat, func(e *rack.Entry) { e.Bark = pattern.Bark{Up: -1} })},
		{"a bark side before the rings, with the pith and a fault in the bark", "cherry 620 85 77 Bark Up Left, heart 9 cm, rift bark along 30-45",
			cherry(fault(rack.Fault{Along: true, From: 30 * mm, To: 45 * mm, Kind: "bark"}), func(e *rack.Entry) {
				e.Lay(pattern.Grain{Rings: pattern.RingsRift(), Bark: pattern.Bark{Right: -1, Up: 1}, Heart: 90 * mm})
			})},
		{"a bark side and a letter for the rings", "cherry 620 85 77 bark right q", cherry(func(e *rack.Entry) { e.Rings, e.Bark = pattern.RingsQuarter(), pattern.Bark{Right: 1} })},
		{"letters", "CH 620 85 77", cherry()},
		{"letters, small", "ch 620 85 77", cherry()},
		{"key", "black cherry 620 85 77", cherry()},
		{"name", "Black Cherry 620 85 77", cherry()},
		{"beginnings of words", "bl ch 620 85 77", cherry()},
		{"a timber off the pile", "wild cherry 620 85 77", cherry(func(e *rack.Entry) { e.Species = "wild_cherry" })},
		{"inches", `cherry 24 1/2" 3" 3/4 in`, cherry(func(e *rack.Entry) {
			e.Length, e.Width, e.Thickness = 622_300*length.Micrometre, 76_200*length.Micrometre, 19_050*length.Micrometre // 24.5, 3, 0.75 x 25.4
		})},
		{"inches with a hyphen", `cherry 24-1/2" x 3" x 1-1/8"`, cherry(func(e *rack.Entry) {
			e.Length, e.Width, e.Thickness = 622_300*length.Micrometre, 76_200*length.Micrometre, 28_575*length.Micrometre
		})},
		{"inches behind the last size", `cherry 24 1/2x3x3/4 in flat`, cherry(flat, func(e *rack.Entry) {
			e.Length, e.Width, e.Thickness = 622_300*length.Micrometre, 76_200*length.Micrometre, 19_050*length.Micrometre
		})},
		{"centimetres behind the last size", "cherry 62 8.5 7.7 cm", cherry()},
		{"word of the rings", "cherry 620 85 77 flat", cherry(flat)},
		{"letter of the rings", "cherry 620 85 77 f", cherry(flat)},
		{"rings before the sizes", "cherry flat 620 85 77", cherry(flat)},
		{"angle", "cherry 620 85 77 30deg", cherry(func(e *rack.Entry) { e.Rings = at(30) })},
		{"angle with its sign", "cherry 620 85 77 12,5 °", cherry(func(e *rack.Entry) { e.Rings = at(12.5) })},
		{"moisture", "cherry 620 85 77 9.1 %", cherry(func(e *rack.Entry) { e.Moisture = pattern.Read(9.1) })},
		{"moisture in the middle", "cherry 9.1% 620 85 77", cherry(func(e *rack.Entry) { e.Moisture = pattern.Read(9.1) })},
		{"planed by its letter", "cherry 620 85 77 p", cherry(func(e *rack.Entry) { e.Planed = true })},
		{"split", "cherry 620 85 77 split 0-40", cherry(fault(rack.Fault{To: 40 * mm, Kind: "split"}))},
		{"bare fault", "cherry 620 85 77 0-40", cherry(fault(rack.Fault{To: 40 * mm}))},
		{"fault with a unit and blanks", "cherry 620 85 77 knot 30 - 33 cm", cherry(fault(rack.Fault{From: 300 * mm, To: 330 * mm, Kind: "knot"}))},
		{"a fault that is called nothing more", "cherry 620 85 77 fault 300-330", cherry(fault(rack.Fault{From: 300 * mm, To: 330 * mm}))},
		{"fault along", "cherry 620 85 77 along 30-45", cherry(fault(rack.Fault{Along: true, From: 30 * mm, To: 45 * mm}))},
		{"two faults", "cherry 620 85 77 split 0-40, shake along 30-45",
			cherry(fault(rack.Fault{To: 40 * mm, Kind: "split"}, rack.Fault{Along: true, From: 30 * mm, To: 45 * mm, Kind: "shake"}))},
		{"fault before the sizes", "cherry split 0-40 620 85 77", cherry(fault(rack.Fault{To: 40 * mm, Kind: "split"}))},
		{"fault in inches", `cherry 620 85 77 split 1/2-1 1/4"`, cherry(fault(rack.Fault{From: length.Inch / 2, To: length.Inch * 5 / 4, Kind: "split"}))},
		{"quantity", "cherry 620 85 77 x3", cherry(func(e *rack.Entry) { e.Quantity = 3 })},
		{"quantity close by", "cherry 620x85x77x3", cherry(func(e *rack.Entry) { e.Quantity = 3 })},
		{"quantity before the sizes", "cherry x3 620 85 77", cherry(func(e *rack.Entry) { e.Quantity = 3 })},
		{"use first", "cherry 620 85 77 first", cherry(func(e *rack.Entry) { e.UseFirst = true })},
		{"id", "cherry 620 85 77 id W9", cherry(func(e *rack.Entry) { e.ID = "W9" })},
		{"id with a hash", "cherry 620 85 77 #W9, flat", cherry(flat, func(e *rack.Entry) { e.ID = "W9" })},
		{"id with a blank", `cherry 620 85 77 #"W 9" flat`, cherry(flat, func(e *rack.Entry) { e.ID = "W 9" })},
		{"note to the end", "cherry 620 85 77 flat note from the shed, x3 first", cherry(flat, func(e *rack.Entry) { e.Note = "from the shed, x3 first" })},
		{"all at once", "cherry 620 85 77 first x2 9,1% p knot 300-330 f #C1 along 30-45 note n", cherry(flat, func(e *rack.Entry) {
			e.UseFirst, e.Quantity, e.Moisture, e.Planed, e.ID, e.Note = true, 2, pattern.Read(9.1), true, "C1", "n"
			e.Faults = []rack.Fault{{From: 300 * mm, To: 330 * mm, Kind: "knot"}, {Along: true, From: 30 * mm, To: 45 * mm}}
		})},
		{"ready strip", "strip maple 470 25 24 x14 flat 8.0%", rack.EntryOf(rack.Strip{Species: "hard_maple", Length: 470 * mm,
			Width: 25 * mm, Thickness: 24 * mm, Quantity: 14, Rings: pattern.RingsFlat(), Moisture: pattern.Read(8)})},
		{"ready strip, said last", "maple 470 25 24 strip", rack.EntryOf(rack.Strip{Species: "hard_maple", Length: 470 * mm,
			Width: 25 * mm, Thickness: 24 * mm, Quantity: 1})},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := rack.ParseLine(c.text, lookup(), length.InMM)
			if err != nil {
				t.Fatal(err)
			}
			same(t, got, c.want)
		})
	}
}

func TestParseLineTakesTheMakersUnit(t *testing.T) {
	got, err := rack.ParseLine("cherry 24 1/2 3 1 1/8 split 0-1 1/2, 30 mm-2 cm", lookup(), length.InInches)
	if err == nil {
		t.Fatalf("a fault from 30 to 20 mm is read as %v", got.Faults)
	}
	got, err = rack.ParseLine("cherry 24 1/2 3 1 1/8 split 0-1 1/2, along 10 mm-2 cm", lookup(), length.InInches)
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, rack.Entry{Piece: rack.Piece{Species: "black_cherry", Length: 622_300 * length.Micrometre, Width: 76_200 * length.Micrometre,
		Thickness: 28_575 * length.Micrometre, Quantity: 1,
		Faults: []rack.Fault{{To: 38_100 * length.Micrometre, Kind: "split"}, {Along: true, From: 10 * mm, To: 20 * mm}}}})
}

func TestParseLineRefuses(t *testing.T) {
	for _, c := range []struct {
		name, text, word string
		column           int
		says             string
	}{
		{"nothing", "", "", 1, "missing: timber, length, width, thickness"},
		{"not a timber I know", "620 85 77", "", 10, "missing: timber"},
		{"two sizes", "cherry 620 85", "", 14, "missing: thickness"},
		{"timber last", "500 60 40 pear", "pear", 11, "the timber comes first: write it like pear 500 60 40"},
		{"timber of two words last", "500 60 40 hard maple flat", "hard maple", 11, "write it like hard maple 500 60 40"},
		{"a timber that may be several last", "500 60 40 walnut", "walnut", 11, "write it like walnut 500 60 40"},
		{"no timber and an unknown word", "500 60 40 wavy", "wavy", 11, "not a word I know"},
		{"a size named twice", "cherry 620 wide 85 wide 77", "wide", 20, "the width is given twice"},
		{"a size without its word", "cherry wide 620 85 77", "cherry wide", 1, "not a timber I know"},
		{"two named sizes", "cherry 620 long 77 thick", "", 25, "missing: width"},
		{"unknown timber", "chery 620 85 77", "chery", 1, "did you mean"},
		{"timber that is not one alone", "oak 620 85 77", "oak", 1, "red oak (red_oak)"},
		{"timber not first", "flat cherry 620 85 77", "flat cherry", 1, "the timber comes first"},
		{"unknown word", "cherry 620 85 77 wavy", "wavy", 18, "planed flat rift"},
		{"word that is begun", "cherry 620 85 77 quart flat", "quart", 18, "did you mean quarter?"},
		{"size zero", "cherry 620 0 77", "0", 12, "width 0 mm: must be above 0, up to 2000 mm"},
		{"size too large", "cherry 21m 85 77", "21m", 8, "length 21000 mm: must be above 0, up to 20000 mm"},
		{"unclear comma", "cherry 1,250 85 77", "1,250", 8, "write 1250 or 1.250"},
		{"unknown unit", "cherry 620 3ft 77", "3ft", 12, "no width: write a number"},
		{"inches behind one size", `cherry 24 in 85 77 flat`, "85", 14, "unit after each, or only after the last"},
		{"a fourth number", "cherry 620 85 77 9.1 flat", "9.1", 18, "moisture as 9.1 %"},
		{"moisture too high", "cherry 620 85 77 31%", "31%", 18, "0 % to 30 %"},
		{"angle too wide", "cherry 620 85 77 91deg", "91deg", 18, "must be 0 to 90"},
		{"rings twice", "cherry 620 85 77 flat quarter", "quarter", 23, "rings is given twice"},
		{"quantity twice", "cherry 620 85 77 x2 x3", "x3", 21, "quantity is given twice"},
		{"quantity zero", "cherry 620 85 77 x0", "x0", 18, "x1 to x10000"},
		{"a thousand million pieces", "cherry 620 85 77 x1000000000", "x1000000000", 18, "x1 to x10000"},
		{"half a piece", "cherry 620 85 77 x1.5", "x1.5", 18, "in whole pieces"},
		{"fault without a place", "cherry 620 85 77 split flat", "split", 18, "like split 0-40"},
		{"fault with one end", "cherry 620 85 77 split 40 flat", "split 40", 18, "from a place to a place"},
		{"fault backwards", "cherry 620 85 77 split 40-30", "split 40-30", 18, "end after its start"},
		{"fault beyond the end", "cherry 620 85 77 split 600-621", "split 600-621", 18, "whose length is 620 mm"},
		{"fault beyond the edge", "cherry 620 85 77 p, along 80-86 f", "along 80-86", 21, "whose width is 85 mm"},
		{"bark that is nowhere", "cherry 620 85 77 flat bark top", "bark", 23, "or the bark side"},
		{"bark side begun", "cherry 620 85 77 flat bark dow x3", "bark dow", 23, "up, down, left or right"},
		{"bark on two sides", "cherry 620 85 77 flat bark up down", "bark up down", 23, "must be up, down"},
		{"bark beside flat rings", "cherry 620 85 77 bark left flat", "bark left", 18, "rings flat: must be up or down"},
		{"bark without rings", "cherry 620 85 77 bark left", "bark left", 18, "needs the rings"},
		{"bark twice", "cherry 620 85 77 flat bark up bark up", "bark up", 31, "given twice"},
		{"heart without bark", "cherry 620 85 77 flat heart 90", "heart 90", 23, "needs the bark side"},
		{"heart of nothing", "cherry 620 85 77 flat heart x3", "heart x3", 23, "like heart 90"},
		{"heart of 0", "cherry 620 85 77 flat bark up heart 0", "heart 0", 31, "above 0, up to 2000 mm"},
		{"id with a slash", "cherry 620 85 77 #W3/1", "#W3/1", 18, "slash"},
		{"id missing", "cherry 620 85 77 id", "id", 18, "must not be empty"},
		{"planed strip", "strip cherry 620 25 24 planed", "planed", 24, "planed as it is"},
		{"strip with a fault", "strip cherry 620 25 24 0-40", "0-40", 24, "has no faults"},
		{"strip with a note", "strip cherry 620 25 24 note x", "note x", 24, "has no note"},
		{"column in letters", "cherry 620 85 77 #Äö wavy", "wavy", 22, "not a word I know"},
		{"control character", "cherry 620 85 77 note \x1b[31m", "", 23, "U+001B"},
		{"text turned round", "cherry 620 85 77 note a\u202eb", "", 24, "U+202E"},
		{"no UTF-8", "cherry 620 85 77 note \xff", "", 23, "U+FFFD"},
		{"far too long", strings.Repeat("x", 6001), "", 1, "6001 letters"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := rack.ParseLine(c.text, lookup(), length.InMM)
			var e *spoken.Error
			if !errors.As(err, &e) {
				t.Fatalf("read as %v, %v", got, err)
			}
			if e.Word != c.word || e.Column != c.column || !strings.Contains(e.Message, c.says) {
				t.Errorf("%v; want %q at %d, saying %q", e, c.word, c.column, c.says)
			}
		})
	}
}

func TestUnderstood(t *testing.T) {
	for _, c := range []struct {
		text, want, missing, err string
	}{
		{"", "", "timber? length? width? thickness?", ""},
		{"ch", "black cherry", "length? width? thickness?", ""},
		{"o", "", "white oak, red oak or 7 more? length?", ""},
		{"zzz", "", "timber? length? width? thickness?", "not a timber I know"},
		{"cherry 620", "black cherry 620", "width? thickness?", ""},
		{"cherry 620 x", "black cherry 620", "width? thickness?", ""},
		{"cherry 620 85 77", "black cherry 620 x 85 x 77, 4.06 dm3", "", ""}, // 6.2 x 0.85 x 0.77 = 4.0579
		{"cherry 620 85 77 fla", "black cherry 620 x 85 x 77, 4.06 dm3", "flat?", ""},
		{"cherry 620 85 77 fla ", "black cherry 620 x 85 x 77, 4.06 dm3", "", "did you mean flat?"},
		{"cherry 620 85 77 wavy", "black cherry 620 x 85 x 77, 4.06 dm3", "", "not a word I know"},
		{"cherry 620 85 77 flat spl", "black cherry 620 x 85 x 77 flat, 4.06 dm3", "split?", ""},
		{"cherry 620 85 77 flat split", "black cherry 620 x 85 x 77 flat, 4.06 dm3", "from-to?", ""},
		{"cherry 620 85 77 flat split 0", "black cherry 620 x 85 x 77 flat, 4.06 dm3", "from-to?", ""},
		{"cherry 620 85 77 flat split 0-", "black cherry 620 x 85 x 77 flat, 4.06 dm3", "from-to?", ""},
		{"cherry 620 85 77 flat split 0-40", "black cherry 620 x 85 x 77 flat, split 0-40 mm, 4.06 dm3", "", ""},
		{"cherry 620 85 77 shake alo", "black cherry 620 x 85 x 77, 4.06 dm3", "along?", ""},
		{"cherry 620 85 77 x", "black cherry 620 x 85 x 77, 4.06 dm3", "x how many?", ""},
		{"cherry 620 85 77 x3", "black cherry 620 x 85 x 77, x3, 12.17 dm3", "", ""},
		{"cherry 620 85 77 9", "black cherry 620 x 85 x 77, 4.06 dm3", "% or deg or -?", ""},
		{"cherry 620 0", "black cherry 620 x ?", "width? thickness?", ""},
		{"cherry 620 0 77 f", "black cherry 620 x ? x 77 flat", "", "width 0 mm"},
		{"strip maple 470 25 24 x14 first", "ready strip hard maple 470 x 25 x 24, x14, use first, 3.95 dm3", "", ""}, // 14 x 4.7 x 0.25 x 0.24 = 3.948
		{"cherry 620 85 77 p shake along 30-45 9.1% #C1 note dry",
			"black cherry 620 x 85 x 77 planed, 9.1 %, shake along 30-45 mm, id C1, note: dry, 4.06 dm3", "", ""},
	} {
		echo := rack.Understood(c.text, lookup(), length.InMM)
		missing := strings.Join(echo.Missing, " ")
		if echo.Text != c.want || !strings.HasPrefix(missing, c.missing) || c.missing == "" && missing != "" {
			t.Errorf("%q: %q, missing %q; want %q, %q", c.text, echo.Text, missing, c.want, c.missing)
		}
		if (echo.Err != nil) != (c.err != "") || echo.Err != nil && !strings.Contains(echo.Err.Error(), c.err) {
			t.Errorf("%q: error %v, want %q", c.text, echo.Err, c.err)
		}
	}
}

// What Understood calls whole is what ParseLine takes, at each key of a line.
func TestUnderstoodAgreesWithParseLine(t *testing.T) {
	const text = `strip maple 24 1/2" x 3 in x 1in x14 30deg 8.0% first #"M 25", bark down left heart 9 1/2 cm by id quart split 0-40 along 3`
	for end := range len(text) + 1 {
		echo := rack.Understood(text[:end], lookup(), length.InMM)
		e, err := rack.ParseLine(text[:end], lookup(), length.InMM)
		whole := len(echo.Missing) == 0 && echo.Err == nil
		if whole != (err == nil) || whole && !e.Equal(echo.Entry) {
			t.Errorf("%q: understood %v, %v, and parsed %v", text[:end], echo.Missing, echo.Err, err)
		}
	}
}

// Line gives what ParseLine reads back, whatever a file may hold.
func TestLineReadsBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 13))
	table := species.Builtin()
	look := rack.NewLookup(table)
	texts := []string{"", "a", "W 9", `"q"`, `"half`, " blank ", "note", "x3", "é,;", "#1", "-", "tab\u00a0"}
	steps := []length.Length{1, mm / 10, length.Inch / 64, mm, length.Inch}
	size := func(most length.Length) length.Length {
		step := min(most, steps[rng.IntN(len(steps))])
		return step * (1 + length.Length(rng.Int64N(int64(most/step))))
	}
	for range 3000 {
		e := rack.Entry{Ready: rng.IntN(3) == 0, Piece: rack.Piece{
			ID: strings.TrimSpace(texts[rng.IntN(len(texts))]), Species: table.All()[rng.IntN(table.Len())].Key,
			Length: size(pattern.MaxLength), Width: size(pattern.MaxAcross), Thickness: size(pattern.MaxAcross),
			Quantity: 1 + rng.IntN(rack.MaxQuantity), UseFirst: rng.IntN(2) == 0,
		}}
		if rng.IntN(2) == 0 {
			e.Rings, _ = pattern.RingsAt([]float64{0, 45, 90, 90 * rng.Float64()}[rng.IntN(4)])
			e.Moisture = pattern.Read(30 * rng.Float64())
			if sides := e.Rings.BarkSides(); rng.IntN(2) == 0 {
				e.Bark, e.Heart = sides[rng.IntN(len(sides))], length.Length(rng.IntN(2))*size(pattern.MaxHeart)
			}
		}
		if !e.Ready {
			e.Planed, e.Note = rng.IntN(2) == 0, texts[rng.IntN(len(texts))]
			for range rng.IntN(3) {
				f := rack.Fault{Along: rng.IntN(2) == 0, To: size(e.Length)}
				if f.Along {
					f.To = size(e.Width)
				}
				f.From = length.Length(rng.Int64N(int64(f.To)))
				e.Faults = append(e.Faults, f)
			}
		}
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			text := rack.Line(e, look, u)
			again, err := rack.ParseLine(text, look, u)
			if err != nil || !again.Equal(e) {
				t.Fatalf("%+v\nprints as %q in %v,\nwhich reads as %+v, %v", e, text, u, again, err)
			}
		}
	}
}

func TestLineIsShort(t *testing.T) {
	e, err := rack.ParseLine("cherry 620 85 77 flat split 0-40 x3", lookup(), length.InMM)
	if err != nil {
		t.Fatal(err)
	}
	if got := rack.Line(e, lookup(), length.InMM); got != "black cherry 620 x 85 x 77, flat, split 0-40, x3" {
		t.Error(got)
	}
	e, err = rack.ParseLine("cherry 24 1/2 x 3 x 3/4 split 0-1 1/2", lookup(), length.InInches)
	if err != nil {
		t.Fatal(err)
	}
	if got := rack.Line(e, lookup(), length.InInches); got != "black cherry 24 1/2 x 3 x 3/4, split 0-1 1/2" {
		t.Error(got)
	}
}

// What is shown is in the maker's unit, rounded as everywhere: 620 mm are 24 13/32 in.
func TestShown(t *testing.T) {
	e, err := rack.ParseLine("cherry 620 85 77 flat bark up heart 90 split 0-40 x3", lookup(), length.InMM)
	if err != nil {
		t.Fatal(err)
	}
	for u, want := range map[length.Unit]string{
		length.InMM:     "black cherry 620 x 85 x 77 mm, flat, bark up, heart 90 mm, split 0-40 mm, x3",
		length.InInches: "black cherry 24 13/32 x 3 11/32 x 3 1/32 in, flat, bark up, heart 3 35/64 in, split 0-1 37/64 in, x3",
	} {
		if got := rack.Shown(e, lookup(), u); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A maker may call his own timber strip or timber, and still type and change it.
func TestTimberThatIsAWord(t *testing.T) {
	table, err := species.Builtin().With([]species.Species{
		{Key: "strip", Name: "strip wood", Pores: "diffuse"}, {Key: "timber", Name: "timber wood", Pores: "diffuse"},
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"strip", "timber"} {
		for _, ready := range []bool{false, true} {
			e := cherry(func(e *rack.Entry) { e.Species, e.Ready = key, ready })
			got, err := rack.ParseLine(rack.Line(e, rack.NewLookup(table), length.InMM), rack.NewLookup(table), length.InMM)
			if err != nil || !got.Equal(e) {
				t.Errorf("%q reads as %v, %v", rack.Line(e, rack.NewLookup(table), length.InMM), got, err)
			}
		}
	}
}

// pile is a pile of twenty pieces as it is typed, two strips and a few faults among
// them; again is the key that repeats the last line.
func pile() []string {
	const again = ""
	return []string{
		"ch 620 85 77 f", "ch 410 60 24 p", "ch 720 88 77 f", "wa 580 90 41 q", "wa 280 64 22 p", "wa 460 52 33 0-40",
		"ma 610 74 30 f", again, "ma 600 70 30 r x4", "ma 470 51 26", "sa 410 90 30 q", "sa 420 120 24 p", "sa 730 66 41",
		"ir 905 48 35 q", again, "ir 340 71 28 9.4%", "ch 520 44 25 first", "strip ma 470 25 24 x14", "wa 815 95 52 f", "pe 335 81 23 p",
	}
}

// TestTwentyPiecesInTwoMinutes computes with the keystroke-level model (Card, Moran
// and Newell, "The keystroke-level model for user performance time with interactive
// systems", Communications of the ACM 23(7), 1980; the two times from memory): a key
// takes an average typist who is no secretary 0.28 s, making up one's mind before a
// line 1.35 s. The sizes are read off the pieces beforehand, as one would for paper.
func TestTwentyPiecesInTwoMinutes(t *testing.T) {
	const key, mind, enter, budget = 0.28, 1.35, 1, 120.0
	var r rack.Rack
	var last rack.Entry
	keys := 0
	for i, text := range pile() {
		keys += utf8.RuneCountInString(text) + enter
		e := rack.Again(last)
		if text != "" {
			var err error
			if e, err = rack.ParseLine(text, lookup(), length.InMM); err != nil {
				t.Fatalf("line %d, %q: %v", i+1, text, err)
			}
		}
		var err error
		if r, last, err = r.Add(e, lookup()); err != nil {
			t.Fatalf("line %d, %q: %v", i+1, text, err)
		}
	}
	if n := len(r.Pieces) + len(r.Strips); n != 20 {
		t.Fatalf("%d entries, want 20", n)
	}
	seconds := float64(keys)*key + float64(len(pile()))*mind
	t.Logf("20 lines take %d keys with enter, %.0f s", keys, seconds)
	if seconds > budget {
		t.Errorf("%d keys take %.0f s, want %.0f at most", keys, seconds, budget)
	}
	if r.Pieces[0].ID != "CH1" || r.Pieces[7].ID != "MA2" || r.Strips[0].ID != "MA5" {
		t.Errorf("ids %s, %s, %s", r.Pieces[0].ID, r.Pieces[7].ID, r.Strips[0].ID)
	}
}

func FuzzParseLine(f *testing.F) {
	for _, s := range append(pile(), `cherry 24-1/2" x 3" x 1-1/8", 30deg, shake along 30 - 45 mm, #"W 9", note "x"`,
		"strip maple 470 25 24 x14 flat 8,0 % first", "timber oak 1,250 x", "cherry 620 85 77 split 0", "pear 500mm long 60 wide 40 thick crack 0-40",
		"cherry 7 thick x 8 long, 9 wide wide", "500 60 40 hard maple flat", "walnut 1 thick 2 3 in long", "ch .5m 1/3in 1/64\" 0-1 1/2 in") {
		f.Add(s)
	}
	look := rack.NewLookup(species.Builtin())
	f.Fuzz(func(t *testing.T, text string) {
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			echo := rack.Understood(text, look, u)
			e, err := rack.ParseLine(text, look, u)
			if whole := len(echo.Missing) == 0 && echo.Err == nil; whole != (err == nil) {
				t.Fatalf("%q: understood %v, %v; parsed %v", text, echo.Missing, echo.Err, err)
			}
			if err != nil {
				continue
			}
			checked := e
			if checked.ID == "" {
				checked.ID = "A1"
			}
			if err := checked.Check(); err != nil {
				t.Fatalf("%q is read as %+v: %v", text, e, err)
			}
			line := rack.Line(e, look, u)
			again, err := rack.ParseLine(line, look, u)
			if err != nil || !again.Equal(e) {
				t.Fatalf("%q prints as %q, which reads as %+v, %v", text, line, again, err)
			}
		}
	})
}

// Budget: 0.2 ms, for it runs after each key.
func BenchmarkUnderstood(b *testing.B) {
	look := lookup()
	for b.Loop() {
		rack.Understood("cherry 620 85 77 flat split 0-40, shake along 30-45 x3 first", look, length.InMM)
	}
}

// The timber of each hint is understood wherever nothing lies on the rack, so that
// what a hint says can be typed as it stands.
func TestHintsAreUnderstood(t *testing.T) {
	look := rack.NewLookup(species.Builtin())
	like := regexp.MustCompile(`\blike ([a-z_ ]+[a-z])( \d+ \d+ \d+)?`)
	for _, text := range []string{"", "teak", "teak 620", "620 85 77", "plastic 620 85 77", "cherry 620 85 77", "x3 620 85 77"} {
		_, err := rack.ParseLine(text, look, length.InMM)
		if err == nil {
			t.Fatalf("%q is understood: it brings no hint", text)
		}
		found := like.FindStringSubmatch(err.Error())
		if found == nil || found[2] == "" {
			t.Errorf("%q: no line to go by in %q", text, err)
			continue
		}
		if e, err := rack.ParseLine(found[1]+found[2], look, length.InMM); err != nil || e.Species == "" {
			t.Errorf("%q: the hint's %q is not understood: %v", text, found[1]+found[2], err)
		}
	}
	e := cherry(func(e *rack.Entry) { e.ID, e.Species = "A", "" })
	err := e.Check()
	if err == nil {
		t.Fatal("a piece without a timber passes")
	}
	found := like.FindStringSubmatch(err.Error())
	if found == nil {
		t.Fatalf("no timber to go by in %q", err)
	}
	if _, err := look.Find(found[1]); err != nil {
		t.Errorf("the hint's %q is not understood: %v", found[1], err)
	}
}

// A line whose timber may be several tells which, and how the line is typed for each.
func TestUnclearTimber(t *testing.T) {
	look := rack.NewLookup(species.Builtin())
	u := rack.UnclearTimber("strip walnut 620 85 77, flat", look, length.InMM)
	if u == nil || u.Words != "walnut" {
		t.Fatalf("walnut: %+v", u)
	}
	for i, key := range []string{"black_walnut", "european_walnut"} {
		if e, err := rack.ParseLine(u.Lines[i], look, length.InMM); err != nil || e.Species != key || !e.Ready {
			t.Errorf("%q reads as %+v, %v", u.Lines[i], e, err)
		}
	}
	for _, clear := range []string{"pear 620 85 77", "plastic 620 85 77", "", "620"} {
		if u := rack.UnclearTimber(clear, look, length.InMM); u != nil {
			t.Errorf("%q: %+v", clear, u)
		}
	}
}
