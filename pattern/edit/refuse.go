package edit

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A Refusal says in plain words why a move cannot be made. Every error of this
// package is one.
type Refusal struct {
	words string
	args  []any
}

func refuse(words string, args ...any) error { return &Refusal{words: words, args: args} }

// Error returns the words with lengths exactly, in millimetres.
func (r *Refusal) Error() string { return fmt.Sprintf(r.words, r.args...) }

// In returns the words with lengths in u, for the screen.
func (r *Refusal) In(u length.Unit) string {
	if u == length.InMM {
		return r.Error()
	}
	args := slices.Clone(r.args)
	for i, arg := range args {
		if l, ok := arg.(length.Length); ok {
			args[i] = l.With(u)
		}
	}
	return fmt.Sprintf(r.words, args...)
}

// within refuses a length below least or above most.
func within(what string, l, least, most length.Length) error {
	if l < least || l > most {
		return refuse("%s %v: must be %v to %v", what, l, least, most)
	}
	return nil
}

// aboveNone refuses a length of 0 or less, or above most.
func aboveNone(what string, l, most length.Length) error {
	if l <= 0 || l > most {
		return refuse("%s %v: must be above 0, up to %v", what, l, most)
	}
	return nil
}

// moist refuses a reading that no timber on a bench has, and tidies one that is
// none.
func moist(what string, r pattern.Reading) (pattern.Reading, error) {
	if !r.Known {
		return pattern.Reading{}, nil
	}
	if math.IsNaN(r.Percent) || r.Percent < 0 || r.Percent > pattern.MaxMoisture {
		return r, refuse("%s %v %%: must be 0 to %v %%", what, r.Percent, pattern.MaxMoisture)
	}
	return r, nil
}

// plain refuses text that a file could not keep.
func plain(what, text string) error {
	switch {
	case !utf8.ValidString(text):
		return refuse("%s: must be readable text (UTF-8)", what)
	case utf8.RuneCountInString(text) > pattern.MaxTextRunes:
		return refuse("%s of %d letters: must be %d at most", what, utf8.RuneCountInString(text), pattern.MaxTextRunes)
	}
	if r, bad := pattern.ForbiddenRune(text); bad {
		return refuse("%s: must be one line without control characters (take out %U)", what, r)
	}
	return nil
}

// timber refuses a species that cannot be one.
func timber(species string) error {
	if strings.TrimSpace(species) == "" {
		return refuse("a strip needs a timber: name its species")
	}
	return plain("species", species)
}

// fit returns strip with its reading tidied, or says which of its values is out of
// range.
func fit(strip pattern.Strip) (pattern.Strip, error) {
	reading, wet := moist("moisture", strip.Moisture)
	strip.Moisture = reading
	return strip, cmp.Or(
		timber(strip.Species),
		aboveNone("width", strip.Width, pattern.MaxAcross),
		within("length", strip.Length, 0, pattern.MaxLength),
		within("start", strip.Start, 0, pattern.MaxStart),
		wet,
	)
}

// room refuses a strip more than a pattern may hold.
func (s State) room() error {
	if len(s.Pattern.Strips) >= pattern.MaxStrips {
		return refuse("the panel has %d strips: there is no room for another", len(s.Pattern.Strips))
	}
	return nil
}

// maxAllow is the largest kerf or allowance of a workshop.
const maxAllow = 1 * length.Metre

// check refuses allowances that no workshop has.
func (a Allowances) check() error {
	return cmp.Or(
		within("jointing", a.Jointing, 0, maxAllow),
		within("flattening", a.Flattening, 0, maxAllow),
		within("rip kerf", a.Rip, 0, maxAllow),
		within("length allowance", a.Length, 0, maxAllow),
	)
}
