package species

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/pelletier/go-toml/v2"
)

// Budget: under 3 ms, for every command pays it once.
func BenchmarkBuiltin(b *testing.B) {
	for b.Loop() {
		Builtin()
	}
}

// testdata/timbers.csv was gathered on its own from the sources that the table names:
// USDA Wood Handbook FPL-GTR-190 (2010), Chudnoff 1984, CIRAD Tropix, Meier and the
// others. A slip while editing species.toml shows here.
func TestBuiltinEqualsReference(t *testing.T) {
	table := Builtin()
	if table.Len() != 67 {
		t.Errorf("%d timbers, want 67", table.Len())
	}
	for i, r := range timberRows(t) {
		s := r.timber(table)
		if table.All()[i].Key != s.Key {
			t.Errorf("timber %d is %s, want %s", i, table.All()[i].Key, s.Key)
		}
		numbers := map[string]float64{
			"cr": s.CR, "ct": s.CT, "fsp_pct": s.FSPPct, "density_kg_m3": s.DensityKgM3, "janka_n": s.JankaN,
		}
		for column, got := range numbers {
			if want := r.number(column); got != want {
				t.Errorf("%s: %s %v, want %v", s.Key, column, got, want)
			}
		}
		if s.Pores != r.text("pores") || s.OpenPored != (r.text("open_pored") == "yes") {
			t.Errorf("%s: pores %s, open %v", s.Key, s.Pores, s.OpenPored)
		}
		for column, name := range map[string]string{
			"status": "cr", "status_density": "density_kg_m3", "status_janka": "janka_n", "status_dust": "dust",
		} {
			if got := s.Sources[name].Status.String(); got != r.text(column) {
				t.Errorf("%s: %s is %s, want %s", s.Key, name, got, r.text(column))
			}
		}
		if s.Sources["cr"].Status != s.Sources["ct"].Status {
			t.Errorf("%s: cr and ct differ in standing", s.Key)
		}
	}
}

func TestStandingOfMovementCounts(t *testing.T) {
	got := map[Status]int{}
	for _, s := range Builtin().All() {
		got[s.Sources["ct"].Status]++
	}
	want := map[Status]int{Verified: 19, Derived: 36, Memory: 11, None: 1} // counted by hand in the reference
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestEveryValueHasItsSource(t *testing.T) {
	free := []string{"name", "also", "botanical", "letters", "note"} // names and remarks are no measured values
	for _, s := range Builtin().All() {
		for _, v := range Fields() {
			source, sourced := s.Sources[v.Name]
			data, _ := v.read(&s, sourced)
			switch {
			case slices.Contains(free, v.Name):
				if sourced {
					t.Errorf("%s: %s needs no source", s.Key, v.Name)
				}
			case sourced && (source.Text == "" || source.Status == Yours || source.Status == 0):
				t.Errorf("%s: %s has the source %q", s.Key, v.Name, source)
			case (data == nil) != (!sourced || source.Status == None):
				t.Errorf("%s: %s is %v with the source %q", s.Key, v.Name, data, source)
			}
		}
		for _, must := range []string{"colour", "colour_oiled", "pores", "open_pored", "food", "dust", "density_kg_m3", "janka_n"} {
			if _, ok := s.Sources[must]; !ok {
				t.Errorf("%s: no %s", s.Key, must)
			}
		}
		if s.Name == "" || s.Botanical == "" || s.Letters == "" {
			t.Errorf("%s: a name or its letters are missing", s.Key)
		}
	}
}

func TestNoPromises(t *testing.T) {
	for _, word := range []string{"safe", "certified", "harmless"} {
		if bytes.Contains(bytes.ToLower(builtin), []byte(word)) {
			t.Errorf("the table of timbers says %q", word)
		}
	}
}

func TestFileHasNoUnknownKeys(t *testing.T) {
	var file struct {
		Format  string    `toml:"format"`
		Species []Species `toml:"species"`
	}
	if err := toml.NewDecoder(bytes.NewReader(builtin)).DisallowUnknownFields().Decode(&file); err != nil {
		t.Error(err)
	}
}

// One fact a line in the order of ValueNames keeps differences readable.
func TestFileKeepsItsOrder(t *testing.T) {
	order := append([]string{"key"}, ValueNames()...)
	last := -1
	for n, line := range strings.Split(string(builtin), "\n") {
		if line == "" || line[0] == '#' || strings.HasPrefix(line, "format") {
			continue
		}
		if line[0] == '[' {
			last = -1
			continue
		}
		name, _, found := strings.Cut(line, " = ")
		i := slices.Index(order, name)
		if !found || i <= last {
			t.Errorf("line %d: %q stands out of order", n+1, line)
		}
		last = i
	}
}

func TestWrittenAndReadAgainIsTheSame(t *testing.T) {
	want := Builtin().All()
	file := map[string]any{"format": Format}
	var list []map[string]any
	for _, s := range want {
		sources := map[string]string{}
		for name, source := range s.Sources {
			sources[name] = source.String()
		}
		entry := map[string]any{"key": s.Key, "sources": sources}
		for _, v := range Fields() {
			entry[v.Name] = v.At(&s)
		}
		list = append(list, entry)
	}
	file["species"] = list
	data, err := toml.Marshal(file)
	if err != nil {
		t.Fatal(err)
	}
	got, err := parse(data)
	if err != nil {
		t.Fatal(err)
	}
	for i := range want { // a list that is empty and one that is missing say the same
		if len(got[i].Also) == 0 {
			got[i].Also = want[i].Also
		}
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestParseRefuses(t *testing.T) {
	for name, c := range map[string]struct{ data, want string }{
		"no TOML":      {"[[species", "table of timbers"},
		"other format": {`format = "oddments/rack 1"`, `must be "oddments/species 1"`},
		"bad colour": {"format = \"oddments/species 1\"\n[[species]]\nkey = \"x\"\ncolour = \"red\"",
			"must be # and six hexadecimal digits"},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := parse([]byte(c.data)); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q in it", err, c.want)
			}
		})
	}
}

