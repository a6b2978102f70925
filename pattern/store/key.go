package store

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
)

// A key is one key of a table, with the value that it is read into and written from. A
// table is read and written by one list of them, in the order of the file.
type key struct {
	name  string
	need  string // what it could say, where a file must have it
	usual string // what a file says that leaves it out, where it may
	about string // what it means, where files have comments
	read  func(tomlread.Field)
	text  func() string // as the file has it
	told  told          // how it is told of outside of its file

	// In a sheet, where that is different: reading a cell, and what is written to it.
	cell  func(cell)
	plain func() string
}

// needed makes k one that a file must have; the example is what it could say.
func (k key) needed(example string) key {
	k.need = example
	return k
}

// A told key is shown to its maker, and typed by them: those of a shop.
type told struct {
	unit  string                                           // behind its value; lengths have the maker's
	most  func(length.Unit) string                         // what it may be
	shown func(length.Unit) string                         // for the eye; nil: as it is typed, with its unit
	field func(length.Unit) string                         // as it is typed; nil: as the file has it, without quotes
	value func() any                                       // in JSON
	typed func(text string, u length.Unit) (string, error) // what is typed, as the file has it; nil: as text
}

// of returns k with its unit.
func (k key) of(unit string) key {
	k.told.unit = unit
	return k
}

// saying returns k with what it means.
func (k key) saying(about string) key {
	k.about = about
	return k
}

// in returns the field of a key, reported where it is missing and must not be.
func (k key) in(t *tomlread.Table) tomlread.Field {
	if k.need != "" {
		return t.Need(k.name, k.need)
	}
	return t.May(k.name)
}

// readCell reads the cell of a key in a sheet.
func (k key) readCell(c cell) {
	if k.cell != nil {
		k.cell(c)
	} else {
		k.read(c.Field)
	}
}

// written returns what is written of a key: nothing where it may be left out and is as
// usual.
func (k key) written() string {
	text := k.text()
	if k.need == "" && text == k.usual {
		return ""
	}
	return text
}

// cellText returns what is written to the cell of a key.
func (k key) cellText() string {
	if k.plain != nil {
		return k.plain()
	}
	return unquoted(k.written())
}

func unquoted(text string) string { return strings.Trim(text, `"`) }

// readKeys reads a table.
func readKeys(t *tomlread.Table, keys []key) {
	for _, k := range keys {
		k.read(k.in(t))
	}
}

// readEntries reads a list of tables, each into a copy of start.
func readEntries[T any](tables []*tomlread.Table, start T, keys func(*T) []key) []T {
	var all []T
	var one T
	bound := keys(&one)
	for _, t := range tables {
		one = start
		readKeys(t, bound)
		all = append(all, one)
	}
	return all
}

// writeEntries writes a list of tables.
func writeEntries[T any](w *writer, heading string, list []T, keys func(*T) []key) {
	var one T
	bound := keys(&one)
	for _, one = range list {
		w.heading(heading)
		w.keys(bound)
	}
}

func textKey(name string, at *string) key {
	return key{name: name, usual: `""`, text: func() string { return quoted(*at) },
		told: told{most: within("text of up to %d characters", pattern.MaxTextRunes), value: func() any { return *at },
			field: func(length.Unit) string { return *at }},
		read:  func(f tomlread.Field) { f.Text(at) },
		cell:  func(c cell) { c.raw(c.whole).Text(at) },
		plain: func() string { return guarded(*at) }}
}

// checkedKey is a text that check takes; a nil one takes all.
func checkedKey(name string, at *string, check func(string) error) key {
	k := textKey(name, at)
	if check != nil {
		k.read = func(f tomlread.Field) { f.Checked(at, check) }
	}
	return k
}

func textsKey(name string, at *[]string) key {
	return key{name: name, usual: "[]", text: func() string { return listed(*at, quoted) },
		read: func(f tomlread.Field) {
			for _, item := range f.Items() {
				var text string
				if item.Text(&text) {
					*at = append(*at, text)
				}
			}
		}}
}

