package rows

import (
	"bytes"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"example.com/oddments/pattern"
	"example.com/oddments/tui/paint"
)

func timber() Form {
	return Form{{"id"}, {"timber", ": "}, {"width", ", ", " wide"}, {"", ", "}}
}

// A row is a line with the words of its form around what it holds, and a cell of a table
// without them; what no row holds is no column, and what the row above says is not said
// again.
func TestRowsAsLinesAndTable(t *testing.T) {
	print := func(p *Printer) {
		p.Print(Form{{}}, pattern.Fine, "what lies here, of all that there is")
		p.Print(timber(), pattern.Fine, "PE1", "pear", "40 mm")
		p.Print(timber(), pattern.TakeCare, "PE1", "plum", "")
		p.Print(timber(), pattern.TooMuch, "W", "black walnut")
		p.Print(Form{{}, {"", ": "}}, pattern.Fine, "in all", "3")
	}
	var lines, table bytes.Buffer
	p := Printer{Out: &lines}
	print(&p)
	p.Flush()
	const plain = "what lies here, of all that there is\nPE1: pear, 40 mm wide\nPE1: plum\nW: black walnut\nin all: 3\n"
	if lines.String() != plain {
		t.Errorf("lines:\n%s", lines.String())
	}
	p = Printer{Out: &table, Columns: 24, Profile: paint.None}
	print(&p)
	if table.String() == "" || strings.Contains(table.String(), "in all") {
		t.Errorf("before the end:\n%s", table.String())
	}
	p.Flush()
	p.Flush()
	want := strings.Join([]string{
		"what lies here, of all", "that there is", "",
		"id   timber        width", "────────────────────────",
		"PE1  pear          40 mm", "     plum", "W    black walnut", "",
		"in all  3", "",
	}, "\n")
	if table.String() != want {
		t.Errorf("table:\n%s\nwant:\n%s", table.String(), want)
	}
}

// Levels have colours where the profile has some, and nothing else is sent.
func TestColours(t *testing.T) {
	for profile, coloured := range map[paint.Profile]bool{paint.TrueColour: true, paint.ANSI256: true, paint.ANSI16: true, paint.None: false} {
		var out bytes.Buffer
		p := Printer{Out: &out, Columns: 80, Profile: profile}
		p.Print(timber(), pattern.TakeCare, "a", "care")
		p.Print(timber(), pattern.TooMuch, "b", "much")
		p.Flush()
		text := out.String()
		if strings.Contains(text, "\x1b[30;43ma") != coloured || strings.Contains(text, "\x1b[1;97;41mb") != coloured || !coloured && strings.Contains(text, "\x1b") {
			t.Errorf("%v: %q", profile, text)
		}
	}
}

// No table is wider than the terminal, and no word of a cell is lost.
func TestTablesHold(t *testing.T) {
	word := rapid.StringMatching(`[a-zé±日]{1,14}`)
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(40, 140).Draw(t, "columns")
		n := rapid.IntRange(2, 7).Draw(t, "cells")
		form := Form{}
		for i := range n {
			form = append(form, Column{rapid.SampledFrom([]string{"", "head", "moisture gap"}).Draw(t, "head"), []string{"", ": "}[min(i, 1)]})
		}
		var out bytes.Buffer
		p := Printer{Out: &out, Columns: columns, Profile: paint.None}
		letters := 0
		for i := range rapid.IntRange(1, 8).Draw(t, "rows") {
			cells := []string{string(rune('a' + i))}
			for range rapid.IntRange(0, n-1).Draw(t, "filled") {
				cells = append(cells, strings.Join(rapid.SliceOfN(word, 0, 9).Draw(t, "words"), " "))
			}
			p.Print(form, pattern.Fine, cells...)
			letters += len(strings.ReplaceAll(strings.Join(cells, ""), " ", ""))
		}
		p.Flush()
		got := 0
		for line := range strings.Lines(out.String()) {
			if wide := ansi.StringWidth(strings.TrimSuffix(line, "\n")); wide > columns {
				t.Fatalf("%d wide in %d columns: %q", wide, columns, line)
			}
			if got += len(strings.NewReplacer(" ", "", "\n", "").Replace(line)); strings.Contains(line, "─") {
				got = 0 // what stands above are heads
			}
		}
		if got != letters {
			t.Fatalf("%d letters of %d:\n%s", got, letters, out.String())
		}
	})
}
