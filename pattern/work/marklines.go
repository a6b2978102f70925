package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/tell"
)

// MarkLines returns the mark-out of j, lengths in u: where to measure from, every centre
// from there, what does not fit and why, the blanks between the bands, and what is left.
// It is what is printed and what the screen shows in full.
func MarkLines(r movement.Physics, j Job, u length.Unit) []Line {
	m := marker{physics: r, job: j, unit: u}
	p, cut := j.Pattern, r.Shop().Cut
	m.say("", "glue-up width", "%s", m.with(p.Width()))
	m.bars()
	if len(j.Products) == 0 {
		m.say("", "products", "none listed yet")
	}
	out := MarkOutOf(j.Ground(), m.allowance(), j.Layout, cut.Gap)
	switch {
	case out.Hook > 0 && j.Board != nil:
		m.say("", "measure", "lengths from the board's datum end, the near side of bar 1; widths from its edge A")
	case out.Hook > 0:
		m.say("", "measure", "lengths from the near end of strip %d, which is %s from the datum end; widths from edge A, the left edge of strip 1",
			out.Hook, m.with(out.HookStart))
	}
	for i, product := range j.Products {
		name := fmt.Sprintf("product %d", i+1)
		m.say("", name, "%s, %s", outline.Text(product, u), RowsText(j, i+1))
		if how := DrawingText(product, u); how != "" {
			m.say(name, "to draw it", "%s", how)
		}
	}
	for i, a := range p.Avoids {
		m.say(fmt.Sprintf("knot %d", i+1), "kept clear", "%s from the datum end, %s from edge A, radius %s", m.with(a.Along), m.with(a.Across), m.with(a.Radius))
	}
	m.lines = append(m.lines, PieceLines(j, m.allowance(), u)...)
	for i, at := range j.Layout.Placed {
		m.placed(at, out.Marks[i])
		if rounds, ok := OutOfRoundLine(r, j, at, u); ok {
			rounds.Of = fmt.Sprintf("product %d, copy %d", at.Product, at.Copy)
			m.lines = append(m.lines, rounds)
		}
	}
	for _, misfit := range Misfits(j, u) {
		m.say("does not fit", fmt.Sprintf("product %d", misfit.Product), "%s", misfit.Text)
	}
	for i, b := range out.Blanks {
		m.say(fmt.Sprintf("blank %d", i+1), fmt.Sprintf("for product %d", b.Product), "%s long and %s wide, from %s to %s from the datum end",
			m.with(b.Length), m.with(b.Width), m.with(b.From), m.with(b.To()))
	}
	m.left(out)
	return m.lines
}

// left says what is left over behind the last band, and what of the products would
// still come out of it.
func (m *marker) left(out MarkOut) {
	p := m.job.Pattern
	m.say("", "offcut", "%s", LeftText(m.job.Layout, m.unit))
	left := m.job.Layout.Left
	if left.Length == 0 {
		return
	}
	if n := len(out.Blanks); n > 0 {
		cut := out.Blanks[n-1].To() + m.physics.Shop().Kerf.Crosscut
		m.say(fmt.Sprintf("offcut once blank %d is off", n), "less a kerf", "%s long", m.with(max(0, left.From+left.Length-cut)))
	}
	any := false
	for _, s := range outline.RemainingCopies(m.job.Ground(), m.allowance(), m.job.Products, p.Avoids, m.physics.Shop().Cut, m.job.Layout) {
		if s.Copies > 0 {
			m.say("", "offcut still holds", "%d of product %d, in rows", s.Copies, s.Product)
			any = true
		}
	}
	if len(m.job.Products) > 0 && !any {
		m.say("", "offcut still holds", "no product")
	}
}

// DrawingText says how the outline of p is drawn about its centre, and nothing where
// compasses or a square serve.
func DrawingText(p pattern.Product, u length.Unit) string {
	shape := outline.ShapeOf(p)
	along, across := shape.Size()
	return shape.Template(along, across, u)
}

// LeftText says what is left over behind the last product of l, lengths in u.
func LeftText(l outline.Layout, u length.Unit) string {
	if l.Left.Length == 0 {
		return "none behind the last product"
	}
	text := fmt.Sprintf("%s long and %s wide, from %s to the far end", l.Left.Length.With(u), l.Left.Width.With(u), l.Left.From.With(u))
	if len(l.Bands) > 0 {
		text += ", less the cut that frees it"
	}
	return text
}

// A marker puts a mark-out into words.
type marker struct {
	physics movement.Physics
	job     Job
	unit    length.Unit
	lines   []Line
}

// say adds what there is to say of something; of is what it belongs to, and may be empty.
func (m *marker) say(of, what, format string, args ...any) {
	m.lines = append(m.lines, Line{Of: of, What: what, Text: fmt.Sprintf(format, args...)})
}

func (m *marker) with(l length.Length) string { return l.With(m.unit) }

