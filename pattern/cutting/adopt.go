package cutting

import (
	"errors"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/joints"
)

// ErrMixed says that the copies of a pattern are made in different ways, so that the
// pattern cannot have them: they stand in the plan alone.
var ErrMixed = errors.New("the copies are laid in different ways, which stand in the plan alone")

// Adopted returns the strips of a pattern of job that a plan lays otherwise than the
// pattern has them. All copies must be made, and alike.
func Adopted(job Job, plan Plan, stem string) ([]edit.Laid, error) {
	at := slices.IndexFunc(job.Patterns, func(d Demand) bool { return d.Stem == stem })
	if at < 0 {
		return nil, fmt.Errorf("there is no pattern %q in the plan", stem)
	}
	d := job.Patterns[at]
	for _, m := range plan.Missing {
		if m.Pattern == stem {
			return nil, fmt.Errorf("strip %d of copy %d is short: pieces are taken over from a plan that is complete", m.Strip, m.Copy)
		}
	}
	first := job.LaidIn(plan, d, 1)
	for c := 2; c <= d.Copies; c++ {
		for i, way := range job.LaidIn(plan, d, c) {
			if !slices.Equal(first[i], way) {
				return nil, fmt.Errorf("strip %d: %w", i+1, ErrMixed)
			}
		}
	}
	var out []edit.Laid
	for i := range d.Pattern.Strips {
		if l, other := job.lay(d.Pattern, i, first[i]); other && d.Copies > 0 {
			out = append(out, l)
		}
	}
	return out, nil
}

// LaidIn returns how a plan of job lays each strip of one copy of a pattern of it; one that is
// short stands there as it is whole.
func (job Job) LaidIn(plan Plan, d Demand, copy int) []joints.Way {
	var out []joints.Way
	for _, ways := range d.ways(job.Shop) {
		out = append(out, ways[0])
	}
	for _, p := range plan.Pieced {
		if p.Pattern == d.Stem && p.Copy == copy {
			out[p.Strip-1] = p.Pieces
		}
	}
	return out
}

// lay returns strip i, from 0, of p laid in a way, and whether it is laid otherwise now.
func (job Job) lay(p pattern.Pattern, i int, way joints.Way) (edit.Laid, bool) {
	s := p.Strips[i]
	if slices.Equal(way, p.PiecesOf(s, job.Shop.Allowance.Length)) {
		return edit.Laid{}, false
	}
	now := way.Laid(s)
	if len(way) == 1 && now.Start == s.Start && now.Length == p.StripLength(s, job.Shop.Allowance.Length) {
		now.Length = s.Length // whole again
	}
	return edit.Laid{Strip: i + 1, Start: now.Start, Length: now.Length, Joints: now.Joints}, true
}

// A ShortEnds says which strips of a pattern are to be as long as their products need,
// short ends outside, since with them in their own length or whole, whichever draws less, a
// board of it is short of fewer strips or draws less.
type ShortEnds struct {
	Laid      []edit.Laid // none: nothing is saved
	Now, Then Plan        // of one board as it is, and with what is saved
}

// ShortEndsOf finds them for the first pattern of job, with what plans a job.
func ShortEndsOf(job Job, plan func(Job) (Plan, error)) (ShortEnds, error) {
	d := job.Patterns[0]
	d.Copies, d.Ways, d.Other = 1, nil, nil
	job.Patterns = []Demand{d}
	var e ShortEnds
	ends, err := job.Joined(joints.Ends, false)
	if err != nil {
		return e, err
	}
	if e.Now, err = plan(job); err != nil {
		return e, err
	}
	if e.Then, err = plan(ends); err != nil {
		return e, err
	}
	if e.Then.Compare(e.Now) >= 0 {
		return e, nil
	}
	short := map[int]bool{}
	for _, m := range e.Then.Missing {
		short[m.Strip] = true
	}
	for i, way := range job.LaidIn(e.Then, ends.Patterns[0], 1) {
		if l, other := job.lay(d.Pattern, i, way); other && !short[i+1] {
			e.Laid = append(e.Laid, l)
		}
	}
	return e, nil
}
