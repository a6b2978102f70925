package panel

import (
	"math"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/exp/golden"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

const millimetre = length.Millimetre

// lyingPair is a panel of 600 by 200 in four strips, the last from 100 to 500, with a
// round of 180 and a block of 120 by 100 with two holes.
func lyingPair() View {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 600 * millimetre, Thickness: 20 * millimetre}}
	for _, key := range []string{"hornbeam", "black_walnut", "hornbeam", "pear"} {
		p.Strips = append(p.Strips, pattern.Strip{Species: key, Width: 50 * millimetre})
	}
	p.Strips[3].Start, p.Strips[3].Length = 100*millimetre, 400*millimetre
	p.Avoids = []pattern.Avoid{{Along: 540 * millimetre, Across: 30 * millimetre, Radius: 12 * millimetre}}
	of := outline.ShapeOf
	return View{Lies: true, Exact: true, Selected: NoStrip, Pattern: p, Timber: species.Builtin().Get, Unit: length.InMM, Cuts: []CutOut{
		{Shape: of(pattern.Product{Shape: outline.Round, Diameter: 180 * millimetre}), From: 100 * millimetre, Side: 10 * millimetre, Label: "1", Chosen: true},
		{Shape: of(pattern.Product{Shape: outline.Block, Length: 120 * millimetre, Width: 100 * millimetre}), From: 300 * millimetre, Side: 50 * millimetre, Label: "2",
			Hole: 40 * millimetre, Holes: []length.Length{30 * millimetre, 90 * millimetre}},
	}}
}

func lyingRows(v View, w, h int, p paint.Profile) (Layout, []string) {
	c := paint.New(w, h, p)
	l := Draw(c, c.Bounds(), v, &Palette{})
	return l, strings.Split(ansi.Strip(c.String()), "\n")
}

// In letters a strip has its texture as far as it reaches, rounds stand between round
// brackets and blocks between square ones, holes and knots are marked.
func TestLyingInLetters(t *testing.T) {
	// 60 columns of 10 mm and 8 rows of 25 mm: 600 and 200.
	l, rows := lyingRows(lyingPair(), 68, 10, paint.None)
	if l.Wood != (paint.Rect{X: 7, W: 60, H: 8}) {
		t.Fatalf("wood at %+v, want 60 by 8", l.Wood)
	}
	for y, want := range map[int][]string{
		0: {" 1 HB│"},
		1: {"xX"},
		3: {"[", "]", "o"},
		4: {">1<"},
		7: {"          ", "("}, // strip 4 starts at 100, ten columns in
		8: {"┼─"},
		9: {"mm  0", "600"},
	} {
		for _, text := range want {
			if !strings.Contains(rows[y], text) {
				t.Errorf("row %d lacks %q: %q", y, text, rows[y])
			}
		}
	}
	middle := []rune(rows[3])
	if middle[7+10] != '(' || middle[7+27] != ')' || middle[7+30] != '[' || middle[7+41] != ']' {
		t.Errorf("the round of 100 to 280 and the block of 300 to 420 stand otherwise: %q", rows[3])
	}
	last := []rune(rows[7])
	if last[7+9] != ' ' || last[7+10] == ' ' || last[7+49] == ' ' || last[7+50] != ' ' {
		t.Errorf("strip 4 does not run from 100 to 500: %q", rows[7])
	}
}

// An oval lies between round brackets and covers its area, however it lies.
func TestLyingOval(t *testing.T) {
	for _, size := range [][2]length.Length{{240, 160}, {140, 190}} {
		v := lyingPair()
		v.Cuts = v.Cuts[:1]
		v.Cuts[0].Shape = outline.ShapeOf(pattern.Product{Shape: outline.Oval, Length: size[0] * millimetre, Width: size[1] * millimetre})
		v.Cuts[0].Side = 0
		c := paint.New(68, 10, paint.None)
		d := drawing{c: c, v: v, l: Lay(v, c.Bounds()), palette: &Palette{}}
		d.cover()
		covered := 0
		for _, n := range d.within {
			covered += int(n)
		}
		// Half cells of 10 x 12.5 mm.
		if want := math.Pi / 4 * float64(size[0]*size[1]) / 125; math.Abs(float64(covered)-want) > 0.06*want {
			t.Errorf("%v: %d half cells, want about %.0f", size, covered, want)
		}
		_, rows := lyingRows(v, 68, 10, paint.None)
		row := []rune(rows[int(size[1]/50)])
		if row[7+10] != '(' || row[7+10+int(size[0]/10)-1] != ')' {
			t.Errorf("%v stands otherwise: %q", size, string(row))
		}
	}
}

