package cli

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/fill"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

// planFlags say what is written of a plan.
type planFlags struct {
	book, real, anyRings  bool
	join, anyJoint, short bool // where strips may be parted
	adopt                 bool
	whole                 command.LastSet
	by                    worksteps.By // how the steps are put together
	fill                  fill.Widths
	rips                  bool // fill in place of a spare width too
}

func (a *app) planCommand() *cobra.Command {
	var flags planFlags
	cmd := a.command("plan", task{json: "oddments/plan 1", complete: a.completePattern,
		takes:  flags.whole.Takes(somePatterns("; =4 after it makes 4 copies")),
		errand: func(ctx context.Context, w workshop, args []string) error { return w.plan(ctx, args, flags) }})
	flags.whole.Add(cmd)
	cmd.Flags().BoolVar(&flags.book, "book", false, "book what is printed as done")
	cmd.Flags().BoolVar(&flags.anyRings, "any-rings", false, "use timber with other rings than the patterns ask for")
	cmd.Flags().BoolVar(&flags.real, "real", false, "write moisture, rings and colours of the pieces into the patterns")
	cmd.Flags().BoolVar(&flags.join, "join", false, "let strips be made of several pieces, their joints in the waste, as bricks")
	cmd.Flags().BoolVar(&flags.anyJoint, "any-joint", false, "like --join, and neighbours may be parted in one gap")
	cmd.Flags().BoolVar(&flags.short, "short-ends", false, "let strips be as short as their products need, in one piece")
	cmd.Flags().BoolVar(&flags.adopt, "adopt", false, "with --join or --short-ends: write the pieces into the patterns")
	typed.Flag(cmd.Flags(), &flags.fill, "fill", "own|standing", "", readFill, "rip strips for the rack out of what slices leave, of widths that are cut anyway or of standing ones too")
	typed.Complete(cmd, "fill", typed.Words(fill.Kinds()...))
	cmd.Flags().BoolVar(&flags.rips, "fill-rips", false, "with --fill: also where a spare width would go back")
	typed.Flag(cmd.Flags(), &flags.by, "by", "machine|piece", worksteps.ByMachine.String(), readBy, "steps by machine and setting, or piece by piece")
	typed.Complete(cmd, "by", typed.Words(worksteps.Bys()...))
	return cmd
}

// readBy reads how steps are to be put together.
func readBy(text string) (worksteps.By, error) {
	by, ok := tell.Named(text, worksteps.Bys())
	if !ok {
		return by, fmt.Errorf("%q: must be %s", text, tell.List(typed.Words(worksteps.Bys()...), "or"))
	}
	return by, nil
}

// readFill reads which widths slices are filled with.
func readFill(text string) (fill.Widths, error) {
	widths, ok := tell.Named(text, fill.Kinds())
	if !ok {
		return widths, fmt.Errorf("%q: must be %s", text, tell.List(typed.Words(fill.Kinds()...), "or"))
	}
	return widths, nil
}

func (w workshop) plan(ctx context.Context, args []string, flags planFlags) error {
	if flags.book || flags.real || flags.adopt {
		w.Hold()
	}
	args, err := flags.whole.Of(w.Workshop, args)
	if err != nil {
		return err
	}
	job, saved, err := w.JobOf(args)
	if err != nil {
		return err
	}
	if flags.book {
		if err := w.MayBook(saved); err != nil || w.BookedBefore(saved) {
			return err
		}
	}
	if flags.anyRings {
		job = job.AnyRings()
	}
	switch {
	case flags.anyJoint:
		job, err = job.Joined(joints.Anywhere, false)
	case flags.join:
		job, err = job.Joined(joints.Even, true)
	case flags.short:
		job, err = job.Joined(joints.Ends, false)
	case flags.adopt:
		err = failure.Usage("write --join --adopt", "--adopt has no effect without --join or --short-ends")
	case flags.rips && flags.fill == fill.Off:
		err = failure.Usage("write --fill own --fill-rips", "--fill-rips has no effect without --fill")
	}
	if err != nil {
		return err
	}
	plan, err := w.Solve(ctx, job)
	if err != nil {
		return err
	}
	if err := w.Fill(job, &plan, fill.Ask{Widths: flags.fill, Rips: flags.rips}); err != nil {
		return err
	}
	tooMuch := func(n worksteps.Note) bool { return n.Level == pattern.TooMuch }
	if plan.Short > 0 || slices.ContainsFunc(worksteps.Notes(job, plan, length.InMM), tooMuch) {
		w.Worsen(command.ExitMuch)
	}
	if w.AsJSON {
		w.JSON(w.planJSON(job, plan, flags.by))
	} else {
		t := planText{w, job, saved, plan, worksteps.Details(job, plan), flags.by}
		t.print(ctx)
	}
	if flags.real {
		if saved, err = w.WriteReal(job, plan, saved); err != nil {
			return err
		}
	}
	if flags.adopt {
		if saved, err = w.Adopt(job, plan, saved); err != nil {
			return err
		}
	}
	if flags.book {
		return w.Book(job, plan, saved)
	}
	return nil
}

// planJSON returns the JSON of a plan of job, with its steps put together so.
func (w workshop) planJSON(job cutting.Job, p cutting.Plan, by worksteps.By) result.Object {
	return result.Plan(p, time.Since(w.Began).Seconds(), worksteps.Steps(by, job, p, w.Name, length.InMM))
}
