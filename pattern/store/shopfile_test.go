package store

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

func shopFileOf(t *testing.T, text string) ShopFile {
	t.Helper()
	f, err := ReadShopFile(strings.NewReader(text), "shop.toml")
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Every key says what it is for and what it may be; typed as it is shown in its field, in
// either unit, it means the same.
func TestEverySettingReadsBack(t *testing.T) {
	full := shopFileOf(t, string(sample(t, "shop-1.toml")))
	for _, f := range []ShopFile{{}, full} {
		keys := map[string]bool{}
		for _, s := range f.Settings() {
			if keys[s.Key] || s.About == "" || len(s.About) > 80 || s.Key != "units" && s.Group.About == "" {
				t.Errorf("%s: about %q, group %+v", s.Key, s.About, s.Group)
			}
			keys[s.Key] = true
			if s.Yours != (f == full) {
				t.Errorf("%s: yours %v", s.Key, s.Yours)
			}
			for _, u := range []length.Unit{length.InMM, length.InInches} {
				if s.Range(u) == "" || s.Shown(u) == "" || s.ShownUsual(u) == "" || s.Value() == nil || s.Usual() == nil {
					t.Errorf("%s says nothing of its range or value", s.Key)
				}
				next, err := f.Set(s, s.Typed(u), u)
				if err != nil || next.Shop() != f.Shop() {
					t.Errorf("%s typed %q in %s: %v\n%+v\n%+v", s.Key, s.Typed(u), u, err, next.Shop(), f.Shop())
				}
			}
		}
		if len(keys) < 60 {
			t.Errorf("%d settings", len(keys))
		}
	}
}

// A file is the same but for the value that is set, whatever its maker wrote into it.
func TestSetKeepsTheFile(t *testing.T) {
	const text = "# My shop, a dry cellar.\nformat = 'oddments/shop 1'\nprice.stall = 45 # May fair\n\n[ kerf ] # measured\n" +
		"  rip=3 # old blade\n\n# seasons\n[season]\ndry = { humidity = 33 } # heated\n\n[standing]\nwidths = [\n  20, # thin\n  \"1 in\",\n] # both\n"
	for _, c := range []struct{ key, typed, from, to string }{
		{"kerf.rip", "2,6", "rip=3 #", "rip=\"2.6 mm\" #"},
		{"kerf.rip", "1/8 in", "rip=3 #", "rip=\"1/8 in\" #"},
		{"kerf.resaw", "1", "old blade\n", "old blade\n  resaw = \"1 mm\" # width of the bandsaw cut that parts slices\n"},
		{"season.dry.humidity", "34 %", "humidity = 33", "humidity = 34"},
		{"season.dry.temperature", "-3.5 °C", "humidity = 33 }", "humidity = 33, temperature = -3.5 }"},
		{"standing.widths", "22, 30", "[\n  20, # thin\n  \"1 in\",\n]", "[\"22 mm\", \"30 mm\"]"},
		{"standing.widths", "none", "[\n  20, # thin\n  \"1 in\",\n]", "[]"},
		{"price.stall", "50", "45 #", "50 #"},
		{"price.fee_percent", "3", "May fair\n", "May fair\nprice.fee_percent = 3 # what a sale costs (%)\n"},
		{"units", "in", "May fair\n", "May fair\nunits = \"in\" # mm or in on the screen; files keep what was typed\n"},
		{"limits.step", "25, 70 um", "both\n", "both\n\n[limits]\nstep = [25, 70] # step at a glue line, on each face (um)\n"},
		{"maker.name", ` Ida "the plane" Quill `, "both\n", "both\n\n[maker]\nname = \"Ida \\\"the plane\\\" Quill\" # who made it\n"},
	} {
		f := shopFileOf(t, text)
		s, err := f.Setting(c.key)
		if err != nil {
			t.Fatal(err)
		}
		next, err := f.Set(s, c.typed, length.InMM)
		if want := strings.Replace(text, c.from, c.to, 1); err != nil || next.text != want {
			t.Errorf("%s: %v\n%s\nwant\n%s", c.key, err, next.text, want)
		}
	}
}

// What a key cannot be is refused with what it may be, and leaves all as it was.
func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ key, typed, want string }{
		{"kerf.rip", "1001", "0 to 1000 mm"},
		{"kerf.rip", "wide", "write a number"},
		{"kerf.rip", "-1", "must not be below 0"},
		{"air.humidity", "101", "0 to 100"},
		{"air.humidity", "inf", "must be a number"},
		{"glue.class", "2.5", "a whole number from 0 to 4"},
		{"limits.step", "70 25", "above the first"},
		{"limits.step", "70", "must be two numbers"},
		{"limits.contrast", "0", "above 0"},
		{"finish.wax_to_oil", "1:0", "the oil above 0"},
		{"finish.rack_slots", "900", "length and width"},
		{"standing.widths", "20, 20", "twice"},
		{"standing.widths", "1, 2, 3, 4, 5, 6, 7, 8, 9", "at most 8"},
		{"units", "yards", "mm or in"},
		{"maker.name", "a\u202eb", "control character"},
		{"draw.tails", "100.5", "0 to 100"},
	} {
		f := shopFileOf(t, goodShop)
		s, err := f.Setting(c.key)
		if err != nil {
			t.Fatal(err)
		}
		before := s.Shown(length.InMM)
		next, err := f.Set(s, c.typed, length.InMM)
		if err == nil || !strings.Contains(err.Error(), c.want) || next != f || s.Shown(length.InMM) != before {
			t.Errorf("%s as %q: %v, want %q", c.key, c.typed, err, c.want)
		}
	}
	for name, near := range map[string]string{"rip": "kerf.rip", "kerf.rib": "kerf.rip", "humidity": "air.humidity", "": "no such"} {
		if _, err := (ShopFile{}).Setting(name); !errors.Is(err, ErrNoSetting) || !strings.Contains(err.Error(), near) {
			t.Errorf("%q: %v", name, err)
		}
	}
}

