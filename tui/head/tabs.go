package head

import (
	"fmt"
	"strings"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Tab is a screen's name on the line at the bottom.
type Tab struct {
	Name   string
	Count  int // of what there is to see on it; 0 is not said
	Shown  bool
	Screen int        // its number
	Rect   paint.Rect // where Tabs put it
}

func (t Tab) text() string {
	text := t.Name
	if t.Shown {
		text = "[" + strings.ToUpper(text) + "]"
	}
	if t.Count > 0 {
		text += fmt.Sprintf(" %d", t.Count)
	}
	return text
}

// Tabs returns where tabs stand in row r: closer together where so many cells would not be
// free behind them.
func Tabs(r paint.Rect, tabs []Tab, free int) []Tab {
	const gap = 2
	if placed := apart(r, tabs, gap); placed[len(placed)-1].Rect.Right()+gap+free <= r.Right() {
		return placed
	}
	return apart(r, tabs, 1)
}

// apart returns tabs with so many cells between each two.
func apart(r paint.Rect, tabs []Tab, gap int) []Tab {
	out := make([]Tab, len(tabs))
	for i, t := range tabs {
		w := paint.Width(t.text())
		t.Rect = paint.Rect{X: r.X, Y: r.Y, W: w, H: 1}
		out[i] = t
		r.X += w + gap
	}
	return out
}

// DrawTabs draws tabs where they stand.
func DrawTabs(c *paint.Canvas, tabs []Tab) {
	for _, t := range tabs {
		role := paint.RoleFaint
		if t.Shown {
			role = paint.RoleTitle
		}
		c.Text(t.Rect, t.text(), c.Role(role))
	}
}

// HelpKey is the least that stands behind the tabs.
func HelpKey(keys keymap.Map) string { return keys.KeyOf(keymap.Help) + " keys" }

// Everywhere says the keys that hold on every screen, as fully as w cells let it: all but the
// key of the help stay one cell clear at their left. Digits are those of the screens.
func Everywhere(w int, digits string, keys keymap.Map) string {
	next, help := keys.KeyOf(keymap.Screen), keys.KeyOf(keymap.Help)
	return strings.TrimSpace(screen.FirstThatFits(w,
		fmt.Sprintf(" %s or %s other screens   %s all keys", digits, next, help),
		fmt.Sprintf(" %s %s screens  %s keys", digits, next, help),
		fmt.Sprintf(" %s screens  %s keys", digits, help),
		fmt.Sprintf(" %s %s  %s keys", digits, next, help),
		fmt.Sprintf(" %s  %s keys", digits, help),
		HelpKey(keys), help, ""))
}
