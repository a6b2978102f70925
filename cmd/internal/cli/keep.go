package cli

import (
	"errors"
	"reflect"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/store"
)

// openOne reads the workshop, and the pattern that arg names.
func (a *app) openOne(arg string) (workshop, store.Saved, error) {
	w, err := a.workshop()
	if err != nil {
		return w, store.Saved{}, err
	}
	saved, err := w.home.OpenPattern(arg, w.known)
	return w, saved, err
}

// keepPattern saves p in the place of what saved was read as, the one before kept as
// .bak, and says where.
func (a *app) keepPattern(w workshop, saved store.Saved, p pattern.Pattern) error {
	if reflect.DeepEqual(p, saved.Pattern) {
		if !a.json {
			a.say("saved: nothing, it is as it was")
		}
		return nil
	}
	_, err := a.savePattern(w, saved, p)
	if err == nil && !a.json {
		a.say("saved: %s, and what it was before as .bak beside it", saved.File)
	}
	return err
}

// savePattern saves p as keepPattern does, and gives the version that lies there now.
func (a *app) savePattern(w workshop, saved store.Saved, p pattern.Pattern) (store.Version, error) {
	a.writes()
	if !w.home.Owns(saved) {
		version, err := store.SavePatternFile(saved.File, p, saved.Version)
		return version, a.wrote(err)
	}
	version, err := w.home.SavePattern(saved.Stem, p, saved.Version)
	return version, errors.Join(a.wrote(err), w.home.Close())
}

// today returns the day that it is where the program runs.
func (a *app) today() pattern.Date {
	return pattern.DateOf(a.now())
}