// The answers of a first run are shared out exactly, and their file reads back.
func TestBeginning(t *testing.T) {
	usual, err := UsualBeginning().ShopFile()
	want := shop.Default()
	want.Draw.TailsPct = 95
	if err != nil || usual.Shop() != want {
		t.Errorf("the usual answers give %+v, %v", usual.Shop(), err)
	}
	b := Beginning{Sawn: 25*length.Millimetre + 3*length.Micrometre, Longer: length.Inch, Units: length.InInches}
	f, err := b.ShopFile()
	if err != nil {
		t.Fatal(err)
	}
	s := f.Shop()
	if s.Allowance.Planing+s.Allowance.Flattening != 3*length.Micrometre || s.Allowance.Length != length.Inch || s.Units != length.InInches {
		t.Errorf("%+v", s)
	}
}

// A file saved as it stands is byte for byte what it was but for the change, with the one
// before as .bak; the sample is a shop that is built in.
func TestShopFileIsSavedAsItStands(t *testing.T) {
	dir := t.TempDir()
	h := OpenHome(dir)
	defer func() { _ = h.Close() }()
	f, v, err := h.ShopFile()
	if err != nil || v != Absent || f != (ShopFile{}) || f.Shop() != shop.Default() {
		t.Fatalf("%+v, %q, %v", f, v, err)
	}
	const text = "# mine\n" + goodShop + "[kerf]\nrip = 3 # why\n"
	file := filepath.Join(dir, "shop.toml")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	f, v, err = h.ShopFile()
	if err != nil {
		t.Fatal(err)
	}
	s, err := f.Setting("kerf.rip")
	if err != nil {
		t.Fatal(err)
	}
	if f, err = f.Set(s, "2", length.InMM); err != nil {
		t.Fatal(err)
	}
	if _, err := h.SaveShopFile(f, "another"); !errors.Is(err, ErrChanged) {
		t.Errorf("over another version: %v", err)
	}
	if _, err := h.SaveShopFile(f, v); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{file: strings.Replace(text, "= 3", "= \"2 mm\"", 1), file + ".bak": text} {
		if data, err := os.ReadFile(name); err != nil || string(data) != want {
			t.Errorf("%s: %q, %v", name, data, err)
		}
	}
	var whole bytes.Buffer
	if err := WriteShop(&whole, shop.Default()); err != nil {
		t.Fatal(err)
	}
	for _, s := range shopFileOf(t, whole.String()).Settings() {
		if !s.Yours {
			t.Errorf("the sample does not say %s", s.Key)
		}
	}
}

// Every key of a file can be put back to what is built in; at the end all of it is, and what
// its maker wrote behind keys stands there still.
func TestUnset(t *testing.T) {
	file := shopFileOf(t, strings.Replace(string(sample(t, "shop-1.toml")), `rip = "3.1 mm"`, `rip = "3.1 mm" # the thin blade`, 1))
	for _, s := range file.Settings() {
		next, err := file.Unset(s)
		if err != nil {
			t.Fatalf("%s: %v", s.Key, err)
		}
		now, err := next.Setting(s.Key)
		if err != nil || now.Yours || now.Shown(length.InMM) != s.ShownUsual(length.InMM) {
			t.Errorf("%s is %s, %v", s.Key, now.Shown(length.InMM), err)
		}
		file = next
	}
	if file.Shop() != shop.Default() || !strings.Contains(file.text, "\n# the thin blade\n") || !strings.Contains(file.text, "[kerf]") {
		t.Errorf("what is left: %s", file.text)
	}
	if again, err := file.Unset(file.Settings()[0]); err != nil || again != file {
		t.Errorf("taken out twice: %v", err)
	}
}
