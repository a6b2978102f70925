package cli_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"image"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/pattern/store"
)

// A browser is a Chromium that is run without a window, anew for each page.
type browser struct {
	t    *testing.T
	path string
}

// findBrowser skips the test where there is none.
func findBrowser(t *testing.T) browser {
	t.Helper()
	if testing.Short() {
		t.Skip("skipped: -short, and a browser takes its time")
	}
	for _, name := range []string{"chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); err == nil {
			return browser{t, path}
		}
	}
	t.Skip("skipped: no chromium was found to look at the pages with")
	return browser{}
}

// run opens a file and gives what the browser prints, and what it complains of.
func (b browser) run(file string, flags ...string) (out, complaints string) {
	b.t.Helper()
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Minute)
	defer stop()
	args := append([]string{
		"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--force-device-scale-factor=1",
		"--enable-logging=stderr", "--user-data-dir=" + b.t.TempDir(),
	}, flags...)
	cmd := exec.CommandContext(ctx, b.path, append(args, "file://"+file)...)
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		b.t.Fatalf("%s: %v\n%s", filepath.Base(file), err, stderr.String())
	}
	for line := range strings.Lines(stderr.String()) {
		if strings.Contains(line, "CONSOLE") {
			complaints += line
		}
	}
	return stdout.String(), complaints
}

// made writes an export of a demo's pattern, or of a file, and gives where it lies.
func made(t *testing.T, command, pattern, name string) string {
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
	env := cli.System()
	var stdout, stderr bytes.Buffer
	env.Stdout, env.Stderr = &stdout, &stderr
	if code := cli.Run(t.Context(), []string{command, pattern, "-o", file, "--home", home}, env); code > 1 {
		t.Fatalf("%s %s: exit %d: %s", command, pattern, code, stderr.String())
	}
	return file
}

// changed gives a copy of a page with something put in before its end.
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

// framed gives a page that holds a sheet in a frame so wide, since a browser's window
// cannot be as narrow as a phone, and a script that says in the title how wide the
// sheet is and what reaches out of it.
func framed(t *testing.T, file string, width int) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	page := fmt.Sprintf(`<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>not measured</title></head>
<body style="margin:0"><iframe style="border:0;width:%dpx;height:900px" srcdoc="%s"></iframe>
<script>
window.onload = () => {
  const frame = document.querySelector("iframe"), page = frame.contentDocument, wide = frame.contentWindow.innerWidth;
  document.title = JSON.stringify({
    window: wide, page: page.documentElement.scrollWidth, scripts: page.scripts.length, sections: page.querySelectorAll("main section").length,
    out: [...page.querySelectorAll("main *")].filter(e => !(e instanceof frame.contentWindow.SVGElement && e.ownerSVGElement) && e.getBoundingClientRect().right > wide + 0.5)
      .map(e => e.tagName + " " + e.textContent.slice(0, 40)).slice(0, 5),
  });
};
</script></body></html>`, width, html.EscapeString(string(data)))
	out := filepath.Join(t.TempDir(), "framed.html")
	if err := os.WriteFile(out, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	return out
}

// sheets are the pages that are looked at, with about how many pages of paper each
// takes.
func sheets() []struct {
	pattern string
	pages   int
} {
	return []struct {
		pattern string
		pages   int
	}{{"saltings-round", 7}, {"candle-sill=4", 7}, {"../../../testdata/hostile/pattern.toml", 5}}
}

// The sheet is as wide as the window of a phone and of a desk, and the browser has
// nothing to complain of.
func TestSheetInBrowser(t *testing.T) {
	b := findBrowser(t)
	title := regexp.MustCompile(`(?s)<title>(\{.*?\})</title>`)
	for _, s := range sheets() {
		file := made(t, "sheet", s.pattern, "sheet.html")
		for _, width := range []int{360, 1200} {
			t.Run(fmt.Sprintf("%s at %d", filepath.Base(s.pattern), width), func(t *testing.T) {
				b := browser{t, b.path}
				dom, complaints := b.run(framed(t, file, width), "--dump-dom", "--window-size=1400,1000")
				if complaints != "" {
					t.Errorf("the browser says: %s", complaints)
				}
				found := title.FindStringSubmatch(dom)
				if found == nil {
					t.Fatal("the page was not measured")
				}
				var got struct {
					Window, Page, Scripts, Sections int
					Out                             []string
				}
				if err := json.Unmarshal([]byte(strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(found[1])), &got); err != nil {
					t.Fatal(err)
				}
				if got.Window != width || got.Page > width || len(got.Out) > 0 || got.Scripts != 0 || got.Sections < 8 {
					t.Errorf("window %d, page %d wide, %d scripts, %d sections, reaching out: %q", got.Window, got.Page, got.Scripts, got.Sections, got.Out)
				}
				shot := filepath.Join(t.TempDir(), "shot.png")
				b.run(file, "--screenshot="+shot, fmt.Sprintf("--window-size=%d,2000", width))
				notEmpty(t, shot, width)
			})
		}
	}
}

// notEmpty fails where a picture shows next to nothing.
func notEmpty(t *testing.T, file string, width int) {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	img, _, err := image.Decode(f)
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

// The sheet prints on about as many pages of A4 as of Letter.
func TestSheetOnPaper(t *testing.T) {
	b := findBrowser(t)
	onePage := regexp.MustCompile(`/Type\s*/Page[^s]`)
	box := regexp.MustCompile(`/MediaBox\s*\[0 0 (\d+)`)
	for _, s := range sheets() {
		file := made(t, "sheet", s.pattern, "sheet.html")
		for paper, points := range map[string]string{"A4": "59[45]", "Letter": "612"} {
			t.Run(filepath.Base(s.pattern)+" on "+paper, func(t *testing.T) {
				b := browser{t, b.path}
				pdf := filepath.Join(t.TempDir(), "sheet.pdf")
				b.run(changed(t, file, "</head>", "<style>@page { size: "+paper+" portrait; }</style>"), "--no-pdf-header-footer", "--print-to-pdf="+pdf)
				data, err := os.ReadFile(pdf)
				if err != nil {
					t.Fatal(err)
				}
				n := len(onePage.FindAll(data, -1))
				if n < s.pages-1 || n > s.pages+1 {
					t.Errorf("%d pages, expected about %d", n, s.pages)
				}
				if size := box.FindSubmatch(data); size == nil || !regexp.MustCompile("^"+points+"$").Match(size[1]) {
					t.Errorf("the pages are not %s: %s", paper, size)
				}
			})
		}
	}
}

// A picture in SVG is drawn, and the browser has nothing to complain of.
func TestPictureInBrowser(t *testing.T) {
	b := findBrowser(t)
	for _, pattern := range []string{"candle-sill", "../../../testdata/hostile/pattern.toml"} {
		shot := filepath.Join(t.TempDir(), "shot.png")
		_, complaints := b.run(made(t, "picture", pattern, "picture.svg"), "--screenshot="+shot, "--window-size=1600,1200")
		if complaints != "" {
			t.Errorf("%s: the browser says: %s", pattern, complaints)
		}
		notEmpty(t, shot, 1600)
	}
}
