package paint

import (
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/species"
)

// sgr is the only escape that a frame may hold (ECMA-48, 8.3.117).
var sgr = regexp.MustCompile(`\x1b\[[0-9;]*m`)

// checkFrame fails unless frame is h lines of w printable characters of one cell
// each, with escapes for style alone.
func checkFrame(t *testing.T, frame string, w, h int) {
	t.Helper()
	bare := sgr.ReplaceAllString(frame, "")
	lines := strings.Split(bare, "\n")
	if h == 0 {
		if frame != "" {
			t.Fatalf("a frame without lines is %q", frame)
		}
		return
	}
	if len(lines) != h {
		t.Fatalf("%d lines, want %d", len(lines), h)
	}
	for i, line := range lines {
		if n := utf8.RuneCountInString(line); n != w {
			t.Fatalf("line %d has %d characters, want %d: %q", i, n, w, line)
		}
		if n := ansi.StringWidth(line); n != w {
			t.Fatalf("line %d is %d cells wide, want %d: %q", i, n, w, line)
		}
		for _, r := range line {
			if unicode.IsControl(r) || !unicode.IsPrint(r) {
				t.Fatalf("line %d holds %U", i, r)
			}
		}
	}
}

func TestSizes(t *testing.T) {
	for _, p := range Profiles() {
		c := New(0, 0, p)
		for w := 0; w <= 240; w += 13 {
			for h := 0; h <= 80; h += 5 {
				c.Reset(w, h)
				c.Text(c.Bounds(), "oddments", Style{Bold: true})
				c.Fill(Rect{X: -3, Y: -3, W: w, H: h}, '#', Style{FG: Red})
				c.Halves(w-1, h-1, Of(species.RGB{R: 1}), Of(species.RGB{G: 2}))
				c.Halves(w, h, Of(species.RGB{R: 1}), Of(species.RGB{G: 2}))
				c.read(Rect{X: w - 4, Y: h - 2, W: 9, H: 9}, "ab\x1b[31mcdefgh\nij")
				checkFrame(t, c.String(), w, h)
			}
		}
	}
}

// hostile is text that must not reach the terminal as it is.
var hostile = map[string]string{
	"escape":            "a\x1bb",
	"clear screen":      "\x1b[2J\x1b[H",
	"title":             "\x1b]0;gone\x07x",
	"clipboard":         "\x1b]52;c;aGk=\x1b\\x",
	"device control":    "\x1bP1$r\x1b\\x",
	"unfinished":        "x\x1b[38;5",
	"unfinished string": "x\x1b]0;",
	"C1 as runes":       "a\u009b31mb\u0090c\u009d",
	"C1 as bytes":       "a\x9b31mb",
	"bell and back":     "a\x07b\x08\x7f",
	"line ends":         "a\r\nb\nc\vd\fe",
	"tab":               "a\tb",
	"direction":         "abc\u202edef\u2066\u200f",
	"no width":          "a\u200bb\u200dc\ufeffd\u2060",
	"line separator":    "a\u2028b\u2029c",
	"combining":         "e\u0301a\u0308\u20dd",
	"spacing marks":     "क\u0903\u093e x\u0903",
	"wide":              "木目ｗ한",
	"emoji":             "🪵 👩\u200d🔧 🇨🇭 ❤\ufe0f",
	"no text":           "a\xff\xfe\xc3",
	"private use":       "\ue0b0\U000f0000",
	"soft hyphen":       "a\u00adb\u00a0c",
	"tags":              "a\U000e0041\U000e0042",
}

func TestHostileText(t *testing.T) {
	for name, text := range hostile {
		t.Run(name, func(t *testing.T) {
			for _, p := range Profiles() {
				c := New(12, 3, p)
				c.Text(Rect{1, 0, 9, 1}, text, Style{Underline: true})
				c.read(Rect{1, 1, 9, 2}, text)
				for i, r := range text {
					c.Set(i, 2, r, Style{})
				}
				checkFrame(t, c.String(), 12, 3)
				if Width(Fit(text, 5)) > 5 {
					t.Errorf("Fit gives %q", Fit(text, 5))
				}
			}
		})
	}
}

func TestTextKeepsWhatReads(t *testing.T) {
	for _, text := range []string{"Käse, 3 ½ ×2 ±1 20°", "Дуб", "ořech", "│┼▀▄█", "δρυς"} {
		c := New(Width(text), 1, None)
		c.Text(c.Bounds(), text, Style{})
		if got := c.String(); got != text {
			t.Errorf("%q became %q", text, got)
		}
	}
}

