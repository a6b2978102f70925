package store

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/store/tomlread"
)

// A sheet is a CSV file that is being read, with all that is wrong in it.
type sheet struct {
	*tomlread.Document
	rows []sheetRow
}

// A sheetRow is a row with its cells by the name of their column.
type sheetRow struct {
	sheet *sheet
	line  int
	cells map[string]cell
}

// A cell is one cell; the methods that read one report what is wrong, and leave their
// target as it was then and where it is empty.
type cell struct {
	tomlread.Field
	column string
	text   string // without spaces around it
	whole  string // as it stands
}

// readSheet reads the rows. What cannot be trusted further, the header among it, is
// reported alone.
func readSheet(file string, r io.Reader) (*sheet, error) {
	d, err := tomlread.Open(file, r)
	if err != nil {
		return nil, err
	}
	s := &sheet{Document: d}
	in := csv.NewReader(bytes.NewReader(d.Data()))
	in.FieldsPerRecord = -1
	var columns []string
	for {
		record, err := in.Read()
		switch {
		case errors.Is(err, io.EOF) && columns == nil:
			s.Place("", "", 1, 1).Alone("the first row must be "+strings.Join(csvColumns(), ","), "no header row")
			return nil, s.Finish()
		case errors.Is(err, io.EOF):
			return s, nil
		case err != nil:
			return nil, s.syntax(file, err)
		case columns == nil:
			columns = s.header(in, record)
			if err := s.Finish(); err != nil {
				return nil, err
			}
		default:
			s.row(in, columns, record)
		}
	}
}

// syntax puts an error of the CSV reader at its place.
func (s *sheet) syntax(file string, err error) error {
	parse, ok := errors.AsType[*csv.ParseError](err)
	if !ok {
		return fmt.Errorf("%s: %w", file, err)
	}
	line, column, message := parse.Line, parse.Column, parse.Err.Error()
	if parse.StartLine != parse.Line {
		message = fmt.Sprintf("a cell in quotes that starts in this row does not end before line %d", parse.Line)
		line, column = parse.StartLine, 1
	}
	s.Place("", "", line, column).Alone(`put a cell with a comma or a quote in quotes, and write a quote in it twice: "1 1/8"""`, "%s", message)
	return s.Finish()
}

// header checks the names of the columns and gives them.
func (s *sheet) header(in *csv.Reader, record []string) []string {
	names := make([]string, len(record))
	if len(record) == 1 && strings.ContainsAny(record[0], ";\t") {
		s.Place("", "", 1, 1).Failf("save the sheet as CSV with commas between the cells", "the columns are not separated by commas")
		return nil
	}
	for i, text := range record {
		line, column := in.FieldPos(i)
		name := strings.ToLower(strings.TrimSpace(text))
		switch {
		case !slices.Contains(csvColumns(), name):
			s.Place("", "", line, column).Failf(tomlread.KnownHint(name, csvColumns()), "unknown column %s", tomlread.Quote(text))
		case slices.Contains(names[:i], name):
			s.Place(name, "", line, column).Failf("", "this column is in the header twice")
		}
		names[i] = name
	}
	for _, c := range rackColumns(&rack.Entry{}, nil, nil) {
		if c.need != "" && !slices.Contains(names, c.name) {
			line, _ := in.FieldPos(0)
			s.Place(c.name, "", line, 1).Failf("the first row names the columns: "+strings.Join(csvColumns(), ","), "this column is missing")
		}
	}
	return names
}

// row takes a record for a row, unless all of it is empty.
func (s *sheet) row(in *csv.Reader, columns, record []string) {
	if !slices.ContainsFunc(record, func(text string) bool { return strings.TrimSpace(text) != "" }) {
		return
	}
	line, _ := in.FieldPos(0)
	row := sheetRow{sheet: s, line: line, cells: map[string]cell{}}
	for i, text := range record {
		line, column := in.FieldPos(i)
		c := cell{text: strings.TrimSpace(text), whole: text}
		if i < len(columns) {
			c.column = columns[i]
			c.Field = s.Place(c.column, c.text, line, column)
			row.cells[c.column] = c
		} else if c.text != "" {
			s.Place("", "", line, column).Failf("a cell with a comma must be in quotes", "cell %d: the header has %d columns", i+1, len(columns))
			break
		}
	}
	s.rows = append(s.rows, row)
}

