// Package workview draws the working figures: what gluing, cutting out, sanding,
// finishing and selling take, each figure with where it comes from and what changes
// it, and the cautions at their step.
//
// It draws lines that package work has put into words, and scrolls them.
package workview

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Shown is what was computed, and what was told besides the pattern.
type Shown struct {
	Job   work.Job
	Lines []work.Entry
	Err   error // the products cannot be laid; the rest is computed all the same
}

// empty reports whether there is nothing to work on.
func (s Shown) empty() bool { return len(s.Job.Pattern.Strips) == 0 }

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
	titles := map[string]string{work.StepGlue: "Glue", work.StepSecond: "Glue again", work.StepCut: "Cut out", work.StepSand: "Sand", work.StepFinish: "Finish",
		work.StepLabel: "Label", work.StepSale: "Sell"}
	return cmp.Or(titles[step], step)
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
	first := max(0, slices.IndexFunc(p.rows, func(r row) bool { return r.line == at }))
	return screen.Top(first, len(p.rows), h)
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
func (s Screen) index() int { return screen.Among(s.at, len(s.shown.Lines)) }

// Go chooses the line so many further down.
func (s Screen) Go(by int, _ screen.Context) Screen {
	s.at = screen.Among(s.index()+by, len(s.shown.Lines))
	return s
}

// Step goes to the next step of the work, or back to the one before.
func (s Screen) Step(by int, ctx screen.Context) Screen {
	at, lines := s.index(), s.shown.Lines
	for i := at + by; i >= 0 && i < len(lines); i += by {
		if lines[i].Step != lines[at].Step {
			s.at = slices.IndexFunc(lines, func(l work.Entry) bool { return l.Step == lines[i].Step })
			return s
		}
	}
	return s.Go(by*len(lines), ctx)
}

// At chooses the line at row y of r, for the mouse.
func (s Screen) At(y int, r paint.Rect) Screen {
	_, body, _ := parts(r)
	p := pageOf(s.shown, body.Inset(1, 0).W)
	if i := p.top(s.index(), body.H) + y - body.Y; y >= body.Y && y < body.Bottom() && i < len(p.rows) && p.rows[i].line >= 0 {
		s.at = p.rows[i].line
	}
	return s
}

// Draw draws the figures into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	head, body, info := parts(r)
	inner := body.Inset(1, 0)
	screen.DrawFooter(c, table().Footer(s, r, ctx))
	if s.shown.empty() {
		c.TextFit(head.Inset(1, 0), "Work   "+ctx.Title, c.Role(paint.RoleHeading))
		c.Text(inner.Row(0), "No strips yet: put them in on the bench.", paint.Style{})
		return
	}
	p := pageOf(s.shown, inner.W)
	top := p.top(s.index(), inner.H)
	for i := range min(inner.H, len(p.rows)-top) {
		r := p.rows[top+i]
		p.row(c, inner.Row(i), r)
		if r.line == s.index() && (top+i == 0 || p.rows[top+i-1].line != r.line) {
			c.Text(body.Row(i), ">", c.Role(paint.RoleSelected))
		}
	}
	s.shown.head(c, head.Inset(1, 0), ctx.Title, fmt.Sprintf("%d to %d of %d", top+1, min(len(p.rows), top+inner.H), len(p.rows)))
	if len(s.shown.Lines) > 0 && !info.Empty() {
		origin(c, info.Inset(1, 0), s.shown.Lines[s.index()])
	}
}

// row draws one row of the page.
func (p page) row(c *paint.Canvas, at paint.Rect, r row) {
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

// origin says where the chosen figure comes from, and which key changes it.
func origin(c *paint.Canvas, r paint.Rect, l work.Entry) {
	text := "a caution; " + work.Manuals
	switch {
	case l.Source != "" && l.Setting != "":
		text = "source: " + l.Source + ". Set by " + l.Setting + " in " + cmp.Or(l.File, "shop.toml")
	case l.Source != "":
		text = "source: " + l.Source
	case !l.Caution:
		text = "from the pattern"
	}
	c.Lines(r, screen.Wrap(text, r.W), c.Role(paint.RoleFaint))
}

// head says what the figures are for.
func (s Shown) head(c *paint.Canvas, r paint.Rect, name, rows string) {
	text := fmt.Sprintf("Work   %s, %s", name, tell.Count(s.Job.Copies, "panel"))
	if s.Job.Minutes > 0 {
		text += fmt.Sprintf("   %d min", s.Job.Minutes)
	}
	if s.Job.Asked > 0 {
		text += fmt.Sprintf("   price %.2f", s.Job.Asked)
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
