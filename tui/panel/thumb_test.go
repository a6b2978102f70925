package panel

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// thumbOf returns a panel so long of strips so wide, in mm.
func thumbOf(long int, widths ...int) View {
	v := View{Timber: species.Builtin().Get, Selected: NoStrip}
	v.Pattern.Panel = pattern.Panel{Length: length.Length(long) * length.Millimetre, Thickness: 20 * length.Millimetre}
	for i, w := range widths {
		v.Pattern.Strips = append(v.Pattern.Strips, pattern.Strip{Species: []string{"hard_maple", "black_walnut"}[i%2], Width: length.Length(w) * length.Millimetre})
	}
	return v
}

// A square panel is twice as many columns as rows, and its strips as wide as they are to one
// another, to half a column.
func TestThumbIsToScale(t *testing.T) {
	for _, profile := range paint.Profiles() {
		c := paint.New(60, 20, profile)
		spans := Thumb(c, paint.Rect{X: 3, Y: 2, W: 40, H: 10}, thumbOf(120, 20, 40, 10, 50), &Palette{})
		if len(spans) != 4 || spans[3].X+spans[3].W != 40 || spans[0].To != 10 {
			t.Fatalf("%v: %+v", profile, spans)
		}
		for i, want := range []float64{20, 40, 10, 50} { // 120 mm are 20 columns, 3 mm a half column
			if got := float64(spans[i].W) * 3; got < want-4 || got > want+4 {
				t.Errorf("%v: strip %d is %v mm wide, want %v", profile, i+1, got, want)
			}
		}
	}
}

// A long panel is seen larger lying, and a wide one standing; no strip is lost where each can
// have half a cell.
func TestThumbLies(t *testing.T) {
	r := paint.Rect{W: 40, H: 10}
	if !ThumbLies(thumbOf(900, 100, 100), r) || ThumbLies(thumbOf(200, 300, 300), r) {
		t.Error("a panel lies where it is the smaller for it, or the other way about")
	}
	narrow := thumbOf(900, 100, 2, 100, 2, 100, 2, 100)
	narrow.Lies = true
	for _, profile := range paint.Profiles() {
		for _, s := range Thumb(paint.New(40, 10, profile), r, narrow, &Palette{}) {
			if s.W == 0 {
				t.Errorf("%v: strip %d is not to be seen", profile, s.Strip+1)
			}
		}
	}
	narrow.Whole, narrow.Lies = true, false
	if s := Thumb(paint.New(40, 10, paint.Profiles()[0]), paint.Rect{W: 30, H: 1}, narrow, &Palette{}); s[6].X+s[6].W != 60 {
		t.Errorf("the whole width is not taken: %+v", s)
	}
}
