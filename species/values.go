package species

import (
	"errors"
	"fmt"
	"maps"
	"reflect"
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

// A Field describes one value of a Species to everything that goes through all of
// them: reading, writing, printing, merging, checking.
type Field struct {
	Name        string // as files have it
	unit        string
	Least, Most float64            // of a number
	decimals    int                // of a number, at least so many are printed
	At          func(*Species) any // where it lies: *float64, *string, *[]string, *bool or *RGB
	Check       func(string) error // of text; nil: any will do
}

// Fields lists all values but the key, in the order of files and of the screen. A new
// one is one line here and one in Species.
func Fields() []Field {
	return []Field{
		{Name: "name", At: func(s *Species) any { return &s.Name }, Check: notEmpty},
		{Name: "also", At: func(s *Species) any { return &s.Also }},
		{Name: "botanical", At: func(s *Species) any { return &s.Botanical }},
		{Name: "letters", At: func(s *Species) any { return &s.Letters }, Check: CheckLetters},
		{Name: "cr", unit: "per point", Least: 0.0001, Most: 0.02, decimals: 5, At: func(s *Species) any { return &s.CR }},
		{Name: "ct", unit: "per point", Least: 0.0001, Most: 0.02, decimals: 5, At: func(s *Species) any { return &s.CT }},
		{Name: "fsp_pct", unit: "%", Least: 15, Most: 40, At: func(s *Species) any { return &s.FSPPct }},
		{Name: "density_kg_m3", unit: "kg/m3", Least: 50, Most: 1500, At: func(s *Species) any { return &s.DensityKgM3 }},
		{Name: "janka_n", unit: "N", Least: 100, Most: 30000, At: func(s *Species) any { return &s.JankaN }},
		{Name: "colour", At: func(s *Species) any { return &s.Colour }},
		{Name: "colour_oiled", At: func(s *Species) any { return &s.ColourOiled }},
		{Name: "colour_change", At: func(s *Species) any { return &s.ColourChange }},
		{Name: "pores", At: func(s *Species) any { return &s.Pores }, Check: CheckPores},
		{Name: "open_pored", At: func(s *Species) any { return &s.OpenPored }},
		{Name: "oily", At: func(s *Species) any { return &s.Oily }},
		{Name: "sensitiser", At: func(s *Species) any { return &s.Sensitise }},
		{Name: "food", At: func(s *Species) any { return &s.Food }},
		{Name: "not_for_food", At: func(s *Species) any { return &s.NotForFood }},
		{Name: "dust", At: func(s *Species) any { return &s.Dust }},
		{Name: "listed", At: func(s *Species) any { return &s.Listed }},
		{Name: "note", At: func(s *Species) any { return &s.Note }},
	}
}

// ValueNames lists the names of all values but the key, in the order of the file.
// Sources goes by them.
func ValueNames() []string {
	var names []string
	for _, v := range Fields() {
		names = append(names, v.Name)
	}
	return names
}

// check refuses a number outside the value's range, and NaN.
func (v Field) check(x float64) error {
	if x >= v.Least && x <= v.Most {
		return nil
	}
	return fmt.Errorf("%s %v: must be %s to %s", v.Name, x, decimal(v.Least, 0), decimal(v.Most, 0))
}

// PoreWords lists what Pores may be.
func PoreWords() []string { return []string{"ring", "semi-ring", "diffuse", "softwood"} }

// Values lists what there is to say of the timber, in a stable order, with where
// each value comes from. A value that is not known is listed only where its source
// says so; a flag that is not set only where somebody looked.
func (s Species) Values() []Value {
	var out []Value
	for _, v := range Fields() {
		source, sourced := s.Sources[v.Name]
		data, text := v.read(&s, sourced)
		if data == nil && !sourced {
			continue
		}
		unit := v.unit
		if data == nil {
			text, unit = "none", ""
			if v.Most > 0 {
				text = "no figure"
			}
		}
		out = append(out, Value{Name: v.Name, Text: text, Unit: unit, Data: data, Source: source})
	}
	return out
}

// read returns the value and its text, nil where it is not known. A flag and a colour
// have no zero of their own, so there the source decides.
func (v Field) read(s *Species, sourced bool) (data any, text string) {
	switch p := v.At(s).(type) {
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
		panic(fmt.Sprintf("species: value %s has no kind", v.Name))
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

// copyFrom sets the value in to as it is in from; a list of names is shared.
func (v Field) copyFrom(to, from *Species) {
	reflect.ValueOf(v.At(to)).Elem().Set(reflect.ValueOf(v.At(from)).Elem())
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

func notEmpty(s string) error {
	if s == "" {
		return errors.New("must not be empty")
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
	all := Fields()
	for _, v := range all {
		switch p := v.At(&s).(type) {
		case *float64:
			if *p != 0 {
				errs = append(errs, v.check(*p))
			}
		case *string:
			if *p != "" && v.Check != nil {
				errs = append(errs, v.Check(*p))
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(s.Sources)) {
		if !slices.ContainsFunc(all, func(v Field) bool { return v.Name == name }) {
			errs = append(errs, fmt.Errorf("sources: %q is no value of a timber", name))
		}
	}
	return errs
}
