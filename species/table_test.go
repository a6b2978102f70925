package species

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func keys(list []Species) string {
	var out []string
	for _, s := range list {
		out = append(out, s.Key)
	}
	return strings.Join(out, " ")
}

func TestLettersAreUniqueAndGuessable(t *testing.T) {
	seen := map[string]string{}
	for _, s := range Builtin().All() {
		if err := CheckLetters(s.Letters); err != nil {
			t.Errorf("%s: %v", s.Key, err)
		}
		if other, twice := seen[s.Letters]; twice {
			t.Errorf("%s and %s are both %s", other, s.Key, s.Letters)
		}
		seen[s.Letters] = s.Key
	}
	for letters, key := range map[string]string{
		"WA": "black_walnut", "MA": "hard_maple", "CH": "black_cherry", "AS": "white_ash", "OA": "european_oak",
		"SA": "sapele", "IR": "iroko", "PH": "purpleheart", "TE": "teak", "WE": "wenge",
	} {
		if seen[letters] != key {
			t.Errorf("%s is %q, want %s", letters, seen[letters], key)
		}
	}
}

func TestFind(t *testing.T) {
	table := Builtin()
	for asked, want := range map[string]string{
		"black_walnut": "black_walnut", "Black Walnut": "black_walnut", "BLACK-WALNUT": "black_walnut",
		"  black   walnut ": "black_walnut", "american walnut": "black_walnut",
		"soft maple":    "soft_maple", // a name comes before silver maple's other name
		"red maple":     "soft_maple",
		"yellow poplar": "yellow_poplar", "tulipwood": "yellow_poplar",
		"oregon pine": "douglas_fir", "douglas fir": "douglas_fir", "Douglas-fir": "douglas_fir",
		"hickory": "hickory", "robinia": "black_locust", "sycamore": "sycamore_maple",
		"walnut": "", "": "", " -_ ": "", "plywood": "",
	} {
		got, ok := table.Find(asked)
		if got.Key != want || ok != (want != "") {
			t.Errorf("%q: %q, want %q", asked, got.Key, want)
		}
	}
	for _, s := range table.All() {
		for _, name := range []string{s.Key, s.Name, strings.ToUpper(s.Name)} {
			if got, ok := table.Find(name); !ok || got.Key != s.Key {
				t.Errorf("%q finds %q, want %s", name, got.Key, s.Key)
			}
		}
		for _, name := range s.Also {
			got, ok := table.Find(name)
			if !ok || got.Key != s.Key && name != "soft maple" {
				t.Errorf("%q finds %q, want %s", name, got.Key, s.Key)
			}
		}
	}
}

func TestNearest(t *testing.T) {
	table := Builtin()
	for _, c := range []struct {
		asked string
		n     int
		want  string
	}{
		{"spaele", 1, "sapele"},            // two neighbours swapped
		{"irokko", 1, "iroko"},             // one too many
		{"blak walnut", 1, "black_walnut"}, // one missing
		{"purple heart", 1, "purpleheart"},
		{"walnut", 2, "black_walnut european_walnut"}, // a word of the name
		{"ook", 3, "white_oak red_oak european_oak"},
		{"wallnut", 5, "black_walnut european_walnut"}, // and not ipe, which is called Brazilian walnut
		{"paer", 3, "pear paper_birch"},
		{"iroko", 0, ""},
		{"iroko", -1, ""},
	} {
		if got := keys(table.Nearest(c.asked, c.n)); got != c.want {
			t.Errorf("%d nearest to %q: %s, want %s", c.n, c.asked, got, c.want)
		}
	}
	for _, far := range []string{"", "nonsense", "x", strings.Repeat("x", 500)} {
		if got := keys(table.Nearest(far, 1000)); got != "" && len(far) > 1 {
			t.Errorf("near to %q: %s", far, got)
		}
	}
}

func TestZeroTable(t *testing.T) {
	var table Table
	if _, ok := table.Get("oak"); ok || table.Len() != 0 || len(table.All()) != 0 || len(table.Nearest("oak", 3)) != 0 {
		t.Error("the zero Table is not empty")
	}
	one, err := table.With([]Species{{Key: "plum_wood"}})
	if err != nil || one.Len() != 1 {
		t.Errorf("%v, %v", one, err)
	}
}

func TestAllIsACopy(t *testing.T) {
	table := Builtin()
	table.All()[0].Name = "changed"
	if table.All()[0].Name != "black walnut" {
		t.Error("a change to All reached the table")
	}
}

func TestValues(t *testing.T) {
	table := Builtin()
	get := func(key, name string) (Value, bool) {
		s, _ := table.Get(key)
		for _, v := range s.Values() {
			if v.Name == name {
				return v, true
			}
		}
		return Value{}, false
	}
	for _, c := range []struct{ key, name, text, unit, source string }{
		{"black_walnut", "cr", "0.00190", "per point", "USDA Wood Handbook FPL-GTR-190 (2010) Table 13-5 (verified)"},
		{"black_walnut", "name", "black walnut", "", ""},
		{"black_walnut", "open_pored", "yes", "", "judgement (memory)"},
		{"hard_maple", "open_pored", "no", "", "judgement (memory)"},
		{"hard_maple", "also", "sugar maple, rock maple", "", ""},
		{"hard_maple", "colour_oiled", "#E0C596", "", "estimate by eye, its step from the raw colour scaled by 0.7 to the size of measured wax steps (memory)"},
		{"hard_maple", "janka_n", "6400", "N", "maple flooring trade data, 1450 lbf (verified)"},
		{"iroko", "fsp_pct", "23", "%", "CIRAD Tropix sheet (6.0/7.0 text) (verified)"},
		{"plum", "ct", "no figure", "", "no published value found; Meier, The Wood Database states that no shrinkage data are available (none)"},
	} {
		v, ok := get(c.key, c.name)
		if !ok || v.Name != c.name || v.Text != c.text || v.Unit != c.unit || v.Source.String() != c.source {
			t.Errorf("%s: %+v (%s), want %+v", c.key, v, v.Source, c)
		}
	}
	for _, name := range []string{"oily", "listed", "note", "fsp_pct"} {
		if v, ok := get("hard_maple", name); ok {
			t.Errorf("hard maple says %+v", v)
		}
	}
	if v, _ := get("plum", "ct"); v.Data != nil {
		t.Errorf("plum moves by %v, want nothing", v.Data)
	}
	if d := cmp.Diff(ValueNames()[:5], []string{"name", "also", "botanical", "letters", "cr"}); d != "" {
		t.Error(d)
	}
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		x      float64
		places int
		want   string
	}{{0.0019, 5, "0.00190"}, {0.001234, 5, "0.001234"}, {616, 0, "616"}, {612.5, 0, "612.5"}, {0.01, 5, "0.01000"}} {
		if got := decimal(c.x, c.places); got != c.want {
			t.Errorf("%v: %s, want %s", c.x, got, c.want)
		}
	}
}
