package store

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The formats with the tables of bad files that stand for each.
func badFormats() []struct {
	kind, base string
	read       func(io.Reader) error
	cases      [][]badFile
} {
	return []struct {
		kind, base string
		read       func(io.Reader) error
		cases      [][]badFile
	}{
		{"pattern", goodPattern, readBadPattern, [][]badFile{badPatternValues(), badPatternFiles()}},
		{"pattern", goodProducts, readBadPattern, [][]badFile{badProducts()}},
		{"pattern", goodSecond, readBadPattern, [][]badFile{badSeconds()}},
		{"rack", goodRack, readBadRack, [][]badFile{badRacks()}},
		{"shop", goodShop, readBadShop, [][]badFile{badShops()}},
		{"species", goodSpecies, readBadSpecies, [][]badFile{badSpecies()}},
		{"orders", goodOrders, readBadOrders, [][]badFile{badOrders()}},
	}
}

// leastBad is how many bad files there are at least, beside those that are made up here.
const leastBad = 300

var numbers = regexp.MustCompile(` \d+`)

// fieldsRefused returns the fields that the tables of bad files have refused, numbers left
// out, and how many files there are.
func fieldsRefused(t *testing.T) (fields map[string]bool, files int) {
	t.Helper()
	fields = map[string]bool{}
	for _, f := range badFormats() {
		for _, c := range slices.Concat(f.cases...) {
			files++
			var all Errors
			if !errors.As(f.read(strings.NewReader(strings.Replace(f.base, c.old, c.new, 1))), &all) {
				t.Errorf("%s, %s: not refused as a file", f.kind, c.name)
			}
			for _, e := range all {
				if !strings.HasPrefix(e.Message, "unknown") {
					fields[f.kind+": "+numbers.ReplaceAllString(e.Field, "")] = true
				}
			}
		}
	}
	for _, c := range slices.Concat(badCSVCells(), badCSVForms()) {
		files++
		var all Errors
		if !errors.As(readCSVForTest(strings.NewReader(strings.Replace(goodCSV, c.old, c.new, 1))), &all) {
			t.Errorf("rack as CSV, %s: not refused as a file", c.name)
		}
		for _, e := range all {
			fields["csv: "+numbers.ReplaceAllString(e.Field, "")] = true
		}
	}
	return fields, files
}

// A keyWalk finds every key that a reader asks for, by what it says is known where an
// unknown one stands, and gives each a value that no key takes.
type keyWalk struct {
	t       *testing.T
	kind    string
	read    func(io.Reader) error
	refused map[string]bool
	keys    int
}

// TestEveryKeyIsRefused: every key of every format stands in the tables of bad files, and
// refuses a time of day, which none takes, at its line, column and field.
func TestEveryKeyIsRefused(t *testing.T) {
	refused, files := fieldsRefused(t)
	walked := map[string]bool{}
	keys := 0
	for _, f := range badFormats() {
		if walked[f.kind] {
			continue
		}
		walked[f.kind] = true
		w := keyWalk{t: t, kind: f.kind, read: f.read, refused: refused}
		w.table(nil, "", "")
		keys += w.keys
	}
	for i, column := range csvColumns() {
		keys++
		if !refused["csv: "+column] {
			t.Errorf("rack as CSV: no bad file for %s", column)
		}
		cells := []string{"piece", "B1", "hornbeam", "620 mm", "85 mm", "77 mm", "", "", "", "", "", "", "", "", "", "", ""}
		cells[i] = "\x07"
		var all Errors
		text := strings.Join(csvColumns(), ",") + "\n" + strings.Join(cells, ",") + "\n"
		at := len(strings.Join(cells[:i], ",")) + 1 + min(i, 1)
		if !errors.As(readCSVForTest(strings.NewReader(text)), &all) || len(all) != 1 ||
			all[0].Line != 2 || all[0].Column != at || !strings.HasPrefix(all[0].Field, column) {
			t.Errorf("%s with a control character: %v, want it refused at 2:%d", column, all, at)
		}
	}
	t.Logf("%d bad files, and %d keys with a value that none takes", files, keys)
	if files < leastBad || keys < 100 {
		t.Errorf("%d bad files and %d keys: the walk does not find them", files, keys)
	}
}

// table walks a table: the headings that lead to it, its path with dots, and the name
// that errors give it.
func (w *keyWalk) table(headings []string, path, field string) {
	const nobody = "qqqqqqqqqq"
	known := w.errorAt(headings, nobody, "1")
	list, ok := strings.CutPrefix(known.Hint, "known here: ")
	if !ok {
		w.t.Fatalf("%s, table %q: the unknown key is told of as %v", w.kind, path, known)
	}
	for key := range strings.SplitSeq(list, ", ") {
		w.keys++
		name := strings.TrimSpace(field + " " + key)
		e := w.errorAt(headings, key, "1979-05-27T07:32:00Z")
		if e.Field != name || e.Column != len(key)+len(" = ")+1 {
			w.t.Errorf("%s, %s: refused as %v", w.kind, name, e)
		}
		if !w.refused[w.kind+": "+numbers.ReplaceAllString(name, "")] && !strings.Contains(e.Message, "a table") {
			w.t.Errorf("%s: no bad file for %s", w.kind, name)
		}
		inner := strings.TrimPrefix(path+"."+key, ".")
		switch {
		case strings.Contains(e.Message, "a list of tables"):
			w.table(slices.Concat(headings, []string{"[[" + inner + "]]"}), inner, name+" 1")
		case strings.Contains(e.Message, "a table"):
			w.table(slices.Concat(headings, []string{"[" + inner + "]"}), inner, name)
		}
	}
}

// errorAt returns the one error of the line with key = value behind the headings.
func (w *keyWalk) errorAt(headings []string, key, value string) FileError {
	lines := slices.Concat([]string{fmt.Sprintf(`format = "oddments/%s 1"`, w.kind)}, headings)
	if key == "format" {
		lines = nil
	}
	lines = append(lines, key+" = "+value)
	var all Errors
	err := w.read(strings.NewReader(strings.Join(lines, "\n") + "\n"))
	if !errors.As(err, &all) {
		w.t.Fatalf("%s: %s = %s: %v", w.kind, key, value, err)
	}
	var here Errors
	for _, e := range all {
		// A table that is empty misses its keys where its heading stands.
		if e.Line == len(lines) && e.Message != "missing" {
			here = append(here, e)
		}
	}
	if len(here) != 1 {
		w.t.Fatalf("%s: %s = %s: %d errors in line %d: %v", w.kind, key, value, len(here), len(lines), err)
	}
	return here[0]
}