// In colour what is cut out has the timber's own shades, the waste is faded, and
// nothing is painted beyond a strip's end.
func TestLyingInColour(t *testing.T) {
	v := lyingPair()
	c := paint.New(68, 10, paint.TrueColour)
	d := drawing{c: c, v: v, l: Lay(v, c.Bounds()), palette: &Palette{}}
	d.cover()
	covered := map[int32]int{}
	for _, n := range d.within {
		covered[n]++
	}
	// Half cells of 10 x 12.5 mm: pi 90 squared is 204 of them, 120 x 100 is 96.
	if n := covered[1]; n < 194 || n > 214 {
		t.Errorf("the round covers %d half cells, want about 204", n)
	}
	if covered[2] != 96 {
		t.Errorf("the block covers %d half cells, want 96", covered[2])
	}
	timber, _ := species.Builtin().Get("black_walnut")
	own := (&Palette{}).of(timber, c.Palette())
	waste := faded(timber.ColourOiled, c.Palette())
	for _, shade := range own.shades {
		if shade == waste {
			t.Error("waste looks like what is kept")
		}
	}
	plain := v
	plain.Cuts = nil
	_, with := lyingRows(v, 68, 10, paint.TrueColour)
	if _, without := lyingRows(plain, 68, 10, paint.TrueColour); len(with) != len(without) {
		t.Error("another number of rows without products")
	}
}

// The scales along and across stay within mostLean of each other, the picture in its
// rectangle, and a cell is found again from its point.
func TestLyingLayout(t *testing.T) {
	v := lyingPair()
	for w := 10; w < 220; w += 7 {
		for h := 3; h < 60; h += 4 {
			r := paint.Rect{X: 3, Y: 2, W: w, H: h}
			l := Lay(v, r)
			if l.Wood.Intersect(r) != l.Wood {
				t.Fatalf("%dx%d: the wood is at %+v", w, h, l.Wood)
			}
			if lean := l.across / l.along; lean > mostLean+1e-9 || lean < 1/mostLean-1e-9 {
				t.Fatalf("%dx%d: a column is %.2f of a half row", w, h, lean)
			}
			if float64(l.Wood.W)/l.along < l.lengthMM-1e-6 && l.Wood.W < r.W-lyingMargin-1 {
				t.Fatalf("%dx%d: the far end is cut off", w, h)
			}
			x, y := l.Wood.X+l.Wood.W/2, l.Wood.Y+l.Wood.H/2
			p, ok := l.At(x, y)
			if gx, gy := l.Cell(p); !ok || gx != x || gy != y {
				t.Fatalf("%dx%d: cell %d, %d is found again at %d, %d", w, h, x, y, gx, gy)
			}
		}
	}
	if _, ok := Lay(v, paint.Rect{W: 60, H: 10}).At(0, 0); ok {
		t.Error("a point beside the wood")
	}
}

// The cursor is seen wherever it is, and on a knot both are.
func TestLyingCursor(t *testing.T) {
	v := lyingPair()
	v.Cursor = &Point{Along: 5000 * millimetre, Across: 5000 * millimetre}
	l, rows := lyingRows(v, 68, 10, paint.None)
	if got := []rune(rows[l.Wood.Bottom()-1])[l.Wood.Right()-1]; got != '+' {
		t.Errorf("beyond the panel the cursor is %c", got)
	}
	v.Cursor = &Point{Along: 540 * millimetre, Across: 30 * millimetre}
	if l, rows = lyingRows(v, 68, 10, paint.None); rows == nil {
		t.Errorf("%+v", l)
	}
	x, y := l.Cell(*v.Cursor)
	if got := []rune(rows[y])[x]; got != 'X' {
		t.Errorf("on a knot the cursor is %c", got)
	}
}

// On the bench each strip that lies has a row of its own with its number, letters and rings,
// the marks stand where the strip behind their line begins, and the chosen one is told.
func TestGoldenLying(t *testing.T) {
	v := hearthTrivet()
	v.Lies = true
	golden.RequireEqual(t, []byte(bare(frame(v, 80, 17, paint.None))))
}

