package store

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"example.com/oddments/species"
)

// A bad file is a good one with one place changed. Each wanted error is "line:column
// field | part of the message or hint"; the places were counted by hand in the text
// as changed.
type badFile struct {
	name     string
	old, new string
	want     []string
}

var knownForTest = species.Builtin()

func checkBad(t *testing.T, base string, cases []badFile, read func(io.Reader) error) {
	t.Helper()
	if err := read(strings.NewReader(base)); err != nil {
		t.Fatalf("the good file is refused: %v", err)
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(base, c.old) {
				t.Fatalf("the base has no %q", c.old)
			}
			err := read(strings.NewReader(strings.Replace(base, c.old, c.new, 1)))
			compareErrors(t, err, c.want)
		})
	}
}

func compareErrors(t *testing.T, err error, want []string) {
	t.Helper()
	var got Errors
	if !errors.As(err, &got) {
		t.Fatalf("got %v, want %d errors", err, len(want))
	}
	for i, e := range got {
		if i >= len(want) {
			t.Errorf("one error too many: %v", &e)
			continue
		}
		place, part, _ := strings.Cut(want[i], " | ")
		if at := fmt.Sprintf("%d:%d %s", e.Line, e.Column, e.Field); at != strings.TrimRight(place, " ")+strings.Repeat(" ", boolInt(e.Field == "")) {
			t.Errorf("error %d stands at %q, want %q: %v", i+1, at, place, &e)
		}
		if !strings.Contains(e.Message+" / "+e.Hint, part) {
			t.Errorf("error %d says %q (%q), want %q in it", i+1, e.Message, e.Hint, part)
		}
		if e.File != "a.toml" {
			t.Errorf("error %d names the file %q", i+1, e.File)
		}
	}
	if len(got) < len(want) {
		t.Errorf("%d errors, want %d", len(got), len(want))
	}
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

const goodPattern = `format = "oddments/pattern 1"
name = "a"
[panel]
length = "450 mm"
thickness = "22 mm"
[[strip]]
species = "hornbeam"
width = "25 mm"
[[made]]
date = 2026-11-02
copies = 4
`

func readBadPattern(r io.Reader) error { _, err := ReadPattern(r, "a.toml", knownForTest); return err }

func TestBadPatterns(t *testing.T) {
	checkBad(t, goodPattern, badPatternValues(), readBadPattern)
	checkBad(t, goodPattern, badPatternFiles(), readBadPattern)
}

func badPatternValues() []badFile {
	const width, length, thickness, copies = `width = "25 mm"`, `length = "450 mm"`, `thickness = "22 mm"`, `copies = 4`
	return []badFile{
		{"width a word", width, `width = "wide"`, []string{"8:9 strip 1 width | write a number"}},
		{"width zero", width, `width = "0 mm"`, []string{"8:9 strip 1 width | must be above 0, up to 2000 mm"}},
		{"width above two metres", width, `width = "2001 mm"`, []string{"8:9 strip 1 width | must be above 0"}},
		{"width negative", width, `width = -25`, []string{"8:9 strip 1 width | must not be below 0"}},
		{"width with exponent", width, `width = 2.5e1`, []string{"8:9 strip 1 width | write a number"}},
		{"width in hex", width, `width = 0x19`, []string{"8:9 strip 1 width | write a number"}},
		{"width with underscore", width, `width = 1_0`, []string{"8:9 strip 1 width | write a number"}},
		{"width inf", width, `width = inf`, []string{"8:9 strip 1 width | write a number"}},
		{"width nan", width, `width = nan`, []string{"8:9 strip 1 width"}},
		{"width with a doubtful comma", width, `width = "1,250 mm"`, []string{"8:9 strip 1 width | unclear"}},
		{"width true", width, `width = true`, []string{"8:9 strip 1 width | must be a length"}},
		{"width a date", width, `width = 2026-11-02`, []string{"8:9 strip 1 width | is a date"}},
		{"width a list", width, `width = [25]`, []string{"8:9 strip 1 width | is a list"}},
		{"width a table", width, `width = {mm = 25}`, []string{"8:9 strip 1 width | is a table"}},
		{"width missing", width, ``, []string{"6:3 strip 1 width | missing / add width ="}},
		{"species missing", `species = "hornbeam"`, ``, []string{"6:3 strip 1 species | missing"}},
		{"species unknown", `"hornbeam"`, `"hornbeem"`, []string{"7:11 strip 1 species | unknown species \"hornbeem\": did you mean hornbeam?"}},
		{"species a number", `"hornbeam"`, `7`, []string{"7:11 strip 1 species | must be text in quotes, and is a number"}},
		{"rings a wrong word", width, width + "\nrings = \"flatsawn\"", []string{"9:9 strip 1 rings | flat, rift, quarter or unknown"}},
		{"rings above 90", width, width + "\nrings = 90.5", []string{"9:9 strip 1 rings | 0 to 90"}},
		{"rings below 0", width, width + "\nrings = -1", []string{"9:9 strip 1 rings | 0 to 90"}},
		{"bark a wrong word", width, width + "\nrings = \"flat\"\nbark = \"top\"", []string{"10:8 strip 1 bark | up, down, left or right, or up left"}},
		{"bark a list", width, width + "\nrings = \"flat\"\nbark = [\"up\"]", []string{"10:8 strip 1 bark | text in quotes"}},
		{"bark unknown", width, width + "\nrings = \"flat\"\nbark = \"unknown\"", []string{"10:8 strip 1 bark | up, down, left or right"}},
		{"bark beside flat rings", width, width + "\nrings = \"flat\"\nbark = \"left\"", []string{"10:8 strip 1 bark | rings flat: must be up or down"}},
		{"bark above quartered rings", width, width + "\nbark = \"up\"\nrings = \"quarter\"", []string{"9:8 strip 1 bark | must be left or right"}},
		{"bark of one word at an angle", width, width + "\nrings = 12.5\nbark = \"down\"", []string{"10:8 strip 1 bark | rings 12.5: must be up left, up right, down left or down right"}},
		{"bark without rings", width, width + "\nbark = \"up\"", []string{"9:8 strip 1 bark | needs the rings"}},
		{"bark with unknown rings", width, width + "\nrings = \"unknown\"\nbark = \"up\"", []string{"10:8 strip 1 bark | give both, like rings = \"rift\" and bark"}},
		{"bark with wrong rings", width, width + "\nrings = 91\nbark = \"up\"\nheart = 90", []string{"9:9 strip 1 rings | 0 to 90"}},
		{"heart without bark", width, width + "\nrings = \"flat\"\nheart = \"90 mm\"", []string{"10:9 strip 1 heart | add bark, like bark = \"up\", or leave heart out"}},
		{"heart with a wrong bark", width, width + "\nrings = \"flat\"\nheart = \"90 mm\"\nbark = \"left\"", []string{"11:8 strip 1 bark | up or down"}},
		{"heart of 0", width, width + "\nrings = \"flat\"\nbark = \"up\"\nheart = 0", []string{"11:9 strip 1 heart | above 0, up to 2000 mm"}},
		{"heart too far", width, width + "\nrings = \"flat\"\nbark = \"up\"\nheart = \"2001 mm\"", []string{"11:9 strip 1 heart | 2000 mm"}},
		{"rings a quoted angle", width, width + "\nrings = \"30\"", []string{"9:9 strip 1 rings | without quotes"}},
		{"rings nan", width, width + "\nrings = nan", []string{"9:9 strip 1 rings | must be a number"}},
		{"moisture above 30", width, width + "\nmoisture = 30.1", []string{"9:12 strip 1 moisture | 0 to 30"}},
		{"moisture quoted", width, width + "\nmoisture = \"8\"", []string{"9:12 strip 1 moisture | a number without quotes"}},
		{"moisture inf", width, width + "\nmoisture = -inf", []string{"9:12 strip 1 moisture | must be a number"}},
		{"strip length zero", width, width + "\nlength = 0", []string{"9:10 strip 1 length | above 0"}},
		{"strip length above 20 m", width, width + "\nlength = \"20.001 m\"", []string{"9:10 strip 1 length | 20000 mm"}},
		{"start above a metre", width, width + "\nstart = 1001", []string{"9:9 strip 1 start | 0 to 1000 mm"}},
		{"joints a text", width, width + "\njoints = \"200 mm\"", []string{"9:10 strip 1 joints | must be a list"}},
		{"a joint a word", width, width + "\njoints = [\"middle\"]", []string{"9:11 strip 1 joints 1 | write it like 296-311 mm"}},
		{"a joint a number", width, width + "\njoints = [200]", []string{"9:11 strip 1 joints 1 | must be text"}},
		{"a joint that ends before its start", width, width + "\njoints = [\"210-200 mm\"]", []string{"9:11 strip 1 joints 1 | must end beyond its start"}},
		{"joints that descend", width, width + "\njoints = [\"200 mm\", \"180-190 mm\"]", []string{"9:10 strip 1 joints | beyond the one before it"}},
		{"joints without a piece between", width, width + "\njoints = [\"190-200 mm\", \"200 mm\"]", []string{"9:10 strip 1 joints | with a piece between"}},
		{"a joint at the strip's end", width, width + "\njoints = [\"440-450 mm\"]", []string{"9:10 strip 1 joints | from 0 mm to 450 mm"}},
		{"a joint before the strip's start", width, width + "\nstart = 200\nlength = 100\njoints = [\"200 mm\"]", []string{"11:10 strip 1 joints | from 200 mm to 300 mm"}},
		{"count zero", width, width + "\ncount = 0", []string{"9:9 strip 1 count | from 1 to 10000"}},
		{"count broken", width, width + "\ncount = 1.5", []string{"9:9 strip 1 count | whole number"}},
		{"count too many", width, width + "\ncount = 10001", []string{"9:9 strip 1 count | 10000"}},
		{"count beyond int64", width, width + "\ncount = 1e30", []string{"9:9 strip 1 count | 10000"}},
		{"turned a number", width, width + "\nturned = 1", []string{"9:10 strip 1 turned | must be true or false, and is a number"}},
		{"over text", width, width + "\nover = \"yes\"", []string{"9:8 strip 1 over | must be true or false"}},
		{"colour a word", width, width + "\ncolour = \"brown\"", []string{"9:10 strip 1 colour | must be # and six hexadecimal digits"}},
		{"colour a number", width, width + "\ncolour = 5", []string{"9:10 strip 1 colour | text in quotes"}},
		{"pinned a list", width, width + "\npinned = []", []string{"9:10 strip 1 pinned | must be true or false"}},
		{"panel length zero", length, `length = 0.0`, []string{"4:10 panel length | above 0"}},
		{"panel length missing", length, ``, []string{"3:2 panel length | missing"}},
		{"panel thickness missing", thickness, ``, []string{"3:2 panel thickness | missing"}},
		{"panel thickness above 2 m", thickness, `thickness = "80 in"`, []string{"5:13 panel thickness | 2000 mm"}},
		{"panel width zero", thickness, thickness + "\nwidth = 0", []string{"6:9 panel width | above 0"}},
		{"panel strips a wrong word", thickness, thickness + "\nstrips = \"side\"", []string{"6:10 panel strips | flat or edge"}},
		{"panel moisture below 0", thickness, thickness + "\nmoisture = -0.1", []string{"6:12 panel moisture | 0 to 30"}},
		{"panel flattened a word", thickness, thickness + "\nflattened = \"dry\"", []string{"6:13 panel flattened | a number"}},
		{"made date quoted", `2026-11-02`, `"2026-11-02"`, []string{"10:8 made 1 date | a date without quotes"}},
		{"made date with a time", `2026-11-02`, `2026-11-02T10:00:00`, []string{"10:8 made 1 date | and is a time"}},
		{"made date missing", `date = 2026-11-02`, ``, []string{"9:3 made 1 date | missing"}},
		{"made copies missing", copies, ``, []string{"9:3 made 1 copies | missing"}},
		{"made copies zero", copies, `copies = 0`, []string{"11:10 made 1 copies | from 1 to 10000"}},
		{"made minutes below 0", copies, copies + "\nminutes = -1", []string{"12:11 made 1 minutes | from 0 to 100000"}},
		{"made width zero", copies, copies + "\nwidth = 0", []string{"12:9 made 1 width | above 0"}},
		{"made thickness a word", copies, copies + "\nthickness = \"thin\"", []string{"12:13 made 1 thickness"}},
		{"made note a number", copies, copies + "\nnote = 3", []string{"12:8 made 1 note | text in quotes"}},
		{"notes a number", `name = "a"`, "name = \"a\"\nnotes = 3", []string{"3:9 notes | text in quotes"}},
		{"name a number", `"a"`, `12`, []string{"2:8 name | text in quotes"}},
		{"name with an escape", `"a"`, `"a\u001b[31m"`, []string{"2:8 name | control character U+001B"}},
		{"name with a newline", `"a"`, `"a\nb"`, []string{"2:8 name | U+000A"}},
		{"name with a tab", `"a"`, "\"a\tb\"", []string{"2:8 name | U+0009"}},
		{"name with DEL", `"a"`, `"a\u007f"`, []string{"2:8 name | U+007F"}},
		{"name with a C1 control", `"a"`, `"a\u009b"`, []string{"2:8 name | U+009B"}},
		{"name turned round", `"a"`, "\"a\u202etxt\"", []string{"2:8 name | U+202E"}},
		{"name isolated", `"a"`, `"a\u2066"`, []string{"2:8 name | U+2066"}},
		{"name too long", `"a"`, `"` + strings.Repeat("é", 2001) + `"`, []string{"2:8 name | 2001 characters: must be at most 2000"}},
		{"column after wide letters", `"25 mm"`, `"25 mm", 'né' = 1`, []string{"8:16  | there is more after the value"}},
	}
}

func badPatternFiles() []badFile {
	const format = `format = "oddments/pattern 1"`
	const panel = "[panel]\nlength = \"450 mm\"\nthickness = \"22 mm\"\n"
	return []badFile{
		{"format missing", format, ``, []string{"1:1 format | missing"}},
		{"format a number", format, `format = 1`, []string{"1:10 format | text in quotes"}},
		{"format unclear", format, `format = "pattern"`, []string{`1:10 format | must be "oddments/pattern 1"`}},
		{"format zero", format, `format = "oddments/pattern 0"`, []string{"1:10 format | must be"}},
		{"another kind, alone", format, "format = \"oddments/rack 1\"\nodd = 1", []string{"1:10 format | this must be a pattern file"}},
		{"newer, alone", format, "format = \"oddments/pattern 2\"\nodd = 1", []string{"1:10 format | newer"}},
		{"unknown key", `name = "a"`, `nmae = "a"`, []string{"2:1 nmae | did you mean name?"}},
		{"unknown key, none near", `name = "a"`, `quux = "a"`, []string{"2:1 quux | known here: format, name, notes, panel, strip, second, product, avoid, made"}},
		{"unknown key of a strip", `width = "25 mm"`, "width = \"25 mm\"\nwidht = 3", []string{"9:1 strip 1 widht | did you mean width?"}},
		{"unknown table", `[[made]]`, "[finish]\n[[made]]", []string{"9:2 finish | unknown table"}},
		{"unknown key by a dot", `name = "a"`, "name = \"a\"\npanel.depth = 4", []string{"4:2  | panel"}},
		{"panel missing", panel, ``, []string{"1:1 panel | add [panel] with length and thickness"}},
		{"panel not a table", panel, "panel = 3\n", []string{"3:9 panel | must be a table"}},
		{"strip a single table", `[[strip]]`, `[strip]`, []string{"6:2 strip | must be a list of tables"}},
		{"made a single table", `[[made]]`, `[made]`, []string{"9:2 made | must be a list of tables"}},
		{"strip a list of numbers", `name = "a"`, "strip = [1, 2]\n[x]", []string{"7:3  | strip"}},
		{"key given twice", `name = "a"`, "name = \"a\"\nname = \"b\"", []string{"3:1  | name"}},
		{"table given twice", `[[made]]`, "[panel]\nwidth = 3\n[[made]]", []string{"9:2  | panel"}},
		{"key given twice, alone", `name = "a"`, "odd = 1\nname = \"a\"\nname = \"b\"", []string{"4:1  | name"}},
		{"syntax, alone", `width = "25 mm"`, "odd = 1\nwidth = 25 mm", []string{"9:12  | the rest of the file"}},
		{"text that does not end", `name = "a"`, `name = "a`, []string{"2:10  | "}},
		{"date that is none", `2026-11-02`, `2026-02-30`, []string{"10:8  | "}},
		{"no UTF-8", `name = "a"`, "name = \"é\xff\"", []string{"2:10  | not UTF-8"}},
		{"too deep", `name = "a"`, "name = " + strings.Repeat("[", 1000), []string{"2:72  | more than 64 levels"}},
		{"too many dots", `name = "a"`, "a" + strings.Repeat(".a", 1000) + " = 1", []string{"2:130  | more than 64 levels"}},
		{"too many strips", `[[made]]`, "[[strip]]\nspecies = \"pear\"\nwidth = 9\ncount = 10000\n[[made]]",
			[]string{"9:3 strip 2 | at most 10000 strips"}},
		{"several, sorted by line", "[[strip]]\nspecies = \"hornbeam\"\nwidth = \"25 mm\"\n",
			"colour = 1\n[[strip]]\nwidth = 0\nrings = \"up\"\n[[strip]]\nspecies = \"oak\"\nwidth = \"5 mm\"\nmoisture = 99\n",
			[]string{"6:1 panel colour | unknown", "7:3 strip 1 species | missing", "8:9 strip 1 width | above 0", "9:9 strip 1 rings",
				"11:11 strip 2 species | unknown species", "13:12 strip 2 moisture | 0 to 30"}},
	}
}

const goodRack = `format = "oddments/rack 1"
[[piece]]
id = "B1"
species = "hornbeam"
length = "620 mm"
width = "85 mm"
thickness = "77 mm"
[[strip]]
id = "B2"
species = "pear"
width = "25 mm"
thickness = "24 mm"
length = "470 mm"
`

func readBadRack(r io.Reader) error { _, err := ReadRack(r, "a.toml", knownForTest); return err }

func TestBadRacks(t *testing.T) { checkBad(t, goodRack, badRacks(), readBadRack) }

func badRacks() []badFile {
	const thick = `thickness = "77 mm"`
	const last = `length = "470 mm"`
	return []badFile{
		{"one id twice", `"B2"`, `"B1"`, []string{"9:6 strip 1 id | that of line 3 too"}},
		{"id empty", `"B1"`, `""`, []string{"3:6 piece 1 id | empty"}},
		{"id with a slash", `"B1"`, `"B1/1"`, []string{"3:6 piece 1 id | slash"}},
		{"id with a space before", `"B1"`, `" B1"`, []string{"3:6 piece 1 id | space"}},
		{"id too long", `"B1"`, `"` + strings.Repeat("B", 41) + `"`, []string{"3:6 piece 1 id | 41 characters"}},
		{"id a number", `"B1"`, `1`, []string{"3:6 piece 1 id | text in quotes"}},
		{"everything missing", "id = \"B1\"\nspecies = \"hornbeam\"\nlength = \"620 mm\"\nwidth = \"85 mm\"\nthickness = \"77 mm\"\n", "",
			[]string{"2:3 piece 1 id | missing", "2:3 piece 1 species", "2:3 piece 1 length", "2:3 piece 1 width", "2:3 piece 1 thickness"}},
		{"ready strip, everything missing", goodRack[strings.Index(goodRack, `id = "B2"`):], "",
			[]string{"8:3 strip 1 id | missing", "8:3 strip 1 species", "8:3 strip 1 width", "8:3 strip 1 thickness", "8:3 strip 1 length"}},
		{"species unknown", `"pear"`, `"pere"`, []string{"10:11 strip 1 species | did you mean pear"}},
		{"length too long", `"620 mm"`, `"21 m"`, []string{"5:10 piece 1 length | 20000 mm"}},
		{"width zero", `"85 mm"`, `0`, []string{"6:9 piece 1 width | above 0"}},
		{"thickness a list", `"77 mm"`, `[]`, []string{"7:13 piece 1 thickness | is a list"}},
		{"quantity zero", thick, thick + "\nquantity = 0", []string{"8:12 piece 1 quantity | from 1"}},
		{"planed text", thick, thick + "\nplaned = \"no\"", []string{"8:10 piece 1 planed | true or false"}},
		{"rings wrong", thick, thick + "\nrings = \"Flat\"", []string{"8:9 piece 1 rings"}},
		{"bark wrong", thick, thick + "\nrings = \"rift\"\nbark = \"up\"", []string{"9:8 piece 1 bark | must be up left"}},
		{"heart alone", thick, thick + "\nheart = 90", []string{"8:9 piece 1 heart | add bark"}},
		{"moisture wrong", thick, thick + "\nmoisture = 31", []string{"8:12 piece 1 moisture"}},
		{"use_first a number", thick, thick + "\nuse_first = 1", []string{"8:13 piece 1 use_first"}},
		{"use first misspelt", thick, thick + "\nusefirst = true", []string{"8:1 piece 1 usefirst | did you mean use_first?"}},
		{"note a date", thick, thick + "\nnote = 2026-11-02", []string{"8:8 piece 1 note"}},
		{"faults text", thick, thick + "\nfaults = \"0-40 mm\"", []string{"8:10 piece 1 faults | a list"}},
		{"fault a number", thick, thick + "\nfaults = [\"0-40 mm\", 7]", []string{"8:22 piece 1 faults 2 | text"}},
		{"fault unclear", thick, thick + "\nfaults = [\n  \"0-40 mm\",\n  \"40\",\n]", []string{"10:3 piece 1 faults 2 | write it like"}},
		{"fault backwards", thick, thick + "\nfaults = [\"40-30 mm\"]", []string{"8:11 piece 1 faults 1 | end after"}},
		{"fault beyond the end", thick, thick + "\nfaults = [\"600-621 mm\"]", []string{"8:11 piece 1 faults 1 | outside"}},
		{"fault beyond the edge", thick, thick + "\nfaults = [\"along 80-86 mm\"]", []string{"8:11 piece 1 faults 1 | outside"}},
		{"ready quantity broken", last, last + "\nquantity = 2.5", []string{"14:12 strip 1 quantity | whole"}},
		{"ready rings wrong", last, last + "\nrings = 91", []string{"14:9 strip 1 rings"}},
		{"ready bark wrong", last, last + "\nbark = \"left\"", []string{"14:8 strip 1 bark | needs the rings"}},
		{"ready heart wrong", last, last + "\nheart = true", []string{"14:9 strip 1 heart | a length"}},
		{"ready moisture wrong", last, last + "\nmoisture = true", []string{"14:12 strip 1 moisture"}},
		{"colour too short", thick, thick + "\ncolour = \"#D8C\"", []string{"8:10 piece 1 colour | six hexadecimal digits"}},
		{"colour_from a number", thick, thick + "\ncolour_from = 3", []string{"8:15 piece 1 colour_from | text in quotes"}},
		{"ready colour wrong", last, last + "\ncolour = \"\"", []string{"14:10 strip 1 colour"}},
		{"ready colour_from wrong", last, last + "\ncolour_from = \"a\\u001b\"", []string{"14:15 strip 1 colour_from | control character"}},
		{"ready use_first wrong", last, last + "\nuse_first = \"\"", []string{"14:13 strip 1 use_first"}},
		{"ready strips are planed", last, last + "\nplaned = true", []string{"14:1 strip 1 planed | unknown key"}},
		{"piece a single table", `[[piece]]`, `[piece]`, []string{"2:2 piece | must be a list of tables"}},
		{"ready strip a single table", `[[strip]]`, `[strip]`, []string{"8:2 strip | must be a list of tables"}},
		{"a shop", "rack 1", "shop 1", []string{"1:10 format | this must be a rack file"}},
	}
}

const goodShop = "format = \"oddments/shop 1\"\n"

func readBadShop(r io.Reader) error { _, err := ReadShop(r, "a.toml"); return err }

func TestBadShops(t *testing.T) { checkBad(t, goodShop, badShops(), readBadShop) }

// badShops puts one wrong line behind the format and, for most, a heading.
func badShops() []badFile {
	const after = goodShop
	with := func(text string) string { return after + text }
	var cases []badFile
	for _, c := range []struct{ table, keys, bad, part string }{
		{"kerf", "rip crosscut resaw", `"1001 mm"`, "0 to 1000 mm"},
		{"allowance", "truing cleaning planing jointing flattening length end_trim second over_length", `"2 m"`, "0 to 1000 mm"},
		{"keep", "length width thickness", `"2001 mm"`, "0 to 2000 mm"},
		{"standing", "widths", `"20 mm"`, "a list in brackets"},
		{"draw", "use_first returned tails", `100.5`, "0 to 100"},
		{"draw", "opened joint", `-1`, "0 to 1000000"},
		{"air", "temperature", `61`, "-10 to 60"},
		{"air", "humidity", `101`, "0 to 100"},
		{"season.dry", "temperature", `-11`, "-10 to 60"},
		{"season.humid", "humidity", `"65"`, "a number without quotes"},
		{"season.dry", "humidity", `-1`, "0 to 100"},
		{"season.humid", "temperature", `60.5`, "-10 to 60"},
		{"limits", "step strain moisture row", `[2, 1]`, "above the first"},
		{"limits", "step strain moisture row", `[0, 1]`, ""},
		{"limits", "step strain moisture row", `[1, 2, 3]`, "a list of 3"},
		{"limits", "step strain moisture row", `30`, "a list in brackets"},
		{"limits", "contrast", `0`, "above 0"},
		{"cut", "end_margin side_margin gap cutter bush pass base stop shortest", `"1001 mm"`, "0 to 1000 mm"},
		{"glue", "spread_g_m2 open_minutes seconds_joint", `10001`, "0 to 10000"},
		{"glue", "waste_percent size_percent", `100.5`, "0 to 100"},
		{"glue", "clamp_reach", `-1`, "not be below 0"},
		{"glue", "clamp_force_n", `-1`, "0 to 1000000"},
		{"glue", "pressure_mpa", `101`, "0 to 100"},
		{"glue", "least_temperature", `61`, "-10 to 60"},
		{"glue", "class", `5`, "a whole number from 0 to 4"},
		{"glue", "wait_days", `1.5`, "a whole number from 0 to 1000"},
		{"glue", "clamps", `10001`, "a whole number from 0 to 10000"},
		{"glue", "handling_minutes", `-1`, "0 to 10000"},
		{"glue", "evening_hours", `25`, "0 to 24"},
		{"finish", "oil_ml_m2", `-1`, "0 to 10000"},
		{"finish", "coats", `2.5`, "a whole number from 0 to 100"},
		{"finish", "wax_to_oil", `"1:0"`, "the oil above 0"},
		{"finish", "wax_to_oil", `"one to two"`, "must be like 1:2"},
		{"finish", "wax_to_oil", `0.5`, "text in quotes"},
		{"finish", "oil_density", `0`, "0.1 to 10"},
		{"finish", "end_grain", `0.5`, "1 to 10"},
		{"finish", "rack_slots", `"1200 mm"`, "a list in brackets"},
		{"finish", "rack_slots", `[1200]`, "a list of 1: must be length and width"},
		{"price", "rate_hour materials_dm3 fixed_each stall", `1000001`, "0 to 1000000"},
		{"maker", "name address electronic glue finish", `7`, "text in quotes"},
		{"price", "fee_percent", `101`, "0 to 100"},
		{"machine", "thicknesser_width thicknesser_length surfacer_length bandsaw_height saw_depth", `"-1 mm"`, "not be below 0"},
	} {
		for _, key := range strings.Fields(c.keys) {
			field := strings.ReplaceAll(c.table, ".", " ") + " " + key
			column := len(key) + len(" = ") + 1
			if c.bad == "[0, 1]" {
				field, column = field+" 1", column+1
			}
			cases = append(cases, badFile{field + " " + c.bad, after, with(fmt.Sprintf("[%s]\n%s = %s\n", c.table, key, c.bad)),
				[]string{fmt.Sprintf("3:%d %s | %s", column, field, c.part)}})
		}
	}
	return append(cases,
		badFile{"units feet", after, with(`units = "ft"`), []string{"2:9 units | mm or in"}},
		badFile{"unknown season", after, with("[season.wet]\nhumidity = 90\n"), []string{"2:9 season wet | unknown table"}},
		badFile{"unknown machine", after, with("[machine]\nbandsaw_hight = 3\n"), []string{"3:1 machine bandsaw_hight | did you mean bandsaw_height?"}},
		badFile{"rack beyond 20 m", after, with("[finish]\nrack_slots = [\"20 m\", 20001]\n"), []string{"3:23 finish rack_slots 2 | 20000 mm"}},
		badFile{"standing width of 0", after, with("[standing]\nwidths = [20, 0]\n"), []string{"3:15 standing widths 2 | above 0, up to"}},
		badFile{"standing width twice", after, with("[standing]\nwidths = [20, \"2 cm\"]\n"), []string{"3:15 standing widths 2 | twice"}},
		badFile{"nine standing widths", after, with("[standing]\nwidths = [1, 2, 3, 4, 5, 6, 7, 8, 9]\n"), []string{"3:10 standing widths | at most 8"}},
		badFile{"unknown cut", after, with("[cut]\nend_margins = 3\n"), []string{"3:1 cut end_margins | did you mean end_margin?"}},
		badFile{"limit with text", after, with("[limits]\nstep = [30, \"80\"]\n"), []string{"3:13 limits step 2 | a number"}},
		badFile{"table as a number", after, with("kerf = 3\n"), []string{"2:8 kerf | must be a table"}},
		badFile{"newer", "shop 1", "shop 3", []string{"1:10 format | newer"}},
		badFile{"no format", "format", "fromat", []string{"1:1 format | missing", "1:1 fromat | did you mean format?"}},
	)
}

const goodSpecies = "format = \"oddments/species 1\"\n[[species]]\nkey = \"plum\"\n"

func readBadSpecies(r io.Reader) error { _, err := ReadSpecies(r, "a.toml"); return err }

func TestBadSpecies(t *testing.T) { checkBad(t, goodSpecies, badSpecies(), readBadSpecies) }

func badSpecies() []badFile {
	const key = "key = \"plum\"\n"
	var cases []badFile
	add := func(name, value, part string) {
		cases = append(cases, badFile{name + " " + value, key, key + name + " = " + value + "\n",
			[]string{fmt.Sprintf("4:%d species 1 %s | %s", len(name)+4, name, part)}})
	}
	for _, k := range species.Fields() {
		switch k.At(&species.Species{}).(type) {
		case *float64:
			add(k.Name, "0", "must be")
			add(k.Name, "1e9", "must be")
			add(k.Name, `"5"`, "a number without quotes")
		case *bool:
			add(k.Name, `"yes"`, "true or false")
		case *species.RGB:
			add(k.Name, `"brown"`, "six hexadecimal digits")
			add(k.Name, `123456`, "text in quotes")
		case *[]string:
			add(k.Name, `"one"`, "a list")
		case *string:
			add(k.Name, `7`, "text in quotes")
			add(k.Name, `"\u0007"`, "U+0007")
		}
	}
	for _, k := range species.Fields() {
		cases = append(cases, badFile{"source of " + k.Name, key, key + "[species.sources]\n" + k.Name + " = 5\n",
			[]string{fmt.Sprintf("5:%d species 1 sources %s | text in quotes", len(k.Name)+4, k.Name)}})
	}
	add("letters", `"pl"`, "two capitals")
	add("pores", `"none"`, "ring, semi-ring")
	add("name", `""`, "empty")
	return append(cases,
		badFile{"newer", "species 1", "species 2", []string{"1:10 format | newer"}},
		badFile{"a single table", "[[species]]", "[species]", []string{"2:2 species | must be a list of tables"}},
		badFile{"key missing", key, "name = \"plum\"\n", []string{"2:3 species 1 key | missing"}},
		badFile{"key with capitals", `"plum"`, `"Plum"`, []string{"3:7 species 1 key | small letter"}},
		badFile{"key twice", key, key + "[[species]]\n" + key, []string{"5:7 species 2 key | line 3 too"}},
		badFile{"letters twice", key, key + "letters = \"PL\"\n[[species]]\nkey = \"sloe\"\nletters = \"PL\"\n", []string{"7:11 species 2 letters | line 4 too"}},
		badFile{"source of no value", key, key + "[species.sources]\ncrr = \"x\"\n", []string{"5:1 species 1 sources crr | did you mean cr?"}},
		badFile{"source a number", key, key + "[species.sources]\ncr = 5\n", []string{"5:6 species 1 sources cr | text"}},
		badFile{"unknown value", key, key + "color = \"#000000\"\n", []string{"4:1 species 1 color | did you mean colour?"}},
		badFile{"also with a number", key, key + "also = [\"a\", 5]\n", []string{"4:14 species 1 also 2 | text"}},
	)
}

// The block's lines are counted by hand: its heading is line 12, the avoid's 22.
const goodProducts = `format = "oddments/pattern 1"
[panel]
length = "450 mm"
thickness = "22 mm"
[[product]]
shape = "round"
diameter = "290 mm"
count = 2
centre = "panel"
bevel = "8 mm"
bevel_side = "under"
[[product]]
shape = "block"
length = "400 mm"
width = "90 mm"
count = 0
centre = "strip 2"
bevel = 0
hole = "40 mm"
holes = 3
hole_depth = "18 mm"
[[avoid]]
along = "210 mm"
across = "96 mm"
radius = "8 mm"
`

func TestBadProducts(t *testing.T) { checkBad(t, goodProducts, badProducts(), readBadPattern) }

func badProducts() []badFile {
	const diameter, block, count = `diameter = "290 mm"`, `shape = "block"`, `count = 2`
	return []badFile{
		{"shape missing", "shape = \"round\"\n", "", []string{"5:3 product 1 shape | missing / add shape ="}},
		{"shape of another trade", `"round"`, `"kite"`, []string{"6:9 product 1 shape | round, rectangle, block or oval"}},
		{"shape a number", `"round"`, `1`, []string{"6:9 product 1 shape | text in quotes"}},
		{"diameter missing", diameter + "\n", "", []string{"5:3 product 1 diameter | missing / add diameter ="}},
		{"diameter zero", diameter, `diameter = 0`, []string{"7:12 product 1 diameter | must be 1 mm to 2000 mm"}},
		{"diameter too large", diameter, `diameter = "2.1 m"`, []string{"7:12 product 1 diameter | 0 to 2000 mm"}},
		{"diameter a word", diameter, `diameter = "wide"`, []string{"7:12 product 1 diameter | write a number"}},
		{"diameter below 0", diameter, `diameter = -1`, []string{"7:12 product 1 diameter | not be below 0"}},
		{"a round with a length", diameter, diameter + "\nlength = 3", []string{"8:10 product 1 length | a round has none"}},
		{"a round with a hole", diameter, diameter + "\nhole = 3", []string{"8:8 product 1 hole | a round has no holes"}},
		{"a round as a rectangle", `"round"`, `"rectangle"`, []string{"5:3 product 1 length | missing", "5:3 product 1 width | missing"}},
		{"a rectangle with a diameter", block, "shape = \"rectangle\"\ndiameter = 3",
			[]string{"14:12 product 2 diameter | a rectangle has none", "20:8 product 2 hole | must be a block",
				"21:9 product 2 holes | must be a block", "22:14 product 2 hole_depth | must be a block"}},
		{"count broken", count, `count = 1.5`, []string{"8:9 product 1 count | whole number from 0 to 10000"}},
		{"count below 0", count, `count = -1`, []string{"8:9 product 1 count | from 0 to 10000"}},
		{"count 0 before the last", count, `count = 0`, []string{"8:9 product 1 count | only the last product"}},
		{"centre of nothing", `"panel"`, `"strip"`, []string{"9:10 product 1 centre | panel, strip N or joint N"}},
		{"centre 0", `"panel"`, `"joint 0"`, []string{"9:10 product 1 centre | panel, strip N or joint N"}},
		{"bevel too deep", `bevel = "8 mm"`, `bevel = "145 mm"`, []string{"10:9 product 1 bevel | less than half of 290 mm"}},
		{"bevel side", `"under"`, `"left"`, []string{"11:14 product 1 bevel_side | under, top or both"}},
		{"hole without the others", "holes = 3\nhole_depth = \"18 mm\"\n", "",
			[]string{"12:3 product 2 holes | missing", "12:3 product 2 hole_depth | missing"}},
		{"hole too wide", `hole = "40 mm"`, `hole = "91 mm"`, []string{"19:8 product 2 hole | up to the width of 90 mm"}},
		{"holes too many", `holes = 3`, `holes = 11`, []string{"20:9 product 2 holes | fit the length of 400 mm"}},
		{"holes for oil", `hole_depth = "18 mm"`, "hole_depth = 18\nfor = \"oil\"", []string{"22:7 product 2 for | must be candles"}},
		{"candles in a round", diameter, diameter + "\nfor = \"candles\"", []string{"8:7 product 1 for | must be a block with holes"}},
		{"hole depth a list", `hole_depth = "18 mm"`, `hole_depth = [18]`, []string{"21:14 product 2 hole_depth | is a list"}},
		{"unknown key", count, `counts = 2`, []string{"8:1 product 1 counts | did you mean count?"}},
		{"a single table", `[[avoid]]`, `[avoid]`, []string{"22:2 avoid | must be a list of tables"}},
		{"avoid along missing", "along = \"210 mm\"\n", "", []string{"22:3 avoid 1 along | missing / add along ="}},
		{"avoid everything missing", "along = \"210 mm\"\nacross = \"96 mm\"\nradius = \"8 mm\"\n", "",
			[]string{"22:3 avoid 1 along | missing", "22:3 avoid 1 across | missing", "22:3 avoid 1 radius | missing"}},
		{"avoid off every panel", `along = "210 mm"`, `along = "21001 mm"`, []string{"23:9 avoid 1 along | 21000 mm"}},
		{"avoid across below 0", `across = "96 mm"`, `across = -1`, []string{"24:10 avoid 1 across | not be below 0"}},
		{"avoid radius", `radius = "8 mm"`, `radius = "1.1 m"`, []string{"25:10 avoid 1 radius | 0 to 1000 mm"}},
		{"avoid unknown key", `radius = "8 mm"`, "radius = 8\ndepth = 3", []string{"26:1 avoid 1 depth | unknown key"}},
		{"too many products", "[[avoid]]", strings.Repeat("[[product]]\nshape = \"round\"\ndiameter = 5\n", 99) + "[[avoid]]",
			[]string{"16:9 product 2 count | only the last product", "316:3 product 101 | at most 100 products"}},
	}
}
