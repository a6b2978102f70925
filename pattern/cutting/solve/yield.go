package solve

import (
	"cmp"
	"context"
	"errors"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
)

// A Supply says what a job asks of one timber and what the rack has of it.
type Supply struct {
	Species string
	Need    int // strips of the job
	Have    int // strips that its entries give, each computed by itself
	// AtLeast says that the entries may give more than Have: not all of it was computed
	// to the end.
	AtLeast bool
}

// Short returns how many strips are wanting at least. A plan may come to more, where no
// entry has what a strip asks for. It is 0 where it is not known whether any are.
func (s Supply) Short() int {
	if s.AtLeast {
		return 0
	}
	return max(0, s.Need-s.Have)
}

// A Yield says how many of a job's strips one entry of the rack gives when it serves
// alone, all its copies together.
type Yield struct {
	ID     string
	Strips int
	// AtLeast says that it may give more: it was not computed to the end.
	AtLeast bool
}

// Yields computes what each entry of the rack gives of the job's strips, in the rack's
// order, and what that comes to for each timber, in the order in which the job asks
// for them. Entries of other timbers are left out. When ctx ends, what is left is
// not computed any more: a number then is one that there is at least. Likewise where a
// claim broke; the first such *Broken is the error, and all the rest is there beside it.
func Yields(ctx context.Context, job cutting.Job) ([]Supply, []Yield, error) {
	if err := job.Check(); err != nil {
		return nil, nil, err
	}
	var supplies []Supply
	place := map[string]int{}
	of := map[string]cutting.Job{} // the part of the job that is about one timber
	for _, d := range job.Patterns {
		for _, s := range d.Pattern.Strips {
			i, ok := place[s.Species]
			if !ok {
				i = len(supplies)
				place[s.Species], supplies = i, append(supplies, Supply{Species: s.Species})
			}
			supplies[i].Need += d.Copies
		}
	}
	for species := range place {
		of[species] = job.Of(species)
	}
	var yields []Yield
	var broken error
	for _, e := range job.Rack.Entries() {
		i, ok := place[e.Species]
		if !ok {
			continue
		}
		alone := of[e.Species]
		if e.Ready {
			alone.Rack = rack.Rack{Strips: []rack.Strip{e.Strip()}}
		} else {
			alone.Rack = rack.Rack{Pieces: []rack.Piece{e.Piece}}
		}
		y := Yield{ID: e.ID, AtLeast: true}
		if ctx.Err() == nil {
			plan, err := Plan(ctx, alone, Options{})
			var unfit *cutting.Broken
			switch {
			case errors.As(err, &unfit): // nothing is known of it
				broken = cmp.Or(broken, err)
			case err != nil:
				return nil, nil, err
			default:
				broken = cmp.Or(broken, plan.Broken)
				y.Strips = supplies[i].Need - plan.Short
				y.AtLeast = plan.Claim().Sure != cutting.Least && plan.Short > 0
			}
		}
		yields = append(yields, y)
		supplies[i].Have += y.Strips
		supplies[i].AtLeast = supplies[i].AtLeast || y.AtLeast
	}
	return supplies, yields, broken
}
