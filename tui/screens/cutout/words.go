package cutout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// head says which product is chosen, and where tape and square are held.
func (s Screen) head(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	e, any := s.Chosen()
	text := "Cut out   no product listed: the " + s.shown.Job.Called(1) + " itself is the product"
	if any {
		text = "Cut out   "
		if n := len(s.shown.Job.Products); n > 1 {
			text += fmt.Sprintf("product %d of %d, ", e.Product+1, n)
		}
		text += s.shown.placed(e.Product+1) + ": " + outline.Text(s.shown.Job.Products[e.Product], ctx.Unit)
	}
	c.TextFit(r.Row(0), text, c.Role(paint.RoleHeading))
	hook, cursor := s.hook(ctx), ""
	if strips(s, ctx) {
		at := s.Point(ground(ctx))
		cursor = fmt.Sprintf("%s along, %s across", at.Along.Format(ctx.Unit), at.Across.Format(ctx.Unit))
		under := cursor + ", " + under(at, ctx)
		cursor = screen.FirstThatFits(r.W-paint.Width(hook)-2, "cursor "+under, under, "cursor "+cursor, "") // where to measure from is said in whole
	}
	c.TextFit(r.Row(1), hook, paint.Style{})
	c.TextRight(r.Row(1), cursor, c.Role(paint.RoleFaint))
}

// placed says how many copies of a product, from 1, have a place.
func (s Shown) placed(product int) string {
	n := 0
	for _, at := range s.Job.Layout.Placed {
		if at.Product == product {
			n++
		}
	}
	rows := ""
	for _, b := range s.Job.Layout.Bands {
		if b.Product == product && b.Staggered {
			rows = ", staggered"
		}
	}
	if want := s.Job.Products[product-1].Count; want > 0 {
		return fmt.Sprintf("%d of %d placed%s", n, want, rows)
	}
	return fmt.Sprintf("%d placed, as many as the rows hold%s", n, rows)
}

// under says what lies at a point: a strip, or a bar and the strip in it.
func under(at panel.Point, ctx screen.Context) string {
	edge, strips := length.Length(0), ctx.State.Pattern.Strips
	if b := board(ctx); b != nil {
		for _, c := range b.Up().Cells {
			if c.Holds(at.Along.MM(), at.Across.MM()) {
				return fmt.Sprintf("bar %d, strip %d", c.Bars[len(b.Ups)-1], c.Strip)
			}
		}
		return "no cell"
	}
	for i, s := range strips {
		if edge += s.Width; at.Across < edge {
			return fmt.Sprintf("strip %d", i+1)
		}
	}
	return fmt.Sprintf("strip %d", len(strips))
}

// hook says where to measure from.
func (s Screen) hook(ctx screen.Context) string {
	switch {
	case s.shown.Err != nil:
		return "cannot be laid"
	case len(s.shown.Job.Products) == 0:
		return ctx.Keys.KeyOf("add-product") + " lists " + outline.ShapeWords(tell.A)
	case s.shown.Mark.Hook == 0:
		return "nothing to mark"
	case board(ctx) != nil:
		return "from the board's datum end, bar 1, square on A"
	}
	start := s.shown.Job.Pattern.Strips[s.shown.Mark.Hook-1].Start
	return fmt.Sprintf("from strip %d's near end (%s), square on A", s.shown.Mark.Hook, start.Format(ctx.Unit))
}

// columns puts values under each other, w cells wide in all.
func columns(w int, values ...string) string {
	widths := [...]int{7, 11, 10, 10, 16, 11, 12}
	if w < wideList {
		widths = [...]int{6, 10, 7, 10, 13, 5, 7}
	}
	var b strings.Builder
	for i, v := range values {
		fmt.Fprintf(&b, "%-*s", widths[i], v)
	}
	return b.String()
}

// wideList is the width from which the list's columns need not be close.
const wideList = 76

// list writes one line a copy: its centre from the datum, what binds it, how far it
// slides, what is clear next to it.
func (s Screen) list(c *paint.Canvas, l layout, ctx screen.Context) {
	if len(s.shown.entries) == 0 {
		return
	}
	names := l.list.Inset(1, 0).Row(0)
	c.TextFit(names, columns(names.W, "  copy", "along", "across", "held by", "can move to", "clear", "at ends"), c.Role(paint.RoleFaint))
	s.copies(l).Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		row = row.Inset(1, 0)
		e := s.shown.entries[i]
		if e.Placed >= 0 {
			c.TextFit(row, s.copy(e.Placed, mark, row.W, ctx), style)
			return
		}
		if style == (paint.Style{}) {
			style = c.Role(paint.RoleMuch)
		}
		c.TextFit(row, mark+"not placed: "+missing(s.shown, e.Product+1, ctx.Unit), style)
	})
}

