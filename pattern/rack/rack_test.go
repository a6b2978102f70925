package rack_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

const mm = length.Millimetre

func TestFault(t *testing.T) {
	for _, c := range []struct {
		text string
		want rack.Fault
	}{
		{"0-40 mm", rack.Fault{To: 40 * mm}},
		{"300-330 mm", rack.Fault{From: 300 * mm, To: 330 * mm}},
		{"along 30-45 mm", rack.Fault{Along: true, From: 30 * mm, To: 45 * mm}},
		{"0 - 40", rack.Fault{To: 40 * mm}},
		{"1-2 in", rack.Fault{From: length.Inch, To: 2 * length.Inch}},
		{`1/2-1 1/4"`, rack.Fault{From: length.Inch / 2, To: length.Inch * 5 / 4}},
		{"10 mm-2 cm", rack.Fault{From: 10 * mm, To: 20 * mm}},
	} {
		got, err := rack.ParseFault(c.text)
		if err != nil || got != c.want {
			t.Errorf("%q is %v, %v; want %v", c.text, got, err, c.want)
		}
		if again, err := rack.ParseFault(got.String()); err != nil || again != got {
			t.Errorf("%q prints as %q, which reads as %v, %v", c.text, got, again, err)
		}
	}
	for _, text := range []string{"", "40", "40-0 mm", "5-5 mm", "along", "a-b", "across 0-40"} {
		if got, err := rack.ParseFault(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

func TestFaultOutsideThePiece(t *testing.T) {
	p := rack.Piece{Length: 620 * mm, Width: 85 * mm, Faults: []rack.Fault{{To: 620 * mm}, {Along: true, To: 85 * mm}}}
	if err := p.Check(); err != nil {
		t.Errorf("faults as large as the piece: %v", err)
	}
	p.Faults[1].To++
	if err := p.Check(); err == nil || !strings.Contains(err.Error(), "whose width is 85 mm") {
		t.Errorf("a band beyond the width: %v", err)
	}
}

func TestVolumeCountsEveryCopy(t *testing.T) {
	p := rack.Piece{Length: 620 * mm, Width: 85 * mm, Thickness: 77 * mm, Quantity: 2}
	if got := p.VolumeCM3(); math.Abs(got-8115.8) > 1e-9 { // 2 x 62 x 8.5 x 7.7
		t.Errorf("%v cm3, want 8115.8", got)
	}
}

// What faults are called stands in the note of a file, before the maker's own words, and is
// read back from there; a note that speaks of other faults, or of none, is a note.
func TestFaultsAreCalledInTheNote(t *testing.T) {
	split, shake, plain := rack.Fault{To: 40 * mm, Kind: "split"}, rack.Fault{Along: true, From: 30 * mm, To: 45 * mm, Kind: "shake"}, rack.Fault{From: 100 * mm, To: 110 * mm}
	for _, c := range []struct {
		faults     []rack.Fault
		note, full string
	}{
		{nil, "from the shed", "from the shed"},
		{nil, "", ""},
		{[]rack.Fault{plain}, "", ""},
		{[]rack.Fault{plain}, "from the shed; dry", "from the shed; dry"},
		{[]rack.Fault{split}, "", "split 0-40 mm"},
		{[]rack.Fault{split, plain, shake}, "from the shed; dry", "split 0-40 mm, shake along 30-45 mm; from the shed; dry"},
		{[]rack.Fault{split, split}, "", "split 0-40 mm, split 0-40 mm"},
		{[]rack.Fault{split}, "knot 1-2 mm", "split 0-40 mm; knot 1-2 mm"},
		{[]rack.Fault{plain}, "knot 1-2 mm", "knot 1-2 mm"},
		{[]rack.Fault{plain}, "lid 100-110 mm", "lid 100-110 mm"},
	} {
		p := rack.Piece{Length: 620 * mm, Width: 85 * mm, Faults: c.faults, Note: c.note}
		if got := p.FullNote(); got != c.full {
			t.Errorf("%+v: %q, want %q", c, got, c.full)
		}
		var back rack.Piece
		for _, f := range c.faults {
			f.Kind = ""
			back.Faults = append(back.Faults, f)
		}
		file := slices.Clone(back.Faults)
		back.TakeNote(c.full)
		if back.Note != c.note || !slices.Equal(back.Faults, c.faults) {
			t.Errorf("%q reads back as %+v", c.full, back)
		}
		if len(file) > 0 && file[0].Kind != "" {
			t.Error("the faults that were handed in have changed")
		}
	}
}
