package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
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

// CareText gives the words of care for a board (after the US food agency's advice on
// cutting boards and a university's on cracked ones).
func CareText() string {
	return "Wash with hot soapy water, rinse, dry at once, stand on edge. Do not soak; no dishwasher. " +
		"Keep another board for raw meat. Oil when dull; resurface or replace when deeply grooved."
}

// TimberNames gives the timbers of p in the order in which the strips bring them, the
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

type labelField struct{ name, text string }

func (l Label) fields() []labelField {
	return []labelField{
		{"item", l.Item}, {"size", l.Size}, {"timbers", strings.Join(l.Timbers, ", ")}, {"finish", l.Finish}, {"glue", l.Glue},
		{"maker", l.Maker}, {"postal address", l.Address}, {"electronic address", l.Electronic},
		{"batch", l.Batch}, {"date", l.Date},
	}
}

// Text gives the label line by line, a blank to write on where a field is empty.
func (l Label) Text() string {
	var b strings.Builder
	for _, f := range l.fields() {
		if f.text == "" {
			f.text = "__________"
		}
		fmt.Fprintf(&b, "%s: %s\n", f.name, f.text)
	}
	care := l.Care
	if care == "" {
		care = CareText()
	}
	return b.String() + "care: " + care + "\n"
}

// Missing names the fields that are empty, in the order of the label.
func (l Label) Missing() []string {
	var out []string
	for _, f := range l.fields() {
		if f.text == "" {
			out = append(out, f.name)
		}
	}
	return out
}
