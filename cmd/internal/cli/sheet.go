package cli

import (
	"context"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/work"
)

const sheetLong = `sheet writes one page for the bench, to print on A4 or Letter or to read on a
phone: the panel with its strips, the stock plan piece by piece with drawings
and fence settings, the steps in the workshop's order with each caution at its
own, the mark-out from one datum, the working figures with where they come from,
the label, the batches made, and room for notes. PATTERN=N is for N panels.

The page is one HTML file without any part outside it. -o - writes it to the
standard output. A FILE that is there already is kept as .bak. The plan is that
of oddments plan, from the home's rack or --rack; --time bounds its search.

The exit is 1 where strips are short, or where something is at too much.`

type sheetFlags struct {
	out string
	workFlags
}

func (a *app) sheetCommand() *cobra.Command {
	var flags sheetFlags
	var form export.Export
	cmd := &cobra.Command{
		Use:     "sheet PATTERN[=N] -o FILE.html",
		Short:   "write one page for the bench, to print or to read",
		Long:    sheetLong,
		Example: "  oddments sheet saltings-round -o round.html\n  oddments sheet candle-sill=4 --minutes 310 --asked 45 -o sill.html\n  oddments sheet ./gifts/trivet.toml -o - > trivet.html",
		Args: func(cmd *cobra.Command, args []string) (err error) {
			if err = onePattern(cmd, args); err != nil {
				return err
			}
			form, err = exportForm(export.Sheet, flags.out, "")
			return err
		},
		RunE:              func(cmd *cobra.Command, args []string) error { return a.sheet(cmd.Context(), args[0], form, flags) },
		ValidArgsFunction: a.completeOnePattern,
	}
	addOut(cmd, export.Sheet, &flags.out)
	flags.add(cmd)
	return cmd
}

func (a *app) sheet(ctx context.Context, arg string, form export.Export, flags sheetFlags) error {
	limit := a.flags.seconds.duration()
	ctx, stop := context.WithDeadline(ctx, time.Now().Add(max(limit-printReserve, limit/2)))
	defer stop()
	w, err := a.workshop()
	if err != nil {
		return err
	}
	stock, saved, err := a.jobOf(w, []string{arg})
	if err != nil {
		return err
	}
	job, err := a.exportJob(w, saved[0], stock.Patterns[0].Copies)
	if err != nil {
		return err
	}
	flags.set(&job.Work)
	job.Stock = stock
	if job.Plan, err = a.solve(ctx, w, stock); err != nil {
		return err
	}
	if a.tooMuch(job) {
		a.worsen(exitMuch)
	}
	return a.writeExport(form, job, flags.out, saved[0].File)
}

// tooMuch reports whether a sheet says something at too much, or strips short.
func (a *app) tooMuch(j export.Job) bool {
	if j.Plan.Short > 0 || check.Of(j.Physics, j.Work.Pattern, j.Unit).Level == pattern.TooMuch {
		return true
	}
	figures := work.Of(j.Physics, j.Work)
	for _, c := range work.Cautions(j.Physics, j.Work, figures, j.Unit) {
		if c.Level == pattern.TooMuch {
			return true
		}
	}
	return false
}
