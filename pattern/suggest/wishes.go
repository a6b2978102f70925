package suggest

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/tell"
)

// A Clash is wishes that contradict one another, or what there is.
type Clash struct {
	Wrong string // what contradicts what; no full stop
	Hint  string // what to change
}

// Error says what contradicts what.
func (c *Clash) Error() string { return c.Wrong }

func clash(hint, format string, args ...any) *Clash {
	return &Clash{Wrong: fmt.Sprintf(format, args...), Hint: hint}
}

// Clash returns the first wishes that contradict one another, or the timbers that there are;
// nil where none do.
func (a Request) Clash(r movement.Physics) *Clash {
	there := a.species()
	name := func(key string) string {
		s, _ := r.Table().Get(key)
		return cmp.Or(s.Name, key)
	}
	for _, key := range a.With {
		switch {
		case slices.Contains(a.Without, key):
			return clash("leave out one of the two", "with and without %s", name(key))
		case !slices.Contains(there, key):
			return clash("leave it out, or add the timber to the rack", "with %s: the rack has none", name(key))
		}
	}
	for _, s := range a.AtMost {
		switch {
		case !(s.Pct >= 0 && s.Pct <= 100):
			return clash("write a percentage from 0 to 100", "at most %g %% %s: must be 0 to 100", s.Pct, name(s.Species))
		case !slices.Contains(there, s.Species):
			return clash("leave it out, or add the timber to the rack", "at most %g %% %s: the rack has none", s.Pct, name(s.Species))
		case s.Pct == 0 && slices.Contains(a.With, s.Species):
			return clash("allow more of it, or leave out the wish to have it", "with %s and at most 0 %% of it", name(s.Species))
		}
	}
	there = slices.DeleteFunc(there, func(key string) bool { return slices.Contains(a.Without, key) })
	if most := a.Timbers[1]; most > 0 && len(a.With) > most {
		return clash("allow more timbers", "at most %s, and %d that there must be", tell.Count(most, "timber"), len(a.With))
	}
	looks := a.Looks
	if len(looks) == 0 || len(looks) == len(look.Looks()) {
		looks = []look.Look{look.Any} // a gallery leaves out the looks that cannot be
	}
	for _, l := range looks {
		if c := a.clashOf(l, there); c != nil {
			return c
		}
	}
	return nil
}

// species returns those that there is timber of, each once.
func (a Request) species() []string {
	var out []string
	add := func(key string) {
		if !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	for _, h := range a.Have {
		add(h.Species)
	}
	for _, key := range a.Rack.Species() {
		add(key)
	}
	return out
}

// clashOf returns what contradicts a look; there are the timbers that may serve.
func (a Request) clashOf(l look.Look, there []string) *Clash {
	most := len(there)
	if a.Timbers[1] > 0 {
		most = min(most, a.Timbers[1])
	}
	switch {
	case a.Timbers[1] > 0 && a.Timbers[1] < l.Fewest():
		return clash("allow more timbers, or take another look", "look %v needs %s, and at most %d may be there", l, tell.Count(l.Fewest(), "timber"), a.Timbers[1])
	case l == look.Calm && a.Timbers[0] > 2:
		return clash("ask for fewer timbers, or take another look", "look calm has 2 timbers, and at least %d must be there", a.Timbers[0])
	case l == look.Accent && a.Timbers[0] > look.AccentTimbers:
		return clash("ask for fewer timbers, or take another look", "look accent has at most %d timbers, and at least %d must be there", look.AccentTimbers, a.Timbers[0])
	}
	switch l {
	case look.Calm:
		most = min(most, 2)
	case look.Accent:
		most = min(most, look.AccentTimbers)
	}
	var shares []float64
	for _, key := range there {
		share := 100.0
		for _, s := range a.AtMost {
			if s.Species == key {
				share = min(share, s.Pct)
			}
		}
		shares = append(shares, share)
	}
	slices.SortFunc(shares, func(x, y float64) int { return cmp.Compare(y, x) })
	sum := 0.0
	for _, s := range shares[:most] {
		sum += s
	}
	if len(a.AtMost) > 0 && sum < 100 {
		return clash("allow more of a timber, or more timbers", "look %v: what each timber may have at most comes to %g %% of the width", l, sum)
	}
	return nil
}
