package tui

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/paint"
	startup "example.com/oddments/tui/setup"
)

// at is the bench of a home with a workshop, a rack and one pattern of it.
func at(t *testing.T, sh shop.Shop, r rack.Rack, p pattern.Pattern) *hand {
	t.Helper()
	setup := owned(t)
	home := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = home.Close() })
	for _, err := range []error{
		second(home.SaveShop(sh, store.Absent)), second(home.SaveRack(r, store.Absent)), second(home.SavePattern("tray", p, store.Absent)),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	now := setup.Now
	setup, err := startup.Load(Options{Home: home, Pattern: "tray", Profile: paint.None})
	if err != nil {
		t.Fatal(err)
	}
	setup.Now = now
	return start(t, setup, 100, 40)
}

func second[T any](_ T, err error) error { return err }

// Booking lays the strips that slices are filled with on the rack, as the command does, and one
// undo takes all back.
func TestBookingFills(t *testing.T) {
	const mm = length.Millimetre
	sh := shop.Default()
	sh.Keep.Width = 60 * mm
	p := pattern.Pattern{Name: "Tray", Panel: pattern.Panel{Length: 300 * mm, Thickness: 20 * mm}}
	for range 3 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "pear", Width: 30 * mm})
	}
	d := at(t, sh, rack.Rack{Pieces: []rack.Piece{{ID: "PE1", Species: "pear", Length: 360 * mm, Width: 136 * mm, Thickness: 27 * mm, Quantity: 1}}}, p)
	before := saved(t, d, "rack.toml")
	d.keys("4 f").shows("1 strip for the rack, uses up", "[x] length 1, slice 1: 1 of 30 mm").keys("s").shows("then 1 more of 30 mm for the rack, same fence")
	d.keys("esc d").shows("booked")
	for _, want := range []string{"[[strip]]", `width = "30 mm"`, `thickness = "21 mm"`, `length = "305 mm"`} {
		if text := saved(t, d, "rack.toml"); !strings.Contains(text, want) {
			t.Errorf("the rack has no %s:\n%s", want, text)
		}
	}
	if d.keys("u").shows("undone: booking"); saved(t, d, "rack.toml") != before {
		t.Error("one undo does not take the strips back")
	}
}

// A plan of strips in pieces is booked, taken over by the pattern or not, and undone.
func TestBookingJoints(t *testing.T) {
	const mm = length.Millimetre
	p := pattern.Pattern{Name: "Tray", Panel: pattern.Panel{Length: 620 * mm, Thickness: 20 * mm}}
	for i := range 6 {
		p.Strips = append(p.Strips, pattern.Strip{Species: []string{"pear", "hornbeam"}[i%2], Width: 52 * mm})
	}
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2}}
	all := rack.Rack{Pieces: []rack.Piece{
		{ID: "PE1", Species: "pear", Length: 420 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 12},
		{ID: "HB1", Species: "hornbeam", Length: 700 * mm, Width: 70 * mm, Thickness: 30 * mm, Quantity: 3}}}
	for _, adopt := range []bool{false, true} {
		d := at(t, shop.Default(), all, p)
		before := [2]string{saved(t, d, "rack.toml"), saved(t, d, "patterns/tray.toml")}
		d.keys("4").shows("missing: ").keys("j").shows("6 of 6 strips", "joints ")
		if adopt {
			d.keys("J").shows("in new pieces").keys("enter").shows("6 of 6 strips").keys("S").shows("saved")
			before[1] = saved(t, d, "patterns/tray.toml")
		}
		d.keys("d").shows("booked")
		if text := saved(t, d, "patterns/tray.toml"); !strings.Contains(text, "[[made]]") || strings.Contains(text, "joints = ") != adopt {
			t.Errorf("taken over %t: the pattern is\n%s", adopt, text)
		}
		if saved(t, d, "rack.toml") == before[0] {
			t.Errorf("taken over %t: the rack is as before", adopt)
		}
		d.keys("u").shows("undone: booking")
		if now := [2]string{saved(t, d, "rack.toml"), saved(t, d, "patterns/tray.toml")}; now != before {
			t.Errorf("taken over %t: one undo does not bring both files back", adopt)
		}
	}
}
