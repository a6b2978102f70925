package edit_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

// called finds the few timbers of these tests, by letters or name.
func called(words string) (string, error) {
	key, ok := map[string]string{"wa": "walnut", "ma": "hard_maple", "sa": "sapele", "walnut": "walnut", "hard maple": "hard_maple", "sapele": "sapele", "xylia": "xylia"}[strings.ToLower(words)]
	if !ok {
		return "", fmt.Errorf("%q is no timber that is known", words)
	}
	return key, nil
}

func rowText(strips []pattern.Strip) string {
	var out []string
	for _, s := range strips {
		out = append(out, s.Species[:1]+s.Width.Format(length.InMM))
	}
	return strings.Join(out, " ")
}

func TestParseRow(t *testing.T) {
	for text, want := range map[string]string{
		"wa30":                                   "w30",
		"wa30 ma10 sa40":                         "w30 h10 s40",
		"wa30 ma10 x3":                           "w30 h10 w30 h10 w30 h10",
		"wa30 ma10x2 sa40":                       "w30 h10 w30 h10 s40",
		"wa30 x2 ma10 x 2 sa5":                   "w30 w30 h10 h10 s5",
		"walnut 30, hard maple 10.5; Sapele 4cm": "w30 h10.5 s40",
		"wa30 ma10 sa40 unfold":                  "w30 h10 s40 h10 w30",
		"wa30 ma10 x2 mirror":                    "w30 h10 w30 h10 w30 h10 w30",
		"wa30 unfold":                            "w30",
		"wa 1in ma.5in":                          "w25.4 h12.7",
		"xylia 3 x2":                             "x3 x3",
	} {
		strips, err := edit.ParseRow(text, called, length.InMM)
		if got := rowText(strips); err != nil || got != want {
			t.Errorf("%s: %s, %v; want %s", text, got, err, want)
		}
	}
}

func TestParseRowRefuses(t *testing.T) {
	for _, c := range []struct {
		text   string
		column int
		says   string
	}{
		{"", 1, "missing: a timber and its width"},
		{"wa", 3, "missing: the width of the wa"},
		{"wa30 30", 6, "the timber comes before its width"},
		{"wa30 zz20", 6, `"zz" is no timber`},
		{"wa30 ma10 oak", 11, "no timber"},
		{"wa30 ma unfold", 9, "the width of the ma"},
		{"wa30 s unfold", 6, `"s" is no timber`},
		{"wa0", 3, "must be above 0"},
		{"wa3000", 3, "up to 2000 mm"},
		{"wa30ma10", 3, "30ma10"},
		{"x3 wa30", 1, "no strip before it to repeat"},
		{"wa30 x0", 6, "from 1 to 10000"},
		{"wa30 x9999 ma10 x9999", 17, "10000 strips at most"},
		{"wa30 x5000 x3", 12, "no strip before it"},
		{"unfold wa30", 1, "no strip before it to mirror"},
		{"wa30 unfold ma10", 6, "write it last"},
		{"ma10, ?", 7, "no timber"},
		{"ma10 .", 6, "the timber comes before"},
	} {
		_, err := edit.ParseRow(c.text, called, length.InMM)
		var at *spoken.Error
		if !errors.As(err, &at) || at.Column != c.column || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v; want column %d, %s", c.text, err, c.column, c.says)
		}
	}
}

// What was understood comes with the error, so that it can be shown while it is typed.
func TestRowAsFarAsItGoes(t *testing.T) {
	strips, err := edit.ParseRow("wa30 ma10 s", called, length.InMM)
	if got := rowText(strips); err == nil || got != "w30 h10" {
		t.Errorf("%s, %v", got, err)
	}
}

