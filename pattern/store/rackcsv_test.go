package store

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/species"
)

const goodCSV = `kind,id,species,length,width,thickness,quantity,planed,rings,moisture,faults,use_first,note,colour,colour_from
piece,B1,hornbeam,620 mm,85 mm,77 mm,2,true,flat,9.1,0-40 mm; along 30-45 mm,true,from the hedge,#D8CBB0,photo
strip,B2,pear,470 mm,25 mm,24 mm,14,,,,,,,,
`

func TestRackCSV(t *testing.T) {
	got, err := ReadRackCSV(strings.NewReader(goodCSV), "a.csv", knownForTest)
	if err != nil {
		t.Fatal(err)
	}
	want := rack.Rack{
		Pieces: []rack.Piece{{ID: "B1", Species: "hornbeam", Length: 620 * mm, Width: 85 * mm, Thickness: 77 * mm, Quantity: 2, Planed: true,
			Rings: pattern.RingsFlat(), Moisture: pattern.Read(9.1), UseFirst: true, Note: "from the hedge", Colour: colour.OwnOf(species.RGB{R: 0xD8, G: 0xCB, B: 0xB0}), From: "photo",
			Faults: []rack.Fault{{To: 40 * mm}, {Along: true, From: 30 * mm, To: 45 * mm}}}},
		Strips: []rack.Strip{{ID: "B2", Species: "pear", Length: 470 * mm, Width: 25 * mm, Thickness: 24 * mm, Quantity: 14}},
	}
	same(t, got, want)
	for name, text := range map[string]string{
		"as a spreadsheet saves it": "\ufeff" + strings.ReplaceAll(strings.ReplaceAll(goodCSV, "true", "TRUE"), "\n", "\r\n"),
		"without the last line end": strings.TrimSuffix(goodCSV, "\n"),
		"empty rows":                goodCSV + "\n,,,,,,,,,,,,\n , \n,,,,,,,,,,,,,,\n",
		"short rows":                strings.Replace(goodCSV, "14,,,,,,", "14", 1),
		"bare numbers":              strings.ReplaceAll(strings.ReplaceAll(strings.ReplaceAll(goodCSV, " mm,", ","), "620", "620.0"), "true", "yes"),
		"other units":               strings.NewReplacer("620 mm", "62 cm", "85 mm", `"8,5 cm"`, "9.1", `"9,1 %"`).Replace(goodCSV),
		"spaces and capitals":       strings.NewReplacer("piece,B1", " Piece , B1 ", "flat", " Flat ", "kind", "Kind ").Replace(goodCSV),
	} {
		got, err := ReadRackCSV(strings.NewReader(text), "a.csv", knownForTest)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		same(t, got, want)
	}
}

// Columns may stand in any order, and those that need not be there may be missing.
func TestRackCSVOrderIsFree(t *testing.T) {
	got, err := ReadRackCSV(strings.NewReader("width,thickness,length,species,id,kind\n\"1 1/8\"\"\",24,470,pear,B2,strip\n"), "a.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, rack.Rack{Strips: []rack.Strip{{ID: "B2", Species: "pear", Length: 470 * mm, Width: 28_575 * length.Micrometre,
		Thickness: 24 * mm, Quantity: 1}}})
	got, err = ReadRackCSV(strings.NewReader(goodCSV[:strings.Index(goodCSV, "\n")]), "a.csv", nil)
	if err != nil || len(got.Pieces)+len(got.Strips) != 0 {
		t.Errorf("a header alone is %v, %v", got, err)
	}
}

func TestBadRackCSV(t *testing.T) { checkBad(t, goodCSV, badCSVCells(), readCSVForTest) }

