package cli

import (
	"errors"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

// home returns the maker's folder; it need not exist.
func (a *app) home() (*store.Home, error) {
	dir, err := store.ResolveHome(a.flags.home, a.env.Getenv("ODDMENTS_HOME"))
	if err != nil {
		return nil, &problem{Code: codeIO, Message: err.Error(), Hint: "say with --home DIR, or in ODDMENTS_HOME, where your files are to lie"}
	}
	return store.OpenHome(dir), nil
}

// table reads the timbers: the built-in ones with the maker's own over them.
func table(home *store.Home) (*species.Table, error) {
	all, err := home.Species()
	if err == nil {
		return all, nil
	}
	var whole *store.Error
	if _, _, unread := home.Timbers(); unread == nil && errors.As(err, &whole) {
		// The file reads well, and its timbers do not go with the built-in ones.
		return nil, &problem{Code: codeBadFile, File: whole.File, Message: whole.Err.Error()}
	}
	return nil, err
}

// readShop reads the workshop that the flags name, else the home's. The second
// result says whether there was a file.
func (a *app) readShop(home *store.Home) (shop.Shop, bool, error) {
	if a.flags.shop != "" {
		s, err := store.OpenShop(a.flags.shop)
		return s, true, err
	}
	s, version, err := home.Shop()
	return s, version != store.Absent, err
}

// A workshop is what patterns are computed with.
type workshop struct {
	home  *store.Home
	known func(string) bool // which species there are
	table *species.Table
	shop  shop.Shop
	own   bool // the shop is from a file
	// mended is what was left to finish of a booking that was cut short.
	mended store.Mended
}

// workshop reads the timbers and the shop, and tells of all that is wrong in both. A
// booking that was stopped half way is finished first, and told of.
func (a *app) workshop() (workshop, error) {
	home, err := a.home()
	if err != nil {
		return workshop{}, err
	}
	w := workshop{home: home}
	mended, err := w.home.Mend()
	if err != nil {
		return w, errors.Join(err, w.home.Close())
	}
	if !mended.None() {
		w.mended = mended
		a.message("oddments: %s\n", visible(mended.String()))
		if err := w.home.Close(); err != nil {
			return w, err
		}
	}
	var tableErr, shopErr error
	if w.table, tableErr = table(w.home); tableErr == nil {
		w.known = store.Known(w.table)
	}
	w.shop, w.own, shopErr = a.readShop(w.home)
	return w, errors.Join(tableErr, shopErr)
}

func (w workshop) physics() movement.Physics { return movement.New(w.table, w.shop) }

// unit returns the unit of plain text.
func (a *app) unit(s shop.Shop) length.Unit {
	if a.flags.units.unit != nil {
		return *a.flags.units.unit
	}
	return s.Units
}
