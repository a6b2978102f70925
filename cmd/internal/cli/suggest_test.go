package cli_test

import (
	"encoding/json"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

// suggestedJSON is what a script would read of suggestions.
type suggestedJSON struct {
	Format, Status string
	Bound          *struct {
		Smallest float64 `json:"smallest_contrast"`
		Total    float64 `json:"total_contrast"`
	}
	Layouts []struct {
		Width    float64 `json:"width_mm"`
		Smallest float64 `json:"smallest_contrast"`
		Total    float64 `json:"total_contrast"`
		UseFirst float64 `json:"use_first_mm"`
		Level    string
		Strips   []struct {
			Species string
			Width   float64 `json:"width_mm"`
			Rings   any
			Source  string
		}
		Plan  *plannedJSON
		Look  string
		Apart float64 `json:"apart_pct"`
	}
}

const suggestRack = `format = "oddments/rack 1"
[[piece]]
id = "M1"
species = "hard_maple"
length = "900 mm"
width = "110 mm"
thickness = "52 mm"
rings = "flat"
[[piece]]
id = "W1"
species = "black_walnut"
length = "700 mm"
width = "95 mm"
thickness = "40 mm"
faults = ["300-330 mm"]
use_first = true
[[strip]]
id = "C-25"
species = "black_cherry"
width = "25 mm"
thickness = "24 mm"
length = "330 mm"
quantity = 2
use_first = true
`

// What suggest prints from rough pieces holds together: figures are those of the
// strips that are printed, by the equations apart from the program's own search, and
// the plan can be cut: cutting.Verify computes it afresh from the files.
func TestSuggestJSONHoldsTogether(t *testing.T) {
	s := stage{home: t.TempDir()}
	rackFile := s.write(t, "rack.toml", suggestRack)
	out, messages, exit := s.run(t, "suggest", "--width", "150", "--thickness", "20", "--length", "300", "--widths", "20,25",
		"--level", "too much", "--layouts", "3", "--json")
	if exit != 0 || messages != "" {
		t.Fatalf("exit %d, stderr %s", exit, messages)
	}
	decoder := json.NewDecoder(strings.NewReader(out))
	decoder.DisallowUnknownFields()
	var got suggestedJSON
	if err := decoder.Decode(&got); err != nil {
		t.Fatalf("%v in %.300s", err, out)
	}
	inOrder(t, out, "format", "status", "bound", "layouts", "width_mm", "smallest_contrast", "total_contrast", "use_first_mm", "level", "strips", "plan", "look", "apart_pct")
	if got.Format != "oddments/suggest 1" || got.Status != "optimal" || got.Bound != nil || len(got.Layouts) != 3 {
		t.Fatalf("%s, %s, bound %v, %d layouts", got.Format, got.Status, got.Bound, len(got.Layouts))
	}
	known := species.Builtin()
	timber, err := store.OpenRack(rackFile, known)
	if err != nil {
		t.Fatal(err)
	}
	shop, _, err := store.OpenHome(s.home).Shop()
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range got.Layouts {
		p := pattern.Pattern{Panel: pattern.Panel{Length: length.FromMM(300), Thickness: length.FromMM(20)}}
		width, first, least, total := 0.0, 0.0, math.Inf(1), 0.0
		for n, one := range l.Strips {
			rings, err := pattern.ParseRings(one.Rings.(string))
			if err != nil {
				t.Fatal(err)
			}
			p.Strips = append(p.Strips, pattern.Strip{Species: one.Species, Width: length.FromMM(one.Width), Rings: rings})
			width += one.Width
			entry, ok := timber.Get(strings.SplitN(one.Source, "/", 2)[0])
			if !ok || entry.Species != one.Species {
				t.Errorf("layout %d strip %d: %s from %q", i+1, n+1, one.Species, one.Source)
			}
			if entry.UseFirst {
				first += one.Width
			}
			if n > 0 {
				left, _ := species.Builtin().Get(l.Strips[n-1].Species)
				right, _ := species.Builtin().Get(one.Species)
				c := left.Contrast(right)
				least, total = min(least, c), total+c
			}
		}
		if width != l.Width || first != l.UseFirst || math.Abs(least-l.Smallest) > 1e-9 || math.Abs(total-l.Total) > 1e-9 || math.Abs(width-150) > 4 {
			t.Errorf("layout %d: %v wide, %v use-first, contrast %v and %v; said %+v", i+1, width, first, least, total, l)
		}
		if l.Plan == nil || l.Plan.Short > 0 {
			t.Fatalf("layout %d has no whole plan", i+1)
		}
		plan := l.Plan.plan(t)
		job := cutting.Job{Rack: timber, Shop: shop, Patterns: []cutting.Demand{{Stem: "layout", Pattern: p, Copies: 1}}}
		if err := cutting.Verify(job, plan); err != nil {
			t.Errorf("layout %d: %v", i+1, err)
		}
	}
}

// Every answer of again has a plan that can be cut, of the pattern with its new
// timbers and under its own stem.
func TestAgainJSONHoldsTogether(t *testing.T) {
	s := stage{home: t.TempDir()}
	s.write(t, "rack.toml", suggestRack)
	s.write(t, "patterns/rail.toml", strings.Replace(beech, "400 mm", "250 mm", 1)+"[[strip]]\nspecies = \"sapele\"\nwidth = 25\n[[strip]]\nspecies = \"wenge\"\nwidth = 20\n")
	file := filepath.Join(s.home, "patterns", "rail.toml")
	out, messages, exit := s.run(t, "again", file+"=2", "--level", "too much", "--json")
	if exit != 0 || messages != "" {
		t.Fatalf("exit %d, stderr %s", exit, messages)
	}
	var got struct {
		Format, Status string
		Answers        []struct {
			Away     float64
			Timbers  map[string]string
			Level    string
			Smallest float64 `json:"smallest_contrast"`
			Plan     plannedJSON
		}
	}
	decoder := json.NewDecoder(strings.NewReader(out))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&got); err != nil {
		t.Fatalf("%v in %.300s", err, out)
	}
	if got.Format != "oddments/again 1" || got.Status != "optimal" || len(got.Answers) == 0 {
		t.Fatalf("%s, %s, %d answers", got.Format, got.Status, len(got.Answers))
	}
	known := species.Builtin()
	home := store.OpenHome(s.home)
	saved, err := home.OpenPattern(file, known)
	if err != nil {
		t.Fatal(err)
	}
	timber, _, _ := home.Rack(known)
	shop, _, _ := home.Shop()
	before := 0.0
	for i, a := range got.Answers {
		p, away := saved.Pattern, 0.0
		p.Strips = append([]pattern.Strip{}, p.Strips...)
		for n := range p.Strips {
			was, _ := species.Builtin().Get(p.Strips[n].Species)
			now, ok := species.Builtin().Get(a.Timbers[was.Key])
			if !ok {
				t.Fatalf("answer %d: %v", i+1, a.Timbers)
			}
			p.Strips[n].Species = now.Key
			away += p.Strips[n].Width.MM() * was.Contrast(now)
		}
		if math.Abs(away-a.Away) > 1e-6 || a.Away < before {
			t.Errorf("answer %d: %v away, said %v after %v", i+1, away, a.Away, before)
		}
		before = a.Away
		job := cutting.Job{Rack: timber, Shop: shop, Patterns: []cutting.Demand{{Stem: saved.Stem, Pattern: p, Copies: 2}}}
		if err := cutting.Verify(job, a.Plan.plan(t)); err != nil || a.Plan.Short > 0 {
			t.Errorf("answer %d: %d short, %v", i+1, a.Plan.Short, err)
		}
	}
}
