package cli

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/cmd/internal/wishes"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/worksteps"
)

type suggestFlags struct {
	ask      suggest.Request
	standing bool // the strips' widths are those of the workshop
	wishes   wishes.Flags
	keep     command.KeepFlags
}

func (a *app) suggestCommand() *cobra.Command {
	f := &suggestFlags{ask: suggest.New(0, 0, 0)}
	cmd := a.command("suggest", task{json: "oddments/suggest 1",
		takes:  func(cmd *cobra.Command, args []string) error { return f.args(cmd, args) },
		errand: func(ctx context.Context, w workshop, _ []string) error { return w.suggest(ctx, f) }})
	f.add(cmd)
	return cmd
}

// reserve is kept of the time for the plan of the layout that is at work when it ends.
const reserve = 500 * time.Millisecond

// most bounds what counts on the command line may say.
const (
	mostLayouts = 1000
	mostDiffer  = pattern.MaxStrips
)

func (f *suggestFlags) add(cmd *cobra.Command) {
	to, ask := cmd.Flags(), &f.ask
	to.SortFlags = false
	typed.Flag(to, &ask.Width, "width", "LENGTH", "", f.wishes.Width, "glue-up width aimed at, or a range like 330..345")
	typed.Flag(to, &ask.Thickness, "thickness", "LENGTH", "", command.Across, "finished thickness of the panel")
	typed.Flag(to, &ask.Length, "length", "LENGTH", "", typed.Length(1, pattern.MaxLength), "finished length of the panel")
	addTolerance(to, &ask.Tolerance)
	typed.Flag(to, &ask.Have, "have", "STRIPS", "", f.readHave, "ready strips named on the spot, again for others")
	typed.Flag(to, &ask.Widths, "widths", "WIDTH,...", "", f.readWidths,
		"widths of strips, ready or to be cut from pieces; standing: those of shop.toml")
	typed.Flag(to, &ask.Strips, "strips", "N..M", fmt.Sprintf("%d..%d", ask.Strips[0], ask.Strips[1]), wishes.Strips, "fewest and most strips")
	addLevel(cmd, &ask.Level)
	typed.Flag(to, &ask.Aim, "aim", "use-up|contrast", ask.Aim.String(), suggest.ParseAim,
		"what is best; auto is use-up where anything is marked use first")
	typed.Flag(to, &ask.LeastContrast, "least-contrast", "CONTRAST", typed.Shown(ask.LeastContrast), command.ParseContrast, "of neighbours, for use-up")
	to.BoolVar(&ask.Symmetric, "symmetric", false, "the layout is its own mirror image")
	to.BoolVar(&ask.NoTwins, "no-twins", false, "no timber beside itself")
	typed.Flag(to, &ask.Layouts, "layouts", "N", strconv.Itoa(ask.Layouts), typed.Count(mostLayouts), "how many")
	typed.Flag(to, &ask.Differ, "differ", "N", strconv.Itoa(ask.Differ), typed.Count(mostDiffer), "strips that a layout differs by from those before")
	f.wishes.Add(cmd, ask)
	f.keep.Add(to, "layout", mostLayouts)
	typed.Complete(cmd, "aim", []string{"use-up", "contrast"})
	typed.Complete(cmd, "widths", []string{standing})
}

// addLevel gives a command --level.
func addLevel(cmd *cobra.Command, level *pattern.Level) {
	typed.Flag(cmd.Flags(), level, "level", "LEVEL", level.String(), pattern.ParseLevel, "worst level of a glue line: fine, take care or too much")
	typed.Complete(cmd, "level", typed.Words(pattern.Levels()...))
}

// addTolerance gives a command --tolerance.
func addTolerance(to *pflag.FlagSet, tolerance *length.Length) {
	typed.Flag(to, tolerance, "tolerance", "LENGTH", tolerance.Exact(), typed.Length(0, pattern.MaxAcross), "how far the width may be off, either way")
}

// args wants the size of the panel, and no argument.
func (f *suggestFlags) args(cmd *cobra.Command, args []string) error {
	if err := noArgs(cmd, args); err != nil {
		return err
	}
	for _, name := range []string{"width", "thickness", "length"} {
		if !cmd.Flags().Changed(name) {
			return failure.Usage("write it like --width 300 --thickness 22 --length 450", "suggest needs --%s", name)
		}
	}
	return f.keep.Check(cmd, f.ask.Layouts)
}

// settle takes the widths that the workshop has standing, where they are asked for.
func (f *suggestFlags) settle(sh shop.Shop) error {
	if !f.standing {
		return nil
	}
	if f.ask.Widths = sh.Standing.Widths(); len(f.ask.Widths) == 0 {
		return failure.Usage("write them into shop.toml like [standing], and below it widths = [\"20 mm\", \"25 mm\"]", "--widths standing: shop.toml names none")
	}
	return nil
}

