package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/tell"
)

// A Group is findings that people read as one: of one rule and level, about glue lines of
// the same two timbers with the same rings (which do not count for contrast), or saying the
// same of several strips.
type Group struct {
	Finding            // the worst of them, the first of those that are as bad
	Findings []Finding // all, in the order of the report
	worst    bool      // the others say something else than the worst
}

// mostTold is how many places, and how many remedies, are told of a group.
const (
	mostPlaces   = 12
	mostRemedies = 4
)

// Says returns what was found; of several lines, at which it is the worst.
func (g Group) Says() string {
	if g.worst {
		return g.Message + "; worst at " + g.Finding.Where.Between()
	}
	return g.Message
}

// Places names all places of the group: panel, strips 2, 5, line 3|4, lines 3|4, 8|9.
func (g Group) Places() string {
	word, numbers := "", make([]int, len(g.Findings))
	for i, f := range g.Findings {
		switch w := f.Where; {
		case w.BarLine > 0:
			word, numbers[i] = fmt.Sprintf("glue-up %d, bars", w.Second), w.BarLine
		case w.Second > 0, w == Place{}:
			return w.Between()
		case w.Line > 0:
			word, numbers[i] = tell.Plural(len(numbers), "line"), w.Line
		default:
			word, numbers[i] = tell.Plural(len(numbers), "strip"), w.Strip
		}
	}
	slices.Sort(numbers)
	return word + " " + named(slices.Compact(numbers), g.Finding.Where.Strip == 0)
}

// named lists numbers, of lines by the strips that they lie between, three and more in a row
// as 3|4 to 8|9.
func named(numbers []int, lines bool) string {
	name := func(n int) string {
		if lines {
			return Place{Line: n}.Between()
		}
		return fmt.Sprint(n)
	}
	var parts []string
	for i := 0; i < len(numbers); i++ {
		if len(parts) == mostPlaces {
			parts[mostPlaces-1] += fmt.Sprintf(" and %d more", len(numbers)-i)
			break
		}
		last := i
		for last+1 < len(numbers) && numbers[last+1] == numbers[last]+1 {
			last++
		}
		part := name(numbers[i])
		if last-i >= 2 {
			part, i = part+" to "+name(numbers[last]), last
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, ", ")
}

// Best returns the best remedy of each finding, those of the worst first, each once and a
// few at most.
func (g Group) Best() []Remedy {
	var out []Remedy
	for _, f := range slices.Concat([]Finding{g.Finding}, g.Findings) {
		if len(out) == mostRemedies {
			break
		}
		if all := f.Remedies(); len(all) > 0 && !slices.ContainsFunc(out, all[0].same) {
			out = append(out, all[0])
		}
	}
	return out
}

// Remedies returns what helps: all remedies of a finding that stands alone, else the best of
// each. The first is the one to take.
func (g Group) Remedies() []Remedy {
	if len(g.Findings) > 1 {
		return g.Best()
	}
	return g.Finding.Remedies()
}

// same reports whether two remedies make the same change.
func (m Remedy) same(o Remedy) bool {
	return m.Kind == o.Kind && m.Strip == o.Strip && m.Other == o.Other && m.Reading == o.Reading
}

// The figures of a glue line: how bad they are, to compare those of one rule, and what is
// said of them beside the names of the two timbers.
type figures struct {
	weight float64
	said   string
}

// A kin is what findings of one group have in common.
type kin struct {
	rule      string
	level     pattern.Level
	second    int
	one, next side   // of a glue line whose figures go by its two strips, in either order
	says      string // of all others
}

// A side is what a glue line's figures go by on one side.
type side struct {
	species string
	rings   pattern.Rings
}

// groups puts the findings together that are read as one, the gravest first.
func (b *board) groups(all []Finding) []Group {
	var alike tell.Groups[kin, Finding]
	for _, f := range all {
		k := kin{rule: f.Rule, level: f.Level, second: f.Where.Second, says: f.Message}
		if f.figures != nil {
			k.one, k.next, k.says = b.side(f, f.Where.Line-1), b.side(f, f.Where.Line), ""
			if k.next.before(k.one) {
				k.one, k.next = k.next, k.one
			}
		}
		alike.Add(k, f)
	}
	var out []Group
	for _, of := range alike.All() {
		g := Group{Finding: of[0], Findings: of}
		for _, f := range of {
			switch {
			case f.figures == nil || f.figures.said == g.figures.said:
			case f.figures.weight > g.figures.weight:
				g.Finding, g.worst = f, true
			default:
				g.worst = true
			}
		}
		out = append(out, g)
	}
	slices.SortStableFunc(out, func(a, b Group) int { return cmp.Compare(b.Level, a.Level) })
	return out
}

// side returns strip i, from 0, as f sees it: no contrast goes by rings.
func (b *board) side(f Finding, i int) side {
	s := side{species: b.pattern.Strips[i].Species}
	if f.Rule != ruleContrast {
		s.rings = b.pattern.Strips[i].Rings
	}
	return s
}

// before puts two sides into one order, however a line has them.
func (s side) before(o side) bool {
	if s.species != o.species {
		return s.species < o.species
	}
	return s.rings.Degrees() < o.rings.Degrees() || s.rings.Degrees() == o.rings.Degrees() && !s.rings.Known() && o.rings.Known()
}
