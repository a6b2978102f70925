package work

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second"
	"example.com/oddments/species"
)

// A Label is what goes with a piece that is sold. What law asks for differs from place
// to place: the maker checks the local one.
type Label struct {
	Item       string
	Size       string
	Timbers    []string
	Finish     string
	Glue       string
	Maker      string
	Address    string // postal
	Electronic string // mail or web address
	Batch      string // type, batch or serial number
	Date       string
	Care       string // empty: CareText
}

// CareText returns the words of care for a board (after the US food agency's advice on
// cutting boards and a university's on cracked ones).
func CareText() string {
	return "Wash with hot soapy water, rinse, dry at once, stand on edge. Do not soak; no dishwasher. " +
		"Keep another board for raw meat. Oil when dull; resurface or replace when deeply grooved."
}

// CandleCareText is the care text of a block whose holes are for candles, distances in u.
// What it asks for is that of fire services (see roomOfCandles).
func CandleCareText(u length.Unit) string {
	return fmt.Sprintf("For tea lights in a metal or glass cup only, %s apart. Never leave a burning candle unattended; keep it from draughts, children and "+
		"all that burns. Wipe with a damp cloth and dry at once; oil when dull.", roomOfCandles(u).between)
}

// TimberNames returns the timbers of p in the order in which the strips bring them, the
// botanical name behind each where the table has it.
func TimberNames(table *species.Table, p pattern.Pattern) []string {
	var out []string
	seen := map[string]bool{}
	for _, s := range p.Strips {
		if seen[s.Species] {
			continue
		}
		seen[s.Species] = true
		name := s.Species
		if timber, ok := table.Get(s.Species); ok {
			name = timber.Name
			if timber.Botanical != "" {
				name += " (" + timber.Botanical + ")"
			}
		}
		out = append(out, name)
	}
	return out
}

// Labels returns a label for each kind of thing that j makes, in the order of
// Job.Makes, with what is known of it: item, size and the timbers that are in it. The
// rest is j's own label. Sizes are in u.
func Labels(table *species.Table, j Job, u length.Unit) []Label {
	var out []Label
	for i, p := range j.Makes() {
		l := j.Label
		l.Item = j.Pattern.Name
		l.Size = outline.ShapeOf(p).Label(j.Ground().Panel.Thickness, u)
		l.Timbers = TimberNames(table, j.under(p, i+1))
		if l.Care == "" && candles(p) {
			l.Care = CandleCareText(u)
		}
		out = append(out, l)
	}
	return out
}

// under returns the pattern with only the strips that some copy of a product takes from;
// with all where none is placed.
func (j Job) under(product pattern.Product, number int) pattern.Pattern {
	p, placed := j.Pattern, j.Placed(number)
	if len(placed) == 0 {
		return p
	}
	p.Strips = nil
	if j.Board != nil {
		p.Strips = j.cellsUnder(product, placed)
		return p
	}
	_, across := outline.ShapeOf(product).Size()
	var low length.Length
	for _, s := range j.Pattern.Strips {
		high := low + s.Width
		if slices.ContainsFunc(placed, func(at outline.Placed) bool { return at.Side < high && at.Side+across > low }) {
			p.Strips = append(p.Strips, s)
		}
		low = high
	}
	return p
}

// cellsUnder returns the strips that some copy of a product takes from on a board: those of
// the cells that meet the rectangle about it.
func (j Job) cellsUnder(product pattern.Product, placed []outline.Placed) (strips []pattern.Strip) {
	taken := make([]bool, len(j.Pattern.Strips))
	along, across := outline.ShapeOf(product).Size()
	for _, c := range j.Board.Up().Cells {
		taken[c.Strip-1] = taken[c.Strip-1] || slices.ContainsFunc(placed, func(at outline.Placed) bool {
			return c.Meets(second.Point{X: at.From, Y: at.Side}, second.Point{X: at.From + along, Y: at.Side + across})
		})
	}
	for i, s := range j.Pattern.Strips {
		if taken[i] {
			strips = append(strips, s)
		}
	}
	return strips
}

// LawText stands beside every label.
const LawText = "Check current local law: it sets what a label must hold."

// A Field is one line of a label.
type Field struct {
	Name, Text string // Text is empty where nothing is known
	OfBatch    bool   // a batch that is written down fills it
}

// Written returns the text, or a blank to write on.
func (f Field) Written() string {
	if f.Text == "" {
		return "__________"
	}
	return f.Text
}

// String returns the line.
func (f Field) String() string { return f.Name + ": " + f.Written() }

// Fields returns the label line by line. The words of care are its last and never empty.
func (l Label) Fields() []Field {
	care := l.Care
	if care == "" {
		care = CareText()
	}
	return []Field{
		{Name: "item", Text: l.Item}, {Name: "size", Text: l.Size}, {Name: "timbers", Text: strings.Join(l.Timbers, ", ")},
		{Name: "finish", Text: l.Finish}, {Name: "glue", Text: l.Glue},
		{Name: "maker", Text: l.Maker}, {Name: "postal address", Text: l.Address}, {Name: "electronic address", Text: l.Electronic},
		{Name: "batch", Text: l.Batch, OfBatch: true}, {Name: "date", Text: l.Date, OfBatch: true}, {Name: "care", Text: care},
	}
}

// Missing names the fields that are empty, in the order of the label.
func (l Label) Missing() []string {
	var out []string
	for _, f := range l.Fields() {
		if f.Text == "" {
			out = append(out, f.Name)
		}
	}
	return out
}
