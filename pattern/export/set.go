package export

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/pile"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

// A set is the front of the sheet of several boards, and their own sheets.
type set struct {
	Title   string
	Sums    []work.Line
	Cards   []card
	Timbers []timberRow
	Booked  bool // it is known what stays on the rack
	Gluing  gluing
	Sheets  []*sheet
}

// A card shows one board small.
type card struct {
	Nth      int
	Picture  template.HTML
	Long     string // how wide the picture is on paper, in CSS
	Name     string
	Copies   string // made more than once
	Products []string
	Sizes    string
	Costs    string
	Letters  string // the timbers of its strips in their order
}

// A timberRow is one timber of the set or the rack.
type timberRow struct {
	Letters, Timber, Hex string
	Strips               int
	Used, Stays          string
	Whole                string // entries of the rack that are not touched
}

// setOf returns the sheet of several boards: what is of all of them, with their own sheets.
func setOf(j Job) *sheet {
	all := append([]Job{j}, j.Beside...)
	j.boards = map[string]int{}
	for i, one := range all {
		j.boards[one.Stem] = i + 1
	}
	s := &sheet{Job: j, Lines: map[string][]work.Line{}, Cares: map[string][]care{}, Set: &set{Title: tell.Count(len(all), "board")}}
	s.machines()
	for i, one := range all {
		one.Stock, one.Plan, one.Unit, one.Look, one.boards = j.Stock, j.Plan, j.Unit, j.Look, j.boards
		one.mark = fmt.Sprintf("n%d", i+1)
		all[i] = one
		panel := panelSheet(one)
		panel.Nth = i + 1
		s.Set.Sheets = append(s.Set.Sheets, panel)
		s.takeUp(panel)
	}
	s.finishAll()
	s.Set.Cards = cards(all)
	for i := range all {
		s.Set.Cards[i].Costs = fmt.Sprintf("%s %.2f", outlayOf, s.outlay(i))
	}
	s.timbers(all)
	s.Set.Gluing = gluingOf(all)
	for i, in := range s.Set.Gluing.of {
		if len(in) > 0 {
			s.Set.Sheets[i].Glue = tell.Plural(len(in), "evening") + " " + tell.Runs(in)
		}
	}
	s.sums(all)
	return s
}

// allOnce are the places of what is said once for all boards: their chapters are of the set.
func allOnce() []string {
	return []string{"saw", work.StepFinish, "wax", "oil", "dry", work.StepLabel, work.StepSale}
}

// takeUp takes what is said once for all boards from the sheet of one, and what is said already
// not again.
func (s *sheet) takeUp(panel *sheet) {
	for _, place := range allOnce() {
		for _, c := range panel.Cares[place] {
			if !slices.Contains(s.Cares[place], c) {
				s.Cares[place] = append(s.Cares[place], c)
			}
		}
		delete(panel.Cares, place)
	}
	panel.keepFirst("before", work.StepGlue, mostFirst)
}

// finishAll has the finish of all products told together.
func (s *sheet) finishAll() {
	var jobs []work.Job
	var figures []work.Figures
	for _, one := range s.Set.Sheets {
		jobs, figures = append(jobs, one.Work), append(figures, one.Figures)
	}
	shop := s.Physics.Shop()
	s.Figures.Finish = work.FinishOf(jobs, figures, shop.Finish)
	s.Lines[work.StepFinish] = work.FinishLines(s.Figures.Finish, shop, s.Unit)
}

// The room for the pictures of all boards on paper, in millimetres, and the scales between
// which they are drawn.
const (
	cardsWide, cardsHigh = 186.0, 118.0
	leastCard            = 34.0 // room for its words
	cardWords            = 14.0 // how high they are
	cardGap              = 3.0
	largestScale         = 0.2
	smallestScale        = 0.05
)

// cardScale returns how long a millimetre of wood is on paper: so much that all find room.
func cardScale(all []wood) float64 {
	for scale := largestScale; scale > smallestScale; scale -= 0.005 {
		x, high, row := 0.0, 0.0, 0.0
		for _, w := range all {
			wide := max(leastCard, (w.x1-w.x0)*scale) + cardGap
			if x+wide > cardsWide+cardGap {
				x, high, row = 0, high+row, 0
			}
			x, row = x+wide, max(row, w.high*scale+cardWords)
		}
		if high+row <= cardsHigh {
			return scale
		}
	}
	return smallestScale
}

// cards shows every board, all to one scale.
func cards(all []Job) (out []card) {
	var woods []wood
	for _, j := range all {
		w := woodOf(j)
		if len(w.planks) == 0 { // no board comes of the bars: the panel is shown
			w = panelOf(j)
		}
		woods = append(woods, w)
	}
	scale := cardScale(woods)
	for i, j := range all {
		p := j.Work.Pattern
		c := card{Nth: i + 1, Name: j.Name(), Sizes: p.Width().With(j.Unit) + " wide"}
		if j.Work.Copies > 1 {
			c.Copies = "made " + tell.Times(j.Work.Copies)
		}
		if j.Worth > 0 {
			c.Sizes += fmt.Sprintf(", worth %.2f", j.Worth*float64(j.Work.Copies))
		}
		for n, product := range j.Work.Makes() {
			text := fmt.Sprintf("%v %s", product.Shape, tell.Size(j.Unit, append(outline.ShapeOf(product).Sizes(), p.Panel.Thickness)...))
			if len(j.Work.Products) > 0 {
				text = fmt.Sprintf("%d x %s", j.Work.Copies*len(j.Work.Placed(n+1)), text)
			}
			c.Products = append(c.Products, text)
		}
		for _, s := range p.Strips {
			c.Letters += letters(j, s) + " "
		}
		if c.Picture = cardPicture(j, woods[i], scale); c.Picture != "" {
			c.Long = number((woods[i].x1-woods[i].x0)*scale) + "mm"
		}
		out = append(out, c)
	}
	return out
}

