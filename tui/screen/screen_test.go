package screen_test

import (
	"fmt"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		name, text string
		w          int
		want       []string
	}{
		{"fits", "one two", 10, []string{"one two"}},
		{"set in after the first", "one two three", 8, []string{"one two", "  three"}},
		{"a word too long is cut", "abcdefghij", 4, []string{"abcd", "  ef", "  gh", "  ij"}},
		{"nothing", "", 8, nil},
		{"too narrow for an indent", "one two", 3, []string{"on~"}},
	} {
		if got := screen.Wrap(c.text, c.w); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestSentence(t *testing.T) {
	f := check.Finding{Level: pattern.TakeCare, Message: "mind it"}
	if got := screen.Sentence(check.Group{Finding: f, Findings: []check.Finding{f}}); got != "take care: mind it" {
		t.Errorf("of the panel: %q", got)
	}
	f.Where.Line = 3
	if got := screen.Sentence(check.Group{Finding: f, Findings: []check.Finding{f}}); got != "take care, line 3|4: mind it" {
		t.Errorf("of a line: %q", got)
	}
}

// The marks of a glue line tell levels apart without colour.
func TestMark(t *testing.T) {
	known := movement.Line{Known: true, Settled: true}
	for _, c := range []struct {
		line  movement.Line
		level pattern.Level
		want  rune
	}{
		{known, pattern.Fine, ','},
		{known, pattern.TakeCare, '!'},
		{known, pattern.TooMuch, 'X'},
		{movement.Line{Known: true}, pattern.TakeCare, '?'},
		{movement.Line{}, pattern.Fine, '-'},
	} {
		if got := screen.Mark(c.line, c.level).Rune; got != c.want {
			t.Errorf("%+v at %v is marked %c, want %c", c.line, c.level, got, c.want)
		}
	}
}

// A season chosen gives that season's figures and the level that they have alone.
func TestSeasonFigures(t *testing.T) {
	ctx := screen.Context{Physics: movement.New(species.Builtin(), shoptest.Roomy())}
	l := movement.Line{StepUM: 90, StrainPct: 0.5, Season: movement.Humid, Level: pattern.TooMuch}
	l.In[movement.Dry] = movement.InSeason{StepUM: 10, StrainPct: 0.1}
	l.In[movement.Humid] = movement.InSeason{StepUM: 90, StrainPct: 0.5}
	for season, want := range map[screen.Season]pattern.Level{screen.Worse: pattern.TooMuch, screen.Dry: pattern.Fine, screen.Humid: pattern.TooMuch} {
		ctx.Season = season
		if got := ctx.Of(l).Level; got != want {
			t.Errorf("%v: %v, want %v", season, got, want)
		}
	}
	if got := screen.Humid.Next(); got != screen.Worse {
		t.Errorf("after the humid season comes %v", got)
	}
}

// The footer stands in its rows, nothing over anything else, at any width.
func TestFooterFits(t *testing.T) {
	on := keymap.Group{Heading: "on it", At: keymap.Bench}
	var all []keymap.Action
	for i := range 20 {
		all = append(all, on.Bind(keymap.ID(fmt.Sprint("do", i)), "do "+fmt.Sprint(i), "do it", i+1, fmt.Sprint("f", i)))
	}
	keys := keymap.NewMap(all)
	for w := 1; w < 220; w++ {
		r := paint.Rect{W: w, H: 20}
		rows, _ := r.SplitBottom(screen.FooterRows)
		last := paint.Rect{Y: rows.Y}
		for _, p := range screen.Footer(r, keys, keymap.Bench, func(keymap.ID) bool { return true }) {
			if p.Rect.Intersect(rows) != p.Rect || p.Rect.Y == last.Y && p.Rect.X < last.Right() {
				t.Fatalf("at %d cells %s stands at %+v after %+v", w, p.ID, p.Rect, last)
			}
			last = p.Rect
		}
	}
}

func TestFirstThatFits(t *testing.T) {
	if got := screen.FirstThatFits(6, "too long", "fits", "x"); got != "fits" {
		t.Errorf("got %q", got)
	}
	if got := screen.FirstThatFits(0, "too long", "x"); got != "x" {
		t.Errorf("got %q", got)
	}
}
