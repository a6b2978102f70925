package cli

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
)

const suggestLong = `suggest chooses strips of what there is and puts them in order: the best layouts
for a panel of the width, thickness and length that you say, the best first,
each proved or with what the best could at most be.

It takes the ready strips of the rack that are long and thick enough. With
--widths it takes strips of those widths only, ready ones and what the pieces of
the rack yield, and every layout comes with its stock plan, nothing short;
--widths standing takes the standing widths that shop.toml says. A plan takes
timber of the moisture and the marks that the layout counts on; it is called the
least only where no plan from the whole rack draws less.

With --have it takes the strips that you name in place of the rack's ready ones:
the key of the timber, the width, and where wanted xCOUNT, the rings and first.

--width is the glue-up width, the tolerance inclusive. --level is the worst that
a glue line may be, by its expected figure and its two strips; the level that is
printed is that of the whole layout. Neighbours are told apart by the contrast
of their oiled colours.

--aim use-up wants neighbours with --least-contrast, then the most width of what
is marked use first, then the greatest smallest contrast, then the greatest sum
of contrasts. --aim contrast leaves out the first two. Where nothing is said it
is use-up when anything is marked use first.

A layout and its mirror image are one. Layouts differ from all before by at
least --differ strips: strips are alike when timber, width, rings and moisture
are.

--save writes the first layout down as a pattern, or the one that --take says; a
name that is taken gets a number. Nothing else is written.

The exit is 1 where there is no layout; then it is said which condition to
loosen, as far as that is found out in 2 s. When --time runs out the best so far
is printed, and what is not proved says so.`

type suggestFlags struct {
	ask      suggest.Request
	standing bool // the strips' widths are those of the workshop
	strip    rangeFlag
	level    levelFlag
	aim      aimFlag
	floor    contrastFlag
	keep     keepFlags
}

func (a *app) suggestCommand() *cobra.Command {
	f := &suggestFlags{ask: suggest.New(0, 0, 0), strip: rangeFlag{suggest.DefaultFewest, suggest.DefaultMost},
		level: levelFlag(suggest.DefaultLevel), floor: suggest.DefaultLeastContrast}
	cmd := &cobra.Command{
		Use:   "suggest --width LENGTH --thickness LENGTH --length LENGTH",
		Short: "lay out the best panels that the rack can give",
		Long:  suggestLong,
		Example: "  oddments suggest --width 300 --thickness 22 --length 450\n" +
			"  oddments suggest --width 300 --thickness 22 --length 450 --widths 20,25 --symmetric --save \"Hearth trivet\"\n" +
			"  oddments suggest --width 120 --thickness 22 --length 400 --tolerance 5 --have \"hard_maple 25 x4\" --have \"black_walnut 20 x3 flat first\" --json",
		Annotations:       jsonToo(),
		Args:              func(cmd *cobra.Command, args []string) error { return f.args(cmd, args) },
		RunE:              func(cmd *cobra.Command, _ []string) error { return a.suggest(cmd, f) },
		ValidArgsFunction: cobra.NoFileCompletions,
	}
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
	to := cmd.Flags()
	to.SortFlags = false
	across := func(into *length.Length) *lengthFlag { return &lengthFlag{into, 1, pattern.MaxAcross} }
	to.Var(across(&f.ask.Width), "width", "glue-up width aimed at")
	to.Var(across(&f.ask.Thickness), "thickness", "finished thickness of the panel")
	to.Var(&lengthFlag{&f.ask.Length, 1, pattern.MaxLength}, "length", "finished length of the panel")
	to.Var(&lengthFlag{&f.ask.Tolerance, 0, pattern.MaxAcross}, "tolerance", "how far the width may be off, either way")
	to.Var(&haveFlag{&f.ask.Have}, "have", "ready strips named on the spot, again for others")
	to.Var(&widthsFlag{&f.ask.Widths, &f.standing}, "widths", "widths of strips, ready or to be cut from pieces; standing: those of shop.toml")
	to.Var(&f.strip, "strips", "fewest and most strips")
	to.Var(&f.level, "level", "worst level of a glue line: fine, take care or too much")
	to.Var(&f.aim, "aim", "what is best; auto is use-up where anything is marked use first")
	to.Var(&f.floor, "least-contrast", "of neighbours, for use-up")
	to.BoolVar(&f.ask.Symmetric, "symmetric", false, "the layout is its own mirror image")
	to.BoolVar(&f.ask.NoTwins, "no-twins", false, "no timber beside itself")
	to.Var(&countFlag{&f.ask.Layouts, mostLayouts}, "layouts", "how many")
	to.Var(&countFlag{&f.ask.Differ, mostDiffer}, "differ", "strips that a layout differs by from those before")
	f.keep.add(to, "layout")
	for flag, values := range map[string][]string{"level": levels(), "aim": {"use-up", "contrast"}, "widths": {standing}} {
		completeValues(cmd, flag, values)
	}
}

// completeValues offers the values of a flag that has a few. A flag that is not there
// completes nothing, which a test of all of them meets; no maker is to lose work by it.
func completeValues(cmd *cobra.Command, flag string, values []string) {
	_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
}

// args wants the size of the panel, and no argument.
func (f *suggestFlags) args(cmd *cobra.Command, args []string) error {
	if err := noArgs(cmd, args); err != nil {
		return err
	}
	for _, name := range []string{"width", "thickness", "length"} {
		if !cmd.Flags().Changed(name) {
			return usage("write it like --width 300 --thickness 22 --length 450", "suggest needs --%s", name)
		}
	}
	return f.keep.check(cmd, f.ask.Layouts)
}

