// Package rackview draws the rack: what the workshop has in timber, piece by piece to
// scale, with what there is to know of the chosen one.
package rackview

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A Screen is the rack: what is shown of it, and which entry is chosen. The zero value
// shows all of it by timber.
type Screen struct {
	ID     string // of the chosen entry; one that is gone: the first
	Order  rack.Order
	Filter rack.Filter
	Which  string // the filter as it was typed

	last   string         // the line typed last
	photo  string         // the file of the photo that was named last
	said   [][]string     // the timbers of the lines typed, each by itself, the last one first
	looks  []booking.Look // whose end grain to look at first
	yields yields
	listed listed
}

// A listed is the entries that are shown of a rack, kept from one key to the next: to put
// tens of thousands in order takes longer than a frame. The zero value is of no rack.
type listed struct {
	have    bool
	rack    rack.Rack
	order   rack.Order
	entries []rack.Entry
}

// of reports whether it is of a rack in an order. Racks are values, so one whose lists lie
// where those of another do, and are as long, is the same.
func (s listed) of(r rack.Rack, order rack.Order) bool {
	return s.have && s.order == order && sameList(s.rack.Pieces, r.Pieces) && sameList(s.rack.Strips, r.Strips)
}

func sameList[T any](a, b []T) bool { return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) }

// Entries returns what is shown, in its order. It is not to be written to.
func (l Screen) Entries(ctx screen.Context) []rack.Entry {
	if l.listed.of(ctx.Rack, l.Order) {
		return l.listed.entries
	}
	return ctx.Rack.Filter(l.Filter).Sort(l.Order).Entries()
}

// keep returns the screen with its entries kept.
func (l Screen) keep(ctx screen.Context) Screen {
	if !l.listed.of(ctx.Rack, l.Order) {
		l.listed = listed{true, ctx.Rack, l.Order, l.Entries(ctx)}
	}
	return l
}

// at returns the place of the chosen entry among those shown.
func (l Screen) at(entries []rack.Entry) int {
	return max(0, slices.IndexFunc(entries, func(e rack.Entry) bool { return e.ID == l.ID }))
}

// Chosen returns the chosen entry, and false where none is shown.
func (l Screen) Chosen(ctx screen.Context) (rack.Entry, bool) {
	entries := l.Entries(ctx)
	if len(entries) == 0 {
		return rack.Entry{}, false
	}
	return entries[l.at(entries)], true
}

// Go chooses the entry so many further down.
func (l Screen) Go(by int, ctx screen.Context) Screen {
	entries := l.Entries(ctx)
	if len(entries) > 0 {
		l.ID = entries[screen.Among(l.at(entries)+by, len(entries))].ID
	}
	return l
}

// After returns the screen with the entry chosen that takes the place of the chosen one
// when it goes.
func (l Screen) After(ctx screen.Context) Screen {
	entries := l.Entries(ctx)
	if i := l.at(entries); i+1 < len(entries) {
		l.ID = entries[i+1].ID
	} else if i > 0 {
		l.ID = entries[i-1].ID
	}
	return l
}

// At chooses the entry at row y of r, for the mouse.
func (l Screen) At(y int, r paint.Rect, ctx screen.Context) Screen {
	entries := l.Entries(ctx)
	if i, ok := l.list(r, entries).On(y); ok {
		l.ID = entries[i].ID
	}
	return l
}

// list returns the entries in the rows of r.
func (l Screen) list(r paint.Rect, entries []rack.Entry) screen.List {
	return screen.List{Rows: lay(r).rows, N: len(entries), At: l.at(entries)}
}

type layout struct{ head, needs, rows, info paint.Rect }

const infoRows = 3

func lay(r paint.Rect) layout {
	_, r = r.SplitBottom(screen.FooterRows)
	var l layout
	l.head, r = r.SplitTop(1)
	l.needs, r = r.SplitTop(1)
	l.info, l.rows = r.SplitBottom(infoRows)
	return l
}

