package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/exp/golden"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/setup"
)

// inHome starts as the program does, on what lies in a folder.
func inHome(t *testing.T, dir string, o Options) *hand {
	t.Helper()
	o.Home, o.Profile = store.OpenHome(dir), paint.None
	t.Cleanup(func() { _ = o.Home.Close() })
	s, err := setup.Load(o)
	if err != nil {
		t.Fatal(err)
	}
	s.Now = demoSetup(t).Now
	return start(t, s, 80, 24)
}

// figures returns what the findings and the working figures of the pattern on the bench
// are, without the rows about them: what can be undone is another after a start.
func (d *hand) figures() string {
	d.t.Helper()
	var all []string
	for _, way := range []string{"5", "7"} {
		lines := strings.Split(d.keys(way).screen(), "\n")
		all = append(all, lines[0])
		all = append(all, lines[2:len(lines)-3]...)
	}
	return strings.Join(all, "\n")
}

// The first piece or pattern of one's own begins one's own workshop, and nothing of the
// demo's counts any more: not in the same session, and not after a restart.
func TestOwnWorkshopBegins(t *testing.T) {
	own := shop.Default()
	own.Allowance.Planing, own.Allowance.Flattening = 1500*length.Micrometre, 1500*length.Micrometre
	own.Allowance.Length, own.Draw.TailsPct = 8*length.Millimetre, 95
	inches := own
	inches.Units = length.InInches
	taken := shop.Default()
	taken.Draw.TailsPct = 95
	for _, c := range []struct {
		name, begin, answer string
		want                shop.Shop
	}{
		{"a new pattern", "ctrl+n enter", "2 8 enter 8 enter enter", own},
		{"the usual answers", "ctrl+n enter", "enter enter enter", taken},
		{"in inches", "ctrl+n enter", "2 8 enter 8 enter i n enter", inches},
		{"back and forth", "ctrl+n enter", "enter 8 enter up up 2 8 m m enter enter enter", own},
		{"no answer", "ctrl+n enter", "esc", shop.Default()},
		{"a demo pattern saved", "S", "2 8 enter 8 enter enter", own},
		{"a piece", "tab a p e a r space 5 0 0 space 6 0 space 4 0 enter esc", "2 8 enter 8 enter enter", own},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "home")
			d := inHome(t, dir, Options{})
			demo := d.app.physics.Shop()
			d.keys(c.begin).shows("Your own workshop begins", "> 27 ")
			if got := d.app.physics.Shop(); got == demo || got != shop.Default() {
				t.Errorf("before an answer the workshop is %+v", got)
			}
			d.keys(c.answer)
			if got := d.app.physics.Shop(); got != c.want {
				t.Errorf("the workshop is %+v, want %+v", got, c.want)
			}
			if d.app.here() != "bench" {
				d.keys("shift+tab")
			}
			d.keys("ctrl+n enter a enter a down enter A x enter S") // a pattern of one's own, and no second question
			if d.app.overlay != nil {
				t.Fatalf("a question lies over it:\n%s", d.screen())
			}
			again := inHome(t, dir, Options{Pattern: "x"})
			if got := again.app.physics.Shop(); got != c.want {
				t.Errorf("after a restart the workshop is %+v, want %+v", got, c.want)
			}
			if before, after := d.figures(), again.figures(); before != after {
				t.Errorf("before and after a restart figures differ:\n%s\n%s", before, after)
			}
		})
	}
}

// A pattern of the maker's own that is opened from a file, or a rack, has nothing of the
// demo's workshop; a workshop's file is never asked about.
func TestDemoWorkshopCountsForTheDemoAlone(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "mine.toml")
	demo := demoSetup(t)
	if _, err := store.SavePatternFile(file, demo.Open.Pattern, store.Absent); err != nil {
		t.Fatal(err)
	}
	if got := inHome(t, filepath.Join(dir, "none"), Options{Pattern: file}).app.physics.Shop(); got != shop.Default() {
		t.Errorf("a file is figured with %+v", got)
	}
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("rack.toml", "format = \"oddments/rack 1\"\n")
	if got := inHome(t, dir, Options{}).app.physics.Shop(); got != shop.Default() {
		t.Errorf("beside a rack of one's own the demo is figured with %+v", got)
	}
	if err := os.Remove(filepath.Join(dir, "rack.toml")); err != nil {
		t.Fatal(err)
	}
	write("shop.toml", "format = \"oddments/shop 1\"\n[kerf]\nrip = \"3 mm\"\n")
	d := inHome(t, dir, Options{}).keys("ctrl+n enter")
	if d.app.overlay != nil || d.app.physics.Shop().Kerf.Rip != 3*length.Millimetre {
		t.Errorf("beside a shop of one's own:\n%s", d.screen())
	}
}

