package page_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// drawn returns the page on a window of so many rows.
func drawn(o screen.Overlay, h int) string {
	return screentest.Drawn(60, h, func(c *paint.Canvas, r paint.Rect) { o.Draw(c, r, screen.Context{}) })
}

// A page shows its lines, numbered where they are steps, and scrolls no further than
// they go.
func TestScroll(t *testing.T) {
	lines := strings.Fields("one two three four five six seven eight")
	ctx := screen.Context{Keys: keymap.NewMap()}
	var o screen.Overlay = page.Steps("the order", nil, lines)
	if got := drawn(o, 6); !strings.Contains(got, "the order") || !strings.Contains(got, "1. one") || !strings.Contains(got, "lines 1 to 4 of 8") {
		t.Errorf("at the top:\n%s", got)
	}
	for _, k := range []tea.KeyType{tea.KeyDown, tea.KeyPgDown, tea.KeyPgDown, tea.KeyUp} {
		o, _ = o.Key(tea.KeyMsg{Type: k}, ctx)
	}
	if got := drawn(o, 6); !strings.Contains(got, "8. eight") || !strings.Contains(got, "lines 5 to 8 of 8") {
		t.Errorf("at the end:\n%s", got)
	}
	before := drawn(page.Steps("the order", []string{"mind this"}, lines), 6)
	if !strings.Contains(before, "mind this") || strings.Contains(before, ". mind") || !strings.Contains(before, "1. one") {
		t.Errorf("what to know before:\n%s", before)
	}
	if got := drawn(page.New("lines", lines), 6); strings.Contains(got, "1.") {
		t.Errorf("lines are numbered:\n%s", got)
	}
}

// Enter, Esc and a press close it without a value.
func TestClose(t *testing.T) {
	ctx := screen.Context{Keys: keymap.NewMap()}
	p := page.New("lines", nil)
	for _, k := range []tea.KeyType{tea.KeyEnter, tea.KeyEsc} {
		if _, got := p.Key(tea.KeyMsg{Type: k}, ctx); !got.Closed || got.Value != nil {
			t.Errorf("%v: %+v", k, got)
		}
	}
	if _, got := p.Press(0, 0, paint.Rect{}, ctx); !got.Closed {
		t.Error("a press leaves it open")
	}
}
