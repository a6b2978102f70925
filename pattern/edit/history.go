package edit

import "example.com/oddments/pattern"

// A History is a State with all that led to it, to undo and redo without limit. It
// is a value: its methods give a new History and leave the old one good, so a model
// may hold it by value and copy it freely. The zero value is an empty draft that is
// saved.
//
// It keeps what each step changed and not whole patterns, so a long afternoon on a
// wide panel costs little.
type History struct {
	now      State
	past     *link // what undo takes back, the latest first
	future   *link // what redo does again, the latest undone first
	saved    pattern.Pattern
	dirty    bool
	revision int
}

// A link is one cell of a list that histories share; it is never written to once
// it is made.
type link struct {
	entry *entry
	next  *link
}

// An entry is one undo step.
type entry struct {
	label         string
	before, after State // without strips and tray
	strips, tray  swap
}

// A swap is the stretch in which two rows of strips differ.
type swap struct {
	at      int
	out, in []pattern.Strip
}

// NewHistory starts at s, which counts as saved. What is not saved yet is started
// from New(pattern.Pattern{}) and done as the first step.
func NewHistory(s State) History { return History{now: s, saved: s.Pattern} }

// State returns what lies on the bench now.
func (h History) State() State { return h.now }

// Do makes next the State, as one undo step named label; what was undone before is
// forgotten. Where next differs in nothing but the chosen strip, that is chosen and
// there is no step.
func (h History) Do(label string, next State) History {
	if h.now.Alike(next) {
		h.now.Selected = next.Selected
		return h
	}
	e := &entry{
		label:  label,
		before: bare(h.now),
		after:  bare(next),
		strips: difference(h.now.Pattern.Strips, next.Pattern.Strips),
		tray:   difference(h.now.Tray, next.Tray),
	}
	h.past, h.future = &link{e, h.past}, nil
	return h.moved(next)
}

// Undo takes the last step back and chooses the strip that was chosen before it.
// It gives the step's label, or false where there is nothing to undo.
func (h History) Undo() (History, string, bool) {
	if h.past == nil {
		return h, "", false
	}
	e := h.past.entry
	h.past, h.future = h.past.next, &link{e, h.future}
	s := e.before
	s.Pattern.Strips = e.strips.undo(h.now.Pattern.Strips)
	s.Tray = e.tray.undo(h.now.Tray)
	return h.moved(s), e.label, true
}

// Redo does the step again that was undone last. It gives the step's label, or
// false where there is nothing to redo.
func (h History) Redo() (History, string, bool) {
	if h.future == nil {
		return h, "", false
	}
	e := h.future.entry
	h.past, h.future = &link{e, h.past}, h.future.next
	s := e.after
	s.Pattern.Strips = e.strips.redo(h.now.Pattern.Strips)
	s.Tray = e.tray.redo(h.now.Tray)
	return h.moved(s), e.label, true
}

// NextUndo returns the label of the step that Undo would take back.
func (h History) NextUndo() (string, bool) { return h.past.label() }

// NextRedo returns the label of the step that Redo would do again.
func (h History) NextRedo() (string, bool) { return h.future.label() }

// Revision returns a number that is another one after each step, undo and redo, but
// not when only another strip is chosen. It counts up along one line of work.
func (h History) Revision() int { return h.revision }

// MarkSaved says that saved has been written to its file. It need not be the
// pattern of now: a save may end after the next move.
func (h History) MarkSaved(saved pattern.Pattern) History {
	h.saved = saved
	h.dirty = !samePattern(h.now.Pattern, saved)
	return h
}

// Dirty reports whether the pattern differs from the one last saved. The tray is
// in no file and does not count.
func (h History) Dirty() bool { return h.dirty }

// moved returns h with s on the bench.
func (h History) moved(s State) History {
	h.now = s
	h.revision++
	h.dirty = !samePattern(s.Pattern, h.saved)
	return h
}

func (l *link) label() (string, bool) {
	if l == nil {
		return "", false
	}
	return l.entry.label, true
}

// bare returns s without the rows that an entry keeps the difference of.
func bare(s State) State {
	s.Pattern.Strips, s.Tray = nil, nil
	return s
}

// difference returns the shortest single swap that makes after of before. It holds
// copies: a slice of a row would keep the whole row in memory.
func difference(before, after []pattern.Strip) swap {
	if sameStrips(before, after) {
		return swap{}
	}
	least := min(len(before), len(after))
	head := 0
	for head < least && before[head] == after[head] {
		head++
	}
	tail := 0
	for tail < least-head && before[len(before)-1-tail] == after[len(after)-1-tail] {
		tail++
	}
	return swap{
		at:  head,
		out: splice(before[head:len(before)-tail], 0, 0, nil),
		in:  splice(after[head:len(after)-tail], 0, 0, nil),
	}
}

func (w swap) redo(row []pattern.Strip) []pattern.Strip { return exchange(row, w.at, w.out, w.in) }

func (w swap) undo(row []pattern.Strip) []pattern.Strip { return exchange(row, w.at, w.in, w.out) }

// exchange returns row with in where out was; row itself where nothing changes.
func exchange(row []pattern.Strip, at int, out, in []pattern.Strip) []pattern.Strip {
	if len(out) == 0 && len(in) == 0 {
		return row
	}
	return splice(row, at, len(out), in)
}
