package sets

import "example.com/oddments/pattern/pile/ceiling"

// newCeiling returns the bound on what any set is worth.
func (s *search) newCeiling() *ceiling.Ceiling {
	job := ceiling.Job{Wants: s.Wants, Rack: s.Rack, Physics: s.Physics, Widths: s.usual}
	for _, p := range s.Hold {
		job.Held = append(job.Held, ceiling.Held{Want: p.Want, Pattern: p.Pattern})
	}
	return ceiling.New(job)
}

// lowerings is how many steps the bound takes a round, until more hardly gain.
const lowerings = 4

// lower makes the bound better.
func (s *search) lower() {
	for n := 0; n < lowerings && !s.ceiling.Ended() && s.ctx.Err() == nil; n++ {
		s.ceiling.Step(s.ctx)
	}
}
