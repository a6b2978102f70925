package cutting

import (
	"errors"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
)

// A Laid says how a strip of a pattern is laid: where it starts, how long it is, and where
// its pieces meet.
type Laid struct {
	Strip int // from 1
	Now   pattern.Strip
}

// ErrMixed says that the copies of a pattern are made in different ways, so that the
// pattern cannot have them: they stand in the plan alone.
var ErrMixed = errors.New("the copies are laid in different ways, which stand in the plan alone")

// Adopted returns the strips of a pattern of job that a plan lays otherwise than the
// pattern has them. All copies must be made, and alike.
func Adopted(job Job, plan Plan, stem string) ([]Laid, error) {
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
	laid := map[Ref]joints.Way{}
	for _, p := range plan.Pieced {
		laid[p.Ref] = p.Pieces
	}
	var out []Laid
	ways := d.ways(job.Shop)
	for i, s := range d.Pattern.Strips {
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
		own := joints.Way(d.Pattern.PiecesOf(s, job.Shop.Allowance.Length))
		if d.Copies == 0 || slices.Equal(way(1), own) {
			continue
		}
		now := way(1).Laid(s)
		if len(way(1)) == 1 && now.Start == s.Start && now.Length == d.Pattern.StripLength(s, job.Shop.Allowance.Length) {
			now.Length = s.Length // whole again
		}
		out = append(out, Laid{Strip: i + 1, Now: now})
	}
	return out, nil
}
