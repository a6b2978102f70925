package cli

import (
	"strconv"
	"strings"

	"github.com/spf13/cobra"

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
	cmd := a.command("made", task{json: true, complete: a.completeOnePattern, takes: madeArgs,
		run: func(cmd *cobra.Command, args []string) error {
			return a.made(args[0], strings.Join(args[1:], " "), cmd.Flags().Changed, flags)
		}})
	cmd.Flags().IntVar(&flags.change, "change", 0, "put the LINE in the place of batch `N`")
	cmd.Flags().IntVar(&flags.strike, "strike", 0, "strike batch `N` out")
	return cmd
}

func madeArgs(cmd *cobra.Command, args []string) error {
	given := cmd.Flags().Changed
	switch {
	case given("change") && len(args) == 1:
		return usage(`write it like oddments made rookery-square --change 1 "4, 310 min"`, "--change needs a LINE")
	case given("strike") && len(args) > 0 && (len(args) > 1 || given("change")):
		return usage("strike out first, then write down", "--strike takes no LINE and no --change")
	}
	return somePatterns("")(cmd, args)
}

func (a *app) made(arg, line string, given func(flag string) bool, flags madeFlags) error {
	w, saved, err := a.openOne(arg)
	if err != nil {
		return err
	}
	state := edit.State{Pattern: saved.Pattern}
	var batch pattern.Made
	if line != "" {
		if err := oneLine(line); err != nil {
			return usage(unchangedPattern, "%q: %v", line, err)
		}
		if batch, err = work.ParseBatch(line, length.InMM, a.today()); err != nil {
			return usage(unchangedPattern, "%v", err)
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
		return usage(unchangedPattern, "%v", err)
	}
	changed := line != "" || given("strike")
	if changed {
		if err := a.keepPattern(w, saved, state.Pattern); err != nil {
			return err
		}
	}
	saved.Pattern = state.Pattern
	if a.asJSON {
		a.json(madeJSON(saved.Stem, state.Pattern.Made))
		return nil
	}
	a.sayPattern(saved)
	a.sayMade(state.Pattern.Made, a.unit(w.shop))
	return nil
}

func (a *app) sayMade(all []pattern.Made, u length.Unit) {
	if len(all) == 0 {
		a.fact("made", "nothing is written down yet")
		return
	}
	batch := rows.Form{{"batch", "batch "}, {"day", ": "}, {"made", ", "}, {"width", ", ", " wide"}, {"thickness", ", ", " thick"}, {"time", ", "}, {"note", ", note: "}}
	copies := 0
	for i, m := range all {
		copies += m.Copies
		a.row(batch, pattern.Fine, strconv.Itoa(i+1), m.Date.String(), tell.Count(m.Copies, "copy"), said(m.Width > 0, m.Width.With(u)),
			said(m.Thickness > 0, m.Thickness.With(u)), said(m.Minutes > 0, tell.Count(m.Minutes, "minute")), m.Note)
	}
	a.fact("in all", "%s", tell.Count(copies, "copy"))
}

// madeJSON returns the JSON of what was made; lengths in mm, null where nothing was
// written down.
func madeJSON(stem string, all []pattern.Made) object {
	batches := []object{}
	for i, m := range all {
		batches = append(batches, object{{"batch", i + 1}, {"date", m.Date}, {"copies", m.Copies}, {"width_mm", known(m.Width, m.Width > 0)},
			{"thickness_mm", known(m.Thickness, m.Thickness > 0)}, {"minutes", known(m.Minutes, m.Minutes > 0)}, {"note", m.Note}})
	}
	return object{{"format", "oddments/made 1"}, {"pattern", stem}, {"batches", batches}}
}