// sizeKey is a length above 0, where it is given.
func sizeKey(name string, at *length.Length, most length.Length) key {
	k := lengthKey(name, at, most)
	k.read = func(f tomlread.Field) { f.Size(at, most) }
	return k
}

func lengthKey(name string, at *length.Length, most length.Length) key {
	return key{name: name, usual: `"0 mm"`, text: func() string { return lengthText(*at) },
		told: told{unit: length.InMM.String(), typed: typedLength, value: func() any { return at.MM() },
			most:  func(u length.Unit) string { return "0 to " + most.With(u) },
			shown: func(u length.Unit) string { return at.With(u) }, field: func(u length.Unit) string { return at.Typed(u) }},
		read: func(f tomlread.Field) { f.Length(at, most) }}
}

// within returns a range that is the same in every unit.
func within(format string, args ...any) func(length.Unit) string {
	return func(length.Unit) string { return fmt.Sprintf(format, args...) }
}

func lengthText(l length.Length) string { return quoted(l.Exact()) }

func numberKey(name string, at *float64, least, most float64) key {
	return key{name: name, usual: "0", text: func() string { return decimal(*at) },
		told: told{typed: typedNumber, value: func() any { return *at }, most: within("%s to %s", decimal(least), decimal(most))},
		read: func(f tomlread.Field) { f.Number(at, least, most) }}
}

func countKey(name string, at *int, least, most, usual int) key {
	text := func() string { return strconv.Itoa(*at) }
	return key{name: name, usual: strconv.Itoa(usual), text: text, plain: text,
		told: told{typed: typedNumber, value: func() any { return *at }, most: within("a whole number from %d to %d", least, most)},
		read: func(f tomlread.Field) { f.Count(at, least, most) },
		cell: func(c cell) { c.count(at, least, most) }}
}

func flagKey(name string, at *bool) key {
	return key{name: name, usual: "false", text: func() string { return strconv.FormatBool(*at) },
		read: func(f tomlread.Field) { f.Bool(at) },
		cell: func(c cell) { c.flag(at) }}
}

// wordKey is a value with words of its own; a file without it means the zero value.
func wordKey[T fmt.Stringer](name string, at *T, parse func(string) (T, error)) key {
	var none T
	return key{name: name, usual: quoted(none.String()), text: func() string { return quoted((*at).String()) },
		told: told{value: func() any { return (*at).String() }},
		read: func(f tomlread.Field) { tomlread.Word(f, at, parse) }}
}

func dateKey(name string, at *pattern.Date) key {
	return key{name: name, text: func() string { return at.String() }, read: func(f tomlread.Field) { f.Date(at) }}
}

// timberKey is the key of a timber, of which one that is not known is refused.
func timberKey(at *string, known *species.Table) key {
	k := textKey("species", at).needed(`"hornbeam"`)
	k.read = func(f tomlread.Field) {
		if !f.Text(at) || known == nil {
			return
		}
		if _, ok := known.Get(*at); !ok {
			f.Failf("oddments species lists the known ones; species.toml takes your own",
				"unknown species %s: %s", tomlread.Quote(*at), rightTimber(known, *at))
		}
	}
	k.cell = func(c cell) { k.read(c.raw(c.text)) }
	return k
}

// rightTimber says which key was meant by one that no timber has, as far as can be told.
func rightTimber(known *species.Table, key string) string {
	const most = 3
	var near []string
	for _, s := range known.Nearest(key, most) {
		near = append(near, s.Key)
	}
	if len(near) == 0 {
		return "must be the key of a timber"
	}
	return "did you mean " + tell.List(near, "or") + "?"
}

// readingKey is a moisture, which is not written where none is known.
func readingKey(name string, at *pattern.Reading) key {
	return key{name: name,
		text: func() string {
			if !at.Known {
				return ""
			}
			return decimal(at.Percent)
		},
		read: func(f tomlread.Field) { at.Known = f.Number(&at.Percent, 0, pattern.MaxMoisture) },
		cell: func(c cell) { at.Known = c.moisture(&at.Percent) }}
}

