package export

import (
	"bytes"
	_ "embed"
	"html/template"
	"io"
	"slices"
	"strings"
	"unicode"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
)

// sheetPage is the page with its style, its headings and its sentences. Figures and
// findings come in by a sheet.
//
//go:embed sheet.html
var sheetPage string

// A sheet is what the page shows: a job with what is known of it.
type sheet struct {
	Job
	Figures work.Figures
	Report  check.Report
	Mark    work.MarkOut
	Seasons []movement.Season // there is a round to tell of; else none
	Picture template.HTML     // empty: nothing to draw
	Boards  []template.HTML   // one a second glue-up
	Relief  template.HTML     // the section in both seasons; empty: there is none
	Told    []string          // of the section, each a sentence
	machined
	Strips []stripRow
	Laid   []pieceRow // of strips that are not as the list of strips has them
	Stops  []stopRow
	Things []*made
	Lines  map[string][]work.Line // of the whole job, by step
	Cares  map[string][]care      // of the whole job, by the place where they stand
	inSet
	Gluing  *gluing // of a pattern that is alone and takes several evenings
	Set     *set    // all boards of a set; nil: there is none
	chapter int     // the last
}

// An inSet is what the sheet of one board of a set says of it. The zero value is of none.
type inSet struct {
	Nth  int    // its place, from 1
	Glue string // the evenings in which it is glued; empty: none is said
}

// A machined is how a plan is carried out.
type machined struct {
	Looks   []booking.Look
	Missing []worksteps.Step
	Steps   []worksteps.Step // by machine
	Pieces  []opened
}

// Number counts the chapters that there are.
func (s *sheet) Number() int {
	s.chapter++
	return s.chapter
}

// A care is one thing to know.
type care struct {
	Level               pattern.Level
	Where, Text, Remedy string
}

// An opened is a piece that the plan cuts.
type opened struct {
	worksteps.Detail
	Text  string
	EndOn []template.HTML
	Along template.HTML
}

// A made is one kind of thing that is cut out, with what is known of it.
type made struct {
	Called, Text string
	Product      pattern.Product
	Figures      work.ProductFigures
	Drawing      string // how its outline is drawn, and that of its template; empty where that takes no word
	Template     string
	TemplateSize string
	Sawn         string // how it is cut out without a router; empty where it is not
	Sanding      []work.Step
	Lines        []work.Line
	Label        []work.Field
	Cares        map[string][]care // by the step where they stand
}

// writeSheet writes the page for the bench: everything from the pieces on the rack to
// the label, in the workshop's order, each caution at its own step.
func writeSheet(w io.Writer, j Job) error {
	if len(j.Beside) > 0 {
		return setOf(j).write(w)
	}
	return sheetOf(j).write(w)
}