// Draw draws the rack into r.
func (l Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	parts := lay(r)
	entries := l.Entries(ctx)
	l.head(c, parts.head.Inset(1, 0), entries, ctx)
	l.needs(c, parts.needs.Inset(1, 0), ctx)
	longest := length.Length(1)
	for _, e := range entries {
		longest = max(longest, e.Length)
	}
	l.list(r, entries).Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		l.row(c, row.Inset(1, 0), entries[i], mark, style, longest, ctx)
	})
	if len(entries) == 0 {
		c.Text(parts.rows.Row(1).Inset(1, 0), l.nothing(ctx), paint.Style{})
	}
	if e, ok := l.Chosen(ctx); ok {
		l.info(c, parts.info.Inset(1, 0), e, ctx)
	}
	screen.DrawFooter(c, table().Footer(l, r, ctx))
}

func (l Screen) nothing(ctx screen.Context) string {
	if l.Which != "" {
		return "nothing on the rack is " + l.Which
	}
	return "The rack is empty. " + ctx.Keys.KeyOf(keymap.RackAdd) + " adds a piece, like black cherry 620 85 77 flat split 0-40"
}

func (l Screen) head(c *paint.Canvas, r paint.Rect, entries []rack.Entry, ctx screen.Context) {
	pieces, ready, cm3 := rack.Totals(entries)
	text := fmt.Sprintf("%s, %s, %s   by %s", tell.Count(pieces, "piece"), tell.Count(ready, "ready strip"), length.Volume(cm3, ctx.Unit), l.Order)
	if l.Which != "" {
		text += "   only " + l.Which
	}
	at := c.TextFit(r, text, c.Role(paint.RoleHeading))
	_, r = r.SplitLeft(at + 3)
	words := lookWords(l.looks, true)
	if paint.Width(words) > r.W {
		words = lookWords(l.looks, false)
	}
	c.TextFit(r, words, c.Role(paint.RoleUnknown))
}

// lookWords says whose end grain to check first and, in full, what that decides.
func lookWords(all []booking.Look, full bool) string {
	if len(all) == 0 {
		return ""
	}
	names, lines := make([]string, 0, len(all)), 0
	for _, l := range all[:min(3, len(all))] {
		names, lines = append(names, l.Piece), lines+l.Lines
	}
	text := "check end of " + strings.Join(names, ", ")
	if full {
		text += ": decides " + tell.Count(lines, "glue line")
	}
	return text
}

// needs says what is made, how many strips of each timber that asks for and how many
// the rack yields.
func (l Screen) needs(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	supplies := l.given(ctx).supplies
	if len(supplies) == 0 {
		return
	}
	made := ctx.Made()
	if n := len(ctx.Batch.With); n > 1 {
		made = tell.Count(1+n, "pattern")
	}
	at := c.Text(r, made+", strips needed/rack", c.Role(paint.RoleFaint))
	for _, s := range supplies {
		_, rest := r.SplitLeft(at + 2)
		text, role := fmt.Sprintf("%s %d/%d", ctx.Letters(s.Species), s.Need, s.Have), paint.RolePlain
		if n := s.Short(); n > 0 {
			text, role = fmt.Sprintf("%s, %d SHORT", text, n), paint.RoleCare
		}
		if paint.Width(text) > rest.W {
			c.TextFit(rest, text, c.Role(role))
			return
		}
		at += 2 + c.Text(rest, text, c.Role(role))
	}
}

