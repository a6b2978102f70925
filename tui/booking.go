package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
)

// bookingLabel is the name that a booking's undo steps go by, on bench and rack.
const bookingLabel = "booking"

// A lastBooking is what was booked last, for its undo: rack and patterns as they were, and
// the versions that lie there now.
type lastBooking struct {
	rack        rack.Rack
	rackVersion store.Version
	patterns    []bookedPattern
}

type bookedPattern struct {
	stem          string
	before, after pattern.Pattern
	version       store.Version
}

// A bookedMsg says how a booking, or the undo of one, went.
type bookedMsg struct {
	rack     rack.Rack
	patterns []bookedPattern // version is not set yet
	versions []store.Version // of the rack, then of the patterns
	undone   bool
	err      error
}

// book books the plan as done: its pieces leave the rack, what goes back lies on it
// with new ids, and the patterns say that they were made. Rack and patterns change
// together.
func (a App) book() (App, tea.Cmd) {
	switch {
	case a.racks.demo || a.racks.file != "":
		return a.say("only your own rack is booked; " + a.keys.KeyOf(keymap.RackAdd) + " on the rack begins it"), nil
	case a.doc.Stem == "" || a.doc.File != "" || a.doc.Base == store.Absent || a.doc.History.Dirty():
		return a.say("save the pattern first: the booking is written into it"), nil
	case a.racks.saving || a.doc.Saving != nil:
		return a.say("a save is under way: press " + a.keys.KeyOf("plan-book") + " again"), nil
	}
	year, month, day := a.now().Date()
	next, booked, err := booking.Book(a.plan.Job, a.plan.Plan, pattern.Date{Year: year, Month: month, Day: day}, a.context().Lookup().Letters)
	if err != nil {
		return a.refuse(err.Error()), nil
	}
	before := map[string]store.Saved{a.doc.Stem: {Pattern: a.state().Pattern, Version: a.doc.Base}}
	for _, w := range a.batch.With {
		before[w.Saved.Stem] = w.Saved
	}
	m := bookedMsg{rack: next}
	bases := []store.Version{a.racks.base}
	for _, b := range booked {
		m.patterns = append(m.patterns, bookedPattern{stem: b.Stem, before: before[b.Stem].Pattern, after: b.Pattern})
		bases = append(bases, before[b.Stem].Version)
	}
	return a, a.saveBooking(m, bases)
}

// saveBooking saves the rack and the patterns of m together, over the versions bases.
func (a App) saveBooking(m bookedMsg, bases []store.Version) tea.Cmd {
	files := a.files
	return func() tea.Msg {
		change, err := store.RackChange(m.rack, bases[0])
		changes := []store.Change{change}
		for i, p := range m.patterns {
			if err == nil {
				change, err = store.PatternChange(p.stem, p.after, bases[1+i])
				changes = append(changes, change)
			}
		}
		if err == nil {
			m.versions, err = files.SaveTogether(changes...)
		}
		m.err = err
		return m
	}
}

// booked takes the new rack and patterns over.
func (a App) booked(m bookedMsg) (App, tea.Cmd) {
	if m.err != nil {
		return a.fail(m.err), nil
	}
	last := lastBooking{rack: a.racks.history.Now(), rackVersion: m.versions[0]}
	a.racks.base = m.versions[0]
	if m.undone {
		a.racks.history, _, _ = a.racks.history.Undo()
		a.racks.history = a.racks.history.MarkSaved(m.rack)
	} else {
		a.racks.history = a.racks.history.Do(bookingLabel, m.rack).MarkSaved(m.rack)
	}
	for i, p := range m.patterns {
		p.version = m.versions[1+i]
		last.patterns = append(last.patterns, p)
		if p.stem == a.doc.Stem {
			a = a.bookedBench(p, m.undone)
		}
		a.batch = a.batch.Saved(p.stem, p.after, p.version)
	}
	a.plan.Have = false
	a.lastBooking = last
	a = a.checked().inView().say("booked: the rack has what went back, and the pattern says that it was made")
	if m.undone {
		a = a.say("taken back: " + bookingLabel)
	}
	return a, a.keepLater() // what is laid aside is in no file
}

// bookedBench takes over what was booked of the pattern on the bench.
func (a App) bookedBench(p bookedPattern, undone bool) App {
	next := a.state()
	next.Pattern = p.after
	if undone {
		a.doc.History, _, _ = a.doc.History.Undo()
	} else {
		a.doc.History = a.doc.History.Do(bookingLabel, next)
	}
	a.doc.History = a.doc.History.MarkSaved(next)
	a.doc.Base = p.version
	return a
}

// bookingIsLast reports whether a booking is the last thing that was done, on the bench
// and on the rack.
func (a App) bookingIsLast() bool {
	onBench, _ := a.doc.History.NextUndo()
	onRack, _ := a.racks.history.NextUndo()
	return onBench == bookingLabel && onRack == bookingLabel && a.lastBooking.rackVersion == a.racks.base
}

// unbook takes the last booking back as a whole: rack and patterns together.
func (a App) unbook() (App, tea.Cmd) {
	last := a.lastBooking
	m := bookedMsg{rack: last.rack, undone: true}
	bases := []store.Version{last.rackVersion}
	for _, p := range last.patterns {
		m.patterns = append(m.patterns, bookedPattern{stem: p.stem, before: p.after, after: p.before})
		bases = append(bases, p.version)
	}
	return a, a.saveBooking(m, bases)
}
