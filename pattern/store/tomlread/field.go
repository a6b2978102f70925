package tomlread

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Given reports whether the file has the value.
func (f Field) Given() bool { return f.v != nil }

// IsText reports whether the value is text.
func (f Field) IsText() bool { return f.v != nil && f.v.kind == kindText }

// IsList reports whether the value is a list.
func (f Field) IsList() bool { return f.v != nil && f.v.kind == kindList }

// Line returns the line of the value.
func (f Field) Line() int { return f.doc.lineOf(f.at) }

// With returns a field of that name and text at the place of f.
func (f Field) With(name, text string) Field {
	f.name, f.v = name, nil
	if text != "" {
		f.v = &value{kind: kindText, text: text, at: f.at}
	}
	return f
}

// Failf reports the field: what is wrong and what would be right, and the next step
// as a hint, which may be empty.
func (f Field) Failf(hint, format string, args ...any) bool {
	f.doc.report(f.at, f.name, fmt.Sprintf(format, args...), hint)
	return false
}

// wrongType reports a value that is of another type than wanted.
func (f Field) wrongType(wanted string) bool {
	return f.Failf("", "must be %s, and is %s", wanted, f.v.kind.noun())
}

// Text reads text that may be shown: without control characters and without those
// that turn the direction of writing, at most pattern.MaxTextRunes long.
func (f Field) Text(into *string) bool {
	if f.v == nil {
		return false
	}
	if f.v.kind != kindText {
		return f.wrongType("text in quotes")
	}
	if r, ok := pattern.ForbiddenRune(f.v.text); ok {
		return f.Failf("take it out", "the text holds the control character %U, which no text may", r)
	}
	if n := utf8.RuneCountInString(f.v.text); n > pattern.MaxTextRunes {
		return f.Failf("", "text of %d characters: must be at most %d", n, pattern.MaxTextRunes)
	}
	*into = f.v.text
	return true
}

// Parse reads text and hands it to parse, whose error is reported.
func (f Field) Parse(parse func(string) error) bool {
	var text string
	if !f.Text(&text) {
		return false
	}
	if err := parse(text); err != nil {
		return f.Failf("", "%s", Visible(err.Error()))
	}
	return true
}

// Word reads text that parse makes a value of, and reports its error.
func Word[T any](f Field, into *T, parse func(string) (T, error)) bool {
	return f.Parse(func(s string) (err error) {
		*into, err = parse(s)
		return err
	})
}

// Checked reads text that check takes.
func (f Field) Checked(into *string, check func(string) error) bool {
	return f.Parse(func(s string) error {
		*into = s
		return check(s)
	})
}

// Bool reads true or false.
func (f Field) Bool(into *bool) bool {
	if f.v == nil {
		return false
	}
	if f.v.kind != kindBool {
		return f.wrongType("true or false")
	}
	*into = f.v.text == "true"
	return true
}

// Number reads a number from low to high.
func (f Field) Number(into *float64, low, high float64) bool {
	x, ok := f.number()
	if !ok {
		return false
	}
	if x < low || x > high {
		return f.Failf("", "%s: must be %s to %s", f.v.text, plain(low), plain(high))
	}
	*into = x
	return true
}

// Above reads a number above low, up to high.
func (f Field) Above(into *float64, low, high float64) bool {
	x, ok := f.number()
	if !ok {
		return false
	}
	if x <= low || x > high {
		return f.Failf("", "%s: must be above %s, up to %s", f.v.text, plain(low), plain(high))
	}
	*into = x
	return true
}

// Count reads a whole number from low to high; 3.0 is one.
func (f Field) Count(into *int, low, high int) bool {
	x, ok := f.number()
	if !ok {
		return false
	}
	if x != math.Trunc(x) || x < float64(low) || x > float64(high) {
		return f.Failf("", "%s: must be a whole number from %d to %d", f.v.text, low, high)
	}
	*into = int(x)
	return true
}

