package cli

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/terminal"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
)

func (a *app) doctorCommand() *cobra.Command {
	return a.command("doctor", task{json: "oddments/doctor 1", takes: noArgs, run: func(*cobra.Command, []string) error {
		d := &doctor{app: a}
		d.look()
		a.Result(func() result.Object {
			return result.Object{{"format", "oddments/doctor 1"}, {"version", a.Env.Version}, {"go", runtime.Version()},
				{"system", runtime.GOOS + "/" + runtime.GOARCH}, {"found", d.found}}
		})
		return nil
	}})
}

// A doctor looks the terminal and the files over.
type doctor struct {
	*app
	found []result.Object // what it has told
}

// fact tells what is found of a thing.
func (a *doctor) fact(what, format string, args ...any) {
	a.find(what, fmt.Sprintf(format, args...), nil)
}

// find tells what is found of a thing, or what is wrong with it, with the problem.
func (a *doctor) find(what, says string, problem *failure.Problem) {
	a.found = append(a.found, result.Object{{"what", what}, {"says", says}, {"problem", problem}})
	a.app.Fact(what, "%s", says)
}

func (a *doctor) look() {
	a.Rows.Columns = 0 // lines, also at a terminal: it is what one sends to whoever helps
	a.Say("oddments %s, %s, %s/%s", a.Env.Version, runtime.Version(), runtime.GOOS, runtime.GOARCH)
	a.doctorTerminal()
	home, err := a.Home()
	if err == nil {
		err = home.Reachable()
	}
	if err != nil {
		a.wrong("home", err)
		return
	}
	a.doctorHome(home)
	a.doctorLeftovers(home)
	a.doctorFiles(home)
}

func (a *doctor) doctorTerminal() {
	for _, name := range []string{"TERM", "COLORTERM", "NO_COLOR"} {
		a.fact(name, "%s", cmp.Or(a.Env.Getenv(name), "not set"))
	}
	profile, why := a.Profile()
	a.fact("colours", "%s, since %s%s", profile, why, terminal.Colours(profile, a.Flags.Colour != nil))
	a.fact("locale", "%s", terminal.Locale(a.Env.Getenv))
	switch {
	case !a.Env.IsTerminal():
		a.fact("terminal", "none here; oddments prints a check in place of the bench")
	case a.Dumb():
		a.fact("terminal", "yes, but TERM=dumb cannot show the bench; oddments prints a check in its place")
	default:
		a.fact("terminal", "yes")
		a.fact("size", "%s", terminal.Size(a.Env.TerminalSize()))
		a.fact("mouse", "%s", terminal.Mouse(a.Env.Getenv))
	}
}

func (a *doctor) doctorHome(home *store.Home) {
	dir := home.Dir()
	info, err := os.Stat(dir)
	parent, is, bad := nearestFolder(dir), ", can be written to", false
	switch {
	case errors.Is(err, fs.ErrNotExist) && mayWrite(parent):
		is = ", not there yet; the first save makes it"
	case errors.Is(err, fs.ErrNotExist):
		is = ", not there, and " + parent + " may not be written to: name another folder with --home"
	case err != nil:
		is, bad = ", "+plainCause(err).Error(), true
	case !info.IsDir():
		is, bad = " is a file and must be a folder", true
	case !mayWrite(dir):
		is = ", may not be written to"
	}
	a.fact("home", "%s", dir+is)
	switch {
	case bad:
		a.Worsen(command.ExitFailed)
	case err == nil:
		held, err := home.Busy()
		a.looked("lock", err, "%s", command.Or(held, "another oddments is the writer of this home; saving is for that one", "free"))
	}
}

// doctorLeftovers names the files that saves which were cut short have left.
func (a *doctor) doctorLeftovers(home *store.Home) {
	for _, l := range home.Leftovers() {
		a.fact("left over", "%s, from a save that was cut short; %s", l.File,
			command.Or(l.Old, "nothing needs it: take it away", "the next save there takes it away"))
	}
}

// nearestFolder returns the folder above dir that is there.
func nearestFolder(dir string) string {
	for {
		up := filepath.Dir(dir)
		if _, err := os.Stat(up); err == nil || up == dir {
			return up
		}
		dir = up
	}
}

// plainCause takes the path out of an error of the system.
func plainCause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// doctorFiles reads every file as the commands do, and lists all that is wrong.
func (a *doctor) doctorFiles(home *store.Home) {
	known, err := command.TimbersOf(home)
	if err == nil {
		own, _, _ := home.Timbers() // timbersOf has read it
		a.fact("species", "%d timbers, %s", known.Len(), ofYours(own))
	} else {
		a.wrong("species", err)
		a.fact("species", "until it is mended, the timbers of the other files are not looked up")
	}

	_, version, err := a.ReadShop(home)
	a.looked("shop", err, "%s", command.Or(version != store.Absent, "good"+standIn(a.Flags.Shop), "none, so the usual kerfs, allowances and limits count"))
	a.doctorRack(home, known)
	a.doctorPatterns(home, known)
	a.doctorRecoveries(home, known)
}

func ofYours(own []species.Species) string {
	if len(own) == 0 {
		return "none of your own"
	}
	return fmt.Sprintf("%d of your own or with values of yours", len(own))
}

// standIn says behind what was read that it is from a file in the home's place.
func standIn(file string) string { return command.Said(file != "", ", from "+file) }

func (a *doctor) doctorRack(home *store.Home, known *species.Table) {
	if a.Flags.Rack != "" {
		_, err := store.OpenRack(a.Flags.Rack, known)
		a.looked("rack", err, "good%s", standIn(a.Flags.Rack))
		return
	}
	r, version, err := home.Rack(known)
	pieces, ready, _ := rack.Totals(r.Entries())
	a.looked("rack", err, "%s", command.Or(version == store.Absent, "none",
		fmt.Sprintf("good, %s and %s", tell.Count(pieces, "piece"), tell.Count(ready, "ready strip"))))
}

func (a *doctor) doctorPatterns(home *store.Home, known *species.Table) {
	all, err := home.Patterns(known)
	good := 0
	for _, one := range all {
		if one.Err != nil {
			a.wrong("pattern", one.Err)
		} else {
			good++
		}
	}
	a.looked("patterns", err, "%d good, %d not", good, len(all)-good)
}

func (a *doctor) doctorRecoveries(home *store.Home, known *species.Table) {
	all, err := home.Recoveries(known)
	if err != nil || len(all) == 0 {
		a.looked("recovery", err, "no unsaved work waits")
	}
	for _, r := range all {
		a.looked("recovery", r.Err, "unsaved work on %s of %s waits; open it on the bench to take it up", r.Stem, r.At.Format(time.DateTime))
	}
}

// looked says what was found of a thing, or all that is wrong with it.
func (a *doctor) looked(what string, err error, format string, args ...any) {
	if err != nil {
		a.wrong(what, err)
		return
	}
	a.fact(what, format, args...)
}

// wrong prints all that is wrong with a file, one a line, and keeps the exit.
func (a *doctor) wrong(what string, err error) {
	a.Worsen(command.ExitFailed)
	for _, p := range failure.Of(err) {
		p.Format = "oddments/error 1"
		a.find(what, p.WithHint(), p)
	}
}
