package command

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

// Home returns the maker's folder; it need not exist.
func (a *App) Home() (*store.Home, error) {
	dir, err := store.ResolveHome(a.Flags.home, a.Env.Getenv("ODDMENTS_HOME"))
	if err != nil {
		return nil, failure.New(failure.CodeIO, "set with --home DIR, or in ODDMENTS_HOME, where your files are", "%v", err)
	}
	return store.OpenHome(dir), nil
}

// TimbersOf reads the timbers: the built-in ones with the maker's own over them.
func TimbersOf(home *store.Home) (*species.Table, error) {
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

// ReadShop reads the workshop that the flags name, else the home's; it is store.Absent
// where there is no file.
func (a *App) ReadShop(home *store.Home) (store.ShopFile, store.Version, error) {
	if a.Flags.Shop != "" {
		f, err := store.OpenShopFile(a.Flags.Shop)
		return f, store.Overwrite, err
	}
	return home.ShopFile()
}

// A Workshop is what patterns are computed with.
type Workshop struct {
	*App
	Home  *store.Home
	Table *species.Table
	Shop  shop.Shop
	Own   bool        // the shop is from a file
	Unit  length.Unit // of plain text
	// Mended is what was left to finish of a booking that was cut short.
	Mended store.Mended
}

// Workshop reads the timbers and the shop, and tells of all that is wrong in both. A
// booking that was stopped half way is finished first, and told of.
func (a *App) Workshop() (Workshop, error) {
	home, err := a.Home()
	if err != nil {
		return Workshop{}, err
	}
	w := Workshop{App: a, Home: home}
	mended, err := w.Home.Mend()
	if err != nil {
		return w, errors.Join(err, w.Home.Close())
	}
	if !mended.None() {
		w.Mended = mended
		a.Message("oddments: %s\n", failure.Visible(mended.String()))
		if err := w.Home.Close(); err != nil {
			return w, err
		}
	}
	var tableErr error
	w.Table, tableErr = TimbersOf(w.Home)
	file, version, shopErr := a.ReadShop(w.Home)
	w.Shop, w.Own = file.Shop(), version != store.Absent
	w.Unit = *cmp.Or(a.Flags.Units, &w.Shop.Units)
	return w, errors.Join(tableErr, shopErr)
}

// Demo returns the demo that an empty home is offered, in the demo's workshop where the maker
// has none.
func (w Workshop) Demo() (Workshop, store.Demo, error) {
	demo, err := store.ReadDemo()
	if err == nil && !w.Own {
		w.Shop, w.Unit = demo.Shop, *cmp.Or(w.Flags.Units, &demo.Shop.Units)
	}
	return w, demo, err
}

// Physics returns the model of movement for the timbers in this workshop.
func (w Workshop) Physics() movement.Physics { return movement.New(w.Table, w.Shop) }

// Today returns the day that it is where the program runs.
func (a *App) Today() pattern.Date { return pattern.DateOf(a.now()) }

// Open reads the pattern that arg names.
func (w Workshop) Open(arg string) (store.Saved, error) { return w.Home.OpenPattern(arg, w.Table) }

// OpenAll reads the patterns of args. Two of one stem are wrong usage: nobody could
// tell them apart in what is printed. The hint says what to do instead.
func (w Workshop) OpenAll(args []string, hint string) ([]store.Listed, error) {
	all := make([]store.Listed, len(args))
	first := map[string]string{}
	for i, arg := range args {
		all[i].Saved, all[i].Err = w.Open(arg)
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

// WithCopies takes =N off the end of a PATTERN; without it there is one. In the name of a
// file a = may stand where no whole number follows.
func WithCopies(arg string) (name string, copies int, err error) {
	at := strings.LastIndexByte(arg, '=')
	if at < 0 || store.IsFile(arg) && (at == len(arg)-1 || strings.Trim(arg[at+1:], "0123456789") != "") {
		return arg, 1, nil
	}
	n, err := strconv.ParseUint(arg[at+1:], 10, 31)
	if err != nil || n < 1 || n > maxCopies {
		return "", 0, failure.Usage("write it like PATTERN=4, for 4 copies", "%q: the number of copies must be 1 to %d", arg, maxCopies)
	}
	return arg[:at], int(n), nil
}

// JobOf returns the job that args ask for, and its patterns as they were read. All that
// is wrong with the files is told of in one go.
func (w Workshop) JobOf(args []string) (cutting.Job, []store.Saved, error) {
	job := cutting.Job{Shop: w.Shop}
	names, copies := make([]string, len(args)), make([]int, len(args))
	var err error
	for i, arg := range args {
		if names[i], copies[i], err = WithCopies(arg); err != nil {
			return job, nil, err
		}
	}
	all, err := w.OpenAll(names, "to make one several times name it once, with =4 behind it")
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
	if job.Rack, err = w.ReadRack(); err != nil {
		wrong = append(wrong, err)
	}
	return job, saved, errors.Join(wrong...)
}

// ReadRack reads the rack that the flags name, else the home's.
func (w Workshop) ReadRack() (rack.Rack, error) {
	if w.Flags.Rack != "" {
		return store.OpenRack(w.Flags.Rack, w.Table)
	}
	r, _, err := w.Home.Rack(w.Table)
	return r, err
}

const (
	planWorkers = 2       // timbers that are planned at a time
	mostPlanned = 100_000 // strips in one plan: each takes memory before any search begins

	// PrintReserve is kept of the time that a search may take, for what is printed after it.
	PrintReserve = 100 * time.Millisecond
)

// Name returns the name of a timber, or its key.
func (w Workshop) Name(key string) string {
	if s, ok := w.Table.Get(key); ok {
		return s.Name
	}
	return key
}

// Job lays the products of a pattern that is to be made so often.
func (w Workshop) Job(saved store.Saved, copies int) (work.Job, error) {
	job, err := work.JobOf(w.Physics(), saved.Pattern, copies)
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