// A mark that takes room of its own still leans on the letter before it.
func TestMarksStandAlone(t *testing.T) {
	c := New(4, 1, None)
	c.Text(c.Bounds(), "x\u0903y\u0301", Style{})
	if got, want := c.String(), "x?y?"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestTextIsClipped(t *testing.T) {
	c := New(8, 2, None)
	if n := c.Text(Rect{2, 0, 3, 1}, "walnut", Style{}); n != 3 {
		t.Errorf("took %d cells, want 3", n)
	}
	c.TextRight(Rect{0, 1, 8, 1}, "ash", Style{})
	c.TextCentre(Rect{0, 1, 5, 1}, "!", Style{})
	if got, want := c.String(), "  wal   \n  !  ash"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for _, tc := range []struct {
		in   string
		w    int
		want string
	}{{"cherry", 6, "cherry"}, {"cherry", 4, "che~"}, {"cherry", 1, "~"}, {"cherry", 0, ""}, {"", 3, ""}} {
		if got := Fit(tc.in, tc.w); got != tc.want {
			t.Errorf("Fit(%q, %d) = %q, want %q", tc.in, tc.w, got, tc.want)
		}
	}
}

// The expected bytes were written out by hand from ECMA-48.
func TestRunsMerge(t *testing.T) {
	c := New(6, 2, TrueColour)
	red := Style{FG: Red}
	c.Text(Rect{0, 0, 6, 1}, "ab", red)
	c.Text(Rect{2, 0, 6, 1}, "cd", red.On(Of(species.RGB{R: 1, G: 20, B: 255})))
	c.Set(4, 0, 'e', Style{Bold: true})
	c.Set(0, 1, 'f', Style{FG: BrightWhite, BG: BrightBlack, Reversed: true})
	want := "\x1b[31mab\x1b[48;2;1;20;255mcd\x1b[0;1me\x1b[0m \n\x1b[7;97;100mf\x1b[0m     "
	if got := c.String(); got != want {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

func TestProfilesDropColours(t *testing.T) {
	style := Style{FG: Red, BG: Of(species.RGB{R: 255, G: 255, B: 255}), Bold: true}
	for p, want := range map[Profile]string{
		TrueColour: "\x1b[1;31;48;2;255;255;255mx\x1b[0m",
		ANSI256:    "\x1b[1;31;48;5;231mx\x1b[0m",
		ANSI16:     "\x1b[1;31mx\x1b[0m",
		None:       "\x1b[1mx\x1b[0m",
	} {
		c := New(1, 1, p)
		c.Set(0, 0, 'x', style)
		if got := c.String(); got != want {
			t.Errorf("%v: got %q, want %q", p, got, want)
		}
	}
}

func TestHalves(t *testing.T) {
	a, b := species.RGB{R: 10}, species.RGB{G: 10}
	for _, tc := range []struct {
		name        string
		top, bottom Colour
		want        cell
	}{
		{"two colours", Of(a), Of(b), cell{'▀', Style{FG: Of(a), BG: Of(b)}}},
		{"one colour", Of(a), Of(a), cell{' ', Style{BG: Of(a)}}},
		{"upper alone", Of(a), Default, cell{'▀', Style{FG: Of(a)}}},
		{"lower alone", Default, Of(b), cell{'▄', Style{FG: Of(b)}}},
		{"neither", Default, Default, cell{r: ' '}},
	} {
		c := New(1, 1, TrueColour)
		c.Halves(0, 0, tc.top, tc.bottom)
		if c.cells[0] != tc.want {
			t.Errorf("%s: got %+v, want %+v", tc.name, c.cells[0], tc.want)
		}
	}
}

func randomStyle(rng *rand.Rand) Style {
	colour := func() Colour {
		switch rng.IntN(3) {
		case 0:
			return Default
		case 1:
			return Black + Colour(rng.IntN(16))
		default:
			return Of(species.RGB{R: uint8(rng.UintN(256)), G: uint8(rng.UintN(256)), B: uint8(rng.UintN(256))})
		}
	}
	return Style{colour(), colour(), rng.IntN(2) == 0, rng.IntN(2) == 0, rng.IntN(2) == 0, rng.IntN(2) == 0}
}

// What String writes, Draw reads back cell for cell: the escapes say what was
// asked for, whatever came before them.
func TestWrittenReadsBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	const w, h = 37, 11
	from, to := New(w, h, TrueColour), New(w, h, TrueColour)
	for range 50 {
		from.Reset(w, h)
		to.Reset(w, h)
		style := Style{}
		for i := range w * h {
			if rng.IntN(3) == 0 {
				style = randomStyle(rng)
			}
			from.Set(i%w, i/w, []rune("ab ▀ü|")[rng.IntN(6)], style)
		}
		to.read(to.Bounds(), from.String())
		for i := range from.cells {
			if from.cells[i] != to.cells[i] {
				t.Fatalf("cell %d: wrote %+v, read %+v", i, from.cells[i], to.cells[i])
			}
		}
	}
}

func TestDraw(t *testing.T) {
	orange := Of(species.RGB{R: 255, G: 135, B: 0}) // number 208 of xterm's colours
	for _, tc := range []struct {
		name, in string
		want     Style
	}{
		{"plain", "x", Style{}},
		{"empty is reset", "\x1b[1m\x1b[mx", Style{}},
		{"bold and named", "\x1b[1;31;44mx", Style{FG: Red, BG: Blue, Bold: true}},
		{"bright", "\x1b[91;102mx", Style{FG: BrightRed, BG: BrightGreen}},
		{"taken back", "\x1b[1;2;4;7;31;41m\x1b[22;24;27;39;49mx", Style{}},
		{"256", "\x1b[38;5;208;48;5;9mx", Style{FG: orange, BG: BrightRed}},
		{"24 bits", "\x1b[38;2;255;135;0;1mx", Style{FG: orange, Bold: true}},
		{"colons", "\x1b[38:2::255:135:0;1mx", Style{FG: orange, Bold: true}},
		{"colons without a space", "\x1b[38:2:255:135:0;7mx", Style{FG: orange, Reversed: true}},
		{"curly underline", "\x1b[4:3;1mx", Style{Underline: true, Bold: true}},
		{"no underline", "\x1b[4m\x1b[4:0mx", Style{}},
		{"underline colour", "\x1b[58;5;1;1mx", Style{Bold: true}},
		{"italic and struck", "\x1b[3;9mx", Style{}},
		{"not for style", "\x1b[?25l\x1b[2J\x1b]0;t\x07x", Style{}},
		{"too short", "\x1b[38;5mx", Style{}},
	} {
		c := New(2, 1, TrueColour)
		c.read(c.Bounds(), tc.in)
		if want := (cell{'x', tc.want}); c.cells[0] != want {
			t.Errorf("%s: got %+v, want %+v", tc.name, c.cells[0], want)
		}
	}
}

// Widgets pad by the width of two cells, so what stands behind must not move.
func TestDrawKeepsWidths(t *testing.T) {
	c := New(9, 2, None)
	c.read(Rect{1, 0, 7, 2}, "木e\u0301|abcdef\nz\u200b|")
	if got, want := c.String(), " ? e|abc \n z|      "; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Whatever is printed as it is takes one cell, whatever stands beside it.
func TestPrintedAsItIs(t *testing.T) {
	var as []rune
	for r := range rune(unicode.MaxRune) {
		if printable(r) == r {
			as = append(as, r)
		}
	}
	if len(as) < 20_000 {
		t.Fatalf("only %d characters", len(as))
	}
	for i, r := range as {
		for _, away := range []int{1, 7, 100, 5000} {
			if two := string([]rune{r, as[(i+away)%len(as)]}); ansi.StringWidth(two) != 2 {
				t.Errorf("%+q is %d cells wide", two, ansi.StringWidth(two))
			}
		}
	}
}

func FuzzDrawAndText(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Add("\x1b[38:2::1:2:3;48;5;77;4:3mx\ty\nz")
	f.Fuzz(func(t *testing.T, s string) {
		for _, p := range Profiles() {
			c := New(11, 4, p)
			c.read(Rect{1, 1, 9, 2}, s)
			c.Text(Rect{2, 3, 7, 1}, s, Style{})
			checkFrame(t, c.String(), 11, 4)
		}
	})
}

// manyColours paints every half cell in a colour of its own, out of kinds.
func manyColours(c *Canvas, kinds int) {
	for y := range c.h {
		for x := range c.w {
			n := (x*31 + y*17) % kinds
			c.Halves(x, y, Of(species.RGB{R: uint8(n), G: uint8(80 + n/2), B: 40}), Of(species.RGB{R: uint8(200 - n/2), G: uint8(n), B: 60}))
		}
	}
}

// Budget: 2 ms for a frame of 200x60 where no two neighbours share a colour.
func BenchmarkString(b *testing.B) {
	for _, p := range []Profile{TrueColour, ANSI256} {
		b.Run(p.String(), func(b *testing.B) {
			c := New(200, 60, p)
			manyColours(c, 200)
			_ = c.String()
			b.ReportAllocs()
			for b.Loop() {
				_ = c.String()
			}
		})
	}
}

// Budget: 0.5 ms to fill a blank canvas of 200x60 with text.
func BenchmarkText(b *testing.B) {
	c := New(200, 60, TrueColour)
	line := strings.Repeat("walnut 25 x 310 ", 13)
	for b.Loop() {
		c.Reset(200, 60)
		for y := range 60 {
			c.Text(Rect{0, y, 200, 1}, line, Style{Bold: y%2 == 0})
		}
	}
}

// Budget: 1 ms for a widget of 80x24 with a style per line.
func BenchmarkDraw(b *testing.B) {
	c := New(80, 24, TrueColour)
	text := strings.Repeat("\x1b[1;31m"+strings.Repeat("walnut 25 ", 8)+"\x1b[0m\n", 24)
	for b.Loop() {
		c.read(c.Bounds(), text)
	}
}
