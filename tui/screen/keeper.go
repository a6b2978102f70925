package screen

import (
	"errors"
	"slices"

	"example.com/oddments/pattern/store"
)

// A Keeper is a screen with changes that it saves by itself: leaving waits for its saves.
type Keeper interface {
	Unsaved() bool                    // there are changes that are in no file
	Saving() bool                     // a save is under way, and Stored will tell of it
	SaveLast(files *store.Home) error // saves them when the screen is gone
}

// Keepers are all of them, as one.
type Keepers []Keeper

// Unsaved reports whether any has changes that are in no file.
func (k Keepers) Unsaved() bool { return slices.ContainsFunc(k, Keeper.Unsaved) }

// Saving reports whether any is being saved.
func (k Keepers) Saving() bool { return slices.ContainsFunc(k, Keeper.Saving) }

// SaveLast saves the changes of all.
func (k Keepers) SaveLast(files *store.Home) (err error) {
	for _, one := range k {
		err = errors.Join(err, one.SaveLast(files))
	}
	return err
}
