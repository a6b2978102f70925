package store

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

func TestOrdersSample(t *testing.T) {
	got, err := ReadOrders(bytes.NewReader(sample(t, "orders-1.toml")), "orders.toml", Against{Known: knownForTest})
	if err != nil {
		t.Fatal(err)
	}
	tray, sill := orders.New(), orders.New()
	tray.ID, tray.Thickness, tray.Worth = "tray", 3*length.Inch/4, 27.5
	tray.Product = pattern.Product{Shape: outline.Rectangle, Length: 12 * length.Inch, Width: 200 * mm, Count: 1}
	sill.ID, sill.Thickness, sill.Worth = "sill", 38*mm, 24
	sill.Product = pattern.Product{Shape: outline.Block, Length: 320 * mm, Width: 90 * mm, Count: 1, Hole: 40 * mm, Holes: 3, HoleDepth: 18 * mm, For: pattern.ForCandles}
	same(t, got, []orders.Want{
		{ID: "cake", Product: pattern.Product{Shape: outline.Round, Diameter: 290 * mm, Count: 1, Bevel: 6 * mm, BevelSide: pattern.BevelTop},
			Thickness: 25 * mm, Least: 1, Most: 6, Worth: 38, Along: orders.Range{Least: 1, Most: 2}, Spare: 10 * mm, Look: look.Mirror,
			LeastContrast: 14.5, Timbers: orders.Range{Least: 2, Most: 4}, With: []string{"pear"}, Without: []string{"wenge", "hornbeam"},
			AtMost: []suggest.Share{{Species: "pear", Pct: 40}, {Species: "sapele", Pct: 12.5}}},
		tray, sill,
	})
	roundOrders(t, sample(t, "orders-1.toml"), true)
}

// A want that says no more than it must means the usual (pile.md, section 1).
func TestOrdersUsual(t *testing.T) {
	got, err := ReadOrders(strings.NewReader(goodOrders), "a.toml", Against{})
	if err != nil {
		t.Fatal(err)
	}
	if w := got[1]; w.Least != 0 || w.Most != 0 || w.Along != (orders.Range{Least: 1, Most: 3}) || w.Spare != 12*mm || w.Look != look.Any ||
		w.Level != pattern.TakeCare || w.LeastContrast != 12 || !w.Joints {
		t.Errorf("%+v", w)
	}
}

// goodOrders is the base of the bad files; its lines are counted by hand.
const goodOrders = `format = "oddments/orders 1"
[[want]]
id = "cake"
shape = "round"
diameter = "290 mm"
thickness = "25 mm"
worth = 38
[[want]]
id = "tray"
shape = "rectangle"
length = "300 mm"
width = "200 mm"
thickness = "18 mm"
worth = 27
`

func readBadOrders(r io.Reader) error {
	sh := shop.Default()
	stock := rack.Rack{Pieces: []rack.Piece{{ID: "A", Species: "pear", Length: 800 * mm, Width: 90 * mm, Thickness: 60 * mm, Quantity: 1}}}
	_, err := ReadOrders(r, "a.toml", Against{Known: knownForTest, Shop: &sh, Rack: &stock})
	return err
}

func TestBadOrders(t *testing.T) { checkBad(t, goodOrders, badOrders(), readBadOrders) }

