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

	"example.com/oddments/tui/paint"
)

// TestReadmePicture keeps the README's picture of the bench the one that the program
// draws: the frame's own escapes, put into an SVG. To refresh: go test ./tui -run
// Picture -update.
func TestReadmePicture(t *testing.T) {
	setup := demoSetup(t)
	setup.Profile = paint.TrueColour
	got := svg(start(t, setup, 118, 34).keys("right right right right right right right right right").app.View())
	const file = "../testdata/pictures/bench.svg"
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
		t.Errorf("the bench looks other than %s", file)
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

// svg draws a frame of ours as an SVG picture. It knows the escapes that package
// paint writes.
func svg(frame string) []byte {
	lines := strings.Split(frame, "\n")
	width := 0
	var body bytes.Buffer
	var l look
	for y, line := range lines {
		x := 0
		for len(line) > 0 {
			if rest, ok := strings.CutPrefix(line, "\x1b["); ok {
				codes, after, _ := strings.Cut(rest, "m")
				l = l.with(strings.Split(codes, ";"))
				line = after
				continue
			}
			r := []rune(line)[0]
			line = line[len(string(r)):]
			l.cell(&body, x, y, r)
			x++
		}
		width = max(width, x)
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="15">`+"\n",
		width*cellW, len(lines)*cellH)
	fmt.Fprintf(&out, `<rect width="100%%" height="100%%" fill="%s"/>`+"\n", ground)
	out.Write(body.Bytes())
	out.WriteString("</svg>\n")
	return out.Bytes()
}

func (l look) cell(out *bytes.Buffer, x, y int, r rune) {
	fg, bg := l.fg, l.bg
	if fg == "" {
		fg = ink
	}
	if l.reversed {
		if bg == "" {
			bg = ground
		}
		fg, bg = bg, fg
	}
	rect := func(top, height int, fill string) {
		fmt.Fprintf(out, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s" shape-rendering="crispEdges"/>`+"\n",
			x*cellW, y*cellH+top, cellW, height, fill)
	}
	if bg != "" {
		rect(0, cellH, bg)
	}
	switch r {
	case ' ':
	case '▀':
		rect(0, cellH/2, fg)
	case '▄':
		rect(cellH/2, cellH/2, fg)
	default:
		extra := ""
		if l.bold {
			extra += ` font-weight="bold"`
		}
		if l.faint {
			extra += ` opacity="0.65"`
		}
		if l.under {
			extra += ` text-decoration="underline"`
		}
		fmt.Fprintf(out, `<text x="%d" y="%d" fill="%s"%s>%s</text>`+"\n", x*cellW, y*cellH+cellH*3/4, fg, extra, html.EscapeString(string(r)))
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