func TestParseBoard(t *testing.T) {
	for text, want := range map[string]edit.Board{
		"800 x 340 x 25":                 {Length: 800 * mm, Width: 340 * mm, Thickness: 25 * mm},
		"800x340x25 mirror":              {Length: 800 * mm, Width: 340 * mm, Thickness: 25 * mm, Mirror: true},
		"800 by 340 by 25, unfold":       {Length: 800 * mm, Width: 340 * mm, Thickness: 25 * mm, Mirror: true},
		"800 340 25":                     {Length: 800 * mm, Width: 340 * mm, Thickness: 25 * mm},
		"80 x 34 x 2.5 cm":               {Length: 800 * mm, Width: 340 * mm, Thickness: 25 * mm},
		"10 in x 127 mm x 1 in mirrored": {Length: 254 * mm, Width: 127 * mm, Thickness: length.Inch, Mirror: true},
	} {
		if got, err := edit.ParseBoard(text, length.InMM); err != nil || got != want {
			t.Errorf("%s: %+v, %v", text, got, err)
		}
	}
	for _, c := range []struct {
		text   string
		column int
		says   string
	}{
		{"", 1, "missing: length"}, {"800", 4, "missing: width"}, {"800 x 340", 10, "missing: thickness; write it like"},
		{"800 x 340 x 25 x 3", 16, "then mirror or nothing"}, {"wide 800", 1, "must be 800 x 340 x 25"}, {"x 800 340 25", 1, "must be"},
		{"800 x 3z x 25", 7, "width"}, {"0 x 340 x 25", 1, "panel length 0 mm: must be above 0"}, {"800 x 340 x 25 m", 1, "panel length 800000 mm"},
	} {
		_, err := edit.ParseBoard(c.text, length.InMM)
		var at *spoken.Error
		if !errors.As(err, &at) || at.Column != c.column || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v; want column %d, %s", c.text, err, c.column, c.says)
		}
	}
}

func TestPutInRow(t *testing.T) {
	row := []pattern.Strip{strip("ash", 10*mm), strip("elm", 12*mm)}
	s, err := edit.PutInRow(at(four(), 1), row)
	if err != nil || s.Selected != 3 || s.Pattern.Strips[2] != row[0] || s.Pattern.Strips[3] != row[1] || len(s.Pattern.Strips) != 6 {
		t.Errorf("%+v, %v", s, err)
	}
	if s, err := edit.PutInRow(edit.State{}, row); err != nil || s.Selected != 1 || len(s.Pattern.Strips) != 2 {
		t.Errorf("on a draft: %+v, %v", s, err)
	}
	for _, c := range []struct {
		s    edit.State
		row  []pattern.Strip
		says string
	}{{four(), nil, "no strip to put in"}, {full(), row, "10000 at most"}, {at(four(), 9), row, "there is no strip 10"}, {four(), []pattern.Strip{strip("ash", 0)}, "width 0 mm"}} {
		if next, err := edit.PutInRow(c.s, c.row); err == nil || !strings.Contains(err.Error(), c.says) || !next.Alike(c.s) {
			t.Errorf("%v, want %s", err, c.says)
		}
	}
}

// Nothing that is typed holds the readers up, and a row reads back from its line as it was.
func FuzzRow(f *testing.F) {
	for _, text := range []string{"wa30 ma10 sa40 ma10 x3", "walnut 30, hard maple 1-1/2in unfold", "800 x 340 x 25 mirror", "x3", "wa30 .", "wa\x00", "xylia 3 x2"} {
		f.Add(text, false)
		f.Add(text, true)
	}
	f.Fuzz(func(t *testing.T, text string, inches bool) {
		u := length.InMM
		if inches {
			u = length.InInches
		}
		if b, err := edit.ParseBoard(text, u); err == nil {
			if _, err := edit.NewBoard(b); err != nil {
				t.Errorf("%q is %+v: %v", text, b, err)
			}
		}
		strips, err := edit.ParseRow(text, called, u)
		if err != nil {
			return
		}
		line := edit.RowLine(strips, func(key string) string { return strings.ReplaceAll(key, "_", " ") }, u)
		again, err := edit.ParseRow(line, called, u)
		if err != nil || fmt.Sprint(again) != fmt.Sprint(strips) {
			t.Errorf("%q is %q, which is %v, %v", text, line, again, err)
		}
	})
}
