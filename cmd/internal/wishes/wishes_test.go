package wishes

import (
	"slices"
	"testing"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

func asked(t *testing.T, args ...string) (suggest.Request, error) {
	t.Helper()
	ask := suggest.New(0, 0, 0)
	var f Flags
	cmd := &cobra.Command{Use: "suggest", Run: func(*cobra.Command, []string) {}}
	f.Add(cmd, &ask)
	err := cmd.ParseFlags(args)
	return ask, err
}

func TestFlagsAreRead(t *testing.T) {
	ask, err := asked(t, "--look", "mirror", "--look", "calm", "--apart", "40", "--accent-width", "10", "--timbers", "3..5", "--with", "white oak",
		"--without", "padauk", "--without", "wenge", "--at-most", "white oak 30", "--at-most", "sapele 12.5%", "--longest", "600")
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(ask.Looks, []look.Look{look.Mirror, look.Calm}) || ask.ApartPct != 40 || ask.AccentWidth != 10*length.Millimetre ||
		ask.Timbers != [2]int{3, 5} || !slices.Equal(ask.With, []string{"white oak"}) || !slices.Equal(ask.Without, []string{"padauk", "wenge"}) ||
		!slices.Equal(ask.AtMost, []suggest.Share{{Species: "white oak", Pct: 30}, {Species: "sapele", Pct: 12.5}}) || ask.Longest != 600*length.Millimetre {
		t.Errorf("%+v", ask.Wishes)
	}
}

func TestFlagsRefuse(t *testing.T) {
	for _, args := range [][]string{{"--look", "zebra"}, {"--apart", "130"}, {"--apart", "x"}, {"--timbers", "5..3"}, {"--timbers", "0"}, {"--at-most", "oak"},
		{"--at-most", "oak x"}, {"--longest", "0"}, {"--accent-width", "-1"}, {"--with", "oak\x00"}} {
		if _, err := asked(t, args...); err == nil {
			t.Errorf("%q passes", args)
		}
	}
}

func TestWidthTakesARange(t *testing.T) {
	ask := suggest.New(0, 0, 0)
	f := Flags{ask: &ask}
	if w, err := f.Width("330..345"); err != nil || w != 337500*length.Micrometre {
		t.Errorf("%v, %v", w, err)
	}
	if least, most := ask.Limits(); least != 330*length.Millimetre || most != 345*length.Millimetre {
		t.Errorf("%v to %v", least, most)
	}
	if w, err := f.Width("340"); err != nil || w != 340*length.Millimetre || ask.Range != [2]length.Length{} {
		t.Errorf("%v, %v, %v", w, err, ask.Range)
	}
	for _, text := range []string{"345..330", "..345", "330..x", "a..9", "-3..5"} {
		if _, err := f.Width(text); err == nil {
			t.Errorf("%q passes", text)
		}
	}
}

func TestHaveIsRead(t *testing.T) {
	h, err := Have("hard_maple 25 first x14 flat")
	if err != nil || h.Species != "hard_maple" || h.Width != 25*length.Millimetre || h.Count != 14 || !h.UseFirst || h.Rings.String() != "flat" {
		t.Errorf("%+v, %v", h, err)
	}
	for _, text := range []string{"hard_maple", "hard_maple 0", "hard_maple 25 x0", "hard_maple 25 x2 x3", "hard_maple 25 crooked"} {
		if _, err := Have(text); err == nil {
			t.Errorf("%q passes", text)
		}
	}
	if n, err := Strips("9..13"); err != nil || n != [2]int{9, 13} {
		t.Errorf("%v, %v", n, err)
	}
	if _, err := Strips("13..9"); err == nil {
		t.Error("a range from more to less passes")
	}
}
