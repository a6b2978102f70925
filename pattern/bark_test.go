package pattern_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

func side(t testing.TB, s string) pattern.Bark {
	t.Helper()
	b, err := pattern.ParseBark(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// What each move makes of the side is what the hand does: worked out with a block of wood.
func TestMovesCarryTheBark(t *testing.T) {
	for _, c := range []struct{ was, turned, over, rolled string }{
		{"up", "up", "down", "right"},
		{"right", "left", "left", "down"},
		{"down", "down", "up", "left"},
		{"left", "right", "right", "up"},
		{"up left", "up right", "down right", "up right"},
		{"up right", "up left", "down left", "down right"},
		{"down right", "down left", "up left", "down left"},
		{"down left", "down right", "up right", "up left"},
	} {
		b := side(t, c.was)
		if b.Turned().String() != c.turned || b.Over().String() != c.over || b.Rolled().String() != c.rolled {
			t.Errorf("%s: turned %s, over %s, rolled %s; want %s, %s, %s", b, b.Turned(), b.Over(), b.Rolled(), c.turned, c.over, c.rolled)
		}
		if b.Turned().Turned() != b || b.Over().Over() != b || b.Rolled().Rolled() != b.Over() {
			t.Errorf("%s: twice is not back", b)
		}
	}
	if none := (pattern.Bark{}); none.Turned() != none || none.Over() != none || none.Rolled() != none {
		t.Error("a side that nobody has seen is seen by moving the strip")
	}
}

// The sides go with the rings, and still do once the strip was moved.
func TestSidesGoWithTheRings(t *testing.T) {
	at := func(degrees float64) pattern.Rings {
		r, err := pattern.RingsAt(degrees)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for _, c := range []struct {
		rings pattern.Rings
		sides string
	}{
		{pattern.Rings{}, ""},
		{at(0), "up, down"},
		{at(90), "left, right"},
		{at(0.5), "up left, up right, down left, down right"},
		{at(45), "up left, up right, down left, down right"},
		{at(89.5), "up left, up right, down left, down right"},
	} {
		var names []string
		for _, b := range c.rings.BarkSides() {
			names = append(names, b.String())
			g := pattern.Grain{Rings: c.rings, Bark: b, Heart: 90 * length.Millimetre}
			for _, moved := range []pattern.Grain{g, g.Rolled(), g.Laid(pattern.Strip{Turned: true}), g.Laid(pattern.Strip{Over: true}), g.Laid(pattern.Strip{Turned: true, Over: true})} {
				if err := moved.Check(); err != nil {
					t.Errorf("%v: %v", moved, err)
				}
			}
		}
		if got := strings.Join(names, ", "); got != c.sides {
			t.Errorf("rings %s: bark %s, want %s", c.rings, got, c.sides)
		}
	}
}

func TestCheckGrain(t *testing.T) {
	far := 90 * length.Millimetre
	for _, c := range []struct {
		grain pattern.Grain
		says  string
	}{
		{pattern.Grain{}, ""},
		{pattern.Grain{Rings: pattern.RingsFlat(), Bark: side(t, "up")}, ""},
		{pattern.Grain{Rings: pattern.RingsFlat(), Bark: side(t, "left")}, "must be up or down"},
		{pattern.Grain{Rings: pattern.RingsRift(), Bark: side(t, "up")}, "must be up left, up right, down left or down right"},
		{pattern.Grain{Bark: side(t, "up")}, "needs the rings"},
		{pattern.Grain{Rings: pattern.RingsFlat(), Heart: far}, "needs the bark side"},
		{pattern.Grain{Rings: pattern.RingsFlat(), Bark: side(t, "up"), Heart: 3 * length.Metre}, "must be above 0, up to 2000 mm"},
	} {
		if err := c.grain.Check(); err == nil && c.says != "" || err != nil && (c.says == "" || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%v: %v, want %q", c.grain, err, c.says)
		}
	}
}

// Other rings take a side with them that does not go with them; others leave it.
func TestGrainWithOtherRings(t *testing.T) {
	g := pattern.Grain{Rings: pattern.RingsRift(), Bark: side(t, "up left"), Heart: 90 * length.Millimetre}
	steeper, _ := pattern.RingsAt(60)
	if got := g.With(steeper); got.Bark != g.Bark || got.Heart != g.Heart || got.Rings != steeper {
		t.Errorf("rings at 60: %v", got)
	}
	if got := g.With(pattern.RingsFlat()); got != (pattern.Grain{Rings: pattern.RingsFlat()}) {
		t.Errorf("flat rings: %v", got)
	}
}

func TestParseBark(t *testing.T) {
	marks := map[rune]bool{}
	for _, b := range pattern.Barks() {
		if again, err := pattern.ParseBark(b.String()); err != nil || again != b {
			t.Errorf("%s reads as %v, %v", b, again, err)
		}
		marks[b.Mark()] = true
	}
	if len(marks) != 8 {
		t.Errorf("%d signs for 8 sides", len(marks))
	}
	for _, s := range []string{"", "unknown", "left up", "Up", "up  left", "north"} {
		if b, err := pattern.ParseBark(s); err == nil {
			t.Errorf("%q is read as %s", s, b)
		}
	}
}