func badOrders() []badFile {
	const id, first, last = `id = "cake"`, `worth = 38`, `worth = 27`
	with := func(line string) string { return first + "\n" + line }
	return []badFile{
		{"id missing", id + "\n", "", []string{"2:3 want 1 id | missing / add id ="}},
		{"id no stem", id, `id = "Cake 1"`, []string{"3:6 want 1 id | lower-case letters"}},
		{"id twice", `id = "tray"`, id, []string{"9:6 want 2 id | line 3 too"}},
		{"shape missing", "shape = \"round\"\n", "", []string{"2:3 want 1 shape | missing"}},
		{"shape of another trade", `"round"`, `"kite"`, []string{"4:9 want 1 shape | round, rectangle, block or oval"}},
		{"diameter missing", "diameter = \"290 mm\"\n", "", []string{"2:3 want 1 diameter | missing / add diameter ="}},
		{"diameter too large", `"290 mm"`, `"2.1 m"`, []string{"5:12 want 1 diameter | 0 to 2000 mm"}},
		{"length a word", `length = "300 mm"`, `length = "long"`, []string{"11:10 want 2 length | write a number"}},
		{"width below 0", `width = "200 mm"`, `width = -2`, []string{"12:9 want 2 width | not be below 0"}},
		{"a round with a length", first, with("length = 5"), []string{"8:10 want 1 length | a round has none"}},
		{"bevel too deep", first, with("bevel = 145"), []string{"8:9 want 1 bevel | less than half"}},
		{"bevel side", first, with(`bevel_side = "left"`), []string{"8:14 want 1 bevel_side | under, top or both"}},
		{"a round with a hole", first, with("hole = 5"), []string{"8:8 want 1 hole | a round has no holes"}},
		{"holes broken", first, with("holes = 1.5"), []string{"8:9 want 1 holes | whole number"}},
		{"hole depth a list", first, with("hole_depth = []"), []string{"8:14 want 1 hole_depth | is a list"}},
		{"holes for oil", first, with(`for = "oil"`), []string{"8:7 want 1 for | must be candles"}},
		{"thickness missing", "thickness = \"25 mm\"\n", "", []string{"2:3 want 1 thickness | missing"}},
		{"thicker than any piece", `thickness = "25 mm"`, `thickness = "95 mm"`, []string{"6:13 want 1 thickness | no piece on the rack is thicker than 90 mm / at most 89 mm"}},
		{"least below 0", first, with("least = -1"), []string{"8:9 want 1 least | from 0 to 1000"}},
		{"least over most", first, with("most = 2\nleast = 3"), []string{"9:9 want 1 least | is more than most, which is 2"}},
		{"most 0", first, with("most = 0"), []string{"8:8 want 1 most | from 1 to 1000"}},
		{"worth 0", first, `worth = 0`, []string{"7:9 want 1 worth | must be above 0"}},
		{"worth in one alone", first + "\n", "", []string{"2:3 want 1 worth | missing, and other wants have it / add worth"}},
		{"along backwards", first, with(`along = "3..1"`), []string{"8:9 want 1 along | like 1..3"}},
		{"along a number", first, with(`along = 2`), []string{"8:9 want 1 along | text in quotes"}},
		{"along from 0", first, with(`along = "0..1"`), []string{"8:9 want 1 along | from 1 to 50"}},
		{"along beyond 20 m", `length = "300 mm"`, "length = \"7 m\"", []string{"8:3 want 2 along | must be at most 20000 mm / at most 2 fit"}},
		{"spare too wide", first, with(`spare = "2 m"`), []string{"8:9 want 1 spare | 0 to 1000 mm"}},
		{"look unknown", first, with(`look = "stripes"`), []string{"8:8 want 1 look | must be any, mirror"}},
		{"level unknown", first, with(`level = "safe"`), []string{"8:9 want 1 level | fine, take care or too much"}},
		{"contrast too great", first, with("least_contrast = 101"), []string{"8:18 want 1 least_contrast | 0 to 100"}},
		{"timbers a word", first, with(`timbers = "few"`), []string{"8:11 want 1 timbers | like 1..3"}},
		{"too few timbers for a look", first, with("look = \"lively\"\ntimbers = \"2..3\""), []string{"9:11 want 1 timbers | look lively needs 4"}},
		{"too many timbers for a look", first, with("look = \"calm\"\ntimbers = \"3..4\""), []string{"9:11 want 1 timbers | look calm has 2"}},
		{"with an unknown timber", first, with(`with = ["pera"]`), []string{"8:9 want 1 with 1 | did you mean"}},
		{"with and without", first, with("with = [\"pear\"]\nwithout = [\"pear\"]"), []string{"8:8 want 1 with | is under without, too"}},
		{"without a text", first, with(`without = "pear"`), []string{"8:11 want 1 without | must be a list"}},
		{"at most 0 of what must be", first, with("with = [\"pear\"]\nat_most = [\"pear 0\"]"), []string{"9:11 want 1 at_most | with asks for it"}},
		{"at most twice", first, with(`at_most = ["pear 40", "pear 30"]`), []string{"8:11 want 1 at_most | say it once"}},
		{"at most over 100", first, with(`at_most = ["pear 101"]`), []string{"8:12 want 1 at_most 1 | from 0 to 100"}},
		{"at most an unknown timber", first, with(`at_most = ["pera 10"]`), []string{"8:12 want 1 at_most 1 | did you mean"}},
		{"joints a word", first, with(`joints = "yes"`), []string{"8:10 want 1 joints | true or false"}},
		{"count belongs to patterns", last, last + "\ncount = 2", []string{"15:1 want 2 count | unknown key"}},
		{"want a text", goodOrders, "format = \"oddments/orders 1\"\nwant = \"cake\"\n", []string{"2:8 want | must be a list of tables"}},
		{"a rack", "orders 1", "rack 1", []string{"1:10 format | this must be an orders file"}},
		{"newer", "orders 1", "orders 2", []string{"1:10 format | newer"}},
	}
}

