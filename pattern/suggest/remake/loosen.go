package remake

import (
	"context"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
)

// A Relaxation says by which one condition alone a pattern could be made again. What
// would not do, or was not found out in the time, is nil or 0.
type Relaxation struct {
	Level  *pattern.Level // the mildest that would do
	Copies int            // the most, fewer than asked for, that would do
}

// Loosen finds what to loosen where Again found that there is no way.
func Loosen(ctx context.Context, r movement.Physics, a Request) Relaxation {
	a.Answers = 1
	could := func(a Request) bool {
		answer, err := Again(ctx, r, a, suggest.Options{})
		return err == nil && len(answer.Answers) > 0
	}
	var out Relaxation
	for _, level := range pattern.Levels() {
		with := a
		if with.Level = level; level > a.Level && could(with) {
			out.Level = &level
			break
		}
	}
	// Fewer copies never need more of the rack, so the most is found by halving.
	low, high := 0, a.Copies
	for low+1 < high {
		with := a
		if with.Copies = (low + high) / 2; could(with) {
			low = with.Copies
		} else {
			high = with.Copies
		}
	}
	out.Copies = low
	return out
}
