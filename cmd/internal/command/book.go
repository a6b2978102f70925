package command

import (
	"slices"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

// MayBook refuses what cannot be booked before any search begins.
func (w Workshop) MayBook(saved []store.Saved) error {
	if w.Flags.Rack != "" {
		return failure.Usage("leave --rack out, or import that rack first", "--book changes the rack of your home, and --rack uses another instead")
	}
	for _, s := range saved {
		if !w.Home.Owns(s) {
			return failure.Usage("copy it into the folder patterns of your home", "--book writes into patterns of your home, and %s is not one", s.File)
		}
	}
	return nil
}

// BookedBefore reports whether a booking of all these patterns was left to finish when
// the command began. Whoever was told that it failed, or saw nothing of it, repeats it:
// that must not make it twice.
func (w Workshop) BookedBefore(saved []store.Saved) bool {
	for _, s := range saved {
		if !slices.Contains(w.Mended.Files, store.PatternName(s.Stem)) {
			return false
		}
	}
	w.Message("oddments: not booked again: the booking that was cut short counts now; repeat the command to book one more\n")
	return true
}

// Book books plan as done: its pieces leave the rack, what goes back lies on it with
// new ids, and the patterns say that they were made. All files change together, or
// none does.
func (w Workshop) Book(job cutting.Job, plan cutting.Plan, saved []store.Saved) error {
	if plan.Short > 0 {
		w.Message("oddments: not booked: strips are missing\n")
		return nil
	}
	now, base, err := w.Home.Rack(w.Table)
	if err == nil && !now.Equal(job.Rack) {
		err = store.ErrChanged
	}
	if err != nil {
		return err
	}
	next, booked, err := booking.Book(job, plan, w.Today(), rack.NewLookup(w.Table, job.Rack.Species()).Letters)
	if err != nil {
		return err
	}
	change, err := store.RackChange(next, base)
	if err != nil {
		return err
	}
	changes := []store.Change{change}
	for _, b := range booked {
		for _, s := range saved {
			if s.Stem != b.Stem {
				continue
			}
			s.Pattern.Made = b.Pattern.Made // its strips may have got what the pieces are
			if change, err = store.PatternChange(b.Stem, s.Pattern, s.Version); err != nil {
				return err
			}
			changes = append(changes, change)
		}
	}
	w.Writes()
	_, err = w.Home.SaveTogether(changes...)
	if err = w.Done(w.Home, err); err == nil {
		for _, b := range booked { // no plan of theirs is to be worked on
			_ = w.Home.KeepTicks(b.Stem, store.Ticks{})
		}
		w.Fact("booked", "timber off the rack, offcuts back on it, batch noted in each pattern; the files before are kept as .bak")
	}
	return err
}
