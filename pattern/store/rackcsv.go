package store

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store/tomlread"
)

// csvEnding is what the name of a rack kept as CSV ends in.
const csvEnding = ".csv"

// csvColumns lists the columns of a rack as CSV in the order they are written.
func csvColumns() []string {
	return []string{"kind", "id", "species", "length", "width", "thickness", "quantity", "planed", "rings", "moisture", "faults", "use_first", "note"}
}

// csvNeeded lists the columns that a file must have; the others mean nothing special
// where they are missing or their cell is empty.
func csvNeeded() []string {
	return []string{"kind", "id", "species", "length", "width", "thickness"}
}

// What the column kind says.
const (
	kindPiece = "piece"
	kindStrip = "strip"
)

// ReadRackCSV reads a rack kept as CSV (RFC 4180), in UTF-8; the name is the file's. A
// species that known does not know is refused; a nil known lets all pass.
//
// The first row names the columns, in any order: kind (piece or strip), id, species,
// length, width and thickness, and where wanted quantity, planed, rings, moisture,
// faults (parted by ;), use_first and note. A length is as in any file: 620, 620 mm,
// 1 1/8 in, with a decimal comma where the cell stands in quotes. planed and use_first
// are true or false, yes or no, or empty. A row of empty cells is passed over, and a
// row may leave off empty cells at its end. A ready strip has no faults, no note and
// is not said to be planed.
//
// A text that WriteRackCSV guarded with an apostrophe is read without it. The error is
// of type Errors, or r's own: all that is wrong, each at its cell.
func ReadRackCSV(r io.Reader, name string, known func(string) bool) (rack.Rack, error) {
	sheet, err := readSheet(name, r)
	if err != nil {
		return rack.Rack{}, err
	}
	var out rack.Rack
	ids := idLines{}
	for _, row := range sheet.rows {
		e := readCSVEntry(row, ids, known)
		if e.Ready {
			out.Strips = append(out.Strips, e.Strip())
		} else {
			out.Pieces = append(out.Pieces, e.Piece)
		}
	}
	if err := sheet.Finish(); err != nil {
		return rack.Rack{}, err
	}
	return out, nil
}

func readCSVEntry(row sheetRow, ids idLines, known func(string) bool) rack.Entry {
	e := rack.Entry{Piece: rack.Piece{Quantity: 1}}
	kind := row.need("kind", `piece or strip`)
	switch strings.ToLower(kind.text) {
	case kindPiece, "":
	case kindStrip:
		e.Ready = true
	default:
		kind.Failf("", "%s: must be piece or strip", tomlread.Quote(kind.text))
	}
	id, timber, note := row.need("id", "B7"), row.need("species", "hornbeam"), row.may("note")
	ids.read(id.raw(id.text), &e.ID)
	readSpecies(timber.raw(timber.text), &e.Species, known)
	sized := row.need("length", "620 mm").Size(&e.Length, pattern.MaxLength)
	sized = row.need("width", "85 mm").Size(&e.Width, pattern.MaxAcross) && sized
	row.need("thickness", "40 mm").Size(&e.Thickness, pattern.MaxAcross)
	row.may("quantity").count(&e.Quantity, 1, rack.MaxQuantity)
	row.may("planed").flag(&e.Planed)
	row.may("rings").rings(&e.Rings)
	row.may("moisture").moisture(&e.Moisture)
	readCSVFaults(row.may("faults"), &e.Piece, sized)
	row.may("use_first").flag(&e.UseFirst)
	note.raw(note.whole).Text(&e.Note)
	if e.Ready {
		readyOnly(row, e)
	}
	return e
}

// readyOnly refuses what a ready strip may not have.
func readyOnly(row sheetRow, e rack.Entry) {
	if e.Planed {
		row.may("planed").Failf("leave the cell empty", "a ready strip is planed as it is")
	}
	if len(e.Faults) > 0 {
		row.may("faults").Failf("give the length and width that are clear", "a ready strip has no faults")
	}
	if e.Note != "" {
		row.may("note").Failf("leave it empty, or make it a piece that is planed", "a ready strip has no note")
	}
}

// readCSVFaults reads the faults; where the piece is sized each must lie within it.
func readCSVFaults(c cell, p *rack.Piece, sized bool) {
	if c.text == "" {
		return
	}
	for i, text := range strings.Split(c.text, ";") {
		one := c.With(fmt.Sprintf("%s %d", c.column, i+1), "")
		fault, err := rack.ParseFault(text)
		if err != nil {
			one.Failf("several faults are parted by ;", "%s", tomlread.Visible(err.Error()))
			continue
		}
		alone := *p
		alone.Faults = []rack.Fault{fault}
		if err := alone.Check(); sized && err != nil {
			one.Failf("", "%s", err)
			continue
		}
		p.Faults = append(p.Faults, fault)
	}
}

// WriteRackCSV writes r as CSV (RFC 4180, lines end in a line feed): the header, the
// pieces, then the ready strips.
//
// The lengths have their unit, so that no spreadsheet takes 28.575 for a thousand
// times as much. A text that a spreadsheet could run as a formula, because it begins
// with =, +, - or @, is written with an apostrophe before it; ReadRackCSV takes that
// off again, so that text, with or without apostrophes of its own, always comes back
// as it was.
func WriteRackCSV(out io.Writer, r rack.Rack) error {
	var b bytes.Buffer
	writeCSVRow(&b, csvColumns())
	for _, e := range r.Entries() {
		writeCSVRow(&b, csvRow(e))
	}
	_, err := out.Write(b.Bytes())
	return err
}

// csvRow returns the cells of an entry, in the order of csvColumns.
func csvRow(e rack.Entry) []string {
	kind, rings, moisture := kindPiece, "", ""
	if e.Ready {
		kind = kindStrip
	}
	if e.Rings.Known() {
		rings = e.Rings.String()
	}
	if e.Moisture.Known {
		moisture = decimal(e.Moisture.Percent)
	}
	faults := make([]string, len(e.Faults))
	for i, f := range e.Faults {
		faults[i] = f.String()
	}
	return []string{
		kind, guarded(e.ID), guarded(e.Species), e.Length.Exact(), e.Width.Exact(), e.Thickness.Exact(), fmt.Sprint(e.Quantity),
		flagText(e.Planed), rings, moisture, strings.Join(faults, "; "), flagText(e.UseFirst), guarded(e.Note),
	}
}

func flagText(set bool) string {
	if set {
		return "true"
	}
	return ""
}

func writeCSVRow(b *bytes.Buffer, cells []string) {
	for i, c := range cells {
		if i > 0 {
			b.WriteByte(',')
		}
		if strings.ContainsAny(c, ",;\"\t\r\n") || strings.TrimFunc(c, unicode.IsSpace) != c {
			c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
		}
		b.WriteString(c)
	}
	b.WriteByte('\n')
}

// guarded returns s with an apostrophe before it where a spreadsheet could take it for
// a formula, and where it begins like a text that is guarded already.
func guarded(s string) string {
	if likeFormula(s) {
		return "'" + s
	}
	return s
}

// unguarded undoes guarded.
func unguarded(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && likeFormula(rest) {
		return rest
	}
	return s
}

// likeFormula reports whether s, spaces and apostrophes before it left out, begins
// with a sign that starts a formula, narrow or wide.
func likeFormula(s string) bool {
	s = strings.TrimLeftFunc(s, func(r rune) bool { return r == '\'' || unicode.IsSpace(r) })
	return s != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(s)[0])
}
