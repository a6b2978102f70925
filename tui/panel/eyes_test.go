package panel

import (
	"fmt"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// Grey is seen alike by every eye, and what each eye cannot see is what its name says.
func TestEyes(t *testing.T) {
	all := Eyes()
	for i, e := range all {
		for _, v := range []uint8{0, 90, 255} {
			got := e.sees(species.RGB{R: v, G: v, B: v})
			if r, g, b := got.RGB255(); max(r, g, b)-min(r, g, b) > 1 || max(r, v)-min(r, v) > 1 {
				t.Errorf("eye %d sees grey %d as %v", i, v, got)
			}
		}
	}
	red, green, blue, teal := species.RGB{R: 0xB0, G: 0x50, B: 0x30}, species.RGB{R: 0x5D, G: 0x79, B: 0x2F}, species.RGB{R: 0x30, G: 0x60, B: 0xB0}, species.RGB{R: 0x20, G: 0x78, B: 0x78}
	apart := func(e Eye, a, b species.RGB) float64 { return 100 * e.sees(a).DistanceCIEDE2000(e.sees(b)) }
	for i := 1; i <= 2; i++ { // red and green fall together to the first two
		if got, most := apart(all[i], red, green), apart(all[0], red, green); got > most/2 {
			t.Errorf("eye %d: red and green are %.0f apart, and %.0f to most", i, got, most)
		}
	}
	if got, most := apart(all[3], blue, teal), apart(all[0], blue, teal); got > most/2 {
		t.Errorf("tritan: blue and teal are %.0f apart, and %.0f to most", got, most)
	}
	if got := leastDifference(red, red); got != 0 {
		t.Errorf("a colour is %.3f from itself", got)
	}
}

// Every two neighbouring timbers of the demo are told apart by every eye and in every
// profile: by colour, or a seam between them, or a texture; and by their letters always.
func TestDemoIsToldApartByEveryEye(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	pairs, seams := 0, 0
	for _, saved := range demo.Patterns {
		for _, profile := range []paint.Profile{paint.TrueColour, paint.ANSI256, paint.ANSI16, paint.None} {
			c := paint.New(120, 40, profile)
			v := View{Pattern: saved.Pattern, Timber: species.Builtin().Get, Selected: NoStrip}
			palette := &Palette{}
			l := Draw(c, c.Bounds(), v, palette)
			rows := strings.Split(ansi.Strip(c.String()), "\n")
			for i := 1; i < len(l.Strips); i++ {
				left, right := l.Strips[i-1], l.Strips[i]
				a, b := saved.Pattern.Strips[left.Strip].Species, saved.Pattern.Strips[right.Strip].Species
				if a == b {
					continue
				}
				pairs++
				name := fmt.Sprintf("%s, profile %v, strips %d and %d, %s beside %s", saved.Stem, profile, i, i+1, a, b)
				letters := func(s Span) string { return strings.TrimSpace(cut(rows[l.Letters], s.X, s.W)) }
				if letters(left) == letters(right) || letters(left) == "" {
					t.Errorf("%s: letters %q and %q", name, letters(left), letters(right))
				}
				middle := l.Wood.Y + (max(left.From, right.From)+min(left.To, right.To))/4
				if !profile.ShowsWood() {
					if x, y := cut(rows[middle], left.X+left.W/2, 1), cut(rows[middle], right.X+right.W/2, 1); x == y {
						t.Errorf("%s: both have the texture %q", name, x)
					}
					continue
				}
				one, _ := species.Builtin().Get(a)
				two, _ := species.Builtin().Get(b)
				seam := cut(rows[middle], right.X, 1) == "▏"
				if seam {
					seams++
				}
				for k, e := range Eyes() {
					shown := func(s species.Species) species.RGB { return palette.of(s, c.Palette()).base }
					if d := 100 * e.sees(shown(one)).DistanceCIEDE2000(e.sees(shown(two))); d < seamBelow && !seam {
						t.Errorf("%s: to eye %d they are %.1f apart, and no seam is between them", name, k, d)
					}
				}
			}
		}
	}
	t.Logf("%d pairs, %d of them with a seam", pairs, seams)
	if pairs < 60 {
		t.Errorf("%d pairs are no check", pairs)
	}
}

func cut(row string, x, w int) string {
	runes := []rune(row)
	return string(runes[min(x, len(runes)):min(x+w, len(runes))])
}
