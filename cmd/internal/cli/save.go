package cli

import (
	"errors"
	"reflect"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

// unchangedPattern and unchangedRack say behind a refusal that nothing was written.
const (
	unchangedPattern = "the pattern is as it was"
	unchangedRack    = "the rack is as it was"
)

// done takes note of what came of writing into the home, and lets go of it.
func (a *app) done(home *store.Home, err error) error { return errors.Join(a.wrote(err), home.Close()) }

// keepPattern saves p in the place of what was read, the one before kept as .bak, and says
// where.
func (w workshop) keepPattern(was store.Saved, p pattern.Pattern) error {
	if reflect.DeepEqual(p, was.Pattern) {
		w.fact("saved", "nothing, it is as it was")
		return nil
	}
	_, err := w.savePattern(was, p)
	if err == nil {
		w.sayReplaced("saved", was.File)
	}
	return err
}

// sayReplaced says that a file was written and the one before it kept.
func (a *app) sayReplaced(how, file string) {
	a.fact(how, "%s, and what it was before as .bak beside it", file)
}

// savePattern saves p as keepPattern does, and returns the version that lies there now.
func (w workshop) savePattern(was store.Saved, p pattern.Pattern) (store.Version, error) {
	w.writes()
	if !w.home.Owns(was) {
		version, err := store.SavePatternFile(was.File, p, was.Version)
		return version, w.wrote(err)
	}
	version, err := w.home.SavePattern(was.Stem, p, was.Version)
	return version, w.done(w.home, err)
}

// keepFlags say which of what was found is to be saved.
type keepFlags struct {
	name string
	take int
}

// add puts them on a command that finds things called what.
func (f *keepFlags) add(to *pflag.FlagSet, what string) {
	to.StringVar(&f.name, "save", "", "save the first "+what+" as a pattern of this `NAME`")
	typed.Flag(to, &f.take, "take", "N", "", typed.Count(mostLayouts), "with --save: the number of the "+what+" to save; else the first")
}

// check looks whether one of so many can be taken.
func (f *keepFlags) check(cmd *cobra.Command, most int) error {
	switch {
	case cmd.Flags().Changed("save") && f.name == "":
		return failure.Usage(`write it like --save "Hearth trivet"`, "--save needs a name")
	case f.take > 0 && f.name == "":
		return failure.Usage(`write it like --save "Hearth trivet" --take 2`, "--take has no effect without --save")
	case f.take > most:
		return failure.Usage("ask for more, or take one of those", "--take %d: there will be at most %d", f.take, most)
	case f.name == "":
		return nil
	}
	if _, err := edit.SetName(edit.State{}, f.name); err != nil {
		return failure.Usage("", "--save: %v", err)
	}
	return nil
}

// keep saves the pattern of found, things called what, that the flags say.
func (w workshop) keep(f keepFlags, what string, found []pattern.Pattern) error {
	if f.name == "" || len(found) == 0 {
		return nil
	}
	take := max(f.take, 1)
	if take > len(found) {
		return failure.New(failure.CodeNotFound, "", "there is no %s %d to save: there are %d", what, take, len(found))
	}
	p := found[take-1]
	p.Name = f.name
	stem, err := w.home.FreeStem(f.name)
	if err != nil {
		return err
	}
	_, err = w.home.SavePattern(stem, p, store.Absent)
	switch err = w.done(w.home, err); {
	case err != nil:
	case what == "": // there was but one
		w.fact("saved", "%s", stem)
	default:
		w.fact("saved", "%s %d as %s", what, take, stem)
	}
	return err
}

// changeRack lets change make a new rack of the home's, and saves and returns it. What change
// refuses is a mistake of the command line.
func (w workshop) changeRack(change func(rack.Rack) (rack.Rack, error)) (rack.Rack, error) {
	before, version, err := w.home.Rack(w.table)
	if err != nil {
		return before, err
	}
	after, err := change(before)
	if err != nil {
		return before, failure.OrUsage(err, unchangedRack)
	}
	return after, w.saveRack(w.home, after, version)
}

// saveRack saves r over the version base, and lets go of the home.
func (a *app) saveRack(home *store.Home, r rack.Rack, base store.Version) error {
	a.writes()
	_, err := home.SaveRack(r, base)
	return a.done(home, err)
}
