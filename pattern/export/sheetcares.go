package export

import (
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

// addFindings puts findings at their steps; those that say the same of several glue
// lines or strips stand as one.
func (s *sheet) addFindings(findings []check.Finding) {
	type said struct {
		step, of string
		care
	}
	var numbers tell.Groups[said, int]
	for _, f := range findings {
		at, n := said{stepOfRule(f.Rule), "panel", care{Level: f.Level, Text: f.Message, Remedy: f.Remedy()}}, 0
		switch {
		case f.Where.Line > 0:
			at.of, n = "glue line", f.Where.Line
		case f.Where.Strip > 0:
			at.of, n = "strip", f.Where.Strip
		}
		numbers.Add(at, n)
	}
	for at, all := range numbers.All() {
		at.Where = at.of
		if all[0] > 0 {
			at.Where = tell.Plural(len(all), at.of) + " " + tell.Runs(all)
		}
		s.Cares[at.step] = append(s.Cares[at.step], at.care)
	}
}

// stepOfRule returns the step at which a finding of a rule is to be known.
func stepOfRule(rule string) string {
	switch rule {
	case "dust":
		return "saw"
	case "oily":
		return work.StepGlue
	case "thicknesser", "ends", "standing_out":
		return "flatten"
	case "listed":
		return work.StepSale
	default:
		return "before"
	}
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
	switch rule {
	case "clamps", "wait", "wax":
		return rule, false
	case "glue_time", "glue_cold", "glue_class":
		return "spread", false
	case "rags", "drying_oil":
		return "oil", false
	case "rack":
		return "dry", false
	case "router", "last_pass":
		return "rout", true
	case "drill", "candles_apart", "bare_wood", "floor_left":
		return "drill", true
	case "sawn", work.RuleEdgeLeft:
		return rule, true
	default:
		return "", false
	}
}
