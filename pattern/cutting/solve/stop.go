package solve

import "sync/atomic"

// A stopper says when to end.
type stopper struct{ flag *atomic.Bool }

// stopped reports whether work is to end.
func (s stopper) stopped() bool { return s.flag != nil && s.flag.Load() }

// end has the work that s can stop end.
func (s stopper) end() {
	if s.flag != nil {
		s.flag.Store(true)
	}
}
