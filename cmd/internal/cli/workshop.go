package cli

import (
	"cmp"
	"errors"
	"strconv"
	"strings"
	"time"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
	"example.com/oddments/species"
)

// home returns the maker's folder; it need not exist.
func (a *app) home() (*store.Home, error) {
	dir, err := store.ResolveHome(a.flags.home, a.env.Getenv("ODDMENTS_HOME"))
	if err != nil {
		return nil, failure.New(failure.CodeIO, "say with --home DIR, or in ODDMENTS_HOME, where your files are to lie", "%v", err)
	}
	return store.OpenHome(dir), nil
}

// timbersOf reads the timbers: the built-in ones with the maker's own over them.
func timbersOf(home *store.Home) (*species.Table, error) {
	all, err := home.Species()
	if err == nil {
		return all, nil
	}
	var whole *store.Error
	if _, _, unread := home.Timbers(); unread == nil && errors.As(err, &whole) {
		// The file reads well, and its timbers do not go with the built-in ones.
		return nil, &failure.Problem{Code: failure.CodeBadFile, File: whole.File, Message: whole.Err.Error()}
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
	*app
	home  *store.Home
	table *species.Table
	shop  shop.Shop
	own   bool        // the shop is from a file
	unit  length.Unit // of plain text
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
	w := workshop{app: a, home: home}
	mended, err := w.home.Mend()
	if err != nil {
		return w, errors.Join(err, w.home.Close())
	}
	if !mended.None() {
		w.mended = mended
		a.message("oddments: %s\n", failure.Visible(mended.String()))
		if err := w.home.Close(); err != nil {
			return w, err
		}
	}
	var tableErr, shopErr error
	w.table, tableErr = timbersOf(w.home)
	w.shop, w.own, shopErr = a.readShop(w.home)
	w.unit = *cmp.Or(a.flags.units, &w.shop.Units)
	return w, errors.Join(tableErr, shopErr)
}

func (w workshop) physics() movement.Physics { return movement.New(w.table, w.shop) }

// today returns the day that it is where the program runs.
func (a *app) today() pattern.Date { return pattern.DateOf(a.now()) }

// open reads the pattern that arg names.
func (w workshop) open(arg string) (store.Saved, error) { return w.home.OpenPattern(arg, w.table) }

// openAll reads the patterns of args. Two of one stem are wrong usage: nobody could
// tell them apart in what is printed. The hint says what to do instead.
func (w workshop) openAll(args []string, hint string) ([]store.Listed, error) {
	all := make([]store.Listed, len(args))
	first := map[string]string{}
	for i, arg := range args {
		all[i].Saved, all[i].Err = w.open(arg)
		stem := all[i].Stem
		switch other, twice := first[stem]; {
		case twice && other == arg:
			return nil, failure.Usage(hint, "%q is named twice", arg)
		case twice:
			return nil, failure.Usage(hint, "%q and %q are both called %s", other, arg, failure.Visible(stem))
		}
		first[stem] = arg
	}
	return all, nil
}

// maxCopies is the most that a pattern may be made at a time.
const maxCopies = 10_000

// withCopies takes =N off the end of a PATTERN; without it there is one. In the name of a
// file a = may stand where no whole number follows.
func withCopies(arg string) (name string, copies int, err error) {
	at := strings.LastIndexByte(arg, '=')
	if at < 0 || store.IsFile(arg) && (at == len(arg)-1 || strings.Trim(arg[at+1:], "0123456789") != "") {
		return arg, 1, nil
	}
	n, err := strconv.ParseUint(arg[at+1:], 10, 31)
	if err != nil || n < 1 || n > maxCopies {
		return "", 0, failure.Usage("PATTERN=4 is made four times", "%q: the number of copies must be 1 to %d", arg, maxCopies)
	}
	return arg[:at], int(n), nil
}

// jobOf returns the job that args ask for, and its patterns as they were read. All that
// is wrong with the files is told of in one go.
func (w workshop) jobOf(args []string) (cutting.Job, []store.Saved, error) {
	job := cutting.Job{Shop: w.shop}
	names, copies := make([]string, len(args)), make([]int, len(args))
	var err error
	for i, arg := range args {
		if names[i], copies[i], err = withCopies(arg); err != nil {
			return job, nil, err
		}
	}
	all, err := w.openAll(names, "to make one several times name it once, with =4 behind it")
	if err != nil {
		return job, nil, err
	}
	var saved []store.Saved
	var wrong []error
	strips := 0
	for i, one := range all {
		if one.Err != nil {
			wrong = append(wrong, one.Err)
			continue
		}
		strips += copies[i] * len(one.Pattern.Strips)
		saved = append(saved, one.Saved)
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: one.Stem, Pattern: one.Pattern, Copies: copies[i]})
	}
	if strips > mostPlanned {
		return job, nil, failure.Usage("plan it in parts", "%d strips are too many for one plan: must be at most %d", strips, mostPlanned)
	}
	if job.Rack, err = w.readRack(); err != nil {
		wrong = append(wrong, err)
	}
	return job, saved, errors.Join(wrong...)
}

// readRack reads the rack that the flags name, else the home's.
func (w workshop) readRack() (rack.Rack, error) {
	if w.flags.rack != "" {
		return store.OpenRack(w.flags.rack, w.table)
	}
	r, _, err := w.home.Rack(w.table)
	return r, err
}

const (
	planWorkers = 2       // timbers that are planned at a time
	mostPlanned = 100_000 // strips in one plan: each takes memory before any search begins

	// printReserve is kept of the time that a search may take, for what is printed after it.
	printReserve = 100 * time.Millisecond
)

// name returns the name of a timber, or its key.
func (w workshop) name(key string) string {
	if s, ok := w.table.Get(key); ok {
		return s.Name
	}
	return key
}

// job lays the products of a pattern that is to be made so often.
func (w workshop) job(saved store.Saved, copies int) (work.Job, error) {
	job, err := work.JobOf(saved.Pattern, copies, w.shop)
	var wrongs outline.Wrongs
	if !errors.As(err, &wrongs) {
		return job, err
	}
	var all []error
	for _, w := range wrongs {
		all = append(all, &failure.Problem{Code: failure.CodeBadFile, File: saved.File, Field: w.Of, Message: w.Text})
	}
	return work.Job{}, errors.Join(all...)
}
