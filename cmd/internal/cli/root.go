package cli

import (
	"context"
	"errors"
	"io/fs"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern/store"
)

func (a *app) rootCommand() *cobra.Command {
	return a.command("oddments", task{json: "oddments/check 1", takes: rootArgs, complete: a.completePattern,
		run: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				return a.open(cmd, args[0])
			}
			if a.hasBench() {
				return a.bench(cmd.Context(), "")
			}
			return a.checkFirst()
		}})
}

// rootArgs takes one PATTERN. Two words are mostly a command that was mistyped.
func rootArgs(cmd *cobra.Command, args []string) error {
	if len(args) < 2 {
		return nil
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return failure.Usage(didYouMean(cmd, near), "there is no command %q", args[0])
	}
	return failure.Usage("oddments check takes several patterns", "the bench takes one PATTERN, and got %q too", args[1])
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
	return !a.AsJSON && a.Env.IsTerminal() && !a.Dumb()
}

// open opens the pattern that arg names, or prints its check. One that cannot be
// read is told of here, where it can be read in peace.
func (a *app) open(cmd *cobra.Command, arg string) error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	saved, err := w.Home.OpenPattern(arg, w.Table)
	if near := cmd.SuggestionsFor(arg); errors.Is(err, fs.ErrNotExist) && len(near) > 0 && saved.Stem == arg {
		return failure.Usage(didYouMean(cmd, near), "there is no pattern and no command %q", arg)
	}
	if errors.Is(err, fs.ErrNotExist) && a.hasBench() && w.inDemo(arg) {
		return a.bench(cmd.Context(), arg)
	}
	switch {
	case err != nil:
		return err
	case a.hasBench():
		return a.bench(cmd.Context(), arg)
	case !a.AsJSON && a.Env.IsTerminal():
		a.Message("oddments: %s, so here is the check of %s\n", a.WhyNoScreen(), saved.Stem)
	}
	w.printCheck(saved)
	return nil
}

// inDemo reports whether stem is a pattern of the demo that an empty home is offered.
func (w workshop) inDemo(stem string) bool {
	if all, err := w.Home.Patterns(w.Table); err != nil || len(all) > 0 {
		return false
	}
	demo, err := store.ReadDemo()
	return err == nil && slices.ContainsFunc(demo.Patterns, func(p store.Saved) bool { return p.Stem == stem })
}

func (a *app) bench(ctx context.Context, pattern string) error {
	home, err := a.Home()
	if err != nil {
		return err
	}
	profile, _ := a.Profile()
	return a.Env.Bench(ctx, command.BenchOptions{
		Home: home, Pattern: pattern, Shop: a.Flags.Shop, Rack: a.Flags.Rack,
		Unit: a.Flags.Units, Profile: profile, Version: a.Env.Version,
	})
}

// checkFirst prints the check of the first saved pattern that can be read and tells
// of those before it. An empty home has the demo's.
func (a *app) checkFirst() error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	all, err := w.Home.Patterns(w.Table)
	if err != nil {
		return err
	}
	if len(all) == 0 {
		return w.checkDemo()
	}
	for _, one := range all {
		if one.Err != nil {
			a.Report(one.Err)
			continue
		}
		a.Message("oddments: %s, so here is the check of your first pattern, %s\n", a.WhyNoScreen(), one.Stem)
		w.printCheck(one.Saved)
		return nil
	}
	return nil
}

// checkDemo prints the check of the demo's first pattern, in the demo's workshop
// where the maker has none.
func (w workshop) checkDemo() error {
	in, demo, err := w.Demo()
	if err != nil {
		return err
	}
	w.Workshop = in
	first := demo.Patterns[0]
	if !w.AsJSON && w.Env.IsTerminal() {
		w.Message("oddments: %s\n", w.WhyNoScreen())
	}
	w.Message("oddments: no pattern is saved in %s, so here is the check of the demo's %s; nothing was written\n",
		failure.Visible(w.Home.Dir()), first.Stem)
	w.printCheck(first)
	return nil
}
