package help_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/manual"
	"example.com/oddments/tui/overlay/help"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// Tab goes through every chapter and back to the keys; all of each can be scrolled to.
func TestChaptersGoRound(t *testing.T) {
	onRack := keymap.Group{Heading: "on the rack", At: "rack"}
	ctx := screentest.Demo(t, onRack.Bind("add", "add", "add a piece", 1, "a"))
	draw := func(o screen.Overlay) string {
		return screentest.Drawn(80, 22, func(c *paint.Canvas, r paint.Rect) { o.Draw(c, r, ctx) })
	}
	var o screen.Overlay = help.Page{Place: onRack.At}
	first := draw(o)
	if !strings.Contains(first, "All keys") || !strings.Contains(first, onRack.Heading) {
		t.Fatalf("on the rack the help begins with\n%s", first)
	}
	for _, c := range manual.Chapters(ctx.Keys) {
		o, _ = o.Key(tea.KeyMsg{Type: tea.KeyTab}, ctx)
		lines := c.Wrapped(58)
		last := lines[len(lines)-1]
		for range lines {
			if strings.Contains(draw(o), last) {
				break
			}
			o, _ = o.Key(tea.KeyMsg{Type: tea.KeyDown}, ctx)
		}
		if s := draw(o); !strings.Contains(s, last) {
			t.Errorf("%s: the end, %q, cannot be reached:\n%s", c.Name, last, s)
		}
	}
	if o, _ = o.Key(tea.KeyMsg{Type: tea.KeyTab}, ctx); draw(o) != first {
		t.Errorf("after the last chapter comes\n%s", draw(o))
	}
	if _, out := o.Key(tea.KeyMsg{Type: tea.KeyEsc}, ctx); !out.Closed {
		t.Error("esc does not close it")
	}
}
