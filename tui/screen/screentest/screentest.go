// Package screentest gives tests of the screens the demo as a screen is told of it.
package screentest

import (
	"strings"
	"sync"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// Tests take the demo and the timbers hundreds of times, and reading them is slow.
var (
	demo    = sync.OnceValues(store.ReadDemo)
	timbers = sync.OnceValue(species.Builtin)
)

// Read returns the demo and the built-in timbers, read once for all tests: whoever changed
// them would change them for the others.
func Read(t testing.TB) (store.Demo, *species.Table) {
	t.Helper()
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	return d, timbers()
}

// Demo returns the context of the demo's first pattern on the bench, with the keys that
// hold everywhere and those of the screen that is tested.
func Demo(t testing.TB, keys ...keymap.Action) screen.Context {
	t.Helper()
	demo, timbers := Read(t)
	r := movement.New(timbers, demo.Shop)
	p := demo.Patterns[0].Pattern
	return screen.Context{
		State: edit.New(p), Title: p.Name, Report: check.Of(r, p, length.InMM), Physics: r,
		Allow: check.Allowances(demo.Shop), Rack: demo.Rack, Keys: keymap.NewMap(nil, keys), Wood: &panel.Palette{},
	}
}

// Drawn returns what draw puts on a screen of so many cells, without colours.
func Drawn(w, h int, draw func(*paint.Canvas, paint.Rect)) string {
	c := paint.New(w, h, paint.None)
	draw(c, c.Bounds())
	return ansi.Strip(c.String())
}

// RowOf returns the first row that shows text.
func RowOf(t *testing.T, screen, text string) int {
	t.Helper()
	for y, line := range strings.Split(screen, "\n") {
		if strings.Contains(line, text) {
			return y
		}
	}
	t.Fatalf("no %q on\n%s", text, screen)
	return -1
}
