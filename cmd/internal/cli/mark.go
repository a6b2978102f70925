package cli

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
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
glue-up. A mixed or turned arrangement can hold more than rows do.

--short-ends says how short each strip could have been for what is cut from it,
and what that saves. It only prints; with --apply the starts and lengths go into
the pattern's file, the one before it kept as .bak.

The exit is 1 where a product does not fit.`

type markFlags struct{ shortEnds, apply bool }

func (a *app) markCommand() *cobra.Command {
	var flags markFlags
	cmd := &cobra.Command{
		Use:         "mark PATTERN",
		Short:       "say where to mark a pattern's products on its panel",
		Long:        markLong,
		Example:     "  oddments mark saltings-round\n  oddments mark saltings-round --short-ends\n  oddments mark ./gifts/trivet.toml --json",
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
	w, err := a.workshop()
	if err != nil {
		return err
	}
	saved, err := w.home.OpenPattern(arg, w.known)
	if err != nil {
		return err
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
	if err == nil {
		return job, nil
	}
	var all []error
	for line := range strings.Lines(err.Error()) { // one line for each thing that is wrong
		field, message, _ := strings.Cut(strings.TrimSpace(line), ": ")
		all = append(all, &problem{Code: codeBadFile, File: saved.File, Field: field, Message: message})
	}
	return work.Job{}, errors.Join(all...)
}

// misfits says which products do not come out of the panel.
func (m marking) misfits() []string {
	r, s := m.workshop.reckoner(), work.SettingsOf(m.workshop.shop)
	var out []string
	for _, c := range work.Cautions(r, m.job, work.Of(r, m.job, s), s, m.unit) {
		if c.Rule == work.RuleFit {
			out = append(out, c.Text)
		}
	}
	return out
}

func (m marking) with(l length.Length) string { return l.With(m.unit) }

func (a *app) printMark(m marking) {
	p, layout := m.saved.Pattern, m.job.Layout
	a.sayPattern(m.saved)
	a.say("glue-up width: %s", m.with(p.Width()))
	if len(p.Products) == 0 {
		a.say("products: none listed; add [[product]] with shape and size to the pattern's file")
	}
	shop := m.workshop.shop
	out := work.MarkOutOf(p, shop.Allowance.Length, layout, shop.Cut.Gap)
	if out.Hook > 0 {
		a.say("hook: the tape on the near end of strip %d, which lies %s from the datum end; the square on edge A, the left edge of strip 1",
			out.Hook, m.with(p.Strips[out.Hook-1].Start))
	}
	for i, product := range p.Products {
		a.say("product %d: %s, %s", i+1, productText(product, m.unit), m.rows(i+1))
	}
	for i, at := range layout.Placed {
		a.say("%s", m.placed(at, out.Marks[i]))
		if rounds := m.outOfRound(at); rounds != "" {
			a.say("product %d, copy %d, %s", at.Product, at.Copy, rounds)
		}
	}
	for _, text := range m.misfits() {
		a.say("does not fit, %s", text)
	}
	for i, b := range out.Blanks {
		a.say("blank %d, for product %d: %s long and %s wide, from %s to %s from the datum end",
			i+1, b.Product, m.with(b.Length), m.with(b.Width), m.with(b.From), m.with(b.From+b.Length))
	}
	a.printLeft(m)
}

func (a *app) sayPattern(saved store.Saved) {
	if saved.Pattern.Name == saved.Stem {
		a.say("pattern: %s", saved.Stem)
		return
	}
	a.say("pattern: %s, %s", saved.Stem, saved.Pattern.Name)
}

// productText gives a product in a few words: round 290 mm, bevel 8 mm (under).
func productText(p pattern.Product, u length.Unit) string {
	text := fmt.Sprintf("%v %s", p.Shape, p.Diameter.With(u))
	if p.Shape != pattern.ShapeRound {
		text = fmt.Sprintf("%v %s x %s", p.Shape, p.Length.With(u), p.Width.With(u))
	}
	if p.Holes > 0 {
		text += fmt.Sprintf(", %s of %s, %s deep", count(p.Holes, "hole"), p.Hole.With(u), p.HoleDepth.With(u))
	}
	if p.Bevel > 0 {
		text += fmt.Sprintf(", bevel %s (%v)", p.Bevel.With(u), p.BevelSide)
	}
	if p.Centre != (pattern.Centre{}) {
		text += fmt.Sprintf(", centred on %v", p.Centre)
	}
	return text
}

// rows says how many copies of a product are placed, and how many rows there are.
func (m marking) rows(number int) string {
	placed := 0
	for _, at := range m.job.Layout.Placed {
		if at.Product == number {
			placed++
		}
	}
	wanted := "as many as the rows hold"
	if n := m.saved.Pattern.Products[number-1].Count; n > 0 {
		wanted = fmt.Sprintf("%d asked for", n)
	}
	for _, b := range m.job.Layout.Bands {
		switch {
		case b.Product == number && b.Staggered:
			return fmt.Sprintf("%s, %d placed; the panel is wide enough for %s, staggered", wanted, placed, count(b.Rows, "row"))
		case b.Product == number:
			return fmt.Sprintf("%s, %d placed; the panel is wide enough for %s", wanted, placed, count(b.Rows, "row"))
		}
	}
	return wanted + ", none placed"
}

func (m marking) placed(at outline.Placed, mark work.Mark) string {
	bound := "bound by what lies before it"
	if at.BindingStrip > 0 {
		bound = fmt.Sprintf("bound by strip %d", at.BindingStrip)
	}
	slide := "it cannot slide"
	if at.Slide > 0 {
		slide = fmt.Sprintf("it may slide %s, to %s from the hook", m.with(at.Slide), m.with(mark.SlidesToFromHook))
	}
	return fmt.Sprintf("product %d, copy %d, row %d: centre %s from the hook, %s from the datum end, %s from edge A; %s; %s",
		at.Product, at.Copy, at.Row, m.with(mark.FromHook), m.with(at.Along), m.with(at.Across), slide, bound)
}

// outOfRound says what the seasons make of a round, and nothing of other shapes.
func (m marking) outOfRound(at outline.Placed) string {
	if at.Shape != outline.Round {
		return ""
	}
	var parts []string
	for _, season := range movement.Seasons() {
		e := m.grows(at, season)
		if !e.Known {
			return "out of round: no figure, a timber has no coefficients"
		}
		parts = append(parts, fmt.Sprintf("%s in the %v season", signed(e.Value, m.unit), season))
	}
	return "out of round, across the grain: " + strings.Join(parts, ", ")
}

func (m marking) grows(at outline.Placed, season movement.Season) work.Estimate {
	return work.OutOfRound(m.workshop.reckoner(), m.saved.Pattern, m.saved.Pattern.Products[at.Product-1], at, season)
}

// signed gives a change of mm millimetres with its sign and unit.
func signed(mm float64, u length.Unit) string {
	text := length.Estimate(mm, u)
	if mm > 0 && text != "0" {
		text = "+" + text
	}
	return text + " " + u.String()
}

func (a *app) printLeft(m marking) {
	p, left := m.saved.Pattern, m.job.Layout.Left
	a.say("left: %s long over the full width of %s, from %s on", m.with(left.Length), m.with(left.Width), m.with(left.From))
	shop := m.workshop.shop
	for _, s := range outline.StillOut(p, shop.Allowance.Length, p.Products, p.Avoids, work.CutOf(shop), m.job.Layout) {
		a.say("still out of it: %d of product %d, in rows", s.Copies, s.Product)
	}
}

func (a *app) printShortEnds(m marking) {
	allowance := m.workshop.shop.Allowance.Length
	_, saving := outline.ShortEnds(m.saved.Pattern, allowance, m.job.Layout)
	for _, own := range m.job.Layout.OwnLengths {
		s := m.saved.Pattern.Strips[own.Strip-1]
		a.say("short ends, strip %d: starts at %s, %s long; now %s and %s", own.Strip, m.with(own.Start), m.with(own.Length),
			m.with(s.Start), m.with(m.saved.Pattern.StripLength(s, allowance)))
	}
	a.say("short ends: %s of strips saved, %.0f cm3 of finished timber", m.with(saving.Length), saving.CM3)
	if product := m.staggered(); product > 0 {
		a.say("short ends: product %d stands in staggered rows, which need a panel without ragged ends: do not shorten it", product)
	}
}

// staggered gives the first product that stands in staggered rows, or 0.
func (m marking) staggered() int {
	for _, b := range m.job.Layout.Bands {
		if b.Staggered {
			return b.Product
		}
	}
	return 0
}

// refuseToApply says why the short ends must not go into the pattern.
func (m marking) refuseToApply() error {
	if product := m.staggered(); product > 0 {
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
	var err error
	if home := m.workshop.home; home.Owns(m.saved) {
		_, err = home.SavePattern(m.saved.Stem, p, m.saved.Version)
		err = errors.Join(err, home.Close())
	} else {
		_, err = store.SavePatternFile(m.saved.File, p, m.saved.Version)
	}
	if err == nil && !a.json {
		a.say("saved: %s, and what it was before as .bak beside it", m.saved.File)
	}
	return err
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
			Product: at.Product, Copy: at.Copy, Shape: at.Shape.String(),
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
