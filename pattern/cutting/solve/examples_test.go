package solve

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"github.com/pelletier/go-toml/v2"
)

const mm = length.Millimetre

// The worked plans in testdata: rack, shop, patterns, each made once, and the
// optimum that another program proved.

type fileRack struct {
	Piece []struct {
		ID, Species              string
		Length, Width, Thickness string
		Quantity                 int
		Planed                   bool
		UseFirst                 bool `toml:"use_first"`
	}
}

type fileShop struct {
	Kerf      map[string]string
	Allowance map[string]string
	Keep      map[string]string
	Draw      struct {
		UseFirst float64 `toml:"use_first"`
		Returned float64
		Opened   float64
	}
	Machine map[string]string
}

type filePattern struct {
	Panel struct{ Length, Thickness, Strips string }
	Strip []struct {
		Species, Width, Length string
		Count                  int
	}
}

func readTOML(t testing.TB, path string, into any) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err == nil {
		err = toml.Unmarshal(data, into)
	}
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
}

func mustLength(t testing.TB, s string) length.Length {
	t.Helper()
	l, err := length.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func readExample(t testing.TB, dir string) cutting.Job {
	t.Helper()
	var fr fileRack
	var fs fileShop
	readTOML(t, filepath.Join(dir, "rack.toml"), &fr)
	readTOML(t, filepath.Join(dir, "shop.toml"), &fs)
	job := cutting.Job{Shop: readShop(t, fs)}
	for _, p := range fr.Piece {
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{
			ID: p.ID, Species: p.Species, Length: mustLength(t, p.Length), Width: mustLength(t, p.Width),
			Thickness: mustLength(t, p.Thickness), Quantity: max(1, p.Quantity), Planed: p.Planed, UseFirst: p.UseFirst,
		})
	}
	paths, err := filepath.Glob(filepath.Join(dir, "p*.toml"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("%s: no patterns: %v", dir, err)
	}
	for _, path := range paths {
		var fp filePattern
		readTOML(t, path, &fp)
		p := pattern.Pattern{Panel: pattern.Panel{Length: mustLength(t, fp.Panel.Length), Thickness: mustLength(t, fp.Panel.Thickness)}}
		if fp.Panel.Strips != "" {
			if p.Panel.Make, err = pattern.ParseMake(fp.Panel.Strips); err != nil {
				t.Fatal(err)
			}
		}
		for _, s := range fp.Strip {
			strip := pattern.Strip{Species: s.Species, Width: mustLength(t, s.Width)}
			if s.Length != "" {
				strip.Length = mustLength(t, s.Length)
			}
			for range max(1, s.Count) {
				p.Strips = append(p.Strips, strip)
			}
		}
		stem := strings.TrimSuffix(filepath.Base(path), ".toml")
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: stem, Pattern: p, Copies: 1})
	}
	return job
}

func readShop(t testing.TB, f fileShop) shop.Shop {
	s := shop.Shop{}
	s.Kerf = shop.Kerf{Rip: mustLength(t, f.Kerf["rip"]), Crosscut: mustLength(t, f.Kerf["crosscut"]), Resaw: mustLength(t, f.Kerf["resaw"])}
	a := func(key string) length.Length { return mustLength(t, f.Allowance[key]) }
	s.Allowance = shop.Allowance{
		Truing: a("truing"), Cleaning: a("cleaning"), Planing: a("planing"), Jointing: a("jointing"),
		Flattening: a("flattening"), Length: a("length"), EndTrim: a("end_trim"), OverLength: a("over_length"),
	}
	s.Keep = shop.Keep{Length: mustLength(t, f.Keep["length"]), Width: mustLength(t, f.Keep["width"]), Thickness: mustLength(t, f.Keep["thickness"])}
	s.Draw = shop.Draw{UseFirstPct: f.Draw.UseFirst, ReturnedPct: f.Draw.Returned, TailsPct: 100, OpenedCM3: f.Draw.Opened}
	s.Machine.BandsawHeight = mustLength(t, f.Machine["bandsaw_height"])
	return s
}

func TestWorkedPlans(t *testing.T) {
	dirs, err := filepath.Glob("testdata/plan/*")
	if err != nil || len(dirs) != 11 {
		t.Fatalf("%d worked plans: %v", len(dirs), err)
	}
	for _, dir := range dirs {
		t.Run(filepath.Base(dir), func(t *testing.T) {
			t.Parallel()
			var want struct {
				Short int
				Drawn float64 `json:"drawn_cm3"`
			}
			data, err := os.ReadFile(filepath.Join(dir, "expected.json"))
			if err == nil {
				err = json.Unmarshal(data, &want)
			}
			if err != nil {
				t.Fatal(err)
			}
			job := readExample(t, dir)
			plan, err := Plan(context.Background(), job, Options{Workers: 2})
			if err != nil {
				t.Fatal(err)
			}
			if err := cutting.Verify(job, plan); err != nil {
				t.Error(err)
			}
			if plan.Status != cutting.Optimal || plan.Short != want.Short || math.Abs(plan.DrawnCM3-want.Drawn) > 1e-3 {
				t.Errorf("%v plan, %d short, %.6f cm3 drawn (bound %.6f), want optimal, %d, %.6f", plan.Status, plan.Short, plan.DrawnCM3, plan.LowerBoundCM3, want.Short, want.Drawn)
			}
		})
	}
}
