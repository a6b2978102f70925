package species

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
)

// A row is one line of a table in testdata, by column.
type row struct {
	t      *testing.T
	fields map[string]string
}

// rows reads a table with a header from testdata and demands its number of lines.
func rows(t *testing.T, name string, want int) []row {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) != want+1 {
		t.Fatalf("%s has %d lines under its header, want %d", name, len(lines)-1, want)
	}
	var out []row
	for _, line := range lines[1:] {
		fields := map[string]string{}
		for i, column := range lines[0] {
			fields[column] = line[i]
		}
		out = append(out, row{t, fields})
	}
	return out
}

func (r row) text(column string) string {
	r.t.Helper()
	text, ok := r.fields[column]
	if !ok {
		r.t.Fatalf("no column %s", column)
	}
	return text
}

// number reads a number, 0 for an empty cell.
func (r row) number(column string) float64 {
	r.t.Helper()
	text := r.text(column)
	if text == "" {
		return 0
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		r.t.Fatal(err)
	}
	return x
}

// timber is the built-in timber of the row's key.
func (r row) timber(table *Table) Species {
	r.t.Helper()
	s, ok := table.Get(r.text("key"))
	if !ok {
		r.t.Fatalf("no timber %s", r.text("key"))
	}
	return s
}

func timberRows(t *testing.T) []row { return rows(t, "timbers.csv", 67) }
