package store

import (
	"bytes"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second/secondtest"
	"example.com/oddments/species"
)

// TestSecondSample reads the sample of second glue-ups for ever.
func TestSecondSample(t *testing.T) {
	p, err := ReadPattern(bytes.NewReader(sample(t, "pattern-1-second.toml")), "redwing.toml", species.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	want := []pattern.Second{
		{Lay: pattern.LayEnd, Bar: 41_275 * length.Micrometre, Bars: 12, Angle: 90, Turned: []bool{false, true}, Over: []bool{true},
			Shift: []pattern.Shift{{}, {Step: pattern.ShiftHalf}, {Step: pattern.ShiftStrip}, {By: 12_500 * length.Micrometre}, {By: length.Inch / 2}},
			Trim:  2_500 * length.Micrometre, Moisture: pattern.Read(8.2)},
		{Lay: pattern.LayFlat, Bar: 30 * mm, Angle: 67.5, Over: []bool{false, true, false}},
		{Lay: pattern.LayFlat, Bar: 22 * mm, Angle: 90},
	}
	same(t, p.Seconds, want)
	var out bytes.Buffer
	if err := WritePattern(&out, p); err != nil {
		t.Fatal(err)
	}
	again, err := ReadPattern(&out, "redwing.toml", species.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	same(t, again.Seconds, want)
}

// The worked patterns are read by a reader of their own too.
func TestWorkedPatternsAreReadAlike(t *testing.T) {
	cases, _, err := secondtest.Stored()
	if err != nil || len(cases) == 0 {
		t.Fatal(err)
	}
	for _, c := range cases {
		got, err := ReadPattern(strings.NewReader(c.TOML), c.Name+".toml", species.Builtin())
		if err != nil {
			t.Fatal(err)
		}
		want, err := secondtest.Read(c.TOML)
		if err != nil {
			t.Fatal(err)
		}
		same(t, got, want)
	}
}

const goodSecond = `format = "oddments/pattern 1"
[panel]
length = "450 mm"
thickness = "22 mm"
[[second]]
lay = "end"
bar = "41 mm"
`

func TestBadSeconds(t *testing.T) { checkBad(t, goodSecond, badSeconds(), readBadPattern) }

func badSeconds() []badFile {
	const lay, bar = `lay = "end"`, `bar = "41 mm"`
	after := func(line string) string { return bar + "\n" + line }
	return []badFile{
		{"lay missing", lay + "\n", "", []string{"5:3 second 1 lay | missing / add lay ="}},
		{"lay a wrong word", lay, `lay = "edge"`, []string{`6:7 second 1 lay | "edge": must be end or flat`}},
		{"bar missing", bar, "", []string{"5:3 second 1 bar | missing / add bar ="}},
		{"bar zero", bar, "bar = 0", []string{"7:7 second 1 bar | must be above 0"}},
		{"bar too narrow", bar, "bar = 0.9", []string{"7:7 second 1 bar | must be 1 mm to 2000 mm"}},
		{"bar too wide", bar, `bar = "2001 mm"`, []string{"7:7 second 1 bar | up to 2000 mm"}},
		{"bars zero", bar, after("bars = 0"), []string{"8:8 second 1 bars | from 1 to 1000"}},
		{"bars too many", bar, after("bars = 1001"), []string{"8:8 second 1 bars | from 1 to 1000"}},
		{"bars broken", bar, after("bars = 2.5"), []string{"8:8 second 1 bars | whole number"}},
		{"angle too small", bar, after("angle = 19.9"), []string{"8:9 second 1 angle | must be 20 to 90"}},
		{"angle too large", bar, after("angle = 90.1"), []string{"8:9 second 1 angle | must be 20 to 90"}},
		{"angle quoted", bar, after(`angle = "45"`), []string{"8:9 second 1 angle | a number without quotes"}},
		{"angle of bars on end", bar, after("angle = 45"), []string{`8:9 second 1 angle | must be 90 where bars lie on end / lay = "flat"`}},
		{"bars on end again", bar, after("[[second]]\nlay = \"end\"\nbar = 30"), []string{`9:7 second 2 lay | must be "flat"`}},
		{"turned no list", bar, after("turned = true"), []string{"8:10 second 1 turned | must be a list in brackets"}},
		{"turned of nothing", bar, after("turned = []"), []string{"8:10 second 1 turned | must be 1 to 1000 entries / it goes bar by bar"}},
		{"turned too long", bar, after("turned = [true" + strings.Repeat(", true", 1000) + "]"), []string{"8:10 second 1 turned | a list of 1001"}},
		{"turned a number", bar, after("turned = [false, 1]"), []string{"8:18 second 1 turned 2 | must be true or false"}},
		{"over a word", bar, after(`over = ["yes"]`), []string{"8:9 second 1 over 1 | must be true or false"}},
		{"over of nothing", bar, after("over = []"), []string{"8:8 second 1 over | must be 1 to 1000 entries"}},
		{"shift a wrong word", bar, after(`shift = [0, "whole"]`), []string{"8:13 second 1 shift 2 | must be half, strip or a length"}},
		{"shift too far", bar, after(`shift = ["2001 mm"]`), []string{"8:10 second 1 shift 1 | half, strip or 0 to 2000 mm"}},
		{"shift too far in figures", bar, after(`shift = [2001]`), []string{"8:10 second 1 shift 1 | must be 0 to 2000 mm"}},
		{"shift below 0", bar, after(`shift = [-1]`), []string{"8:10 second 1 shift 1 | must not be below 0"}},
		{"shift no list", bar, after(`shift = "half"`), []string{"8:9 second 1 shift | must be a list in brackets"}},
		{"trim too much", bar, after("trim = 1001"), []string{"8:8 second 1 trim | must be 0 to 1000 mm"}},
		{"moisture too high", bar, after("moisture = 31"), []string{"8:12 second 1 moisture | 0 to 30"}},
		{"unknown key", bar, after("layers = 2"), []string{"8:1 second 1 layers | unknown key"}},
		{"a single table", "[[second]]", "[second]", []string{"5:2 second | must be a list of tables"}},
		{"four glue-ups", bar, after(strings.Repeat("[[second]]\nlay = \"flat\"\nbar = 30\n", 3)), []string{"14:3 second 4 | at most 3 second glue-ups"}},
	}
}
