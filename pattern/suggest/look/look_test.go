package look

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
)

const mm = length.Millimetre

// row reads strips as w20 for a dark timber (L 20) 20 mm wide: w is at 20, o at 40, s at 40
// too, c at 60, m at 80.
func row(text string) []Strip {
	lights := map[byte]float64{'w': 20, 'o': 40, 's': 40, 'c': 60, 'm': 80}
	var out []Strip
	for _, word := range strings.Fields(text) {
		w := length.Length(0)
		for _, d := range word[1:] {
			w = 10*w + length.Length(d-'0')
		}
		out = append(out, Strip{Species: word[:1], Width: w * mm, L: lights[word[0]]})
	}
	return out
}

// rules count a contrast of 10 for each step of lightness of 20, and 3 between o and s.
func rules() Rules {
	return Rules{AccentWidth: 12 * mm, LeastContrast: 10, Contrast: func(a, b string) float64 {
		l := map[string]float64{"w": 20, "o": 40, "s": 40, "c": 60, "m": 80}
		if a != b && l[a] == l[b] {
			return 3
		}
		return max(l[a]-l[b], l[b]-l[a]) / 2
	}}
}

// Each case was judged by hand from the statement.
func TestLooks(t *testing.T) {
	for _, c := range []struct {
		look   Look
		strips string
		want   bool
	}{
		{Any, "w20", true}, {Any, "w20 w20 w20", true},
		{Mirror, "w20 m25 w20", true}, {Mirror, "w20 m25 m25 w20", true}, {Mirror, "w20 m25 w25", false}, {Mirror, "w20 m25 c20 w20", false}, {Mirror, "w20 m25 w21", false},
		{Repeat, "w20 m25 w20 m25", true}, {Repeat, "w20 m25 w20 m25 w20", true}, {Repeat, "w20 m25 w20", false},
		{Repeat, "w20 m25 c30 w20 m25 c30 w20", true}, {Repeat, "w20 m25 c30 w20 m25 c31", false}, {Repeat, "w20 w20 w20 w20", true}, {Repeat, "w20 w20 w20", false},
		{Repeat, "w20 m20 c20 m20 w20 m20 c20", false}, // a period of 4 is more than half of 7
		{Fade, "w20 o25 m20", true}, {Fade, "m20 o25 w20", true}, {Fade, "w20 o25 o20 c20 m30", true}, {Fade, "w20 m25 w20", false},
		{Fade, "w20 o20 m25 c20 w20", true}, {Fade, "m20 o20 w25 o20 m20", true}, {Fade, "w20 m20 o25 c20", false}, {Fade, "w20 o20 s20 m20", false},
		{Fade, "w20 o20 m20 o20 m20", false}, {Fade, "w20 w20 o20 c20", true}, {Fade, "w20 w20 m20 m20", false},
		{Accent, "m40 w10 m40 w10 m40", true}, {Accent, "m40 w10 m40", false}, {Accent, "w10 m40 w10 m40", false}, {Accent, "m40 w10 m40 w10", false},
		{Accent, "m40 w13 m40 w10 m40", false}, {Accent, "m40 w10 w10 m40 w10 m40", false}, {Accent, "m40 w12 m40 w12 c40", true},
		{Accent, "m40 w12 m23 w10 m40", false}, {Accent, "m24 w12 m24 w10 m40", true}, {Accent, "m40 c12 m40 c12 m40", false}, // contrast 10, 20 are asked for
		{Accent, "m40 w10 c40 w10 o40", false}, {Accent, "m40 o10 m40 c40 o10 m40", false}, {Accent, "m40 m40 w10 m40 w8 c40", true},
		{Lively, "w20 m25 c20 o25", true}, {Lively, "w20 m25 c20", false}, {Lively, "w20 m25 w20 o25 c20", false}, {Lively, "w20 m20 c25 o20", false},
		{Lively, "w20 m25 c20 w25 o20", true}, {Lively, "w20 w25 c20 o25 m20", false},
		{Calm, "w20 m25 w30 m25 w20", true}, {Calm, "w30 m25 w20 m25 w30", true}, {Calm, "w20 m25 w20 m25 w20", false}, {Calm, "w20 m20 w20", true},
		{Calm, "w20 m25 c30", false}, {Calm, "w20 w25 m30", false}, {Calm, "w20 m30 w25 m20", true}, {Calm, "w20 m30 w25 m30", false}, {Calm, "w20", false},
		{Calm, "w20 m25 w30 m30 w25 m20", true}, {Calm, "w20 m25 w40 m30 w25 m20", true}, {Look(99), "w20 m20", false},
	} {
		strips := row(c.strips)
		if got := rules().Is(c.look, strips); got != c.want {
			t.Errorf("%v of %s: %v", c.look, c.strips, got)
		}
		if got := rules().Is(c.look, Mirrored(strips)); got != c.want {
			t.Errorf("%v of %s, mirrored: %v", c.look, c.strips, got)
		}
	}
}

func TestWords(t *testing.T) {
	seen := map[Look]bool{}
	for _, l := range Looks() {
		back, err := Parse(l.String())
		if err != nil || back != l || seen[l] || l.Says() == "" || l.Fewest() < 1 {
			t.Errorf("%v reads back as %v, %v", l, back, err)
		}
		seen[l] = true
	}
	if len(seen) != len(words()) {
		t.Errorf("%d looks, %d words", len(seen), len(words()))
	}
	if _, err := Parse("zebra"); err == nil || !strings.Contains(err.Error(), "mirror") || Look(9).String() != "look(9)" {
		t.Errorf("an unknown look: %v", err)
	}
}

// Worked by hand. Of 40 and 40: a white strip of 20 lies over a white one in the first half
// and over a dark one in the second.
func TestApart(t *testing.T) {
	told := func(a, b string) bool { return a != b && a+b != "os" && a+b != "so" }
	for _, c := range []struct {
		a, b string
		want float64
	}{
		{"w20 m20", "w20 m20", 0}, {"w20 m20", "m20 w20", 0}, // mirrored they are one
		{"w20 m20 w20", "m20 w20 m20", 100}, {"w20 m20 w20", "w60", 100.0 / 3},
		{"o30 s30", "s60", 0},                                           // these two the eye does not tell apart
		{"w10 m40 w10", "w20 m20 w20", 100.0 / 3},                       // 10 to 20 and 40 to 50 of 60 differ
		{"m20", "w20 m20 w20", 0},                                       // the narrower one counts, in the middle
		{"m30", "w20 m20 w20", 100.0 / 3}, {"w21 m20", "m20 w20", 1.25}, // half a millimetre of 40
		{"w20 m20 c20", "c20 m20 w20", 0}, {"w20 c20 m20", "w20 m20 c20", 200.0 / 3},
	} {
		got := Apart(row(c.a), row(c.b), told)
		if back := Apart(row(c.b), row(c.a), told); got < c.want-1e-9 || got > c.want+1e-9 || back != got {
			t.Errorf("%s and %s: %v, the other way %v, must be %v", c.a, c.b, got, back, c.want)
		}
	}
	if got := Apart(nil, row("w20"), told); got != 0 {
		t.Errorf("of nothing: %v", got)
	}
}
