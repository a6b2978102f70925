package document

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

// A Booking is a change of the rack and of patterns that is saved as a whole: that of a plan
// that was done at the bench, or what takes it back.
type Booking struct {
	Serial   int // of the change; what takes it back has the same
	Rack     rack.Rack
	Version  store.Version // of the rack's file: the one below, then the one that was written
	Patterns []Booked
	Undone   bool // it takes another back
	Err      error
}

// A Booked is a pattern in a booking.
type Booked struct {
	Stem          string
	Before, After pattern.Pattern
	Version       store.Version // as that of the rack
	Ticks         store.Ticks   // on the steps of its plan: those to be kept, then those that were
}

// Save returns the booking saved over the versions below it, or with the error that nothing
// of it could be. The ticks on the steps of plans that are booked are swapped for those of
// the booking: none, or what was there where it takes one back. No save depends on that, for
// ticks of a plan that is gone are never shown.
func (b Booking) Save(files *store.Home) Booking {
	change, err := store.RackChange(b.Rack, b.Version)
	changes := []store.Change{change}
	for _, p := range b.Patterns {
		if err == nil {
			change, err = store.PatternChange(p.Stem, p.After, p.Version)
			changes = append(changes, change)
		}
	}
	var versions []store.Version
	if err == nil {
		versions, err = files.SaveTogether(changes...)
	}
	if b.Err = err; err != nil {
		return b
	}
	b.Version, b.Patterns = versions[0], slices.Clone(b.Patterns)
	for i := range b.Patterns {
		p := &b.Patterns[i]
		p.Version = versions[1+i]
		were, _ := files.Ticks(p.Stem)
		_ = files.KeepTicks(p.Stem, p.Ticks)
		p.Ticks = were
	}
	return b
}

// Back returns what takes a booking back that was saved, to the rack before it.
func (b Booking) Back(before rack.Rack) Booking {
	back := Booking{Serial: b.Serial, Rack: before, Version: b.Version, Undone: true}
	for _, p := range b.Patterns {
		back.Patterns = append(back.Patterns, Booked{p.Stem, p.After, p.Before, p.Version, p.Ticks})
	}
	return back
}

// Over returns b over the versions that another booking wrote.
func (b Booking) Over(written Booking) Booking {
	b.Version, b.Patterns = written.Version, slices.Clone(b.Patterns)
	for i, p := range b.Patterns {
		for _, w := range written.Patterns {
			if w.Stem == p.Stem {
				b.Patterns[i].Version = w.Version
			}
		}
	}
	return b
}
