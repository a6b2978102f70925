package cli

import (
	"errors"

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
	next, booked, err := cutting.Book(job, plan, a.today(), rack.NewLookup(w.table, job.Rack.Species()).Letters)
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
			if change, err = store.PatternChange(b.Stem, b.Pattern, s.Version); err != nil {
				return err
			}
			changes = append(changes, change)
		}
	}
	_, err = w.home.SaveTogether(changes...)
	if err = errors.Join(err, w.home.Close()); err == nil && !a.json {
		a.say("booked: the rack has what goes back, and each pattern says that it was made; the files before are kept as .bak")
	}
	return err
}
