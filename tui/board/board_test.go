package board

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/second/secondtest"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
)

const mm = length.Millimetre

// chequer is one of 25 mm squares, so many strips by so many bars.
func chequer(strips, bars int) View {
	p := pattern.Pattern{Panel: pattern.Panel{Length: length.Length(bars) * 45 * mm, Thickness: 25 * mm}}
	for i := range strips {
		p.Strips = append(p.Strips, pattern.Strip{Species: []string{"hard_maple", "black_walnut"}[i%2], Width: 25 * mm})
	}
	p.Seconds = []pattern.Second{{Bar: 41 * mm, Bars: bars, Turned: []bool{false, true}}}
	g, _ := second.Last(second.Of(p, secondtest.Takes()))
	return View{Pattern: p, Up: g, Timber: species.Builtin().Get, Selected: -1}
}

// rows draws a view in so many cells and returns its rows as letters.
func rows(v View, w, h int) []string {
	c := paint.New(w, h, paint.None)
	Draw(c, c.Bounds(), v, &panel.Palette{})
	return letters(c)
}

var looks = regexp.MustCompile("\x1b\\[[0-9;]*m")

func letters(c *paint.Canvas) []string {
	return strings.Split(strings.TrimRight(looks.ReplaceAllString(c.String(), ""), "\n"), "\n")
}

// A chequer of 12 by 16 cells is readable in the room that the bench has at 80x24: next to
// every cell of one timber lies one of the other, across and along, without colours.
func TestChequerIsReadable(t *testing.T) {
	got := rows(chequer(12, 16), 80, 16)
	if !strings.Contains(got[0], "board 400 x 300 x 38 mm, 16 bars, end grain up") {
		t.Errorf("%q", got[0])
	}
	if !strings.Contains(got[15], "1 2 3  4 5 6") {
		t.Errorf("the bars are not numbered: %q", got[15])
	}
	changes := func(s string) (n int) {
		for i := 1; i < len(s); i++ {
			if s[i] != s[i-1] {
				n++
			}
		}
		return n
	}
	column := ""
	for _, row := range got[1:15] {
		wood := strings.TrimSpace(row)
		if n := changes(wood); n != 15 {
			t.Errorf("%d changes in %q, want one a bar line", n, wood)
		}
		column += wood[:1]
	}
	if n := changes(column); n != 11 {
		t.Errorf("%d changes across in %q", n, column)
	}
}

// In colour every half of a cell is that of its timber, and the chosen strip's cells have
// its number, one in each bar.
func TestColoursAndTheChosenStrip(t *testing.T) {
	v := chequer(4, 5)
	v.Selected = 1
	v.Marks = map[int]panel.Mark{2: {Rune: '!', Role: paint.RoleCare}}
	c := paint.New(60, 20, paint.TrueColour)
	Draw(c, c.Bounds(), v, &panel.Palette{})
	text := c.String()
	// Every half is a shade of one of the two, and there are as many of either but for roundings.
	count, timbers := map[string]int{}, species.Builtin()
	for _, m := range regexp.MustCompile(`8;2;(\d+);(\d+);(\d+)`).FindAllStringSubmatch(text, -1) {
		var rgb [3]uint8
		for i := range rgb {
			n, _ := strconv.Atoi(m[i+1])
			rgb[i] = uint8(n)
		}
		shown, of := species.RGB{R: rgb[0], G: rgb[1], B: rgb[2]}, ""
		for _, key := range []string{"hard_maple", "black_walnut"} {
			if s, _ := timbers.Get(key); species.Contrast(shown, s.ColourOiled) < 10 {
				of = key
			}
		}
		if shown != (species.RGB{}) && shown != (species.RGB{R: 255, G: 255, B: 255}) { // numbers
			count[of]++
		}
	}
	if count[""] > 0 || min(count["hard_maple"], count["black_walnut"]) < 20 {
		t.Errorf("%v", count)
	}
	plain := rows(v, 60, 20)
	if n := strings.Count(strings.Join(plain[1:19], ""), "2"); n != 5 {
		t.Errorf("the chosen strip is numbered in %d bars of 5:\n%s", n, strings.Join(plain, "\n"))
	}
	if !strings.Contains(plain[19], "!") {
		t.Errorf("the line to care about is not marked: %q", plain[19])
	}
}

