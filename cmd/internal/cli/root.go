package cli

import (
	"context"
	"errors"
	"io/fs"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern/store"
)

const rootLong = `oddments turns a pile of hardwood leftovers into strip-laminated boards: arrange
the strips, see which glue lines will step or strain over the seasons, the
glue-up width and the timber it takes, and save the pattern for the next time.

With a terminal it opens the bench, on PATTERN where one is named. Without one,
or with --json, it prints the check of PATTERN, or of the first saved pattern,
or, in an empty home, of the first pattern of the built-in demo; nothing is
written.

PATTERN with a slash, or ending in .toml, is a file; else it is the name of a
saved pattern, as its file is called without .toml.

Your files lie in one folder: --home DIR, else $ODDMENTS_HOME, else oddments in
your folder for data. A folder that does not exist is an empty home; the first
save makes it.

Exit: 0 done; 1 done, with a finding at too much, strips short or no layout; 2
wrong usage; 3 could not.
Results go to the standard output, messages to the standard error; with --json
each failure is one line of JSON there.

Figures are estimates: boards of one timber differ by some 15 %. Machines, dust
and oily rags hurt people: follow your machine's manual and local rules, and ask
a licensed professional where one is called for.`

func (a *app) rootCommand() *cobra.Command {
	return &cobra.Command{
		Use:         "oddments [PATTERN]",
		Short:       "arrange hardwood leftovers into strip-laminated boards",
		Long:        rootLong,
		Example:     "  oddments\n  oddments rookery-square\n  oddments ./gifts/trivet.toml --units in",
		Annotations: jsonToo(),
		Args:        rootArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				return a.open(cmd, args[0])
			}
			if a.hasBench() {
				return a.bench(cmd.Context(), "")
			}
			return a.checkFirst()
		},
		ValidArgsFunction: a.completePattern,
	}
}

// rootArgs takes one PATTERN. Two words are mostly a command that was mistyped.
func rootArgs(cmd *cobra.Command, args []string) error {
	if len(args) < 2 {
		return nil
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return usage(didYouMean(cmd, near), "there is no command %q", args[0])
	}
	return usage("oddments check takes several patterns", "the bench takes one PATTERN, and got %q too", args[1])
}

// didYouMean names commands below cmd.
func didYouMean(cmd *cobra.Command, names []string) string {
	for i, name := range names {
		names[i] = cmd.CommandPath() + " " + name
	}
	return "did you mean " + strings.Join(names, ", or ") + "?"
}

// hasBench reports whether the bench can be shown: somebody sits there, and did not
// ask for JSON.
func (a *app) hasBench() bool {
	return !a.json && a.env.IsTerminal() && !a.dumb()
}

// dumb reports whether the terminal says of itself that it shows no screens.
func (a *app) dumb() bool { return a.env.Getenv("TERM") == "dumb" }

// whyNoBench says why the check is printed and no bench shown.
func (a *app) whyNoBench() string {
	if a.env.IsTerminal() && a.dumb() {
		return "this terminal shows no screens (TERM is dumb)"
	}
	return "no terminal"
}

// open opens the pattern that arg names, or prints its check. One that cannot be
// read is told of here, where it can be read in peace.
func (a *app) open(cmd *cobra.Command, arg string) error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	saved, err := w.home.OpenPattern(arg, w.known)
	if near := cmd.SuggestionsFor(arg); errors.Is(err, fs.ErrNotExist) && len(near) > 0 && saved.Stem == arg {
		return usage(didYouMean(cmd, near), "there is no pattern and no command %q", arg)
	}
	if errors.Is(err, fs.ErrNotExist) && a.hasBench() && inDemo(w, arg) {
		return a.bench(cmd.Context(), arg)
	}
	switch {
	case err != nil:
		return err
	case a.hasBench():
		return a.bench(cmd.Context(), arg)
	case !a.json && a.env.IsTerminal():
		a.message("oddments: %s, so here is the check of %s\n", a.whyNoBench(), saved.Stem)
	}
	a.printCheck(w, saved)
	return nil
}

// inDemo reports whether stem is a pattern of the demo that an empty home is offered.
func inDemo(w workshop, stem string) bool {
	if all, err := w.home.Patterns(w.known); err != nil || len(all) > 0 {
		return false
	}
	demo, err := store.ReadDemo()
	return err == nil && slices.ContainsFunc(demo.Patterns, func(p store.Saved) bool { return p.Stem == stem })
}

func (a *app) bench(ctx context.Context, pattern string) error {
	home, err := a.home()
	if err != nil {
		return err
	}
	profile, _ := a.profile()
	return a.env.Bench(ctx, BenchOptions{
		Home: home, Pattern: pattern, Shop: a.flags.shop, Rack: a.flags.rack,
		Unit: a.flags.units.unit, Profile: profile, Version: a.env.Version,
	})
}

// checkFirst prints the check of the first saved pattern that can be read and tells
// of those before it. An empty home has the demo's.
func (a *app) checkFirst() error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	all, err := w.home.Patterns(w.known)
	if err != nil {
		return err
	}
	if len(all) == 0 {
		return a.checkDemo(w)
	}
	for _, one := range all {
		if one.Err != nil {
			a.report(one.Err)
			continue
		}
		a.message("oddments: %s, so here is the check of your first pattern, %s\n", a.whyNoBench(), one.Stem)
		a.printCheck(w, one.Saved)
		return nil
	}
	return nil
}

// checkDemo prints the check of the demo's first pattern, in the demo's workshop
// where the maker has none.
func (a *app) checkDemo(w workshop) error {
	demo, err := store.ReadDemo()
	if err != nil {
		return err
	}
	if !w.own {
		w.shop = demo.Shop
	}
	first := demo.Patterns[0]
	if !a.json && a.env.IsTerminal() {
		a.message("oddments: %s\n", a.whyNoBench())
	}
	a.message("oddments: no pattern is saved in %s, so here is the check of the demo's %s; nothing was written\n",
		visible(w.home.Dir()), first.Stem)
	a.printCheck(w, first)
	return nil
}
