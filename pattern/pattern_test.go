package pattern_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

func TestRings(t *testing.T) {
	for _, c := range []struct {
		text    string
		degrees float64
		rolled  string
	}{
		{"flat", 0, "quarter"},
		{"rift", 45, "rift"},
		{"quarter", 90, "flat"},
		{"unknown", 45, "unknown"},
		{"30", 30, "60"},
		{"0", 0, "quarter"},
		{"12.5", 12.5, "77.5"},
	} {
		r, err := pattern.ParseRings(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if r.Degrees() != c.degrees || r.Rolled().String() != c.rolled {
			t.Errorf("%s: %v degrees, rolled %s; want %v, %s", c.text, r.Degrees(), r.Rolled(), c.degrees, c.rolled)
		}
		if again, err := pattern.ParseRings(r.String()); err != nil || again != r {
			t.Errorf("%s prints as %s, which reads as %v, %v", c.text, r, again, err)
		}
	}
	for _, text := range []string{"", "Flat", "-1", "90.1", "nan", "inf", "upright"} {
		if r, err := pattern.ParseRings(text); err == nil {
			t.Errorf("%q is read as %v", text, r)
		}
	}
	if (pattern.Rings{}).Known() {
		t.Error("the zero rings are known")
	}
}

func TestRingsMark(t *testing.T) {
	at := func(d float64) pattern.Rings { r, _ := pattern.RingsAt(d); return r }
	for _, tc := range []struct {
		rings pattern.Rings
		want  rune
	}{
		{pattern.Rings{}, '?'}, {at(0), '='}, {at(22), '='}, {at(23), '/'}, {at(45), '/'}, {at(67), '/'}, {at(68), '|'}, {at(90), '|'},
	} {
		if got := tc.rings.Mark(); got != tc.want || tc.rings.Nearest().Mark() != got {
			t.Errorf("%v: %c, want %c", tc.rings, got, tc.want)
		}
	}
}

func TestEnumsReadWhatTheyPrint(t *testing.T) {
	for _, l := range pattern.Levels() {
		if got, err := pattern.ParseLevel(l.String()); err != nil || got != l {
			t.Errorf("level %v reads back as %v, %v", l, got, err)
		}
	}
	for _, m := range []pattern.Make{pattern.MakeFlat, pattern.MakeEdge} {
		if got, err := pattern.ParseMake(m.String()); err != nil || got != m {
			t.Errorf("make %v reads back as %v, %v", m, got, err)
		}
	}
	if _, err := pattern.ParseLevel("safe"); err == nil {
		t.Error("a level that is none was read")
	}
	if _, err := pattern.ParseMake("upright"); err == nil {
		t.Error("a make that is none was read")
	}
}

// Strips for one order may have another width than the usual 25 mm (common practice,
// no source): the glue-up width is their plain sum.
func TestWidthIsTheSumOfTheStrips(t *testing.T) {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 450 * length.Millimetre}}
	if p.Width() != 0 || p.Ragged() {
		t.Errorf("a draft is %v wide, ragged %v", p.Width(), p.Ragged())
	}
	for _, w := range []length.Length{25 * length.Millimetre, 32 * length.Millimetre, length.Inch} {
		p.Strips = append(p.Strips, pattern.Strip{Width: w})
	}
	if got, want := p.Width(), 82400*length.Micrometre; got != want { // 25 + 32 + 25.4
		t.Errorf("width %v, want %v", got, want)
	}
	if got := p.StripLength(p.Strips[0], 20*length.Millimetre); got != 470*length.Millimetre {
		t.Errorf("strip 1 is %v long at glue-up, want 470 mm", got)
	}
	p.Strips[1].Length = 268 * length.Millimetre
	if got := p.StripLength(p.Strips[1], 20*length.Millimetre); got != 268*length.Millimetre || !p.Ragged() {
		t.Errorf("strip 2 is %v long at glue-up, want its own 268 mm; ragged %v", got, p.Ragged())
	}
}
