package edit_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
)

// typed makes second glue-ups as they are typed, one after another.
func typed(t *testing.T, s edit.State, lines ...string) (edit.State, error) {
	t.Helper()
	for _, line := range lines {
		a, err := edit.ParseAgain(line, length.InMM)
		if err == nil {
			s, err = edit.GlueAgain(s, a)
		}
		if err != nil {
			return s, err
		}
	}
	return s, nil
}

func TestGlueAgain(t *testing.T) {
	end := pattern.Second{Bar: 41 * mm, Angle: 90}
	with := func(change func(*pattern.Second)) pattern.Second {
		g := end
		change(&g)
		return g
	}
	for _, c := range []struct {
		lines []string
		want  pattern.Second
	}{
		{[]string{"end 41 x16 chequer"}, with(func(g *pattern.Second) { g.Bars, g.Turned = 16, []bool{false, true} })},
		{[]string{"flat 40 at 45 chevron"}, pattern.Second{Lay: pattern.LayFlat, Bar: 40 * mm, Angle: 45, Over: []bool{false, true}}},
		{[]string{"flat 1 1/2 in chevron"}, pattern.Second{Lay: pattern.LayFlat, Bar: 3 * length.Inch / 2, Angle: 45, Over: []bool{false, true}}},
		{[]string{"end 41", "1 shift 0 half trim 2"}, with(func(g *pattern.Second) { g.Shift, g.Trim = []pattern.Shift{{}, {Step: pattern.ShiftHalf}}, 2*mm })},
		{[]string{"end 41 brick"}, with(func(g *pattern.Second) { g.Shift = []pattern.Shift{{}, {Step: pattern.ShiftHalf}} })},
		{[]string{"end 41 chequer", "1 stripes"}, end},
		{[]string{"end 41", "1 turn"}, with(func(g *pattern.Second) { g.Turned = []bool{false, true} })},
		{[]string{"end 41", "1 turn", "1 turn"}, end},
		{[]string{"end 41 x4", "1 turn 3"}, with(func(g *pattern.Second) { g.Bars, g.Turned = 4, []bool{false, false, true, false} })},
		{[]string{"end 41 x4", "1 turn 3", "1 turn 3"}, with(func(g *pattern.Second) { g.Bars = 4 })},
		{[]string{"end 41", "1 over 2"}, with(func(g *pattern.Second) { g.Over = []bool{false, true} })},
		{[]string{"end 41 x3", "1 shift bar 2 12.5"}, with(func(g *pattern.Second) {
			g.Bars, g.Shift = 3, []pattern.Shift{{}, {By: 12_500 * um}, {}}
		})},
		{[]string{"end 41 x3 over turn", "1 over none turn none bars all"}, end},
		{[]string{"end 41", "1 moisture 8.2"}, with(func(g *pattern.Second) { g.Moisture = pattern.Read(8.2) })},
		{[]string{"end 41 moisture 8", "1 moisture none bar 30 flat at 60"}, pattern.Second{Lay: pattern.LayFlat, Bar: 30 * mm, Angle: 60}},
	} {
		s, err := typed(t, four(), c.lines...)
		if err != nil || len(s.Pattern.Seconds) != 1 || !s.Pattern.Seconds[0].Equal(c.want) {
			t.Errorf("%q: %+v, %v, want %+v", c.lines, s.Pattern.Seconds, err, c.want)
		}
	}
	s, err := typed(t, four(), "end 41", "flat 22 turn", "1 out")
	if err == nil {
		t.Errorf("the end grain is taken from under a second glue-up: %+v", s.Pattern.Seconds)
	}
	s, err = typed(t, four(), "end 41", "flat 22 turn", "2 out", "1 out")
	if err != nil || s.Pattern.Seconds != nil {
		t.Errorf("all taken away leaves %+v, %v", s.Pattern.Seconds, err)
	}
}

// A stair goes up by a strip at a time, and down again.
func TestStair(t *testing.T) {
	s, err := typed(t, four(), "end 41 stair")
	if err != nil {
		t.Fatal(err)
	}
	g, first := s.Pattern.Seconds[0], s.Pattern.Strips[0].Width
	if g.ShiftAt(0).By != 0 || g.ShiftAt(1).By != first || g.ShiftAt(2).By != 0 {
		t.Errorf("%+v", g.Shift)
	}
}

