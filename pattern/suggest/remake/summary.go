package remake

import (
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
)

// Summary sums up one way to make a pattern again. Sure is left at Unproved, as of a
// layout.
func (s Way) Summary(r movement.Physics) suggest.Summary {
	out := suggest.Summarise(r, s.Pattern)
	for _, id := range s.Plan.Served() {
		out.Take(id)
	}
	return out
}

// Sure returns what is proved of one of the ways that an answer of that status has.
func (s Way) Sure(status suggest.Status) suggest.Sure {
	switch {
	case status != suggest.Optimal:
		return suggest.Unproved
	case s.Plan.Claim().Sure != cutting.Least:
		return suggest.LayoutProved
	default:
		return suggest.AllProved
	}
}

// AwayEach returns the mean colour difference over the panel's width; 0 without width.
func (s Way) AwayEach() float64 {
	var width length.Length
	for _, strip := range s.Pattern.Strips {
		width += strip.Width
	}
	if width == 0 {
		return 0
	}
	return s.ColourDistance / width.MM()
}