// colourKey is a board's own colour, which is not written where none is known.
func colourKey(at *colour.Own) key {
	return key{name: "colour",
		text: func() string {
			if !at.Known {
				return ""
			}
			return quoted(at.RGB.String())
		},
		read: func(f tomlread.Field) { at.Known = tomlread.Word(f, &at.RGB, species.ParseRGB) }}
}

// ringsKey takes a word of the trade as text, or an angle as a number. Unknown is not
// written.
func ringsKey(at *pattern.Rings) key {
	return key{name: "rings",
		text: func() string {
			word, ok := at.Word()
			switch {
			case !at.Known():
				return ""
			case ok:
				return quoted(word)
			default:
				return decimal(at.Degrees())
			}
		},
		read: func(f tomlread.Field) {
			var degrees float64
			if f.IsText() {
				tomlread.Word(f, at, ringsWord)
			} else if f.Number(&degrees, 0, 90) {
				*at, _ = pattern.RingsAt(degrees) // in range
			}
		},
		cell: func(c cell) { c.rings(at) }}
}

func ringsWord(s string) (pattern.Rings, error) {
	if !slices.Contains([]string{"flat", "rift", "quarter", "unknown"}, s) {
		return pattern.Rings{}, fmt.Errorf("rings %s: must be flat, rift, quarter or unknown, or an angle of 0 to 90 without quotes", tomlread.Quote(s))
	}
	return pattern.ParseRings(s)
}

// lines holds the line of each text that may stand only once in a file.
type lines map[string]int

// onceKey is a text that may stand only once; twice says what a second one is told, by
// its text and the line of the first. The file may mix lists, so the one that is read
// second need not stand second.
func (l lines) onceKey(name string, at *string, check func(string) error, hint, twice string) key {
	k := textKey(name, at)
	k.read = func(f tomlread.Field) {
		if !f.Checked(at, check) {
			return
		}
		if line, taken := l[*at]; taken {
			f.Failf(hint, twice, tomlread.Quote(*at), line)
			return
		}
		l[*at] = f.Line()
	}
	k.cell = func(c cell) { k.read(c.raw(c.text)) }
	return k
}

// listed returns values in brackets, each as its text.
func listed[T any](values []T, text func(T) string) string {
	all := make([]string, len(values))
	for i, v := range values {
		all[i] = text(v)
	}
	return "[" + strings.Join(all, ", ") + "]"
}

// A writer puts keys and headings on lines of their own.
type writer struct{ buf bytes.Buffer }

func newWriter(kind string, version int) *writer {
	w := &writer{}
	w.line("format = %s", quoted(fmt.Sprintf("oddments/%s %d", kind, version)))
	return w
}

func (w *writer) to(out io.Writer) error {
	_, err := out.Write(w.buf.Bytes())
	return err
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.buf, format+"\n", args...) }

func (w *writer) heading(text string) { w.line("\n%s", text) }

// keys writes those that a file must have, and of the others what is not as usual.
func (w *writer) keys(keys []key) {
	for _, k := range keys {
		w.key(k)
	}
}

// key writes k as keys does and reports whether it was written.
func (w *writer) key(k key) bool {
	text := k.written()
	if text != "" {
		w.line("%s = %s", k.name, text)
	}
	return text != ""
}

// comment returns what a key means, with its unit; a length has its own.
func (k key) comment() string {
	if k.told.unit == "" || k.told.unit == length.InMM.String() {
		return k.about
	}
	return fmt.Sprintf("%s (%s)", k.about, k.told.unit)
}

// commented writes k, whatever it is, with what it means behind it.
func (w *writer) commented(k key) {
	w.line("%-30s # %s", k.name+" = "+k.text(), k.comment())
}

func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// quoted returns s as a TOML basic string on one line.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
