package store

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store/tomlread"
)

// mostSheetErrors bounds what is gathered of one sheet: nobody reads more.
const mostSheetErrors = 1000

// A sheet is a CSV file that is being read, with all that is wrong in it.
type sheet struct {
	file  string
	lines [][]byte // to count columns in characters
	rows  []sheetRow
	errs  Errors
}

// A sheetRow is a row with its cells by the name of their column.
type sheetRow struct {
	sheet *sheet
	line  int
	cells map[string]cell
}

// A cell is one cell; the methods that read one report what is wrong, give false
// then and where it is empty, and leave their target as it was.
type cell struct {
	sheet    *sheet
	column   string
	text     string // without spaces around it
	whole    string // as it stands
	line, at int    // where it starts, in characters
}

// readSheet reads the rows. What cannot be trusted further, the header among it, is
// reported alone.
func readSheet(file string, r io.Reader) (*sheet, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if len(data) > maxBytes {
		return nil, Errors{{File: file, Message: fmt.Sprintf("longer than %d MiB: no file of oddments is", maxBytes>>20)}}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	s := &sheet{file: file, lines: bytes.Split(data, []byte("\n"))}
	for i, line := range s.lines {
		if at := firstInvalid(line); at >= 0 {
			return nil, Errors{{File: file, Line: i + 1, Column: utf8.RuneCount(line[:at]) + 1, Message: "the text is not UTF-8", Hint: "save it as UTF-8"}}
		}
	}
	in := csv.NewReader(bytes.NewReader(data))
	in.FieldsPerRecord = -1
	header, err := in.Read()
	if errors.Is(err, io.EOF) {
		return nil, Errors{{File: file, Line: 1, Column: 1, Message: "no header row", Hint: "the first row must be " + strings.Join(csvColumns(), ",")}}
	}
	if err != nil {
		return nil, s.syntax(err)
	}
	columns := s.header(in, header)
	if len(s.errs) > 0 {
		return nil, s.finish()
	}
	for {
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			return s, nil
		}
		if err != nil {
			return nil, s.syntax(err)
		}
		s.row(in, columns, record)
	}
}

func firstInvalid(line []byte) int {
	for at := 0; at < len(line); {
		r, width := utf8.DecodeRune(line[at:])
		if r == utf8.RuneError && width == 1 {
			return at
		}
		at += width
	}
	return -1
}

// syntax puts an error of the CSV reader at its place.
func (s *sheet) syntax(err error) error {
	var parse *csv.ParseError
	if !errors.As(err, &parse) {
		return fmt.Errorf("%s: %w", s.file, err)
	}
	e := FileError{File: s.file, Line: parse.Line, Column: s.characters(parse.Line, parse.Column), Message: parse.Err.Error()}
	e.Hint = `a cell with a comma or a quote in it stands in quotes, and a quote in it is written twice: "1 1/8"""`
	if parse.StartLine != parse.Line {
		e.Message = fmt.Sprintf("a cell in quotes that starts in this row does not end before line %d", parse.Line)
		e.Line, e.Column = parse.StartLine, 1
	}
	return Errors{e}
}

// characters turns a column in bytes, from 1, into one in characters.
func (s *sheet) characters(line, column int) int {
	if line < 1 || line > len(s.lines) {
		return column
	}
	text := s.lines[line-1]
	return utf8.RuneCount(text[:min(max(column-1, 0), len(text))]) + 1
}

