package relief_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/relief"
)

// A face that is wetter is read as it is written, in a range, and told in words.
func TestParseWetter(t *testing.T) {
	for text, want := range map[string]string{
		"top=1": "visible face 1 point wetter", "under=0.5": "underside 0.5 points wetter", "top=10": "visible face 10 points wetter",
	} {
		w, err := relief.ParseWetter(text)
		if err != nil || w.String() != want {
			t.Errorf("%s: %q, %v; want %q", text, w, err, want)
		}
	}
	for _, text := range []string{"", "top", "top=", "=1", "side=1", "top=0", "top=-1", "top=10.1", "top=1e0", "top=nan", "top=1=1", "Top=1"} {
		if w, err := relief.ParseWetter(text); err == nil {
			t.Errorf("%q is read as %v", text, w)
		}
	}
	if s := (relief.Wetter{}).String(); s != "" {
		t.Errorf("no face is wetter, told as %q", s)
	}
}

// A figure below 0 has a word of its own and no sign; one of nothing has no way.
func TestWordsOfFigures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{relief.StripFigures{CrownUM: 12.4}.Crown().In(length.InMM), "crown about 12 um"},
		{relief.StripFigures{CrownUM: -12.6}.Crown().In(length.InMM), "hollow about 13 um"},
		{relief.StripFigures{UnderUM: -25.4}.Under().In(length.InInches), "hollow about 1.0 thou"},
		{relief.LineFigures{RidgeUM: -3}.Ridge().In(length.InMM), "valley about 3 um"},
		{relief.LineFigures{StepUM: 40, EdgeUM: 7}.Edge().In(length.InMM), "edge about 7 um"},
		{relief.Figures{CupUM: 120}.Cup(length.InMM), "cup about 120 um, edges up"},
		{relief.Figures{CupUM: -120}.Cup(length.InMM), "cup about 120 um, edges down"},
		{relief.Figures{CupUM: -0.2}.Cup(length.InMM), "cup about 0 um"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// What is not known of a panel is told: strips without bark side, without heart, timbers
// without coefficients.
func TestWhatIsNotKnown(t *testing.T) {
	none := relief.Of(physics(), leaners(t, "hard_maple", "up left", "", ""), relief.Wetter{})
	notes := none.Notes(length.InMM)
	for _, want := range []string{
		"every figure is about, give or take 15 %, and none has a level",
		"2 of 3 strips have no bark side yet: end grain shows it",
		"1 strip without a heart: the pith is assumed 120 mm away",
	} {
		if !slices.Contains(notes, want) {
			t.Errorf("%q lacks %q", notes, want)
		}
	}
	if one := relief.Of(physics(), leaners(t, "hard_maple", ""), relief.Wetter{}).Unseen(); one != "1 of 1 strip has no bark side yet: end grain shows it" {
		t.Error(one)
	}
	plum := relief.Of(physics(), leaners(t, "plum", "", ""), relief.Wetter{})
	if plum.Why() != "no figure for plum" || plum.Known() {
		t.Errorf("%q", plum.Why())
	}
	if why := relief.Of(physics(), leaners(t, "hard_maple"), relief.Wetter{}).Why(); !strings.Contains(why, "draft") {
		t.Error(why)
	}
}
