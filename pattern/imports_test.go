package pattern_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"strings"
	"testing"
)

const module = "example.com/oddments"

// layers lists the packages, each of which imports only those above it; what stands
// beneath a layer that ends in /... belongs to it. A new package gets its place here
// with a word on what it is for.
func layers() []string {
	return []string{
		"pattern/length",                  // lengths: exact, read, printed
		"pattern/tell",                    // turns of speech: how many, lists, sizes
		"pattern/history",                 // undo and redo
		"pattern/spoken",                  // typed lines: words, numbers, lengths
		"pattern/lp",                      // linear programs
		"pattern/colour",                  // colours of wood, and how far two are apart
		"species",                         // timbers: coefficients, colours, sources
		"pattern/moisture",                // equilibrium moisture of an air
		"pattern",                         // what is saved
		"pattern/photo",                   // photos as they are decoded: upright, in daylight's colours
		"pattern/photo/reading",           // the colours of timber in a photo
		"pattern/photo/phototest",         // photos for tests
		"pattern/second",                  // second glue-ups: bars, cells, boards
		"pattern/second/secondtest",       // worked ones for tests
		"pattern/shop",                    // the workshop
		"pattern/shop/shoptest",           // a workshop for tests
		"pattern/rack",                    // pieces, faults, ready strips
		"pattern/movement",                // figures of strips, glue lines, panel
		"pattern/relief",                  // how a panel's section stands in a season
		"pattern/outline",                 // what is cut from the panel
		"pattern/joints",                  // ways to lay a strip from pieces
		"pattern/edit",                    // hand moves; history
		"pattern/work",                    // what gluing, cutting out, finishing and selling take
		"pattern/evenings",                // what is glued in which evening
		"pattern/cutting",                 // the stock plan as it is stated, checked and claimed
		"pattern/cutting/fill",            // strips for the rack out of what slices leave
		"pattern/cutting/solve/sections",  // ways to saw a section, for the search
		"pattern/cutting/solve/crew",      // goroutines that wait for one another, for it
		"pattern/cutting/solve/prefer",    // timber that was looked at first, for it
		"pattern/cutting/solve/ready",     // ready strips handed out, for it too
		"pattern/cutting/solve/solvetest", // its jobs for tests
		"pattern/cutting/solve",           // the search for it, proved
		"pattern/worksteps",               // how a plan is worked at the machines
		"pattern/booking",                 // what was done: on the rack, in the patterns
		"pattern/waysout",                 // ways out of a plan that is short
		"pattern/pile",                    // what a whole rack becomes
		"pattern/suggest/look",            // what a look is, and how different two panels look
		"pattern/check",                   // findings and remedies
		"pattern/suggest",                 // what is asked of layouts, answers and their check
		"pattern/orders",                  // what would sell, with wishes
		"pattern/suggest/stock",           // kinds of strips that can be had, and how many
		"pattern/suggest/search",          // the best layouts, proved or with a bound
		"pattern/suggest/gallery",         // the best layout of each look
		"pattern/pile/ceiling",            // what no set of panels from it is worth more than
		"pattern/pile/sets",               // which panels, from all of a rack
		"pattern/suggest/remake",          // the same pattern again from other timber
		"pattern/export",                  // pictures and sheets
		"pattern/store/tomlread",          // TOML with every error of a file
		"pattern/store",                   // reads and writes the files
		"pattern/mistake",                 // tells of mistakes in the program, with a report
		"tui/term/quiet",                  // keeps bubbletea from asking the terminal
		"tui/job",                         // long work beside the screen
		"tui/term/frames",                 // frames straight to the terminal
		"tui/term",                        // keys read whole, stops from outside
		"tui/keymap",                      // the one table of actions
		"tui/manual",                      // the short manual
		"tui/paint",                       // cells, colours, rectangles
		"tui/panel",                       // the picture of a panel
		"tui/board",                       // the picture of a board
		"tui/screen",                      // what the root and its screens share
		"tui/screen/screentest",           // the demo for tests of the screens
		"tui/overlay/...",                 // what lies over a screen: a field, a list, a page, the help
		"tui/screens/...",                 // one package a screen; they do not import one another
		"tui/head",                        // the rows above every screen
		"tui/exporting",                   // pictures and sheets, from the screens
		"tui/opening",                     // what can be opened, as a list
		"tui/document",                    // the pattern on the bench: saved, kept
		"tui/reporting",                   // checks what lies on the bench, the whole beside the screen
		"tui/guard",                       // ends the program in order when something panics
		"tui/setup",                       // what the first screen needs
		"tui/workshop",                    // the workshop: its settings, saved as they are set
		"tui",                             // the root: routes keys, owns the document
		"cmd/internal/rows",               // facts as lines, or as tables
		"cmd/internal/failure",            // failures as they are told of
		"cmd/internal/result",             // results as JSON
		"cmd/internal/terminal",           // what is known of a terminal, and what to do about it
		"cmd/internal/typed",              // flags of any type
		"cmd/internal/command",            // what every command works with
		"cmd/internal/wishes",             // flags of looks and timbers
		"cmd/internal/pileset",            // the panels that a whole rack becomes, told
		"cmd/internal/cli",                // commands and their JSON
		"cmd/internal/...",                // generators
		"cmd/oddments",                    // main
	}
}

