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

type sheetFlags struct {
	out string
	workFlags
}

func (a *app) sheetCommand() *cobra.Command {
	var flags sheetFlags
	var form export.Export
	cmd := a.command("sheet", task{complete: a.completeOnePattern,
		takes: func(cmd *cobra.Command, args []string) (err error) {
			if err = onePattern(cmd, args); err == nil {
				form, err = exportForm(export.Sheet, flags.out, "")
			}
			return err
		},
		run: func(cmd *cobra.Command, args []string) error { return a.sheet(cmd.Context(), args[0], form, flags) }})
	addOut(cmd, export.Sheet, &flags.out)
	flags.add(cmd.Flags())
	return cmd
}

func (a *app) sheet(ctx context.Context, arg string, form export.Export, flags sheetFlags) error {
	ctx, stop := a.bounded(ctx, time.Now())
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
	flags.set(&job.Work, &job.Settings)
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
	figures := work.Of(j.Physics, j.Work, j.Settings)
	for _, c := range work.Cautions(j.Physics, j.Work, figures, j.Settings, j.Unit) {
		if c.Level == pattern.TooMuch {
			return true
		}
	}
	return false
}
