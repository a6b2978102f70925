package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
)

type workFlags struct {
	minutes, clamps int
	asked           float64
	dryingOil       bool
	before          pattern.Date
	wanted          second.Size
	bars            int
}

func (a *app) workCommand() *cobra.Command {
	var flags workFlags
	cmd := a.command("work", task{json: "oddments/work 1", complete: a.completeOnePattern,
		takes: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil || flags.bars == 0 || flags.wanted != (second.Size{}) {
				return err
			}
			return failure.Usage("say the size with --for, like --for \"400 x 300 x 38\"", "--bars has no effect without --for")
		},
		errand: func(_ context.Context, w workshop, args []string) error { return w.work(args[0], flags) }})
	flags.add(cmd.Flags())
	return cmd
}

// add puts the flags on a command.
func (f *workFlags) add(to *pflag.FlagSet) {
	typed.Flag(to, &f.minutes, "minutes", "N", "", typed.Count(pattern.MaxMinutes), "what all panels and second glue-ups take; else like the last batch made")
	typed.Flag(to, &f.clamps, "clamps", "N", "", typed.Count(shop.MostClamps), "how many you have; else as your shop says")
	typed.Flag(to, &f.asked, "asked", "AMOUNT", "", work.ParseAmount, "price that you ask for one product")
	to.BoolVar(&f.dryingOil, "drying-oil", false, "the finish is linseed, tung or another oil that hardens")
	typed.Flag(to, &f.wanted, "for", "SIZE", "", second.ParseSize, "say what a board of that size takes, like \"400 x 300 x 38\"")
	typed.Flag(to, &f.bars, "bars", "N", "", typed.Count(pattern.MaxBars), "with --for: in so many bars")
	typed.Flag(to, &f.before, "before", "DATE", "", pattern.ParseDate, "day before which the products must be ready, like 2026-12-05")
}

// set puts what the flags say into a job.
func (f workFlags) set(job *work.Job) {
	if f.minutes > 0 {
		job.Minutes = f.minutes
	}
	if f.clamps > 0 {
		job.Clamps = f.clamps
	}
	job.Asked, job.Due, job.DryingOil = f.asked, f.before, f.dryingOil
}

// working is what work prints.
type working struct {
	workshop
	saved    store.Saved
	job      work.Job
	figures  work.Figures
	cautions []work.Caution
	flags    workFlags
}

func (w workshop) work(arg string, flags workFlags) error {
	name, copies, err := command.WithCopies(arg)
	if err != nil {
		return err
	}
	saved, err := w.Home.OpenPattern(name, w.Table)
	if err != nil {
		return err
	}
	if len(saved.Pattern.Strips) == 0 && !w.AsJSON {
		w.SayPattern(saved)
		w.Fact("strips", "none yet, a draft: there is nothing to work out")
		return nil
	}
	job, err := w.Job(saved, copies)
	if err != nil {
		return err
	}
	flags.set(&job)
	labels := work.Labels(w.Table, job, w.Unit)
	job.Label = labels[0] // all lack the same fields
	figures := work.Of(w.Physics(), job)
	k := working{w, saved, job, figures, work.Cautions(w.Physics(), job, figures, w.Unit), flags}
	for _, c := range k.cautions {
		if c.Level == pattern.TooMuch {
			w.Worsen(command.ExitMuch)
		}
	}
	if w.AsJSON {
		w.JSON(result.Work(saved.Stem, job, figures, result.Needs(saved.Pattern, flags.wanted, flags.bars, w.Shop.Takes())))
		return nil
	}
	k.print()
	return nil
}

// print gives the figures in the order of the work, each with its source beside it,
// and the cautions at their step.
func (k working) print() {
	k.SayPattern(k.saved)
	k.Fact("panels", "%d", k.job.Copies)
	k.SayNeeds(k.saved.Pattern, k.flags.wanted, k.flags.bars)
	figure := rows.Form{{"figure", ""}, {"", ": "}, {"source", "; source: "}}
	for _, l := range work.Report(k.Physics(), k.job, k.figures, k.Unit) {
		switch {
		case l.Caution && l.Level == pattern.Fine:
			k.Row(figure, l.Level, "caution, "+l.Step, l.Text)
		case l.Caution:
			k.Row(figure, l.Level, fmt.Sprintf("caution, %s, %v", l.Step, l.Level), l.Text)
		default:
			k.Row(figure, pattern.Fine, l.Name(), l.Text, l.Source)
		}
	}
	k.Say("%s", work.Manuals)
}