func TestGoldenLyingWood(t *testing.T) {
	v := hearthTrivet()
	v.Lies = true
	golden.RequireEqual(t, []byte(frame(v, 60, 16, paint.TrueColour)))
}

// Where there are not rows for all, the chosen strip is in view, and what is not is counted.
func TestLyingScrolls(t *testing.T) {
	v := many(200)
	v.Lies, v.Selected = true, 120
	golden.RequireEqual(t, []byte(bare(frame(v, 72, 12, paint.ANSI16))))
	for selected := 0; selected < 200; selected += 7 {
		v.Selected = selected
		l := Lay(v, paint.Rect{X: 2, Y: 3, W: 80, H: 20})
		if selected < l.Before || selected >= 200-l.After {
			t.Fatalf("strip %d is out of view: %d to %d", selected, l.Before, 200-l.After)
		}
		for _, s := range l.Strips {
			for y := s.X / 2; y < (s.X+s.W)/2; y++ {
				if got, ok := l.StripAt(40, y); !ok || got != s.Strip {
					t.Fatalf("row %d is of strip %d, not of %d", y, got, s.Strip)
				}
			}
		}
	}
}

// The better way is that with more strips in view, then that with truer proportions. By hand,
// in 80x20: 10 strips of 20 mm, 800 long, stand in 70 columns, 7 a strip, and 28 half rows, 10
// times out; they lie in 67 columns and, as 1.4 is allowed, 24 half rows, 1.43 times out. Of
// 30 strips 17 find room standing and 15 lying. 10 strips of 100 mm, 100 long, stand in 73
// columns and 7.3 half rows, as they are; lying they are stretched by all that is allowed.
func TestLies(t *testing.T) {
	board := func(n int, width, long length.Length) View {
		v := View{Timber: timberOf(), Selected: NoStrip}
		v.Pattern.Panel.Length = long * millimetre
		for range n {
			v.Pattern.Strips = append(v.Pattern.Strips, pattern.Strip{Species: "sapele", Width: width * millimetre})
		}
		return v
	}
	r := paint.Rect{W: 80, H: 20}
	for _, c := range []struct {
		name          string
		v             View
		lies          bool
		inView        [2]int // standing, lying
		standing, lay float64
	}{
		{"a long board", board(10, 20, 800), true, [2]int{10, 10}, 10, 1.43},
		{"many strips", board(30, 7, 800), false, [2]int{17, 15}, 16.33, 4.5},
		{"a wide one", board(10, 100, 100), false, [2]int{10, 10}, 1, 1.4},
	} {
		v := c.v
		stands := Lay(v, r)
		v.Lies = true
		lies := Lay(v, r)
		if got := [2]int{len(stands.Strips), len(lies.Strips)}; got != c.inView {
			t.Errorf("%s: %v in view, want %v", c.name, got, c.inView)
		}
		if math.Abs(stands.squash()-c.standing) > 0.01 || math.Abs(lies.squash()-c.lay) > 0.01 {
			t.Errorf("%s: standing %.3f times out, lying %.3f, want %.2f and %.2f", c.name, stands.squash(), lies.squash(), c.standing, c.lay)
		}
		if got := Lies(c.v, r); got != c.lies {
			t.Errorf("%s lies: %v", c.name, got)
		}
	}
	if Lies(board(0, 0, 100), r) {
		t.Error("no strips lie")
	}
}

// Budget: a lying panel of 60 strips with 40 rounds at 200x60 within 2 ms.
func BenchmarkLying(b *testing.B) {
	v := lyingPair()
	for i := range 56 {
		v.Pattern.Strips = append(v.Pattern.Strips, v.Pattern.Strips[i%3])
	}
	for i := range 40 {
		cut := v.Cuts[0]
		cut.From, cut.Side = length.Length(i%8)*70*millimetre, length.Length(i/8)*200*millimetre
		v.Cuts = append(v.Cuts, cut)
	}
	c, palette := paint.New(200, 60, paint.TrueColour), &Palette{}
	for b.Loop() {
		c.Reset(200, 60)
		Draw(c, c.Bounds(), v, palette)
	}
}
