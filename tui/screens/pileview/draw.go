package pileview

import (
	"fmt"
	"math"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/pile"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// Where the parts stand: each has a row above it that names it.
type parts struct{ wants, set, rack paint.Rect }

// Of the rack a bar takes so many cells, and so many rows at most.
const (
	barWidth  = 36
	leastSet  = 4
	mostBars  = 10
	cellWidth = 26 // of a panel among others side by side
	cellHigh  = 11
	captions  = 4
)

func (s Screen) lay(r paint.Rect) parts {
	_, r = r.SplitBottom(screen.FooterRows)
	var p parts
	bars := 1 + min(mostBars, (len(s.now.found.used)+s.columns(r)-1)/max(1, s.columns(r)))
	if !s.now.found.have {
		bars = 0
	}
	wants := len(s.now.wants)
	if wants == 0 {
		wants = 4 // of words
	}
	p.wants, r = r.SplitTop(min(1+wants, max(3, r.H/3)))
	p.rack, p.set = r.SplitBottom(max(0, min(bars, r.H-leastSet)))
	return p
}

func (s Screen) columns(r paint.Rect) int { return max(1, (r.W-2)/barWidth) }

// Draw draws the screen into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p := s.lay(r)
	s.drawWants(c, p.wants, ctx)
	s.drawSet(c, p.set, ctx)
	s.drawRack(c, p.rack, ctx)
	screen.DrawFooter(c, table().Footer(s, r, ctx))
}

// howMany says how many of a want are asked for.
func howMany(w orders.Want) string {
	switch {
	case w.Least > 0 && w.Least == w.Most:
		return fmt.Sprintf("just %d", w.Least)
	case w.Least > 0 && w.Most > 0:
		return fmt.Sprintf("%d to %d", w.Least, w.Most)
	case w.Least > 0:
		return fmt.Sprintf("%d or more", w.Least)
	case w.Most > 0:
		return fmt.Sprintf("up to %d", w.Most)
	default:
		return "any number"
	}
}

// drawWants writes one line a want, with how many are made of it.
func (s Screen) drawWants(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	top, rows := r.SplitTop(1)
	text := "Wanted at your market"
	if s.kept.demo {
		text = "Wanted at the demo's market"
	}
	if stale := s.stale(ctx); stale != "" {
		text += "   " + stale
	} else if f := s.now.found; f.late && !s.works {
		text += "   the search ended early"
	}
	c.TextFit(top.Inset(1, 0), text, c.Role(paint.RoleHeading))
	if len(s.now.wants) == 0 && s.kept.wrong != nil {
		c.Lines(rows.Inset(1, 0), screen.Wrap("Mend orders.toml, then come back: "+s.kept.wrong.Error(), rows.W-2), c.Role(paint.RoleError))
		return
	}
	if len(s.now.wants) == 0 {
		c.Lines(rows.Inset(1, 0), screen.Wrap("Nothing yet. "+ctx.Keys.KeyOf(pileAdd)+" adds what would sell, like: "+orders.Example, rows.W-2), paint.Style{})
		return
	}
	if n := len(s.now.wants); n > rows.H {
		c.TextRight(top.Inset(1, 0), fmt.Sprintf("  %d of %d", s.want+1, n), c.Role(paint.RoleFaint))
	}
	first, second := 0, 0
	for _, w := range s.now.wants {
		first, second = max(first, paint.Width(w.ID)), max(second, paint.Width(s.made(w)))
	}
	const mark, most, apart = 2, 14, 2
	if first = mark + min(first, most) + apart; second > 0 {
		second += apart
	}
	list := screen.List{Rows: rows, N: len(s.now.wants), At: s.want}
	list.Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		row = row.Inset(1, 0)
		c.Fill(row, ' ', style)
		w := s.now.wants[i]
		c.TextFit(cut(row, 0, first), mark+w.ID, style)
		c.TextFit(cut(row, first, max(1, second)), s.made(w), style)
		_, rest := row.SplitLeft(first + second)
		c.TextFit(rest, howMany(w)+"; "+w.Brief(ctx.Name, ctx.Unit), style)
	})
}

