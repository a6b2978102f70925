package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/planview"
)

// emptied takes out what stands in a field.
const emptied = "ctrl+u"

func read(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// One key and enter write the picture, from whatever screen; what lay there is kept.
func TestPictureByKey(t *testing.T) {
	t.Chdir(t.TempDir())
	d := onDemo(t, 100, 30).keys("P").shows("save the picture as (.svg or .png)", "> rookery-square.svg", "SVG drawing")
	d.keys("enter").shows("picture written: ", "rookery-square.svg")
	if svg := read(t, "rookery-square.svg"); !strings.Contains(svg, "<svg ") || !strings.Contains(svg, "Rookery square") {
		t.Error("it is no picture of the pattern")
	}
	t.Setenv("HOME", t.TempDir())
	t.Setenv("USERPROFILE", os.Getenv("HOME"))
	d.keys("P").keys(emptied).text("~/at-home.svg").keys("enter").shows("at-home.svg")
	read(t, filepath.Join(os.Getenv("HOME"), "at-home.svg"))
	if err := os.WriteFile("mine.png", []byte("something else"), 0o644); err != nil {
		t.Fatal(err)
	}
	d.keys("tab P").keys(emptied).text("mine.png").keys("enter").shows("as .bak")
	if png := read(t, "mine.png"); !strings.HasPrefix(png, "\x89PNG") {
		t.Error("the PNG is none")
	}
	if read(t, "mine.png.bak") != "something else" {
		t.Error("what lay there is lost")
	}
}

// What cannot be written is said in the field, or on the screen; esc writes nothing.
func TestExportRefused(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	d := onDemo(t, 100, 30).keys("P").keys(emptied).text("board.gif").keys("enter").shows("must end in .svg or .png")
	d.keys("esc")
	d.keys("P").keys(emptied).text("none/board.svg").keys("enter").shows("no such file or directory", "must be there")
	d.keys("B esc")
	if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
		t.Errorf("written all the same: %v, %v", left, err)
	}
}

// The sheet follows the plan that it needs, and is made of one that is there.
func TestSheetByKey(t *testing.T) {
	t.Chdir(t.TempDir())
	d := onDemo(t, 100, 30).keys("B").shows("save the sheet as (.html)", "> rookery-square.html")
	d.keys("enter").shows("sheet written: ", "rookery-square.html")
	first := read(t, "rookery-square.html")
	if !strings.Contains(first, "<h1><bdi>Rookery square</bdi></h1>") || !strings.Contains(first, "bandsaw fence") {
		t.Error("the sheet lacks its plan")
	}
	if of[planview.Screen](d.app).Awaits() != "" {
		t.Error("a sheet still waits")
	}
	d.keys("4 + B").keys(emptied).text("two.html").keys("enter").shows("sheet written: ", "two.html")
	if two := read(t, "two.html"); !strings.Contains(two, "made 2 times") {
		t.Error("the copies of the plan's screen do not count")
	}
	// Without a key nothing more is written by the next plan.
	d.keys("+")
	if left, _ := filepath.Glob("*.bak"); len(left) > 0 {
		t.Errorf("written again: %v", left)
	}
}

// Boards that are planned together have one sheet; so have those of a set that nobody saved.
func TestSheetOfSeveral(t *testing.T) {
	t.Chdir(t.TempDir())
	d := onDemo(t, 100, 30).keys("4 a").text("candle").keys("enter B").keys(emptied).text("two.html").keys("enter").shows("sheet written: ", "two.html")
	page := read(t, "two.html")
	for _, want := range []string{"<title>2 boards: ", "<h1>1. <bdi>Rookery square</bdi></h1>", "<h1>2. <bdi>Candle sill</bdi></h1>", "What to glue in which evening"} {
		if !strings.Contains(page, want) {
			t.Errorf("the sheet of two has not %q", want)
		}
	}
	set := screen.ExportSet{Job: d.app.plan.Job, Plan: d.app.plan.Plan}
	set.Job.Patterns[0].Stem = "cake-1"
	d.app, _ = d.app.obey(0, []screen.Request{set})
	d.shows("save the sheet as (.html)", "> boards.html").keys("enter").shows("sheet written: ", "boards.html")
	if page := read(t, "boards.html"); !strings.Contains(page, "pattern <bdi>cake-1</bdi>") {
		t.Error("the sheet of a set has not its boards")
	}
}
