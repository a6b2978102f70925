//go:build !windows

package main_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// hexagonProgram builds the program with one shape more: a file of its own, and a line
// in the list.
func hexagonProgram(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs("../../pattern/outline")
	if err != nil {
		t.Fatal(err)
	}
	list, err := os.ReadFile(filepath.Join(dir, "shape.go"))
	if err != nil {
		t.Fatal(err)
	}
	const last = "oval{}}"
	if strings.Count(string(list), last) != 1 {
		t.Fatalf("shape.go has no %q that ends the list", last)
	}
	out := t.TempDir()
	write := func(name, text string) string {
		file := filepath.Join(out, name)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{
		filepath.Join(dir, "shape.go"):   write("shape.go", strings.Replace(string(list), last, "oval{}, hexagon{}}", 1)),
		filepath.Join(dir, "hexagon.go"): filepath.Join(dir, "testdata", "hexagon.go"),
	}})
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(out, "oddments")
	if said, err := exec.Command("go", "build", "-ldflags=-s -w", "-overlay", write("overlay.json", string(overlay)), "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, said)
	}
	return program
}

const honeycomb = `format = "oddments/pattern 1"
name = "Honeycomb"
[panel]
length = "700 mm"
thickness = "20 mm"
[[strip]]
species = "hard_maple"
width = "60 mm"
count = 4
`

// A new shape is added in one place: with its file and its line it is typed, saved, read,
// laid, computed, drawn, told and shown by what is its own. By hand: 120 from side to
// side is 138.564 along and has sides of 69.282. The middle of the first lies half of
// 138.564 and 5 from the end, 74.3, the next 154.564 on, 228.8. The cutter goes round
// 6 x 69.282 and pi x 12 seven times, 3.2 m; the surface is 2 x 12470.8 and 415.69 x 20.
func TestNewShapeInOnePlace(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds the program anew")
	}
	program, home := hexagonProgram(t), t.TempDir()
	if err := os.Mkdir(filepath.Join(home, "patterns"), 0o755); err != nil {
		t.Fatal(err)
	}
	saved := filepath.Join(home, "patterns", "comb.toml")
	if err := os.WriteFile(saved, []byte(honeycomb), 0o644); err != nil {
		t.Fatal(err)
	}
	run := func(args ...string) string {
		cmd := exec.Command(program, append(args, "--home", home)...)
		out, _ := cmd.CombinedOutput() // the sheet's exit tells of an empty rack
		return string(out)
	}
	svg, sheet := filepath.Join(home, "comb.svg"), filepath.Join(home, "comb.html")
	file := func(name string) string {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	for _, c := range []struct {
		what, got string
		says      []string
	}{
		{"typed and laid", run("mark", "comb", "--add", "honeycomb 120 x2 bevel 4 top"), []string{
			"product 1: hexagon 120 mm, bevel 4 mm (top), 2 asked for, 2 placed",
			"product 1, to draw it: step the side of 69.3 mm round a circle six times",
			"copy 1, row 1: centre 74.3 mm along", "copy 2, row 1: centre 228.8 mm along"}},
		{"saved", file(saved), []string{"shape = \"hexagon\"\nwidth = \"120 mm\"\ncount = 2\nbevel = \"4 mm\""}},
		{"reckoned", run("work", "comb"), []string{
			"template, bush outside it: 102 mm;", "path of the cutter: 3.2 m;", "surface: 0.033 m2;", "underside after the bevel: 120 mm;", "112 mm;",
			"label, size: hexagon, 120 mm from side to side, 20 mm thick", "clamp it to the gauge", "sand the six edges at grit 120"}},
		{"in JSON", run("work", "comb", "--json"), []string{`"template_mm":102,`}},
		{"refused", run("mark", "comb", "--add", "kite 3"), []string{"a round, a rectangle, a block, an oval or a hexagon"}},
		{"wanting", run("mark", "comb", "--add", "hexagon"), []string{"missing: the width across the grain"}},
		{"drawn", run("picture", "comb", "-o", svg) + file(svg), []string{"hexagon 120 mm, 20 mm", "<clipPath id=\"oc2\"><path d=\"M"}},
		{"in pixels", run("picture", "comb", "-o", filepath.Join(home, "comb.png")), []string{"written: "}},
		{"on the sheet", run("sheet", "comb", "-o", sheet) + file(sheet), []string{
			"Draw the template: step the side of 58.9 mm", "Or saw its six sides with the mitre gauge", "hexagon 120 mm"}},
	} {
		for _, text := range c.says {
			if !strings.Contains(c.got, text) {
				t.Errorf("%s: %q is missing in\n%.3000s", c.what, text, c.got)
			}
		}
	}
	s := open(t, home, program, "comb")
	s.shows("Honeycomb")
	s.shows("? keys")
	s.taken()
	s.types("6") // cut out
	s.shows("hexagon 120")
}