// A file lists at most so many wants.
func TestTooManyOrders(t *testing.T) {
	wants := make([]orders.Want, orders.MostWants+1)
	for i := range wants {
		wants[i] = orders.New()
		wants[i].ID, wants[i].Thickness = "w-"+strings.Repeat("x", i), 20*mm
		wants[i].Product = pattern.Product{Shape: outline.Round, Diameter: 90 * mm, Count: 1}
	}
	var out bytes.Buffer
	if err := WriteOrders(&out, wants); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadOrders(&out, "a.toml", Against{}); err == nil || !strings.Contains(err.Error(), "at most 50") {
		t.Errorf("%v", err)
	}
}

// want returns one that could stand in a file.
func (d dice) want(i int, money bool) orders.Want {
	w := orders.New()
	w.ID, w.Product, w.Thickness = "w"+string(rune('a'+i)), d.product(), d.size(pattern.MaxAcross)
	w.Product.Count, w.Product.Centre = 1, pattern.Centre{}
	w.Least = d.IntN(3)
	if d.coin() {
		w.Most = w.Least + 1 + d.IntN(9)
	}
	if money {
		w.Worth = 0.01 + d.number(0, 500)
	}
	w.Along = orders.Range{Least: 1 + d.IntN(3), Most: 3 + d.IntN(9)}
	w.Spare = d.sizeOrNone(pattern.MaxStart)
	w.Look, w.Level = look.Looks()[d.IntN(7)], pattern.Levels()[d.IntN(3)]
	w.LeastContrast, w.Joints = d.number(0, 100), d.coin()
	if w.Look == look.Any && d.coin() {
		w.Timbers = orders.Range{Least: 1, Most: 2 + d.IntN(4)}
		w.With, w.Without = []string{"pear"}, []string{"hornbeam"}
		w.AtMost = []suggest.Share{{Species: "pear", Pct: d.number(1, 100)}}
	}
	return w
}

func TestRandomOrdersReadBack(t *testing.T) {
	d := newDice(7)
	for n := range 200 {
		var list []orders.Want
		for i := range 1 + n%4 {
			list = append(list, d.want(i, n%2 == 0))
		}
		var out bytes.Buffer
		if err := WriteOrders(&out, list); err != nil {
			t.Fatal(err)
		}
		got, err := ReadOrders(bytes.NewReader(out.Bytes()), "a.toml", Against{Known: knownForTest})
		if err != nil {
			t.Fatalf("%v\n%s", err, out.Bytes())
		}
		same(t, got, list)
	}
}

func roundOrders(t *testing.T, data []byte, must bool) {
	t.Helper()
	round(t, data, must, func(r io.Reader) ([]orders.Want, error) { return ReadOrders(r, "a.toml", Against{}) }, WriteOrders)
}

func FuzzOrders(f *testing.F) {
	f.Add(sample(f, "orders-1.toml"))
	f.Add([]byte(goodOrders))
	f.Fuzz(func(t *testing.T, data []byte) { roundOrders(t, data, false) })
}

// Orders are saved over what was read, and read back.
func TestSaveOrders(t *testing.T) {
	h := OpenHome(t.TempDir())
	defer h.Close()
	_, base, err := h.Orders(Against{})
	if err != nil || base != Absent {
		t.Fatalf("an empty home has orders: %v", err)
	}
	w := orders.New()
	w.ID, w.Thickness, w.Product = "cake", 20*mm, pattern.Product{Shape: outline.Round, Diameter: 90 * mm, Count: 1}
	if _, err = h.SaveOrders([]orders.Want{w}, base); err != nil {
		t.Fatal(err)
	}
	got, _, err := h.Orders(Against{Known: knownForTest})
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, []orders.Want{w})
}
