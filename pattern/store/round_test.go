package store

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/moisture"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
)

const mm = length.Millimetre

const samples = "../../testdata/formats"

func sample(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(samples, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func angle(t *testing.T, degrees float64) pattern.Rings {
	t.Helper()
	r, err := pattern.RingsAt(degrees)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func same(t *testing.T, got, want any) {
	t.Helper()
	if diff := cmp.Diff(want, got, cmp.Comparer(func(a, b pattern.Rings) bool { return a == b })); diff != "" {
		t.Errorf("not as wanted (-want +got):\n%s", diff)
	}
}

// TestPatternSample reads the sample of the first format for ever.
func TestPatternSample(t *testing.T) {
	got, err := ReadPattern(bytes.NewReader(sample(t, "pattern-1.toml")), "fieldfare.toml", species.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	first := pattern.Strip{
		Species: "hornbeam", Width: 28_575 * length.Micrometre, Rings: pattern.RingsFlat(), Moisture: pattern.Read(8.5),
		Length: 305 * mm, Start: 35 * mm, Joints: pattern.JointsOf(pattern.Joint{From: 120 * mm, To: 131_500 * length.Micrometre}, pattern.Joint{From: 200 * mm, To: 200 * mm}),
		Turned: true, Over: true, Pinned: true, Colour: colour.OwnOf(species.RGB{R: 0xD8, G: 0xCB, B: 0xB0}),
	}
	last := pattern.Strip{Species: "european_elm", Width: 18 * mm, Rings: pattern.RingsQuarter(), Bark: pattern.Bark{Right: 1}}
	same(t, got, pattern.Pattern{
		Name: "Fieldfare tray", Notes: `A note with "quotes", a \ and é.`,
		Panel: pattern.Panel{
			Length: 412_500 * length.Micrometre, Thickness: 22_225 * length.Micrometre, Width: 260 * mm, Make: pattern.MakeEdge,
			Moisture: pattern.Read(8), Flattened: pattern.Read(8.25),
		},
		Strips: []pattern.Strip{
			first, first, first,
			{Species: "pear", Width: 21_500 * length.Micrometre, Rings: angle(t, 30), Bark: pattern.Bark{Right: -1, Up: 1}, Heart: 90 * mm},
			{Species: "hornbeam", Width: 400 * mm},
			{Species: "european_elm", Width: 18 * mm, Rings: pattern.RingsRift()},
			last, last,
		},
		Products: []pattern.Product{
			{Shape: outline.Round, Diameter: 241_300 * length.Micrometre, Count: 2, Centre: pattern.Centre{Joint: 3},
				Bevel: 8 * mm, BevelSide: pattern.BevelBoth},
			{Shape: outline.Rectangle, Length: 200 * mm, Width: 120_500 * length.Micrometre, Count: 1},
			{Shape: outline.Oval, Length: 220 * mm, Width: 340 * mm, Count: 3},
			{Shape: outline.Block, Length: 410 * mm, Width: 95 * mm, Centre: pattern.Centre{Strip: 12},
				Bevel: 4_762_500, BevelSide: pattern.BevelTop, Hole: 40 * mm, Holes: 3, HoleDepth: 18 * mm, For: pattern.ForCandles},
		},
		Avoids: []pattern.Avoid{{Along: 210 * mm, Across: 96 * mm, Radius: 8 * mm}, {}},
		Made: []pattern.Made{
			{Date: pattern.Date{Year: 2025, Month: 11, Day: 2}, Copies: 4, Width: 259_500 * length.Micrometre,
				Thickness: 21_600 * length.Micrometre, Minutes: 310, Note: "two went as presents"},
			{Date: pattern.Date{Year: 2024, Month: 2, Day: 29}, Copies: 1},
		},
	})
	roundPattern(t, sample(t, "pattern-1.toml"), true)
}

func TestRackSample(t *testing.T) {
	got, err := ReadRack(bytes.NewReader(sample(t, "rack-1.toml")), "rack.toml", species.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, rack.Rack{
		Pieces: []rack.Piece{
			{ID: "HB 3", Species: "hornbeam", Length: 620 * mm, Width: 85 * mm, Thickness: 77 * mm, Quantity: 2, Planed: true,
				Rings: pattern.RingsFlat(), Bark: pattern.Bark{Up: -1}, Heart: 88_900 * length.Micrometre, Moisture: pattern.Read(9.1), UseFirst: true, Note: "from the hedge",
				Colour: colour.OwnOf(species.RGB{R: 0xD8, G: 0xCB, B: 0xB0}), From: "photo 2026-11-14, paper, daylight, about 4.6",
				Faults: []rack.Fault{{To: 40 * mm}, {From: 300 * mm, To: 330 * mm}, {Along: true, From: 30 * mm, To: 45 * mm},
					{From: 38_100 * length.Micrometre, To: 50_800 * length.Micrometre}}},
			{ID: "Ä1", Species: "pear", Length: 1200 * mm, Width: 101_600 * length.Micrometre,
				Thickness: length.Inch + 3*length.Inch/64, Quantity: 1, Rings: angle(t, 12.5)},
		},
		Strips: []rack.Strip{
			{ID: "H-25", Species: "hornbeam", Width: 25 * mm, Thickness: 24 * mm, Length: 470 * mm, Quantity: 14,
				Rings: pattern.RingsQuarter(), Bark: pattern.Bark{Right: -1}, Moisture: pattern.Read(8), UseFirst: true,
				Colour: colour.OwnOf(species.RGB{R: 0xCF, G: 0xC0, B: 0xA4}), From: "set by hand"},
			{ID: "P-9", Species: "pear", Width: 9 * mm, Thickness: 24 * mm, Length: 400 * mm, Quantity: 1},
		},
	})
	roundRack(t, sample(t, "rack-1.toml"), true)
}

func TestShopSample(t *testing.T) {
	got, err := ReadShop(bytes.NewReader(sample(t, "shop-1.toml")), "shop.toml")
	if err != nil {
		t.Fatal(err)
	}
	const um = length.Micrometre
	same(t, got, shop.Shop{
		Units: length.InInches,
		Kerf:  shop.Kerf{Rip: 3100 * um, Crosscut: 3175 * um, Resaw: 1 * mm},
		Allowance: shop.Allowance{Truing: 2500 * um, Cleaning: 900 * um, Planing: 1500 * um, Jointing: 1250 * um, Flattening: 1750 * um,
			Length: 22 * mm, EndTrim: 12 * mm, Second: 3500 * um, OverLength: 45 * mm},
		Keep:     shop.Keep{Length: 260 * mm, Width: 22 * mm, Thickness: 13 * mm},
		Standing: shop.Standing{20 * mm, 25 * mm, 31_750 * length.Micrometre},
		Draw:     shop.Draw{UseFirstPct: 55, ReturnedPct: 65.5, TailsPct: 92.5, OpenedCM3: 25, JointCM3: 15},
		Air:      moisture.Air{TemperatureC: 16.5, HumidityPct: 48}, Dry: moisture.Air{TemperatureC: 21, HumidityPct: 33},
		Humid: moisture.Air{TemperatureC: 22, HumidityPct: 67},
		Limits: shop.Limits{StepUM: shop.Limit{Care: 25, Much: 70}, StrainPct: shop.Limit{Care: 0.25, Much: 0.75},
			MoisturePct: shop.Limit{Care: 0.8, Much: 1.8}, RowPct: shop.Limit{Care: 0.08, Much: 0.15}, Contrast: 5},
		Machine: shop.Machine{ThicknesserWidth: 254 * mm, ThicknesserLength: 280 * mm, SurfacerLength: 320 * mm, BandsawHeight: 165 * mm},
		Cut:     shop.Cut{EndMargin: 6 * mm, SideMargin: 3 * mm, Gap: 15_875 * um, Cutter: 12_700 * um, Bush: 24 * mm, Pass: 4 * mm, Base: 500 * um, Stop: 5 * mm, Shortest: 120 * mm},
		Glue: shop.Glue{SpreadGM2: 170, WastePct: 12.5, SizePct: 80, OpenMinutes: 20, SecondsJoint: 35, ClampReach: 70 * mm,
			ClampForceN: 2500, PressureMPa: 1.1, LeastC: 10, Class: 2, WaitDays: 2, Clamps: 14, Handling: 25, EveningHours: 2.5},
		Finish: shop.Finish{OilMlM2: 55, Coats: 2, WaxToOil: shop.Ratio{Wax: 1, Oil: 3.5}, OilDensity: 0.92, EndGrain: 2.5, RackLength: 900 * mm, RackWidth: 350 * mm},
		Price:  shop.Price{RateHour: 24.5, MaterialsDM3: 6, FixedEach: 1.75, Stall: 65, FeePercent: 3},
		Maker: shop.Maker{Name: "Ida Quill", Address: "3 Gorse Yard, Saltings", Electronic: "ida@example.com",
			Glue: "cross-linking PVA, EN 204 D3", Finish: "oil and wax"},
	})
	roundShop(t, sample(t, "shop-1.toml"), true)
}

func TestEmptyShopIsTheDefault(t *testing.T) {
	got, err := ReadShop(strings.NewReader(goodShop), "shop.toml")
	if err != nil || got != shop.Default() {
		t.Errorf("got %v, %v", got, err)
	}
}

func TestSpeciesSample(t *testing.T) {
	list, err := ReadSpecies(bytes.NewReader(sample(t, "species-1.toml")), "species.toml")
	if err != nil {
		t.Fatal(err)
	}
	holly := list[0]
	if len(holly.Sources) != len(species.ValueNames()) {
		t.Errorf("%d values are sourced, the sample gives all %d", len(holly.Sources), len(species.ValueNames()))
	}
	own := species.Source{Text: "your own value", Status: species.Yours}
	for name, want := range map[string]species.Source{
		"cr":            {Text: "measured on three samples, winter 2024", Status: species.Yours},
		"ct":            {Text: "measured on three samples, winter 2024", Status: species.Yours},
		"density_kg_m3": {Text: "weighed", Status: species.Derived},
		"colour":        {Status: species.Memory},
		"janka_n":       own, "name": own, "oily": own,
	} {
		if holly.Sources[name] != want {
			t.Errorf("source of %s is %+v, want %+v", name, holly.Sources[name], want)
		}
	}
	holly.Sources = nil
	same(t, holly, species.Species{
		Key: "hedge_holly", Name: "hedge holly", Also: []string{"white hedge", "prickle"}, Botanical: "Ilex aquifolium", Letters: "ZH",
		CR: 0.0021, CT: 0.0043, FSPPct: 29, DensityKgM3: 780, JankaN: 5100,
		Colour: species.RGB{R: 0xED, G: 0xE9, B: 0xDD}, ColourOiled: species.RGB{R: 0xE2, G: 0xD6, B: 0xBD},
		ColourChange: "greys when it dries slowly", Pores: "diffuse", Cautions: species.Cautions{Sensitise: true, Food: "ask before you use it for food",
			NotForFood: true, Dust: "fine; mask and extraction", Listed: "not listed"}, Note: "from the churchyard hedge",
	})
	table, err := species.Builtin().With(list)
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := table.Get("hornbeam"); s.CT != 0.0039 || s.CR == 0 {
		t.Errorf("the correction gives CT %v, CR %v", s.CT, s.CR)
	}
	if s, _ := table.Get("pear"); s.JankaN != 0 || s.CT == 0 {
		t.Errorf("taking away gives hardness %v, CT %v", s.JankaN, s.CT)
	}
	roundSpecies(t, sample(t, "species-1.toml"), true)
}

// TestBuiltinSpecies reads the built-in table, which has the form of the maker's own
// file, by the strict reader, and compares value by value.
func TestBuiltinSpecies(t *testing.T) {
	data, err := os.ReadFile("../../species/species.toml")
	if err != nil {
		t.Fatal(err)
	}
	got, err := ReadSpecies(bytes.NewReader(data), "species.toml")
	if err != nil {
		t.Fatal(err)
	}
	want := species.Builtin().All()
	if len(got) != len(want) || len(got) < 67 {
		t.Fatalf("%d timbers, want %d", len(got), len(want))
	}
	for i := range got {
		for _, name := range species.ValueNames() {
			if _, sourced := want[i].Sources[name]; !sourced {
				delete(got[i].Sources, name) // given without a source
			}
		}
	}
	same(t, got, want)
	roundSpecies(t, data, true)
}

func TestNameDefaultsToTheStem(t *testing.T) {
	text := strings.Replace(goodPattern, "name = \"a\"\n", "", 1)
	for _, file := range []string{"/home/x/patterns/old-tray.toml", "old-tray.toml"} {
		p, err := ReadPattern(strings.NewReader(text), file, nil)
		if err != nil || p.Name != "old-tray" {
			t.Errorf("%s: name %q, %v", file, p.Name, err)
		}
	}
}

func TestDraftLoads(t *testing.T) {
	p, err := ReadPattern(strings.NewReader("format = \"oddments/pattern 1\"\npanel = {length = 450, thickness = 22}\n"), "d.toml", nil)
	if err != nil || len(p.Strips) != 0 || p.Panel.Length != 450*mm {
		t.Errorf("got %v, %v", p, err)
	}
}

// TestFormatIsReadWhereItStands: outside all tables, in any line.
func TestFormatIsReadWhereItStands(t *testing.T) {
	_, err := ReadPattern(strings.NewReader("name = \"a\"\npanel = {length = 450, thickness = 22}\nformat = \"oddments/pattern 1\"\n"), "d.toml", nil)
	if err != nil {
		t.Error(err)
	}
}

func TestFormatIsWrittenFirst(t *testing.T) {
	for kind, write := range map[string]func(io.Writer) error{
		"pattern": func(w io.Writer) error { return WritePattern(w, pattern.Pattern{Name: "x"}) },
		"rack":    func(w io.Writer) error { return WriteRack(w, rack.Rack{}) },
		"shop":    func(w io.Writer) error { return WriteShop(w, shop.Default()) },
		"species": func(w io.Writer) error { return WriteSpecies(w, nil) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		if want := fmt.Sprintf("format = \"oddments/%s 1\"\n", kind); !strings.HasPrefix(b.String(), want) {
			t.Errorf("%s starts with %.40q", kind, b.String())
		}
	}
}

// TestOrderOfTables: products stand behind the strips and before what was made, and
// a pattern without any says nothing of them.
func TestOrderOfTables(t *testing.T) {
	p := pattern.Pattern{Name: "x", Panel: pattern.Panel{Length: 450 * mm, Thickness: 22 * mm},
		Strips: []pattern.Strip{{Species: "pear", Width: 90 * mm}}, Made: []pattern.Made{{Date: pattern.Date{Year: 2025, Month: 1, Day: 2}, Copies: 1}}}
	headings := func() string {
		var out bytes.Buffer
		if err := WritePattern(&out, p); err != nil {
			t.Fatal(err)
		}
		roundPattern(t, out.Bytes(), true)
		return strings.Join(regexp.MustCompile(`(?m)^\[.*`).FindAllString(out.String(), -1), " ")
	}
	if got, want := headings(), "[panel] [[strip]] [[made]]"; got != want {
		t.Errorf("without products: %s, want %s", got, want)
	}
	p.Avoids = []pattern.Avoid{{Along: 3 * mm}}
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 50 * mm, Count: 1}, {Shape: outline.Round, Diameter: 60 * mm}}
	if got, want := headings(), "[panel] [[strip]] [[product]] [[product]] [[avoid]] [[made]]"; got != want {
		t.Errorf("with products: %s, want %s", got, want)
	}
}

// TestCentreOfALostStrip: strips come and go, so that a product may be centred on one
// that is no longer there; the pattern can be saved and loads.
func TestCentreOfALostStrip(t *testing.T) {
	text := strings.Replace(goodPattern, "[[made]]", "[[product]]\nshape = \"round\"\ndiameter = 50\ncentre = \"joint 9\"\n[[made]]", 1)
	p, err := ReadPattern(strings.NewReader(text), "a.toml", nil)
	if err != nil || p.Products[0].Centre.Joint != 9 {
		t.Errorf("%+v, %v", p.Products, err)
	}
	roundPattern(t, []byte(text), true)
}

// TestEqualStripsFold writes equal neighbours once, with a count.
func TestEqualStripsFold(t *testing.T) {
	a, b := pattern.Strip{Species: "pear", Width: 9 * mm}, pattern.Strip{Species: "pear", Width: 11 * mm}
	p := pattern.Pattern{Name: "x", Panel: pattern.Panel{Length: 450 * mm, Thickness: 22 * mm}, Strips: []pattern.Strip{a, a, b, a, a, a}}
	var out bytes.Buffer
	if err := WritePattern(&out, p); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(out.String(), "[[strip]]"); n != 3 || !strings.Contains(out.String(), "count = 3") {
		t.Errorf("%d entries in\n%s", n, out.String())
	}
	roundPattern(t, out.Bytes(), true)
}

// The round functions read, write, read and write again: values and bytes must
// agree. Where the input must be good a refusal fails the test.

func round[T any](t *testing.T, data []byte, must bool, read func(io.Reader) (T, error), write func(io.Writer, T) error) {
	t.Helper()
	first, err := read(bytes.NewReader(data))
	if err != nil {
		if must {
			t.Fatal(err)
		}
		return
	}
	var once, twice bytes.Buffer
	if err := write(&once, first); err != nil {
		t.Fatal(err)
	}
	second, err := read(bytes.NewReader(once.Bytes()))
	if err != nil {
		t.Fatalf("what was written is refused: %v\n%s", err, once.Bytes())
	}
	same(t, second, first)
	if err := write(&twice, second); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(once.Bytes(), twice.Bytes()) {
		t.Fatalf("written twice it differs:\n%s\n%s", once.Bytes(), twice.Bytes())
	}
}

func roundPattern(t *testing.T, data []byte, must bool) {
	t.Helper()
	round(t, data, must, func(r io.Reader) (pattern.Pattern, error) { return ReadPattern(r, "a.toml", nil) }, WritePattern)
}

func roundRack(t *testing.T, data []byte, must bool) {
	t.Helper()
	round(t, data, must, func(r io.Reader) (rack.Rack, error) { return ReadRack(r, "a.toml", nil) }, WriteRack)
}

func roundShop(t *testing.T, data []byte, must bool) {
	t.Helper()
	round(t, data, must, func(r io.Reader) (shop.Shop, error) { return ReadShop(r, "a.toml") }, WriteShop)
}

func roundSpecies(t *testing.T, data []byte, must bool) {
	t.Helper()
	round(t, data, must, func(r io.Reader) ([]species.Species, error) { return ReadSpecies(r, "a.toml") }, WriteSpecies)
}

func FuzzPattern(f *testing.F) {
	f.Add(sample(f, "pattern-1.toml"))
	f.Add(sample(f, "pattern-1-second.toml"))
	f.Add([]byte(goodPattern))
	f.Add([]byte(goodProducts))
	f.Fuzz(func(t *testing.T, data []byte) { roundPattern(t, data, false) })
}

func FuzzRack(f *testing.F) {
	f.Add(sample(f, "rack-1.toml"))
	f.Add([]byte(goodRack))
	f.Fuzz(func(t *testing.T, data []byte) { roundRack(t, data, false) })
}

func FuzzShop(f *testing.F) {
	f.Add(sample(f, "shop-1.toml"))
	f.Add([]byte(goodShop))
	f.Fuzz(func(t *testing.T, data []byte) { roundShop(t, data, false) })
}

func FuzzSpecies(f *testing.F) {
	f.Add(sample(f, "species-1.toml"))
	f.Add([]byte(goodSpecies))
	f.Fuzz(func(t *testing.T, data []byte) { roundSpecies(t, data, false) })
}

// BenchmarkReadPattern reads 60 strips, no two alike in a row. Budget: 1 ms.
func BenchmarkReadPattern(b *testing.B) {
	p := pattern.Pattern{Name: "x", Panel: pattern.Panel{Length: 450 * mm, Thickness: 22 * mm}}
	for i := range 60 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "pear", Width: length.Length(10+i) * mm, Rings: pattern.RingsFlat(), Moisture: pattern.Read(8.5)})
	}
	var out bytes.Buffer
	if err := WritePattern(&out, p); err != nil {
		b.Fatal(err)
	}
	known := species.Builtin()
	for b.Loop() {
		if _, err := ReadPattern(bytes.NewReader(out.Bytes()), "x.toml", known); err != nil {
			b.Fatal(err)
		}
	}
}
