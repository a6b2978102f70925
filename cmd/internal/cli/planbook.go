package cli

import (
	"errors"
	"slices"

	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

// mayBook refuses what cannot be booked before any search begins.
func (a *app) mayBook(w workshop, saved []store.Saved) error {
	if a.flags.rack != "" {
		return usage("leave --rack out, or import that rack first", "--book changes the rack of your home, and --rack stands in for it")
	}
	for _, s := range saved {
		if !w.home.Owns(s) {
			return usage("copy it into the folder patterns of your home", "--book writes into patterns of your home, and %s is not one", s.File)
		}
	}
	return nil
}

// bookedBefore reports whether a booking of all these patterns was left to finish when
// the command began. Whoever was told that it failed, or saw nothing of it, repeats it:
// that must not make it twice.
func (a *app) bookedBefore(w workshop, saved []store.Saved) bool {
	for _, s := range saved {
		if !slices.Contains(w.mended.Files, store.PatternName(s.Stem)) {
			return false
		}
	}
	a.message("oddments: not booked again: the booking that was cut short is the one that stands now; repeat the command to book one more\n")
	return true
}

// writeReal returns the strips of the patterns the moisture and the rings of the pieces
// that plan cuts the first copies from, and gives the patterns as they are now.
func (a *app) writeReal(w workshop, job cutting.Job, plan cutting.Plan, saved []store.Saved) ([]store.Saved, error) {
	for i, s := range saved {
		real, changed := booking.Real(job, plan, s.Stem, 1)
		if len(changed) == 0 {
			if !a.json {
				a.say("real, %s: the strips have readings and rings already, or their pieces have none", s.Stem)
			}
			continue
		}
		version, err := a.savePattern(w, s, real)
		if err != nil {
			return saved, err
		}
		saved[i].Pattern, saved[i].Version = real, version
		if a.json {
			continue
		}
		for _, c := range changed {
			a.say("real, %s, %v", s.Stem, c)
		}
		a.say("saved: %s, and what it was before as .bak beside it", s.File)
	}
	return saved, nil
}

// book books plan as done: its pieces leave the rack, what goes back lies on it with
// new ids, and the patterns say that they were made. All files change together, or
// none does.
func (a *app) book(w workshop, job cutting.Job, plan cutting.Plan, saved []store.Saved) error {
	if plan.Short > 0 {
		a.message("oddments: not booked: strips are short, and a plan is booked when all of it can be made\n")
		return nil
	}
	now, base, err := w.home.Rack(w.known)
	if err == nil && !now.Equal(job.Rack) {
		err = store.ErrChanged
	}
	if err != nil {
		return err
	}
	next, booked, err := booking.Book(job, plan, a.today(), rack.NewLookup(w.table, job.Rack.Species()).Letters)
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
	a.writes()
	_, err = w.home.SaveTogether(changes...)
	if err = errors.Join(a.wrote(err), w.home.Close()); err == nil && !a.json {
		a.say("booked: the rack has what goes back, and each pattern says that it was made; the files before are kept as .bak")
	}
	return err
}