// row draws one entry: its id, timber and sizes, its length as a bar to scale, and
// what it yields of what is made.
func (l Screen) row(c *paint.Canvas, r paint.Rect, e rack.Entry, mark string, style paint.Style, longest length.Length, ctx screen.Context) {
	u := ctx.Unit
	what := " "
	switch {
	case e.Ready:
		what = "strip"
	case e.Planed:
		what = "planed"
	}
	sizes := fmt.Sprintf("%5s x %5s x %5s", e.Length.Format(u), e.Width.Format(u), e.Thickness.Format(u))
	if u == length.InInches {
		sizes = fmt.Sprintf("%9s x %8s x %8s", e.Length.Format(u), e.Width.Format(u), e.Thickness.Format(u))
	}
	count := ""
	if e.Quantity > 1 {
		count = "x" + strconv.Itoa(e.Quantity)
	}
	first := " "
	if e.UseFirst {
		first = "!"
	}
	text := fmt.Sprintf("%s%-6s %s %s %-6s %c%s%-4s", mark, paint.Fit(e.ID, 6), ctx.Letters(e.Species), sizes, what,
		e.Rings.Mark(), first, count)
	at := c.Text(r, text, style)
	_, bar := r.SplitLeft(at + 1)
	strips := l.given(ctx).strips
	if n, ok := strips[e.ID]; ok {
		var last paint.Rect
		bar, last = bar.SplitLeft(max(0, bar.W-yieldCells))
		c.TextRight(last, "gives "+strconv.Itoa(n), style)
	} else if len(strips) > 0 {
		bar, _ = bar.SplitLeft(max(0, bar.W-yieldCells))
	}
	l.bar(c, bar, e, longest, ctx)
}

// yieldCells is the room for what an entry yields.
const yieldCells = 11

// bar draws an entry's length to scale, in its timber, with its faults.
func (l Screen) bar(c *paint.Canvas, r paint.Rect, e rack.Entry, longest length.Length, ctx screen.Context) {
	cells := max(1, int(float64(r.W)*float64(e.Length)/float64(longest)))
	wood, _ := r.SplitLeft(min(cells, r.W))
	timber, ok := ctx.Physics.Table().Get(e.Species)
	if !ok || wood.Empty() {
		return
	}
	panel.Swatch(c, wood, timber, ctx.Wood)
	style := c.Role(paint.RoleError)
	for _, f := range e.Faults {
		if f.Along {
			c.Set(wood.Right()-1, wood.Y, '~', style)
			continue
		}
		from := int(float64(wood.W) * float64(f.From) / float64(e.Length))
		to := max(from+1, int(float64(wood.W)*float64(f.To)/float64(e.Length)+0.5))
		for x := from; x < min(to, wood.W); x++ {
			c.Set(wood.X+x, wood.Y, 'X', style)
		}
	}
}

// info says in words what there is to know of the chosen entry.
func (l Screen) info(c *paint.Canvas, r paint.Rect, e rack.Entry, ctx screen.Context) {
	c.TextFit(r.Row(0), rack.Shown(e, ctx.Lookup(), ctx.Unit), c.Role(paint.RoleTitle))
	facts := []string{ctx.Name(e.Species), length.Volume(e.VolumeCM3(), ctx.Unit)}
	if e.Moisture.Known {
		facts = append(facts, fmt.Sprintf("moisture %g %%", e.Moisture.Percent))
	} else {
		facts = append(facts, "no moisture reading")
	}
	if !e.Rings.Known() {
		facts = append(facts, "rings not checked")
	}
	if n := len(e.Piece.Clear()); len(e.Faults) > 0 {
		facts = append(facts, tell.Count(n, "clear part"))
	}
	if e.Note != "" {
		facts = append(facts, e.Note)
	}
	c.TextFit(r.Row(1), strings.Join(facts, "   "), paint.Style{})
	if text := short(e, ctx); text != "" {
		c.TextFit(r.Row(2), text, c.Role(paint.RoleCaution))
	} else if n, asked := l.given(ctx).strips[e.ID]; asked && n == 0 {
		c.TextFit(r.Row(2), "gives nothing: "+cutting.Why(ctx.PlanJob(), e).Words(ctx.Unit), c.Role(paint.RoleUnknown))
	}
}

// short warns of a piece that is too short to be fed to a machine.
func short(e rack.Entry, ctx screen.Context) string {
	m := ctx.Physics.Shop().Machine
	for _, limit := range [...]shop.Limitation{m.ThicknesserLeast(), m.Surfacer()} {
		if !e.Ready && limit.Length > 0 && e.Length < limit.Length {
			return fmt.Sprintf("%s long: under %s, do not feed it; follow your machine's manual and local rules",
				e.Length.With(ctx.Unit), limit.Words(ctx.Unit))
		}
	}
	return ""
}
