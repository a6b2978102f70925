package species

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// given makes the sources of an entry that gives these values.
func given(names ...string) map[string]Source {
	out := map[string]Source{}
	for _, n := range names {
		out[n] = ParseSource("")
	}
	return out
}

func TestWithValueByValue(t *testing.T) {
	table := Builtin()
	before, _ := table.Get("iroko")
	merged, err := table.With([]Species{{
		Key: "iroko", CT: 0.003, CR: 0.9, OpenPored: false, Cautions: Cautions{Food: "ignored"},
		Sources: map[string]Source{"ct": {Text: "two boards in my shed", Status: Yours}, "open_pored": {}},
	}})
	if err != nil {
		t.Fatal(err)
	}
	got, _ := merged.Get("iroko")
	want := before
	want.CT = 0.003        // given
	want.OpenPored = false // given, and false
	want.Sources = map[string]Source{}
	for name, source := range before.Sources { // cr and food were not given
		want.Sources[name] = source
	}
	want.Sources["ct"] = Source{"two boards in my shed", Yours}
	want.Sources["open_pored"] = Source{"your own value", Yours}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if merged.Len() != table.Len() || keys(merged.All()) != keys(table.All()) {
		t.Error("the order changed")
	}
	if d := cmp.Diff(Builtin().All(), table.All()); d != "" {
		t.Errorf("the table itself changed: %s", d)
	}
}

// Each value in turn: it alone is taken, whatever else the entry holds.
func TestWithTakesEachValue(t *testing.T) {
	table := Builtin()
	full := Species{
		Key: "hard_maple", Name: "my maple", Also: []string{"that maple"}, Botanical: "Acer", Letters: "QX",
		CR: 0.001, CT: 0.002, FSPPct: 25, DensityKgM3: 700, JankaN: 6000, Colour: RGB{R: 1, G: 2, B: 3}, ColourOiled: RGB{R: 4, G: 5, B: 6},
		ColourChange: "none seen", Pores: "ring", OpenPored: true,
		Cautions: Cautions{Oily: true, Sensitise: true, Food: "f", NotForFood: true, Dust: "d", Listed: "l"}, Note: "n",
	}
	for _, v := range Fields() {
		entry := full
		entry.Sources = given(v.Name)
		merged, err := table.With([]Species{entry})
		if err != nil {
			t.Fatalf("%s: %v", v.Name, err)
		}
		got, _ := merged.Get("hard_maple")
		want, _ := table.Get("hard_maple")
		for _, w := range Fields() {
			from := &want
			if w.Name == v.Name {
				from = &full
			}
			if d := cmp.Diff(w.At(from), w.At(&got)); d != "" {
				t.Errorf("%s given, %s: %s", v.Name, w.Name, d)
			}
		}
		if got.Sources[v.Name] != (Source{"your own value", Yours}) {
			t.Errorf("%s: source %+v", v.Name, got.Sources[v.Name])
		}
	}
}

// A standing copied along with a built-in source would lie about a changed value.
func TestWithIsAlwaysYours(t *testing.T) {
	merged, err := Builtin().With([]Species{{
		Key: "teak", CT: 0.0025, Sources: map[string]Source{"ct": ParseSource("Table 13-5 (verified)")},
	}})
	if err != nil {
		t.Fatal(err)
	}
	s, _ := merged.Get("teak")
	if got := s.Sources["ct"].String(); got != "Table 13-5 (yours)" {
		t.Errorf("source %q", got)
	}
}

func TestWithTakesAValueAway(t *testing.T) {
	merged, err := Builtin().With([]Species{{Key: "teak", Sources: given("ct", "food", "name", "letters")}})
	if err != nil {
		t.Fatal(err)
	}
	s, _ := merged.Get("teak")
	if s.Moves() || s.Name != "teak" || s.Letters != "TE" {
		t.Errorf("moves %v, name %q, letters %q; want no figure and name and letters made anew", s.Moves(), s.Name, s.Letters)
	}
	for _, v := range s.Values() {
		if v.Name == "ct" && v.Text != "no figure" || v.Name == "food" && v.Text != "none" {
			t.Errorf("%s is shown as %q", v.Name, v.Text)
		}
	}
}

