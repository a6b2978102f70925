package tomlread

import (
	"fmt"
	"math"
	"strconv"
	"strings"
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

// Saying returns f with another text in the place of its own.
func (f Field) Saying(text string) Field {
	f.v = &value{kind: kindText, text: text, at: f.at}
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

// is reports whether there is a value, which must be of a kind.
func (f Field) is(k kind, wanted string) bool {
	return f.v != nil && (f.v.kind == k || f.wrongType(wanted))
}

// keep puts what was read into its place where it is right.
func keep[T any](into *T, read T, right bool) bool {
	if right {
		*into = read
	}
	return right
}

// Text reads text that may be shown: without control characters and without those
// that turn the direction of writing, at most pattern.MaxTextRunes long.
func (f Field) Text(into *string) bool {
	if !f.is(kindText, "text in quotes") {
		return false
	}
	if r, ok := pattern.ForbiddenRune(f.v.text); ok {
		return f.Failf("take it out", "the text holds the control character %U, which no text may", r)
	}
	n := utf8.RuneCountInString(f.v.text)
	return keep(into, f.v.text, n <= pattern.MaxTextRunes || f.Failf("", "text of %d characters: must be at most %d", n, pattern.MaxTextRunes))
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
	is := f.is(kindBool, "true or false")
	return keep(into, is && f.v.text == "true", is)
}

// Number reads a number from low to high.
func (f Field) Number(into *float64, low, high float64) bool {
	x, ok := f.number()
	fits := x >= low && x <= high
	return keep(into, x, ok && (fits || f.Failf("", "%s: must be %s to %s", f.v.text, plain(low), plain(high))))
}

// Above reads a number above low, up to high.
func (f Field) Above(into *float64, low, high float64) bool {
	x, ok := f.number()
	fits := x > low && x <= high
	return keep(into, x, ok && (fits || f.Failf("", "%s: must be above %s, up to %s", f.v.text, plain(low), plain(high))))
}

// Count reads a whole number from low to high; 3.0 is one.
func (f Field) Count(into *int, low, high int) bool {
	x, ok := f.number()
	fits := x == math.Trunc(x) && x >= float64(low) && x <= float64(high)
	return keep(into, int(x), ok && (fits || f.Failf("", "%s: must be a whole number from %d to %d", f.v.text, low, high)))
}

// number returns the number, reported where it is none.
func (f Field) number() (float64, bool) {
	if !f.is(kindNumber, "a number without quotes") {
		return 0, false
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
	fits := l > 0 && l <= high
	return keep(into, l, ok && (fits || f.Failf("", "%s: must be above 0, up to %s", l, high)))
}

// Length reads a length from 0 to high.
func (f Field) Length(into *length.Length, high length.Length) bool {
	l, ok := f.length()
	return keep(into, l, ok && (l <= high || f.Failf("", "%s: must be 0 to %s", l, high)))
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
	if !f.is(kindDate, "a date without quotes, like 2026-11-02") {
		return false
	}
	day, err := pattern.ParseDate(f.v.text)
	return keep(into, day, err == nil || f.Failf("", "%s: no day of the calendar", Quote(f.v.text)))
}

// Items returns the values of a list, each named by its number from 1.
func (f Field) Items() []Field {
	if !f.is(kindList, "a list in brackets") {
		return nil
	}
	return f.numbered()
}

// numbered returns the values in a list, of tables too.
func (f Field) numbered() []Field {
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
		f.v.table.field = f.name
		f.doc.tables = append(f.doc.tables, f.v.table)
		return f.v.table
	}
	if f.v != nil {
		f.wrongType("a table, with its heading in brackets")
	}
	return &Table{doc: f.doc, field: f.name, at: f.at, silent: true}
}

// Tables returns the tables of a list of them, in the order of the file.
func (f Field) Tables() []*Table {
	if !f.IsList() && !f.is(kindTables, "a list of tables, each with its heading in double brackets") {
		return nil
	}
	var tables []*Table
	for _, item := range f.numbered() {
		tables = append(tables, item.Table())
	}
	return tables
}
