package cli

import (
	"context"
	"slices"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/work"
)

type sheetFlags struct {
	out   string
	whole command.LastSet
	workFlags
}

func (a *app) sheetCommand() *cobra.Command {
	var flags sheetFlags
	var form export.Export
	cmd := a.command("sheet", task{complete: a.completePattern,
		takes: func(cmd *cobra.Command, args []string) (err error) {
			if err = flags.whole.Takes(somePatterns("; =4 after it makes 4 copies"))(cmd, args); err == nil {
				form, err = exportForm(export.Sheet, flags.out, "")
			}
			return err
		},
		errand: func(ctx context.Context, w workshop, args []string) error { return w.sheet(ctx, args, form, flags) }})
	addOut(cmd, export.Sheet, &flags.out)
	flags.whole.Add(cmd)
	flags.add(cmd.Flags())
	return cmd
}

func (w workshop) sheet(ctx context.Context, args []string, form export.Export, flags sheetFlags) error {
	args, err := flags.whole.Of(w.Workshop, args)
	if err != nil {
		return err
	}
	stock, saved, err := w.JobOf(args)
	if err != nil {
		return err
	}
	var wants []orders.Want
	if len(saved) > 1 {
		wants = w.Orders()
	}
	var all []export.Job
	for i, one := range saved {
		job, err := w.ExportJob(one, stock.Patterns[i].Copies)
		if err != nil {
			return err
		}
		flags.set(&job.Work)
		job.Worth = orders.WorthOf(wants, one.Stem, one.Pattern)
		all = append(all, job)
	}
	job := all[0]
	job.Beside, job.Stock = all[1:], stock
	if job.Plan, err = w.Solve(ctx, stock); err != nil {
		return err
	}
	if job.Plan.Short > 0 || slices.ContainsFunc(all, w.tooMuch) {
		w.Worsen(command.ExitMuch)
	}
	return w.WriteExport(form, job, flags.out, saved[0].File)
}

// tooMuch reports whether the sheet of a pattern says something at too much.
func (w workshop) tooMuch(j export.Job) bool {
	if check.Of(j.Physics, j.Work.Pattern, j.Unit).Level == pattern.TooMuch {
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