func TestWithNewTimbers(t *testing.T) {
	merged, err := Builtin().With([]Species{
		{Key: "plum_wood", CR: 0.002, CT: 0.003, Colour: RGB{R: 9, G: 9, B: 9}, Sources: given("cr", "ct", "colour")},
		{Key: "ziricote", ColourOiled: RGB{R: 8, G: 8, B: 8}, Letters: "ZI", Sources: given("colour_oiled", "letters")},
		{Key: "x"},
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := keys(merged.All()[67:]); got != "plum_wood ziricote x" {
		t.Errorf("new timbers %s", got)
	}
	plum, _ := merged.Get("plum_wood")
	// PL is plum, then the letters of "plum wood" in turn: PU is free.
	if plum.Name != "plum wood" || plum.Letters != "PU" || plum.ColourOiled != (RGB{R: 9, G: 9, B: 9}) || !plum.Moves() {
		t.Errorf("plum wood: %+v", plum)
	}
	if plum.Sources["colour"].Status != Yours || plum.Sources["colour_oiled"].Status != Derived {
		t.Errorf("plum wood: colours %v", plum.Sources)
	}
	ziricote, _ := merged.Get("ziricote")
	if ziricote.Letters != "ZI" || ziricote.Colour != (RGB{R: 8, G: 8, B: 8}) || ziricote.Moves() {
		t.Errorf("ziricote: %+v", ziricote)
	}
	x, _ := merged.Get("x")
	if x.Letters != "XA" || x.Sources["colour"].Status != None || x.Colour == (RGB{}) {
		t.Errorf("x: %+v", x)
	}
}

func TestWithLettersMayBeSwapped(t *testing.T) {
	merged, err := Builtin().With([]Species{
		{Key: "black_walnut", Letters: "EW", Sources: given("letters")},
		{Key: "european_walnut", Letters: "WA", Sources: given("letters")},
	})
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := merged.Get("black_walnut"); s.Letters != "EW" {
		t.Errorf("letters %s", s.Letters)
	}
}

func TestWithRefuses(t *testing.T) {
	for _, c := range []struct {
		name    string
		entries []Species
		want    []string
	}{
		{"letters of another", []Species{{Key: "plum_wood", Letters: "WA", Sources: given("letters")}},
			[]string{`timber "plum_wood": letters WA are those of "black_walnut"`}},
		{"letters in small", []Species{{Key: "teak", Letters: "te", Sources: given("letters")}},
			[]string{`timber "teak": letters "te": must be two capitals`}},
		{"no key", []Species{{CR: 0.001, Sources: given("cr")}}, []string{"key is missing"}},
		{"bad key", []Species{{Key: "Plum wood"}}, []string{`key "Plum wood": must be a small letter`}},
		{"twice", []Species{{Key: "teak"}, {Key: "teak"}}, []string{`timber "teak" stands twice`}},
		{"several", []Species{{Key: "teak", CR: 0.5, JankaN: -3, Pores: "big", Sources: given("cr", "janka_n", "pores", "weight")}},
			[]string{`timber "teak": cr 0.5: must be 0.0001 to 0.02`, `timber "teak": janka_n -3: must be 100 to 30000`,
				`timber "teak": pores "big": must be ring, semi-ring, diffuse, softwood`,
				`timber "teak": sources: "weight" is no value of a timber`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			merged, err := Builtin().With(c.entries)
			if err == nil || merged != nil {
				t.Fatal("accepted")
			}
			for _, want := range c.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %q, want %q in it", err, want)
				}
			}
		})
	}
}

func TestDerivedLettersNeverClash(t *testing.T) {
	var entries []Species
	for i := range 26*26 - 67 { // as many as there are letters for
		entries = append(entries, Species{Key: fmt.Sprintf("wood_%d", i)})
	}
	merged, err := Builtin().With(entries) // With itself refuses a clash
	if err != nil {
		t.Fatal(err)
	}
	if merged.Len() != 26*26 {
		t.Errorf("%d timbers", merged.Len())
	}
	if _, err := Builtin().With(append(entries, Species{Key: "one_more"})); err == nil ||
		!strings.Contains(err.Error(), "no two letters are left") {
		t.Errorf("one more: %v", err)
	}
}

func TestRanges(t *testing.T) {
	fields := map[string]Field{}
	for _, v := range Fields() {
		fields[v.Name] = v
		if _, number := v.At(&Species{}).(*float64); number != (v.Least > 0 && v.Most > v.Least) {
			t.Errorf("%s: %v to %v", v.Name, v.Least, v.Most)
		}
	}
	for _, c := range []struct {
		name  string
		x     float64
		valid bool
	}{
		{"cr", 0.0001, true}, {"cr", 0.02, true}, {"cr", 0.00009, false}, {"ct", 0.021, false},
		{"fsp_pct", 15, true}, {"fsp_pct", 40.1, false}, {"density_kg_m3", 50, true}, {"density_kg_m3", 1501, false},
		{"janka_n", 30000, true}, {"janka_n", 99, false},
	} {
		s := Species{Key: "x"}
		*fields[c.name].At(&s).(*float64) = c.x
		if err := s.Validate(); (err == nil) != c.valid {
			t.Errorf("%s %v: %v", c.name, c.x, err)
		}
	}
}