// copy returns the line of one placed copy.
func (s Screen) copy(i int, mark string, w int, ctx screen.Context) string {
	at, m, u := s.shown.Job.Layout.Placed[i], s.shown.Mark.Marks[i], ctx.Unit
	clear := outline.ClearanceOf(s.shown.Job.Ground(), ctx.Allow.Length, s.shown.Job.Products[at.Product-1], at)
	slides := "stays"
	tight := outline.StopOf(s.shown.Job.Layout, i, s.shown.Job.Products, s.shown.Cut.Gap).String()
	switch {
	case at.BindingStrip > 0 && board(ctx) != nil:
		tight = "the end"
	case at.BindingStrip > 0:
		tight += " " + strconv.Itoa(at.BindingStrip)
	case s.shown.held(at):
		tight = "hand"
	}
	if at.Slide > 0 {
		slides = fmt.Sprintf("%s (%s)", m.SlidesToFromHook.Format(u), at.Slide.Format(u))
	}
	return columns(w, mark+s.shown.label(at), m.FromHook.Format(u), m.FromA.Format(u), tight, slides, clear.Side.Format(u),
		clear.Near.Format(u)+", "+clear.Far.Format(u))
}

// held reports whether a hand holds a copy where it is.
func (s Shown) held(at outline.Placed) bool {
	return slices.ContainsFunc(s.Held, func(h outline.Fixed) bool { return h.Product == at.Product && h.Copy == at.Copy })
}

// missing says how many copies of a product are not placed, and what would do.
func missing(s Shown, product int, u length.Unit) string {
	for _, n := range s.Job.Layout.NotPlaced {
		if n.Product == product {
			return fmt.Sprintf("%d of product %d, %s", n.Copies, product, work.Why(n, u))
		}
	}
	return fmt.Sprintf("product %d, none fits in rows", product)
}

// A detail is one thing to know; how its first words look says how much it asks.
type detail struct {
	lead, text string
	role       paint.Role // of the lead
}

// facts returns what there is to know of the chosen product and of the panel, what
// asks for something first.
func (s Screen) facts(ctx screen.Context) []detail {
	if s.shown.Err != nil {
		return []detail{{"cannot be laid", s.shown.Err.Error(), paint.RoleError}}
	}
	e, any := s.Chosen()
	if !any {
		return nil
	}
	u := ctx.Unit
	out := s.shown.cautions(e.Product+1, true)
	add := func(lead, text string) {
		if text != "" {
			out = append(out, detail{lead, text, paint.RoleUnknown})
		}
	}
	if len(s.shown.Held) > 0 {
		add("moved", "trial only; "+ctx.Keys.KeyOf(cutKeep)+" keeps it, by a keep-clear mark")
	}
	if product := work.Staggered(s.shown.Job.Layout); product > 0 {
		add("staggered rows", fmt.Sprintf("of product %d: keep the panel's ends straight", product))
	}
	p, f := s.shown.Job.Products[e.Product], s.shown.Figures.Products[e.Product]
	add("", router(p, f, s.shown.Cut, u))
	add("to draw it", work.DrawingText(p, u))
	add("", bevel(p, f, u))
	add("", holes(p, f, u))
	if left := s.shown.Job.Layout.Left; left.Length > 0 {
		add("", fmt.Sprintf("offcut %s x %s at the far end, from %s%s", left.Length.Format(u), left.Width.Format(u), left.From.With(u), s.shown.still()))
	}
	if at, ok := s.Copy(); ok {
		if rounds, ok := work.OutOfRoundLine(ctx.Physics, s.shown.Job, at, u); ok {
			add("", rounds.String())
		}
	}
	add("", s.shown.blanks(u))
	out = append(out, detail{"caution", work.Manuals, paint.RoleCaution})
	return append(out, s.shown.cautions(e.Product+1, false)...)
}