// layerOf returns the place of a package in the list.
func layerOf(pkg string) int {
	for i, l := range layers() {
		if tree, ok := strings.CutSuffix(l, "/..."); l == pkg || ok && strings.HasPrefix(pkg, tree+"/") {
			return i
		}
	}
	return -1
}

// mayNot lists imports that a tree of packages must keep away from, since domain
// packages know no terminal, no clock of their own and no disk but the store's. An empty
// tree is all packages.
func mayNot() []struct{ tree, what, but string } {
	return []struct{ tree, what, but string }{
		// Both make the linker keep every exported method; the sheet alone is worth it.
		{"", "html/template", "pattern/export"},
		{"", "text/template", ""},
		{"pattern", "os", "pattern/store"},
		{"pattern", "os/exec", ""},
		{"pattern", "math/rand", ""},
		{"pattern", "math/rand/v2", "pattern/cutting/solve"}, // seeded there, so that the same rack gives the same plan
		{"pattern", "github.com/charmbracelet/", ""},
		{"species", "github.com/charmbracelet/", ""},
		{"species", "os", ""},
		{"tui/term/quiet", "github.com/charmbracelet/bubbletea", ""},
		{"tui/paint", "github.com/charmbracelet/bubbletea", ""},
		{"tui/panel", "github.com/charmbracelet/bubbletea", ""},
	}
}

// TestImports reads the import graph and names every edge that should not be.
func TestImports(t *testing.T) {
	root := ".."
	edges := 0
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && file != root):
			return filepath.SkipDir
		case d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go"):
			return nil
		}
		rel, err := filepath.Rel(root, filepath.Dir(file))
		if err != nil {
			return err
		}
		pkg := filepath.ToSlash(rel)
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range parsed.Imports {
			edges++
			checkEdge(t, pkg, strings.Trim(spec.Path.Value, `"`))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if edges < 50 {
		t.Errorf("only %d imports were read: is %s the module's root?", edges, root)
	}
}

func checkEdge(t *testing.T, pkg, imported string) {
	t.Helper()
	from := layerOf(pkg)
	if from < 0 {
		t.Errorf("%s has no place among the layers", pkg)
		return
	}
	for _, rule := range mayNot() {
		in := rule.tree == "" || pkg == rule.tree || strings.HasPrefix(pkg, rule.tree+"/")
		but := rule.but != "" && (pkg == rule.but || strings.HasPrefix(pkg, rule.but+"/"))
		if hit := imported == rule.what || strings.HasSuffix(rule.what, "/") && strings.HasPrefix(imported, rule.what); in && hit && !but {
			t.Errorf("%s imports %s", pkg, imported)
		}
	}
	own, ok := strings.CutPrefix(imported, module+"/")
	if !ok {
		return
	}
	switch to := layerOf(own); {
	case to < 0:
		t.Errorf("%s imports %s, which has no place among the layers", pkg, own)
	case to > from:
		t.Errorf("%s imports %s, which stands below it", pkg, own)
	case to == from && path.Dir(own) == path.Dir(pkg):
		t.Errorf("%s imports %s, its neighbour", pkg, own)
	}
}

// Named exceptions to "imports what stands above": the list of what each may see.
func TestSomeSeeLess(t *testing.T) {
	for _, c := range []struct{ pkg, mayNot string }{
		{"pattern", "species"},
		{"pattern/edit", "pattern/movement"},
		{"pattern/suggest", "pattern/check"},
		{"pattern/suggest/search", "pattern/check"},
		{"pattern/suggest/remake", "pattern/suggest/search"},
		{"tui/term/quiet", "tui/keymap"},
	} {
		files, err := filepath.Glob(filepath.Join("..", filepath.FromSlash(c.pkg), "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
			if err != nil {
				t.Fatal(err)
			}
			for _, spec := range parsed.Imports {
				if strings.Trim(spec.Path.Value, `"`) == module+"/"+c.mayNot {
					t.Errorf("%s imports %s", c.pkg, c.mayNot)
				}
			}
		}
	}
}