// cardPicture draws what the products of a job are cut from, with their outlines.
func cardPicture(j Job, w wood, scale float64) template.HTML {
	if len(w.planks) == 0 {
		return ""
	}
	l := &layout{job: j, size: 2.2 / scale}
	l.ground, l.wide, l.high = paper, w.x1-w.x0, w.high
	l.wood = w.grained(j, 0.5/scale)
	at := point{-w.x0, 0}
	l.add(woodOp{at: at, in: w.within()})
	l.outlines(at)
	says := fmt.Sprintf("%s from above, strip 1 at the top; dashed: what is cut from it.", j.Name())
	return inline(l.page, j.mark+"c", j.Name(), says, "")
}

// timbers tells how many strips each timber gives, what of it is used up, and what stays.
func (s *sheet) timbers(all []Job) {
	used, still := s.after()
	var rows tell.Groups[string, timberRow]
	row := func(key string, colour pattern.Strip) timberRow {
		timber, _ := s.Physics.Table().Get(key)
		return timberRow{Letters: letters(s.Job, pattern.Strip{Species: key}), Timber: s.timber(key), Hex: faceOf(timber, colour.Colour, s.Look.Raw).String()}
	}
	for _, j := range all {
		for _, strip := range j.Work.Pattern.Strips {
			if len(rows.Of(strip.Species)) == 0 {
				rows.Add(strip.Species, row(strip.Species, strip))
			}
			rows.Of(strip.Species)[0].Strips += j.Work.Copies
		}
	}
	for _, u := range used {
		if len(rows.Of(u.Species)) == 0 {
			rows.Add(u.Species, row(u.Species, pattern.Strip{}))
		}
		r := &rows.Of(u.Species)[0]
		r.Used, r.Stays = length.Volume(u.UsedCM3, s.Unit), length.Volume(u.RackCM3-u.UsedCM3, s.Unit)
		var whole []string
		for _, e := range still {
			if e.Species == u.Species {
				whole = append(whole, e.ID)
			}
		}
		r.Whole = strings.Join(whole, ", ")
	}
	for _, r := range rows.All() {
		s.Set.Timbers = append(s.Set.Timbers, r[0])
	}
	s.Set.Booked = len(used) > 0
}

// after returns how much of each timber the plan takes, and the entries of the rack that it leaves
// as they are; nothing where there is no plan.
func (s *sheet) after() ([]pile.Used, []rack.Entry) {
	if len(s.Stock.Patterns) == 0 {
		return nil, nil
	}
	after, _, err := booking.Book(s.Stock, s.Plan, pattern.Date{}, func(string) string { return "" })
	if err != nil { // the plan is not of this job: nothing is said of what it leaves
		return nil, nil
	}
	return pile.Taken(s.Stock.Rack, after), pile.Still(s.Stock.Rack, after)
}

// TimberColumns returns the heads of the list of timbers.
func (s set) TimberColumns() []string {
	if !s.Booked {
		return []string{"timber", "strips"}
	}
	return []string{"timber", "strips", "uses up", "stays on the rack", "not touched"}
}

// outlayOf says what the outlay is for.
const outlayOf = "timber and fixed cost"

// outlay returns what a board takes of money, without labour, to the cent: all add up as printed.
func (s *sheet) outlay(i int) float64 {
	p := s.Set.Sheets[i].Figures.Price
	return math.Round(100*(p.Materials+p.Fixed)) / 100
}

// money tells what all boards are worth, and what they cost without labour.
func (s *sheet) money(all []Job, say func(what, format string, args ...any)) {
	worth, outlay, wanted := 0.0, 0.0, true
	for i, j := range all {
		worth += float64(j.Work.Copies) * j.Worth
		wanted = wanted && j.Worth > 0
		outlay += s.outlay(i)
	}
	if worth > 0 {
		say("worth, by the orders", "%.2f", worth)
	}
	price, usual := s.Physics.Shop().Price, shop.Default().Price
	own := ""
	if price.MaterialsDM3 == usual.MaterialsDM3 && price.FixedEach == usual.FixedEach {
		own = ", by built-in values: set your own in [price]"
	}
	say(outlayOf, "%.2f%s", outlay, own)
	if wanted {
		say("leaves for labour, fee and stall", "%.2f", worth-outlay)
	}
}

// sums tells what all boards are together.
func (s *sheet) sums(all []Job) {
	panels, products, strips := 0, 0, 0
	for i, j := range all {
		panels += j.Work.Copies
		strips += j.Work.Copies * len(j.Work.Pattern.Strips)
		if len(j.Work.Products) > 0 {
			products += s.Set.Sheets[i].Figures.Finish.Pieces
		}
	}
	say := func(what, format string, args ...any) {
		s.Set.Sums = append(s.Set.Sums, work.Line{What: what, Text: fmt.Sprintf(format, args...)})
	}
	say("panels", "%d", panels)
	if products > 0 {
		say("products", "%d", products)
	}
	say("strips", "%d", strips)
	s.money(all, say)
	if len(s.Stock.Patterns) > 0 {
		say("uses up", "%s", length.Volume(s.Plan.GoneCM3, s.Unit))
	}
	if s.Plan.Short > 0 {
		say("strips missing", "%d", s.Plan.Short)
	}
}
