package sections

import (
	"context"
	"sync/atomic"
)

// A Stopper says when to end. The zero value never does.
type Stopper struct{ flag *atomic.Bool }

// StopWith returns a stopper that says so once ctx ends; release is called when the work is
// over.
func StopWith(ctx context.Context) (stop Stopper, release func() bool) {
	stop = Stopper{flag: new(atomic.Bool)}
	if ctx.Err() != nil {
		stop.End()
	}
	return stop, context.AfterFunc(ctx, stop.End)
}

// Stopped reports whether work is to end.
func (s Stopper) Stopped() bool { return s.flag != nil && s.flag.Load() }

// End has the work that s can stop end.
func (s Stopper) End() {
	if s.flag != nil {
		s.flag.Store(true)
	}
}
