package screen

import (
	"fmt"

	"example.com/oddments/tui/paint"
)

// DrawPage draws a page over r that n rows are scrolled through on, from row top on where
// there are so many: its title, what stands at the right of that, and the rows in view.
func DrawPage(c *paint.Canvas, r paint.Rect, title, right string, n, top int, row func(i int, r paint.Rect)) {
	c.Fill(r, ' ', paint.Style{})
	head, body := r.Inset(1, 0).SplitTop(1)
	foot, body := body.SplitBottom(1)
	c.Text(head, title, c.Role(paint.RoleTitle))
	c.TextRight(head, right, c.Role(paint.RoleFaint))
	top = max(0, min(top, n-body.H))
	for i := range min(body.H, n-top) {
		row(top+i, body.Row(i))
	}
	text := fmt.Sprintf("Esc closes   Up Down PgUp PgDn   lines %d to %d of %d", min(top+1, n), min(top+body.H, n), n)
	c.Text(foot, text, c.Role(paint.RoleFaint))
}
