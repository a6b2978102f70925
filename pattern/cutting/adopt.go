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
	laid := laidAs(plan)
	var out []edit.Laid
	ways := d.ways(job.Shop)
	for i := range d.Pattern.Strips {
		way := func(c int) joints.Way {
			if w, pieced := laid[Ref{Pattern: stem, Copy: c, Strip: i + 1}]; pieced {
				return w
			}
			return ways[i][0]
		}
		for c := 2; c <= d.Copies; c++ {
			if !slices.Equal(way(1), way(c)) {
				return nil, fmt.Errorf("strip %d: %w", i+1, ErrMixed)
			}
		}
		if l, other := job.lay(d.Pattern, i, way(1)); other && d.Copies > 0 {
			out = append(out, l)
		}
	}
	return out, nil
}

// laidAs returns the pieces of the strips that a plan does not have whole.
func laidAs(plan Plan) map[Ref]joints.Way {
	laid := map[Ref]joints.Way{}
	for _, p := range plan.Pieced {
		laid[p.Ref] = p.Pieces
	}
	return laid
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
	laid, short, whole := laidAs(e.Then), map[int]bool{}, ends.Patterns[0].ways(job.Shop)
	for _, m := range e.Then.Missing {
		short[m.Strip] = true
	}
	for i := range d.Pattern.Strips {
		way, own := laid[Ref{Pattern: d.Stem, Copy: 1, Strip: i + 1}]
		if !own {
			way = whole[i][0]
		}
		if l, other := job.lay(d.Pattern, i, way); other && !short[i+1] {
			e.Laid = append(e.Laid, l)
		}
	}
	return e, nil
}
