package tui

import (
	"bytes"
	"flag"
	"fmt"
	"html"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
)

// TestReadmePictures keeps the README's pictures the ones that the program draws: the
// frames' own escapes, put into SVGs. To refresh: go test ./tui -run Pictures -update.
func TestReadmePictures(t *testing.T) {
	for _, c := range []struct{ name, keys string }{
		{"bench", "right right right right right right right right right"},
		{"rack", "tab down down down"},
		{"pile", "3 g"},
		{"plan", "4 down down"},
		{"layouts", "v down"},
		{"cutout", "ctrl+o s a l t i n g s enter 6 enter ctrl+u r o u n d space 1 1 0 space x 2 space b e v e l space 5 enter"},
	} {
		begin := demoSetup
		if c.name == "layouts" {
			begin = laySetup // of which the best are proved at once, on any machine
		}
		setup := begin(t)
		setup.Profile = paint.TrueColour
		keepPicture(t, c.name, svg(start(t, setup, 118, 34).keys(c.keys).app.View()))
	}
}

// TestEyesPicture keeps the demo's benches as every eye sees them, a column each, to be
// looked at: every two neighbours must be told apart, by colour, grain or letters.
func TestEyesPicture(t *testing.T) {
	const w, h = 62 * cellW, 18 * cellH
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="15" shape-rendering="crispEdges">`+"\n",
		w*len(panel.Eyes()), h*len(demo.Patterns))
	for i, e := range panel.Eyes() {
		fmt.Fprintf(&out, `<filter id="eye%d" x="0" y="0" width="1" height="1" color-interpolation-filters="linearRGB"><feColorMatrix values="%v %v %v 0 0 %v %v %v 0 0 %v %v %v 0 0 0 0 0 1 0"/></filter>`+"\n",
			i, e[0], e[1], e[2], e[3], e[4], e[5], e[6], e[7], e[8])
	}
	for row, saved := range demo.Patterns {
		setup := demoSetup(t)
		setup.Profile = paint.TrueColour
		word, _, _ := strings.Cut(saved.Stem, "-")
		frame, _ := cells(start(t, setup, 60, 18).keys("ctrl+o " + strings.Join(strings.Split(word, ""), " ") + " enter").app.View())
		fmt.Fprintf(&out, `<defs><g id="bench%d"><rect width="%d" height="%d" fill="%s"/>`+"\n%s</g></defs>\n", row, w-cellW, h, ground, frame)
		for i := range panel.Eyes() {
			fmt.Fprintf(&out, `<use href="#bench%d" x="%d" y="%d" filter="url(#eye%d)"/>`+"\n", row, i*w, row*h, i)
		}
	}
	out.WriteString("</svg>\n")
	keepPicture(t, "eyes", out.Bytes())
}

// keepPicture compares a picture with the one that is kept, or keeps it with -update.
func keepPicture(t *testing.T, name string, got []byte) {
	t.Helper()
	file := "../testdata/pictures/" + name + ".svg"
	if update := flag.Lookup("update"); update != nil && update.Value.String() == "true" {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the %s looks other than %s", name, file)
	}
}

// A look is how a cell is drawn.
type look struct {
	fg, bg                       string
	bold, faint, under, reversed bool
}

// The size of a cell, and a terminal's usual dark colours.
const (
	cellW, cellH = 9, 18
	ink, ground  = "#d4d4d4", "#1e1e1e"
)

// A run is a stretch of cells of one look.
type run struct {
	look
	x    int
	text []rune
}

// svg draws a frame of ours as an SVG picture.
func svg(frame string) []byte {
	body, width := cells(frame)
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="15" shape-rendering="crispEdges">`+"\n",
		width*cellW, (strings.Count(frame, "\n")+1)*cellH)
	fmt.Fprintf(&out, `<rect width="100%%" height="100%%" fill="%s"/>`+"\n", ground)
	out.Write(body)
	out.WriteString("</svg>\n")
	return out.Bytes()
}

// cells draws a frame's cells, and counts how many are side by side. It knows the escapes
// that package paint writes.
func cells(frame string) (svg []byte, width int) {
	var body bytes.Buffer
	for y, line := range strings.Split(frame, "\n") {
		x := 0
		now := run{}
		for len(line) > 0 {
			if rest, ok := strings.CutPrefix(line, "\x1b["); ok {
				codes, after, _ := strings.Cut(rest, "m")
				now.draw(&body, y)
				now = run{look: now.look.with(strings.Split(codes, ";")), x: x}
				line = after
				continue
			}
			r := []rune(line)[0]
			line = line[len(string(r)):]
			now.text = append(now.text, r)
			x++
		}
		now.draw(&body, y)
		width = max(width, x)
	}
	return body.Bytes(), width
}

func (r run) draw(out *bytes.Buffer, y int) {
	if len(r.text) == 0 {
		return
	}
	fg, bg := r.fg, r.bg
	if fg == "" {
		fg = ink
	}
	if r.reversed {
		if bg == "" {
			bg = ground
		}
		fg, bg = bg, fg
	}
	rect := func(top, height int, fill string) {
		fmt.Fprintf(out, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n",
			r.x*cellW, y*cellH+top, len(r.text)*cellW, height, fill)
	}
	if bg != "" {
		rect(0, cellH, bg)
	}
	switch text := string(r.text); {
	case r.text[0] == '▀':
		rect(0, cellH/2, fg)
	case r.text[0] == '▄':
		rect(cellH/2, cellH/2, fg)
	case strings.TrimSpace(text) != "":
		extra := ""
		if r.bold {
			extra += ` font-weight="bold"`
		}
		if r.faint {
			extra += ` opacity="0.65"`
		}
		if r.under {
			extra += ` text-decoration="underline"`
		}
		fmt.Fprintf(out, `<text x="%d" y="%d" fill="%s" textLength="%d" xml:space="preserve"%s>%s</text>`+"\n",
			r.x*cellW, y*cellH+cellH*3/4, fg, len(r.text)*cellW, extra, html.EscapeString(text))
	}
}

func (l look) with(codes []string) look {
	named := []string{"#000000", "#cd3131", "#0dbc79", "#e5e510", "#2472c8", "#bc3fbc", "#11a8cd", "#e5e5e5"}
	for i := 0; i < len(codes); i++ {
		n, _ := strconv.Atoi(codes[i])
		switch {
		case n == 0:
			l = look{}
		case n == 1:
			l.bold = true
		case n == 2:
			l.faint = true
		case n == 4:
			l.under = true
		case n == 7:
			l.reversed = true
		case n == 22:
			l.bold, l.faint = false, false
		case n == 24:
			l.under = false
		case n == 27:
			l.reversed = false
		case n == 39:
			l.fg = ""
		case n == 49:
			l.bg = ""
		case n >= 30 && n < 38:
			l.fg = named[n-30]
		case n >= 40 && n < 48:
			l.bg = named[n-40]
		case n >= 90 && n < 98:
			l.fg = "#ffffff"
		case (n == 38 || n == 48) && i+4 < len(codes):
			var c [3]int
			for j := range c {
				c[j], _ = strconv.Atoi(codes[i+2+j])
			}
			colour := fmt.Sprintf("#%02x%02x%02x", c[0], c[1], c[2])
			if n == 38 {
				l.fg = colour
			} else {
				l.bg = colour
			}
			i += 4
		}
	}
	return l
}
