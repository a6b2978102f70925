package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/tell"
)

type resizeFlags struct {
	to   edit.Size
	keep command.KeepFlags
}

func (a *app) resizeCommand() *cobra.Command {
	f := &resizeFlags{to: edit.Size{Tolerance: suggest.DefaultTolerance}}
	cmd := a.command("resize", task{json: "oddments/resize 1", complete: a.completeOnePattern,
		takes: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil {
				return err
			}
			if f.to.Width == 0 && f.to.Strip == 0 {
				return failure.Usage("write it like --width 350", "resize needs --width or --strip-width")
			}
			return f.keep.Check(cmd, 1)
		},
		errand: func(_ context.Context, w workshop, args []string) error { return w.resize(args[0], f) }})
	to := cmd.Flags()
	to.SortFlags = false
	typed.Flag(to, &f.to.Width, "width", "LENGTH", "", command.Across, "glue-up width of the order")
	addTolerance(to, &f.to.Tolerance)
	typed.Flag(to, &f.to.Strip, "strip-width", "LENGTH", "", command.Across, "width of the widest strips")
	typed.Flag(to, &f.to.Way, "by", "WAY", f.to.Way.String(), edit.ParseWay, "any, widths or repeats")
	typed.Flag(to, &f.to.Step, "step", "LENGTH", "", typed.Length(length.Micrometre, pattern.MaxAcross),
		"strip widths are whole steps; else 1 mm, or 1/16 in")
	to.StringVar(&f.keep.Name, "save", "", "save the result as a pattern of this `NAME`")
	typed.Complete(cmd, "by", typed.Words(edit.AnyWay, edit.Widths, edit.Repeats))
	return cmd
}

// stepIn is the step of strip widths in a unit.
func stepIn(u length.Unit) length.Length {
	if u == length.InInches {
		return length.Inch / 16
	}
	return length.Millimetre
}

func (w workshop) resize(arg string, f *resizeFlags) error {
	if f.keep.Name != "" {
		w.Hold()
	}
	saved, err := w.Open(arg)
	if err != nil {
		return err
	}
	if f.to.Step == 0 {
		f.to.Step = stepIn(w.Unit)
	}
	r, err := edit.Resize(saved.Pattern, f.to)
	var refusal *edit.Refusal
	switch {
	case errors.As(err, &refusal):
		w.Worsen(command.ExitMuch)
	case err != nil:
		return err
	}
	if w.AsJSON {
		w.JSON(resizeJSON(saved.Stem, r, refusal))
	} else {
		w.printResize(saved, r, refusal)
	}
	if refusal != nil {
		return nil
	}
	return w.Keep(f.keep, "", []pattern.Pattern{remake.Fresh(r.Pattern)})
}

// printResize prints what differs, one fact a row.
func (w workshop) printResize(saved store.Saved, r edit.Resized, refusal *edit.Refusal) {
	w.SayPattern(saved)
	w.Fact("glue-up width", "%s", saved.Pattern.Width().With(w.Unit))
	if refusal != nil {
		w.Fact("not resized", "%s", refusal.In(w.Unit))
		return
	}
	w.Fact("resized", "by %s, to %s, %s", r.Way, r.Pattern.Width().With(w.Unit), tell.Count(len(r.Pattern.Strips), "strip"))
	for _, c := range r.Changes {
		name := w.Name(c.Strip.Species)
		switch {
		case c.Was == 0:
			w.Of("added").Fact(fmt.Sprintf("strip %d", c.Now), "%s, %s", name, c.WidthNow.With(w.Unit))
		case c.Now == 0:
			w.Of("taken out").Fact(fmt.Sprintf("strip %d as it was", c.Was), "%s, %s", name, c.WidthWas.With(w.Unit))
		default:
			moved := ""
			if c.Was != c.Now {
				moved = fmt.Sprintf(", was strip %d", c.Was)
			}
			w.Of("strip %d", c.Now).Fact("", "%s, %s becomes %s%s", name, c.WidthWas.With(w.Unit), c.WidthNow.With(w.Unit), moved)
		}
	}
}

// resizeJSON returns the JSON of a pattern for another order; lengths in mm.
func resizeJSON(stem string, r edit.Resized, refusal *edit.Refusal) result.Object {
	status, message := suggest.Optimal, ""
	if refusal != nil {
		status, message = suggest.Infeasible, refusal.Error()
		r = edit.Resized{}
	}
	done := refusal == nil
	return result.Object{
		{"format", "oddments/resize 1"}, {"pattern", stem}, {"status", status},
		{"way", result.Known(r.Way, done)}, {"width_mm", result.Known(r.Pattern.Width(), done)},
		{"strips", result.Each(r.Pattern.Strips, func(s pattern.Strip) result.Object {
			return result.Object{{"species", s.Species}, {"width_mm", s.Width}, {"rings", s.Rings}}
		})},
		{"changes", result.Each(r.Changes, func(c edit.Resizing) result.Object {
			return result.Object{{"was", result.Known(c.Was, c.Was > 0)}, {"now", result.Known(c.Now, c.Now > 0)}, {"species", c.Strip.Species},
				{"width_was_mm", result.Known(c.WidthWas, c.Was > 0)}, {"width_now_mm", result.Known(c.WidthNow, c.Now > 0)}}
		})},
		{"message", message},
	}
}
