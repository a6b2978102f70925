// Package workview draws the working figures: what gluing, cutting out, sanding,
// finishing and selling take, each figure with where it comes from and what changes
// it, and the cautions at their step.
//
// It draws lines that package work has put into words, and scrolls them.
package workview

import (
	"cmp"
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Shown is what the root had computed, and what it was told besides the pattern.
type Shown struct {
	Job   work.Job
	Lines []work.Entry
	Err   error // the products cannot be laid; the rest is computed all the same
}

// empty reports whether there is nothing to work on.
func (s Shown) empty() bool { return len(s.Job.Pattern.Strips) == 0 }

// A View is the screen: which line is chosen. The zero value stands at the first.
type View struct{ at int }

// The parts of the screen, in cells.
const (
	headRows = 1
	infoRows = 2 // where the chosen figure comes from, and what changes it
	gutter   = 2
	wideFrom = 100 // the width from which every source has room beside its figure
	wideLeft = 46  // percent of the width for the figures there
	left     = 58  // and in narrower ones
)

// A row is one line of cells on the page.
type row struct {
	line   int    // of Shown.Lines, from 0; below 0: none of them
	lead   string // what its text begins with, in its role
	role   paint.Role
	text   string
	value  int    // where in the text the figure begins; 0: there is none
	source string // in the second column
}

// title heads a step.
func title(step string) string {
	switch step {
	case work.StepGlue:
		return "Glue"
	case work.StepCut:
		return "Cut out"
	case work.StepSand:
		return "Sand"
	case work.StepFinish:
		return "Finish"
	case work.StepLabel:
		return "Label"
	case work.StepSale:
		return "Sell"
	default:
		return step
	}
}

// A page is the lines laid out in rows of so many cells.
type page struct {
	w, left int
	wide    bool
	rows    []row
	step    string // that was headed last
	thing   string // product or panel that was named last
}

// pageOf lays the lines out in rows of w cells.
func pageOf(s Shown, w int) page {
	p := page{w: w, left: w * left / 100, wide: w >= wideFrom}
	if p.wide {
		p.left = w * wideLeft / 100
	}
	if s.Err != nil {
		p.sentence(-1, "cannot be laid", paint.RoleError, s.Err.Error())
	}
	for i, l := range s.Lines {
		if l.Step != p.step {
			if p.step != "" {
				p.rows = append(p.rows, row{line: -1})
			}
			p.step, p.thing = l.Step, ""
			p.rows = append(p.rows, row{line: -1, text: title(l.Step), lead: title(l.Step), role: paint.RoleHeading})
		}
		switch {
		case l.Caution && l.Level == pattern.Fine:
			p.sentence(i, "caution", paint.RoleCaution, l.Text)
		case l.Caution:
			p.sentence(i, l.Level.String(), screen.Role(l.Level), l.Text)
		default:
			p.figure(i, l.Line)
		}
	}
	p.rows = append(p.rows, row{line: -1})
	p.sentence(-1, "caution", paint.RoleCaution, work.Manuals)
	return p
}

// sentence puts text over the whole width behind its lead.
func (p *page) sentence(line int, lead string, role paint.Role, text string) {
	for i, words := range screen.Wrap(lead+": "+text, p.w) {
		r := row{line: line, text: words}
		if i == 0 {
			r.lead, r.role = lead, role
		}
		p.rows = append(p.rows, r)
	}
}

// figure puts a figure beside its source.
func (p *page) figure(line int, l work.Line) {
	name, indent := p.short(l)
	if l.Source == "" { // nothing is computed: the text has all of the width
		p.named(line, name, l.Text, p.w, indent)
		return
	}
	from := len(p.rows)
	p.named(line, name, l.Text, p.left, indent)
	room := p.w - p.left - gutter
	sources := []string{paint.Fit(l.Source, room)}
	if p.wide {
		sources = screen.Wrap(whole(l), room)
	}
	for i, words := range sources {
		if from+i == len(p.rows) {
			p.rows = append(p.rows, row{line: line})
		}
		p.rows[from+i].source = words
	}
}

// whole returns where a figure comes from, and what changes it.
func whole(l work.Line) string {
	switch {
	case l.Setting == "":
		return l.Source
	case l.File != "":
		return l.Source + "; set by " + l.Setting + " in " + l.File
	default:
		return l.Source + "; set by " + l.Setting
	}
}

// short leaves out of a figure's name what its heading says, and names the product or
// panel once; what is of it is set in.
func (p *page) short(l work.Line) (name, indent string) {
	switch {
	case l.Product == 0:
		return l.What, ""
	case l.Of == "":
		p.thing = l.What
		return l.What, ""
	}
	if l.Of != p.thing {
		p.thing = l.Of
		p.rows = append(p.rows, row{line: -1, text: p.thing})
	}
	return l.What, "  "
}

// named puts a name and a text into rows of w cells.
func (p *page) named(line int, name, text string, w int, indent string) {
	for i, words := range screen.Wrap(name+": "+text, w-len(indent)) {
		r := row{line: line, text: indent + words, value: len(indent) + 1}
		if i == 0 {
			r.value = min(len(indent)+paint.Width(name)+2, paint.Width(r.text))
		}
		p.rows = append(p.rows, r)
	}
}

// top returns the first row in view when h of them find room and line at is chosen.
func (p page) top(at, h int) int {
	first := 0
	for i, r := range p.rows {
		if r.line == at {
			first = i
			break
		}
	}
	return max(0, min(first-h/2, len(p.rows)-h))
}

// parts returns the rectangles of head, page and what there is to know of the chosen
// line.
func parts(r paint.Rect) (head, body, info paint.Rect) {
	_, r = r.SplitBottom(screen.FooterRows)
	head, body = r.SplitTop(headRows)
	if r.W-2 < wideFrom {
		info, body = body.SplitBottom(infoRows)
	}
	return head, body, info
}

// index returns the chosen line; there may be fewer than there were.
func (v View) index(s Shown) int { return max(0, min(v.at, len(s.Lines)-1)) }

// Go chooses the line so many further down.
func (v View) Go(by int, s Shown) View {
	v.at = max(0, min(v.index(s)+by, len(s.Lines)-1))
	return v
}

// Step goes to the next step of the work, or back to the one before.
func (v View) Step(by int, s Shown) View {
	at := v.index(s)
	for i := at + by; i >= 0 && i < len(s.Lines); i += by {
		if s.Lines[i].Step == s.Lines[at].Step {
			continue
		}
		v.at = i
		for v.at > 0 && s.Lines[v.at-1].Step == s.Lines[i].Step {
			v.at--
		}
		return v
	}
	if by > 0 {
		return v.Go(len(s.Lines), s)
	}
	v.at = 0
	return v
}

// At chooses the line at row y of r, for the mouse.
func (v View) At(y int, r paint.Rect, s Shown) View {
	_, body, _ := parts(r)
	p := pageOf(s, body.Inset(1, 0).W)
	if i := p.top(v.index(s), body.H) + y - body.Y; y >= body.Y && y < body.Bottom() && i < len(p.rows) && p.rows[i].line >= 0 {
		v.at = p.rows[i].line
	}
	return v
}

// Footer returns the keys that matter now.
func (v View) Footer(r paint.Rect, s Shown, ctx screen.Context) []screen.FooterPlace {
	return screen.Footer(r, ctx.Keys, Place, func(id keymap.ID) bool {
		switch id {
		case keymap.Save, keymap.Undo, keymap.Season:
			return false
		default:
			return !s.empty() || id == keymap.Unit || id == keymap.Quit
		}
	})
}

// Draw draws the page into r.
func (v View) Draw(c *paint.Canvas, r paint.Rect, s Shown, ctx screen.Context) {
	head, body, info := parts(r)
	inner := body.Inset(1, 0)
	if s.empty() {
		c.Text(head.Inset(1, 0), paint.Fit("Work   "+ctx.Title, r.W-2), c.Role(paint.RoleHeading))
		c.Text(inner.Row(0), "Nothing to work on: no strips yet, the bench puts them in.", paint.Style{})
		screen.DrawFooter(c, v.Footer(r, s, ctx))
		return
	}
	p := pageOf(s, inner.W)
	top := p.top(v.index(s), inner.H)
	for i := range min(inner.H, len(p.rows)-top) {
		r := p.rows[top+i]
		v.row(c, inner.Row(i), p, r)
		if r.line == v.index(s) && (top+i == 0 || p.rows[top+i-1].line != r.line) {
			c.Text(body.Row(i), ">", c.Role(paint.RoleSelected))
		}
	}
	v.head(c, head.Inset(1, 0), s, ctx, fmt.Sprintf("%d to %d of %d", top+1, min(len(p.rows), top+inner.H), len(p.rows)))
	if len(s.Lines) > 0 && !info.Empty() {
		v.info(c, info.Inset(1, 0), s.Lines[v.index(s)])
	}
	screen.DrawFooter(c, v.Footer(r, s, ctx))
}

// row draws one row of the page.
func (v View) row(c *paint.Canvas, at paint.Rect, p page, r row) {
	c.Text(at, r.text, paint.Style{})
	if r.value > 0 {
		_, figure := at.SplitLeft(r.value)
		figure.W = max(0, min(figure.W, paint.Width(r.text)-r.value))
		c.Restyle(figure, c.Role(paint.RoleTitle))
	}
	c.Text(at, r.lead, c.Role(r.role))
	_, source := at.SplitLeft(p.left + gutter)
	c.Text(source, r.source, c.Role(paint.RoleFaint))
}

// info says where the chosen figure comes from, and which key changes it.
func (v View) info(c *paint.Canvas, r paint.Rect, l work.Entry) {
	text := "a caution; " + work.Manuals
	switch {
	case l.Source != "" && l.Setting != "":
		text = "from: " + l.Source + ". Set by " + l.Setting + " in " + cmp.Or(l.File, "shop.toml")
	case l.Source != "":
		text = "from: " + l.Source
	case !l.Caution:
		text = "as the pattern has it"
	}
	for i, words := range screen.Wrap(text, r.W) {
		c.Text(r.Row(i), words, c.Role(paint.RoleFaint))
	}
}

// head says what the figures are for.
func (v View) head(c *paint.Canvas, r paint.Rect, s Shown, ctx screen.Context, rows string) {
	text := fmt.Sprintf("Work   %s, %s", ctx.Title, tell.Count(s.Job.Copies, "panel"))
	if s.Job.Minutes > 0 {
		text += fmt.Sprintf("   %d min", s.Job.Minutes)
	}
	if s.Job.Asked > 0 {
		text += fmt.Sprintf("   asked %.2f", s.Job.Asked)
	}
	if s.Job.Clamps > 0 {
		text += fmt.Sprintf("   %d clamps", s.Job.Clamps)
	}
	if s.Job.Due != (pattern.Date{}) {
		text += "   before " + s.Job.Due.String()
	}
	if s.Job.DryingOil {
		text += "   drying oil"
	}
	c.TextRight(r, rows, c.Role(paint.RoleFaint))
	c.Text(r, paint.Fit(text, r.W-paint.Width(rows)-2), c.Role(paint.RoleHeading))
}
