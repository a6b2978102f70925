// Package edit holds the hand moves on a pattern, and their history.
//
// A State is the pattern on the bench, the strip that is chosen and the tray of
// strips laid aside. A move takes a State and gives a new one; it never writes to
// the strips or the tray it was given, so States may be kept and shared. Strips are
// numbered from 1 in words and from 0 in code.
//
// A move that cannot be made gives a Refusal in plain words, and the State it was
// given. Whatever a move lets in is in the ranges of package pattern's Max
// constants. Lengths are exact: where a strip is divided, the parts and what the
// cut took add up to the whole. Moisture is percent of oven-dry mass.
//
// A pin keeps a strip from Mirror and Fill (and from whatever lays strips out); the
// moves that are made on the chosen strip itself do not mind it. A pin belongs to
// one strip: copies of it are not pinned.
package edit

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A State is what lies on the bench. The zero value is an empty draft.
type State struct {
	Pattern  pattern.Pattern
	Selected int             // the chosen strip, from 0; 0 on a draft
	Tray     []pattern.Strip // laid aside, oldest first
}

// Allowances is what the workshop's cuts and planing take: 0 to 1 m each.
type Allowances struct {
	Jointing   length.Length // off both edges of a strip together
	Flattening length.Length // planed strip thickness minus finished panel thickness
	Rip        length.Length // kerf of a cut along the grain
	Length     length.Length // strip length at glue-up minus finished panel length
}

// New returns the State of p with its first strip chosen and an empty tray.
func New(p pattern.Pattern) State { return State{Pattern: p} }

// Strip returns the chosen strip, and false where there is none.
func (s State) Strip() (pattern.Strip, bool) {
	if s.Selected < 0 || s.Selected >= len(s.Pattern.Strips) {
		return pattern.Strip{}, false
	}
	return s.Pattern.Strips[s.Selected], true
}

// Alike reports whether s and other have the same pattern and tray, whichever
// strip is chosen.
func (s State) Alike(other State) bool {
	return samePattern(s.Pattern, other.Pattern) && sameStrips(s.Tray, other.Tray)
}

func samePattern(a, b pattern.Pattern) bool {
	return a.Name == b.Name && a.Notes == b.Notes && a.Panel == b.Panel &&
		sameStrips(a.Strips, b.Strips) && slices.Equal(a.Products, b.Products) &&
		slices.Equal(a.Avoids, b.Avoids) && slices.Equal(a.Made, b.Made)
}

// sameStrips is quick for strips that two States share.
func sameStrips(a, b []pattern.Strip) bool {
	if len(a) != len(b) {
		return false
	}
	return len(a) == 0 || &a[0] == &b[0] || slices.Equal(a, b)
}

// chosen returns the chosen strip for a move on it.
func (s State) chosen() (pattern.Strip, error) {
	if strip, ok := s.Strip(); ok {
		return strip, nil
	}
	if len(s.Pattern.Strips) == 0 {
		return pattern.Strip{}, refuse("there is no strip yet: put one in first")
	}
	return pattern.Strip{}, refuse("there is no strip %d: the panel has %d", s.Selected+1, len(s.Pattern.Strips))
}

// number is what makers call the chosen strip.
func (s State) number() int { return s.Selected + 1 }

// change returns s with the chosen strip as f makes it.
func (s State) change(f func(*pattern.Strip) error) (State, error) {
	strip, err := s.chosen()
	if err != nil {
		return s, err
	}
	if err := f(&strip); err != nil {
		return s, err
	}
	s.Pattern.Fit(&strip)
	return s.swapOut(1, strip), nil
}

// swapOut returns s with n strips, from the chosen one on, taken out for others.
func (s State) swapOut(n int, others ...pattern.Strip) State {
	s.Pattern.Strips = splice(s.Pattern.Strips, s.Selected, n, others)
	return s
}

// splice returns a copy of strips in which n of them, from index at on, have made
// room for others. The copy has no spare room, so that whoever appends to it
// cannot write into a State that shares it.
func splice(strips []pattern.Strip, at, n int, others []pattern.Strip) []pattern.Strip {
	out := make([]pattern.Strip, 0, len(strips)-n+len(others))
	out = append(out, strips[:at]...)
	out = append(out, others...)
	return append(out, strips[at+n:]...)
}
