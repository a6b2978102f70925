package sets

import (
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/pile/ceiling"
)

// newCeiling returns the bound on what any set is worth.
func (s *search) newCeiling() *ceiling.Ceiling {
	job := ceiling.Job{Wants: s.Wants, Rack: s.Rack, Physics: s.Physics, Widths: s.usual}
	for _, p := range s.Hold {
		job.Held = append(job.Held, ceiling.Held{Want: p.Want, Pattern: p.Pattern})
	}
	return ceiling.New(job)
}

// most returns what no set is worth more than, and of a set that is worth more nevertheless what
// was claimed, so that nothing is called proved: then what is asked for stands in the bound's place.
func (s *search) most(worth float64) (bound float64, broken error) {
	const same = 1e-9
	bound = s.ceiling.Worth()
	if s.opt.tamper != nil {
		bound = s.opt.tamper(bound)
	}
	if worth > bound*(1+same) {
		return max(worth, s.ceiling.Asked()), &cutting.Broken{Kind: cutting.Worthier, Claimed: bound, Found: worth}
	}
	return max(bound, worth), nil
}

// lowerings is how many steps the bound takes a round, until more hardly gain.
const lowerings = 4

// lower makes the bound better.
func (s *search) lower() {
	for n := 0; n < lowerings && !s.ceiling.Ended() && s.ctx.Err() == nil; n++ {
		s.ceiling.Step(s.ctx)
	}
}
