package cli

import (
	"errors"
	"slices"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
)

const markLong = `mark lays the products of a pattern on its panel, in rows, and says where they
are: every centre from one datum, with the tape hooked on the end of the strip
that is named and the square on edge A, the left edge of strip 1. Each copy has
how far it may slide towards the far end to dodge a knot, the strip whose end
binds it, and by how much a round grows or shrinks across the grain in each
season. It ends with what is left of the panel and what would still come out.

The panel is taken as it comes out of the clamps, each strip at its length at
glue-up. A mixed or turned arrangement can hold more than rows do. On one
panel at most 2000 products are placed, and 10000 holes of blocks.

--short-ends says how short each strip could have been for what is cut from it,
and what that saves. It only prints; with --apply the starts and lengths go into
the pattern's file, the one before it kept as .bak.

--add lists a product as it is spoken, behind the others: "round 290 x2 bevel 8
under", "oval 340 220" (its length along the grain, then its width), "rectangle
240 by 160 fill" or "block 400 95 holes 3 of 40 deep 18".
--knot "210, 96, 8" keeps products clear of a knot so far from the datum end and
from edge A, with its radius. --drop N and --drop-knot N take one away, by the
number that was printed. They are saved in the pattern before its products are
laid, and the file before it is kept as .bak.

The exit is 1 where a product does not fit.`

type markFlags struct {
	shortEnds, apply bool
	edits            markEdits
}

func (a *app) markCommand() *cobra.Command {
	var flags markFlags
	cmd := &cobra.Command{
		Use:         "mark PATTERN",
		Short:       "say where to mark a pattern's products on its panel",
		Long:        markLong,
		Example:     "  oddments mark saltings-round\n  oddments mark saltings-round --short-ends\n  oddments mark rookery-square --drop 1 --add \"block 200 95 holes 2 of 40 deep 12\" --knot \"240, 200, 8\"\n  oddments mark ./gifts/trivet.toml --json",
		Annotations: jsonToo(),
		Args: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil {
				return err
			}
			if flags.apply && !flags.shortEnds {
				return usage("write --short-ends --apply", "--apply says nothing without --short-ends")
			}
			return nil
		},
		RunE:              func(_ *cobra.Command, args []string) error { return a.mark(args[0], flags) },
		ValidArgsFunction: a.completeOnePattern,
	}
	cmd.Flags().BoolVar(&flags.shortEnds, "short-ends", false, "say how short each strip could have been")
	cmd.Flags().BoolVar(&flags.apply, "apply", false, "with --short-ends: save them in the pattern")
	flags.edits.flags(cmd.Flags())
	return cmd
}

// onePattern wants one PATTERN.
func onePattern(cmd *cobra.Command, args []string) error {
	switch len(args) {
	case 0:
		return usage("name a saved pattern, or a file with a slash or .toml", "%s needs a PATTERN", cmd.Name())
	case 1:
		return nil
	default:
		return usage(helpHint(cmd), "%s takes one PATTERN, and got %q too", cmd.Name(), args[1])
	}
}

func (a *app) completeOnePattern(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return a.completePattern(cmd, args, typed)
}

// A marking is what mark prints.
type marking struct {
	workshop workshop
	saved    store.Saved
	job      work.Job
	unit     length.Unit
}

func (a *app) mark(arg string, flags markFlags) error {
	if flags.apply {
		a.hold()
	}
	w, saved, err := a.openOne(arg)
	if err != nil {
		return err
	}
	if flags.edits.any() {
		if saved, err = a.markEdited(w, arg, saved, flags.edits); err != nil {
			return err
		}
	}
	job, err := w.job(saved, 1)
	if err != nil {
		return err
	}
	m := marking{w, saved, job, a.unit(w.shop)}
	if flags.apply {
		if err := m.refuseToApply(); err != nil {
			return err
		}
	}
	if len(m.misfits()) > 0 {
		a.worsen(exitMuch)
	}
	if a.json {
		_, _ = a.out.WriteString(jsonLine(m.json()))
	} else {
		a.printMark(m)
		if flags.shortEnds {
			a.printShortEnds(m)
		}
	}
	if flags.apply {
		return a.applyShortEnds(m)
	}
	return nil
}

// job lays the products of a pattern that is to be made so often.
func (w workshop) job(saved store.Saved, copies int) (work.Job, error) {
	job, err := work.JobOf(saved.Pattern, copies, w.shop)
	var wrongs outline.Wrongs
	if !errors.As(err, &wrongs) {
		return job, err
	}
	var all []error
	for _, w := range wrongs {
		all = append(all, &problem{Code: codeBadFile, File: saved.File, Field: w.Of, Message: w.Text})
	}
	return work.Job{}, errors.Join(all...)
}

// misfits says which products do not come out of the panel.
func (m marking) misfits() []work.Remark { return work.Misfits(m.job, m.unit) }