// number returns the number, reported where it is none.
func (f Field) number() (float64, bool) {
	if f.v == nil {
		return 0, false
	}
	if f.v.kind != kindNumber {
		return 0, f.wrongType("a number without quotes")
	}
	text := strings.ReplaceAll(f.v.text, "_", "")
	if len(text) > 2 && text[0] == '0' && strings.ContainsRune("xob", rune(text[1])) {
		n, err := strconv.ParseInt(text, 0, 64)
		if err != nil {
			return 0, f.Failf("", "%s: no number that is used here", Quote(f.v.text))
		}
		return float64(n), true
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, f.Failf("", "%s: must be a number", Quote(f.v.text))
	}
	return x + 0, true // + 0 makes -0 a 0
}

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// Size reads a length above 0, up to high.
func (f Field) Size(into *length.Length, high length.Length) bool {
	l, ok := f.length()
	if !ok {
		return false
	}
	if l <= 0 || l > high {
		return f.Failf("", "%s: must be above 0, up to %s", l, high)
	}
	*into = l
	return true
}

// Length reads a length from 0 to high.
func (f Field) Length(into *length.Length, high length.Length) bool {
	l, ok := f.length()
	if !ok {
		return false
	}
	if l > high {
		return f.Failf("", "%s: must be 0 to %s", l, high)
	}
	*into = l
	return true
}

// length returns the length: text, or a number as it is written, in millimetres.
func (f Field) length() (length.Length, bool) {
	if f.v == nil {
		return 0, false
	}
	text := f.v.text
	switch f.v.kind {
	case kindNumber:
	case kindText:
		if !f.Text(&text) {
			return 0, false
		}
	default:
		return 0, f.wrongType(`a length, like "25 mm"`)
	}
	if strings.HasPrefix(strings.TrimSpace(text), "-") {
		return 0, f.Failf("", "length %s: must not be below 0", Quote(text))
	}
	l, err := length.Parse(text)
	if err != nil {
		return 0, f.Failf("", "%s", Visible(err.Error()))
	}
	return l, true
}

// Date reads a day, written without quotes.
func (f Field) Date(into *pattern.Date) bool {
	if f.v == nil {
		return false
	}
	if f.v.kind != kindDate {
		return f.wrongType("a date without quotes, like 2026-11-02")
	}
	day, err := time.Parse(time.DateOnly, f.v.text)
	if err != nil {
		return f.Failf("", "%s: no day of the calendar", Quote(f.v.text))
	}
	*into = pattern.Date{Year: day.Year(), Month: day.Month(), Day: day.Day()}
	return true
}

// Items returns the values of a list, each named by its number from 1.
func (f Field) Items() []Field {
	if f.v == nil {
		return nil
	}
	if !f.IsList() {
		f.wrongType("a list in brackets")
		return nil
	}
	items := make([]Field, len(f.v.items))
	for i, v := range f.v.items {
		items[i] = Field{doc: f.doc, name: fmt.Sprintf("%s %d", f.name, i+1), at: v.at, v: v}
	}
	return items
}

// Table returns the table; where it is missing or something else, an empty one whose
// keys are not missed.
func (f Field) Table() *Table {
	if f.v != nil && f.v.kind == kindTable {
		return f.ask(f.v.table, f.name)
	}
	if f.v != nil {
		f.wrongType("a table, with its heading in brackets")
	}
	return &Table{doc: f.doc, field: f.name, at: f.at, silent: true}
}

// Tables returns the tables of a list of them, in the order of the file.
func (f Field) Tables() []*Table {
	if f.v == nil {
		return nil
	}
	var tables []*Table
	switch {
	case f.v.kind == kindTables, f.v.kind == kindList:
		for i, v := range f.v.items {
			item := Field{doc: f.doc, name: fmt.Sprintf("%s %d", f.name, i+1), at: v.at, v: v}
			tables = append(tables, item.Table())
		}
	default:
		f.wrongType("a list of tables, each with its heading in double brackets")
	}
	return tables
}

func (f Field) ask(t *Table, name string) *Table {
	t.field = name
	f.doc.tables = append(f.doc.tables, t)
	return t
}