func (w workshop) suggest(ctx context.Context, f *suggestFlags) error {
	if f.keep.Name != "" {
		w.Hold()
	}
	if err := f.settle(w.Shop); err != nil {
		return err
	}
	for _, h := range f.ask.Have {
		if _, ok := w.Table.Get(h.Species); !ok {
			return failure.Usage(nearest(w.Table, h.Species), "--have: unknown species %q", h.Species)
		}
	}
	var err error
	if f.ask.Rack, err = w.rackFor(f.ask); err != nil {
		return err
	}
	if err := f.wishes.Settle(w.Workshop, nearest); err != nil {
		return err
	}
	t := suggestText{workshop: w, ask: f.ask}
	answer, err := t.seek(ctx)
	if err != nil {
		return failure.Usage(helpOf("oddments suggest"), "%v", err)
	}
	if len(answer.Layouts) == 0 {
		w.Worsen(command.ExitMuch)
	}
	w.TellBroken(w.Home, answer.Broken, mistake.Layouts, f.ask.Found(w.Physics(), answer.Layouts))
	if w.AsJSON {
		w.JSON(w.suggestJSON(f.ask, answer))
	} else {
		t.answer, t.late = answer, answer.Stopped
		t.print()
	}
	var patterns []pattern.Pattern
	for _, l := range answer.Layouts {
		patterns = append(patterns, f.ask.Pattern(l))
	}
	return w.Keep(f.keep, "layout", patterns)
}

// seek looks for layouts. Where there is none it says so at once, and then what to
// loosen is looked for a short time only; the JSON has no place for that.
func (t *suggestText) seek(ctx context.Context) (suggest.Result, error) {
	opt := suggest.Options{Reserve: min(reserve, t.Flags.SearchTime()/4), LoosenFor: suggest.LoosenFor}
	if t.AsJSON {
		opt.LoosenFor = 1
	}
	opt.Progress = func(p suggest.Progress) {
		if p.None && !t.AsJSON {
			t.answer = suggest.Result{Status: suggest.Infeasible, Aim: p.Aim}
			t.begin()
			t.Send()
		}
	}
	return t.Env.Solvers.Suggest(ctx, t.Physics(), t.ask, opt)
}

// rackFor reads the rack where the ask takes from it, or where a flag names one.
func (w workshop) rackFor(ask suggest.Request) (rack.Rack, error) {
	if len(ask.Have) > 0 && len(ask.Widths) == 0 && w.Flags.Rack == "" {
		return rack.Rack{}, nil
	}
	return w.ReadRack()
}

// suggestJSON returns the JSON of an answer; lengths in mm.
func (w workshop) suggestJSON(ask suggest.Request, answer suggest.Result) result.Object {
	var bound any
	if b := answer.Bound; b != nil {
		bound = result.Object{{"smallest_contrast", b.SmallestContrast}, {"total_contrast", b.TotalContrast}}
	}
	return result.Object{{"format", "oddments/suggest 1"}, {"status", statusJSON(answer.Status)}, {"bound", bound},
		{"layouts", result.Each(answer.Layouts, func(l suggest.Layout) result.Object {
			var plan any
			if l.Plan != nil {
				plan = w.planJSON(ask.Job(w.Physics(), l), *l.Plan, worksteps.ByPiece)
			}
			return result.Object{{"width_mm", l.Width}, {"smallest_contrast", l.SmallestContrast}, {"total_contrast", l.TotalContrast},
				{"use_first_mm", l.UseFirst}, {"level", l.Level},
				{"strips", result.Each(l.Strips, func(s suggest.Placed) result.Object {
					return result.Object{{"species", s.Species}, {"width_mm", s.Width}, {"rings", s.Rings}, {"source", s.Source}}
				})}, {"plan", plan}, {"look", l.Look}, {"apart_pct", l.ApartPct}}
		})}}
}

// statusJSON returns a status in the words that the format has. An open search has
// nothing that is wrong, and claims nothing.
func statusJSON(s suggest.Status) suggest.Status {
	if s == suggest.Open {
		return suggest.Feasible
	}
	return s
}

// standing is the word for the widths of the workshop.
const standing = "standing"

// readWidths reads widths of strips, parted by commas, or that word.
func (f *suggestFlags) readWidths(text string) ([]length.Length, error) {
	if f.standing = text == standing; f.standing {
		return nil, nil
	}
	texts, err := length.Together(strings.Split(text, ","), length.InMM)
	if err != nil {
		return nil, err
	}
	var all []length.Length
	for _, part := range texts {
		w, err := length.Parse(part)
		switch {
		case err != nil:
			return nil, err
		case w <= 0 || w > pattern.MaxAcross:
			return nil, fmt.Errorf("%q: must be above 0 and at most %s", part, pattern.MaxAcross)
		}
		all = append(all, w)
	}
	return all, nil
}

// readHave adds ready strips that are named on the spot to those before.
func (f *suggestFlags) readHave(text string) ([]suggest.ReadyStrips, error) {
	h, err := wishes.Have(text)
	if err != nil {
		return nil, fmt.Errorf("%q: %w", text, err)
	}
	// No id of a rack holds a slash, so none is taken for this one.
	h.Source = fmt.Sprintf("have/%d", len(f.ask.Have)+1)
	return append(f.ask.Have, h), nil
}