func TestBeginningGolden(t *testing.T) {
	golden.RequireEqual(t, []byte(inHome(t, filepath.Join(t.TempDir(), "home"), Options{}).keys("ctrl+n enter 3").screen()))
}

// An answer that cannot be is not gone on from.
func TestBeginningRefuses(t *testing.T) {
	d := inHome(t, filepath.Join(t.TempDir(), "home"), Options{}).keys("ctrl+n enter 2 4 enter").shows("> 24 ", "must be 25 mm to 125 mm")
	d.keys("backspace 6 enter 1 0 0 1 enter").shows("> 1001 ", "must be 0 to 1000 mm")
	d.keys("backspace backspace backspace enter y d enter").shows(`must be mm or in`).keys("esc")
	if d.app.overlay != nil {
		t.Error("Esc does not close it")
	}
}

// What is set is saved at once, with the comments of the file; undo brings the file back.
func TestSettingsAreSaved(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "shop.toml")
	const text = "# mine\nformat = \"oddments/shop 1\"\n[kerf]\nrip = \"3 mm\" # the old blade\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	on := func() string {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	d := inHome(t, dir, Options{}).keys(": down").shows("> rip", "3 mm", "yours").keys("enter 2 , 6 enter").shows("kerf.rip is 2.6 mm now")
	set := strings.Replace(text, "3 mm", "2.6 mm", 1)
	if got := on(); got != set {
		t.Errorf("the file is %q", got)
	}
	d.keys("enter 9 9 9 9 enter").shows("must be 0 to 1000 mm").keys("esc u").shows("undone: kerf.rip")
	if got := on(); got != text || d.app.physics.Shop().Kerf.Rip != 3*length.Millimetre {
		t.Errorf("undone the file is %q", got)
	}
	d.keys("U").shows("redone: kerf.rip").keys("U").shows("no setting to redo")
	// Put back to what is built in, its line goes and what its maker wrote behind it stays.
	d.keys("x").shows("kerf.rip is 3.2 mm now, as built in", "built in")
	if got := on(); got != "# mine\nformat = \"oddments/shop 1\"\n[kerf]\n# the old blade\n" {
		t.Errorf("built in again the file is %q", got)
	}
	d.keys("x").shows("kerf.rip is built in already").keys("u").shows("> rip", "2.6 mm")
	if got := on(); got != set {
		t.Errorf("undone it is %q", got)
	}
	// Another program's change is not written over.
	theirs := strings.Replace(text, "3 mm", "3.5 mm", 1)
	if err := os.WriteFile(file, []byte(theirs), 0o600); err != nil {
		t.Fatal(err)
	}
	d.keys("enter 2 enter").shows("read again", "3.5 mm")
	if got := on(); got != theirs {
		t.Errorf("the other program's file is %q", got)
	}
	d.keys("u").shows("undone: read again")
	if got := on(); got != strings.Replace(text, "3 mm", "2 mm", 1) {
		t.Errorf("brought back it is %q", got)
	}
	d.keys("esc").shows("[BENCH]")
	inHome(t, dir, Options{Shop: file}).keys(": down enter 2 enter").shows("is read from")
}

// In the demo the first setting begins one's own workshop; it changes the screens' unit.
func TestFirstSettingBeginsTheWorkshop(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "home")
	d := inHome(t, dir, Options{}).keys(":").shows("the demo's workshop", "demo").keys("down x").shows("kerf.rip is the demo's").keys("up enter i n enter").shows("your own workshop begins: units is in now")
	want := shop.Default()
	want.Units = length.InInches
	if got := d.app.physics.Shop(); got != want || d.app.unit != length.InInches {
		t.Errorf("the workshop is %+v", got)
	}
	if d.keys("esc ctrl+n enter"); d.app.overlay != nil {
		t.Error("it is asked about once more")
	}
}

// What a maker would look for finds the settings.
func TestSearchFindsTheSettings(t *testing.T) {
	for _, word := range []string{"kerf", "settings", "saw", "allowances", "machines", "prices"} {
		d := onDemo(t, 80, 24).keys("/").text(word)
		if word == "saw" { // the steps say how to saw too
			d.keys("down down")
		}
		d.keys("enter").shows("Settings   of your workshop")
	}
	onDemo(t, 80, 24).keys(": f").text("humid").keys("enter").shows("> humidity")
}