// What the law and the dust charts say of these timbers must not get lost.
func TestCautions(t *testing.T) {
	table := Builtin()
	get := func(key string) Species {
		s, ok := table.Get(key)
		if !ok {
			t.Fatalf("no timber %s", key)
		}
		return s
	}
	// Trade notices on CITES Appendix II; those marked recalled have no stored copy.
	for key, want := range map[string]string{
		"indian_rosewood": "annotation 15", "bubinga": "annotation 15",
		"padauk": "annotation 17 since 23 February 2023", "khaya": "annotation 17 since 23 February 2023",
		"mahogany": "as far as recalled", "ipe": "as far as recalled", "cumaru": "as far as recalled",
		"afrormosia": "as far as recalled", "black_walnut": "", "wenge": "",
	} {
		listed := get(key).Listed
		if want == "" && listed != "" || !strings.Contains(listed, want) {
			t.Errorf("%s: listed %q, want %q in it", key, listed, want)
		}
		recalled := strings.Contains(listed, "recalled")
		if listed != "" && recalled != (get(key).Sources["listed"].Status == Memory) {
			t.Errorf("%s: listed %q is %v", key, listed, get(key).Sources["listed"].Status)
		}
		if listed != "" && !strings.Contains(listed, "check current local law") {
			t.Errorf("%s: listed %q does not point to the law", key, listed)
		}
	}
	// "Woods toxic to man" chart, American Woodturner, June 1990: reaction S.
	for _, key := range strings.Fields(`american_beech european_beech yellow_birch paper_birch silver_birch
		goncalo_alves iroko mahogany white_oak red_oak european_oak olive padauk indian_rosewood teak
		black_walnut wenge western_redcedar zebrano`) {
		if s := get(key); !s.Sensitise || s.Sources["sensitiser"].Status != Verified {
			t.Errorf("%s: no verified sensitiser", key)
		}
	}
	for _, s := range table.All() {
		if strings.Contains(s.Dust, "sensitiser") && !s.Sensitise {
			t.Errorf("%s: its dust is a sensitiser, the flag says otherwise", s.Key)
		}
	}
	var kept []string // off food boards: their notes on food say so outright
	for _, s := range table.All() {
		if s.NotForFood {
			kept = append(kept, s.Key)
			if s.Food == "" || s.Sources["not_for_food"] != s.Sources["food"] {
				t.Errorf("%s: kept off food boards for %q, source %q", s.Key, s.Food, s.Sources["not_for_food"])
			}
		}
	}
	if got, want := strings.Join(kept, " "), "black_locust indian_rosewood western_redcedar yew"; got != want {
		t.Errorf("kept off food boards: %s, want %s", got, want)
	}
	for _, key := range []string{"teak", "indian_rosewood", "jatoba", "purpleheart"} { // makers' accounts
		if !get(key).Oily {
			t.Errorf("%s: not oily", key)
		}
	}
	if food := get("yew").Food; !strings.Contains(food, "TOXIC") {
		t.Errorf("yew: food %q", food)
	}
}