// made says how many of a want the set has.
func (s Screen) made(w orders.Want) string {
	n, ok := s.now.found.made(w)
	switch {
	case !s.now.found.have:
		return ""
	case !ok:
		return "not searched"
	case n < w.Least:
		return fmt.Sprintf("%d made, %d short", n, w.Least-n)
	}
	return fmt.Sprintf("%d made", n)
}

// cut returns so many cells of a row, less one that stays free behind them.
func cut(row paint.Rect, from, w int) paint.Rect {
	_, row = row.SplitLeft(from)
	row, _ = row.SplitLeft(w - 1)
	return row
}

// worth writes what something is worth: in money, or by its volume.
func (s Screen) worth(x float64, ctx screen.Context) string {
	if orders.InMoney(s.now.found.wants) {
		return fmt.Sprintf("%.2f", x)
	}
	return length.Volume(1000*x, ctx.Unit) + " of finished boards"
}

// drawRack draws a bar for each timber: what of it is used, and what is left.
func (s Screen) drawRack(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	f := s.now.found
	if r.H < 2 || !f.have {
		return
	}
	top, rows := r.SplitTop(1)
	text := "Rack   filled: used, dots: left"
	if !f.whole {
		text = "Rack   filled: in strips, without saw cuts and offcuts"
	}
	c.TextFit(top.Inset(1, 0), text, c.Role(paint.RoleHeading))
	across := s.columns(r)
	wide := (r.W - 2) / across
	room := across * rows.H
	for i, u := range f.used[:min(len(f.used), room)] {
		cell := paint.Rect{X: r.X + 1 + i/rows.H*wide, Y: rows.Y + i%rows.H, W: wide - 1, H: 1}
		if i == room-1 && len(f.used) > room {
			c.TextFit(cell, fmt.Sprintf("and %d timbers more", len(f.used)-room+1), c.Role(paint.RoleFaint))
			return
		}
		drawBar(c, cell, u, ctx)
	}
}

// drawBar draws how much of a timber is used.
func drawBar(c *paint.Canvas, r paint.Rect, u pile.Used, ctx screen.Context) {
	const letters, bar = 3, 12
	c.Text(r, ctx.Letters(u.Species), paint.Style{})
	share := 0.0
	if u.RackCM3 > 0 {
		share = max(0, u.UsedCM3/u.RackCM3)
	}
	_, r = r.SplitLeft(letters)
	at, r := r.SplitLeft(bar + 1)
	full := min(bar, int(math.Ceil(share*bar-0.5)))
	const seen = 0.005 // half a percent
	if share >= seen {
		full = max(1, full)
	}
	c.Text(at, strings.Repeat("#", full)+strings.Repeat(".", bar-full), paint.Style{})
	if timber, ok := ctx.Physics.Table().Get(u.Species); ok && c.Profile().ShowsWood() {
		filled, _ := at.SplitLeft(full)
		panel.Swatch(c, filled, timber, ctx.Wood)
	}
	c.TextFit(r, fmt.Sprintf("%.0f %%, %s left", 100*share, length.Volume(max(0, u.RackCM3-u.UsedCM3), ctx.Unit)), paint.Style{})
}

// press chooses what stands at a cell.
func (s Screen) press(at screen.Press, ctx screen.Context) Screen {
	p := s.lay(ctx.Window.Body)
	_, rows := p.wants.SplitTop(1)
	if i, ok := (screen.List{Rows: rows, N: len(s.now.wants), At: s.want}).On(at.Y); ok {
		s.want = i
		return s
	}
	_, rows = p.set.SplitTop(1)
	for i, cell := range s.cells(rows) {
		if cell.Contains(at.X, at.Y) {
			s.panel = i
		}
	}
	return s
}