func (a *app) printMark(m marking) {
	a.sayPattern(m.saved)
	for _, line := range work.MarkLines(m.workshop.physics(), m.job, m.unit) {
		a.say("%s", line)
	}
	if len(m.job.Products) == 0 {
		a.say("to list one: oddments mark %s --add \"round 290 x2 bevel 8\"", m.saved.Stem)
	}
}

func (a *app) sayPattern(saved store.Saved) {
	if saved.Pattern.Name == saved.Stem {
		a.say("pattern: %s", saved.Stem)
		return
	}
	a.say("pattern: %s, %s", saved.Stem, saved.Pattern.Name)
}

func (m marking) grows(at outline.Placed, season movement.Season) work.Estimate {
	return work.OutOfRound(m.workshop.physics(), m.saved.Pattern, m.saved.Pattern.Products[at.Product-1], at, season)
}

func (a *app) printShortEnds(m marking) {
	for _, line := range work.ShortEndLines(m.workshop.physics(), m.job, m.unit) {
		a.say("%s", line)
	}
}

// refuseToApply says why the short ends must not go into the pattern.
func (m marking) refuseToApply() error {
	if product := work.Staggered(m.job.Layout); product > 0 {
		return usage("ask for no more copies than straight rows hold",
			"--apply: product %d stands in staggered rows, which need a panel without ragged ends", product)
	}
	return nil
}

// applyShortEnds saves the pattern with its strips as short as its products allow.
func (a *app) applyShortEnds(m marking) error {
	p, _ := outline.ShortEnds(m.saved.Pattern, m.workshop.shop.Allowance.Length, m.job.Layout)
	if slices.Equal(p.Strips, m.saved.Pattern.Strips) {
		if !a.json {
			a.say("saved: nothing, no strip can be shorter")
		}
		return nil
	}
	return a.keepPattern(m.workshop, m.saved, p)
}

// The JSON of a mark-out.
type (
	markJSON struct {
		Format     string          `json:"format"`
		Pattern    string          `json:"pattern"`
		WidthMM    float64         `json:"width_mm"`
		Placed     []placedJSON    `json:"placed"`
		NotPlaced  []notPlacedJSON `json:"not_placed"`
		Left       leftJSON        `json:"left"`
		OwnLengths []ownLengthJSON `json:"own_lengths"`
	}
	placedJSON struct {
		Product      int            `json:"product"`
		Copy         int            `json:"copy"`
		Shape        string         `json:"shape"`
		AlongMM      float64        `json:"along_mm"`
		AcrossMM     float64        `json:"across_mm"`
		SlideMM      float64        `json:"slide_mm"`
		BindingStrip *int           `json:"binding_strip"`
		OutOfRoundMM outOfRoundJSON `json:"out_of_round_mm"`
	}
	outOfRoundJSON struct {
		Dry   *float64 `json:"dry"`
		Humid *float64 `json:"humid"`
	}
	notPlacedJSON struct {
		Product int `json:"product"`
		Copies  int `json:"copies"`
	}
	leftJSON struct {
		FromMM   float64 `json:"from_mm"`
		LengthMM float64 `json:"length_mm"`
		WidthMM  float64 `json:"width_mm"`
	}
	ownLengthJSON struct {
		Strip    int     `json:"strip"`
		StartMM  float64 `json:"start_mm"`
		LengthMM float64 `json:"length_mm"`
	}
)

func (m marking) json() markJSON {
	layout := m.job.Layout
	out := markJSON{
		Format: "oddments/mark 1", Pattern: m.saved.Stem, WidthMM: m.saved.Pattern.Width().MM(),
		Placed: make([]placedJSON, 0, len(layout.Placed)), NotPlaced: make([]notPlacedJSON, 0, len(layout.NotPlaced)),
		Left:       leftJSON{layout.Left.From.MM(), layout.Left.Length.MM(), layout.Left.Width.MM()},
		OwnLengths: make([]ownLengthJSON, 0, len(layout.OwnLengths)),
	}
	for _, at := range layout.Placed {
		dry, humid := m.grows(at, movement.Dry), m.grows(at, movement.Humid)
		out.Placed = append(out.Placed, placedJSON{
			Product: at.Product, Copy: at.Copy, Shape: string(at.Shape),
			AlongMM: at.Along.MM(), AcrossMM: at.Across.MM(), SlideMM: at.Slide.MM(),
			BindingStrip: known(at.BindingStrip, at.BindingStrip > 0),
			OutOfRoundMM: outOfRoundJSON{known(dry.Value, dry.Known), known(humid.Value, humid.Known)},
		})
	}
	for _, n := range layout.NotPlaced {
		out.NotPlaced = append(out.NotPlaced, notPlacedJSON{n.Product, n.Copies})
	}
	for _, own := range layout.OwnLengths {
		out.OwnLengths = append(out.OwnLengths, ownLengthJSON{own.Strip, own.Start.MM(), own.Length.MM()})
	}
	return out
}
