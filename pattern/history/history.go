// Package history undoes and redoes, without limit, what was made of a value step by step.
package history

// A Value is what may have a history.
type Value[T any] interface {
	// Alike reports whether there is nothing to undo between it and other.
	Alike(other T) bool
	// SavedAs reports whether a file with saved in it has all of it that files keep.
	SavedAs(saved T) bool
	// Step returns what makes it of next again, and next of it. Either is given what the
	// other has made.
	Step(next T) (undo, redo func(T) T)
}

// Of is a T with all that led to it. It is a value: its methods give a new one and leave
// the old one good, so a model may hold it by value and copy it freely. Of the zero value
// the T is its zero value, and saved.
type Of[T Value[T]] struct {
	now, saved   T
	past, future *step[T] // what undo takes back and redo does again, the latest first
	dirty        bool
	revision     int
}

// A step is one cell of a list that histories share; it is never written to once it is
// made.
type step[T any] struct {
	label      string
	undo, redo func(T) T
	next       *step[T]
}

// New starts at now, which counts as saved.
func New[T Value[T]](now T) Of[T] { return Of[T]{now: now, saved: now} }

// Now returns the value as it is now. Only read it.
func (h Of[T]) Now() T { return h.now }

// Do makes next the value, as one undo step named label; what was undone before is
// forgotten. Where next is alike there is no step.
func (h Of[T]) Do(label string, next T) Of[T] {
	if h.now.Alike(next) {
		h.now = next
		return h
	}
	undo, redo := h.now.Step(next)
	h.past, h.future = &step[T]{label, undo, redo, h.past}, nil
	return h.moved(next)
}

// Undo takes the last step back. It gives the step's label, or false where there is
// nothing to undo.
func (h Of[T]) Undo() (Of[T], string, bool) {
	s := h.past
	if s == nil {
		return h, "", false
	}
	h.past, h.future = s.next, &step[T]{s.label, s.undo, s.redo, h.future}
	return h.moved(s.undo(h.now)), s.label, true
}

// Redo does the step again that was undone last. It gives the step's label, or false
// where there is nothing to redo.
func (h Of[T]) Redo() (Of[T], string, bool) {
	s := h.future
	if s == nil {
		return h, "", false
	}
	h.past, h.future = &step[T]{s.label, s.undo, s.redo, h.past}, s.next
	return h.moved(s.redo(h.now)), s.label, true
}

// NextUndo returns the label of the step that Undo would take back.
func (h Of[T]) NextUndo() (string, bool) { return h.past.name() }

// NextRedo returns the label of the step that Redo would do again.
func (h Of[T]) NextRedo() (string, bool) { return h.future.name() }

// Revision returns a number that is another one after each step, undo and redo. It counts
// up along one line of work.
func (h Of[T]) Revision() int { return h.revision }

// MarkSaved says that saved has been written to its file. It need not be the value of
// now: a save may end after the next step.
func (h Of[T]) MarkSaved(saved T) Of[T] {
	h.saved = saved
	h.dirty = !h.now.SavedAs(saved)
	return h
}

// Dirty reports whether the value differs from the one last saved.
func (h Of[T]) Dirty() bool { return h.dirty }

func (h Of[T]) moved(next T) Of[T] {
	h.now = next
	h.revision++
	h.dirty = !next.SavedAs(h.saved)
	return h
}

func (s *step[T]) name() (string, bool) {
	if s == nil {
		return "", false
	}
	return s.label, true
}
