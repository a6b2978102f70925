package store

import (
	"io"

	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/species"
)

// ownValue is the source of a value that the file gives no source for.
const ownValue = "your own value"

// ReadSpecies reads timbers: the maker's own, or corrections of built-in ones. The
// Sources of an entry name the values that the file gives, as Table.With of species
// wants it; a value without a source of its own has "your own value". A value that
// only the sources name is taken away.
func ReadSpecies(r io.Reader, name string) ([]species.Species, error) {
	return readFile(r, name, "species", speciesVersion, func(t *tomlread.Table) (list []species.Species) {
		keys, letters := lines{}, lines{}
		for _, entry := range t.May("species").Tables() {
			list = append(list, readTimber(entry, keys, letters))
		}
		return list
	})
}

// readTimber reads one entry; keys and letters hold the lines of those before it.
func readTimber(t *tomlread.Table, keys, letters lines) species.Species {
	s := species.Species{Sources: map[string]species.Source{}}
	readKeys(t, []key{keys.onceKey("key", &s.Key, species.CheckKey, "", twiceHere).needed(`"plum"`)})
	all := species.Fields()
	for _, v := range all {
		k := valueKey(v, &s)
		if v.Name == "letters" {
			k = letters.onceKey(v.Name, &s.Letters, v.Check, "", twiceHere)
		}
		if f := k.in(t); f.Given() {
			s.Sources[v.Name] = species.Source{Text: ownValue, Status: species.Yours}
			k.read(f)
		}
	}
	sources := t.May("sources").Table()
	for _, v := range all {
		var text string
		if sources.May(v.Name).Text(&text) {
			s.Sources[v.Name] = species.ParseSource(text)
		}
	}
	return s
}

const twiceHere = "%s is in line %d too: each timber must have its own"

// valueKey is the key of a value. A number of 0 and empty text, which are not written,
// say that a value was taken away; a flag and a colour have no such zero.
func valueKey(v species.Field, s *species.Species) key {
	switch at := v.At(s).(type) {
	case *string:
		return checkedKey(v.Name, at, v.Check)
	case *[]string:
		return textsKey(v.Name, at)
	case *float64:
		return numberKey(v.Name, at, v.Least, v.Most)
	case *bool:
		k := flagKey(v.Name, at)
		k.usual = ""
		return k
	case *species.RGB:
		k := wordKey(v.Name, at, species.ParseRGB)
		k.usual = ""
		return k
	default:
		panic("store: no key for " + v.Name)
	}
}

// WriteSpecies writes the values that the Sources of each timber name.
func WriteSpecies(out io.Writer, list []species.Species) error {
	w := newWriter("species", speciesVersion)
	for i := range list {
		w.timber(&list[i])
	}
	return w.to(out)
}

func (w *writer) timber(s *species.Species) {
	w.heading("[[species]]")
	w.line("key = %s", quoted(s.Key))
	var sourced []string // the values whose source must be written
	for _, v := range species.Fields() {
		source, given := s.Sources[v.Name]
		if given && (!w.key(valueKey(v, s)) || source != (species.Source{Text: ownValue, Status: species.Yours})) {
			sourced = append(sourced, v.Name)
		}
	}
	if len(sourced) == 0 {
		return
	}
	w.heading("[species.sources]")
	for _, name := range sourced {
		w.line("%s = %s", name, quoted(sourceText(s.Sources[name])))
	}
}

// sourceText returns the source without its standing where the text alone reads back
// to it.
func sourceText(s species.Source) string {
	if species.ParseSource(s.Text) == s {
		return s.Text
	}
	return s.String()
}
