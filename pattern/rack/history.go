package rack

// A History is a rack with all that led to it, to undo and redo without limit. It is
// a value: its methods give a new History and leave the old one good, so a model may
// hold it by value and copy it freely. The zero value is an empty rack that is saved.
//
// It keeps whole racks: those of two steps share what did not change but the list of
// entries, which is short.
type History struct {
	now      Rack
	past     *step // what undo takes back, the latest first
	future   *step // what redo does again, the latest undone first
	saved    Rack
	dirty    bool
	revision int
}

// A step is one cell of a list that histories share; it is never written to once it
// is made.
type step struct {
	label         string
	before, after Rack
	next          *step
}

// NewHistory starts at r, which counts as saved.
func NewHistory(r Rack) History { return History{now: r, saved: r} }

// Rack returns the rack as it is now. Only read it.
func (h History) Rack() Rack { return h.now }

// Do makes next the rack, as one undo step named label; what was undone before is
// forgotten. Where next says the same as now there is no step.
func (h History) Do(label string, next Rack) History {
	if h.now.Equal(next) {
		return h
	}
	h.past, h.future = &step{label, h.now, next, h.past}, nil
	return h.moved(next)
}

// Undo takes the last step back. It gives the step's label, or false where there is
// nothing to undo.
func (h History) Undo() (History, string, bool) {
	if h.past == nil {
		return h, "", false
	}
	s := h.past
	h.past, h.future = s.next, &step{s.label, s.before, s.after, h.future}
	return h.moved(s.before), s.label, true
}

// Redo does the step again that was undone last. It gives the step's label, or false
// where there is nothing to redo.
func (h History) Redo() (History, string, bool) {
	if h.future == nil {
		return h, "", false
	}
	s := h.future
	h.past, h.future = &step{s.label, s.before, s.after, h.past}, s.next
	return h.moved(s.after), s.label, true
}

// NextUndo returns the label of the step that Undo would take back.
func (h History) NextUndo() (string, bool) { return h.past.name() }

// NextRedo returns the label of the step that Redo would do again.
func (h History) NextRedo() (string, bool) { return h.future.name() }

// Revision returns a number that is another one after each step, undo and redo. It
// counts up along one line of work.
func (h History) Revision() int { return h.revision }

// MarkSaved says that saved has been written to its file. It need not be the rack of
// now: a save may end after the next step.
func (h History) MarkSaved(saved Rack) History {
	h.saved = saved
	h.dirty = !h.now.Equal(saved)
	return h
}

// Dirty reports whether the rack differs from the one last saved.
func (h History) Dirty() bool { return h.dirty }

func (h History) moved(r Rack) History {
	h.now = r
	h.revision++
	h.dirty = !r.Equal(h.saved)
	return h
}

func (s *step) name() (string, bool) {
	if s == nil {
		return "", false
	}
	return s.label, true
}
