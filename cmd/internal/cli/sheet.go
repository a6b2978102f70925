package cli

import (
	"context"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
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
		errand: func(ctx context.Context, w workshop, args []string) error { return w.sheet(ctx, args[0], form, flags) }})
	addOut(cmd, export.Sheet, &flags.out)
	flags.add(cmd.Flags())
	return cmd
}

func (w workshop) sheet(ctx context.Context, arg string, form export.Export, flags sheetFlags) error {
	stock, saved, err := w.JobOf([]string{arg})
	if err != nil {
		return err
	}
	job, err := w.exportJob(saved[0], stock.Patterns[0].Copies)
	if err != nil {
		return err
	}
	flags.set(&job.Work)
	job.Stock = stock
	if job.Plan, err = w.Solve(ctx, stock); err != nil {
		return err
	}
	if w.tooMuch(job) {
		w.Worsen(command.ExitMuch)
	}
	return w.writeExport(form, job, flags.out, saved[0].File)
}

// tooMuch reports whether a sheet says something at too much, or strips short.
func (w workshop) tooMuch(j export.Job) bool {
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
