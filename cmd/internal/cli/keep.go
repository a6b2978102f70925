package cli

import (
	"errors"
	"time"

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
	var err error
	if w.home.Owns(saved) {
		_, err = w.home.SavePattern(saved.Stem, p, saved.Version)
		err = errors.Join(err, w.home.Close())
	} else {
		_, err = store.SavePatternFile(saved.File, p, saved.Version)
	}
	if err == nil && !a.json {
		a.say("saved: %s, and what it was before as .bak beside it", saved.File)
	}
	return err
}

// today gives the day that it is where the program runs.
func (a *app) today() pattern.Date {
	if a.env.Now == nil {
		return pattern.DateOf(time.Now())
	}
	return pattern.DateOf(a.env.Now())
}
