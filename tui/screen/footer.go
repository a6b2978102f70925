package screen

import (
	"slices"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
)

// FooterRows is how many rows a screen leaves for its keys.
const FooterRows = 2

// A KeyPlace is where a key stands, with what it does or is set to.
type KeyPlace struct {
	ID        keymap.ID
	Key, Text string
	Rect      paint.Rect
}

// Footer returns the actions of a place that matter now, and where they stand in the last
// two rows of r: first those of the place in their order, as many as leave room for the
// ones that are looked for on every screen.
func Footer(r paint.Rect, keys keymap.Map, p keymap.Place, matters func(keymap.ID) bool) []KeyPlace {
	var here, always []KeyPlace
	for _, a := range keys.Footer(p) {
		switch k := (KeyPlace{ID: a.ID, Key: a.Key(), Text: a.Name}); {
		case !matters(a.ID):
		case a.Place() == keymap.Everywhere && a.ID != keymap.Season:
			always = append(always, k)
		default:
			here = append(here, k)
		}
	}
	rows, _ := r.SplitBottom(FooterRows)
	rows = rows.Inset(1, 0)
	for n := len(here); ; n-- {
		placed, all := Flow(rows, slices.Concat(here[:n], always))
		if all || n == 0 {
			return placed
		}
	}
}

// Flow puts keys one behind another into the rows of r. It returns those that find room,
// and whether all of them do.
func Flow(r paint.Rect, keys []KeyPlace) (placed []KeyPlace, all bool) {
	const gap = 2
	x, y := r.X, r.Y
	for _, k := range keys {
		w := paint.Width(k.Key) + 1 + paint.Width(k.Text)
		if x > r.X && x+w > r.Right() {
			x, y = r.X, y+1
		}
		if y >= r.Bottom() {
			return placed, false
		}
		k.Rect = paint.Rect{X: x, Y: y, W: min(w, r.Right()-x), H: 1}
		placed = append(placed, k)
		x += w + gap
	}
	return placed, true
}

// DrawFooter draws what Footer returns.
func DrawFooter(c *paint.Canvas, places []KeyPlace) { DrawKeys(c, places, paint.RoleFaint) }

// DrawKeys draws keys where they stand, their texts in a role.
func DrawKeys(c *paint.Canvas, places []KeyPlace, role paint.Role) {
	for _, p := range places {
		at := c.Text(p.Rect, p.Key, c.Role(paint.RoleKey))
		_, rest := p.Rect.SplitLeft(at + 1)
		c.TextFit(rest, p.Text, c.Role(role))
	}
}

// Pressed returns the action whose key stands at a cell.
func Pressed(places []KeyPlace, x, y int) (keymap.ID, bool) {
	for _, p := range places {
		if p.Rect.Contains(x, y) {
			return p.ID, true
		}
	}
	return "", false
}