// settle puts what the flags say into the ask.
func (f *suggestFlags) settle(sh shop.Shop) error {
	if f.standing {
		if f.ask.Widths = sh.Standing.Widths(); len(f.ask.Widths) == 0 {
			return usage("it says them like [standing], and below it widths = [\"20 mm\", \"25 mm\"]", "--widths standing: shop.toml names none")
		}
	}
	f.ask.Strips, f.ask.Level = f.strip, pattern.Level(f.level)
	f.ask.Aim, f.ask.LeastContrast = suggest.Aim(f.aim), float64(f.floor)
	return nil
}

func (a *app) suggest(cmd *cobra.Command, f *suggestFlags) error {
	if f.keep.name != "" {
		a.hold()
	}
	began := time.Now()
	ctx, stop := a.bounded(cmd.Context(), began)
	defer stop()
	w, err := a.workshop()
	if err != nil {
		return err
	}
	if err := f.settle(w.shop); err != nil {
		return err
	}
	for _, h := range f.ask.Have {
		if !w.known(h.Species) {
			return usage("nearest: "+nearest(w.table, h.Species), "--have: unknown species %q", h.Species)
		}
	}
	if f.ask.Rack, err = a.rackFor(w, f.ask); err != nil {
		return err
	}
	t := suggestText{app: a, workshop: w, ask: f.ask, unit: a.unit(w.shop)}
	answer, err := t.seek(ctx)
	if err != nil {
		return usage(helpHint(cmd), "%v", err)
	}
	if len(answer.Layouts) == 0 {
		a.worsen(exitMuch)
	}
	a.tellBroken(w.home, answer.Broken, mistake.Layouts, f.ask.Found(w.physics(), answer.Layouts))
	if a.json {
		_, _ = a.out.WriteString(jsonLine(suggestOf(w, f.ask, answer, time.Since(began).Seconds())))
	} else {
		t.answer, t.late = answer, answer.Stopped
		t.print()
	}
	var patterns []pattern.Pattern
	for _, l := range answer.Layouts {
		patterns = append(patterns, f.ask.Pattern(l))
	}
	return a.keep(w, f.keep, "layout", patterns)
}

// seek looks for layouts. Where there is none it says so at once, and then what to
// loosen is looked for a short time only; the JSON has no place for that.
func (t *suggestText) seek(ctx context.Context) (suggest.Result, error) {
	opt := suggest.Options{Reserve: min(reserve, t.flags.seconds.duration()/4), LoosenFor: suggest.LoosenFor}
	if t.json {
		opt.LoosenFor = 1
	}
	opt.Progress = func(p suggest.Progress) {
		if p.None && !t.json {
			t.answer = suggest.Result{Status: suggest.Infeasible, Aim: p.Aim}
			t.begin()
			_ = t.out.Flush() // what fails here fails again at the end
		}
	}
	return t.env.Solvers.Suggest(ctx, t.workshop.physics(), t.ask, opt)
}

// rackFor reads the rack where the ask takes from it, or where a flag names one.
func (a *app) rackFor(w workshop, ask suggest.Request) (rack.Rack, error) {
	if len(ask.Have) > 0 && len(ask.Widths) == 0 && a.flags.rack == "" {
		return rack.Rack{}, nil
	}
	return a.readRack(w)
}

// keepFlags say which of what was found is to be saved.
type keepFlags struct {
	name string
	take int
}

// add puts them on a command that finds things called what.
func (f *keepFlags) add(to *pflag.FlagSet, what string) {
	to.StringVar(&f.name, "save", "", "save the first "+what+" as a pattern of this `NAME`")
	to.Var(&countFlag{&f.take, mostLayouts}, "take", "with --save: the number of the "+what+" to save; else the first")
}

// check looks whether one of so many can be taken.
func (f *keepFlags) check(cmd *cobra.Command, most int) error {
	switch {
	case cmd.Flags().Changed("save") && f.name == "":
		return usage(`write it like --save "Hearth trivet"`, "--save needs a name")
	case f.take > 0 && f.name == "":
		return usage(`write it like --save "Hearth trivet" --take 2`, "--take says nothing without --save")
	case f.take > most:
		return usage("ask for more, or take one of those", "--take %d: there will be at most %d", f.take, most)
	case f.name == "":
		return nil
	}
	if _, err := edit.SetName(edit.State{}, f.name); err != nil {
		return usage("", "--save: %v", err)
	}
	return nil
}

// keep saves the pattern of found, things called what, that the flags say.
func (a *app) keep(w workshop, f keepFlags, what string, found []pattern.Pattern) error {
	if f.name == "" || len(found) == 0 {
		return nil
	}
	take := max(f.take, 1)
	if take > len(found) {
		return &problem{Code: codeNotFound, Message: fmt.Sprintf("there is no %s %d to save: there are %d", what, take, len(found))}
	}
	p := found[take-1]
	p.Name = f.name
	stem, err := w.home.FreeStem(f.name)
	if err != nil {
		return err
	}
	_, err = w.home.SavePattern(stem, p, store.Absent)
	_ = a.wrote(err)
	if closed := w.home.Close(); err == nil {
		err = closed
	}
	switch {
	case err != nil || a.json:
	case what == "": // there was but one
		a.say("saved: %s", stem)
	default:
		a.say("saved: %s %d as %s", what, take, stem)
	}
	return err
}
