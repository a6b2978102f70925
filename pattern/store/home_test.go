package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
)

func newHome(t *testing.T) *Home {
	t.Helper()
	h := OpenHome(filepath.Join(t.TempDir(), "deep", "home"))
	t.Cleanup(func() {
		if err := h.Close(); err != nil {
			t.Error(err)
		}
	})
	return h
}

func tray(name string, strips int) pattern.Pattern {
	p := pattern.Pattern{Name: name, Panel: pattern.Panel{Length: 450 * mm, Thickness: 22 * mm}}
	for range strips {
		p.Strips = append(p.Strips, pattern.Strip{Species: "pear", Width: 9 * mm})
	}
	return p
}

func mustSave(t *testing.T, h *Home, stem string, p pattern.Pattern, base Version) Version {
	t.Helper()
	v, err := h.SavePattern(stem, p, base)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestResolveHome(t *testing.T) {
	for _, c := range []struct{ flag, env, want string }{
		{"f", "e", "f"}, {"f", "", "f"}, {"", "e", "e"},
	} {
		if got, err := ResolveHome(c.flag, c.env); got != c.want || err != nil {
			t.Errorf("ResolveHome(%q, %q) = %q, %v", c.flag, c.env, got, err)
		}
	}
	t.Setenv("HOME", t.TempDir())
	if got, err := ResolveHome("", ""); filepath.Base(got) != "oddments" || !filepath.IsAbs(got) || err != nil {
		t.Errorf("the usual home is %q", got)
	}
}

func TestEmptyHome(t *testing.T) {
	h := newHome(t)
	s, v, err := h.Shop()
	if err != nil || s != shop.Default() || v != Absent {
		t.Errorf("shop %v, %q, %v", s, v, err)
	}
	if r, v, err := h.Rack(nil); err != nil || len(r.Pieces)+len(r.Strips) != 0 || v != Absent {
		t.Errorf("rack %v, %q, %v", r, v, err)
	}
	if table, err := h.Species(); err != nil || table.Len() != species.Builtin().Len() {
		t.Errorf("species: %v", err)
	}
	if all, err := h.Patterns(nil); err != nil || len(all) != 0 {
		t.Errorf("patterns %v, %v", all, err)
	}
	if all, err := h.Recoveries(nil); err != nil || len(all) != 0 {
		t.Errorf("recoveries %v, %v", all, err)
	}
	if _, err := h.Pattern("tray", nil); !errors.Is(err, ErrNotFound) || !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a pattern: %v", err)
	}
	if err := h.DropRecovery("tray"); err != nil {
		t.Error(err)
	}
	if err := h.Hold(); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(h.Dir()); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("reading made the folder: %v", err)
	}
}

func TestSaveAndRead(t *testing.T) {
	h := newHome(t)
	p := tray("Tray", 3)
	v := mustSave(t, h, "tray", p, Absent)
	got, err := h.Pattern("tray", knownForTest)
	if err != nil || got.Version != v || got.Stem != "tray" {
		t.Fatalf("%+v, %v", got, err)
	}
	same(t, got.Pattern, p)
	bak := got.File + ".bak"
	if _, err := os.Stat(bak); err == nil {
		t.Error("a .bak of nothing")
	}
	first := read(t, got.File)
	v2 := mustSave(t, h, "tray", tray("Tray", 4), v)
	if read(t, bak) != first {
		t.Error(".bak is not the file before it")
	}
	if again := mustSave(t, h, "tray", tray("Tray", 4), v2); again != v2 || read(t, bak) != first {
		t.Error("saving the same moved the .bak on")
	}
	stems, err := stemsIn(h.path(patternsFolder))
	if err != nil || !slices.Equal(stems, []string{"tray"}) {
		t.Errorf("files %v, %v", stems, err)
	}
}

func TestSaveRackShopSpecies(t *testing.T) {
	h := newHome(t)
	r := rack.Rack{Strips: []rack.Strip{{ID: "P", Species: "pear", Width: 9 * mm, Thickness: 20 * mm, Length: 300 * mm, Quantity: 2}}}
	rv, err := h.SaveRack(r, Absent)
	if err != nil {
		t.Fatal(err)
	}
	gotRack, v, err := h.Rack(knownForTest)
	same(t, gotRack, r)
	if v != rv || err != nil {
		t.Errorf("version %q, %v", v, err)
	}
	s := shop.Default()
	s.Keep.Width = 31 * mm
	if _, err := h.SaveShop(s, Absent); err != nil {
		t.Fatal(err)
	}
	if got, _, err := h.Shop(); err != nil || got != s {
		t.Errorf("shop %v, %v", got, err)
	}
	own := []species.Species{{Key: "plum", CR: 0.002, Sources: map[string]species.Source{"cr": {Text: "mine", Status: species.Yours}}}}
	if _, err := h.SaveTimbers(own, Absent); err != nil {
		t.Fatal(err)
	}
	table, err := h.Species()
	if err != nil {
		t.Fatal(err)
	}
	_, plum := table.Get("plum")
	if _, plumm := table.Get("plumm"); !plum || plumm {
		t.Errorf("plum %v, plumm %v", plum, plumm)
	}
}

