package edit

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/history"
)

// A History is a State with all that led to it. Undo chooses the strip that was chosen
// before the step; choosing another strip is none. The tray is in no file, so it does not
// count for what is saved.
type History = history.Of[State]

// NewHistory starts at s, which counts as saved. What is not saved yet is started
// from New(pattern.Pattern{}) and done as the first step.
func NewHistory(s State) History { return history.New(s) }

// SavedAs reports whether s and saved have the same pattern, for a History.
func (s State) SavedAs(saved State) bool { return samePattern(s.Pattern, saved.Pattern) }

// Step returns how to come from next to s and back, for a History. It keeps what differs
// and not whole patterns, so a long afternoon on a wide panel costs little.
func (s State) Step(next State) (undo, redo func(State) State) {
	strips, tray := difference(s.Pattern.Strips, next.Pattern.Strips), difference(s.Tray, next.Tray)
	before, after := bare(s), bare(next)
	undo = func(now State) State {
		s := before
		s.Pattern.Strips, s.Tray = strips.undo(now.Pattern.Strips), tray.undo(now.Tray)
		return s
	}
	redo = func(now State) State {
		s := after
		s.Pattern.Strips, s.Tray = strips.redo(now.Pattern.Strips), tray.redo(now.Tray)
		return s
	}
	return undo, redo
}

// A swap is the stretch in which two rows of strips differ.
type swap struct {
	at      int
	out, in []pattern.Strip
}

// bare returns s without the rows that a step keeps the difference of.
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
