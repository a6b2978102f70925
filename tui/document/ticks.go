package document

import "example.com/oddments/pattern/store"

// TickFiles is where ticks are kept: the home.
type TickFiles interface {
	KeepTicks(stem string, t store.Ticks) error
	Ticks(stem string) (store.Ticks, error)
}

// A Ticking is what is done of the steps of a plan, and whether it is being kept. The zero
// value knows of nothing: what there is stands in the home.
type Ticking struct {
	stem   string
	now    store.Ticks
	writes bool // it is being written
	behind bool // what is written is not the last
}

// A TickedMsg says how keeping ticks went.
type TickedMsg struct{ Err error }

// Done returns which steps of a plan, which is known by plan, are done.
func (t Ticking) Done(files TickFiles, stem, plan string) ([]int, error) {
	now := t.now
	if t.stem != stem {
		var err error
		if now, err = files.Ticks(stem); err != nil {
			return nil, err
		}
	}
	if now.Plan != plan {
		return nil, nil
	}
	return now.Done, nil
}

// Tick takes over which steps are done, and returns what keeps that. One is written at a
// time, so that the last stays; nil: one is being written.
func (t Ticking) Tick(files TickFiles, stem string, now store.Ticks) (Ticking, func() TickedMsg) {
	t.stem, t.now, t.behind = stem, now, t.writes
	if t.writes {
		return t, nil
	}
	t.writes = true
	return t, func() TickedMsg { return TickedMsg{files.KeepTicks(stem, now)} }
}

// Took returns what is done once it was kept, and what keeps the rest.
func (t Ticking) Took(files TickFiles, m TickedMsg) (Ticking, func() TickedMsg) {
	t.writes = false
	if m.Err == nil && t.behind {
		return t.Tick(files, t.stem, t.now)
	}
	return t, nil
}

// Writing reports whether ticks are being kept.
func (t Ticking) Writing() bool { return t.writes }

// Last keeps what may not have been kept when the program ends.
func (t Ticking) Last(files TickFiles) error {
	if !t.writes {
		return nil
	}
	return files.KeepTicks(t.stem, t.now)
}