// Nothing is drawn outside of its rectangle, whatever the room and the board.
func TestKeepsToItsRoom(t *testing.T) {
	cases, _, err := secondtest.Stored()
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range cases {
		p, err := secondtest.Read(one.TOML)
		if err != nil {
			t.Fatal(err)
		}
		g, _ := second.Last(second.Of(p, secondtest.Takes()))
		for _, size := range [][2]int{{1, 1}, {2, 2}, {20, 5}, {60, 18}, {200, 60}, {0, 0}} {
			c := paint.New(size[0]+2, size[1]+2, paint.None)
			Draw(c, paint.Rect{X: 1, Y: 1, W: size[0], H: size[1]}, View{Pattern: p, Up: g, Timber: species.Builtin().Get, Selected: 0}, &panel.Palette{})
			for y, row := range letters(c) {
				cells := []rune(row)
				for x, r := range cells {
					if r != ' ' && (x < 1 || y < 1 || x > size[0] || y > size[1]) {
						t.Fatalf("%s in %v: %q at %d, %d", one.Name, size, r, x, y)
					}
				}
			}
		}
	}
}

func TestNothingToSee(t *testing.T) {
	v := chequer(4, 5)
	v.Up.Cells, v.Up.Unlaid = nil, true
	if got := rows(v, 60, 10); !strings.Contains(got[0], "more than 20000 cells") {
		t.Errorf("%q", got[0])
	}
	v.Up = second.GlueUp{}
	if got := rows(v, 60, 10); !strings.Contains(got[0], "no board comes out") {
		t.Errorf("%q", got[0])
	}
	v = chequer(4, 5)
	v.Up.EndGrain = false
	if got := rows(v, 60, 10); !strings.Contains(got[0], "long grain") {
		t.Errorf("%q", got[0])
	}
}

// Budget: a board of 60 strips and 40 bars is drawn in 200x60 within 4 ms, the frame's.
func BenchmarkDraw60x40(b *testing.B) {
	v := chequer(60, 40)
	c, palette := paint.New(200, 60, paint.TrueColour), &panel.Palette{}
	for b.Loop() {
		c.Reset(200, 60)
		Draw(c, c.Bounds(), v, palette)
	}
}

// A board that is larger standing stands: its datum end at the bottom, so that bar 1 is the
// lowest, and edge A at the left. A place of the screen is the cell that is drawn there.
func TestStands(t *testing.T) {
	v := chequer(16, 6)
	v.Marks = map[int]panel.Mark{2: {Rune: '!', Role: paint.RoleCare}}
	r := paint.Rect{X: 2, Y: 1, W: 78, H: 16}
	if !Stands(v, r) || Stands(chequer(6, 16), r) {
		t.Fatal("a board of 150 x 400 is larger standing, one of 400 x 150 lying")
	}
	for _, selected := range []int{0, 5, 15} {
		v.Selected = selected
		c := paint.New(80, 18, paint.None)
		Draw(c, r, v, &panel.Palette{})
		drawn, seen := letters(c), 0
		for y, row := range drawn {
			for x, char := range []rune(row) {
				cell, ok := At(v, r, x, y)
				if !ok {
					continue
				}
				if char >= '0' && char <= '9' {
					if v.Up.Cells[cell].Strip != selected+1 {
						t.Errorf("%q at %d, %d is strip %d", char, x, y, v.Up.Cells[cell].Strip)
					}
					seen++
				}
			}
		}
		if seen < 6 {
			t.Errorf("strip %d is numbered %d times:\n%s", selected+1, seen, strings.Join(drawn, "\n"))
		}
		first, last, marked := -1, -1, -1
		for y, row := range drawn {
			switch fields := strings.Fields(row); {
			case len(fields) > 0 && fields[0] == "6":
				last = y
			case len(fields) > 0 && fields[0] == "1":
				first = y
			}
			if strings.Contains(row, "!") {
				marked = y
			}
		}
		if !(last >= 0 && last < marked && marked < first) {
			t.Errorf("bar 6 in row %d, the mark in %d, bar 1 in %d:\n%s", last, marked, first, strings.Join(drawn, "\n"))
		}
	}
	if _, ok := At(v, r, 2, 3); ok {
		t.Error("beside the board there is a cell")
	}
}
