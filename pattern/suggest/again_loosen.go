package suggest

import (
	"context"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
)

// AgainLoosen says by which one condition alone a pattern could be made again. What
// would not do, or was not found out in the time, is nil or 0.
type AgainLoosen struct {
	Level  *pattern.Level // the mildest that would do
	Copies int            // the most, fewer than asked for, that would do
}

// LoosenAgain finds what to loosen where Again found that there is no way.
func LoosenAgain(ctx context.Context, r movement.Physics, a RemakeRequest) AgainLoosen {
	a.Answers = 1
	could := func(a RemakeRequest) bool {
		answer, err := Again(ctx, r, a, Options{})
		return err == nil && len(answer.Answers) > 0
	}
	var out AgainLoosen
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
