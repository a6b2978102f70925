package suggest

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
)

// A Summary is what a maker weighs one layout by, beside its picture.
type Summary struct {
	Timbers  []Amount // most strips first, then as they come from the left
	FirstPct float64  // share of the width that is use-first timber, percent
	Lines    []movement.Line
	Worst    movement.Line // as Worst gives it
	Mirror   bool          // it is its own mirror image
	Needs    []Need
	Sure     Sure
}

// An Amount is how many strips there are of a timber.
type Amount struct {
	Species string
	Strips  int
}

// A Need is a piece or ready strip of the rack, with how many strips come from it.
type Need struct {
	ID     string
	Strips int
}

// Sure says what is proved of a layout and its plan.
type Sure int

// The grades, the least sure first.
const (
	Unproved     Sure = iota // a better layout is not ruled out
	AmongPlanned             // the best of those not passed over for a plan that fell short without proof
	LayoutProved             // the layout is the best; its plan is complete, but not proved the least timber
	AllProved                // the layout is the best, and its plan, where it has one, takes the least timber
)

// String returns the grade in words.
func (s Sure) String() string {
	return word(s, "sure", "not proved", "proved among those whose plan was found", "layout proved, plan not", "proved")
}

// Sure returns what is proved of layout l of the answer.
func (a Result) Sure(l Layout) Sure {
	switch {
	case !l.Proved:
		return Unproved
	case !a.PlansProved:
		return AmongPlanned
	case l.Plan != nil && l.Plan.Claim().Sure != cutting.Least:
		return LayoutProved
	default:
		return AllProved
	}
}

// Summary sums layout l up, as far as it does not depend on an answer: Sure is left at
// Unproved.
func (a Request) Summary(r movement.Physics, l Layout) Summary {
	s := Summarise(r, a.Pattern(l))
	if l.Width > 0 {
		s.FirstPct = 100 * l.UseFirst.MM() / l.Width.MM()
	}
	for i := range l.Strips {
		for _, id := range l.Sources(i) {
			if id != "" {
				s.Take(id)
			}
		}
	}
	return s
}

// Summarise sums up what a pattern alone says.
func Summarise(r movement.Physics, p pattern.Pattern) Summary {
	s := Summary{Lines: r.Panel(p).Lines(), Mirror: mirror(p.Strips)}
	for _, strip := range p.Strips {
		i := slices.IndexFunc(s.Timbers, func(a Amount) bool { return a.Species == strip.Species })
		if i < 0 {
			i = len(s.Timbers)
			s.Timbers = append(s.Timbers, Amount{Species: strip.Species})
		}
		s.Timbers[i].Strips++
	}
	slices.SortStableFunc(s.Timbers, func(a, b Amount) int { return cmp.Compare(b.Strips, a.Strips) })
	s.Worst = r.WorstOf(s.Lines)
	return s
}

// Take counts a strip that comes from a piece or ready strip.
func (s *Summary) Take(id string) {
	for i := range s.Needs {
		if s.Needs[i].ID == id {
			s.Needs[i].Strips++
			return
		}
	}
	s.Needs = append(s.Needs, Need{id, 1})
}

// plainStrip returns what is left of a strip when only its kind counts.
func plainStrip(s pattern.Strip) pattern.Strip {
	return pattern.Strip{Species: s.Species, Width: s.Width, Rings: s.Rings, Moisture: s.Moisture}
}
