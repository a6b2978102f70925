package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

const madeLong = `made lists what was made of a pattern, batch by batch: the day, how many, the
width and the thickness as they came out, the minutes of the batch, and the
note. oddments work goes by the last one that says how long it took.

With a LINE it writes a batch down as it is spoken, in any order:

  4, 299.5 wide, 21.6 thick, 310 min, note one kept for the hall

What is not said is as of today and of one copy; a number without a unit is
millimetres. --change N puts the LINE in the place of batch N, --strike N
strikes batch N out. The pattern's file before it is kept as .bak. What a plan
made is written down by oddments plan --book.`

type madeFlags struct{ change, strike int }

func (a *app) madeCommand() *cobra.Command {
	var flags madeFlags
	cmd := &cobra.Command{
		Use:         "made PATTERN [LINE]",
		Short:       "list what was made of a pattern, and write a batch down",
		Long:        madeLong,
		Example:     "  oddments made rookery-square\n  oddments made rookery-square \"4, 299.5 wide, 310 min\"\n  oddments made rookery-square --change 1 \"2026-11-02, x4, note oiled twice\"",
		Annotations: jsonToo(),
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return usage("name a saved pattern, or a file with a slash or .toml", "made needs a PATTERN")
			case cmd.Flags().Changed("change") && len(args) == 1:
				return usage(`write it like oddments made rookery-square --change 1 "4, 310 min"`, "--change needs a LINE")
			case cmd.Flags().Changed("strike") && (len(args) > 1 || cmd.Flags().Changed("change")):
				return usage("strike out first, then write down", "--strike takes no LINE and no --change")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.made(args[0], strings.Join(args[1:], " "), cmd.Flags().Changed, flags)
		},
		ValidArgsFunction: a.completeOnePattern,
	}
	cmd.Flags().IntVar(&flags.change, "change", 0, "put the LINE in the place of batch `N`")
	cmd.Flags().IntVar(&flags.strike, "strike", 0, "strike batch `N` out")
	return cmd
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
			return usage("the pattern is as it was", "%q: %v", line, err)
		}
		if batch, err = work.ParseBatch(line, length.InMM, a.today()); err != nil {
			return usage("the pattern is as it was", "%v", err)
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
		return usage("the pattern is as it was", "%v", err)
	}
	changed := line != "" || given("strike")
	if changed {
		if err := a.keepPattern(w, saved, state.Pattern); err != nil {
			return err
		}
	}
	saved.Pattern = state.Pattern
	if a.json {
		_, _ = a.out.WriteString(jsonLine(madeOf(saved.Stem, state.Pattern.Made)))
		return nil
	}
	a.sayPattern(saved)
	a.sayMade(state.Pattern.Made, a.unit(w.shop))
	return nil
}

func (a *app) sayMade(all []pattern.Made, u length.Unit) {
	if len(all) == 0 {
		a.say("made: nothing is written down yet")
		return
	}
	copies := 0
	for i, m := range all {
		copies += m.Copies
		words := []string{m.Date.String(), tell.Count(m.Copies, "copy")}
		if m.Width > 0 {
			words = append(words, m.Width.With(u)+" wide")
		}
		if m.Thickness > 0 {
			words = append(words, m.Thickness.With(u)+" thick")
		}
		if m.Minutes > 0 {
			words = append(words, tell.Count(m.Minutes, "minute"))
		}
		if m.Note != "" {
			words = append(words, "note: "+m.Note)
		}
		a.say("batch %d: %s", i+1, strings.Join(words, ", "))
	}
	a.say("in all: %s", tell.Count(copies, "copy"))
}

// The JSON of what was made; lengths in mm, null where nothing was written down.
type (
	madeJSON struct {
		Format  string      `json:"format"`
		Pattern string      `json:"pattern"`
		Batches []batchJSON `json:"batches"`
	}
	batchJSON struct {
		Batch       int      `json:"batch"`
		Date        string   `json:"date"`
		Copies      int      `json:"copies"`
		WidthMM     *float64 `json:"width_mm"`
		ThicknessMM *float64 `json:"thickness_mm"`
		Minutes     *int     `json:"minutes"`
		Note        string   `json:"note"`
	}
)

func madeOf(stem string, all []pattern.Made) madeJSON {
	out := madeJSON{Format: "oddments/made 1", Pattern: stem, Batches: []batchJSON{}}
	for i, m := range all {
		out.Batches = append(out.Batches, batchJSON{
			Batch: i + 1, Date: m.Date.String(), Copies: m.Copies, WidthMM: known(m.Width.MM(), m.Width > 0),
			ThicknessMM: known(m.Thickness.MM(), m.Thickness > 0), Minutes: known(m.Minutes, m.Minutes > 0), Note: m.Note,
		})
	}
	return out
}
