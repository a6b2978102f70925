package rack

import "example.com/oddments/pattern/history"

// A History is a rack with all that led to it. It keeps whole racks: those of two steps
// share what did not change but the list of entries, which is short.
type History = history.Of[Rack]

// NewHistory starts at r, which counts as saved.
func NewHistory(r Rack) History { return history.New(r) }

// Alike is Equal, for a History.
func (r Rack) Alike(o Rack) bool { return r.Equal(o) }

// SavedAs is Equal, for a History.
func (r Rack) SavedAs(saved Rack) bool { return r.Equal(saved) }

// Step keeps both racks, for a History.
func (r Rack) Step(next Rack) (undo, redo func(Rack) Rack) {
	return func(Rack) Rack { return r }, func(Rack) Rack { return next }
}