func TestPatternsListsBrokenOnes(t *testing.T) {
	h := newHome(t)
	mustSave(t, h, "tray", tray("Tray", 3), Absent)
	mustSave(t, h, "board-2", tray("Board", 3), Absent)
	write(t, h.patternPath("broken"), "format = 1")
	write(t, h.path("patterns/Old Tray.toml"), goodPattern)
	write(t, h.path("patterns/readme.txt"), "x")
	all, err := h.Patterns(nil)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, l := range all {
		got = append(got, filepath.Base(l.File))
		if wantErr := l.Stem != "tray" && l.Stem != "board-2"; wantErr != (l.Err != nil) {
			t.Errorf("%s: %v", l.File, l.Err)
		}
		if l.Err != nil && !strings.Contains(l.String(), filepath.Base(l.File)) {
			t.Errorf("listed as %q", l)
		}
	}
	if !slices.Equal(got, []string{"Old Tray.toml", "board-2.toml", "broken.toml", "tray.toml"}) {
		t.Errorf("listed %v", got)
	}
	var e *Error
	if !errors.As(all[0].Err, &e) || !errors.Is(e, ErrStem) || !strings.Contains(e.Hint, "old-tray.toml") {
		t.Errorf("hint of the odd name: %v", all[0].Err)
	}
}

func TestOpenPattern(t *testing.T) {
	h := newHome(t)
	mustSave(t, h, "tray", tray("Tray", 3), Absent)
	outside := filepath.Join(t.TempDir(), "My Board.toml")
	write(t, outside, goodPattern)
	for arg, stem := range map[string]string{"tray": "tray", outside: "my-board"} {
		if got, err := h.OpenPattern(arg, nil); err != nil || got.Stem != stem {
			t.Errorf("%s: stem %q, %v", arg, got.Stem, err)
		}
	}
	for _, arg := range []string{"", ".", "..", "TRAY", "tray.bak", "trai", "-h", "con", "tray\x00", "./missing.toml", "missing.toml", "../patterns/tray", t.TempDir() + "/"} {
		if got, err := h.OpenPattern(arg, nil); err == nil {
			t.Errorf("%q opened %s", arg, got.File)
		}
	}
	_, err := h.OpenPattern("trai", nil)
	var e *Error
	if !errors.As(err, &e) || e.Hint != "did you mean tray?" {
		t.Errorf("hint %v", err)
	}
	for _, stem := range []string{"../x", "a/b", `a\b`, "", "..", "A", "a.b", "é"} {
		if _, err := h.SavePattern(stem, tray("x", 1), Absent); !errors.Is(err, ErrStem) {
			t.Errorf("saved as %q: %v", stem, err)
		}
		if err := h.SaveRecovery(stem, tray("x", 1), nil, Absent); !errors.Is(err, ErrStem) {
			t.Errorf("kept as %q: %v", stem, err)
		}
	}
}

func TestOpenRackAndShop(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "r.toml"), goodRack)
	write(t, filepath.Join(dir, "s.toml"), goodShop)
	if r, err := OpenRack(filepath.Join(dir, "r.toml"), knownForTest); err != nil || len(r.Pieces) != 1 {
		t.Errorf("%v, %v", r, err)
	}
	if s, err := OpenShop(filepath.Join(dir, "s.toml")); err != nil || s != shop.Default() {
		t.Errorf("%v, %v", s, err)
	}
	for _, file := range []string{filepath.Join(dir, "none.toml"), dir} {
		if _, err := OpenRack(file, nil); err == nil {
			t.Errorf("%s was read", file)
		}
		if _, err := OpenShop(file); err == nil {
			t.Errorf("%s was read", file)
		}
	}
}

func TestSavePatternFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "x.toml")
	v, err := SavePatternFile(file, tray("x", 1), Absent)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := SavePatternFile(file, tray("x", 2), Absent); !errors.Is(err, ErrChanged) {
		t.Errorf("got %v", err)
	}
	if _, err := SavePatternFile(file, tray("x", 2), v); err != nil {
		t.Error(err)
	}
}

func TestDemo(t *testing.T) {
	d, err := ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Patterns) != 3 || len(d.Rack.Pieces) < 12 || len(d.Rack.Strips) < 2 || d.Shop == shop.Default() {
		t.Errorf("the demo is thin: %d patterns, %d pieces, %d ready strips", len(d.Patterns), len(d.Rack.Pieces), len(d.Rack.Strips))
	}
	h := newHome(t)
	for _, s := range d.Patterns {
		if n := len(s.Pattern.Strips); n < 9 || n > 13 {
			t.Errorf("%s has %d strips", s.Stem, n)
		}
		if Stem(s.Pattern.Name) != s.Stem {
			t.Errorf("%s is named %q", s.Stem, s.Pattern.Name)
		}
		mustSave(t, h, s.Stem, s.Pattern, Absent)
		got, err := h.Pattern(s.Stem, nil)
		if err != nil {
			t.Fatal(err)
		}
		same(t, got.Pattern, s.Pattern)
	}
	if _, err := h.SaveRack(d.Rack, Absent); err != nil {
		t.Error(err)
	}
	if _, err := h.SaveShop(d.Shop, Absent); err != nil {
		t.Error(err)
	}
	for _, name := range []string{"rack.toml", "rookery-square.toml", "saltings-round.toml", "candle-sill.toml"} {
		data, err := demoFiles.ReadFile("demo/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if name == "rack.toml" {
			roundRack(t, data, true)
			continue
		}
		roundPattern(t, data, true)
	}
}
