package check

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
)

// The words that cautions defer with.
const (
	manuals = "follow your machine's manual and local rules"
	law     = "check current local law"
)

// figureRule makes one finding for each timber, since each wants its own figures.
func figureRule(b *board) []Finding {
	var out []Finding
	for i := range b.timbers {
		if t := &b.timbers[i]; !t.Moves() {
			out = append(out, Finding{Level: pattern.TakeCare,
				Message: fmt.Sprintf("no figure for %s: its glue lines and the change of width cannot be worked out; "+
					"add cr and ct to species.toml if you know them", t.Name)})
		}
	}
	return out
}

func foodRule(b *board) []Finding {
	return b.caution(pattern.TakeCare, func(t *timber) (string, bool) { return noted(t.Name, t.Food), t.NotForFood },
		"better kept off boards that food touches")
}

func openPoredRule(b *board) []Finding {
	return b.caution(pattern.Fine, func(t *timber) (string, bool) { return t.Name, t.OpenPored },
		"large pores hold food; some buyers and food-business rules want close grain")
}

func oilyRule(b *board) []Finding {
	return b.caution(pattern.TakeCare, func(t *timber) (string, bool) { return t.Name, t.Oily },
		"plane just before gluing and glue a test joint first; wiping with solvent is disputed")
}

func dustRule(b *board) []Finding {
	return b.caution(pattern.TakeCare, func(t *timber) (string, bool) { return t.Name, t.Sensitise },
		"the dust is known to trouble some people: extraction and a fitted mask; read the official sheet, "+manuals)
}

func listedRule(b *board) []Finding {
	return b.caution(pattern.TakeCare, func(t *timber) (string, bool) {
		return noted(t.Name, strings.TrimSuffix(t.Listed, "; "+law)), t.Listed != ""
	}, "may need papers to sell or to ship; "+law+" before you offer it")
}

// caution makes one finding of all timbers that a caution holds for, in the order in
// which the strips bring them.
func (b *board) caution(level pattern.Level, holds func(*timber) (name string, ok bool), caution string) []Finding {
	var names []string
	for i := range b.timbers {
		if name, ok := holds(&b.timbers[i]); ok {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []Finding{{Level: level, Message: strings.Join(names, ", ") + ": " + caution}}
}

// noted returns name with a note in brackets, where there is one.
func noted(name, note string) string {
	if note == "" {
		return name
	}
	return name + " (" + note + ")"
}
