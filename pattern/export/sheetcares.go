package export

import (
	"cmp"
	"slices"
	"strings"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
)

// addFindings puts findings at their steps, those together that are read as one.
func (s *sheet) addFindings(groups []check.Group) {
	for _, g := range groups {
		var remedies []string
		for _, m := range g.Best() {
			remedies = append(remedies, m.Between())
		}
		at := stepOfRule(g.Rule)
		s.Cares[at] = append(s.Cares[at], care{g.Level, g.Places(), g.Says(), strings.Join(remedies, "; ")})
	}
}

// mostFirst is how many boxes stand before the first cut at most: more are not read.
const mostFirst = 6

// fewFirst leaves the gravest findings before the first cut, and puts the rest at the
// steps that they are about.
func (s *sheet) fewFirst() {
	s.keepFirst("before", work.StepGlue, mostFirst-min(2, len(boxes(s.Cares["saw"]))+len(s.Missing)))
	s.keepFirst("saw", work.StepSand, mostFirst-len(boxes(s.Cares["before"]))-len(s.Missing))
}

// keepFirst leaves at most so many boxes at a place, and puts the others to another.
func (s *sheet) keepFirst(place, other string, most int) {
	all := slices.Clone(s.Cares[place])
	slices.SortStableFunc(all, func(a, b care) int { return cmp.Compare(b.Level, a.Level) })
	n := 0
	for n < len(all) && len(boxes(all[:n+1])) <= most {
		n++
	}
	s.Cares[place] = all[:n]
	s.Cares[other] = append(slices.Clone(all[n:]), s.Cares[other]...)
}

// addMachines puts what to know at the machines above the order of work; what is said at
// several stands once. Why dust matters stands at the sanding.
func (s *sheet) addMachines(all []worksteps.Care) {
	var at tell.Groups[care, string]
	for _, c := range all {
		if c.Message != work.DustListed {
			at.Add(care{Level: c.Level, Text: c.Message}, c.At)
		}
	}
	for c, machines := range at.All() {
		c.Text = strings.Join(machines, ", ") + ": " + c.Text
		s.Cares["saw"] = append(s.Cares["saw"], c)
	}
}

// A careBox is a care with further ones that stand beneath it.
type careBox struct {
	care
	More []string
}

// boxes puts cares of one level that follow one another into one box, a line each, where
// they say no place and no way out: a box of its own for every line would fill pages.
func boxes(all []care) []careBox {
	var out []careBox
	for _, c := range all {
		plain := func(c care) bool { return c.Where == "" && c.Remedy == "" }
		if n := len(out); n > 0 && out[n-1].Level == c.Level && plain(out[n-1].care) && plain(c) {
			out[n-1].More = append(out[n-1].More, c.Text)
			continue
		}
		out = append(out, careBox{care: c})
	}
	return out
}

// stepOfRule returns the step at which a finding of a rule is to be known.
func stepOfRule(rule string) string {
	return cmp.Or(map[string]string{
		"dust": "saw", "oily": work.StepGlue, "listed": work.StepSale,
		"thicknesser": "flatten", "ends": "flatten", "standing_out": "flatten",
	}[rule], "before")
}

// addCaution puts a caution at its own step of the work; one without stands above the
// steps of its chapter.
func (s *sheet) addCaution(c work.Caution) {
	cares := s.Cares
	place, ofThing := placeOf(c.Rule)
	switch {
	case place == "" || c.Step == work.StepFinish && !s.Oiled():
		place = c.Step
	case ofThing:
		cares = s.Things[max(1, c.Product)-1].Cares // what is of the whole job stands once, at the first
	}
	cares[place] = append(cares[place], care{Level: c.Level, Text: c.String()})
}

// placeOf returns the step of the work that the cautions of a rule belong to, and whether
// each thing that is made has that step; empty where there is none.
func placeOf(rule string) (place string, ofThing bool) {
	p := map[string]struct {
		place   string
		ofThing bool
	}{
		"clamps": {"clamps", false}, "wait": {"wait", false}, "cure": {"flatten", false}, "scrape": {"flatten", false},
		"glue_time": {"spread", false}, "glue_cold": {"spread", false}, "glue_class": {"spread", false},
		"router": {"rout", true}, "last_pass": {"rout", true}, "sawn": {"sawn", true},
		"drill": {"drill", true}, "sleeves": {"drill", true}, "candles_apart": {"drill", true}, "candle_room": {"drill", true}, "bare_wood": {"drill", true},
		"unattended": {"drill", true}, "floor_left": {"drill", true},
		work.RuleEdgeLeft: {work.RuleEdgeLeft, true}, // where a step of sanding names the rule
		"wax":             {"wax", false}, "rags": {"oil", false}, "drying_oil": {"oil", false}, "rack": {"dry", false},
	}[rule]
	return p.place, p.ofThing
}