// header checks the names of the columns and gives them.
func (s *sheet) header(in *csv.Reader, record []string) []string {
	names := make([]string, len(record))
	if len(record) == 1 && strings.ContainsAny(record[0], ";\t") {
		s.report(FileError{Line: 1, Column: 1, Message: "the columns are not parted by commas",
			Hint: "save the sheet as CSV with commas between the cells"})
		return nil
	}
	for i, text := range record {
		line, column := in.FieldPos(i)
		e := FileError{Line: line, Column: s.characters(line, column)}
		name := strings.ToLower(strings.TrimSpace(text))
		switch {
		case !slices.Contains(csvColumns(), name):
			e.Message = fmt.Sprintf("unknown column %s", short(text))
			e.Hint = "known here: " + strings.Join(csvColumns(), ", ")
			if near := tomlread.Nearest(name, csvColumns()); near != "" {
				e.Hint = "did you mean " + near + "?"
			}
			s.report(e)
		case slices.Contains(names[:i], name):
			e.Field, e.Message = name, "this column stands in the header twice"
			s.report(e)
		}
		names[i] = name
	}
	for _, name := range csvNeeded() {
		if !slices.Contains(names, name) {
			line, _ := in.FieldPos(0)
			s.report(FileError{Line: line, Column: 1, Field: name, Message: "this column is missing", Hint: "the first row names the columns: " + strings.Join(csvColumns(), ",")})
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
		c := cell{sheet: s, text: strings.TrimSpace(text), whole: text, line: line, at: s.characters(line, column)}
		if i >= len(columns) {
			if c.text != "" {
				c.failf("a cell with a comma in it must stand in quotes", "cell %d: the header has %d columns", i+1, len(columns))
				break
			}
			continue
		}
		c.column = columns[i]
		row.cells[c.column] = c
	}
	s.rows = append(s.rows, row)
}

func (s *sheet) report(e FileError) {
	if len(s.errs) > mostSheetErrors {
		return
	}
	e.File = s.file
	if len(s.errs) == mostSheetErrors {
		e.Field, e.Hint, e.Message = "", "", fmt.Sprintf("more is wrong in this file: %d errors are listed", mostSheetErrors)
	}
	s.errs = append(s.errs, e)
}

// finish gives all errors as Errors, sorted, or nil.
func (s *sheet) finish() error {
	if len(s.errs) == 0 {
		return nil
	}
	slices.SortStableFunc(s.errs, func(a, b FileError) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return s.errs
}

// may gives a cell of the row, an empty one where the row or the sheet has none.
func (r sheetRow) may(column string) cell {
	if c, ok := r.cells[column]; ok {
		return c
	}
	return cell{sheet: r.sheet, column: column, line: r.line, at: 1}
}

// need is may for a cell that must not be empty, and reports it where it is.
func (r sheetRow) need(column, example string) cell {
	c := r.may(column)
	if c.text == "" {
		c.failf("write "+example, "missing")
	}
	return c
}

// failf reports the cell.
func (c cell) failf(hint, format string, args ...any) bool {
	c.sheet.report(FileError{Line: c.line, Column: c.at, Field: c.column, Message: fmt.Sprintf(format, args...), Hint: hint})
	return false
}

// checkText reports text that may not be shown.
func (c cell) checkText(text string) {
	if r, bad := pattern.ForbiddenRune(text); bad {
		c.failf("take it out", "the text holds the control character %U, which no text may", r)
	} else if n := utf8.RuneCountInString(text); n > pattern.MaxTextRunes {
		c.failf("", "text of %d characters: must be at most %d", n, pattern.MaxTextRunes)
	}
}

// size reads a length above 0, up to high.
func (c cell) size(into *length.Length, high length.Length) bool {
	if c.text == "" {
		return false
	}
	if strings.HasPrefix(c.text, "-") {
		return c.failf("", "length %s: must not be below 0", short(c.text))
	}
	l, err := length.Parse(c.text)
	if err != nil {
		return c.failf("", "%s", visible(err.Error()))
	}
	if l <= 0 || l > high {
		return c.failf("", "%s: must be above 0, up to %s", l, high)
	}
	*into = l
	return true
}

// plainNumber is a number as a sheet has it: digits, with a decimal point or comma.
// A form like 1e3 is none, for a sheet writes so what it could not show.
var plainNumber = regexp.MustCompile(`^[0-9]+([.,][0-9]+)?$`)

func (c cell) number(text string, low, high float64) (float64, bool) {
	if !plainNumber.MatchString(text) {
		return 0, c.failf("", "%s: must be a number from %s to %s", short(c.text), decimal(low), decimal(high))
	}
	x, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || x < low || x > high {
		return 0, c.failf("", "%s: must be %s to %s", short(text), decimal(low), decimal(high))
	}
	return x, true
}

// count reads a whole number from low to high.
func (c cell) count(into *int, low, high int) bool {
	if c.text == "" {
		return false
	}
	x, err := strconv.ParseUint(c.text, 10, 31)
	if err != nil || int(x) < low || int(x) > high {
		return c.failf("", "%s: must be a whole number from %d to %d", short(c.text), low, high)
	}
	*into = int(x)
	return true
}

// flag reads true or false, yes or no.
func (c cell) flag(into *bool) bool {
	switch strings.ToLower(c.text) {
	case "":
		return false
	case "true", "yes":
		*into = true
	case "false", "no":
		*into = false
	default:
		return c.failf("", "%s: must be true or false, or empty", short(c.text))
	}
	return true
}

// rings reads a word of the trade or an angle.
func (c cell) rings(into *pattern.Rings) bool {
	text := strings.ToLower(c.text)
	switch text {
	case "":
		return false
	case "flat", "rift", "quarter", "unknown":
		*into, _ = pattern.ParseRings(text) // these are its words
		return true
	}
	if !plainNumber.MatchString(text) {
		return c.failf("", "rings %s: must be flat, rift, quarter, unknown or an angle of 0 to 90", short(c.text))
	}
	degrees, ok := c.number(text, 0, 90)
	if ok {
		*into, _ = pattern.RingsAt(degrees) // in range
	}
	return ok
}

// moisture reads a percentage, with its sign or without.
func (c cell) moisture(into *pattern.Reading) bool {
	if c.text == "" {
		return false
	}
	text := strings.TrimRightFunc(strings.TrimSuffix(c.text, "%"), unicode.IsSpace)
	percent, ok := c.number(text, 0, pattern.MaxMoisture)
	if ok {
		*into = pattern.Read(percent)
	}
	return ok
}

// visible gives a message with what does not print written as an escape.
func visible(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }) < 0 {
		return s
	}
	quoted := strconv.Quote(s)
	return strings.ReplaceAll(quoted[1:len(quoted)-1], `\"`, `"`)
}
