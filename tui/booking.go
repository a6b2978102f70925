package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
	"example.com/oddments/tui/keymap"
)

// bookingLabel is the name that a booking's undo steps go by, on bench and rack.
const bookingLabel = "booking"

// book books the plan as done: its pieces leave the rack, what goes back lies on it
// with new ids, and the patterns say that they were made. Rack and patterns change
// together.
func (a App) book() (App, tea.Cmd) {
	switch {
	case !a.rack.Own():
		return a.say("the demo rack cannot be booked: type your first piece (rack, " + a.keys.KeyOf(keymap.RackAdd) + ")"), nil
	case a.doc.Stem == "" || a.doc.File != "" || a.doc.Base == store.Absent && a.replaced.Of(a.doc.Document) == nil || a.doc.History.Dirty(): // what a screen opened has its name
		return a.say("save the pattern first: the booking is written into it"), nil
	case a.rack.Saving || a.doc.Saving != nil || a.ticking.Writing():
		return a.say("still saving: press " + a.keys.KeyOf("plan-book") + " again"), nil
	}
	next, booked, err := booking.Book(a.plan.Job, a.plan.Plan, pattern.DateOf(a.now()), a.context().Lookup().Letters)
	if err != nil {
		return a.refuse(err.Error()), nil
	}
	before := map[string]store.Saved{a.doc.Stem: {Pattern: a.state().Pattern, Version: a.doc.Base}}
	for _, w := range a.batch.With {
		before[w.Saved.Stem] = w.Saved
	}
	b := document.Booking{Serial: a.rack.History.Revision(), Rack: next, Version: a.rack.Base}
	for _, p := range booked {
		was := before[p.Stem]
		b.Patterns = append(b.Patterns, document.Booked{Stem: p.Stem, Before: was.Pattern, After: p.Pattern, Version: was.Version})
	}
	return a, a.saveBooking(b)
}

func (a App) saveBooking(b document.Booking) tea.Cmd {
	files := a.files
	return func() tea.Msg { return b.Save(files) }
}

// booked takes the new rack and patterns over.
func (a App) booked(b document.Booking) (App, tea.Cmd) {
	n := len(a.bookings)
	switch {
	case b.Err != nil:
		return a.fail(b.Err), nil
	case b.Undone && (n == 0 || a.bookings[n-1].Serial != b.Serial): // asked for twice
		return a, nil
	}
	a.rack.Base = b.Version
	a.ticking = document.Ticking{} // what is ticked stands in the home now
	if b.Undone {
		a.bookings = slices.Clone(a.bookings[:n-1])
		if n > 1 { // the one before is taken back from what lies there now
			a.bookings[n-2] = a.bookings[n-2].Over(b)
		}
		a.rack.History, _, _ = a.rack.History.Undo()
	} else {
		a.bookings = append(a.bookings[:n:n], b.Back(a.rack.History.Now()))
		a.rack.History = a.rack.History.Do(bookingLabel, b.Rack)
	}
	a.rack.History = a.rack.History.MarkSaved(b.Rack)
	for _, p := range b.Patterns {
		if p.Stem == a.doc.Stem {
			a = a.bookedBench(p, b.Undone)
		}
		a.batch = a.batch.Saved(p.Stem, p.After, p.Version)
	}
	a.plan.Have = false
	a = a.checked().inView().say("booked: timber off the rack, offcuts back on it, batch noted; " + a.keys.KeyOf(keymap.Undo) + " undoes")
	if b.Undone {
		a = a.say("undone: " + bookingLabel)
	}
	return a, a.keepLater() // what is laid aside is in no file
}

// bookedBench takes over what was booked of the pattern on the bench.
func (a App) bookedBench(p document.Booked, undone bool) App {
	next := a.state()
	next.Pattern = p.After
	if undone {
		a.doc.History, _, _ = a.doc.History.Undo()
	} else {
		a.doc.History = a.doc.History.Do(bookingLabel, next)
	}
	a.doc.History = a.doc.History.MarkSaved(next)
	a.doc.Base = p.Version
	return a
}

// lastBooking returns what takes the last booking back, and false where that is not the last
// thing that was done, on the bench and on the rack.
func (a App) lastBooking() (document.Booking, bool) {
	onBench, _ := a.doc.History.NextUndo()
	onRack, _ := a.rack.History.NextUndo()
	n := len(a.bookings)
	if n == 0 || onBench != bookingLabel || onRack != bookingLabel || a.bookings[n-1].Version != a.rack.Base {
		return document.Booking{}, false
	}
	return a.bookings[n-1], true
}
