package paint

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/oddments/species"
)

func randomRGB(rng *rand.Rand) species.RGB {
	return species.RGB{R: uint8(rng.UintN(256)), G: uint8(rng.UintN(256)), B: uint8(rng.UintN(256))}
}

// The search leaves candidates out; it must find what looking at all of them does.
func TestIndex256AgainstAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	p := NewPalette(ANSI256)
	for range 400 {
		c := randomRGB(rng)
		best, nearest := 0, math.Inf(1)
		for i := firstFixed; i < allColours; i++ {
			if d := toColorful(c).DistanceCIEDE2000(toColorful(RGB256(uint8(i)))); d < nearest {
				best, nearest = i, d
			}
		}
		if got := p.Index256(c); int(got) != best {
			t.Errorf("%v: got %d, looking at all gives %d", c, got, best)
		}
	}
}

// The values are those of xterm's 256colres.h (from memory).
func TestRGB256(t *testing.T) {
	for i, want := range map[uint8]string{
		16: "#000000", 21: "#0000FF", 196: "#FF0000", 208: "#FF8700", 94: "#875F00",
		231: "#FFFFFF", 232: "#080808", 244: "#808080", 255: "#EEEEEE",
	} {
		if got := RGB256(i).String(); got != want {
			t.Errorf("number %d: got %s, want %s", i, got, want)
		}
	}
	p := NewPalette(ANSI256)
	for i := firstFixed; i < allColours; i++ {
		if got := p.Index256(RGB256(uint8(i))); int(got) != i {
			t.Errorf("the colour of number %d is found at %d", i, got)
		}
	}
}

// Ratios: WCAG 2.1, definition of contrast ratio (black on white is 21 to 1);
// #767676 is the lightest grey that reaches 4.5 on white, 4.54 (W3C, technique
// G18 and its tools; from memory).
func TestContrastRatio(t *testing.T) {
	white, black := species.RGB{R: 255, G: 255, B: 255}, species.RGB{}
	if got := contrastRatio(black, white); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %v, want 21", got)
	}
	if got := contrastRatio(white, species.RGB{R: 0x76, G: 0x76, B: 0x76}); math.Abs(got-4.54) > 0.005 {
		t.Errorf("#767676 on white: %.3f, want 4.54", got)
	}
}

// The least that the better of black and white can stand off is where both do
// alike: the square root of 21, 4.58.
func TestLabelsOnWoodRead(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for _, profile := range []Profile{TrueColour, ANSI256} {
		p := NewPalette(profile)
		for range 500 {
			c := randomRGB(rng)
			s := p.OnWood(c)
			label, ok := s.FG.RGB()
			if !ok {
				t.Fatalf("%v: no label colour", c)
			}
			if got := contrastRatio(p.Shown(label), p.Shown(c)); got < 4.58 {
				t.Errorf("%v on %v: %.2f to 1", label, c, got)
			}
			if i := p.Index256(label); i != 16 && i != 231 {
				t.Errorf("label on %v is number %d, want 16 or 231", c, i)
			}
		}
	}
	if got := NewPalette(ANSI16).OnWood(species.RGB{R: 9}); got != (Style{}) {
		t.Errorf("without wood colours: %+v", got)
	}
}

func TestProfileReadsBack(t *testing.T) {
	for _, p := range Profiles() {
		if got, err := ParseProfile(p.String()); err != nil || got != p {
			t.Errorf("%v reads as %v, %v", p, got, err)
		}
	}
	if _, err := ParseProfile("auto"); err == nil {
		t.Error("auto is no profile")
	}
}

// A named colour may stand only with the other half of its pair, since neither
// the terminal's background nor its text colour is known.
func TestRoles(t *testing.T) {
	for _, p := range Profiles() {
		for r, s := range looks(p) {
			if (s.FG == Default) != (s.BG == Default) {
				t.Errorf("%v in %v: a colour alone", r, p)
			}
			if p == None && s.FG != Default {
				t.Errorf("%v has a colour without colours", r)
			}
		}
	}
	none := looks(None)
	for _, r := range []Role{RoleSelected, RoleCare, RoleMuch, RoleError, RoleCaution, RoleKey} {
		if none[r] == none[RolePlain] {
			t.Errorf("%v looks plain without colours", r)
		}
	}
	// What the theme says is what a cell has.
	if got, want := looks(ANSI16)[RoleMuch], (Style{FG: BrightWhite, BG: Red, Bold: true}); got != want {
		t.Errorf("too much looks like %+v, want %+v", got, want)
	}
	if got, want := looks(TrueColour)[RoleCare], (Style{FG: Black, BG: Yellow}); got != want {
		t.Errorf("take care looks like %+v, want %+v", got, want)
	}
}

func TestColour(t *testing.T) {
	c := species.RGB{R: 1, G: 2, B: 3}
	if got, ok := Of(c).RGB(); !ok || got != c {
		t.Errorf("got %v, %v", got, ok)
	}
	if Of(species.RGB{}) == Default || Of(species.RGB{}) == Black {
		t.Error("black wood is not the terminal's own colour")
	}
	if _, ok := Red.RGB(); ok {
		t.Error("a named colour has no sRGB value")
	}
}

func TestRect(t *testing.T) {
	r := Rect{2, 3, 10, 5}
	top, rest := r.SplitTop(2)
	left, right := rest.SplitLeft(4)
	for name, tc := range map[string]struct{ got, want Rect }{
		"top":           {top, Rect{2, 3, 10, 2}},
		"left":          {left, Rect{2, 5, 4, 3}},
		"right":         {right, Rect{6, 5, 6, 3}},
		"inset":         {r.Inset(1, 2), Rect{3, 5, 8, 1}},
		"inset to none": {r.Inset(9, 0), Rect{11, 3, 0, 5}},
		"shared":        {r.Intersect(Rect{0, 0, 4, 4}), Rect{2, 3, 2, 1}},
		"apart":         {r.Intersect(Rect{40, 40, 4, 4}), Rect{40, 40, 0, 0}},
		"row":           {r.Row(4), Rect{2, 7, 10, 1}},
		"no row":        {r.Row(5), Rect{2, 8, 10, 0}},
		"centred":       {r.Centred(4, 1), Rect{5, 5, 4, 1}},
	} {
		if tc.got != tc.want {
			t.Errorf("%s: got %v, want %v", name, tc.got, tc.want)
		}
	}
	if bottom, above := r.SplitBottom(99); bottom != r || !above.Empty() {
		t.Errorf("all of it: %v, %v", bottom, above)
	}
	if part, others := r.SplitRight(3); part != (Rect{9, 3, 3, 5}) || others != (Rect{2, 3, 7, 5}) {
		t.Errorf("right: %v, %v", part, others)
	}
	if !r.Contains(2, 3) || r.Contains(12, 3) || r.Contains(2, 8) {
		t.Error("edges: the first column and row belong to a rectangle, those beyond do not")
	}
}

// Budget: 0.2 ms for a colour not searched for before.
func BenchmarkIndex256(b *testing.B) {
	p := NewPalette(ANSI256)
	rng := rand.New(rand.NewPCG(1, 2))
	for b.Loop() {
		p.search(randomRGB(rng))
	}
}
