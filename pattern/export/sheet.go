package export

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

// A sheet is what the page shows.
type sheet struct {
	Name, Stem string
	Copies     int
	Draft      bool
	Facts      []fact
	Picture    drawing // empty: nothing to draw
	Manuals    string
	Look       []step
	Levels     string
	Stock      stock
	Strips     []stripRow
	Glue       []step
	Flatten    []step
	Finish     []step
	Mark       markOut
	Things     []made
	Figures    map[string][]work.Line // by step
	Cares      map[string][]care      // by step
	Labels     []label
	Made       []madeRow
	Notes      string
	Approx     string
}

// HasMark reports whether there is anything to mark out.
func (s sheet) HasMark() bool { return len(s.Mark.Rows) > 0 || s.Mark.Left != "" }

// A fact is a name and what it is.
type fact struct{ Name, Text string }

// A care is one thing to know at a step.
type care struct {
	Level, Where, Text, Remedy string
	Class                      string
}

// A stripRow is one strip in the list to lay out by.
type stripRow struct {
	Number                             int
	Numbers                            string
	Letters, Timber                    string
	Width, Length, Start, Rings, Glyph string
	Turned                             string
	From                               string
	Hex                                string
}

// A made is one kind of thing that is cut out, with its figures and its sanding.
type made struct {
	Called, Text string
	Lines        []work.Line
	Steps        []step
}

// A label is the text that goes with one kind of thing.
type label struct {
	Called string
	Fields []work.Field
}

type madeRow struct{ Date, Copies, Width, Thickness, Minutes, Note string }

func sheetOf(j Job) sheet {
	p, u := j.Work.Pattern, j.Unit
	report := check.Of(j.Physics, p, u)
	labels := work.Labels(j.Physics.Table(), j.Work, u)
	job := j.Work
	if len(labels) > 0 {
		job.Label = labels[0] // all lack the same fields
	}
	figures := work.Of(j.Physics, job, j.Settings)
	s := sheet{
		Name: p.Name, Stem: j.Stem, Copies: job.Copies, Draft: len(p.Strips) == 0,
		Manuals: work.Manuals, Cares: map[string][]care{}, Figures: map[string][]work.Line{}, Notes: p.Notes,
		Approx: "Colours are approximate.",
	}
	if s.Name == "" {
		s.Name = j.Stem
	}
	s.Facts = factsOf(j, figures)
	s.Picture = benchPicture(j)
	for _, l := range booking.LookFirst(j.Stock, &j.Plan, j.Physics) {
		s.Look = append(s.Look, step{Text: capital(l.String()) + "."})
	}
	s.Levels = report.Level.String()
	addFindings(s.Cares, report.Findings)
	cautions := &pool{work.Cautions(j.Physics, job, figures, j.Settings, u)}
	s.Stock = stockOf(j)
	s.Strips = stripRows(j)
	s.Glue, s.Flatten = glueSteps(j, figures.Glue, cautions), flattenSteps(j)
	s.Mark = markOutOf(j)
	for _, l := range work.Lines(job, figures, j.Settings, u) {
		if l.Product == 0 {
			s.Figures[l.Step] = append(s.Figures[l.Step], l)
		}
	}
	s.Things = thingsMade(job, figures, j, cautions)
	s.Finish = finishSteps(j, figures.Finish, cautions)
	cautions.rest(s.Cares)
	for i, l := range labels {
		s.Labels = append(s.Labels, label{job.Called(i + 1), l.Fields()})
	}
	for _, m := range p.Made {
		s.Made = append(s.Made, madeRowOf(m, u))
	}
	return s
}

// addFindings puts findings at their steps; those that say the same of several glue
// lines or strips stand as one.
func addFindings(cares map[string][]care, findings []check.Finding) {
	type said struct {
		step, what, text, remedy string
		level                    pattern.Level
	}
	var order []said
	numbers := map[said][]int{}
	for _, f := range findings {
		at := said{stepOfRule(f.Rule), "panel", f.Message, f.Remedy(), f.Level}
		n := 0
		switch {
		case f.Where.Line > 0:
			at.what, n = "glue line", f.Where.Line
		case f.Where.Strip > 0:
			at.what, n = "strip", f.Where.Strip
		}
		if numbers[at] == nil {
			order = append(order, at)
		}
		numbers[at] = append(numbers[at], n)
	}
	for _, at := range order {
		where := at.what
		if at.what != "panel" {
			where = numbered(at.what, numbers[at])
		}
		cares[at.step] = append(cares[at.step], careOf(at.level, where, at.text, at.remedy))
	}
}

// numbered returns glue line 3, or glue lines 1 to 4, 7.
func numbered(what string, numbers []int) string {
	if len(numbers) > 1 {
		what += "s"
	}
	var parts []string
	for i := 0; i < len(numbers); {
		end := i
		for end+1 < len(numbers) && numbers[end+1] == numbers[end]+1 {
			end++
		}
		switch end - i {
		case 0:
			parts = append(parts, fmt.Sprint(numbers[i]))
		case 1:
			parts = append(parts, fmt.Sprint(numbers[i]), fmt.Sprint(numbers[end]))
		default:
			parts = append(parts, fmt.Sprintf("%d to %d", numbers[i], numbers[end]))
		}
		i = end + 1
	}
	return what + " " + strings.Join(parts, ", ")
}

// stepOfRule returns the step at which a finding of a rule is to be known.
func stepOfRule(rule string) string {
	switch rule {
	case "dust":
		return "saw"
	case "oily":
		return "glue"
	case "thicknesser", "ends", "standing_out":
		return "flatten"
	case "listed":
		return "sale"
	default:
		return "before"
	}
}

