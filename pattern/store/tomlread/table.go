package tomlread

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern/tell"
)

// A Table is one table of the file. It knows the keys that were asked for.
type Table struct {
	doc     *Document
	field   string // empty for the root
	at      int
	origin  origin
	entries map[string]*entry
	asked   []string
	silent  bool // not in the file: its keys are not missed
}

// A Field is one value of the file, or the place where it is missing. The methods
// that read one report what is wrong and give false then, and where the value is
// missing.
type Field struct {
	doc  *Document
	name string
	at   int
	v    *value // nil: missing
}

// May returns the value of a key that the file need not have.
func (t *Table) May(key string) Field {
	t.asked = append(t.asked, key)
	f := Field{doc: t.doc, name: t.name(key), at: t.at}
	if e := t.entries[key]; e != nil {
		f.v, f.at = e.value, e.value.at
	}
	return f
}

// Need returns the value of a key that the file must have, and reports it where it is
// missing. The example is what the key could say, written as in the file.
func (t *Table) Need(key, example string) Field {
	f := t.May(key)
	if f.v == nil && !t.silent {
		t.doc.report(t.at, f.name, "missing", fmt.Sprintf("add %s = %s", key, example))
	}
	return f
}

// NeedTable returns a table that the file must have; with says what must stand in it.
func (t *Table) NeedTable(key, with string) *Table {
	f := t.May(key)
	if f.v == nil && !t.silent {
		t.doc.report(t.at, f.name, "missing", fmt.Sprintf("add [%s] with %s", key, with))
	}
	return f.Table()
}

// Keys returns the keys of the table, sorted, for tables whose keys are data.
func (t *Table) Keys() []string { return slices.Sorted(maps.Keys(t.entries)) }

// Failf reports the table as a whole, where its heading stands.
func (t *Table) Failf(hint, format string, args ...any) {
	t.doc.report(t.at, t.field, fmt.Sprintf(format, args...), hint)
}

// Wrongs returns how much was reported of the file so far.
func (t *Table) Wrongs() int { return len(t.doc.errs) }

// Wrongs returns how much was reported of the file so far.
func (f Field) Wrongs() int { return len(f.doc.errs) }

func (t *Table) name(key string) string {
	key = Visible(key)
	if t.field == "" {
		return key
	}
	return t.field + " " + key
}

// refuseUnknown reports the keys that nobody asked for.
func (t *Table) refuseUnknown() {
	for _, name := range t.Keys() {
		if slices.Contains(t.asked, name) {
			continue
		}
		e, noun := t.entries[name], "key"
		if e.value.kind == kindTable || e.value.kind == kindTables {
			noun = "table"
		}
		t.doc.report(e.at, t.name(name), fmt.Sprintf("unknown %s %s", noun, Quote(name)), KnownHint(name, t.asked))
	}
}

// KnownHint says which of names an unknown name was most likely meant to be, or lists
// them all.
func KnownHint(name string, names []string) string {
	if near := Nearest(name, names); near != "" {
		return "did you mean " + near + "?"
	}
	return "known here: " + strings.Join(names, ", ")
}

var formatText = regexp.MustCompile(`^oddments/([a-z]+) ([1-9][0-9]{0,8})$`)

// Format checks the key format, which says of what kind a file is, and gives its
// version. It refuses a kind other than the given one and a version above newest;
// Finish then reports this alone.
func (t *Table) Format(kind string, newest int) int {
	want := fmt.Sprintf("oddments/%s %d", kind, newest)
	f := t.Need("format", strconv.Quote(want))
	var text string
	if !f.Text(&text) {
		return newest
	}
	parts := formatText.FindStringSubmatch(text)
	if parts == nil {
		f.Failf("", "%s: must be %q", Quote(text), want)
		return newest
	}
	version, err := strconv.Atoi(parts[2])
	switch {
	case parts[1] != kind:
		f.Alone("", "this must be %s file, and says it is %s", tell.A(kind), Quote(text))
	case err != nil || version > newest:
		f.Alone("open it with the oddments that wrote it, or with a newer one", "%s is newer than this oddments, which reads up to %q", Quote(text), want)
	}
	return version
}

// Alone reports the field as Failf does, in place of all other errors.
func (f Field) Alone(hint, format string, args ...any) {
	f.doc.alone = f.doc.errorAt(f.at, f.name, fmt.Sprintf(format, args...), hint)
}

// nearEnough is how far a name may lie from the one that is meant: a third of its
// letters, two at least.
func nearEnough(name string) int { return max(2, len(name)/3) }

// Nearest returns the one of names that name was most likely meant to be, or "" when
// none is near.
func Nearest(name string, names []string) string {
	const longest = 64
	if len(name) > longest {
		return ""
	}
	best, found := nearEnough(name)+1, ""
	for _, n := range names {
		if d := tell.Distance([]byte(strings.ToLower(name)), []byte(n)); d < best && d < len(n) {
			best, found = d, n
		}
	}
	return found
}
