package species

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// A Value is one value of a timber, ready to print.
type Value struct {
	Name   string // as in ValueNames
	Text   string // without the unit; "no figure" or "none" where it is not known
	Unit   string // empty where there is none
	Data   any    // float64, string, []string, bool or RGB; nil where none is known
	Source Source // the zero Source where the value needs none (names, letters, note)
}

// A value describes one field of a Species to everything that goes through all of
// them: printing, merging, checking.
type value struct {
	name        string
	unit        string
	least, most float64            // of a number
	decimals    int                // of a number, at least so many are printed
	at          func(*Species) any // *float64, *string, *[]string, *bool or *RGB
}

// values lists all fields but the key, in the order of files and of the screen. A
// new field is one line here and one in Species and timber.
func values() []value {
	return []value{
		{name: "name", at: func(s *Species) any { return &s.Name }},
		{name: "also", at: func(s *Species) any { return &s.Also }},
		{name: "botanical", at: func(s *Species) any { return &s.Botanical }},
		{name: "letters", at: func(s *Species) any { return &s.Letters }},
		{name: "cr", unit: "per point", least: 0.0001, most: 0.02, decimals: 5, at: func(s *Species) any { return &s.CR }},
		{name: "ct", unit: "per point", least: 0.0001, most: 0.02, decimals: 5, at: func(s *Species) any { return &s.CT }},
		{name: "fsp_pct", unit: "%", least: 15, most: 40, at: func(s *Species) any { return &s.FSPPct }},
		{name: "density_kg_m3", unit: "kg/m3", least: 50, most: 1500, at: func(s *Species) any { return &s.DensityKgM3 }},
		{name: "janka_n", unit: "N", least: 100, most: 30000, at: func(s *Species) any { return &s.JankaN }},
		{name: "colour", at: func(s *Species) any { return &s.Colour }},
		{name: "colour_oiled", at: func(s *Species) any { return &s.ColourOiled }},
		{name: "colour_change", at: func(s *Species) any { return &s.ColourChange }},
		{name: "pores", at: func(s *Species) any { return &s.Pores }},
		{name: "open_pored", at: func(s *Species) any { return &s.OpenPored }},
		{name: "oily", at: func(s *Species) any { return &s.Oily }},
		{name: "sensitiser", at: func(s *Species) any { return &s.Sensitise }},
		{name: "food", at: func(s *Species) any { return &s.Food }},
		{name: "not_for_food", at: func(s *Species) any { return &s.NotForFood }},
		{name: "dust", at: func(s *Species) any { return &s.Dust }},
		{name: "listed", at: func(s *Species) any { return &s.Listed }},
		{name: "note", at: func(s *Species) any { return &s.Note }},
	}
}

// ValueNames lists the names of all values but the key, in the order of the file.
// Sources goes by them.
func ValueNames() []string {
	var names []string
	for _, v := range values() {
		names = append(names, v.name)
	}
	return names
}

// NumberRange gives the least and the most of a value that is a number; ok is false
// for every other name.
func NumberRange(name string) (least, most float64, ok bool) {
	for _, v := range values() {
		if v.name == name && v.most > 0 {
			return v.least, v.most, true
		}
	}
	return 0, 0, false
}

// check refuses a number outside the value's range, and NaN.
func (v value) check(x float64) error {
	if x >= v.least && x <= v.most {
		return nil
	}
	return fmt.Errorf("%s %v: must be %s to %s", v.name, x, decimal(v.least, 0), decimal(v.most, 0))
}

// PoreWords lists what Pores may be.
func PoreWords() []string { return []string{"ring", "semi-ring", "diffuse", "softwood"} }

// Values lists what there is to say of the timber, in a stable order, with where
// each value comes from. A value that is not known is listed only where its source
// says so; a flag that is not set only where somebody looked.
func (s Species) Values() []Value {
	var out []Value
	for _, v := range values() {
		source, sourced := s.Sources[v.name]
		data, text := v.read(&s, sourced)
		if data == nil && !sourced {
			continue
		}
		unit := v.unit
		if data == nil {
			text, unit = "none", ""
			if v.most > 0 {
				text = "no figure"
			}
		}
		out = append(out, Value{Name: v.name, Text: text, Unit: unit, Data: data, Source: source})
	}
	return out
}

