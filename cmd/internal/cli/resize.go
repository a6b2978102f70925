package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/tell"
)

const resizeLong = `resize makes a pattern for an order of another width: the same sequence of
timbers, and what differs, strip by strip. A pattern that is its own mirror
image stays so. A pinned strip keeps its width and stays in.

--by repeats keeps the strips as they are and changes how often a section
repeats, with its mirror image where there is one: of all numbers of repeats
the one nearest to --width, then with the fewest strips added or taken out.

--by widths keeps the strips and makes them wider or narrower, strips of one
width alike and in whole steps: of all such widths the ones that are together
the least away from the pattern scaled as a whole. Without --by it is repeats
where they come within the tolerance, else widths.

--strip-width makes the widest strips so wide first, the others in proportion;
with --width the number of repeats does the rest.

--save writes the result down as a new pattern; the old one stays as it is, and
a name that is taken gets a number. The exit is 1 where it cannot be done.`

type resizeFlags struct {
	to   edit.Size
	way  wayFlag
	keep keepFlags
}

// A wayFlag is a way to come to another width.
type wayFlag edit.Way

func (f *wayFlag) String() string { return edit.Way(*f).String() }
func (f *wayFlag) Type() string   { return "WAY" }

func (f *wayFlag) Set(text string) error {
	way, err := edit.ParseWay(text)
	if err == nil {
		*f = wayFlag(way)
	}
	return err
}

func (a *app) resizeCommand() *cobra.Command {
	f := &resizeFlags{to: edit.Size{Tolerance: suggest.DefaultTolerance}}
	cmd := &cobra.Command{
		Use:         "resize PATTERN --width LENGTH",
		Short:       "make a pattern for an order of another width",
		Long:        resizeLong,
		Example:     "  oddments resize rookery-square --width 350\n  oddments resize rookery-square --width 350 --by widths --step 0.5\n  oddments resize ./gifts/trivet.toml --strip-width 30 --save \"Wide trivet\"",
		Annotations: jsonToo(),
		Args: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil {
				return err
			}
			if f.to.Width == 0 && f.to.Strip == 0 {
				return usage("write it like --width 350", "resize needs --width or --strip-width")
			}
			return f.keep.check(cmd, 1)
		},
		RunE:              func(_ *cobra.Command, args []string) error { return a.resize(args[0], f) },
		ValidArgsFunction: a.completeOnePattern,
	}
	to := cmd.Flags()
	to.SortFlags = false
	to.Var(&lengthFlag{&f.to.Width, 1, pattern.MaxAcross}, "width", "glue-up width of the order")
	to.Var(&lengthFlag{&f.to.Tolerance, 0, pattern.MaxAcross}, "tolerance", "how far the width may be off, either way")
	to.Var(&lengthFlag{&f.to.Strip, 1, pattern.MaxAcross}, "strip-width", "width of the widest strips")
	to.Var(&f.way, "by", "any, widths or repeats")
	to.Var(&lengthFlag{&f.to.Step, length.Micrometre, pattern.MaxAcross}, "step", "strip widths are whole steps; else 1 mm, or 1/16 in")
	to.StringVar(&f.keep.name, "save", "", "save the result as a pattern of this `NAME`")
	completeValues(cmd, "by", []string{edit.AnyWay.String(), edit.Widths.String(), edit.Repeats.String()})
	return cmd
}

// stepIn is the step of strip widths in a unit.
func stepIn(u length.Unit) length.Length {
	if u == length.InInches {
		return length.Inch / 16
	}
	return length.Millimetre
}

func (a *app) resize(arg string, f *resizeFlags) error {
	if f.keep.name != "" {
		a.hold()
	}
	w, saved, err := a.openOne(arg)
	if err != nil {
		return err
	}
	unit := a.unit(w.shop)
	f.to.Way = edit.Way(f.way)
	if f.to.Step == 0 {
		f.to.Step = stepIn(unit)
	}
	r, err := edit.Resize(saved.Pattern, f.to)
	var refusal *edit.Refusal
	switch {
	case errors.As(err, &refusal):
		a.worsen(exitMuch)
	case err != nil:
		return err
	}
	if a.json {
		_, _ = a.out.WriteString(jsonLine(resizeOf(saved.Stem, r, refusal)))
	} else {
		a.printResize(w, saved, r, refusal, unit)
	}
	if refusal != nil {
		return nil
	}
	return a.keep(w, f.keep, "", []pattern.Pattern{remake.Way{Pattern: r.Pattern}.Fresh()})
}

// printResize prints what differs, one fact a line.
func (a *app) printResize(w workshop, saved store.Saved, r edit.Resized, refusal *edit.Refusal, unit length.Unit) {
	a.sayPattern(saved)
	a.say("glue-up width: %s", saved.Pattern.Width().With(unit))
	if refusal != nil {
		a.say("resized: no, %s", refusal.In(unit))
		return
	}
	a.say("resized: by %s, to %s, %s", r.Way, r.Pattern.Width().With(unit), tell.Count(len(r.Pattern.Strips), "strip"))
	for _, c := range r.Changes {
		name := w.name(c.Strip.Species)
		switch {
		case c.Was == 0:
			a.say("added, strip %d: %s, %s", c.Now, name, c.WidthNow.With(unit))
		case c.Now == 0:
			a.say("taken out, strip %d as it was: %s, %s", c.Was, name, c.WidthWas.With(unit))
		default:
			moved := ""
			if c.Was != c.Now {
				moved = fmt.Sprintf(", was strip %d", c.Was)
			}
			a.say("strip %d: %s, %s becomes %s%s", c.Now, name, c.WidthWas.With(unit), c.WidthNow.With(unit), moved)
		}
	}
}

// The JSON of a pattern for another order; lengths in mm.
type (
	resizeJSON struct {
		Format  string         `json:"format"`
		Pattern string         `json:"pattern"`
		Status  string         `json:"status"`
		Way     *string        `json:"way"`
		WidthMM *float64       `json:"width_mm"`
		Strips  []resizedJSON  `json:"strips"`
		Changes []resizingJSON `json:"changes"`
		Message string         `json:"message"`
	}
	resizedJSON struct {
		Species string    `json:"species"`
		WidthMM float64   `json:"width_mm"`
		Rings   ringsJSON `json:"rings"`
	}
	resizingJSON struct {
		Was        *int     `json:"was"`
		Now        *int     `json:"now"`
		Species    string   `json:"species"`
		WidthWasMM *float64 `json:"width_was_mm"`
		WidthNowMM *float64 `json:"width_now_mm"`
	}
)

func resizeOf(stem string, r edit.Resized, refusal *edit.Refusal) resizeJSON {
	out := resizeJSON{Format: "oddments/resize 1", Pattern: stem, Status: suggest.Optimal.String(),
		Strips: []resizedJSON{}, Changes: []resizingJSON{}}
	if refusal != nil {
		out.Status, out.Message = suggest.Infeasible.String(), refusal.Error()
		return out
	}
	way, width := r.Way.String(), r.Pattern.Width().MM()
	out.Way, out.WidthMM = &way, &width
	for _, s := range r.Pattern.Strips {
		out.Strips = append(out.Strips, resizedJSON{s.Species, s.Width.MM(), ringsJSON(s.Rings)})
	}
	for _, c := range r.Changes {
		out.Changes = append(out.Changes, resizingJSON{known(c.Was, c.Was > 0), known(c.Now, c.Now > 0), c.Strip.Species,
			known(c.WidthWas.MM(), c.Was > 0), known(c.WidthNow.MM(), c.Now > 0)})
	}
	return out
}