func (m *marker) allowance() length.Length { return m.physics.Shop().Allowance.Length }

func (m *marker) placed(at outline.Placed, mark Mark) {
	bound := "held by what is before it"
	switch {
	case at.BindingStrip > 0 && m.job.Board != nil:
		bound = "bound by the board's end"
	case at.BindingStrip > 0:
		bound = fmt.Sprintf("held by strip %d", at.BindingStrip)
	case len(m.job.Pattern.Avoids) > 0:
		bound += ", or by a knot"
	}
	slide := "it cannot move"
	if at.Slide > 0 {
		slide = fmt.Sprintf("it can move %s, to %s along", m.with(at.Slide), m.with(mark.SlidesToFromHook))
	}
	m.say(fmt.Sprintf("product %d, copy %d", at.Product, at.Copy), fmt.Sprintf("row %d", at.Row),
		"centre %s along, %s from the datum end, %s from edge A; %s; %s", m.with(mark.FromHook), m.with(at.Along), m.with(at.Across), slide, bound)
}

// RowsText says how many copies of product number, from 1, were asked for and are
// placed, in how many rows.
func RowsText(j Job, number int) string {
	wanted := "as many as the rows hold"
	if n := j.Products[number-1].Count; n > 0 {
		wanted = fmt.Sprintf("%d asked for", n)
	}
	for _, b := range j.Layout.Bands {
		if b.Product != number {
			continue
		}
		rows := tell.Count(b.Rows, "row")
		if b.Staggered {
			rows += ", staggered"
		}
		return fmt.Sprintf("%s, %d placed; the %s is wide enough for %s", wanted, len(j.Placed(number)), j.cut(), rows)
	}
	return wanted + ", none placed"
}

// cut names what products are cut from.
func (j Job) cut() string {
	if j.Board != nil {
		return "board"
	}
	return "panel"
}

// OutOfRoundLine says what the seasons make of a round that is placed; of another shape
// there is nothing to say.
func OutOfRoundLine(r movement.Physics, j Job, at outline.Placed, u length.Unit) (l Line, ok bool) {
	if outline.ShapeOf(j.Products[at.Product-1]).Diameter() == 0 {
		return Line{}, false
	}
	l = figures()["OutOfRound"]
	l.Product = at.Product
	var parts []string
	for _, season := range movement.Seasons() {
		e := OutOfRound(r, j, j.Products[at.Product-1], at, season)
		if !e.Known {
			l.What, l.Text = "out of round", "no figure, a timber has no coefficients"
			return l, true
		}
		parts = append(parts, fmt.Sprintf("%s in the %v season", length.Change(e.Value, u), season))
	}
	l.Text = strings.Join(parts, ", ")
	return l, true
}

// Misfits says what does not come out of the panel, and why.
func Misfits(j Job, u length.Unit) []Remark {
	var out []Remark
	for _, n := range j.Layout.NotPlaced {
		out = append(out, Remark{n.Product, notFitting(n.Copies) + ": " + Why(n, u)})
	}
	for i, p := range j.Products {
		switch {
		case p.Count != 0:
		case j.Layout.Full == i+1:
			out = append(out, Remark{i + 1, "more may fit: " + full()})
		case len(j.Placed(i+1)) == 0:
			out = append(out, Remark{i + 1, "none fits in rows"})
		}
	}
	return out
}

// notFitting returns 1 does not fit, 2 do not fit.
func notFitting(n int) string {
	if n == 1 {
		return "1 does not fit"
	}
	return fmt.Sprintf("%d do not fit", n)
}

// full says that no more are placed, and what would do.
func full() string {
	return fmt.Sprintf("at most %d products and %d holes fit on one panel here: make two patterns", outline.MaxPlaced, outline.MaxHoles)
}

// Why says why copies of a product are not placed.
func Why(n outline.NotPlaced, u length.Unit) string {
	switch {
	case n.Full:
		return full()
	case n.Avoided:
		return "a knot is in the way"
	case n.Jointed > 0:
		return fmt.Sprintf("the joint of strip %d at %s is in the way", n.Jointed, JointText(n.Joint, u))
	case n.TooNarrow > 0:
		return "panel too narrow by " + n.TooNarrow.With(u)
	case n.TooShort > 0:
		return "panel too short by " + n.TooShort.With(u)
	default:
		return "no row holds it" // between circles to avoid, or on no strip
	}
}

// JointText says where a joint lies: at 552 mm, or from 296 to 311 mm.
func JointText(j pattern.Joint, u length.Unit) string {
	if j.From == j.To {
		return j.From.With(u)
	}
	return j.From.Format(u) + " to " + j.To.With(u)
}

// Staggered returns the first product, from 1, that stands in staggered rows, or 0. Its
// panel must keep straight ends.
func Staggered(l outline.Layout) int {
	for _, b := range l.Bands {
		if b.Staggered {
			return b.Product
		}
	}
	return 0
}
