package cli

import (
	"context"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
)

// planFlags say what is written of a plan.
type planFlags struct{ book, real bool }

func (a *app) planCommand() *cobra.Command {
	var flags planFlags
	cmd := a.command("plan", task{json: true, complete: a.completePattern,
		takes:  somePatterns("; =4 behind it makes it 4 times"),
		errand: func(ctx context.Context, w workshop, args []string) error { return w.plan(ctx, args, flags) }})
	cmd.Flags().BoolVar(&flags.book, "book", false, "book what is printed as done")
	cmd.Flags().BoolVar(&flags.real, "real", false, "write moisture and rings of the pieces into the patterns")
	return cmd
}

func (w workshop) plan(ctx context.Context, args []string, flags planFlags) error {
	if flags.book || flags.real {
		w.hold()
	}
	job, saved, err := w.jobOf(args)
	if err != nil {
		return err
	}
	if flags.book {
		if err := w.mayBook(saved); err != nil || w.bookedBefore(saved) {
			return err
		}
	}
	plan, err := w.solve(ctx, job)
	if err != nil {
		return err
	}
	tooMuch := func(n cutting.Note) bool { return n.Level == pattern.TooMuch }
	if plan.Short > 0 || slices.ContainsFunc(cutting.Notes(job, plan, length.InMM), tooMuch) {
		w.worsen(exitMuch)
	}
	if w.asJSON {
		w.json(w.planJSON(job, plan))
	} else {
		t := planText{w, job, saved, plan, cutting.Details(job, plan)}
		t.print(ctx)
	}
	if flags.real {
		if saved, err = w.writeReal(job, plan, saved); err != nil {
			return err
		}
	}
	if flags.book {
		return w.book(job, plan, saved)
	}
	return nil
}

// planJSON returns the JSON of a plan of job; lengths in mm, volumes in cm3.
func (w workshop) planJSON(job cutting.Job, p cutting.Plan) object {
	return object{
		{"format", "oddments/plan 1"}, {"status", p.Status}, {"short", p.Short}, {"drawn_cm3", p.DrawnCM3}, {"gone_cm3", p.GoneCM3},
		{"lower_bound_cm3", p.LowerBoundCM3}, {"seconds", time.Since(w.began).Seconds()},
		{"missing", each(p.Missing, func(m cutting.Missing) object { return append(refJSON(m.Ref), member{"species", m.Species}) })},
		{"ready", each(p.Ready, func(r cutting.Ready) object {
			return object{{"id", r.ID}, {"copy", r.Copy}, {"pattern", r.For.Pattern}, {"pattern_copy", r.For.Copy}, {"strip", r.For.Strip}}
		})},
		{"cuts", each(p.Cuts, func(c cutting.Cut) object {
			return object{{"piece", c.Piece}, {"copy", c.Copy}, {"tail_mm", c.Tail}, {"sections", each(c.Sections, sectionJSON)}}
		})},
		{"steps", append([]string{}, cutting.Steps(job, p, w.name, length.InMM)...)},
	}
}

func sectionJSON(s cutting.Section) object {
	return object{{"length_mm", s.Length}, {"side_sliced", s.Side}, {"slab_left_mm", s.SlabLeft},
		{"slices", each(s.Slices, func(sl cutting.Slice) object {
			return object{{"thickness_mm", sl.Thickness}, {"rip_left_mm", sl.RipLeft}, {"strips", each(sl.Strips, refJSON)}}
		})}}
}

func refJSON(r cutting.Ref) object {
	return object{{"pattern", r.Pattern}, {"copy", r.Copy}, {"strip", r.Strip}}
}
