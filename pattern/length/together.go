package length

import (
	"fmt"
	"strings"
)

// A MixedError is a number without a unit among inches and millimetres.
type MixedError struct {
	Index int // which of the texts
	Text  string
}

// Error says how to write them.
func (e *MixedError) Error() string {
	return fmt.Sprintf("%q has no unit, another number has one: write the unit after each, or only after the last", e.Text)
}

// Together returns lengths that are typed in one breath, like the sizes of a piece, each
// with the unit that is meant. A unit behind the last alone holds for all: 24, 3 and
// 2 in are inches. Where another has its own unit, one without any is in u, as Parse
// takes it; but inches and millimetres are not mixed so: a *MixedError.
func Together(texts []string, u Unit) ([]string, error) {
	meant := make([]string, len(texts))
	bareAt, inches, metric := -1, u == InInches, u != InInches
	others := 0 // that have their unit, the last left out
	for i, text := range texts {
		meant[i] = strings.TrimSpace(text)
		switch size, _ := unitOf(meant[i]); {
		case size == 0:
			if bareAt < 0 {
				bareAt = i
			}
			continue
		case size == Inch:
			inches = true
		default:
			metric = true
		}
		if i < len(texts)-1 {
			others++
		}
	}
	if bareAt < 0 {
		return meant, nil
	}
	last := meant[len(meant)-1]
	if size, unit := unitOf(last); size != 0 && others == 0 {
		for i := range meant[:len(meant)-1] {
			meant[i] += " " + unit
		}
		return meant, nil
	}
	if inches && metric {
		return nil, &MixedError{Index: bareAt, Text: meant[bareAt]}
	}
	return meant, nil
}

// unitOf returns the size and the name of the unit that ends text; nothing where there
// is none.
func unitOf(text string) (Length, string) {
	for _, unit := range unitSizes {
		if strings.HasSuffix(text, unit.name) {
			return unit.size, unit.name
		}
	}
	return 0, ""
}

// TypedTogether returns lengths as words of a typed line that Together reads back: each
// as Typed gives it, or all exactly with their unit where one of them needs it.
func TypedTogether(u Unit, all ...Length) []string {
	texts := make([]string, len(all))
	whole := true
	for i, l := range all {
		texts[i] = l.Typed(u)
		_, unit := unitOf(texts[i])
		whole = whole && unit == ""
	}
	if !whole {
		for i, l := range all {
			texts[i] = strings.ReplaceAll(l.String(), " ", "")
		}
	}
	return texts
}
