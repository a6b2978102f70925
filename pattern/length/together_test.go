package length_test

import (
	"errors"
	"slices"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
)

func TestTogether(t *testing.T) {
	for _, c := range []struct {
		name  string
		u     length.Unit
		texts []string
		want  []string // nil: refused
		at    int
	}{
		{"no unit", length.InMM, []string{"620", "85", "77"}, []string{"620", "85", "77"}, 0},
		{"a unit behind the last", length.InMM, []string{"24", "3", "2 in"}, []string{"24 in", "3 in", "2 in"}, 0},
		{"its mark", length.InMM, []string{"24 1/2", "3", `2"`}, []string{`24 1/2 "`, `3 "`, `2"`}, 0},
		{"millimetres behind the last, on a screen in inches", length.InInches, []string{"620", "85", "77 mm"}, []string{"620 mm", "85 mm", "77 mm"}, 0},
		{"centimetres behind the last", length.InMM, []string{"62", "8.5", "7.7cm"}, []string{"62 cm", "8.5 cm", "7.7cm"}, 0},
		{"each its own", length.InMM, []string{"24 in", "85 mm", "7 cm"}, []string{"24 in", "85 mm", "7 cm"}, 0},
		{"metres first", length.InMM, []string{"1.2 m", "85", "77"}, []string{"1.2 m", "85", "77"}, 0},
		{"inches first on a screen in inches", length.InInches, []string{"24 in", "3", "2"}, []string{"24 in", "3", "2"}, 0},
		{"inches first", length.InMM, []string{"24 in", "85", "77"}, nil, 1},
		{"inches in the middle", length.InMM, []string{"24", "3 in", "2"}, nil, 0},
		{"inches twice", length.InMM, []string{"24", "3 in", "2 in"}, nil, 0},
		{"millimetres first on a screen in inches", length.InInches, []string{"620 mm", "3", "2"}, nil, 1},
		{"one alone", length.InMM, []string{"2 in"}, []string{"2 in"}, 0},
	} {
		got, err := length.Together(c.texts, c.u)
		var mixed *length.MixedError
		if refused := errors.As(err, &mixed); refused != (c.want == nil) || !slices.Equal(got, c.want) || refused && mixed.Index != c.at {
			t.Errorf("%s: %q, %v; want %q", c.name, got, err, c.want)
		}
	}
}

func TestTypedTogetherReadsBack(t *testing.T) {
	for _, u := range []length.Unit{length.InMM, length.InInches} {
		for _, all := range [][]length.Length{
			{610 * length.Millimetre, length.Inch, 0},
			{length.Inch / 64, length.Millimetre, 3 * length.Inch},
			{1, 20_000 * mm},
			{length.Inch / 2, length.Inch * 9 / 4},
		} {
			texts := length.TypedTogether(u, all...)
			meant, err := length.Together(texts, u)
			if err != nil {
				t.Fatal(err)
			}
			for i, text := range meant {
				line := spoken.Line{Text: text, Unit: u}
				got, err := line.Length()
				if err != nil || got != all[i] {
					t.Errorf("%v in %v: %q reads as %v, %v", all, u, texts, got, err)
				}
			}
		}
	}
}
