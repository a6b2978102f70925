package cli_test

import (
	"bytes"
	"fmt"
	"image"
	_ "image/png"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

// made writes an export of the demo's patterns, or of files, parted by blanks, and gives where it
// lies.
func made(t *testing.T, kind, patterns, name string) string {
	t.Helper()
	home := t.TempDir()
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	h := store.OpenHome(home)
	for _, p := range demo.Patterns {
		if _, err := h.SavePattern(p.Stem, p.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := h.SaveRack(demo.Rack, store.Absent); err != nil {
		t.Fatal(err)
	}
	if _, err := h.SaveShop(demo.Shop, store.Absent); err != nil {
		t.Fatal(err)
	}
	if err := h.Close(); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), name)
	env := command.System()
	var stdout, stderr bytes.Buffer
	env.Stdout, env.Stderr = &stdout, &stderr
	if code := cli.Run(t.Context(), append([]string{kind, "-o", file, "--home", home}, strings.Fields(patterns)...), env); code > 1 {
		t.Fatalf("%s %s: exit %d: %s", kind, patterns, code, stderr.String())
	}
	return file
}

// changed returns a copy of a page with something put in before its end.
func changed(t *testing.T, file, before, put string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(t.TempDir(), "copy.html")
	if err := os.WriteFile(copied, bytes.Replace(data, []byte(before), []byte(put+before), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	return copied
}

// demoSet is all that the demo has, as one set.
const demoSet = "rookery-square saltings-round candle-sill=2"

// sheets are the pages that are looked at, with about how many pages of paper each
// takes.
func sheets() []struct {
	pattern string
	pages   int
} {
	return []struct {
		pattern string
		pages   int
	}{{"saltings-round", 3}, {"candle-sill=4", 4}, {"../../../testdata/hostile/pattern.toml", 3}, {demoSet, 9}}
}

// Pages and pictures as a browser has them: one start for all.
func TestPagesInBrowser(t *testing.T) {
	b := startBrowser(t)
	t.Run("complaints", func(t *testing.T) { complains(t, b) })
	for _, s := range sheets() {
		file, name := made(t, "sheet", s.pattern, "sheet.html"), filepath.Base(s.pattern)
		for _, width := range []int{360, 1200} {
			t.Run(fmt.Sprintf("%s at %d", name, width), func(t *testing.T) { fitsWindow(t, b, file, width) })
		}
		for paper, points := range map[string]string{"A4": "59[45]", "Letter": "612"} {
			t.Run(name+" on "+paper, func(t *testing.T) { onPaper(t, b, file, paper, points, s.pages) })
		}
	}
	t.Run("a page a board", func(t *testing.T) { pageEach(t, b) })
	t.Run("thirteen strips on two pages", func(t *testing.T) { twoPages(t, b) })
	for _, pattern := range []string{"candle-sill", "../../../testdata/hostile/pattern.toml"} {
		t.Run("picture of "+filepath.Base(pattern), func(t *testing.T) {
			if complaints := b.show(t, made(t, "picture", pattern, "picture.svg"), 1600, 1200); complaints != "" {
				t.Errorf("the browser says: %s", complaints)
			}
			notEmpty(t, b.data(t, "Page.captureScreenshot", nil), 1600)
		})
	}
}

// fitsWindow: the sheet is as wide as the window of a phone and of a desk, and the
// browser has nothing to complain of.
func fitsWindow(t *testing.T, b *browser, file string, width int) {
	if complaints := b.show(t, file, width, 2000); complaints != "" {
		t.Errorf("the browser says: %s", complaints)
	}
	var got struct {
		Window, Page, Scripts, Sections int
		Out                             []string
	}
	b.ask(t, `({
    window: innerWidth, page: document.documentElement.scrollWidth, scripts: document.scripts.length, sections: document.querySelectorAll("main section").length,
    out: [...document.querySelectorAll("main *")].filter(e => !(e instanceof SVGElement && e.ownerSVGElement) && e.getBoundingClientRect().right > innerWidth + 0.5)
      .map(e => e.tagName + " " + e.textContent.slice(0, 40)).slice(0, 5),
  })`, &got)
	if got.Window != width || got.Page > width || len(got.Out) > 0 || got.Scripts != 0 || got.Sections < 8 {
		t.Errorf("window %d, page %d wide, %d scripts, %d sections, reaching out: %q", got.Window, got.Page, got.Scripts, got.Sections, got.Out)
	}
	notEmpty(t, b.data(t, "Page.captureScreenshot", nil), width)
}

// notEmpty fails where a picture shows next to nothing.
func notEmpty(t *testing.T, picture []byte, width int) {
	t.Helper()
	img, _, err := image.Decode(bytes.NewReader(picture))
	if err != nil {
		t.Fatal(err)
	}
	r := img.Bounds()
	dark := 0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if red, green, blue, _ := img.At(x, y).RGBA(); red+green+blue < 3*0xb000 {
				dark++
			}
		}
	}
	if share := float64(dark) / float64(r.Dx()*r.Dy()); r.Dx() != width || share < 0.01 || share > 0.7 {
		t.Errorf("%d pixels wide, %.1f %% of it dark", r.Dx(), 100*share)
	}
}

var (
	onePage  = regexp.MustCompile(`/Type\s*/Page[^s]`)
	mediaBox = regexp.MustCompile(`/MediaBox\s*\[0 0 (\d+)`)
)

// twoPages: the sheet of one panel of 13 strips, the demo's round with two more, takes two
// pages of A4, and one for the label.
func twoPages(t *testing.T, b *browser) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(demo.Patterns, func(s store.Saved) bool { return s.Stem == "saltings-round" })
	p := demo.Patterns[at].Pattern
	p.Strips = slices.Insert(slices.Clone(p.Strips), 6, p.Strips[0], p.Strips[3])
	p.Panel.Width = 0
	if len(p.Strips) != 13 {
		t.Fatalf("%d strips", len(p.Strips))
	}
	home := store.OpenHome(t.TempDir())
	if _, err := home.SavePattern("thirteen", p, store.Absent); err != nil {
		t.Fatal(err)
	}
	saved, err := home.Pattern("thirteen", species.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	if err := home.Close(); err != nil {
		t.Fatal(err)
	}
	b.show(t, changed(t, made(t, "sheet", saved.File, "sheet.html"), "</head>", "<style>@page { size: A4 portrait; }</style>"), 1200, 2000)
	data := b.data(t, "Page.printToPDF", map[string]any{"preferCSSPageSize": true, "printBackground": false})
	if n := len(onePage.FindAll(data, -1)); n != 3 {
		t.Errorf("%d pages of paper, want two and one of labels", n)
	}
	var got struct{ Boxes, Labels, Page int }
	b.ask(t, `({
    boxes: [...document.querySelectorAll("main .care")].filter(e => e.compareDocumentPosition(document.querySelector("ol.steps li .caution, ol.steps li")) & 4).length,
    labels: document.querySelectorAll(".labels .label").length,
    page: getComputedStyle(document.querySelector(".labels")).display.length,
  })`, &got)
	if got.Boxes > 6 || got.Labels != 1 {
		t.Errorf("%d boxes before the first cut, %d labels", got.Boxes, got.Labels)
	}
}

// pageEach: each board of a set has one page of its own, and the finish of all one; the front takes
// one page.
func pageEach(t *testing.T, b *browser) {
	file := made(t, "sheet", demoSet, "set.html")
	pages := func(style string) int {
		b.show(t, changed(t, file, "</head>", "<style>@page { size: A4 portrait; } "+style+"</style>"), 1200, 2000)
		return len(onePage.FindAll(b.data(t, "Page.printToPDF", map[string]any{"preferCSSPageSize": true, "printBackground": false}), -1))
	}
	if n := pages("main > section, main > header, .labels { display: none } .cuts + .one { break-before: auto }"); n != 4 {
		t.Errorf("three boards and their finish take %d pages", n)
	}
	if n := pages(".cuts, .one, .labels { display: none }"); n != 1 {
		t.Errorf("the front takes %d pages", n)
	}
}

// onPaper: the sheet prints on about as many pages of A4 as of Letter.
func onPaper(t *testing.T, b *browser, file, paper, points string, pages int) {
	b.show(t, changed(t, file, "</head>", "<style>@page { size: "+paper+" portrait; }</style>"), 1200, 2000)
	data := b.data(t, "Page.printToPDF", map[string]any{"preferCSSPageSize": true, "printBackground": false})
	if n := len(onePage.FindAll(data, -1)); n < pages-1 || n > pages+1 {
		t.Errorf("%d pages, expected about %d", n, pages)
	}
	if size := mediaBox.FindSubmatch(data); size == nil || !regexp.MustCompile("^"+points+"$").Match(size[1]) {
		t.Errorf("the pages are not %s: %s", paper, size)
	}
}
