package screen

import (
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
)

// FooterRows is how many rows a screen leaves for its keys.
const FooterRows = 2

// A FooterPlace is where an action of the footer stands.
type FooterPlace struct {
	Action keymap.Action
	Rect   paint.Rect
}

// Footer returns the actions of a place that matter now, and where they stand: as many
// as find room in the last two rows of r, in the order of the table.
func Footer(r paint.Rect, keys keymap.Map, p keymap.Place, matters func(keymap.ID) bool) []FooterPlace {
	const gap = 2
	rows, _ := r.SplitBottom(FooterRows)
	rows = rows.Inset(1, 0)
	var out []FooterPlace
	x, y := rows.X, rows.Y
	for _, a := range keys.Footer(p) {
		if !matters(a.ID) {
			continue
		}
		w := paint.Width(a.Key()) + 1 + paint.Width(a.Name)
		if x+w > rows.Right() {
			x, y = rows.X, y+1
		}
		if y >= rows.Bottom() || x+w > rows.Right() {
			break
		}
		out = append(out, FooterPlace{Action: a, Rect: paint.Rect{X: x, Y: y, W: w, H: 1}})
		x += w + gap
	}
	return out
}

// DrawFooter draws what Footer gives.
func DrawFooter(c *paint.Canvas, places []FooterPlace) {
	for _, p := range places {
		at := c.Text(p.Rect, p.Action.Key(), c.Role(paint.RoleKey))
		_, rest := p.Rect.SplitLeft(at + 1)
		c.Text(rest, p.Action.Name, c.Role(paint.RoleFaint))
	}
}

// Pressed returns the action of a footer at a cell.
func Pressed(places []FooterPlace, x, y int) (keymap.ID, bool) {
	for _, p := range places {
		if p.Rect.Contains(x, y) {
			return p.Action.ID, true
		}
	}
	return "", false
}
