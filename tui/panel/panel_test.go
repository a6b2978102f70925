package panel

import (
	"maps"
	"math"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/exp/golden"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

func frame(v View, w, h int, p paint.Profile) string {
	c := paint.New(w, h, p)
	Draw(c, c.Bounds(), v, &Palette{})
	return c.String()
}

// bare returns a frame's text without its escapes, and without blanks at line ends.
func bare(s string) string {
	lines := strings.Split(ansi.Strip(s), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n") + "\n"
}

// What a maker needs must be there by letters and marks alone.
func TestGoldenTrivet(t *testing.T) {
	golden.RequireEqual(t, []byte(bare(frame(hearthTrivet(), 80, 17, paint.None))))
}

func TestGoldenInches(t *testing.T) {
	v := hearthTrivet()
	v.Unit = length.InInches
	golden.RequireEqual(t, []byte(bare(frame(v, 100, 24, paint.None))))
}

func TestGoldenScrolled(t *testing.T) {
	v := many(400)
	v.Selected = 200
	golden.RequireEqual(t, []byte(bare(frame(v, 72, 12, paint.ANSI16))))
}

func TestGoldenWood(t *testing.T) {
	golden.RequireEqual(t, []byte(frame(hearthTrivet(), 60, 9, paint.TrueColour)))
}

// Every size holds exactly its lines, and the spans cover the wood without gap or
// overlap, none too narrow.
func TestSizes(t *testing.T) {
	views := map[string]View{
		"trivet": hearthTrivet(), "one": many(1), "sixty": many(60), "many": many(1200), "draft": {Timber: timberOf()},
		"no lookup": {Pattern: many(5).Pattern, Selected: 99},
	}
	for name, v := range maps.Clone(views) {
		v.Lies = true
		views[name+", lying"] = v
	}
	for name, v := range views {
		for _, p := range []paint.Profile{paint.TrueColour, paint.None} {
			palette := &Palette{}
			c := paint.New(0, 0, p)
			for w := 1; w <= 240; w += 13 {
				for h := 1; h <= 80; h += 7 {
					c.Reset(w, h)
					l := Draw(c, c.Bounds(), v, palette)
					checkSpans(t, name, l, len(v.Pattern.Strips), w)
					lines := strings.Split(c.String(), "\n")
					if len(lines) != h {
						t.Fatalf("%s at %dx%d: %d lines", name, w, h, len(lines))
					}
					for _, line := range lines {
						if n := ansi.StringWidth(line); n != w {
							t.Fatalf("%s at %dx%d: a line of %d cells", name, w, h, n)
						}
					}
				}
			}
		}
	}
}

func checkSpans(t *testing.T, name string, l Layout, n, w int) {
	t.Helper()
	if n == 0 {
		if len(l.Strips) != 0 {
			t.Fatalf("%s: a draft has no spans", name)
		}
		return
	}
	if l.Before+len(l.Strips)+l.After != n {
		t.Fatalf("%s: %d before, %d in view, %d after, of %d", name, l.Before, len(l.Strips), l.After, n)
	}
	at, end, least, long := l.Wood.X, l.Wood.Right(), leastStrip, 2*l.Wood.H
	if l.Lies {
		at, end, least, long = 2*l.Wood.Y, 2*l.Wood.Bottom(), 2, l.Wood.W
	}
	for i, s := range l.Strips {
		if s.X != at || s.Strip != l.Before+i {
			t.Fatalf("%s, width %d: strip %d at %d, want %d", name, w, s.Strip, s.X, at)
		}
		if s.W < least && w >= least {
			t.Fatalf("%s, width %d: strip %d is %d cells", name, w, s.Strip, s.W)
		}
		if s.From < 0 || s.To <= s.From && long > 0 || s.To > long {
			t.Fatalf("%s: strip %d reaches from %d to %d of %d", name, s.Strip, s.From, s.To, long)
		}
		at += s.W
	}
	if at != end || l.Wood.Intersect(l.Rect) != l.Wood {
		t.Fatalf("%s: the strips end at %d, the wood at %d of %+v", name, at, end, l.Rect)
	}
}

// Edges are rounded from the sum, so each is within half a cell of its place,
// however many strips there are.
func TestToScale(t *testing.T) {
	v := hearthTrivet()
	l := Lay(v, paint.Rect{X: 3, Y: 2, W: 120, H: 40})
	if !l.ToScale {
		t.Fatal("there is room to draw this to scale")
	}
	total, at := v.Pattern.Width().MM(), 0.0
	for _, s := range l.Strips {
		want := float64(l.Wood.X) + at/total*float64(l.Wood.W)
		if math.Abs(float64(s.X)-want) > 0.5+1e-9 {
			t.Errorf("strip %d stands at %d, true place %.2f", s.Strip, s.X, want)
		}
		at += v.Pattern.Strips[s.Strip].Width.MM()
	}
	// By hand: 290 + 20 long, so strip 1 with start 84 and 142 long covers
	// 84/310 to 226/310 of the wood's half rows.
	halves := l.lengthMM * l.along
	first := l.Strips[0]
	if math.Abs(float64(first.From)-84.0/310*halves) > 0.5 || math.Abs(float64(first.To)-226.0/310*halves) > 0.5 {
		t.Errorf("strip 1 covers %d to %d of %.1f", first.From, first.To, halves)
	}
}

// A strip slid beyond the others' ends sets how far the picture reaches.
func TestReach(t *testing.T) {
	v := many(4)
	v.Pattern.Strips[2].Start = 200 * length.Millimetre
	l := Lay(v, paint.Rect{W: 80, H: 30})
	if want := 200.0 + 450 + 20; l.lengthMM != want {
		t.Errorf("reaches %v mm, want %v", l.lengthMM, want)
	}
	// The datum end lies at the bottom: what is slid towards the far end goes up.
	slid, neighbour := l.Strips[2], l.Strips[1]
	if slid.From != 0 || neighbour.From <= 4 || slid.To >= 2*l.Wood.H-4 || neighbour.To != 2*l.Wood.H {
		t.Errorf("the slid strip lies from %d to %d, its neighbour from %d to %d, of %d", slid.From, slid.To, neighbour.From, neighbour.To, 2*l.Wood.H)
	}
}

func TestNarrowStripsAreOwnedUpTo(t *testing.T) {
	v := View{Timber: timberOf(), Selected: NoStrip}
	v.Pattern.Panel.Length = 300 * length.Millimetre
	for i := range 20 {
		w := 2 * length.Millimetre
		if i%2 == 0 {
			w = 60 * length.Millimetre
		}
		v.Pattern.Strips = append(v.Pattern.Strips, pattern.Strip{Species: "sapele", Width: w})
	}
	l := Lay(v, paint.Rect{W: 80, H: 24})
	if l.ToScale || l.Before+l.After > 0 {
		t.Errorf("2 mm lines in 80 cells: to scale %v, out of view %d", l.ToScale, l.Before+l.After)
	}
}

func TestShortPanelKeepsItsLook(t *testing.T) {
	v := many(10)
	v.Pattern.Panel.Length = 100 * length.Millimetre
	v.Allowance = 0
	l := Lay(v, paint.Rect{W: 120, H: 60})
	across := float64(l.Wood.W) / v.Pattern.Width().MM()
	if along := float64(2*l.Wood.H) / 100; along > across+0.021 {
		t.Errorf("stretched along the grain: %.3f half rows per mm, %.3f cells across", along, across)
	}
	if l.Ruler != l.Wood.Bottom() {
		t.Errorf("the ruler is at %d, the wood ends at %d", l.Ruler, l.Wood.Bottom())
	}
}

func TestSelectedIsInView(t *testing.T) {
	for _, n := range []int{30, 250, 5000} {
		v := many(n)
		for _, w := range []int{7, 25, 80, 200} {
			for selected := 0; selected < n; selected += max(1, n/37) {
				v.Selected = selected
				for _, from := range []int{-5, 0, selected, n / 2, n + 9} {
					v.First = from
					l := Lay(v, paint.Rect{W: w, H: 24})
					if selected < l.Before || selected >= n-l.After {
						t.Fatalf("strip %d of %d is out of view at width %d from %d: %d to %d", selected, n, w, from, l.Before, n-l.After)
					}
					v.First = l.First()
					if again := Lay(v, paint.Rect{W: w, H: 24}); again.Before != l.Before {
						t.Fatalf("the view wanders from %d to %d", l.Before, again.Before)
					}
				}
			}
		}
	}
}

func TestStripAt(t *testing.T) {
	l := Lay(hearthTrivet(), paint.Rect{X: 5, Y: 4, W: 90, H: 20})
	for _, s := range l.Strips {
		for _, x := range []int{s.X, s.X + s.W - 1} {
			for _, y := range []int{l.Numbers, l.Wood.Y, l.Ruler} {
				if got, ok := l.StripAt(x, y); !ok || got != s.Strip {
					t.Errorf("at %d,%d: %d, %v, want %d", x, y, got, ok, s.Strip)
				}
			}
		}
	}
	for _, at := range [][2]int{{5, 10}, {l.Wood.Right(), 10}, {l.Wood.X, 3}, {l.Wood.X, 24}} {
		if got, ok := l.StripAt(at[0], at[1]); ok {
			t.Errorf("at %v there is no strip, got %d", at, got)
		}
	}
}

// The frame depends on what is seen alone, not on what was drawn before.
func TestSameViewSameFrame(t *testing.T) {
	for _, p := range paint.Profiles() {
		palette := &Palette{}
		c := paint.New(90, 24, p)
		Draw(c, c.Bounds(), many(40), palette)
		c.Reset(90, 24)
		Draw(c, c.Bounds(), hearthTrivet(), palette)
		if c.String() != frame(hearthTrivet(), 90, 24, p) {
			t.Errorf("%v: the frame differs with a used palette", p)
		}
	}
}

// Turning a strip over twice, or end for end twice, is where it was; once is not.
func TestTurnedGrainIsMirrored(t *testing.T) {
	timber, _ := sampleTimber("white_ash")
	at := Span{W: 9, To: 30}
	look := func(s pattern.Strip, x, y int) int { return newGrain(timber, s, at).at(x, y) }
	plain := pattern.Strip{Rings: pattern.RingsFlat()}
	turned, over, both := plain, plain, plain
	turned.Turned, over.Over = true, true
	both.Turned, both.Over = true, true
	differs := false
	for x := range at.W {
		for y := range at.To {
			if look(turned, x, y) != look(plain, at.W-1-x, at.To-1-y) {
				t.Fatal("end for end mirrors both ways")
			}
			if look(over, x, y) != look(plain, at.W-1-x, y) {
				t.Fatal("the other face up mirrors across")
			}
			if look(both, x, y) != look(plain, x, at.To-1-y) {
				t.Fatal("both together mirror along")
			}
			differs = differs || look(over, x, y) != look(plain, x, y)
		}
	}
	if !differs {
		t.Error("the grain is the same on both sides: nothing would be seen to turn")
	}
}

// The grain may not hide what it is drawn on: in the mean a strip has its timber's
// colour, and no shade is far from it.
func TestGrainIsQuiet(t *testing.T) {
	colours := paint.NewPalette(paint.TrueColour)
	for key, timber := range sampleTimbers() {
		shades := new(Palette).of(timber, colours)
		for _, rings := range []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsQuarter(), pattern.RingsRift()} {
			var used [shadeCount]int
			for strip := range 6 {
				g := newGrain(timber, pattern.Strip{Rings: rings}, Span{Strip: strip, W: 12, To: 60})
				for x := range 12 {
					for y := range 60 {
						used[g.at(x, y)]++
					}
				}
			}
			kinds, mean := 0, 0.0
			for i, n := range used {
				rgb, _ := shades.shades[i].RGB()
				light, _, _ := exact(rgb).Lab()
				mean += 100 * light * float64(n) / (6 * 12 * 60)
				if n > 0 {
					kinds++
				}
				if d := difference(rgb, timber.ColourOiled); d > 7 {
					t.Errorf("%s: shade %d is %.1f away", key, i, d)
				}
			}
			light, _, _ := exact(timber.ColourOiled).Lab()
			if math.Abs(mean-100*light) > 2 {
				t.Errorf("%s %v: mean lightness %.1f, the timber's is %.1f", key, rings, mean, 100*light)
			}
			if kinds < 3 {
				t.Errorf("%s %v: %d shades are no grain", key, rings, kinds)
			}
		}
	}
}

func TestSeamsWhereColoursAreAlike(t *testing.T) {
	for _, tc := range []struct {
		name  string
		keys  []string
		seams int
	}{
		{"maple beside walnut", []string{"hard_maple", "black_walnut"}, 0},
		{"twins", []string{"sapele", "sapele"}, 1},
		{"beech beside cherry, 8 and less apart", []string{"european_beech", "wild_cherry"}, 1},
	} {
		v := View{Timber: timberOf(), Selected: NoStrip}
		v.Pattern.Panel.Length = 300 * length.Millimetre
		for _, key := range tc.keys {
			v.Pattern.Strips = append(v.Pattern.Strips, pattern.Strip{Species: key, Width: 25 * length.Millimetre})
		}
		text := frame(v, 60, 20, paint.TrueColour)
		rows := Lay(v, paint.Rect{W: 60, H: 20}).Wood.H
		if got := strings.Count(text, "▏"); got != tc.seams*rows {
			t.Errorf("%s: %d pieces of seam, want %d", tc.name, got, tc.seams*rows)
		}
	}
}

func TestTexturesTellNeighboursApart(t *testing.T) {
	timber := func(key string) species.Species { s, _ := sampleTimber(key); return s }
	alike := []string{"black_cherry", "wild_cherry", "european_beech", "wild_cherry", "black_cherry", "european_beech"}
	of := texturesOf(alike, timber)
	for i := 1; i < len(alike); i++ {
		if of[alike[i]] == of[alike[i-1]] {
			t.Errorf("%s and %s share a texture", alike[i-1], alike[i])
		}
	}
	if of["black_cherry"] >= of["wild_cherry"] && naturalTexture(timber("black_cherry").ColourOiled) != naturalTexture(timber("wild_cherry").ColourOiled) {
		t.Error("the darker timber has the lighter texture")
	}
	// All of one colour: only as many can differ as there are textures.
	grey := func(string) species.Species { return species.Species{ColourOiled: species.RGB{R: 90, G: 90, B: 90}} }
	of = texturesOf([]string{"a", "b", "c", "a"}, grey)
	if of["a"] == of["b"] || of["b"] == of["c"] || of["a"] == of["c"] {
		t.Errorf("three neighbours of one colour: %v", of)
	}
	if walnut := naturalTexture(timber("black_walnut").ColourOiled); textures[walnut] != '#' {
		t.Errorf("walnut is %c", textures[walnut])
	}
}

func TestSwatch(t *testing.T) {
	maple, _ := sampleTimber("hard_maple")
	c := paint.New(5, 1, paint.None)
	Swatch(c, paint.Rect{X: 1, W: 3, H: 1}, maple, &Palette{})
	if got, want := c.String(), " ... "; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	c = paint.New(5, 1, paint.TrueColour)
	Swatch(c, paint.Rect{X: 1, W: 99, H: 9}, maple, &Palette{})
	if !strings.Contains(c.String(), "8;2;2") {
		t.Errorf("no wood in %q", c.String())
	}
}

// Budget: 4 ms to lay out, draw and write 60 strips on the whole of 200x60.
func BenchmarkDraw(b *testing.B) {
	for _, p := range paint.Profiles() {
		b.Run(p.String(), func(b *testing.B) {
			v, palette := many(60), &Palette{}
			c := paint.New(200, 60, p)
			b.ReportAllocs()
			for b.Loop() {
				c.Reset(200, 60)
				Draw(c, c.Bounds(), v, palette)
				_ = c.String()
			}
		})
	}
}

// Budget: 1 ms for the largest pattern that may be.
func BenchmarkLayOfTenThousand(b *testing.B) {
	v := many(pattern.MaxStrips)
	v.Selected = 5000
	for b.Loop() {
		Lay(v, paint.Rect{W: 200, H: 60})
	}
}
