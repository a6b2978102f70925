package store

import (
	"bytes"
	"io"
	"strings"
	"unicode"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/species"
)

// csvEnding is what the name of a rack kept as CSV ends in.
const csvEnding = ".csv"

// rackColumns lists the columns of a rack as CSV in the order they are written: the keys
// of a piece behind its kind, but bark and heart, which came later, at the end: whoever goes
// by places finds all others where they were. Those that a file need not have mean nothing
// special where they are missing or their cell is empty.
func rackColumns(e *rack.Entry, ids lines, known *species.Table) []key {
	kind := key{name: "kind", need: kindPiece + " or " + kindStrip, cell: func(c cell) { c.kind(&e.Ready) },
		plain: func() string {
			if e.Ready {
				return kindStrip
			}
			return kindPiece
		}}
	var columns, later []key
	for _, k := range append([]key{kind}, pieceKeys(&e.Piece, ids, known)...) {
		if k.name == "bark" || k.name == "heart" {
			later = append(later, k)
		} else {
			columns = append(columns, k)
		}
	}
	return append(columns, later...)
}

// csvColumns lists the names of the columns.
func csvColumns() []string {
	var names []string
	for _, c := range rackColumns(&rack.Entry{}, nil, nil) {
		names = append(names, c.name)
	}
	return names
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
// faults (parted by ;), use_first, note, bark and heart. A length is as in any file: 620, 620 mm,
// 1 1/8 in, with a decimal comma where the cell stands in quotes. planed and use_first
// are true or false, yes or no, or empty. A row of empty cells is passed over, and a
// row may leave off empty cells at its end. A ready strip has no faults, no note and
// is not said to be planed.
//
// A text that WriteRackCSV guarded with an apostrophe is read without it. The error is
// of type Errors, or r's own: all that is wrong, each at its cell.
func ReadRackCSV(r io.Reader, name string, known *species.Table) (rack.Rack, error) {
	sheet, err := readSheet(name, r)
	if err != nil {
		return rack.Rack{}, err
	}
	var out rack.Rack
	var e rack.Entry
	columns := rackColumns(&e, lines{}, known)
	for _, row := range sheet.rows {
		e = rack.Entry{Piece: rack.Piece{Quantity: 1}}
		row.read(columns)
		if e.Ready {
			readyOnly(row, e)
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
	var e rack.Entry
	columns := rackColumns(&e, nil, nil)
	cells := make([]string, len(columns))
	for _, e = range r.Entries() {
		for i, c := range columns {
			cells[i] = c.cellText()
		}
		writeCSVRow(&b, cells)
	}
	_, err := out.Write(b.Bytes())
	return err
}

// writeCSVRow writes cells, in quotes also where spreadsheets part them by something else
// or cut off their blanks, which csv.Writer does not see to.
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