// read gives the value and its text, nil where it is not known. A flag and a colour
// have no zero of their own, so there the source decides.
func (v value) read(s *Species, sourced bool) (data any, text string) {
	switch p := v.at(s).(type) {
	case *float64:
		if *p != 0 {
			return *p, decimal(*p, v.decimals)
		}
	case *string:
		if *p != "" {
			return *p, *p
		}
	case *[]string:
		if len(*p) > 0 {
			return slices.Clone(*p), strings.Join(*p, ", ")
		}
	case *bool:
		if *p || sourced {
			return *p, map[bool]string{true: "yes", false: "no"}[*p]
		}
	case *RGB:
		if *p != (RGB{}) || sourced {
			return *p, p.String()
		}
	default:
		panic(fmt.Sprintf("species: value %s has no kind", v.name))
	}
	return nil, ""
}

// decimal prints x in full, with at least so many places.
func decimal(x float64, places int) string {
	text := strconv.FormatFloat(x, 'f', -1, 64)
	if _, after, _ := strings.Cut(text, "."); len(after) < places {
		text = strconv.FormatFloat(x, 'f', places, 64)
	}
	return text
}

// copyFrom sets the value in to as it is in from.
func (v value) copyFrom(to, from *Species) {
	switch p := v.at(to).(type) {
	case *float64:
		*p = *v.at(from).(*float64)
	case *string:
		*p = *v.at(from).(*string)
	case *[]string:
		*p = slices.Clone(*v.at(from).(*[]string))
	case *bool:
		*p = *v.at(from).(*bool)
	case *RGB:
		*p = *v.at(from).(*RGB)
	default:
		panic(fmt.Sprintf("species: value %s has no kind", v.name))
	}
}

// CheckKey refuses a key that is not a small letter followed by small letters,
// digits and underscores.
func CheckKey(key string) error {
	for i, r := range key {
		small := r >= 'a' && r <= 'z'
		if small || i > 0 && (r >= '0' && r <= '9' || r == '_') {
			continue
		}
		return fmt.Errorf("key %q: must be a small letter, then small letters, digits and _, like plum_wood", key)
	}
	if key == "" {
		return errors.New("key is missing: must be small letters, digits and _, like plum_wood")
	}
	return nil
}

// CheckLetters refuses letters that are not two capitals A to Z.
func CheckLetters(letters string) error {
	capital := func(b byte) bool { return b >= 'A' && b <= 'Z' }
	if len(letters) != 2 || !capital(letters[0]) || !capital(letters[1]) {
		return fmt.Errorf("letters %q: must be two capitals, like WA", letters)
	}
	return nil
}

// CheckNumber refuses a number outside the range of the value of that name.
func CheckNumber(name string, x float64) error {
	for _, v := range values() {
		if v.name == name && v.most > 0 {
			return v.check(x)
		}
	}
	return fmt.Errorf("%q is no number of a timber", name)
}

// CheckPores refuses a word that is not one of PoreWords.
func CheckPores(word string) error {
	if slices.Contains(PoreWords(), word) {
		return nil
	}
	return fmt.Errorf("pores %q: must be %s", word, strings.Join(PoreWords(), ", "))
}

// Validate checks the key and all values of one timber that are known, and the names
// of its sources. It joins everything that is wrong. A value that is 0 or empty is
// not known, and passes; so does a timber without letters, for With gives it some.
func (s Species) Validate() error { return errors.Join(s.wrongs()...) }

// wrongs lists what Validate refuses; there may be nils among it.
func (s Species) wrongs() []error {
	errs := []error{CheckKey(s.Key)}
	if s.Letters != "" {
		errs = append(errs, CheckLetters(s.Letters))
	}
	if s.Pores != "" {
		errs = append(errs, CheckPores(s.Pores))
	}
	all := values()
	for _, v := range all {
		if p, ok := v.at(&s).(*float64); ok && *p != 0 {
			errs = append(errs, v.check(*p))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(s.Sources)) {
		if !slices.ContainsFunc(all, func(v value) bool { return v.name == name }) {
			errs = append(errs, fmt.Errorf("sources: %q is no value of a timber", name))
		}
	}
	return errs
}