// Columns of the bark stand where they are said, and are written when they are read.
func TestRackCSVWithBark(t *testing.T) {
	text := "kind,id,species,length,width,thickness,bark,rings,heart\n" +
		"piece,B1,hornbeam,620,85,77,Up Left,rift,90 mm\nstrip,B2,pear,470,25,24,left,quarter,\npiece,B3,pear,470,25,24,,,\n"
	got, err := ReadRackCSV(strings.NewReader(text), "a.csv", knownForTest)
	if err != nil {
		t.Fatal(err)
	}
	first, second := got.Pieces[0].Grain(), rack.EntryOf(got.Strips[0]).Grain()
	if first != (pattern.Grain{Rings: pattern.RingsRift(), Bark: pattern.Bark{Right: -1, Up: 1}, Heart: 90 * mm}) ||
		second != (pattern.Grain{Rings: pattern.RingsQuarter(), Bark: pattern.Bark{Right: -1}}) || got.Pieces[1].Grain() != (pattern.Grain{}) {
		t.Errorf("read %v", got)
	}
	var out strings.Builder
	if err := WriteRackCSV(&out, got); err != nil || !strings.Contains(out.String(), ",rift,,,,,,,up left,90 mm\n") {
		t.Errorf("%v, written as\n%s", err, &out)
	}
	again, err := ReadRackCSV(strings.NewReader(out.String()), "a.csv", knownForTest)
	if err != nil {
		t.Fatal(err)
	}
	same(t, again, got)
	for name, c := range map[string]struct{ old, new, want string }{
		"side":         {"Up Left", "up", "2:29 | must be up left"},
		"word":         {"Up Left", "top", "2:29 | up, down, left or right"},
		"no rings":     {"rift", "", "2:29 | needs the rings"},
		"heart":        {"left,quarter,", ",,9", "3:27 | add bark"},
		"control":      {"90 mm", "\x07", "2:42 | U+0007"},
		"list":         {"Up Left", "up;left", "2:29 | up, down, left or right"},
		"wrong rings":  {"rift", "fift", "2:37 | rings \"fift\""},
		"heart of 0":   {"90 mm", "0", "2:42 | above 0"},
		"heart a word": {"90 mm", "far", "2:42 | write a number"},
	} {
		_, err := ReadRackCSV(strings.NewReader(strings.Replace(text, c.old, c.new, 1)), "a.csv", knownForTest)
		place, part, _ := strings.Cut(c.want, " | ")
		var all Errors
		if !errors.As(err, &all) || len(all) != 1 || fmt.Sprintf("%d:%d", all[0].Line, all[0].Column) != place || !strings.Contains(all[0].Message+all[0].Hint, part) {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}

func badCSVCells() []badFile {
	// In the piece's row B1 starts at 7, hornbeam 10, 620 19, 85 26, 77 32, 2 38, true
	// 40, flat 45, 9.1 50, the faults 54, true 78, the note 83.
	return []badFile{
		{"colour a word", "#D8CBB0", "pale", []string{"2:98 colour | six hexadecimal digits"}},
		{"colour_from with an escape", "photo", "pho\x1bto", []string{"2:106 colour_from | control character"}},
		{"kind wrong", "piece,", "peice,", []string{"2:1 kind | piece or strip"}},
		{"kind empty", "piece,", ",", []string{"2:1 kind | missing"}},
		{"id empty", "B1", "", []string{"2:7 id | missing / write B7"}},
		{"id twice", "B2", "B1", []string{"3:7 id | that of line 2 too"}},
		{"id with a slash", "B1", "B1/1", []string{"2:7 id | slash"}},
		{"species unknown", "hornbeam", "hornbeem", []string{"2:10 species | unknown species"}},
		{"length a word", "620 mm", "long", []string{"2:19 length | write a number"}},
		{"length below 0", "620 mm", "-620", []string{"2:19 length | below 0"}},
		{"length too long", "620 mm", "21 m", []string{"2:19 length | above 0, up to 20000 mm"}},
		{"length unclear", "620 mm", `"1,250"`, []string{"2:19 length | unclear"}},
		{"length with exponent", "620 mm", "6.2E2", []string{"2:19 length | write a number"}},
		{"width zero", "85 mm", "0", []string{"2:26 width | above 0"}},
		{"thickness missing", "77 mm", "", []string{"2:32 thickness | missing"}},
		{"quantity zero", ",2,", ",0,", []string{"2:38 quantity | from 1 to 10000"}},
		{"a thousand million", ",2,", ",1000000000,", []string{"2:38 quantity | from 1 to 10000"}},
		{"quantity beyond int64", ",2,", ",99999999999999999999,", []string{"2:38 quantity | from 1 to 10000"}},
		{"quantity broken", ",2,", ",1.5,", []string{"2:38 quantity | whole number"}},
		{"quantity signed", ",2,", ",+2,", []string{"2:38 quantity | whole number"}},
		{"planed a number", "2,true", "2,1", []string{"2:40 planed | true or false"}},
		{"rings wrong", "flat", "flatsawn", []string{"2:45 rings | flat, rift, quarter"}},
		{"rings above 90", "flat", "90.5", []string{"2:45 rings | 0 to 90"}},
		{"rings nan", "flat", "nan", []string{"2:45 rings | angle of 0 to 90"}},
		{"bark and heart wrong", goodCSV, "kind,id,species,length,width,thickness,rings,bark,heart\npiece,B1,hornbeam,620 mm,85 mm,77 mm,flat,left,0\n",
			[]string{"2:43 bark | up or down", "2:48 heart | above 0"}},
		{"moisture above 30", "9.1", "30.1", []string{"2:50 moisture | 0 to 30"}},
		{"moisture inf", "9.1", "inf", []string{"2:50 moisture | a number from 0 to 30"}},
		{"moisture a date", "9.1", "09. Jan", []string{"2:50 moisture | a number from 0 to 30"}},
		{"fault unclear", "0-40 mm;", "40 mm;", []string{"2:54 faults 1 | write it like"}},
		{"second fault beyond the edge", "30-45", "30-86", []string{"2:54 faults 2 | whose width is 85 mm"}},
		{"use_first wrong", ",true,from", ",x,from", []string{"2:78 use_first | true or false"}},
		{"note with a tab", "from the", "from\tthe", []string{"2:83 note | U+0009"}},
		{"note of two lines", "from the hedge", "\"from\nthe hedge\"", []string{"2:83 note | U+000A"}},
		{"note turned round", "from the", "from\u202ethe", []string{"2:83 note | U+202E"}},
		{"length with a control character", "620 mm", "620\u202e mm", []string{"2:19 length | U+202E"}},
		{"note too long", "from the hedge", strings.Repeat("é", 2001), []string{"2:83 note | 2001 characters"}},
		{"columns count letters", "620 mm,85 mm", "\"é\",0", []string{"2:19 length | write a number", "2:23 width | above 0"}},
		{"planed strip", "14,,,,,,", "14,true,,,,,", []string{"3:37 planed | planed as it is / leave the cell empty"}},
		{"strip with faults", "14,,,,,,", "14,,,,0-40 mm,,", []string{"3:40 faults | no faults / give the length"}},
		{"strip with a note", "14,,,,,,", "14,,,,,,dry", []string{"3:42 note | no note / leave it empty"}},
		{"a cell too many", "photo", "photo, dry", []string{"2:112  | cell 16: the header has 15 columns / a cell with a comma must be in quotes"}},
		{"everything at once", goodCSV[strings.Index(goodCSV, "piece"):], "pice,,oak,0,0,0\nstrip,B2,pear,a,b,c,,,,,,,x\n", []string{
			"2:1 kind", "2:6 id", "2:7 species", "2:11 length", "2:13 width", "2:15 thickness",
			"3:15 length", "3:17 width", "3:19 thickness", "3:27 note"}},
	}
}

func readCSVForTest(r io.Reader) error {
	_, err := ReadRackCSV(r, "a.toml", knownForTest)
	return err
}

// What is wrong with the header or the form is reported alone.
func TestBadCSVForm(t *testing.T) { checkBad(t, goodCSV, badCSVForms(), readCSVForTest) }

func badCSVForms() []badFile {
	return []badFile{
		{"nothing", goodCSV, "", []string{"1:1  | no header row"}},
		{"column misspelt", "use_first", "usefirst", []string{"1:78  | unknown column \"usefirst\" / did you mean use_first?"}},
		{"column nobody knows", "note", "shelf_by_the_door", []string{"1:88  | known here: kind, id"}},
		{"column without a name", "note", "", []string{"1:88  | unknown column"}},
		{"column twice", "note", "id", []string{"1:88 id | twice"}},
		{"columns missing", "kind,id,species,length,width,thickness,", "", []string{
			"1:1 kind | missing", "1:1 id | missing", "1:1 species | missing", "1:1 length", "1:1 width", "1:1 thickness"}},
		{"semicolons", goodCSV, strings.ReplaceAll(goodCSV, ",", ";"), []string{"1:1  | not separated by commas"}},
		{"tabs", goodCSV, strings.ReplaceAll(goodCSV, ",", "\t"), []string{"1:1  | not separated by commas"}},
		{"bare quote", "620 mm", `24"`, []string{`2:21  | bare " in`}},
		{"quote that does not end", "620 mm", `"620`, []string{`2:1  | does not end before line 3`}},
		{"no UTF-8", "from the", "é\xff the", []string{"2:84  | not UTF-8"}},
		{"far too long", "from the", strings.Repeat("x", maxBytes), []string{"0:0  | longer than 4 MiB"}},
	}
}

func TestManyCSVErrors(t *testing.T) {
	err := readCSVForTest(strings.NewReader(goodCSV + strings.Repeat("x,,,,,\n", 400)))
	var got Errors
	if !errors.As(err, &got) || len(got) != 1000+1 || !strings.Contains(got[1000].Message, "1000 errors are listed") {
		t.Errorf("%d errors, the last %v", len(got), got[len(got)-1])
	}
}

// Text that a spreadsheet could run is guarded, whatever it was comes back the same,
// and what the standard reader gives begins with no sign of a formula.
func TestCSVGuardsFormulas(t *testing.T) {
	for _, c := range []struct{ text, cell string }{
		{"from the shed", "from the shed"},
		{"=1+1", "'=1+1"},
		{"+1", "'+1"},
		{"-1", "'-1"},
		{"@SUM(A1)", "'@SUM(A1)"},
		{" =1+1", "' =1+1"},
		{"＝1", "'＝1"},
		{"'=1", "''=1"},
		{"''@", "'''@"},
		{"'tis dry", "'tis dry"},
		{"a=b", "a=b"},
		{`=HYPERLINK("x","y")`, `'=HYPERLINK("x","y")`},
		{"a;=1", "a;=1"},
	} {
		r := rack.Rack{Pieces: []rack.Piece{{ID: "B1", Species: "pear", Length: mm, Width: mm, Thickness: mm, Quantity: 1, Note: c.text}}}
		if !strings.HasPrefix(c.text, " ") {
			r.Pieces[0].ID = strings.TrimSpace(c.text)
		}
		var out bytes.Buffer
		if err := WriteRackCSV(&out, r); err != nil {
			t.Fatal(err)
		}
		cells, err := csv.NewReader(bytes.NewReader(out.Bytes())).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if got := cells[1][12]; got != c.cell {
			t.Errorf("%q is written as %q, want %q", c.text, got, c.cell)
		}
		got, err := ReadRackCSV(&out, "a.csv", nil)
		if err != nil {
			t.Fatal(err)
		}
		same(t, got, r)
	}
}

func TestWriteRackCSV(t *testing.T) {
	r, err := ReadRack(bytes.NewReader(sample(t, "rack-1.toml")), "rack.toml", species.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := WriteRackCSV(&out, r); err != nil {
		t.Fatal(err)
	}
	const want = `kind,id,species,length,width,thickness,quantity,planed,rings,moisture,faults,use_first,note,colour,colour_from,bark,heart
piece,HB 3,hornbeam,620 mm,85 mm,77 mm,2,true,flat,9.1,"0-40 mm; 300-330 mm; along 30-45 mm; 38.1-50.8 mm",true,from the hedge,#D8CBB0,"photo 2026-11-14, paper, daylight, about 4.6",down,88.9 mm
piece,Ä1,pear,1200 mm,101.6 mm,1 3/64 in,1,,12.5,,,,,,,,
strip,H-25,hornbeam,470 mm,25 mm,24 mm,14,,quarter,8,,true,,#CFC0A4,set by hand,left,
strip,P-9,pear,400 mm,9 mm,24 mm,1,,,,,,,,,,
`
	if out.String() != want {
		t.Errorf("written as\n%s\nwant\n%s", out.String(), want)
	}
}

// CSV and TOML say the same: whatever one reader gives comes back through the other.
func TestRackCSVEqualsTOML(t *testing.T) {
	d := dice{rand.New(rand.NewPCG(7, 11))}
	for range 300 {
		var asTOML, asCSV bytes.Buffer
		if err := WriteRack(&asTOML, d.rack()); err != nil {
			t.Fatal(err)
		}
		first, err := ReadRack(bytes.NewReader(asTOML.Bytes()), "a.toml", knownForTest)
		if err != nil {
			t.Fatal(err)
		}
		if err := WriteRackCSV(&asCSV, first); err != nil {
			t.Fatal(err)
		}
		second, err := ReadRackCSV(bytes.NewReader(asCSV.Bytes()), "a.csv", knownForTest)
		if err != nil {
			t.Fatalf("%v\n%s", err, asCSV.Bytes())
		}
		same(t, second, first)
		if !second.Equal(first) {
			t.Fatal("Equal sees a difference")
		}
		var again bytes.Buffer
		if err := WriteRack(&again, second); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(again.Bytes(), asTOML.Bytes()) {
			t.Fatalf("by way of CSV the file is another:\n%s\n%s", asTOML.Bytes(), again.Bytes())
		}
	}
}

// RFC 4180, section 2: the examples of its rules 2 (no line end at the end), 5, 6 and
// 7 (quotes, commas and doubled quotes in a cell), with our columns.
func TestRackCSVReadsTheStandard(t *testing.T) {
	text := "\"kind\",\"id\",species,length,width,thickness,note\r\n" +
		"\"piece\",\"b,1\",pear,620,85,77,\"b \"\"bb\"\"\"\r\n" +
		"piece,b2,pear,620,85,77,ccc"
	got, err := ReadRackCSV(strings.NewReader(text), "a.csv", knownForTest)
	if err != nil {
		t.Fatal(err)
	}
	if p := got.Pieces; len(p) != 2 || p[0].ID != "b,1" || p[0].Note != `b "bb"` || p[1].Note != "ccc" {
		t.Errorf("read as %+v", p)
	}
}

func TestOpenRackByItsEnding(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"a.csv": goodCSV, "b.CSV": goodCSV, "c.toml": goodRack} {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if r, err := OpenRack(file, knownForTest); err != nil || len(r.Pieces) != 1 || len(r.Strips) != 1 {
			t.Errorf("%s: %v, %v", name, r, err)
		}
	}
	file := filepath.Join(dir, "a.csv")
	if err := os.WriteFile(file, []byte("kind;id\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := OpenRack(file, nil); err == nil || !strings.HasPrefix(err.Error(), file+":1:1: ") {
		t.Errorf("error %v does not start with the place", err)
	}
}

// The rack refuses in ids and notes just what the files refuse.
func TestRackForbidsWhatFilesForbid(t *testing.T) {
	for r := rune(0); r <= 0x10ffff; r++ {
		if r >= 0xd800 && r <= 0xdfff {
			continue // no characters
		}
		text := "a" + string(r) + "b"
		if (r > 0x100 && r < 0x2000 || r > 0x2100) && r%97 != 0 { // none are special there, and reading takes its time
			continue
		}
		_, refused := ReadRack(strings.NewReader(strings.Replace(goodRack, `"B1"`, fmt.Sprintf(`"a\U%08Xb"`, r), 1)), "a.toml", nil)
		if (rack.CheckID(text) != nil) != (refused != nil) || r != '/' && (rack.CheckNote(text) != nil) != (refused != nil) {
			t.Errorf("%U: files %v, ids %v, notes %v", r, refused, rack.CheckID(text), rack.CheckNote(text))
		}
	}
}

func FuzzRackCSV(f *testing.F) {
	f.Add([]byte(goodCSV))
	f.Add([]byte("\ufeffid,kind,species,length,width,thickness,note\r\n\"=1\",piece,pear,\"1 1/8\"\"\",\"8,5 cm\",77,'=x\r\n"))
	f.Add([]byte(strings.Join(csvColumns(), ";")))
	f.Fuzz(func(t *testing.T, data []byte) {
		round(t, data, false, func(r io.Reader) (rack.Rack, error) { return ReadRackCSV(r, "a.csv", nil) }, WriteRackCSV)
		r, err := ReadRackCSV(bytes.NewReader(data), "a.csv", nil)
		if err != nil {
			var all Errors
			if !errors.As(err, &all) || len(all) == 0 || slices.ContainsFunc(all, func(e FileError) bool { return e.Message == "" }) {
				t.Fatalf("refused without a place: %v", err)
			}
			return
		}
		for _, e := range r.Entries() {
			if err := e.Check(); err != nil {
				t.Fatalf("%+v was let in: %v", e, err)
			}
		}
		var out bytes.Buffer
		if err := WriteRack(&out, r); err != nil {
			t.Fatal(err)
		}
		again, err := ReadRack(&out, "a.toml", nil)
		if err != nil {
			t.Fatalf("as TOML it is refused: %v", err)
		}
		same(t, again, r)
	})
}

// BenchmarkReadRackCSV reads a thousand pieces. Budget: 30 ms, once a file.
func BenchmarkReadRackCSV(b *testing.B) {
	var r rack.Rack
	for i := range 1000 {
		r.Pieces = append(r.Pieces, rack.Piece{ID: fmt.Sprint("P", i), Species: "pear", Length: 620 * mm, Width: 85 * mm, Thickness: 77 * mm,
			Quantity: 1, Rings: pattern.RingsFlat(), Faults: []rack.Fault{{To: 40 * mm}}})
	}
	var out bytes.Buffer
	if err := WriteRackCSV(&out, r); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := ReadRackCSV(bytes.NewReader(out.Bytes()), "a.csv", knownForTest); err != nil {
			b.Fatal(err)
		}
	}
}
