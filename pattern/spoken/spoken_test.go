package spoken_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

const mm = length.Millimetre

// words takes every word of a line.
func words(text string) []string {
	l := spoken.Line{Text: text}
	var all []string
	for l.More() {
		all = append(all, l.Next())
	}
	return all
}

func TestWords(t *testing.T) {
	for text, want := range map[string][]string{
		"":                        nil,
		" , ;\t":                  nil,
		"Round 290, x2;bevel 8":   {"round", "290", "x2", "bevel", "8"},
		"12,5 12,5, 12, 5 .5,5":   {"12,5", "12,5", "12", "5", ".5,5"},
		"flat,split W9,5 x3,0-40": {"flat", "split", "w9", "5", "x3", "0-40"}, // a comma belongs to numbers alone
		"1,250mm\u00a0wide":       {"1,250mm", "wide"},
	} {
		if got := words(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestSkipAndRest(t *testing.T) {
	l := spoken.Line{Text: "3 OF 40,  deep: 18 "}
	if l.Next() != "3" || l.Skip("x") || !l.Skip("x", "of") || l.Next() != "40" || l.Skip() {
		t.Errorf("at %d", l.At)
	}
	if got := l.Rest(); got != ",  deep: 18" || l.More() || l.Next() != "" || l.Skip("") {
		t.Errorf("rest %q", got)
	}
}

func TestQuoted(t *testing.T) {
	l := spoken.Line{Text: `"W 9" 'x' "open`}
	got, ok := l.Quoted()
	if l.Spaces(); got != "W 9" || !ok || l.At != 6 {
		t.Errorf("%q, %v, at %d", got, ok, l.At)
	}
	for l.More() {
		if got, ok := l.Quoted(); ok {
			t.Errorf("%q is in quotes", got)
		}
		l.Next()
	}
}

// What is left over says how far a length goes.
func TestLength(t *testing.T) {
	for text, want := range map[string]struct {
		l    length.Length
		rest string
	}{
		"290 x2":          {290 * mm, "x2"},
		"290 MM wide":     {290 * mm, "wide"},
		"25IN":            {25 * length.Inch, ""},
		"11 1/2 in thick": {23 * length.Inch / 2, "thick"},
		"11-1/2in 3/4":    {23 * length.Inch / 2, "3/4"},
		"11-1/2, 3/4":     {11500 * length.Micrometre, ", 3/4"},
		"240, 3/4":        {240 * mm, ", 3/4"},
		"240 3-1/2in":     {240 * mm, "3-1/2in"},
		"12,5":            {12500 * length.Micrometre, ""},
		"2 cm":            {20 * mm, ""},
		`3/4 " flat`:      {3 * length.Inch / 4, "flat"},
		"4 inner":         {4 * mm, "inner"},
		", .5m":           {500 * mm, ""},
	} {
		l := spoken.Line{Text: text}
		got, err := l.Length()
		if rest := l.Rest(); err != nil || got != want.l || rest != want.rest {
			t.Errorf("%q: %v, %q, %v; want %v and %q", text, got, rest, err, want.l, want.rest)
		}
	}
	inches := spoken.Line{Text: "11 1/2", Unit: length.InInches}
	if got, err := inches.Length(); err != nil || got != 23*length.Inch/2 {
		t.Errorf("in inches: %v, %v", got, err)
	}
}

// What is no length is quoted whole.
func TestLengthRefuses(t *testing.T) {
	for text, quoted := range map[string]string{
		"wide 3": `"wide"`, "240x160 9": `"240x160"`, "1e3 mm": `"1e3 mm"`, "-5": `"-5"`, "1,2,3": `"1,2,3"`, "1,250 mm": `"1,250 mm"`, "": "no length given",
	} {
		l := spoken.Line{Text: text}
		if got, err := l.Length(); err == nil || !strings.Contains(err.Error(), quoted) {
			t.Errorf("%q: %v, %v; want %s", text, got, err, quoted)
		}
	}
	l := spoken.Line{Text: "620x85", Times: true}
	if got, err := l.Length(); err != nil || got != 620*mm || l.Rest() != "x85" {
		t.Errorf("with times: %v, %v", got, err)
	}
}

func TestTogether(t *testing.T) {
	var a, b length.Length
	sizes := []spoken.Size{{What: "length", Into: &a, Text: "12"}, {What: "width", Into: &b, Text: "8 in"}}
	var l spoken.Line
	if err := l.Together(sizes); err != nil || a != 12*length.Inch || b != 8*length.Inch {
		t.Errorf("%v, %v, %v", a, b, err)
	}
	sizes[0].Text = "x"
	if err := l.Together(sizes); err == nil || !strings.HasPrefix(err.Error(), `length: length "x in"`) {
		t.Errorf("%v", err)
	}
	sizes[0].Text, sizes[1].Text = "12 in", "240"
	if err := l.Together(sizes); err == nil {
		t.Error("inches and millimetres are mixed")
	}
}

func TestCount(t *testing.T) {
	if n, err := spoken.Count("count", "12", 12); n != 12 || err != nil {
		t.Errorf("%d, %v", n, err)
	}
	for _, text := range []string{"", "0", "13", "+1", "1.5", "99999999999999999999"} {
		if n, err := spoken.Count("count", text, 12); err == nil || !strings.Contains(err.Error(), "must be a whole number from 1 to 12") {
			t.Errorf("%q: %d, %v", text, n, err)
		}
	}
}

// The leftmost error counts. While the line is typed, its last word may still become
// what it asks for.
func TestErrors(t *testing.T) {
	l := spoken.Line{Text: "é pla fla"}
	l.FailAt(7, 10, "flat?", "no word that is known")
	l.FailAt(3, 6, "planed?", `"pla": no word`)
	if err := l.Err(); err == nil || err.Error() != `column 3: "pla": no word` {
		t.Errorf("%v", err)
	}
	wanted, err := l.Typing()
	if !slices.Equal(wanted, []string{"flat?"}) || err == nil || !strings.HasPrefix(err.Error(), "column 3") {
		t.Errorf("%q, %v", wanted, err)
	}
	l = spoken.Line{Text: "fla", At: 3}
	l.Fail(0, "flat?", "no word that is known")
	if wanted, err := l.Typing(); err != nil || len(wanted) != 1 {
		t.Errorf("%q, %v", wanted, err)
	}
	if err := l.Err(); err == nil || err.Error() != `column 1, "fla": no word that is known` {
		t.Errorf("%v", err)
	}
	if l = (spoken.Line{}); l.Err() != nil || l.Twice("rings") || l.Said("id") || !l.Twice("rings") || !l.Said("rings") {
		t.Error("what was said is not kept")
	}
}

// Whatever is asked for, a line is read from front to back, and words and lengths leave
// nothing out but what parts them.
func FuzzLine(f *testing.F) {
	for _, s := range []string{"Round 290, x2;bevel 8", "11-1/2in by 3/4″", "1,2,3 .5,5 240x160", `"W 9" é×2 1/0 MM`} {
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, text string, times bool) {
		l := spoken.Line{Text: text, Times: times}
		for n := 0; l.More(); n++ {
			from := l.At
			if n%2 == 0 {
				l.LengthText()
			} else if l.Next() == "" {
				t.Fatalf("%q: no word at %d", text, from)
			}
			if l.At <= from || l.At > len(text) {
				t.Fatalf("%q: at %d from %d", text, l.At, from)
			}
		}
	})
}
