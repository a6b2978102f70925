package cli

import (
	"context"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern/relief"
)

func (a *app) reliefCommand() *cobra.Command {
	var wetter relief.Wetter
	cmd := a.command("relief", task{json: "oddments/relief 1", takes: onePattern, complete: a.completeOnePattern,
		errand: func(ctx context.Context, w workshop, args []string) error { return w.relief(ctx, args[0], wetter) }})
	typed.Flag(cmd.Flags(), &wetter, "wetter", "FACE=POINTS", "", relief.ParseWetter, "one face so many points of moisture wetter: top=1 or under=1")
	typed.Complete(cmd, "wetter", []string{"top=1", "under=1"})
	return cmd
}

// relief prints how the section of a pattern stands in each season.
func (w workshop) relief(ctx context.Context, arg string, wetter relief.Wetter) error {
	saved, err := w.Open(arg)
	if err != nil {
		return err
	}
	panel := relief.Of(w.Physics(), saved.Pattern, wetter)
	seasons := panel.Seasons()
	w.Result(func() result.Object { return result.Relief(saved.Stem, saved.Pattern, panel, wetter, seasons) })
	if !w.AsJSON {
		w.SayRelief(ctx, saved, panel, seasons, wetter)
	}
	return nil
}