// cautions returns those that concern a product, from 1, or all of the work: those that
// ask for something, or those that are good to know.
func (s Shown) cautions(product int, asking bool) []detail {
	var out []detail
	for _, c := range s.Cautions {
		text, others := c.Text, c.Product > 0 && c.Product != product
		if others {
			text = c.String()
		}
		switch {
		case (c.Level > pattern.Fine) != asking || others && c.Level < pattern.TooMuch:
		case asking:
			out = append(out, detail{c.Level.String(), text, screen.Role(c.Level)})
		default:
			out = append(out, detail{"caution", text, paint.RoleCaution})
		}
	}
	return out
}

// still says what of the listed products would still come out of what is left.
func (s Shown) still() string {
	var parts []string
	for _, left := range s.Remaining {
		if left.Copies > 0 {
			parts = append(parts, fmt.Sprintf("%d of product %d", left.Copies, left.Product))
		}
	}
	if len(parts) == 0 {
		return ": no product fits it"
	}
	return ": still holds " + strings.Join(parts, " or ")
}

func size(p pattern.Product, along, across length.Length, u length.Unit) string {
	return outline.SizeText(outline.ShapeOf(p).Resized(along, across).Sizes(), func(l length.Length) string { return l.Format(u) })
}

func router(p pattern.Product, f work.ProductFigures, cut shop.Cut, u length.Unit) string {
	text := "no template with the bush outside it"
	if f.Template.Along > 0 {
		text = fmt.Sprintf("template %s (bush %s, cutter %s)", size(p, f.Template.Along, f.Template.Across, u), cut.Bush.Format(u), cut.Cutter.Format(u))
	}
	if f.Passes > 0 {
		text += fmt.Sprintf("; %d passes %s deep, %s of path", f.Passes, cut.Pass.Format(u), length.Run(f.PathM, u))
	}
	return text + "; blank at least " + size(p, f.Blank.Along, f.Blank.Across, u)
}

func bevel(p pattern.Product, f work.ProductFigures, u length.Unit) string {
	if p.Bevel == 0 {
		return ""
	}
	return fmt.Sprintf("bevel %s (45 deg, %v): face %s wide, foot %s, %s of edge stays", p.Bevel.Format(u), p.BevelSide,
		length.Estimate(f.BevelFaceMM, u), size(p, f.Stands.Along, f.Stands.Across, u), f.EdgeLeft.Format(u))
}

func holes(p pattern.Product, f work.ProductFigures, u length.Unit) string {
	if p.Holes == 0 {
		return ""
	}
	centres := make([]string, len(f.HoleCentres))
	for i, at := range f.HoleCentres {
		centres[i] = at.Format(u)
	}
	return fmt.Sprintf("holes from the near end: %s; %s between them, %s under them", strings.Join(centres, ", "), f.HoleGap.Format(u), f.FloorLeft.With(u))
}

// blanks says where the panel is crosscut between the bands.
func (s Shown) blanks(u length.Unit) string {
	if len(s.Mark.Blanks) < 2 {
		return ""
	}
	var cuts []string
	for _, b := range s.Mark.Blanks[1:] {
		cuts = append(cuts, b.From.Format(u))
	}
	return "crosscut into blanks at " + strings.Join(cuts, ", ") + " from the datum end"
}

// closeRows is up to how many rows each thing to know has one alone.
const closeRows = 6

// details writes what there is to know, and where the rest is when there is more.
func (s Screen) details(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	facts := s.facts(ctx)
	y := 0
	for i, f := range facts {
		text := f.text
		if f.lead != "" {
			text = f.lead + ": " + f.text
		}
		words := screen.Wrap(text, r.W)
		if r.H <= closeRows && f.lead == "" { // what asks for care is said in whole
			words = []string{paint.Fit(text, r.W)}
		}
		last := i == len(facts)-1
		if room := r.H - y; len(words) > room || !last && len(words) == room {
			if i == 0 {
				for _, w := range words[:max(0, min(len(words), room-1))] {
					c.Text(r.Row(y), w, paint.Style{})
					y++
				}
			}
			more := "more: " + ctx.Keys.KeyOf(cutSheet)
			if whole := more + " shows the whole mark-out"; paint.Width(whole) <= r.W {
				more = whole
			}
			c.TextFit(r.Row(y), more, c.Role(paint.RoleFaint))
			return
		}
		for k, w := range words {
			c.Text(r.Row(y+k), w, paint.Style{})
		}
		c.TextFit(r.Row(y), f.lead, c.Role(f.role))
		y += len(words)
	}
}
