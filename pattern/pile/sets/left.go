package sets

import (
	"context"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/pile"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
)

// A Reason is why something stays on the rack.
type Reason int

// The reasons.
const (
	Enough   Reason = iota // no more is asked for
	Unwanted               // no want may have the timber
	Thin                   // too thin or too narrow for a strip of any want
	Short                  // too short for one
	Alone                  // beside no other timber of the rack it keeps to level and contrast
	Only                   // it is the rack's one timber, and wants ask for a contrast
	Lonely                 // it goes with others, of which too little is left
	Little                 // it goes with others, and no further panel was found
)

// Left is an entry of the rack that lies there as before, with the reason.
type Left struct {
	Entry  rack.Entry
	Reason Reason
	Needs  length.Length   // of Thin and Short: the least that would do
	Goes   []string        // of Lonely and Little: the species that it goes with
	Levels []pattern.Level // of Alone: the levels that wants ask for
}

// After returns how much of each timber a set takes, and what stays on the rack and why.
func After(r Request, set Set) (used []pile.Used, left []Left, err error) {
	after := r.Rack
	if len(set.Panels) > 0 {
		after, _, err = booking.Book(r.Job(set.Panels), set.Plan, pattern.Date{}, func(string) string { return "" })
		if err != nil {
			return nil, nil, err
		}
	}
	s := newSearch(context.Background(), r, Options{})
	for _, e := range pile.Still(r.Rack, after) {
		left = append(left, s.why(e, after, set))
	}
	return pile.Taken(r.Rack, after), left, nil
}

// why says what keeps an entry on the rack.
func (s *search) why(e rack.Entry, after rack.Rack, set Set) Left {
	out := Left{Entry: e}
	at := slices.IndexFunc(s.lots, func(l lot) bool { return l.lotKey == keyOf(e.Species, e.Rings, e.Moisture, e.UseFirst, e.Colour) })
	wants := slices.DeleteFunc(slices.Clone(s.wants), func(w *wanted) bool { return w.Most > 0 && set.Made[w.at] >= w.Most })
	if at < 0 || len(wants) == 0 {
		return out
	}
	wants = slices.DeleteFunc(wants, func(w *wanted) bool { return !slices.Contains(w.timbers, e.Species) })
	if out.Reason = Unwanted; len(wants) == 0 {
		return out
	}
	wants, out.Reason, out.Needs = s.large(e, wants)
	if len(wants) == 0 {
		return out
	}
	out.Needs = 0
	for _, w := range wants {
		if !slices.Contains(out.Levels, w.Level) {
			out.Levels = append(out.Levels, w.Level)
		}
		for i := range s.lots {
			if s.lots[i].species != e.Species && !slices.Contains(out.Goes, s.lots[i].species) && s.goes(w, at, i) {
				out.Goes = append(out.Goes, s.lots[i].species)
			}
		}
	}
	if len(out.Goes) == 0 && s.goesWithItself(wants, e.Species, at) {
		out.Goes = []string{e.Species}
	}
	const most = 0.25 // of what there was: what is left is of little use
	switch {
	case len(out.Goes) == 0 && len(s.Rack.Species()) == 1:
		out.Reason = Only
	case len(out.Goes) == 0:
		out.Reason = Alone
	case !slices.ContainsFunc(out.Goes, func(key string) bool { return after.VolumeCM3(key) > most*s.Rack.VolumeCM3(key) }):
		out.Reason = Lonely
	default:
		out.Reason = Little
	}
	return out
}

// goesWithItself reports whether a lot may lie beside timber of its own species in panels of some want.
func (s *search) goesWithItself(wants []*wanted, species string, at int) bool {
	return slices.ContainsFunc(wants, func(w *wanted) bool {
		for i := range s.lots {
			if s.lots[i].species == species && s.goes(w, at, i) {
				return true
			}
		}
		return false
	})
}

// goes reports whether strips of two lots may lie side by side in panels of a want.
func (s *search) goes(w *wanted, a, b int) bool {
	return slices.ContainsFunc(s.of[a], func(k int) bool {
		return s.kinds[k].reach[w.glued] > 0 && slices.ContainsFunc(s.of[b], func(o int) bool {
			return s.kinds[o].reach[w.glued] > 0 && s.beside(w, k, o, true)
		})
	})
}

// large returns the wants that an entry is large enough for, or else what it is too small in
// and what would do.
func (s *search) large(e rack.Entry, wants []*wanted) (fits []*wanted, small Reason, needs length.Length) {
	small = Thin
	for _, w := range wants {
		d := &draw{search: s, w: w}
		short := d.shortest(w.Along.Least)
		if w.Joints {
			short = d.shortest(1)
		}
		long, thick := length.Length(0), w.glued
		if e.Ready {
			if e.Thickness >= w.glued {
				long = e.Length
			}
		} else {
			thick += s.shop.Allowance.Planing + s.shop.Allowance.Truing
			for _, c := range e.Clear() {
				up, side := s.section(c.Piece).gives(s.usual[0], w.glued)
				if up || side {
					long = max(long, c.Length-2*s.shop.Allowance.EndTrim)
				}
			}
		}
		switch {
		case long >= short:
			fits = append(fits, w)
		case long > 0 && (small == Thin || short < needs):
			small, needs = Short, short
		case small == Thin && (needs == 0 || thick < needs):
			needs = thick
		}
	}
	return fits, small, needs
}

// Words says it in a maker's words; name gives the names of timbers.
func (l Left) Words(name func(string) string, u length.Unit) string {
	switch l.Reason {
	case Enough:
		return "no more boards are asked for"
	case Unwanted:
		return "no board that is asked for may have this timber"
	case Thin:
		return fmt.Sprintf("too thin or too narrow for any further board: strips need %s of rough thickness", l.Needs.With(u))
	case Short:
		return fmt.Sprintf("too short for any further board: the shortest strip is %s long", l.Needs.With(u))
	case Alone:
		return fmt.Sprintf("no panel can take it at %v: next to each other timber of the rack it moves too much or looks too alike", l.Levels[0])
	}
	if l.Reason == Only {
		return "it is the only timber on the rack, and strips side by side must differ: add another timber, or ask for contrast 0"
	}
	var goes []string
	for _, key := range l.Goes {
		goes = append(goes, name(key))
	}
	if l.Reason == Lonely {
		return fmt.Sprintf("it goes with %s, and too little of that is left", tell.List(goes, "or"))
	}
	return fmt.Sprintf("it goes with %s, and no further panel was found", tell.List(goes, "or"))
}