func careOf(l pattern.Level, where, text, remedy string) care {
	c := care{Where: where, Text: text, Remedy: remedy}
	switch l {
	case pattern.TooMuch:
		c.Level, c.Class = "Too much", "much"
	case pattern.TakeCare:
		c.Level, c.Class = "Take care", "care"
	default:
		c.Level, c.Class = "Note", "note"
	}
	return c
}

func factsOf(j Job, f work.Figures) []fact {
	p, u := j.Work.Pattern, j.Unit
	s := j.Physics.Shop()
	t := p.Panel.Thickness
	thick := fmt.Sprintf("%s sawn, %s planed, %s finished", s.Sawn(t).With(u), s.Glued(t).With(u), t.With(u))
	if p.Panel.Make == pattern.MakeEdge {
		thick = fmt.Sprintf("strips on edge: %s ripped, %s finished", s.Glued(t).With(u), t.With(u))
	}
	width := p.Width().With(u)
	if p.Panel.Width > 0 && p.Panel.Width != p.Width() {
		width += ", wanted " + p.Panel.Width.With(u)
	}
	out := []fact{
		{"panels", fmt.Sprint(j.Work.Copies)},
		{"strips", fmt.Sprint(len(p.Strips))},
		{"finished length", p.Panel.Length.With(u)},
		{"glue-up width", width},
		{"thickness", thick},
	}
	for i, made := range j.Work.Makes() {
		if len(j.Work.Products) > 0 {
			out = append(out, fact{j.Work.Called(i + 1), thing{name: string(made.Shape), product: made, t: t.MM()}.caption(u) +
				fmt.Sprintf("; %d of a panel", f.Products[i].PerPanel)})
		}
	}
	return out
}

// stripRows lists the strips to lay out by, with where each comes from.
func stripRows(j Job) []stripRow {
	p, u := j.Work.Pattern, j.Unit
	from := sources(j)
	var out []stripRow
	for i, s := range p.Strips {
		timber, known := j.Physics.Table().Get(s.Species)
		if !known {
			timber.Name, timber.Letters = s.Species, "??"
		}
		row := stripRow{
			Number: i + 1, Letters: timber.Letters, Timber: timber.Name, Width: s.Width.With(u),
			Length: p.StripLength(s, j.Physics.Shop().Allowance.Length).With(u), Start: s.Start.With(u),
			Rings: s.Rings.String(), Glyph: glyphOf(s.Rings), From: from[i+1],
			Hex: shadesOf(timber, j.Look.Raw)[shadeBase].String(),
		}
		var turned []string
		if s.Over {
			turned = append(turned, "turned over")
		}
		if s.Turned {
			turned = append(turned, "turned end for end")
		}
		row.Turned = strings.Join(turned, ", ")
		out = append(out, row)
	}
	return gathered(out)
}

// gathered puts three or more rows in a row that are alike into one.
func gathered(rows []stripRow) []stripRow {
	var out []stripRow
	for i := 0; i < len(rows); {
		end := i
		for end+1 < len(rows) && alikeRows(rows[i], rows[end+1]) {
			end++
		}
		if end-i < 2 {
			end = i
		}
		row := rows[i]
		if end > i {
			row.Numbers = fmt.Sprintf("%d to %d", row.Number, rows[end].Number)
		} else {
			row.Numbers = fmt.Sprint(row.Number)
		}
		out = append(out, row)
		i = end + 1
	}
	return out
}

func alikeRows(a, b stripRow) bool {
	a.Number, b.Number = 0, 0
	return a == b
}

// glyphOf names the drawing of rings on end grain.
func glyphOf(r pattern.Rings) string {
	if !r.Known() {
		return "unknown"
	}
	return map[ringWord]string{ringsArch: "flat", ringsAlong: "quarter", ringsAslant: "rift"}[ringWordOf(r)]
}

// sources says of each strip, by number, which pieces it comes from in the copies.
func sources(j Job) map[int]string {
	var of tell.Groups[int, string] // by strip
	for ref, id := range j.Plan.Served() {
		if ref.Pattern == j.Stem {
			of.Add(ref.Strip, id)
		}
	}
	for _, m := range j.Plan.Missing {
		if m.Pattern == j.Stem {
			of.Add(m.Strip, "short")
		}
	}
	out := map[int]string{}
	for strip, ids := range of.All() {
		var times tell.Groups[string, string]
		for _, id := range ids {
			times.Add(id, id)
		}
		var texts []string
		for id, all := range times.All() {
			if j.Work.Copies > 1 {
				id = fmt.Sprintf("%s (%d)", id, len(all))
			}
			texts = append(texts, id)
		}
		out[strip] = strings.Join(texts, ", ")
	}
	return out
}

func thingsMade(job work.Job, f work.Figures, j Job, cautions *pool) []made {
	lines := work.Lines(job, f, j.Settings, j.Unit)
	var out []made
	for i, p := range job.Makes() {
		m := made{Called: job.Called(i + 1), Steps: thingSteps(j, i+1, p, f.Products[i], cautions)}
		m.Text = thing{name: string(p.Shape), product: p, t: job.Pattern.Panel.Thickness.MM()}.caption(j.Unit)
		for _, l := range lines {
			if l.Product == i+1 {
				m.Lines = append(m.Lines, l)
			}
		}
		out = append(out, m)
	}
	return out
}

func madeRowOf(m pattern.Made, u length.Unit) madeRow {
	row := madeRow{Date: m.Date.String(), Copies: fmt.Sprint(m.Copies), Note: m.Note}
	if m.Width > 0 {
		row.Width = m.Width.With(u)
	}
	if m.Thickness > 0 {
		row.Thickness = m.Thickness.With(u)
	}
	if m.Minutes > 0 {
		row.Minutes = fmt.Sprint(m.Minutes)
	}
	return row
}
