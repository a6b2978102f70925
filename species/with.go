package species

import (
	"errors"
	"fmt"
	"maps"
	"strings"
)

// yourOwn is the source of a maker's value that names none.
const yourOwn = "your own value"

// standIn colours a new timber that comes without any: a middle brown, and its source
// says that it is none of the timber's.
var standIn = RGB{R: 0x9C, G: 0x84, B: 0x68}

// With returns a table in which the maker's entries stand over those of t, value by
// value, and new timbers follow at the end. A value of an entry counts as given
// exactly when its Sources have its name; so an entry may also take a value away, by
// naming it and leaving it 0 or empty. Given values have the standing Yours.
//
// A new timber needs only a key: its name is made from it, its letters from the name,
// and where one colour is missing the other serves. With refuses a key that stands
// twice, letters of another timber and values out of range, all in one error. t stays
// as it is.
func (t *Table) With(entries []Species) (*Table, error) {
	list := t.All()
	place := maps.Clone(t.byKey)
	if place == nil {
		place = map[string]int{}
	}
	mine := make(map[string]bool, len(entries))
	var errs []error
	for _, e := range entries {
		if mine[e.Key] {
			errs = append(errs, fmt.Errorf("timber %q is there twice: a key must be there once", e.Key))
			continue
		}
		mine[e.Key] = true
		i, known := place[e.Key]
		if !known {
			i = len(list)
			list = append(list, Species{Key: e.Key})
			place[e.Key] = i
		}
		list[i] = merge(list[i], e)
	}
	nameAll(list)
	colourAll(list[t.Len():])
	if err := deriveLetters(list); err != nil {
		return nil, errors.Join(append(errs, err)...)
	}
	merged, err := newTable(list)
	if err := errors.Join(append(errs, err)...); err != nil {
		return nil, err
	}
	return merged, nil
}

// merge lays what e gives over base.
func merge(base, e Species) Species {
	sources := maps.Clone(base.Sources)
	if sources == nil {
		sources = make(map[string]Source, len(e.Sources))
	}
	for name, source := range e.Sources {
		if source.Text == "" {
			source.Text = yourOwn
		}
		sources[name] = Source{Text: source.Text, Status: Yours}
	}
	base.Sources = sources
	for _, v := range Fields() {
		if _, given := e.Sources[v.Name]; given {
			v.copyFrom(&base, &e)
		}
	}
	return base
}

// nameAll names timbers without a name after their key.
func nameAll(list []Species) {
	for i := range list {
		if list[i].Name == "" {
			list[i].Name = plain(list[i].Key)
		}
	}
}

// colourAll gives new timbers the colours that they came without.
func colourAll(fresh []Species) {
	for i := range fresh {
		s := &fresh[i]
		_, raw := s.Sources["colour"]
		_, oiled := s.Sources["colour_oiled"]
		switch {
		case raw && !oiled:
			s.ColourOiled = s.Colour
			s.Sources["colour_oiled"] = Source{Text: "the colour of the raw timber, as no other is known", Status: Derived}
		case oiled && !raw:
			s.Colour = s.ColourOiled
			s.Sources["colour"] = Source{Text: "the colour of the oiled timber, as no other is known", Status: Derived}
		case !raw && !oiled:
			s.Colour, s.ColourOiled = standIn, standIn
			none := Source{Text: "no colour given, a stand-in", Status: None}
			s.Sources["colour"], s.Sources["colour_oiled"] = none, none
		}
	}
}

// deriveLetters gives every timber without letters two that no other has: the first
// of its name with a later one where it can, else the first free pair.
func deriveLetters(list []Species) error {
	taken := make(map[string]bool, len(list))
	for _, s := range list {
		taken[s.Letters] = true
	}
	for i := range list {
		if list[i].Letters != "" {
			continue
		}
		letters, ok := freeLetters(list[i].Name, taken)
		if !ok {
			return fmt.Errorf("timber %q: no two letters are left: a table holds at most %d timbers", list[i].Key, 26*26)
		}
		list[i].Letters = letters
		taken[letters] = true
	}
	return nil
}

func freeLetters(name string, taken map[string]bool) (string, bool) {
	const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	own := strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' {
			return r
		}
		return -1 // accented letters have no key of their own on every keyboard
	}, strings.ToUpper(name))
	first := min(1, len(own))
	for _, a := range own[:first] + alphabet {
		for _, b := range own[first:] + alphabet {
			if pair := string(a) + string(b); !taken[pair] {
				return pair, true
			}
		}
	}
	return "", false
}
