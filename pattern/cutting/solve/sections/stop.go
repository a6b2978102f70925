package sections

import "sync/atomic"

// A Stopper says when to end.
type Stopper struct{ Flag *atomic.Bool }

// Stopped reports whether work is to end.
func (s Stopper) Stopped() bool { return s.Flag != nil && s.Flag.Load() }

// End has the work that s can stop end.
func (s Stopper) End() {
	if s.Flag != nil {
		s.Flag.Store(true)
	}
}