func (s *sheet) write(w io.Writer) error {
	page, err := template.New("sheet.html").Funcs(template.FuncMap{
		"boxes":    boxes,
		"capital":  capital,
		"class":    levelClass,
		"count":    tell.Count,
		"counted":  cutting.CountedText,
		"heading":  levelHeading,
		"leftOver": work.LeftText,
		"lengths":  func(all []length.Length, u length.Unit) string { return tell.Lengths(u, all...) },
		"manuals":  func() string { return work.Manuals },
		"next":     func(i int) int { return i + 1 },
		"times":    tell.Times,
		"volume":   length.Volume,
		"whole":    func(x float64) int { return int(x) },
		"words":    func(all ...string) []string { return all },
	}).Parse(sheetPage)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := page.Execute(&b, s); err != nil {
		return err
	}
	_, err = w.Write(bytes.Map(func(r rune) rune {
		if r != '\n' && !unicode.IsPrint(r) {
			return unicode.ReplacementChar
		}
		return r
	}, b.Bytes()))
	return err
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// levelHeading returns what stands before a finding or a caution.
func levelHeading(l pattern.Level) string { return capital(l.Heading()) }

// levelClass returns the class by which the style knows a level.
func levelClass(l pattern.Level) string {
	switch l {
	case pattern.TooMuch:
		return "much"
	case pattern.TakeCare:
		return "care"
	default:
		return "note"
	}
}

// sheetOf returns the sheet of a pattern that is alone.
func sheetOf(j Job) *sheet {
	s := panelSheet(j)
	s.machines()
	s.fewFirst()
	if g := gluingOf([]Job{j}); len(g.Evenings) > 1 {
		s.Gluing = &g
	}
	return s
}

// machines adds how the plan is carried out.
func (s *sheet) machines() {
	j := s.Job
	s.Looks = booking.LookFirst(j.Stock, &j.Plan, j.Physics)
	if len(j.Stock.Patterns) == 0 {
		return
	}
	s.addMachines(worksteps.Cares(j.Stock, j.Plan))
	s.sort(worksteps.Order(worksteps.ByMachine, j.Stock, j.Plan, j.timber, j.Unit))
	for i, d := range worksteps.Details(j.Stock, j.Plan) {
		s.Pieces = append(s.Pieces, opened{d, d.Text(j.timber(d.Piece.Species), j.Unit), endOn(j, d, i), alongPicture(j, d, i)})
	}
}

// panelSheet returns what a sheet says of one pattern, its sawing apart.
func panelSheet(j Job) *sheet {
	p, u, shop := j.Work.Pattern, j.Unit, j.Physics.Shop()
	labels := work.Labels(j.Physics.Table(), j.Work, u)
	if len(labels) > 0 {
		j.Work.Label = labels[0] // all lack the same fields
	}
	s := &sheet{
		Job: j, Figures: work.Of(j.Physics, j.Work), Report: check.Of(j.Physics, p, u),
		Mark:    work.MarkOutOf(p, shop.Allowance.Length, j.Work.Layout, shop.Cut.Gap),
		Picture: benchPicture(j), Boards: boardPictures(j), Strips: stripRows(j),
		Lines: map[string][]work.Line{}, Cares: map[string][]care{},
	}
	s.Laid, s.Stops = pieceRows(j)
	for i, product := range j.Work.Makes() {
		s.Things = append(s.Things, s.made(product, i+1, labels[i]))
	}
	for _, l := range work.Lines(j.Work, s.Figures, shop, u) {
		if l.Product == 0 {
			s.Lines[l.Step] = append(s.Lines[l.Step], l)
		} else {
			m := s.Things[l.Product-1]
			m.Lines = append(m.Lines, l)
		}
	}
	s.addFindings(s.Report.Groups)
	for _, c := range work.Cautions(j.Physics, j.Work, s.Figures, u) {
		s.addCaution(c)
	}
	section := sectionOf(j)
	s.Relief, s.Told = reliefPicture(j, section), section.words(j)
	return s
}

// made returns what is known of the product of a number, from 1, but its lines and cares.
func (s *sheet) made(p pattern.Product, number int, label work.Label) *made {
	f, shape := s.Figures.Products[number-1], outline.ShapeOf(p)
	m := &made{
		Called: s.Work.Called(number), Product: p, Figures: f, Label: label.Fields(), Cares: map[string][]care{},
		Drawing: work.DrawingText(p, s.Unit), Sanding: work.SandingOrder(p, s.Unit),
		Text: thing{name: string(p.Shape), product: p, t: s.Work.Pattern.Panel.Thickness.MM()}.caption(s.Unit),
	}
	m.Sawn, _ = shape.Sawn()
	if f.Template.Along > 0 {
		m.Template = shape.Template(f.Template.Along, f.Template.Across, s.Unit)
		m.TemplateSize = tell.Size(s.Unit, shape.Resized(f.Template.Along, f.Template.Across).Sizes()...)
	}
	if len(s.Work.Products) > 0 && f.PerPanel > 0 && shape.Diameter() > 0 {
		s.Seasons = movement.Seasons()
	}
	return m
}

// OnEdge reports whether the strips are rolled a quarter turn when they are ripped.
func (s *sheet) OnEdge() bool { return s.Work.Pattern.Panel.Make == pattern.MakeEdge }

// Oiled reports whether there is anything to oil, and oil for it.
func (s *sheet) Oiled() bool { return s.Figures.Finish.Pieces > 0 && s.Figures.Finish.OilMl > 0 }

// HasMark reports whether there is anything to mark out.
func (s *sheet) HasMark() bool {
	layout := s.Work.Layout
	return len(s.Work.Products) > 0 && (len(layout.Placed) > 0 || layout.Left.Length > 0)
}

// Drawn reports whether some outline takes a word on how it is drawn.
func (s *sheet) Drawn() bool {
	return slices.ContainsFunc(s.Things, func(m *made) bool { return m.Drawing != "" })
}

// OutOfRound returns what a season makes of a placed round, and nothing of other shapes.
func (s *sheet) OutOfRound(at outline.Placed, season movement.Season) string {
	product := s.Work.Products[at.Product-1]
	if outline.ShapeOf(product).Diameter() == 0 {
		return ""
	}
	e := work.OutOfRound(s.Physics, s.Work, product, at, season)
	if !e.Known {
		return "no figure"
	}
	return length.Change(e.Value, s.Unit)
}

// mostLabels bounds the labels of a batch that somebody made very large.
const mostLabels = 500

// Labels has one entry for each label of a thing: as many as come out of all panels.
func (s *sheet) Labels(m *made) []struct{} {
	n := s.Work.Copies
	if len(s.Work.Products) > 0 {
		n *= max(1, m.Figures.PerPanel)
	}
	return make([]struct{}, min(n, mostLabels))
}

// sort puts the steps of a plan where they stand on the sheet: what is short before all
// others.
func (s *sheet) sort(all []worksteps.Step) {
	for _, each := range all {
		if each.Kind == worksteps.StepShort {
			s.Missing = append(s.Missing, each)
		} else {
			s.Steps = append(s.Steps, each)
		}
	}
}

// Bars says where bars are cut for second glue-ups, and how they are laid.
func (s *sheet) Bars() []work.Line { return work.BarLines(s.Work, s.Unit) }
