package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo/phototest"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

// A pile is typed line by line, and lies in the maker's own file after each; the
// demo's rack is put away and not mixed with it.
func TestTypeAPile(t *testing.T) {
	d := onDemo(t, 80, 24).keys("tab a")
	d.text("black cherry 620 85 77 flat split 0-40").shows("black cherry 620 x 85 x 77")
	d.keys("enter").shows("on the rack: ", "> ")
	if s := d.screen(); strings.Contains(s, "look at PE2") {
		t.Errorf("a piece of the demo is named on the maker's own rack:\n%s", s)
	}
	d.text("hard maple 410x60x24 planed 8.1% x3").keys("enter")
	d.keys("up enter esc") // the same once more
	r, _, err := d.app.files.Rack(species.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Pieces) != 3 || r.Pieces[0].ID != "CH1" || r.Pieces[2].ID != "MA2" || r.Pieces[2].Quantity != 3 || !r.Pieces[2].Planed {
		t.Errorf("on the rack lies %+v", r.Pieces)
	}
	d.shows("7 pieces", "CH1", "MA1", "MA2")
	d.keys("u u u")
	if n := len(d.app.rack.History.Now().Pieces); n != 0 {
		t.Errorf("undone the rack has %d pieces", n)
	}
}

// What cannot be taken is said while it is typed, and nothing is lost by enter.
func TestPileRefuses(t *testing.T) {
	d := onDemo(t, 120, 40).keys("tab a").text("wenge 300 4").shows("thickness?")
	d.keys("enter").shows("thickness?", "> wenge 300 4")
	d.text(" zzz").shows("zzz")
	if len(d.app.rack.History.Now().Pieces) != len(demoSetup(t).Rack.Pieces) {
		t.Error("the rack changed")
	}
}

// Changes to the demo's rack are tried and never saved.
func TestDemoRackIsNotSaved(t *testing.T) {
	d := onDemo(t, 80, 24).keys("tab down x").shows("not saved")
	if saved(t, d, "rack.toml") != "" {
		t.Error("the demo's rack was saved into the maker's home")
	}
	before := len(demoSetup(t).Rack.Pieces)
	if n := len(d.app.rack.History.Now().Pieces); n != before-1 {
		t.Errorf("%d pieces after one was used up, of %d", n, before)
	}
	d.keys("u")
	if n := len(d.app.rack.History.Now().Pieces); n != before {
		t.Errorf("%d pieces after undo", n)
	}
}

func TestRackOrderFilterAndEdit(t *testing.T) {
	d := onDemo(t, 120, 40).keys("tab o").shows("by length")
	first := strings.Index(d.screen(), "1280")
	if first < 0 {
		t.Fatal("the longest piece is not shown")
	}
	d.keys("w").text("pear").keys("enter").shows("only pear", "PE1", "PE2")
	if strings.Contains(d.screen(), "HB1") {
		t.Error("a hornbeam is shown though only pear was asked for")
	}
	d.keys("enter").shows("change PE1").keys("esc f").shows("!")
	e, _ := d.app.rack.History.Now().Get("PE1")
	if !e.UseFirst {
		t.Error("PE1 is not marked use first")
	}
	d.keys("g t")
	if got, _ := d.app.rack.History.Now().Get("PE1"); got.Rings == e.Rings {
		t.Error("the rings stay")
	}
	if _, ok := d.app.rack.History.Now().Get("PE3"); !ok {
		t.Error("another one just like it has no id of its own")
	}
}

// A rack that another program changed is never written over silently.
func TestRackChangedByAnother(t *testing.T) {
	d := onDemo(t, 80, 24).keys("tab a").text("pear 500 60 30").keys("enter esc")
	r := d.app.rack.History.Now()
	r.Pieces = append(r.Pieces[:1:1], r.Pieces...)
	r.Pieces[0].ID = "THEIRS"
	if _, err := d.app.files.SaveRack(r, store.Overwrite); err != nil {
		t.Fatal(err)
	}
	d.keys("f").shows("rack.toml was changed elsewhere")
	d.keys("enter").shows("THEIRS")
}

// The question waits while a line is typed: the key that ends the line must not answer
// it, and no letter of it is lost.
func TestRackChangedByAnotherWhileTyping(t *testing.T) {
	d := onDemo(t, 80, 24).keys("tab a").text("pear 500 60 30").keys("enter")
	r := d.app.rack.History.Now()
	r.Pieces = append(r.Pieces[:1:1], r.Pieces...)
	r.Pieces[0].ID = "THEIRS"
	if _, err := d.app.files.SaveRack(r, store.Overwrite); err != nil {
		t.Fatal(err)
	}
	d.text("pear 510 60 30").keys("enter").text("pear 520")
	if s := d.screen(); strings.Contains(s, "changed elsewhere") || !strings.Contains(s, "pear 520") {
		t.Errorf("the line is no longer there:\n%s", s)
	}
	d.keys("esc").shows("rack.toml was changed elsewhere", "overwrite it with yours").keys("down enter")
	if got, _, err := d.app.files.Rack(species.Builtin()); err != nil || len(got.Pieces) != 2 {
		t.Errorf("the other's rack stands: %+v, %v", got.Pieces, err)
	}
	if len(d.app.waiting) > 0 {
		t.Error("it is asked again")
	}
}

// onPhoto starts on a photo of two pieces between papers, which is read for the demo's rack.
func onPhoto(t *testing.T, w, h int) *hand {
	t.Helper()
	scene, _, _ := phototest.Room(colour.Lab{L: 30, A: 9, B: 12}, colour.Lab{L: 70, A: 6, B: 20})
	file := filepath.Join(t.TempDir(), "my timber.jpg")
	if err := os.WriteFile(file, phototest.JPEG(scene.Image()), 0o600); err != nil {
		t.Fatal(err)
	}
	return onDemo(t, w, h).keys("2 p").shows("photo of the timber next").text(file).keys("enter").shows("Colour: frame on")
}

// Colours are read from a photo that the rack asks for: boxes are undone on its screen, and what
// is kept is one step of the rack.
func TestColoursOfTheRack(t *testing.T) {
	d := onPhoto(t, 80, 24).shows("frame on paper 1", "400 x 300", "[RACK]")
	d.keys("left left left left left } } } } } } }").shows("% from an even light").keys("enter").shows("paper 1 is set", "by 1 paper", "n pieces")
	d.keys("u").shows("undone: the last box", "by 0 papers").keys("U").shows("by 1 paper")
	d.keys("n right right right right right right right right right right { { { enter").shows("is set; k keeps the colours", "k keep")
	id := "RB1" // which stands first in the order that the rack is shown in
	d.keys("k").shows("[RACK]", "changed on the demo rack only")
	if e, _ := d.app.rack.History.Now().Get(id); !e.Colour.Known || !strings.HasPrefix(e.From, "photo 2026-11-25, paper, daylight, about 4.6") {
		t.Errorf("%+v", e)
	}
	d.keys("u")
	if e, _ := d.app.rack.History.Now().Get(id); e.Colour.Known {
		t.Error("it is no step of the rack")
	}
}
