package cli

import (
	"context"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

type madeFlags struct{ change, strike int }

func (a *app) madeCommand() *cobra.Command {
	var flags madeFlags
	var cmd *cobra.Command
	cmd = a.command("made", task{json: "oddments/made 1", complete: a.completeOnePattern, takes: madeArgs,
		errand: func(_ context.Context, w workshop, args []string) error {
			return w.made(args[0], strings.Join(args[1:], " "), cmd.Flags().Changed, flags)
		}})
	cmd.Flags().IntVar(&flags.change, "change", 0, "put the LINE in the place of batch `N`")
	cmd.Flags().IntVar(&flags.strike, "strike", 0, "strike batch `N` out")
	return cmd
}

func madeArgs(cmd *cobra.Command, args []string) error {
	given := cmd.Flags().Changed
	switch {
	case given("change") && len(args) == 1:
		return failure.Usage(`write it like oddments made rookery-square --change 1 "4, 310 min"`, "--change needs a LINE")
	case given("strike") && len(args) > 0 && (len(args) > 1 || given("change")):
		return failure.Usage("strike out first, then write down", "--strike takes no LINE and no --change")
	}
	return somePatterns("")(cmd, args)
}

func (w workshop) made(arg, line string, given func(flag string) bool, flags madeFlags) error {
	saved, err := w.Open(arg)
	if err != nil {
		return err
	}
	state := edit.State{Pattern: saved.Pattern}
	var batch pattern.Made
	if line != "" {
		if err := command.OneLine(line); err != nil {
			return failure.Usage(command.UnchangedPattern, "%q: %v", line, err)
		}
		if batch, err = work.ParseBatch(line, length.InMM, w.Today()); err != nil {
			return failure.Usage(command.UnchangedPattern, "%v", err)
		}
	}
	switch {
	case given("strike"):
		state, err = edit.DropMade(state, flags.strike-1)
	case given("change"):
		state, err = edit.SetMade(state, flags.change-1, batch)
	case line != "":
		state, err = edit.AddMade(state, batch)
	}
	if err != nil {
		return failure.Usage(command.UnchangedPattern, "%v", err)
	}
	changed := line != "" || given("strike")
	if changed {
		if err := w.KeepPattern(saved, state.Pattern); err != nil {
			return err
		}
	}
	saved.Pattern = state.Pattern
	if w.AsJSON {
		w.JSON(result.Made(saved.Stem, state.Pattern.Made))
		return nil
	}
	w.SayPattern(saved)
	w.sayMade(state.Pattern.Made)
	return nil
}

func (w workshop) sayMade(all []pattern.Made) {
	if len(all) == 0 {
		w.Fact("made", "nothing is written down yet")
		return
	}
	batch := rows.Form{{"batch", "batch "}, {"day", ": "}, {"made", ", "}, {"width", ", ", " wide"},
		{"thickness", ", ", " thick"}, {"time", ", "}, {"note", ", note: "}}
	copies := 0
	for i, m := range all {
		copies += m.Copies
		w.Row(batch, pattern.Fine, strconv.Itoa(i+1), m.Date.String(), tell.Count(m.Copies, "copy"), command.Said(m.Width > 0, m.Width.With(w.Unit)),
			command.Said(m.Thickness > 0, m.Thickness.With(w.Unit)), command.Said(m.Minutes > 0, tell.Count(m.Minutes, "minute")), m.Note)
	}
	w.Fact("in all", "%s", tell.Count(copies, "copy"))
}
