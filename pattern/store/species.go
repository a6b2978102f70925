package store

import (
	"io"
	"slices"

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
	d, err := tomlread.Parse(name, r)
	if err != nil {
		return nil, err
	}
	t := d.Root()
	t.Format("species", speciesVersion)
	var list []species.Species
	keys, letters := map[string]int{}, map[string]int{}
	for _, entry := range t.May("species").Tables() {
		list = append(list, readTimber(entry, keys, letters))
	}
	if err := d.Finish(); err != nil {
		return nil, err
	}
	return list, nil
}

// readTimber reads one entry; keys and letters hold the lines of those before it.
func readTimber(t *tomlread.Table, keys, letters map[string]int) species.Species {
	s := species.Species{Sources: map[string]species.Source{}}
	once(t.Need("key", `"plum"`), &s.Key, species.CheckKey, keys)
	all := species.Fields()
	for _, k := range all {
		f := t.May(k.Name)
		if !f.Given() {
			continue
		}
		s.Sources[k.Name] = species.Source{Text: ownValue, Status: species.Yours}
		if k.Name == "letters" {
			once(f, &s.Letters, k.Check, letters)
			continue
		}
		readValue(k, f, &s)
	}
	sources := t.May("sources").Table()
	for _, k := range all {
		var text string
		if sources.May(k.Name).Text(&text) {
			s.Sources[k.Name] = species.ParseSource(text)
		}
	}
	return s
}

// once reads text that may stand once in a file.
func once(f tomlread.Field, into *string, check func(string) error, lines map[string]int) {
	if !f.Text(into) {
		return
	}
	if err := check(*into); err != nil {
		f.Failf("", "%s", err)
		return
	}
	if line, taken := lines[*into]; taken {
		f.Failf("", "%s stands in line %d too: each timber must have its own", tomlread.Quote(*into), line)
		return
	}
	lines[*into] = f.Line()
}

func readValue(k species.Field, f tomlread.Field, s *species.Species) {
	switch at := k.At(s).(type) {
	case *string:
		if f.Text(at) && k.Check != nil {
			if err := k.Check(*at); err != nil {
				f.Failf("", "%s", err)
			}
		}
	case *[]string:
		for _, item := range f.Items() {
			var text string
			if item.Text(&text) {
				*at = append(*at, text)
			}
		}
	case *float64:
		f.Number(at, k.Least, k.Most)
	case *bool:
		f.Bool(at)
	case *species.RGB:
		f.Parse(func(text string) (err error) {
			*at, err = species.ParseRGB(text)
			return err
		})
	default:
		f.Failf("", "%s: the program knows no way to read it", k.Name)
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
	w.text("key", s.Key)
	var sourced []string // the values whose source must be written
	for _, k := range species.Fields() {
		source, given := s.Sources[k.Name]
		if !given {
			continue
		}
		if !w.timberValue(k.Name, k.At(s)) || source != (species.Source{Text: ownValue, Status: species.Yours}) {
			sourced = append(sourced, k.Name)
		}
	}
	if len(sourced) == 0 {
		return
	}
	w.heading("[species.sources]")
	for _, name := range sourced {
		w.text(name, sourceText(s.Sources[name]))
	}
}

// timberValue writes a value and reports whether there was one: a number of 0 and
// empty text say that a value was taken away.
func (w *writer) timberValue(name string, at any) bool {
	switch v := at.(type) {
	case *string:
		w.textIfAny(name, *v)
		return *v != ""
	case *[]string:
		if len(*v) > 0 {
			w.texts(name, *v)
		}
		return len(*v) > 0
	case *float64:
		if *v != 0 {
			w.number(name, *v)
		}
		return *v != 0
	case *bool:
		w.line("%s = %t", name, *v)
	case *species.RGB:
		w.text(name, v.String())
	default:
		panic("store: no writer for " + name)
	}
	return true
}

// sourceText returns the source without its standing where the text alone reads back
// to it.
func sourceText(s species.Source) string {
	if species.ParseSource(s.Text) == s {
		return s.Text
	}
	return s.String()
}

// Known returns the function that says which keys t has, for the readers.
func Known(t *species.Table) func(string) bool {
	keys := make([]string, 0, t.Len())
	for _, s := range t.All() {
		keys = append(keys, s.Key)
	}
	slices.Sort(keys)
	return func(key string) bool {
		_, found := slices.BinarySearch(keys, key)
		return found
	}
}