// read reads the cells of a row, each in its column.
func (r sheetRow) read(columns []key) {
	for _, k := range columns {
		c := r.may(k.name)
		if k.need != "" && c.text == "" {
			c.Failf("write "+unquoted(k.need), "missing")
		}
		k.readCell(c)
	}
}

// may returns a cell of the row, an empty one where the row or the sheet has none.
func (r sheetRow) may(column string) cell {
	if c, ok := r.cells[column]; ok {
		return c
	}
	return cell{Field: r.sheet.Place(column, "", r.line, 1), column: column}
}

// raw returns the cell with its text as it was before it was guarded.
func (c cell) raw(text string) tomlread.Field { return c.With(c.column, unguarded(text)) }

// kind reads whether the row is a ready strip.
func (c cell) kind(ready *bool) {
	switch strings.ToLower(c.text) {
	case kindPiece, "":
	case kindStrip:
		*ready = true
	default:
		c.Failf("", "%s: must be piece or strip", tomlread.Quote(c.text))
	}
}

// count reads a whole number from low to high.
func (c cell) count(into *int, low, high int) {
	if c.text == "" {
		return
	}
	x, err := strconv.ParseUint(c.text, 10, 31)
	if err != nil || int(x) < low || int(x) > high {
		c.Failf("", "%s: must be a whole number from %d to %d", tomlread.Quote(c.text), low, high)
		return
	}
	*into = int(x)
}

// flag reads true or false, yes or no.
func (c cell) flag(into *bool) {
	switch strings.ToLower(c.text) {
	case "":
	case "true", "yes":
		*into = true
	case "false", "no":
		*into = false
	default:
		c.Failf("", "%s: must be true or false, or empty", tomlread.Quote(c.text))
	}
}

// rings reads a word of the trade or an angle.
func (c cell) rings(into *pattern.Rings) {
	text := strings.ToLower(c.text)
	word, err := ringsWord(text)
	var degrees float64
	switch {
	case text == "":
	case err == nil:
		*into = word
	case !plainNumber.MatchString(text):
		c.Failf("", "rings %s: must be flat, rift, quarter, unknown or an angle of 0 to 90", tomlread.Quote(c.text))
	case c.number(&degrees, text, 0, 90):
		*into, _ = pattern.RingsAt(degrees) // in range
	}
}

// moisture reads a percentage, with its sign or without.
func (c cell) moisture(into *float64) bool {
	return c.text != "" && c.number(into, strings.TrimRightFunc(strings.TrimSuffix(c.text, "%"), unicode.IsSpace), 0, pattern.MaxMoisture)
}

// faults reads what is parted by semicolons.
func (c cell) faults(p *rack.Piece) {
	if c.text == "" {
		return
	}
	for i, text := range strings.Split(c.text, ";") {
		if err := takeFault(p, text); err != nil {
			hint := ""
			if _, unread := rack.ParseFault(text); unread != nil {
				hint = "separate several faults by ;"
			}
			c.With(fmt.Sprintf("%s %d", c.column, i+1), "").Failf(hint, "%s", tomlread.Visible(err.Error()))
		}
	}
}

// plainNumber is a number as a sheet has it: digits, with a decimal point or comma.
// A form like 1e3 is none, for a sheet writes so what it could not show.
var plainNumber = regexp.MustCompile(`^[0-9]+([.,][0-9]+)?$`)

// number reads text of the cell for a number from low to high.
func (c cell) number(into *float64, text string, low, high float64) bool {
	if !plainNumber.MatchString(text) {
		return c.Failf("", "%s: must be a number from %s to %s", tomlread.Quote(c.text), decimal(low), decimal(high))
	}
	x, err := spoken.Decimal(text)
	if err != nil || x < low || x > high {
		return c.Failf("", "%s: must be %s to %s", tomlread.Quote(text), decimal(low), decimal(high))
	}
	*into = x
	return true
}