func TestAgainRefuses(t *testing.T) {
	for line, part := range map[string]string{
		"":                 "must be end or flat",
		"edge 41":          `"edge": must be end or flat`,
		"end":              "bar is missing",
		"end wide":         "write a number",
		"end 41 sideways":  `"sideways": must be end, flat, bar 41`,
		"end 41 at 45":     "bars on end are cut square",
		"end 41 chevron":   "lay its bars flat",
		"end 0.5":          "must be 1 mm to 2000 mm",
		"flat 41 at 10":    "must be 20 to 90",
		"flat 41 at steep": "angle in degrees",
		"end 41 x":         "how many, or all",
		"end 41 x1001":     "must be 1 to 1000",
		"end 41 trim":      "trim is missing",
		"end 41 trim 2 m":  "must be 0 to 1000 mm",
		"end 41 moisture":  "must be a percent",
		"end 41 turn 1001": "must be 1 to 1000",
		"end 41 shift 3 m": "half, strip or 0 to 2000 mm",
		"end 41 shift bar": "its number and how far",
		"1":                "write what changes",
		"1 turn":           "there is no second glue-up 1",
		"1 out now":        "left over",
	} {
		if _, err := typed(t, four(), line); err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%q: %v, want %q in it", line, err, part)
		}
	}
	if _, err := typed(t, four(), "end 41", "end 41"); err == nil || !strings.Contains(err.Error(), "only the first") {
		t.Errorf("bars on end twice: %v", err)
	}
	if _, err := typed(t, four(), "end 41", "flat 40", "flat 30", "flat 20"); err == nil || !strings.Contains(err.Error(), "at most 3") {
		t.Errorf("four glue-ups: %v", err)
	}
	if _, err := typed(t, edit.New(pattern.Pattern{}), "end 41"); err == nil {
		t.Error("a draft is cut into bars")
	}
}

// A board of a size comes out of what its move makes, in one step that leaves what it was
// given alone.
func TestForBoard(t *testing.T) {
	s, err := typed(t, four(), "end 41 chequer")
	if err != nil {
		t.Fatal(err)
	}
	before := deep(s)
	want, err := edit.ParseBoardSize("400 x 300 x 38 x16", length.InMM)
	if err != nil || want != (edit.BoardSize{Size: second.Size{Length: 400 * mm, Width: 300 * mm, Thickness: 38 * mm}, Bars: 16}) {
		t.Fatalf("%+v, %v", want, err)
	}
	takes := second.Takes{Crosscut: 3200 * um, Second: 3 * mm, Length: 20 * mm}
	next, err := edit.ForBoard(s, want, takes)
	if err != nil {
		t.Fatal(err)
	}
	g := second.Of(next.Pattern, takes)[0]
	if g.Bars != 16 || g.Size.Thickness != 38*mm || g.Size.Length < 400*mm || g.Size.Width < 300*mm || g.Size.Width > 301*mm {
		t.Errorf("%d bars, %v", g.Bars, g.Size)
	}
	if !same(s, before) || slices.Equal(next.Pattern.Strips, s.Pattern.Strips) {
		t.Error("what was given is changed")
	}
	if _, err := edit.ForBoard(four(), want, takes); err == nil {
		t.Error("a board of no second glue-up")
	}
	for line, part := range map[string]string{"400 x 300": "thickness is missing", "400 x 300 x 0": "above 0", "400 x 300 x 38 x0": "whole number",
		"400 x 300 x 38 oak": "left over", "400 x 300 x wide": "write a number", "16 x 12 x 1 1/2 in": ""} {
		if _, err := edit.ParseBoardSize(line, length.InMM); (err == nil) != (part == "") || err != nil && !strings.Contains(err.Error(), part) {
			t.Errorf("%q: %v, want %q in it", line, err, part)
		}
	}
}

// No typed glue-up panics, and what is taken is within what files may say.
func FuzzParseAgain(f *testing.F) {
	for _, s := range append(slices.Clone(agains), "flat", "1 shift", "x", "1 bar", "end 41 x x") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := edit.ParseAgain(text, length.InMM)
		if err != nil {
			return
		}
		s, err := edit.GlueAgain(four(), a)
		for _, g := range s.Pattern.Seconds {
			if err == nil && (g.Bar < pattern.MinBar || g.Bar > pattern.MaxBar || g.Bars < 0 || g.Bars > pattern.MaxBars || len(g.Turned) > pattern.MaxBars) {
				t.Fatalf("%q gives %+v", text, g)
			}
		}
	})
}
