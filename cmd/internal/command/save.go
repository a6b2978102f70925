package command

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

// UnchangedPattern and UnchangedRack say behind a refusal that nothing was written.
const (
	UnchangedPattern = "the pattern is as it was"
	UnchangedRack    = "the rack is as it was"
)

// Done takes note of what came of writing into the home, and lets go of it.
func (a *App) Done(home *store.Home, err error) error { return errors.Join(a.Wrote(err), home.Close()) }

// KeepPattern saves p in the place of what was read, the one before kept as .bak, and says
// where.
func (w Workshop) KeepPattern(was store.Saved, p pattern.Pattern) error {
	if reflect.DeepEqual(p, was.Pattern) {
		w.Fact("saved", "nothing, it is as it was")
		return nil
	}
	_, err := w.SavePattern(was, p)
	if err == nil {
		w.SayReplaced("saved", was.File)
	}
	return err
}

// SayReplaced says that a file was written and the one before it kept.
func (a *App) SayReplaced(how, file string) {
	a.Fact(how, "%s, and what it was before as .bak beside it", file)
}

// SavePattern saves p as keepPattern does, and returns the version that lies there now.
func (w Workshop) SavePattern(was store.Saved, p pattern.Pattern) (store.Version, error) {
	w.Writes()
	if !w.Home.Owns(was) {
		version, err := store.SavePatternFile(was.File, p, was.Version)
		return version, w.Wrote(err)
	}
	version, err := w.Home.SavePattern(was.Stem, p, was.Version)
	return version, w.Done(w.Home, err)
}

// KeepFlags say which of what was found is to be saved.
type KeepFlags struct {
	Name string
	take int
}

// Add puts them on a command that finds things called what.
func (f *KeepFlags) Add(to *pflag.FlagSet, what string, most int) {
	to.StringVar(&f.Name, "save", "", "save the first "+what+" as a pattern of this `NAME`")
	typed.Flag(to, &f.take, "take", "N", "", typed.Count(most), "with --save: the number of the "+what+" to save; else the first")
}

// Check looks whether one of so many can be taken.
func (f *KeepFlags) Check(cmd *cobra.Command, most int) error {
	switch {
	case cmd.Flags().Changed("save") && f.Name == "":
		return failure.Usage(`write it like --save "Hearth trivet"`, "--save needs a name")
	case f.take > 0 && f.Name == "":
		return failure.Usage(`write it like --save "Hearth trivet" --take 2`, "--take has no effect without --save")
	case f.take > most:
		return failure.Usage("ask for more, or take one of those", "--take %d: there will be at most %d", f.take, most)
	case f.Name == "":
		return nil
	}
	if _, err := edit.SetName(edit.State{}, f.Name); err != nil {
		return failure.Usage("", "--save: %v", err)
	}
	return nil
}

// Keep saves the pattern of found, things called what, that the flags say.
func (w Workshop) Keep(f KeepFlags, what string, found []pattern.Pattern) error {
	if f.Name == "" || len(found) == 0 {
		return nil
	}
	take := max(f.take, 1)
	if take > len(found) {
		return failure.New(failure.CodeNotFound, "", "there is no %s %d to save: there are %d", what, take, len(found))
	}
	p := found[take-1]
	p.Name = f.Name
	stem, err := w.Home.FreeStem(f.Name)
	if err != nil {
		return err
	}
	_, err = w.Home.SavePattern(stem, p, store.Absent)
	switch err = w.Done(w.Home, err); {
	case err != nil:
	case what == "": // there was but one
		w.Fact("saved", "%s", stem)
	default:
		w.Fact("saved", "%s %d as %s", what, take, stem)
	}
	return err
}

// ChangeRack lets change make a new rack of the home's, and saves and returns it. What change
// refuses is a mistake of the command line.
func (w Workshop) ChangeRack(change func(rack.Rack) (rack.Rack, error)) (rack.Rack, error) {
	before, version, err := w.Home.Rack(w.Table)
	if err != nil {
		return before, err
	}
	after, err := change(before)
	if err != nil {
		return before, failure.OrUsage(err, UnchangedRack)
	}
	return after, w.SaveRack(w.Home, after, version)
}

// SaveRack saves r over the version base, and lets go of the home.
func (a *App) SaveRack(home *store.Home, r rack.Rack, base store.Version) error {
	a.Writes()
	_, err := home.SaveRack(r, base)
	return a.Done(home, err)
}
